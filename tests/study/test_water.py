"""The water of the demo jobs, to the digits their designers worked out by hand."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import (
    CLEAN,
    CUBIC_FOOT,
    CURED,
    EMITTER,
    FAULTY,
    FOOT,
    GALLON,
    GPM,
    INCH,
    NOTCH,
    altered,
    demo,
    in_metric,
    reach,
    rules_saying,
    study_job_of,
    study_of,
    study_with,
)

from permitkit.study.results import WATERS
from permitkit.study.study import study_job
from permitkit.study.water.rain import rain_basis
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    import random

    from permitkit.study.results import NodeWater, Study


def at(study: Study, name: str) -> NodeWater:
    return next(node for node in study.water.nodes if node.name == name)


def near(value: float, printed: str) -> bool:
    """Tell whether a value comes out as printed, to half a unit of the last digit."""
    digit: float = 10.0 ** -len(printed.partition(".")[2])
    return abs(value - float(printed)) <= 0.5001 * digit


class TestClean:
    """Roof and sump water to a core in a barrier curb."""

    def test_rain_on_each_roof_and_the_pump_make_the_design_flow(self) -> None:
        water = study_of(CLEAN).water

        assert [round(inflow.flow_m3s / GPM, 1) for inflow in water.inflows] == [15.8, 11.6, 12.0]
        assert near(water.total_m3s / GPM, "39.4")
        assert water.outlet_flow_m3s == pytest.approx(water.total_m3s)

    def test_the_rain_is_the_towns_with_its_whole_basis(self) -> None:
        rain = study_of(CLEAN).water.rain

        assert rain.intensity_ms == pytest.approx(4.0 * INCH / 3600)
        assert (rain.period, rain.duration, rain.missing) == ("25-year", "15 min", ())
        assert "Millrace" in rain.source

    def test_slopes_and_capacity_are_those_worked_by_hand(self) -> None:
        lower, upper = study_of(CLEAN).water.reaches

        assert near(lower.slope * 100, "1.033")
        assert near(upper.slope * 100, "1.040")
        assert near(lower.full_flow_m3s / GPM, "49.4")
        assert near(lower.fullness or 0, "0.67")

    def test_the_line_starts_above_the_running_gutter(self) -> None:
        water = study_of(CLEAN).water

        assert near(water.gutter_levels_m["running"] / FOOT, "99.75")
        assert near((water.outlet_grade_m or 0) / FOOT, "99.79")

    def test_normal_depth_at_the_house_corner_is_as_worked_by_hand(self) -> None:
        lower = reach(study_of(CLEAN), "N1 to outlet")

        assert near((lower.upper_invert_m + (lower.normal_depth_m or 0)) / FOOT, "100.17")

    def test_curb_full_water_backs_up_by_friction_and_stays_below_every_opening(self) -> None:
        corner, end = at(study_of(CLEAN), "N1"), at(study_of(CLEAN), "N2")

        assert corner.flowing_m["curb-full"] / FOOT == pytest.approx(100.37, abs=0.03)
        assert end.flowing_m["curb-full"] / FOOT == pytest.approx(100.40, abs=0.04)
        assert (corner.opening_m or 0) / FOOT == pytest.approx(101.20)
        assert end.opening_m is None

    def test_no_water_stands(self) -> None:
        assert study_of(CLEAN).water.standing == ()

    def test_a_reach_over_the_line_lies_in_both_places_under_every_surface_it_meets(self) -> None:
        lower, upper = study_of(CLEAN).water.reaches

        assert lower.places == ("right-of-way", "private")
        assert lower.surfaces == ("curb", "verge", "walk", "lawn")
        assert (upper.places, upper.surfaces) == (("private",), ("lawn",))

    def test_the_fall_is_what_the_two_reaches_need_and_the_rest_is_spare(self) -> None:
        fall = study_of(CLEAN).water.fall
        needs = dict(fall.needs_m)

        assert fall.available_m / INCH == pytest.approx((100.26 - 99.5) * 12 - 0.854, abs=1e-9)
        assert needs["N2 to N1"] / FOOT == pytest.approx(25 * 0.005)
        assert needs["N1 to outlet"] / FOOT == pytest.approx(11.5 * 0.01 + 30 * 0.005)
        assert fall.spare_m == pytest.approx(fall.available_m - sum(needs.values()))


class TestFaulty:
    """A line too large, too flat, and backward by the patio."""

    def test_the_flow_is_half_as_much_again_as_the_first_reach_carries(self) -> None:
        first = reach(study_of(FAULTY), "R to outlet")

        assert near(first.flow_m3s / GPM, "90.3")
        assert first.full_flow_m3s / GPM == pytest.approx(63.66, abs=0.01)
        assert first.surcharged
        assert first.normal_depth_m is None
        assert first.fullness is None

    def test_slopes_come_from_the_levels(self) -> None:
        slopes = [round(r.slope * 100, 2) for r in study_of(FAULTY).water.reaches]

        assert slopes == [0.41, -0.33, 0.6]

    def test_a_reach_that_ends_on_the_right_of_way_line_is_all_in_it(self) -> None:
        first, second, _ = study_of(FAULTY).water.reaches

        assert (first.places, second.places) == (("right-of-way",), ("private",))

    def test_an_inch_and_a_third_of_water_stands_about_the_patio(self) -> None:
        (pool,) = study_of(FAULTY).water.standing

        assert pool.where == "N1"
        assert near(pool.depth_m / INCH, "1.3")
        assert pool.station_low_m / FOOT == pytest.approx(11.5)
        assert pool.station_high_m / FOOT == pytest.approx(45 + 0.11 / 0.006)
        assert pool.length_m / FOOT == pytest.approx(33.5 + 0.11 / 0.006)
        assert near(pool.volume_m3 / GALLON, "4.0")

    def test_design_flow_rises_over_the_patio_grate(self) -> None:
        patio, line = at(study_of(FAULTY), "N1"), reach(study_of(FAULTY), "N1 to R")

        assert near(line.grade_high_m / FOOT, "100.23")
        assert patio.flowing_m["free"] > (patio.opening_m or math.inf)

    def test_the_curb_full_street_stands_an_inch_over_the_grate_without_any_flow(self) -> None:
        patio = at(study_of(FAULTY), "N1")

        assert near(patio.still_m["curb-full"] / FOOT, "100.00")
        assert near((patio.still_m["curb-full"] - (patio.opening_m or 0)) / INCH, "1")

    def test_the_fall_budget_is_short(self) -> None:
        assert study_of(FAULTY).water.fall.spare_m < 0


class TestCured:
    """Two small lines side by side."""

    def test_two_barrels_share_the_flow(self) -> None:
        (line,) = study_of(CURED).water.reaches

        assert line.barrels == 2
        assert near(line.flow_m3s / 2 / GPM, "45.1")
        assert line.full_flow_m3s / 2 / GPM == pytest.approx(48.6, abs=0.6)
        assert not line.surcharged

    def test_two_like_reaches_are_one_with_two_barrels(self) -> None:
        job = demo(CURED)
        single = job.drain.reach[0].model_copy(update={"barrels": 1})
        drain = job.drain.model_copy(update={"reach": (single, single)})

        twice = study_job_of(job.model_copy(update={"drain": drain}))

        assert twice.water.reaches == study_of(CURED).water.reaches
        assert twice.water.nodes == study_of(CURED).water.nodes


class TestNotch:
    """A flat steel tube to a notch in a rolled curb."""

    def test_flows_and_capacities(self) -> None:
        tube, pipe = study_of(NOTCH).water.reaches

        assert near(tube.flow_m3s / GPM, "31.3")
        assert tube.full_flow_m3s / GPM == pytest.approx(36.4, abs=0.4)
        assert near(pipe.full_flow_m3s / GPM, "48.6")

    def test_the_pipe_ends_at_the_back_of_the_curb_on_the_notch_floor(self) -> None:
        tube = study_of(NOTCH).water.reaches[0]

        assert tube.station_low_m / FOOT == pytest.approx(1.0)
        assert near(tube.lower_invert_m / FOOT, "100.062")

    def test_the_gutter_waters_and_the_line_at_the_house(self) -> None:
        water = study_of(NOTCH).water

        assert near(water.gutter_levels_m["running"] / FOOT, "100.167")
        assert near(water.gutter_levels_m["curb-full"] / FOOT, "100.333")
        assert water.reaches[1].grade_high_m / FOOT == pytest.approx(100.55, abs=0.01)
        assert at(study_of(NOTCH), "house").opening_m == pytest.approx(101.25 * FOOT)


class TestEmitter:
    """An outlet in the lawn, with its weep and pit."""

    def test_head_over_the_rim_doubles_under_the_lid(self) -> None:
        emitter = study_of(EMITTER).water.emitter

        assert emitter is not None
        assert near(emitter.head_open_m / INCH, "0.70")
        assert emitter.head_lid_m == pytest.approx(2 * emitter.head_open_m)
        assert near(emitter.water_level_m / FOOT, "100.47")

    def test_friction_adds_a_hundredth_of_a_foot(self) -> None:
        line = study_of(EMITTER).water.reaches[0]

        assert near((line.grade_high_m - line.grade_low_m) / FOOT, "0.01")

    def test_the_line_holds_what_the_weep_empties_and_the_pit_takes(self) -> None:
        emitter = study_of(EMITTER).water.emitter

        assert emitter is not None
        assert near(emitter.held_m3 / CUBIC_FOOT, "1.72")
        assert near(emitter.held_m3 / GALLON, "12.9")
        assert near((emitter.weep_empties_s or 0) / 60, "22")
        assert near((emitter.pit_holds_m3 or 0) / CUBIC_FOOT, "2.4")

    def test_without_a_weep_or_a_whole_pit_neither_is_told(self) -> None:
        job = demo(EMITTER)
        assert job.outlet.emitter is not None
        bare = job.outlet.emitter.model_copy(update={"weep": None, "pit_voids": None})
        outlet = job.outlet.model_copy(update={"emitter": bare})
        emitter = study_job_of(job.model_copy(update={"outlet": outlet})).water.emitter

        assert emitter is not None
        assert (emitter.weep_empties_s, emitter.pit_holds_m3) == (None, None)

    def test_water_held_to_the_rim_is_no_belly(self) -> None:
        assert study_of(EMITTER).water.standing == ()

    def test_the_whole_run_lies_on_the_lot(self) -> None:
        assert [r.places for r in study_of(EMITTER).water.reaches] == [("private",)]

    @pytest.mark.parametrize(("lid", "times"), [("open", 1.0), ("grate", 2 ** (2 / 3))])
    def test_another_lid_takes_another_head(self, lid: str, times: float) -> None:
        study = study_with(EMITTER, ('lid_loss = "pop-up lid"', f'lid_loss = "{lid}"'))
        emitter = study.water.emitter

        assert emitter is not None
        assert emitter.head_lid_m == pytest.approx(times * emitter.head_open_m)


class TestRain:
    """Where the rain comes from, and what its basis lacks."""

    def test_the_jobs_own_rain_counts_where_the_sheet_is_silent(self) -> None:
        table = '[rain]\nintensity = "2.0 in/hr"\nperiod = "10-year"\n\n[outlet]\nkind = "core"'
        job = altered(CLEAN, ('[outlet]\nkind = "core"', table))

        rain = rain_basis(job, rules_saying(""))

        assert rain.intensity_ms == pytest.approx(2.0 * INCH / 3600)
        assert rain.missing == ("duration", "source")

    def test_without_any_rain_the_pump_alone_flows_and_all_of_the_basis_is_missing(self) -> None:
        study = study_job(demo(CLEAN), rules_saying(""))

        assert study.water.rain.missing == ("intensity", "return period", "duration", "source")
        assert near(study.water.total_m3s / GPM, "12.0")

    def test_half_of_a_wall_counts_with_its_roof(self) -> None:
        roof = 'kind = "roof"\narea = "380 sq ft"'
        study = study_with(CLEAN, (roof, roof + '\nwall_area = "100 sq ft"'))

        assert study.water.inflows[0].area_m2 / FOOT**2 == pytest.approx(430)

    def test_a_yard_runs_off_by_its_coefficient(self) -> None:
        yard = 'kind = "yard"\nrunoff = "50 %"\nrunoff_source = "handbook"\narea = "380 sq ft"'
        study = study_with(CLEAN, ('kind = "roof"\narea = "380 sq ft"', yard))

        assert near(study.water.inflows[0].flow_m3s / GPM, "7.9")

    def test_the_towns_gutter_depth_goes_before_the_jobs(self) -> None:
        rules = rules_saying('gutter.depth = { at_most = "4 in", cite = "pw 1" }')
        levels = study_job(demo(CLEAN), rules).water.gutter_levels_m

        assert (levels["running"] - levels["free"]) / INCH == pytest.approx(4.0)


TREE = """
[[drain.node]]
name = "L"
ground = "100.90 ft"
invert = "100.30 ft"

[[drain.node]]
name = "K"
ground = "100.95 ft"
invert = "100.45 ft"

[[drain.reach]]
upper = "L"
lower = "N1"
length = "12 ft"
pipe = "3 in Sch 40 PVC"

[[drain.reach]]
upper = "K"
lower = "L"
length = "9 ft"
pipe = "3 in Sch 40 PVC"

[[drain.inflow]]
name = "side downspout"
node = "K"
kind = "roof"
area = "120 sq ft"

# Ground along the run, from the curb face."""
BRANCHED = altered(CLEAN, ("\n# Ground along the run, from the curb face.", TREE))


class TestSurfaces:
    """What lies over a reach."""

    @pytest.mark.parametrize(
        ("own", "found"),
        [
            ("lawn", ("curb", "verge", "walk", "lawn")),
            ("walk", ("curb", "verge", "walk", "lawn")),
            ("drive", ("curb", "verge", "walk", "drive")),
            ("planting", ("curb", "verge", "walk", "planting")),
        ],
    )
    def test_behind_the_walk_a_reach_lies_under_its_own_surface(
        self, own: str, found: tuple[str, ...]
    ) -> None:
        job = demo(CLEAN)
        upper, lower = job.drain.reach
        reaches = (upper, lower.model_copy(update={"surface": own}))
        drain = job.drain.model_copy(update={"reach": reaches})

        assert study_job_of(job.model_copy(update={"drain": drain})).water.reaches[0].surfaces == (
            found
        )

    def test_a_walk_that_is_part_of_a_driveway_is_a_drive_as_well(self) -> None:
        job = demo(CLEAN)
        walk = job.walk.model_copy(update={"use": "driveway"})
        study = study_job_of(job.model_copy(update={"walk": walk}))

        assert study.water.reaches[0].surfaces == ("curb", "verge", "walk", "drive", "lawn")

    def test_a_walk_at_the_curb_has_no_verge(self) -> None:
        job = demo(CLEAN)
        verge = job.verge.model_copy(update={"width": measure(0, "ft", Kind.LENGTH)})
        study = study_job_of(job.model_copy(update={"verge": verge}))

        assert study.water.reaches[0].surfaces == ("curb", "walk", "lawn")
        assert study.cut.slab[0].station_m / FOOT == pytest.approx(0.5)


class TestTree:
    """A run with a lateral."""

    def test_flows_add_downstream(self) -> None:
        study = study_job_of(BRANCHED)
        flows = {r.name: r.flow_m3s for r in study.water.reaches}

        assert flows["K to L"] == flows["L to N1"]
        assert flows["N1 to outlet"] == pytest.approx(study.water.total_m3s)

    def test_the_trunk_is_the_longest_way_and_stations_follow_each_branch(self) -> None:
        study = study_job_of(BRANCHED)
        stations = {node.name: node.station_m / FOOT for node in study.water.nodes}

        assert stations["K"] == pytest.approx(41.5 + 12 + 9)
        assert [name for name, _ in study.water.fall.needs_m] == ["N2 to N1", "N1 to outlet"]

    def test_an_opening_not_given_is_the_ground(self) -> None:
        lateral = at(study_job_of(BRANCHED), "L")

        assert (lateral.opening_m, lateral.opening_kind) == (lateral.ground_m, "ground")

    @given(st.randoms(use_true_random=False))
    def test_the_order_of_nodes_and_reaches_does_not_matter(self, chance: random.Random) -> None:
        drain = BRANCHED.drain
        mixed = {
            name: tuple(chance.sample(parts, len(parts)))
            for name, parts in (("node", drain.node), ("reach", drain.reach))
        }
        job = BRANCHED.model_copy(update={"drain": drain.model_copy(update=mixed)})

        assert study_job_of(job).water == study_job_of(BRANCHED).water

    def test_a_lateral_that_holds_water_is_a_pool_of_its_own(self) -> None:
        study = study_with(
            CLEAN,
            (
                "\n# Ground along the run, from the curb face.",
                TREE.replace('invert = "100.45 ft"', 'invert = "100.20 ft"'),
            ),
        )

        assert [pool.where for pool in study.water.standing] == ["K"]
        assert near(study.water.standing[0].depth_m / INCH, "1.2")


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_the_same_job_in_metres_gives_the_same_water(name: str) -> None:
    metric = in_metric(demo(name))

    assert asdict(study_job_of(metric).water) == asdict(study_of(name).water)


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_every_number_of_the_water_is_finite(name: str) -> None:
    water = study_of(name).water
    levels = [
        level
        for node in water.nodes
        for found in (node.flowing_m, node.still_m)
        for level in found.values()
    ]

    assert all(map(math.isfinite, levels))
    assert all(set(node.flowing_m) == set(WATERS) for node in water.nodes)


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_a_higher_gutter_never_lowers_the_water(name: str) -> None:
    for node in study_of(name).water.nodes:
        for levels in (node.flowing_m, node.still_m):
            free, running, full = (levels[water] for water in WATERS)
            assert free <= running <= full
