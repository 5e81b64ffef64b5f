"""A smaller pipe in the hole than in the line, twin barrels, and what each inflow brings."""

from __future__ import annotations

import pytest
from study_cases import (
    CLEAN,
    CURED,
    FAULTY,
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
from permitkit.hydraulics.rain import RUNOFF, leader_flow, round_of_same_area
from permitkit.load.rule_sheet import load_layers
from permitkit.model.verdict import Outcome
from permitkit.model.words import RunoffSurface, choices
from permitkit.study.water.line import INSERT

THREE = 'length = "41 ft 6 in"\npipe = "3 in Sch 40 PVC"'
FOUR_LINE = (THREE, 'length = "41 ft 6 in"\npipe = "4 in SDR 35 PVC"')
LAST = "N1 to outlet"


class TestInsert:
    """A 4 in line through a 4 in hole by a 3 in pipe."""

    def test_the_pipe_in_the_hole_is_a_reach_of_its_own_through_the_curb(self) -> None:
        study = study_with(CLEAN, FOUR_LINE)
        insert, line = study.water.reaches[:2]

        assert (insert.name, line.name) == ("insert to outlet", LAST)
        assert insert.pipe.key == "3-sch40"
        assert line.pipe.key == "4-sdr35"
        assert insert.length_m / INCH == pytest.approx(6.0)
        assert (insert.length_m + line.length_m) / FOOT == pytest.approx(41.5)

    def test_the_inverts_stay_in_line_as_a_reducer_flush_below_has_them(self) -> None:
        same, fitted = study_of(CLEAN), study_with(CLEAN, FOUR_LINE)
        insert, line = fitted.water.reaches[:2]

        assert insert.slope == pytest.approx(line.slope)
        assert insert.lower_invert_m == pytest.approx(same.water.reaches[0].lower_invert_m)
        assert line.upper_invert_m == pytest.approx(same.water.reaches[0].upper_invert_m)

    def test_the_hole_is_that_of_the_pipe_in_it(self) -> None:
        curb = study_with(CLEAN, FOUR_LINE).curb

        assert curb is not None
        assert curb.hole is not None
        assert curb.hole.pipe_outside_m / INCH == pytest.approx(3.5)
        assert curb.hole.gap_m / INCH == pytest.approx(0.25)

    def test_the_narrowing_costs_a_little_head_at_its_node(self) -> None:
        study = study_with(CLEAN, FOUR_LINE)
        node = node_at(study, INSERT)

        assert node.opening_m is None
        above, below = study.water.reaches[1], study.water.reaches[0]
        assert above.grade_low_m >= below.grade_high_m - 1e-9

    def test_a_town_that_bars_a_shrinking_bore_sees_it(self) -> None:
        job = altered(CLEAN, FOUR_LINE)
        said = [v for v in judge(job, load_layers(job.town)).verdicts if v.check == "bore-shrinks"]

        assert [(v.outcome, v.item) for v in said] == [(Outcome.FAILS, f"at {INSERT}")]

    def test_the_last_reach_and_the_pipe_in_the_hole_need_their_fall_together(self) -> None:
        one, other = study_of(CLEAN), study_with(CLEAN, FOUR_LINE)

        assert other.water.fall.spare_m == pytest.approx(one.water.fall.spare_m)
        highs = [study.curb.hole.window.advice_highs[0].height_m for study in (one, other)]  # type: ignore[union-attr]
        assert highs[1] == pytest.approx(highs[0], abs=0.01 * INCH)

    def test_the_line_through_the_same_pipe_has_no_insert(self) -> None:
        assert INSERT not in {node.name for node in study_of(CLEAN).water.nodes}

    def test_a_reach_shorter_than_the_curb_is_deep_is_told(self) -> None:
        short = FOUR_LINE[1].replace("41 ft 6 in", "6 in")

        (fault,) = faults_with(CLEAN, (THREE, short))

        assert fault.where == "drain.reach.length"
        assert "the curb's depth of 6 in" in fault.expected

    def test_two_lines_meet_before_the_hole(self) -> None:
        old = 'lower = "N1"\nlength = "25 ft"\npipe = "3 in Sch 40 PVC"'
        line = 'lower = "outlet"\nlength = "66 ft"\npipe = "4 in SDR 35 PVC"'
        study = study_with(CLEAN, (old, line))
        (insert,) = [r for r in study.water.reaches if r.lower == "outlet"]

        assert insert.flow_m3s == pytest.approx(study.water.total_m3s)
        assert {r.lower for r in study.water.reaches if r is not insert} == {INSERT}

    def test_an_existing_hole_may_take_a_smaller_pipe_too(self) -> None:
        kind = ('kind = "core"', 'kind = "existing hole"')

        assert study_with(CLEAN, FOUR_LINE, kind).water.reaches[0].upper == INSERT


def test_twin_lines_share_the_flow_and_their_insert_is_twin_as_well() -> None:
    job = altered(CURED, ('pipe = "3 in Sch 40 PVC"\nbit', 'pipe = "3 in D2729 PVC"\nbit'))
    insert, line = study_job_of(job).water.reaches[:2]

    assert (insert.barrels, line.barrels) == (2, 2)
    assert insert.pipe.key == "3-d2729"


class TestInflows:
    """What each inflow brings, and its leaders."""

    def test_the_job_and_the_table_name_the_same_surfaces(self) -> None:
        assert choices(RunoffSurface) == tuple(RUNOFF)

    def test_a_surface_runs_off_by_the_upper_end_of_its_row(self) -> None:
        yard = 'kind = "yard"\nsurface = "lawn, heavy soil, steep"\narea = "380 sq ft"'
        inflow = study_with(CLEAN, ('kind = "roof"\narea = "380 sq ft"', yard)).water.inflows[0]

        assert inflow.runoff == 0.35
        assert inflow.runoff_source.startswith("lawn, heavy soil, steep: ASCE")

    def test_a_coefficient_keeps_its_own_source(self) -> None:
        yard = 'kind = "yard"\nrunoff = "50 %"\nrunoff_source = "handbook"\narea = "380 sq ft"'
        inflow = study_with(CLEAN, ('kind = "roof"\narea = "380 sq ft"', yard)).water.inflows[0]

        assert (inflow.runoff, inflow.runoff_source) == (0.5, "handbook")

    def test_a_roof_runs_off_whole(self) -> None:
        inflow = study_of(CLEAN).water.inflows[0]

        assert (inflow.runoff, inflow.runoff_source) == (1.0, "all of it, as from a roof")

    def test_a_pump_sends_as_much_as_a_roof_of_its_codes_area(self) -> None:
        sump = study_of(CLEAN).water.inflows[2]

        assert sump.pump_m3s / GPM == pytest.approx(12.0)
        assert (sump.pump_roof_m2 or 0) / FOOT**2 == pytest.approx(12 * 24.06, rel=1e-3)

    def test_without_a_pump_or_without_rain_there_is_no_such_roof(self) -> None:
        assert study_of(CLEAN).water.inflows[0].pump_roof_m2 is None

    @pytest.mark.parametrize(
        ("leader", "bore_in"),
        [
            ('leader = "3 in"', 3.0),
            ('leader = "2 in"\nleader_depth = "3 in"', 2.764),
        ],
    )
    def test_a_leader_takes_what_its_bore_takes(self, leader: str, bore_in: float) -> None:
        roof = 'kind = "roof"\narea = "380 sq ft"'
        inflow = study_with(CLEAN, (roof, f"{roof}\n{leader}\nleaders = 2")).water.inflows[0]

        assert inflow.leader_m3s == pytest.approx(2 * leader_flow(bore_in * INCH), rel=1e-3)
        assert (inflow.leader_m2 or 0) == pytest.approx(
            2 * 0.7854 * (bore_in * INCH) ** 2, rel=1e-3
        )

    def test_a_flat_leader_counts_by_its_area(self) -> None:
        assert round_of_same_area(2 * INCH, 3 * INCH) / INCH == pytest.approx(2.764, abs=1e-3)

    @pytest.mark.parametrize(
        ("more", "where"),
        [
            ('runoff = "50 %"', "runoff_source"),
            ('runoff = "50 %"\nrunoff_source = "x"\nsurface = "brick"', "runoff"),
            ('leader_depth = "3 in"', "leader"),
            ('leader = "0 in"', "leader"),
            ('leader = "2 in"\nleader_depth = "0 in"', "leader_depth"),
        ],
    )
    def test_what_is_stated_by_half_or_twice_is_told(self, more: str, where: str) -> None:
        roof = 'kind = "roof"\narea = "380 sq ft"'

        with pytest.raises(InputError) as caught:
            altered(CLEAN, (roof, f"{roof}\n{more}"))

        assert [f.where.rpartition("].")[2] for f in caught.value.faults] == [where]


def test_the_faulty_job_names_the_pipe_it_lays() -> None:
    assert study_of(FAULTY).water.reaches[0].upper != INSERT
