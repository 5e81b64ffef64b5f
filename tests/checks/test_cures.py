"""What would make a failing line pass: each change is a job, computed and judged anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from builder import BARRED, CLEAN, EMITTER, FAULTY, GONE, NOTCH, fitted, rule, sheets

from permitkit.checks.catalogue import CHECKS
from permitkit.checks.changes import Change, changes
from permitkit.checks.cures import COMES_WITH, CURABLE, LINE, Cure, find_cures, line_faults
from permitkit.checks.judge import judge
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from collections.abc import Mapping

LONG_ROOF = {"drain.inflow.0.area": "1200 sq ft"}
HIGH_HOLE = {"outlet.hole_bottom": "1 in"}
BACKWARD = {"drain.node.0.invert": "99.99 ft"}
BELLY = {"drain.node.1.invert": "99.55 ft"}
LEVEL = {"drain.node.0.invert": "100.01 ft", "drain.node.1.invert": "99.80 ft"}


def cures(changed: Mapping[str, object], base: str = CLEAN, rules: str = "") -> tuple[Cure, ...]:
    bench = fitted(base, changed, rules)
    return find_cures(bench.job, sheets(bench.job, rules))


def offered(
    changed: Mapping[str, object], group: str, base: str = CLEAN, rules: str = ""
) -> list[Change]:
    bench = fitted(base, changed, rules)
    return [one for one in changes(bench.job, bench.rules, bench.study) if one.group == group]


def test_what_is_curable_is_the_name_of_a_check_of_the_line() -> None:
    families = {check.slug: check.family for check in CHECKS}

    assert {families.get(slug) for slug in CURABLE | COMES_WITH} <= LINE


def test_a_line_without_fault_needs_no_cure() -> None:
    assert cures({}) == ()


def test_faults_that_no_pipe_or_height_cures_find_none() -> None:
    assert cures({"drain.inflow.2.pump.air_gap": "no"}) == ()


@pytest.mark.parametrize(
    ("changed", "first", "cleared"),
    [
        (HIGH_HOLE, "set the hole bottom 1/16 in above the flow line", "strip-too-thin"),
        (BELLY, "lay the run on one even grade: N1 at", "line-holds-water"),
        (BACKWARD, "", "run-falls-backward"),
    ],
)
def test_the_smallest_change_that_passes_comes_first(
    changed: dict[str, object], first: str, cleared: str
) -> None:
    found = cures(changed)

    assert found
    assert found[0].changes[0].startswith(first)
    assert cleared in {verdict.check for verdict in found[0].clears}


@pytest.mark.parametrize("changed", [LONG_ROOF, HIGH_HOLE, BELLY])
def test_whatever_is_said_to_pass_passes_when_judged_anew(changed: dict[str, object]) -> None:
    found = cures(changed)

    for cure in found:
        judged = judge(cure.job, sheets(cure.job))
        left = {verdict.check for verdict in line_faults(judged.verdicts)}
        assert cure.passes
        assert not left & CURABLE
        assert {verdict.check for verdict in cure.leaves} == left


def test_cures_that_pass_have_no_more_changes_than_the_fewest() -> None:
    counts = {len(cure.changes) for cure in cures(LONG_ROOF)}

    assert len(counts) == 1


def test_an_overloaded_line_is_split_or_made_wider() -> None:
    words = [" ".join(cure.changes) for cure in cures(LONG_ROOF)]

    assert any("two lines side by side" in one for one in words)


def test_where_nothing_passes_what_comes_nearest_is_told_with_what_it_leaves() -> None:
    found = cures({}, FAULTY)

    assert found
    assert not any(cure.passes for cure in found)
    assert all(cure.leaves and cure.clears for cure in found)
    assert len({cure.job.outlet.kind for cure in found}) == len(found)


def test_what_comes_no_nearer_is_not_told() -> None:
    assert cures({}, BARRED) == ()


def test_a_barred_core_is_cured_by_another_way_where_there_is_the_fall() -> None:
    high = {"drain.node.0.invert": "100.45 ft", "outlet.passed_over": []}
    free = rule("emitter.over_walk", stance="allowed") + rule("outlet.order", no_rule=True)
    found = cures(high, BARRED, free)

    assert any("emitter" in " ".join(cure.changes) for cure in found)


def test_a_question_that_comes_with_a_change_is_told() -> None:
    asking = [cure for cure in cures({}, FAULTY) if cure.job.outlet.kind == "emitter"]

    assert [verdict.check for verdict in asking[0].asks] == ["curb-outlet-barred"]


def test_a_change_that_cannot_be_computed_is_passed_over() -> None:
    stub = {"drain.reach.1.length": "6 in", "outlet.hole_bottom": "1 in"}

    assert all("through the curb" not in " ".join(cure.changes) for cure in cures(stub))


class TestChanges:
    """Single changes, each one job."""

    def test_a_hole_is_lowered_to_what_the_tape_has(self) -> None:
        (lower,) = offered(HIGH_HOLE, "height")

        assert lower.job.outlet.hole_bottom == read_measure("1/16 in", Kind.LENGTH)
        assert lower.job.outlet.invert is None

    def test_a_hole_given_by_its_invert_is_given_by_its_bottom_then(self) -> None:
        (lower,) = offered({"outlet.hole_bottom": GONE, "outlet.invert": "1 1/2 in"}, "height")

        assert lower.job.outlet.invert is None
        assert lower.job.outlet.hole_bottom is not None

    def test_a_window_too_narrow_for_the_tape_is_met_at_its_low_end(self) -> None:
        ends = {"at_least": "0.51 in", "at_most": "0.52 in"}
        narrow = rule("core.height", of="invert", from_="flow line", **ends)
        (lower,) = offered({}, "height", rules=narrow)

        assert float(lower.job.outlet.hole_bottom or 0) / 0.0254 == pytest.approx(0.51 - 0.479)

    def test_an_empty_window_offers_no_height(self) -> None:
        assert offered({"curb.reveal": "5 in"}, "height") == []

    def test_another_bit_is_offered_only_where_one_fits(self) -> None:
        wide = rule("core.gap", at_least="0 in", at_most="1 in") + rule("core.bit", at_most="6 in")
        thin = rule("core.strip", at_least="1/2 in", of="hole top", from_="curb top")

        assert offered({}, "bit") == []
        bits = offered({}, "bit", rules=wide + thin)
        words = [one.words.removeprefix("core with a ") for one in bits]
        assert words == ["3 1/2 in bit", "4 1/2 in bit"]

    def test_an_even_run_is_left_alone(self) -> None:
        (regraded,) = offered(BELLY, "grade")

        assert regraded.words == "lay the run on one even grade: N1 at 100.00 ft"
        assert offered({}, "grade") == []

    def test_a_run_of_one_reach_has_no_grade_to_even(self) -> None:
        assert offered({}, "grade", BARRED) == []

    def test_a_straight_run_drops_its_detour_and_its_bends(self) -> None:
        round_about = {"drain.reach.1.length": "60 ft", "drain.reach.1.bends": ["45 deg", "45 deg"]}
        (straight,) = offered(round_about, "route")
        reach = straight.job.drain.reach[1]

        assert reach.bends == ()
        assert float(reach.length) / 0.3048 == pytest.approx(41.5)
        assert "N1 to outlet" in straight.words

    def test_bends_alone_are_dropped_at_the_same_length(self) -> None:
        (straight,) = offered({"drain.reach.1.bends": ["45 deg"]}, "route")

        assert straight.job.drain.reach[1].length.shown() == "41 ft 6 in"

    def test_a_node_that_is_nowhere_on_the_plan_keeps_its_length(self) -> None:
        nowhere = {"drain.node.1.station": GONE, "drain.reach.1.bends": ["45 deg"]}
        (straight,) = offered(nowhere, "route")

        assert straight.job.drain.reach[1].length.shown() == "41 ft 6 in"

    def test_a_straight_run_has_no_straighter_one(self) -> None:
        assert offered({}, "route") == []

    def test_pipes_come_wider_first_and_never_the_one_that_lies_there(self) -> None:
        pipes = offered({}, "pipe")

        assert not any(one.words.startswith("lay 3 in Sch 40") for one in pipes)
        assert {one.job.drain.reach[0].pipe for one in pipes} >= {"4-sdr35"}

    def test_a_pipe_too_wide_for_the_curb_goes_through_it_by_the_old_one(self) -> None:
        (wide,) = [one for one in offered({}, "pipe") if "4 in SDR 35" in one.words]

        assert wide.words.endswith("with 3 in Sch 40 PVC through the curb")
        assert wide.job.outlet.pipe == "3 in Sch 40 PVC"

    def test_a_line_to_an_emitter_or_a_notch_takes_another_pipe_as_it_is(self) -> None:
        emitter, notch = offered({}, "pipe", EMITTER), offered({}, "pipe", NOTCH)

        assert all(one.job.outlet.emitter for one in emitter)
        assert all(one.job.outlet.pipe == one.job.drain.reach[0].pipe for one in notch)

    def test_a_job_without_a_pipe_is_offered_none(self) -> None:
        for group in ("pipe", "grade", "route", "split", "way", "height", "bit"):
            assert offered({}, group, "sorrel-flats-verge") == []

    def test_two_lines_stand_as_near_as_the_town_lets_them(self) -> None:
        (split,) = offered({}, "split", rules=rule("core.apart", at_least="14 in"))

        assert split.job.outlet.count == 2
        assert split.job.outlet.spacing == read_measure("18 in", Kind.LENGTH)
        assert {reach.barrels for reach in split.job.drain.reach} == {2}

    def test_without_a_rule_the_web_between_two_holes_is_as_wide_as_they_are(self) -> None:
        (split,) = offered({}, "split", rules=rule("core.apart", no_rule=True))

        assert split.job.outlet.spacing == read_measure("8 in", Kind.LENGTH)

    def test_a_metric_author_marks_millimetres(self) -> None:
        bench = fitted(CLEAN, HIGH_HOLE)
        job = bench.job.model_copy(update={"units": "metric"})
        (lower,) = [c for c in changes(job, bench.rules, bench.study) if c.group == "height"]

        assert lower.words == "set the hole bottom 1 mm above the flow line"

    def test_a_way_that_the_town_bars_is_not_offered(self) -> None:
        assert not any("hole cored" in one.words for one in offered({}, "way", EMITTER))
        assert any("tube" in one.words or "emitter" in one.words for one in offered({}, "way"))
