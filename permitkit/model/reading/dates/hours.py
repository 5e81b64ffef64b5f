"""Hours of the day and days of the week, as an office writes them."""

from __future__ import annotations

import re
from datetime import time
from typing import TYPE_CHECKING

from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import Hours

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["read_hours"]

_CLOCK = re.compile(r"([0-9]{1,2}):([0-9]{2}) ?- ?([0-9]{1,2}):([0-9]{2})")
_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def read_hours(table: Written, name: str) -> Hours | None:
    """Return hours of the day, and the days of the week in the field `days`."""
    ranges = tuple(_read_range(table, name, text) for text in table.texts(name))
    days = tuple(sorted(set(_read_days(table)))) if table.has("days") else (0, 1, 2, 3, 4)
    good = tuple(found for found in ranges if found)
    return Hours(good, days) if good else None


def _read_range(table: Written, name: str, text: str) -> tuple[time, time] | None:
    match = _CLOCK.fullmatch(text)
    try:
        if match:
            start, end = (time(int(match[n]), int(match[n + 1])) for n in (1, 3))
            if start < end:
                return start, end
    except ValueError:
        match = None
    table.fault(name, repr(text), "hours of the day from one to a later one, such as 07:00-19:00")
    return None


def _read_days(table: Written) -> Iterator[int]:
    """Yield days of the week, Monday first, from `Mon-Fri` or a list of days."""
    for text in table.texts("days"):
        for part in text.split(","):
            ends = [_DAYS.index(word) for word in _day_names(part) if word in _DAYS]
            if len(ends) != len(_day_names(part)) or ends != sorted(ends):
                table.fault("days", quoted(text), "days of the week, such as Mon-Fri or Sat")
                return
            yield from range(ends[0], ends[-1] + 1)


def _day_names(part: str) -> list[str]:
    """Return one or two days' first three letters."""
    return [word.strip().lower()[:3] for word in part.split("-", 1)]
