"""Whole jobs judged: the demo jobs, waivers, thin margins, what nobody measured."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from builder import BARRED, CLEAN, EMITTER, FAULTY, GONE, NOTCH, Bench, fitted, job_of, rule, sheets

from permitkit.checks.judge import Judged, counts, judge, ready, run_checks
from permitkit.model.frozen import Frozen
from permitkit.model.job import Job
from permitkit.model.verdict import Outcome, Verdict
from permitkit.units import Kind, Measure

if TYPE_CHECKING:
    from collections.abc import Mapping

FAULTS = """core-too-wide strip-too-thin no-bit-fits grout-gap-wrong core-near-joint
outlet-near-drive pipe-kind-barred run-too-flat run-falls-backward line-holds-water run-overloaded
pump-without-air-gap sump-in-closed-months water-rises-above-opening street-runs-back
panel-left-part work-in-closed-season locate-ticket-stale insurance-lapses fee-does-not-add-up
deposit-too-small"""
CURED = "millrace-cured"
TWO_FAULTS = {"outlet.bit": "4 1/8 in", "curb.joint_left": "8 in"}


def judged(base: str, changes: Mapping[str, object] | None = None, rules: str = "") -> Judged:
    job = job_of(base, changes or {})
    return judge(job, sheets(job, rules))


def slugs(verdicts: tuple[Verdict, ...], outcome: Outcome) -> set[str]:
    return {verdict.check for verdict in verdicts if verdict.outcome is outcome}


@pytest.mark.parametrize("base", [CLEAN, CURED, NOTCH, EMITTER])
def test_a_clean_demo_job_is_ready(base: str) -> None:
    job = judged(base)

    assert job.ready
    assert slugs(job.verdicts, Outcome.FAILS) == set()


def test_the_faulty_demo_job_has_the_faults_it_is_meant_to_have_and_no_others() -> None:
    job = judged(FAULTY)

    assert not job.ready
    assert slugs(job.verdicts, Outcome.FAILS) == set(FAULTS.split())
    assert slugs(job.verdicts, Outcome.ADVICE) == {"velocity-low", "margin-thin"}


def test_where_the_outlet_is_barred_that_is_the_one_fault_and_nothing_more_is_asked_of_it() -> None:
    job = judged(BARRED)
    later = [v for v in job.verdicts if v.check in {"strip-too-thin", "outlet-near-drive"}]

    assert slugs(job.verdicts, Outcome.FAILS) == {"curb-outlet-barred"}
    assert {verdict.outcome for verdict in later} == {Outcome.PASSES_OVER}
    assert {verdict.why for verdict in later} == {
        "the outlet is barred here, so nothing more is asked of it"
    }


def test_on_a_street_of_another_authority_that_is_the_one_fault_and_no_rule_is_asked_for() -> None:
    streets = (
        '[sheet.listed_streets]\n"Tern Lane" = { authority = "Tarn County", sheet = "tarn-county", '
        "holds = false }\n"
    )
    job = judged(CLEAN, rules=streets)
    (fault,) = (v for v in job.verdicts if v.outcome is Outcome.FAILS)

    assert fault.check == "street-of-another"
    assert fault.limit == (
        "Tern Lane belongs to Tarn County: the rules of Town of Bench do not hold there"
    )
    assert fault.cure == (
        "ask Tarn County for its own permit, by the sheet tarn-county "
        '(town = "tarn-county" in the job)'
    )
    assert not any(v.outcome is Outcome.ASK for v in job.verdicts)


def test_a_barred_outlet_lists_the_ways_that_are_left_with_what_each_needs() -> None:
    barred = fitted(BARRED).worst("curb-outlet-barred")

    assert barred.cure == (
        "let the water go by storm lateral, then dry well, then emitter: "
        "storm lateral if a main lies within 30 ft; dry well if the soil takes 1 in/hr or more; "
        "else an emitter"
    )


def test_a_barred_outlet_without_an_order_lists_what_the_sheet_allows() -> None:
    only = """[[edition]]
key = "outlet.allowed"
[[edition.case]]
when = { outlet = ["core", "notch"] }
stance = "barred"
cite = "book 1"
[[edition.case]]
when = { outlet = "emitter" }
stance = "allowed"
cite = "book 1"
[[edition.case]]
ask = "council"
"""

    assert fitted(CLEAN, {}, only, alone=True).worst("curb-outlet-barred").cure == (
        "let the water go by emitter"
    )
    assert fitted(CLEAN, {}, rule("outlet.allowed", stance="barred"), alone=True).worst(
        "curb-outlet-barred"
    ).cure == ("the sheet names no way that is allowed here: ask the town")


def test_every_check_says_something_of_every_job() -> None:
    found = Counter(verdict.check for verdict in judged(CLEAN).verdicts)

    assert min(found.values()) == 1
    assert len(found) >= 100


@pytest.mark.parametrize("base", [CLEAN, FAULTY, NOTCH, BARRED, EMITTER, CURED])
def test_no_two_verdicts_speak_of_one_thing(base: str) -> None:
    found = Counter((verdict.check, verdict.item) for verdict in judged(base).verdicts)

    assert [name for name, times in found.items() if times > 1] == []


def test_verdicts_are_counted_by_outcome_worst_first() -> None:
    found = counts(judged(FAULTY).verdicts)

    assert list(found) == list(Outcome)
    assert found[Outcome.FAILS] == 21
    assert found[Outcome.WAIVER] == 0


@pytest.mark.parametrize(
    ("outcome", "blocking", "is_ready"),
    [
        (Outcome.FAILS, False, False),
        (Outcome.ASK, True, False),
        (Outcome.ASK, False, True),
        (Outcome.WAIVER, False, True),
        (Outcome.ADVICE, False, True),
    ],
)
def test_a_fault_or_a_blocking_question_keeps_a_job_back(
    outcome: Outcome,
    blocking: bool,  # noqa: FBT001 - a row of the table
    is_ready: bool,  # noqa: FBT001 - the same
) -> None:
    assert ready([Verdict("a", "A", outcome, blocking=blocking)]) is is_ready


def waived(check: str, item: str | None = None) -> Bench:
    asked = {"check": check, "reason": "the tree stands in the way"} | (
        {"item": item} if item else {}
    )
    return fitted(CLEAN, TWO_FAULTS | {"waiver+": asked})


def test_a_fault_that_the_sheet_lets_be_waived_becomes_a_waiver() -> None:
    verdict = waived("core-near-joint").worst("core-near-joint")

    assert verdict.outcome is Outcome.WAIVER
    assert verdict.why == "the tree stands in the way"
    assert verdict.ask_of == verdict.waivable_by == "town engineer"
    assert verdict.cure


def test_a_waiver_for_another_item_or_another_check_changes_nothing() -> None:
    assert waived("core-near-joint", "elsewhere").worst("core-near-joint").outcome is Outcome.FAILS
    assert waived("core-too-wide").worst("core-near-joint").outcome is Outcome.FAILS


def test_a_waiver_leaves_what_is_met_as_it_is() -> None:
    changes = {"waiver+": {"check": "core-near-joint", "reason": "none needed"}}

    assert fitted(CLEAN, changes).worst("core-near-joint").outcome is Outcome.MEETS


def test_a_fault_that_nobody_may_waive_stays_a_fault_and_says_so() -> None:
    changes = {
        "outlet.hole_bottom": "1/2 in",
        "waiver+": {"check": "strip-too-thin", "reason": "x"},
    }
    changes |= {"curb.reveal": "5 in"}

    verdict = fitted(CLEAN, changes).worst("strip-too-thin")

    assert verdict.outcome is Outcome.FAILS
    assert verdict.why == "a waiver was asked for, but nobody may waive this"


def test_a_waiver_asked_of_physics_is_refused() -> None:
    changes = {"waiver+": {"check": "run-falls-backward", "reason": "it will do"}}

    assert fitted(FAULTY, changes).worst("run-falls-backward").why.endswith("may waive this")


def test_of_several_findings_only_the_faults_are_waived() -> None:
    changes = {"waiver+": {"check": "run-too-flat", "reason": "no more fall to be had"}}
    verdicts = fitted(FAULTY, changes).verdicts("run-too-flat")

    assert {verdict.outcome for verdict in verdicts} == {Outcome.WAIVER, Outcome.MEETS}


def thin(bench: Bench) -> set[str]:
    verdicts = run_checks(bench.job, bench.rules, bench.study)
    return {verdict.item for verdict in verdicts if verdict.check == "margin-thin"}


def test_a_margin_as_thick_as_the_error_of_the_level_is_thick_enough() -> None:
    assert "strip too thin" not in thin(fitted())
    assert "strip too thin" in thin(fitted(CLEAN, {"level.error": "0.126 in"}))


def test_a_margin_counts_only_where_the_level_was_used() -> None:
    bit = rule("core.bit", at_most="4 in")

    assert not {item for item in thin(fitted(CLEAN, {}, bit)) if "core too wide" in item}


def test_the_margin_of_a_slope_is_its_height_over_the_reach() -> None:
    flat = rule("pipe.slope", at_least="1 %")

    assert thin(fitted(CLEAN, {}, flat)) == {"run too flat, N2 to N1, private"}


def test_a_job_with_everything_measured_is_judged_once(monkeypatch: pytest.MonkeyPatch) -> None:
    job = fitted().job
    judged_on = []
    original = run_checks
    monkeypatch.setattr(
        "permitkit.checks.judge.run_checks",
        lambda *args: judged_on.append(args) or original(*args),
    )

    judge(job, sheets(job))

    assert len(judged_on) == 1


def doubt(verdicts: tuple[Verdict, ...], check: str) -> list[Verdict]:
    return [v for v in verdicts if v.check == check and v.why.startswith("measure ")]


BARRED_IN_SLAB = rule("walk.pipe_in_slab", stance="barred")
UNPROBED = {"walk.thickness": GONE}


def raised(curb_side: str, house_side: str) -> dict[str, object]:
    return {
        "walk.level_curb_side": curb_side,
        "walk.level_house_side": house_side,
        "ground.1.level": curb_side,
        "ground.2.level": house_side,
    }


def test_a_fault_at_every_plausible_value_stays_a_fault() -> None:
    job = judged(CLEAN, UNPROBED, BARRED_IN_SLAB)

    assert doubt(job.verdicts, "pipe-in-slab") == []
    assert "pipe-in-slab" in slugs(job.verdicts, Outcome.FAILS)


def test_what_is_only_there_at_another_value_is_a_question_too() -> None:
    bored = UNPROBED | raised("100.26 ft", "100.32 ft") | {"cut.crossing": "existing sleeve"}
    job = judged(CLEAN, bored, BARRED_IN_SLAB)

    asked = doubt(job.verdicts, "pipe-in-slab")

    assert [verdict.item for verdict in asked] == [
        "curb side edge of the walk",
        "house side edge of the walk",
    ]
    assert all(verdict.blocking for verdict in asked)


def test_a_bored_crossing_whose_slab_nobody_measured_may_break_it() -> None:
    bored = UNPROBED | raised("100.26 ft", "100.32 ft") | {"cut.crossing": "bored"}
    job = judged(CLEAN, bored, rule("walk.crossing", one_of=["bored"]))

    asked = doubt(job.verdicts, "bore-would-break-slab")

    assert not job.ready
    assert {verdict.outcome for verdict in asked} == {Outcome.ASK}
    assert all(verdict.blocking and verdict.ask_of == "the applicant" for verdict in asked)
    assert asked[0].why == (
        "measure walk.thickness: 4 in is assumed (to be confirmed at saw cut); "
        "at 3 1/2 in it meets, at 6 in it fails"
    )
    assert asked[0].cure == ""


def test_a_value_that_only_turns_advice_is_a_question_that_keeps_nothing_back() -> None:
    job = judged(CLEAN, {"gutter.depth_running": GONE})

    (asked,) = doubt(job.verdicts, "gutter-covers-outlet")

    assert job.ready
    assert asked.outcome is Outcome.ASK
    assert asked.why.endswith("at 1 1/2 in it meets, at 4 1/2 in it draws advice")


def test_what_turns_on_no_guess_stays_as_it_was() -> None:
    job = judged(CLEAN, {"gutter.depth_running": GONE})
    plain = judged(CLEAN)

    changed = {v.check for v in job.verdicts if v.outcome is Outcome.ASK}

    assert changed == {"gutter-covers-outlet"}
    assert len(job.verdicts) == len(plain.verdicts)


METRIC = {Kind.LENGTH: "mm", Kind.LEVEL: "m", Kind.AREA: "m2", Kind.SLOPE: "mm/m", Kind.FLOW: "L/s"}


def in_metric(value: object) -> object:
    """Return a job, or a part of it, with every quantity told in metric units."""
    if isinstance(value, Measure):
        return Measure(value.si, value.kind, METRIC.get(value.kind, value.unit))
    if isinstance(value, tuple):
        return tuple(in_metric(one) for one in value)
    if isinstance(value, Frozen):
        parts = {name: in_metric(getattr(value, name)) for name in type(value).model_fields}
        return value.model_copy(update=parts)
    return value


@pytest.mark.parametrize("base", [CLEAN, FAULTY, NOTCH, BARRED, EMITTER, CURED])
def test_the_same_job_in_feet_and_in_metres_gets_the_same_verdicts(base: str) -> None:
    job = job_of(base, {})
    twin = in_metric(job)
    assert isinstance(twin, Job)
    twin = twin.model_copy(update={"units": "metric"})

    ours, theirs = (judge(one, sheets(one)).verdicts for one in (job, twin))

    assert [(v.check, v.outcome) for v in ours] == [(v.check, v.outcome) for v in theirs]
