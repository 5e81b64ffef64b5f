"""The sheets of a job, nearest first, and what does not depend on any job."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from permitkit.model.rules import Rule, Sheet
    from permitkit.study.in_force.answer import InForce

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
    """

    sheets: tuple[Sheet, ...]
    layers: dict[str, tuple[tuple[Sheet, Rule], ...]]
    constants: dict[tuple[str, tuple[int, ...]], InForce] = field(default_factory=dict)


@lru_cache(maxsize=256)
def stack_of(sheets: tuple[Sheet, ...]) -> Stack:
    """Return the sheets arranged by key; the same sheets give the same stack."""
    names = dict.fromkeys(name for sheet in sheets for name in sheet.rules)
    layers = {
        name: tuple((sheet, sheet.rules[name]) for sheet in sheets if name in sheet.rules)
        for name in names
    }
    return Stack(sheets, layers)
