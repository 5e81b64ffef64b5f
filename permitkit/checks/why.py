"""What a check asks and why; for a job, which rules it read, and how each was picked."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from textwrap import wrap
from typing import TYPE_CHECKING, Any, cast

from permitkit.checks.catalogue import CHECKS, MARGIN_THIN
from permitkit.checks.registry import Check
from permitkit.errors import Fault, UsageError
from permitkit.model.verdict import Verdict
from permitkit.study.in_force import Explanation

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.judge import Judged
    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import InForce, RulesInForce

__all__ = ["Why", "explain_check"]

BY_SLUG = {check.slug: check for check in (*CHECKS, MARGIN_THIN)}
WIDTH = 78


@dataclass(frozen=True, slots=True)
class Why:
    """A check explained.

    Parameters
    ----------
    check
        The check.
    explanations
        Of each rule it reads, how it was picked for the job; none without a job.
    verdicts
        What it said of the job; none without a job.
    """

    check: Check
    explanations: tuple[Explanation, ...] = ()
    verdicts: tuple[Verdict, ...] = ()

    def lines(self) -> tuple[str, ...]:
        """Return the explanation as lines to print."""
        return tuple(self._lines())

    def _lines(self) -> Iterator[str]:
        check = self.check
        yield f"{check.slug}: {check.title}"
        yield from wrap(f"  why: {check.why}", WIDTH, subsequent_indent="       ")
        if check.standard:
            yield f"  stands on: {check.standard}"
        yield from (f"  reads {key.name}: {key.question}" for key in check.reads)
        for explanation in self.explanations:
            yield from ("", *explanation.lines())
        for verdict in self.verdicts:
            yield from ("", *_verdict_lines(verdict))


def explain_check(slug: str, judged: Judged | None = None) -> Why:
    """Return what a check asks, and for a job how it came to its answer.

    Parameters
    ----------
    slug
        The check's name, such as `run-too-flat`.
    judged
        The job, if one is to be explained.

    Raises
    ------
    UsageError
        If no check has that name, with the names that come near.
    """
    check = BY_SLUG.get(slug)
    if check is None:
        near = get_close_matches(slug, BY_SLUG, n=3)
        fix = f"did you mean {' or '.join(near)}" if near else "list them with `permitkit why`"
        raise UsageError.of([Fault("check", repr(slug), "the name of a check", fix)])
    if judged is None:
        return Why(check)
    verdicts = tuple(verdict for verdict in judged.verdicts if verdict.check == slug)
    read = _Read(judged.rules.only(check.reads))
    list(check.function(judged.job, cast("RulesInForce", read), judged.study))
    explained = {
        explanation.lines(): explanation
        for name, local in read.asked
        for explanation in (judged.rules.explain(name, **dict(local)),)
    }
    return Why(check, tuple(explained.values()), verdicts)


class _Read:
    """The rules, with a note of each one that is read and for which item."""

    def __init__(self, rules: RulesInForce) -> None:
        self._rules = rules
        self.asked: dict[tuple[str, tuple[tuple[str, object], ...]], None] = {}

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - whatever the rules offer
        return getattr(self._rules, name)

    def __getitem__(self, key: RuleKey) -> InForce:
        return self.at(key)

    def at(self, key: RuleKey, **local: object) -> InForce:
        self.asked[key.name, tuple(local.items())] = None
        return self._rules.at(key, **local)


def _verdict_lines(verdict: Verdict) -> Iterator[str]:
    """Yield a verdict, a line for each thing it tells."""
    yield f"  {verdict.outcome}{': ' if verdict.item else ''}{verdict.item}"
    for name in ("proposed", "limit", "source", "cure", "why", "ask_of", "waivable_by"):
        text = getattr(verdict, name)
        if text:
            yield f"    {name.replace('_', ' '):<11} {text}"
