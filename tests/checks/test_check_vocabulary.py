"""A town's words and a job's: one may stand for several, and a cure names what a job can hold."""

from __future__ import annotations

from datetime import date

import pytest
from builder import CLEAN, EMITTER, fitted, rule

from permitkit.hydraulics.materials import find_pipe
from permitkit.model.verdict import Outcome

MEETS, FAILS, ASK = Outcome.MEETS, Outcome.FAILS, Outcome.ASK
DAY = date(2026, 3, 2)
FOUR = ["storm sewer", "gutter", "back yard", "front or side yard"]
SEWER = {"way": "storm lateral", "because": "no main in the street"}
CORE = {"way": "core", "because": "the curb is too low"}


def tried(base: str, order: list[str], *passed: dict[str, str], yard: str = "") -> list[Outcome]:
    said = {"key": "yard", "value": {"is": yard}, "who": "a", "how": "b", "on": DAY}
    changes = {"outlet.passed_over": list(passed)} | ({"answer": [said]} if yard else {})
    found = fitted(base, changes, rule("outlet.order", order=order))
    return [verdict.outcome for verdict in found.verdicts("better-outlet-not-tried")]


def test_a_core_is_the_gutter_of_an_order() -> None:
    assert tried(CLEAN, FOUR, SEWER) == [MEETS]
    assert tried(CLEAN, FOUR) == [FAILS]
    assert tried(CLEAN, ["curb", "dry well"]) == [MEETS]


def test_an_emitter_is_a_yard_of_an_order_by_where_it_stands() -> None:
    assert tried(EMITTER, FOUR, SEWER, CORE, yard="rear") == [MEETS]
    assert tried(EMITTER, FOUR, SEWER, CORE, yard="side") == [FAILS]
    assert tried(EMITTER, FOUR, SEWER, CORE) == [ASK, ASK]


def test_a_way_of_no_word_in_the_order_is_to_be_chosen_again() -> None:
    found = fitted(rules=rule("outlet.order", order=["dry well", "yard"]))

    verdict = found.worst("better-outlet-not-tried")
    assert (verdict.outcome, verdict.cure) == (FAILS, "choose among dry well, then yard")


def test_a_way_of_the_towns_own_is_asked_about_and_one_that_no_job_has_fails() -> None:
    own, known = ["storm sewer", "other, as the division approves"], ["storm sewer", "swale"]

    verdict = fitted(rules=rule("outlet.order", order=own)).worst("better-outlet-not-tried")
    assert (tried(CLEAN, own, SEWER), tried(CLEAN, known, SEWER)) == ([ASK], [FAILS])
    assert verdict.why == "is core what the town means by other, as the division approves?"


def test_a_way_that_no_job_has_is_passed_over_for_a_reason_like_any_other() -> None:
    order = ["natural ditch", "the quarry", "gutter"]
    ditch, quarry = ({"way": way, "because": "there is none"} for way in order[:2])

    assert tried(CLEAN, order, ditch, quarry) == [MEETS]
    assert tried(CLEAN, order, ditch) == [FAILS]


def test_any_other_way_stands_for_what_no_word_before_it_does() -> None:
    order = ["storm sewer", "gutter", "any other way"]

    assert tried(EMITTER, order, SEWER, CORE) == [MEETS]
    assert tried(EMITTER, order, {"way": "any other way", "because": "none"}) == [FAILS, FAILS]


def test_the_ways_left_are_told_in_the_words_of_the_order() -> None:
    order = rule("outlet.order", order=["gutter", "storm sewer"])
    barred = """
[[edition]]
key = "outlet.allowed"
[[edition.case]]
when = { outlet = "storm lateral" }
stance = "allowed"
cite = "book 1"
[[edition.case]]
stance = "barred"
cite = "book 1"
"""

    found = fitted(rules=f"[rule]\n{order}{barred}").worst("curb-outlet-barred")
    assert found.cure == "let the water go by storm sewer"


@pytest.mark.parametrize(
    ("words", "outcome"),
    [
        (["PVC ASTM D3034 SDR 35", "schedule 40 PVC"], MEETS),
        (["smooth wall PVC"], MEETS),
        (["SDR 35"], FAILS),
    ],
)
def test_a_pipe_is_held_against_what_the_towns_words_say(
    words: list[str], outcome: Outcome
) -> None:
    upper = fitted(rules=rule("pipe.kind", one_of=words)).worst("pipe-kind-barred")

    assert upper.outcome is outcome


@pytest.mark.parametrize("words", [["smooth wall PVC"], ["galvanized iron"], ["SDR 35", "clay"]])
def test_the_cure_for_a_pipe_names_pipes_that_a_job_takes(words: list[str]) -> None:
    laid = {"drain.reach.0.pipe": "4 in corrugated HDPE, single wall"}

    verdict = fitted(CLEAN, laid, rule("pipe.kind", one_of=words)).worst("pipe-kind-barred")

    names = verdict.cure.removeprefix("lay ").split(" or ")
    assert [find_pipe(name).name for name in names] == names


def test_a_kind_of_pipe_that_no_job_can_name_is_cured_by_asking() -> None:
    verdict = fitted(rules=rule("pipe.kind", one_of=["clay"])).worst("pipe-kind-barred")

    assert verdict.cure == "a job can name no pipe of these kinds: ask the town for another"


def covered(covers: str, **policy: object) -> Outcome:
    changes = {f"firm.policy.0.{name}": value for name, value in policy.items()}
    asked = f'docs.insurance = {{ covers = [{covers}], cite = "book 1" }}'
    return fitted(CLEAN, changes, asked).worst("insurance-too-low").outcome


def test_general_liability_pays_for_bodily_injury_and_property_damage() -> None:
    assert covered('{ kind = "bodily injury", each = 1_000_000 }') is MEETS
    assert covered('{ kind = "property damage", each = 1_000_001 }') is FAILS
    assert covered('{ kind = "pollution", each = 1 }') is FAILS


def test_a_sum_in_all_may_be_asked_alone() -> None:
    assert covered('{ kind = "general liability", aggregate = 2_000_000 }') is MEETS
    assert covered('{ kind = "general liability", aggregate = 2_000_001 }') is FAILS


def test_a_sum_for_the_project_will_do_in_place_of_the_sum_in_all() -> None:
    either = '{ kind = "general liability", aggregate = 3_000_000, project = 1_500_000 }'

    assert covered(either, aggregate=1_000_000) is FAILS
    assert covered(either, aggregate=1_000_000, project=1_500_000) is MEETS
    assert covered(either, aggregate=3_000_000) is MEETS


def test_a_paper_of_no_known_kind_is_known_by_its_title() -> None:
    asked = rule("docs.required", items=["signed application", "fee worksheet"])
    sheet = {"kind": "other", "title": "Fee worksheet", "file": "fees.pdf"}

    bare, whole = fitted(CLEAN, {}, asked), fitted(CLEAN, {"papers.attachment+": sheet}, asked)
    assert [v.outcome for v in bare.verdicts("document-missing", "signed")] == [MEETS]
    assert (
        bare.worst("document-missing", "fee").cure
        == "attach the fee worksheet, its title naming it"
    )
    assert whole.worst("document-missing", "fee").outcome is MEETS


def inspected(*plans: str, calls: str) -> tuple[Outcome, str]:
    asked = f'dates.inspections = {{ items = [{calls}], cite = "book 1" }}'
    found = fitted(CLEAN, {"dates.inspections": list(plans)}, asked, alone=True)
    verdict = found.worst("inspection-not-booked")
    return verdict.outcome, verdict.cure or verdict.why


def test_an_inspection_is_planned_by_what_it_looks_at() -> None:
    assert inspected("form and base before the pour", calls='"forms set, before the pour"') == (
        MEETS,
        "",
    )
    assert inspected("open trench", calls='"before backfill"')[0] is MEETS
    assert inspected("final", calls='"inspection after completion"')[0] is MEETS
    assert inspected("final", calls='"each inspection"')[0] is MEETS
    assert inspected("final", calls='"before the pour"') == (FAILS, "plan it: before the pour")
    assert inspected(calls='"arborist"') == (FAILS, "plan it: arborist")


def test_an_inspection_of_no_known_kind_is_asked_about() -> None:
    assert inspected("final", calls='"arborist"') == (
        ASK,
        "is it one of those planned: final?",
    )


def test_an_inspection_owed_later_is_no_fault_now() -> None:
    later = '{ name = "second look", after = "6 months", clock = "acceptance" }'

    assert inspected("final", calls=later) == (
        Outcome.PASSES_OVER,
        "owed 6 months after the acceptance: see the calendar",
    )


@pytest.mark.parametrize(
    ("rules", "source", "cure"),
    [
        (
            rule("dates.locate_wait", span="9 days") + rule("dates.lead", span="1 day"),
            "Bench Book, section 1",
            "call the locates earlier, or start later",
        ),
        (
            rule("dates.lead", span="30 days"),
            "Bench Book, section 1",
            "tell the town earlier, or start later",
        ),
    ],
)
def test_the_day_work_may_start_is_told_by_the_rule_that_sets_it(
    rules: str, source: str, cure: str
) -> None:
    late = fitted(CLEAN, {"dates.start": date(2026, 4, 27)}, rules)

    found = late.worst("filed-too-late", "start of work")
    assert (found.outcome, found.source, found.cure) == (FAILS, source, cure)


# ---- who, which security, which cover


@pytest.mark.parametrize(
    ("slug", "line", "outcome"),
    [
        ("curb-cut-by-others", rule("outlet.who_cuts", one_of=["permittee"]), MEETS),
        ("curb-cut-by-others", rule("outlet.who_cuts", one_of=["bonded contractor"]), MEETS),
        ("curb-cut-by-others", rule("outlet.who_cuts", one_of=["county"]), FAILS),
        ("curb-cut-by-others", rule("outlet.who_cuts", one_of=["the harbor master"]), ASK),
        ("restored-by-others", rule("restore.by", one_of=["permittee"]), MEETS),
        ("restored-by-others", rule("restore.by", one_of=["contractor"]), MEETS),
        ("restored-by-others", rule("restore.by", one_of=["owner"]), ASK),
        ("restored-by-others", rule("restore.by", one_of=["city"]), FAILS),
        ("upkeep-not-settled", rule("outlet.who_maintains", one_of=["abutting owner"]), MEETS),
        ("outlet-wrong-for-curb", rule("core.curbs", one_of=["barrier"]), MEETS),
        ("outlet-wrong-for-curb", rule("core.curbs", one_of=["mountable"]), FAILS),
        ("outlet-wrong-for-curb", rule("core.curbs", one_of=["Type B-6.12"]), ASK),
        ("tunnel-barred", rule("walk.crossing", one_of=["open cut"]), MEETS),
        ("pipe-kind-barred", rule("pipe.kind", one_of=["as the engineer likes"]), ASK),
    ],
)
def test_words_of_the_trade_are_judged_and_a_towns_own_are_asked_about(
    slug: str, line: str, outcome: Outcome
) -> None:
    found = fitted(CLEAN, {"outlet.maintained_by": "the owner"}, line)

    assert found.worst(slug).outcome is outcome


def test_a_cover_of_the_towns_own_is_asked_about() -> None:
    covers = [{"kind": "railroad protective", "each": 2_000_000}]

    verdict = fitted(rules=rule("docs.insurance", covers=covers)).worst("insurance-too-low")
    assert verdict.outcome is ASK
    assert verdict.why == "which policy holds railroad protective, and to these limits?"
