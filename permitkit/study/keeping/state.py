"""How complete a town's sheet is, how old, and when it falls due for another look."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.model.rules import Sheet
from permitkit.study.keeping.said import State, said, state_of

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["SheetState", "sheet_state"]

DAYS_IN_A_MONTH = 30.4375
MONTHS_SHOWN_FROM = 3


@dataclass(frozen=True, slots=True)
class SheetState:
    """A sheet on a day, the layers it follows counted in.

    Parameters
    ----------
    sheet
        The sheet.
    day
        The day.
    counts
        How many of the declared keys stand in each state.
    """

    sheet: Sheet
    day: date
    counts: Mapping[State, int]

    @property
    def days_old(self) -> int:
        """Days since it was last held against its sources; under 0 where that lies ahead."""
        return (self.day - self.sheet.checked).days

    @property
    def overdue(self) -> bool:
        """Whether the day for another look is past."""
        return self.day > self.sheet.due

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
    found = Counter(state_of(key, said(key, sheets, day)) for key in KEYS.values())
    return SheetState(sheets[0], day, {state: found[state] for state in State})
