"""What verdicts print: the same story as what was judged, and not before somebody reads it."""

from __future__ import annotations

import copy
import sys
from dataclasses import asdict, fields, replace
from typing import TYPE_CHECKING

import pytest
from builder import BARRED, CLEAN, EMITTER, FAULTY, NOTCH, fitted
from test_check_cases import CASES

from permitkit.checks.finding import Finding, Weighed
from permitkit.checks.judge import run_checks
from permitkit.checks.registry import check
from permitkit.checks.scale import Comparison, Ends
from permitkit.model.verdict import Outcome, Verdict
from permitkit.units import Kind, read_measure, same

if TYPE_CHECKING:
    from collections.abc import Iterator

DEMOS = (CLEAN, FAULTY, NOTCH, BARRED, EMITTER, "millrace-cured")
INCH = 0.0254
SIGNED = {Kind.LENGTH: Kind.LEVEL}


def compared() -> Iterator[Weighed]:
    """Yield every verdict of every demo job, and of every case, that compares two quantities."""
    for base in DEMOS:
        bench = fitted(base)
        for verdict in run_checks(bench.job, bench.rules, bench.study):
            assert isinstance(verdict, Weighed)
            if verdict.finding.comparison:
                yield verdict
    for case in CASES:
        bench = fitted(case.base, case.changes, case.rules, alone=case.alone)
        yield from (v for v in bench.verdicts(case.slug) if v.finding.comparison)


def order(one: float, two: float) -> int:
    return 0 if same(one, two) else 1 if one > two else -1


def printed_order(comparison: Comparison) -> int:
    proposed, limit = comparison.side_by_side()
    kind = comparison.ends.kind
    if kind is None:
        return order(float(proposed), float(limit))
    one, two = (float(read_measure(t, SIGNED.get(kind, kind))) for t in (proposed, limit))
    return order(one, two)


def test_every_printed_comparison_tells_the_story_that_was_judged() -> None:
    liars = [
        f"{verdict.check}: {verdict.proposed} | {verdict.limit}"
        for verdict in compared()
        for comparison in (verdict.finding.comparison,)
        if comparison
        and printed_order(comparison)
        != order(float(comparison.proposed), float(comparison.nearest()))
    ]

    assert liars == []


def test_no_fault_prints_a_quantity_that_equals_its_limit() -> None:
    broken = [v for v in compared() if v.outcome is Outcome.FAILS]
    alike = [v.check for v in broken if len(set(v.finding.comparison.side_by_side())) == 1]  # type: ignore[union-attr]

    assert len(broken) > 50
    assert alike == []


def test_the_test_of_the_story_can_fail() -> None:
    ends = Ends(Kind.LENGTH, "in", 1.0 * INCH, None)

    assert printed_order(Comparison(1.01 * INCH, ends)) == 1
    assert printed_order(Comparison(0.99 * INCH, ends)) == -1
    assert printed_order(Comparison(1.0 * INCH + 1e-14, ends)) == 0


def test_nothing_is_put_into_words_before_somebody_reads_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refused(*_: object, **__: object) -> str:
        raise AssertionError

    benches = [fitted(base) for base in DEMOS]
    monkeypatch.setattr(sys.modules["permitkit.units.measure"], "written", refused)
    monkeypatch.setattr("permitkit.checks.scale.apart", refused)

    found = [run_checks(bench.job, bench.rules, bench.study) for bench in benches]

    assert all(found)
    with pytest.raises(AssertionError):
        _ = [verdict.proposed for verdict in found[0]]


def weighed() -> Weighed:
    return fitted(FAULTY).worst("strip-too-thin")


@pytest.mark.parametrize(("applied", "told"), [(["street"], "Street opening permit"), ([], "none")])
def test_permits_applied_for_are_told_by_their_titles(applied: list[str], told: str) -> None:
    bench = fitted(CLEAN, {"papers.applied_permits": applied})

    assert {str(one.proposed) for one in bench.verdicts("permit-missing")} == {told}


def test_a_verdict_tells_everything_of_a_fault() -> None:
    assert asdict(weighed()) == {
        "check": "strip-too-thin",
        "title": "The strip over the hole is too thin",
        "outcome": Outcome.FAILS,
        "item": "",
        "proposed": "1 in",
        "limit": "at least 1 1/2 in (hole top from curb top)",
        "source": "Millrace Public Works Standards, 2025 edition, section 4.3",
        "cure": "no 4 1/2 in hole fits a 5 3/4 in curb; largest is 4 in",
        "why": "",
        "ask_of": "",
        "blocking": False,
        "waivable_by": "",
        "section": "4.3",
        "asks": "How much concrete must stay between the hole or pipe and the curb top?",
        "book": "Millrace Public Works Standards, 2025 edition",
    }


def test_verdicts_made_of_the_same_are_equal_and_a_changed_one_is_not() -> None:
    assert weighed() == weighed()
    assert hash(weighed()) == hash(weighed())
    assert replace(weighed(), outcome=Outcome.ASK) != weighed()
    assert copy.copy(weighed()).proposed == "1 in"


def test_a_verdict_has_no_field_but_those_of_a_verdict() -> None:
    names = {field.name for field in fields(Verdict)}

    assert all(isinstance(getattr(weighed(), name), object) for name in names)
    with pytest.raises(AttributeError, match="colour"):
        _ = weighed().colour


def test_a_verdict_without_a_rule_cites_the_standard_it_stands_on() -> None:
    verdict = fitted(FAULTY).worst("run-falls-backward")

    assert verdict.source == "statics: water runs downhill"
    assert (verdict.section, verdict.waivable_by) == ("", "")


@check("says-so", "It says so", standard="a book")
def says_so(*_: object) -> Iterator[Finding]:
    """Say so.

    Why: for a test.
    """
    yield Finding(Outcome.MEETS, source="another book")


def test_a_finding_may_bring_its_own_source() -> None:
    (finding,) = says_so.function(None, None, None)  # type: ignore[arg-type]

    assert Weighed.of(says_so, finding).source == "another book"
