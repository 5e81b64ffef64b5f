"""Parts of the year, as an office writes them."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.values import Season

if TYPE_CHECKING:
    from permitkit.model.reading.written import Written

__all__ = ["read_season"]

_SEASON = re.compile(r"([0-9]{1,2})-([0-9]{1,2}) to ([0-9]{1,2})-([0-9]{1,2})")
_LEAP_YEAR = 2024


def read_season(
    table: Written, name: str, *, closed: bool = True, soft: bool = False
) -> Season | None:
    """Return a part of the year, such as `11-15 to 03-31`, both days within it."""
    match = _SEASON.fullmatch(text := table.text(name))
    try:
        if match:
            ends = [date(_LEAP_YEAR, int(match[n]), int(match[n + 1])) for n in (1, 3)]
            start, end = ((day.month, day.day) for day in ends)
            return Season(start, end, closed=closed, soft_end=soft)
    except ValueError:
        match = None
    if text:
        table.fault(name, repr(text), "two days of the year as month-day, such as 11-15 to 03-31")
    return None
