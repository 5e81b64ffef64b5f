"""What a comparator says of one thing, and the verdict it becomes."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING, Any, NamedTuple

from permitkit.checks.scale import Comparison, Lazy, told
from permitkit.model.telling import ladder_text
from permitkit.model.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.checks.registry import Check
    from permitkit.study.in_force import InForce

__all__ = ["Finding", "Weighed"]


class Finding(NamedTuple):
    """One answer of a comparator.

    Texts may wait: most of what is met is never read. `spare_m` is what is left to the limit as a
    height read with the level, in metres; endless where no level was used. `beyond` tells that
    what is broken is the other end than the one its check is named for.
    """

    outcome: Outcome
    item: str = ""
    rule: InForce | None = None
    comparison: Comparison | None = None
    proposed: Lazy = ""
    limit: Lazy = ""
    cure: Lazy = ""
    why: Lazy = ""
    ask_of: str = ""
    blocking: bool = False
    spare_m: float = inf
    source: str = ""
    beyond: bool = False

    def proposed_text(self) -> str:
        """Return what is proposed, as printed."""
        return self.comparison.proposed_text() if self.comparison else told(self.proposed)

    def limit_text(self) -> str:
        """Return what it is held against, as printed."""
        return self.comparison.limit_text() if self.comparison else told(self.limit)

    def cure_text(self) -> str:
        """Return the change that would cure a fault; nothing is cured that is met."""
        worth_it = self.outcome in {Outcome.FAILS, Outcome.WAIVER, Outcome.ADVICE}
        return told(self.cure) if worth_it else ""


class Weighed(Verdict):
    """A verdict that is put into words only when somebody reads it."""

    __slots__ = ("_check", "_finding")

    _check: Check
    _finding: Finding

    @classmethod
    def of(cls, check: Check, finding: Finding) -> Weighed:
        """Return the verdict of a check that a finding becomes."""
        verdict = cls.__new__(cls)
        _put(verdict, "_check", check)
        _put(verdict, "_finding", finding)
        return verdict

    @property
    def finding(self) -> Finding:
        """What it was made of."""
        return self._finding

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - the fields of a verdict differ
        """Return a field that nobody has read yet, and keep it."""
        if name not in _FIELDS:
            raise AttributeError(name)
        value = _FIELDS[name](self._check, self._finding)
        _put(self, name, value)
        return value


_put = object.__setattr__


def _source(check: Check, finding: Finding) -> str:
    by_rule = finding.rule.source if finding.rule is not None else ""
    return finding.source or by_rule or check.standard


def _waivable_by(_: Check, finding: Finding) -> str:
    rule = finding.rule
    return "" if rule is None else ladder_text(rule.waivable_by, rule.waiver_needs)


def _section(_: Check, finding: Finding) -> str:
    return finding.rule.section if finding.rule is not None else ""


def _asks(check: Check, finding: Finding) -> str:
    if check.asks:
        return check.asks
    key = finding.rule.key if finding.rule is not None else next(iter(check.reads), None)
    return key.question if key is not None else check.title


def _book(_: Check, finding: Finding) -> str:
    rule = finding.rule
    return rule.cite.source.title if rule is not None and rule.cite is not None else ""


_FIELDS: dict[str, Callable[[Check, Finding], object]] = {
    "check": lambda check, _: check.slug,
    "title": lambda check, finding: (finding.beyond and check.beyond) or check.title,
    "outcome": lambda _, finding: finding.outcome,
    "item": lambda _, finding: finding.item,
    "proposed": lambda _, finding: finding.proposed_text(),
    "limit": lambda _, finding: finding.limit_text(),
    "source": _source,
    "cure": lambda _, finding: finding.cure_text(),
    "why": lambda _, finding: told(finding.why),
    "ask_of": lambda _, finding: finding.ask_of,
    "blocking": lambda _, finding: finding.blocking,
    "waivable_by": _waivable_by,
    "section": _section,
    "asks": _asks,
    "book": _book,
}
