"""Every check held against jobs at the limit, just outside, and in another unit."""

from __future__ import annotations

import cases_curb
import cases_curbside
import cases_line
import cases_papers
import cases_permits
import cases_street
import cases_walk
import pytest
from builder import Case, fitted

from permitkit.checks.catalogue import CHECKS
from permitkit.model.verdict import Outcome

CASES = [
    *cases_curbside.CASES,
    *cases_curb.CASES,
    *cases_line.CASES,
    *cases_walk.CASES,
    *cases_papers.CASES,
    *cases_permits.CASES,
    *cases_street.CASES,
]
AMISS = {Outcome.FAILS, Outcome.ADVICE, Outcome.ASK}


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_a_check_says_what_it_should(case: Case) -> None:
    bench = fitted(case.base, case.changes, case.rules, alone=case.alone)

    worst = bench.worst(case.slug, case.item)

    assert worst.outcome is case.outcome, f"{worst.proposed} | {worst.limit} | {worst.why}"


def missing(slugs: set[str]) -> list[str]:
    good = {case.slug for case in CASES if case.outcome is Outcome.MEETS}
    bad = {case.slug for case in CASES if case.outcome in AMISS}
    return sorted(slugs - (good & bad))


def test_each_check_has_a_case_of_both_answers() -> None:
    slugs = {check.slug for check in CHECKS} - {"sum-not-set"}

    assert missing(slugs) == []


def test_the_test_for_both_answers_can_fail() -> None:
    assert missing({"run-too-flat", "no-such-check"}) == ["no-such-check"]


def test_a_sum_to_be_set_is_only_ever_a_question() -> None:
    found = {case.outcome for case in CASES if case.slug == "sum-not-set"}

    assert found == {Outcome.ASK, Outcome.PASSES_OVER}


def test_no_case_stands_twice() -> None:
    seen = [(case.slug, case.base, repr(case.changes), case.rules, case.item) for case in CASES]

    assert len(set(seen)) == len(seen)
