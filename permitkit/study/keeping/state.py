"""How complete a town's sheet is, how old, and when it falls due for another look."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.study.keeping.said import State, said, state_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from permitkit.model.rules import RuleKey, Sheet

__all__ = ["SheetState", "counted", "sheet_state"]

DAYS_IN_A_MONTH = 30.4375
MONTHS_SHOWN_FROM = 3


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


def sheet_state(sheets: Sequence[Sheet], day: date) -> SheetState:
    """Return the state of a town's sheet on a day.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    day
        The day whose editions are counted.
    """
    return counted(
        sheets[0].checked, sheets[0].due, day, lambda key: state_of(key, said(key, sheets, day))
    )


def counted(checked: date, due: date, day: date, state: Callable[[RuleKey], State]) -> SheetState:
    """Return the state of a sheet from the state of each of its keys."""
    found = Counter(map(state, KEYS.values()))
    return SheetState(day, checked, due, {each: found[each] for each in State})
