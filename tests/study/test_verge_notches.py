"""Water trapped between walk and curb, let out by notches with no pipe."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import (
    FOOT,
    GPM,
    INCH,
    altered,
    faults_with,
    node_at,
    study_job_of,
    study_of,
    study_with,
)

from permitkit.checks.judge import judge
from permitkit.errors import InputError
from permitkit.hydraulics.opening import notch_flow
from permitkit.load.rule_sheet import load_layers
from permitkit.study.water.hollow import Hollow, Sawn

if TYPE_CHECKING:
    from permitkit.study.results import VergeStudy

VERGE = "sorrel-flats-verge"
SAWN = Sawn(2 * INCH, 0.15, 30.5)


def verge_of(name: str = VERGE, *changes: tuple[str, str]) -> VergeStudy:
    study = study_job_of(altered(name, *changes)) if changes else study_of(name)
    assert study.water.verge is not None
    return study.water.verge


def test_the_job_of_three_notches_is_clean() -> None:
    job = altered(VERGE)

    assert judge(job, load_layers(job.town)).ready


def test_nothing_flows_in_pipes_and_all_of_it_leaves_at_the_outlet() -> None:
    water = study_of(VERGE).water

    assert water.reaches == ()
    assert water.outlet_flow_m3s == pytest.approx(water.total_m3s)
    assert water.total_m3s / GPM == pytest.approx(
        3.2 * (620 + 0.95 * 240 + 0.22 * 1440) / 96.25, rel=1e-3
    )


def test_two_notches_would_do_and_the_third_is_to_spare() -> None:
    verge = verge_of()

    assert (verge.needed, verge.count) == (2, 3)
    assert verge.passes_m3s > verge.flow_m3s


def test_the_notches_stand_evenly_about_the_outlet() -> None:
    curb = study_of(VERGE).curb

    assert curb is not None
    assert [round(at / FOOT, 6) for at in curb.stations_m] == [20.0, 30.0, 40.0]


def test_a_joint_recorded_as_a_thing_along_the_curb_counts_beside_the_two_measured() -> None:
    joint = '[[feature]]\nkind = "curb joint"\nnear = "31 ft"\n\n[[feature]]\nkind = "drive"'
    curb = study_with(VERGE, ('[[feature]]\nkind = "drive"', joint)).curb

    assert curb is not None
    assert [round(at / FOOT, 6) for at in curb.joints_m] == [30.0, 40.0, 31.0]


def test_without_any_joint_none_is_told() -> None:
    left = 'joint_left = "0 in"                 # the middle notch stands on a joint\n'
    curb = study_with(VERGE, (left, ""), ('joint_right = "10 ft"\n', "")).curb

    assert curb is not None
    assert (curb.joints_m, curb.edge_to_joint_m) == ((), None)


def test_the_hollow_is_a_node_that_spills_over_the_walk() -> None:
    node = node_at(study_of(VERGE), "verge")

    assert (node.opening_m or 0.0) / FOOT == pytest.approx(100.62)
    assert node.opening_kind == "walk's edge"
    assert node.flowing_m["running"] >= node.still_m["running"]
    assert node.still_m["curb-full"] / FOOT == pytest.approx(100 + 4 / 12)


def test_a_walk_whose_level_is_given_once_is_the_brim() -> None:
    spill = 'spill = "100.62 ft"                 # the walk\'s edge, over which it would go\n'
    node = node_at(study_job_of(altered(VERGE, (spill, ""))), "verge")

    assert (node.opening_m or 0.0) / FOOT == pytest.approx(100.62)


def test_floors_below_the_lowest_ground_leave_nothing_standing() -> None:
    assert study_of(VERGE).water.standing == ()


def test_floors_above_the_lowest_ground_leave_a_pool() -> None:
    low = ('low = "100.20 ft"', 'low = "100.00 ft"')
    (pool,) = study_job_of(altered(VERGE, low)).water.standing

    assert pool.where == "verge"
    assert pool.depth_m / INCH == pytest.approx(0.25 + 0.02 * 12)
    assert pool.length_m / FOOT == pytest.approx(60)
    wide = 4.0 * (0.49 / 12) / 0.62
    assert pool.volume_m3 / FOOT**3 == pytest.approx(0.49 / 12 * wide / 2 * 60)


def test_no_number_of_notches_drains_a_hollow_below_their_floors() -> None:
    high = ('floor_toe = "1/4 in"                # above the flow line', 'floor_toe = "3 7/8 in"')
    verge = verge_of(VERGE, high)

    assert verge.needed is None
    assert verge.passes_m3s == 0.0


def test_more_than_a_street_full_of_notches_is_none() -> None:
    verge = verge_of(VERGE, ('area = "620 sq ft"', 'area = "90000 sq ft"'))

    assert verge.needed is None


def test_without_a_rule_on_freeboard_the_brim_alone_counts() -> None:
    job = altered(VERGE)
    sheets = tuple(sheet for sheet in load_layers(job.town) if sheet.kind != "town")

    verge = judge(job, sheets).study.water.verge

    assert verge is not None
    assert verge.brim_m / FOOT == pytest.approx(100 + 4 / 12)


def test_the_fall_is_from_the_lowest_ground_to_the_toe() -> None:
    fall = study_of(VERGE).water.fall

    assert fall.available_m / INCH == pytest.approx(0.20 * 12 - 0.25)
    assert fall.needs_m == ()


@pytest.mark.parametrize(
    ("change", "where"),
    [
        (('kind = "notch"', 'kind = "existing hole"'), "outlet.kind"),
        (('low = "100.20 ft"', 'low = "100.70 ft"'), "drain.verge.spill"),
        (('length = "60 ft"', 'length = "0 ft"'), "drain.verge.length"),
        (('spacing = "10 ft"\nwidth', "width"), "outlet.spacing"),
        (
            (
                '[[drain.inflow]]\nname = "walk"',
                (
                    '[[drain.node]]\nname = "N"\nground = "100 ft"\ninvert = "99 ft"\n\n'
                    '[[drain.inflow]]\nname = "walk"'
                ),
            ),
            "drain.node",
        ),
        (('node = "verge"\nkind = "roof"', 'node = "lawn"\nkind = "roof"'), "drain.inflow[1].node"),
    ],
)
def test_what_does_not_go_with_a_verge_is_told(change: tuple[str, str], where: str) -> None:
    with pytest.raises(InputError) as caught:
        altered(VERGE, change)

    assert [fault.where.rpartition(": ")[2] for fault in caught.value.faults] == [where]


def test_a_spill_no_higher_than_the_ground_is_told_at_the_walk_where_that_is_it() -> None:
    spill = 'spill = "100.62 ft"                 # the walk\'s edge, over which it would go\n'

    with pytest.raises(InputError) as caught:
        altered(VERGE, (spill, ""), ('low = "100.20 ft"', 'low = "100.62 ft"'))

    assert caught.value.faults[0].where.endswith(": walk.level_curb_side")


def test_a_clean_job_has_no_faults_of_the_study() -> None:
    assert faults_with(VERGE) == ()


class TestSawn:
    """One notch as the water meets it."""

    def test_a_free_notch_needs_the_head_of_the_books_weir_and_its_entrance(self) -> None:
        head = 0.05
        flow = notch_flow(SAWN.width_m, SAWN.taper, head)

        level = SAWN.level_m(flow)

        assert SAWN.floor_m + head < level < SAWN.floor_m + 1.25 * head

    def test_without_flow_the_level_is_the_floor_or_the_gutter(self) -> None:
        assert SAWN.level_m(0.0) == SAWN.floor_m
        assert SAWN.level_m(0.0, 30.4) == SAWN.floor_m
        assert SAWN.level_m(0.0, 30.6) == 30.6

    def test_a_gutter_below_critical_depth_changes_nothing(self) -> None:
        assert SAWN.level_m(0.001, 30.501) == SAWN.level_m(0.001)

    def test_nothing_passes_below_the_floor_or_below_the_gutter(self) -> None:
        assert SAWN.passes_m3s(30.49) == 0.0
        assert SAWN.passes_m3s(30.55, 30.56) == 0.0

    @given(st.floats(1e-5, 0.01), st.floats(1.01, 3.0), st.none() | st.floats(30.3, 30.7))
    def test_more_flow_needs_a_higher_level(
        self, flow: float, more: float, gutter: float | None
    ) -> None:
        assert SAWN.level_m(flow * more, gutter) >= SAWN.level_m(flow, gutter) - 1e-9

    @given(st.floats(1e-5, 0.01), st.none() | st.floats(30.3, 30.7))
    def test_what_passes_under_its_own_level_is_the_flow(
        self, flow: float, gutter: float | None
    ) -> None:
        level = SAWN.level_m(flow, gutter)

        assert SAWN.level_m(SAWN.passes_m3s(level, gutter), gutter) == pytest.approx(level)

    @given(st.floats(1e-4, 0.01), st.floats(30.3, 30.7), st.floats(0.001, 0.1))
    def test_a_deeper_gutter_never_lowers_the_water_behind_the_curb(
        self, flow: float, gutter: float, more: float
    ) -> None:
        assert SAWN.level_m(flow, gutter + more) >= SAWN.level_m(flow, gutter) - 1e-9


def test_a_hollow_holds_nothing_at_its_lowest_and_grows_evenly_beyond_its_edge() -> None:
    hollow = Hollow(10.0, 10.2, 18.0, 1.2)

    assert hollow.held_m3(9.0) == 0.0
    assert hollow.held_m3(10.2) == pytest.approx(0.2 * 1.2 / 2 * 18)
    assert hollow.held_m3(10.4) == pytest.approx(0.4 * 1.2 / 2 * 18)
