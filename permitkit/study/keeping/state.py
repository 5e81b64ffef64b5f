"""How complete a town's sheet is, how old, and when it falls due for another look."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.model.rules import Stacks

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Sequence

    from permitkit.model.rules import RuleKey

__all__ = ["SheetState", "State", "combined", "counted", "state_in_layers"]

DAYS_IN_A_MONTH = 30.4375
MONTHS_SHOWN_FROM = 3


class State(StrEnum):
    """How far a question is answered."""

    ANSWERED = "answered"
    ASK = "ask"
    BY_REFERENCE = "by reference"
    NO_RULE = "no rule"
    SILENT = "silent"


@dataclass(frozen=True, slots=True)
class SheetState:
    """A sheet on a day, the layers it follows counted in.

    Parameters
    ----------
    day
        The day.
    checked
        The day it was last held against its sources.
    due
        The day for another look.
    counts
        How many of the declared keys stand in each state.
    """

    day: date
    checked: date
    due: date
    counts: Mapping[State, int]

    @property
    def days_old(self) -> int:
        """Days since it was last held against its sources; under 0 where that lies ahead."""
        return (self.day - self.checked).days

    @property
    def overdue(self) -> bool:
        """Whether the day for another look is past."""
        return self.day > self.due

    @property
    def age(self) -> str:
        """How old it is, as printed: `45 days`, `14 months`."""
        months = round(self.days_old / DAYS_IN_A_MONTH)
        if self.days_old < 0:
            return "not yet"
        if months >= MONTHS_SHOWN_FROM:
            return f"{months} months"
        return f"{self.days_old} day{'' if self.days_old == 1 else 's'}"


def counted(checked: date, due: date, day: date, state: Callable[[RuleKey], State]) -> SheetState:
    """Return the state of a sheet from the state of each of its keys."""
    found = Counter(map(state, KEYS.values()))
    return SheetState(day, checked, due, {each: found[each] for each in State})


def state_in_layers(key: RuleKey, layers: Iterable[Sequence[tuple[str, bool]]]) -> State:
    """Return how far a question is answered, by a glance at each sheet.

    Parameters
    ----------
    key
        The question.
    layers
        For each sheet, nearest first, its cases: their state, and whether each has a condition.
    """
    found: set[str] = set()
    for cases in layers:
        found.update(state for state, _ in cases)
        if key.stacks is Stacks.NEAREST and not all(conditional for _, conditional in cases):
            break
    return combined(key, found)


def combined(key: RuleKey, states: Collection[str]) -> State:
    """Return how far a question is answered by cases in these states."""
    if not states:
        return State.SILENT
    if key.stacks is Stacks.STRICTEST and State.ANSWERED in states:
        return State.ANSWERED
    order = (State.ASK, State.BY_REFERENCE, State.ANSWERED, State.NO_RULE)
    return next((state for state in order if state in states), State.SILENT)
