"""Which of several lines of money the applicant chose to pay."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from permitkit.model.money import FeeLine
from permitkit.model.telling import line_text
from permitkit.study.fees.owed import Owed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.study.in_force import InForce

__all__ = ["Choice", "choice_of"]


@dataclass(frozen=True, slots=True)
class Choice:
    """What is owed, the lines that may stand in place of others, and the names of those paid."""

    owed: Owed
    others: tuple[FeeLine, ...]
    paid: Collection[str]

    def passed_over(self, line: FeeLine) -> bool:
        """Whether a line stands in place of another and was not chosen."""
        return bool(line.in_place_of) and line.name not in self.paid

    def instead_of(self, line: FeeLine) -> str:
        """The line that was paid in place of this one; nothing where none was."""
        names = (other.name for other in self.others if other.in_place_of == line.name)
        return next((name for name in names if name in self.paid), "")

    def offered(self, line: FeeLine) -> tuple[str, ...]:
        """What might be paid in place of a line, in words."""
        if self.instead_of(line):
            return ()
        others = (other for other in self.others if other.in_place_of == line.name)
        bare = (replace(other, in_place_of="", note="", cite_text="") for other in others)
        return tuple(f"or in its place {line_text(other)}" for other in bare)


def choice_of(rules: Iterable[InForce], owed: Owed, paid: Collection[str]) -> Choice:
    """Return what may be chosen among the lines of several rules, and what was."""
    lines = [line for rule in rules if rule.known for line in rule.fees.lines]
    others = (line for line in lines if line.in_place_of and owed.doubt(line) is not None)
    return Choice(owed, tuple(others), paid)
