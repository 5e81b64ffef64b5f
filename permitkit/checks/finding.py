"""What a comparator says of one thing, and the verdict it becomes."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING, TypeAlias

from permitkit.checks.scale import Comparison
from permitkit.model.verdict import Outcome, Verdict
from permitkit.study.in_force import InForce

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.checks.registry import Check

__all__ = ["Finding", "Lazy", "Weighed", "told"]

Lazy: TypeAlias = "str | Callable[[], str]"


def told(text: Lazy) -> str:
    """Return a text, worked out now if it waited to be asked for."""
    return text if isinstance(text, str) else text()


@dataclass(frozen=True, slots=True, eq=False)
class Finding:
    """One answer of a comparator.

    Texts may wait: most of what is met is never read. `spare_m` is what is left to the limit as a
    height read with the level, in metres; endless where no level was used.
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
        put = object.__setattr__
        put(verdict, "_check", check)
        put(verdict, "_finding", finding)
        put(verdict, "check", check.slug)
        put(verdict, "title", check.title)
        put(verdict, "outcome", finding.outcome)
        put(verdict, "item", finding.item)
        put(verdict, "ask_of", finding.ask_of)
        put(verdict, "blocking", finding.blocking)
        return verdict

    def __getattr__(self, name: str) -> str:
        """Return a text that was not yet worked out, and keep it."""
        if name not in _WORDS:
            raise AttributeError(name)
        text = _WORDS[name](self._check, self._finding)
        object.__setattr__(self, name, text)
        return text


def _source(check: Check, finding: Finding) -> str:
    rule = finding.rule
    return rule.source if rule is not None and rule.source else check.standard


def _waivable_by(_: Check, finding: Finding) -> str:
    return ", then ".join(finding.rule.waivable_by) if finding.rule is not None else ""


def _section(_: Check, finding: Finding) -> str:
    return finding.rule.section if finding.rule is not None else ""


_WORDS: dict[str, Callable[[Check, Finding], str]] = {
    "proposed": lambda _, finding: finding.proposed_text(),
    "limit": lambda _, finding: finding.limit_text(),
    "source": _source,
    "cure": lambda _, finding: finding.cure_text(),
    "why": lambda _, finding: told(finding.why),
    "waivable_by": _waivable_by,
    "section": _section,
}
