"""Every check held against jobs at the limit, just outside, and in another unit."""

from __future__ import annotations

import cases_curbside
import cases_line
import cases_walk
import pytest
from builder import Case, fitted

CASES = [*cases_curbside.CASES, *cases_line.CASES, *cases_walk.CASES]


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_a_check_says_what_it_should(case: Case) -> None:
    bench = fitted(case.base, case.changes, case.rules, alone=case.alone)

    worst = bench.worst(case.slug, case.item)

    assert worst.outcome is case.outcome, f"{worst.proposed} | {worst.limit} | {worst.why}"
