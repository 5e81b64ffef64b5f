"""The sheets of a job, nearest first, and what does not depend on any job."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.model.rules import Rule, Sheet
from permitkit.study.in_force.answer import InForce

if TYPE_CHECKING:
    from permitkit.model.rules import Edition

__all__ = ["Stack", "stack_of"]


@dataclass(frozen=True, slots=True)
class Stack:
    """Sheets with their rules by key.

    Parameters
    ----------
    sheets
        The town first, then what it follows.
    layers
        For each key, the sheets that have a rule on it, nearest first.
    constants
        Answers that ask for no fact, by key and the editions in force; filled as they are met.
    always
        Those among them that no date changes either, by key.
    """

    sheets: tuple[Sheet, ...]
    layers: dict[str, tuple[tuple[Sheet, Rule], ...]]
    constants: dict[tuple[str, tuple[int, ...]], InForce] = field(default_factory=dict)
    always: dict[str, InForce] = field(default_factory=dict)

    def keep(self, name: str, editions: tuple[Edition | None, ...], found: InForce) -> None:
        """Keep an answer that asked for no fact."""
        self.constants[name, tuple(map(id, editions))] = found
        if all(_timeless(rule) for _, rule in self.layers.get(name, ())):
            self.always[name] = found


def _timeless(rule: Rule) -> bool:
    """Return whether a rule is the same on every day."""
    return len(rule.editions) == 1 and rule.editions[0].since is None


@lru_cache(maxsize=256)
def stack_of(sheets: tuple[Sheet, ...]) -> Stack:
    """Return the sheets arranged by key; the same sheets give the same stack."""
    names = dict.fromkeys(name for sheet in sheets for name in sheet.rules)
    layers = {
        name: tuple((sheet, sheet.rules[name]) for sheet in sheets if name in sheet.rules)
        for name in names
    }
    return Stack(sheets, layers)
