"""Hours of the day and days of the week, as an office writes them."""

from __future__ import annotations

import re
from datetime import time
from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import DayHours, Hours

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["read_hours"]

_CLOCK = re.compile(r"([0-9]{1,2}):([0-9]{2}) ?- ?([0-9]{1,2}):([0-9]{2})")
_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def read_hours(table: Written) -> Hours | None:
    """Return hours of the day on days of the week: the same for all, or a week in parts."""
    if not table.has("week"):
        part = _read_part(table)
        return Hours((part,)) if part else None
    if table.has("days"):
        table.fault("days", "days beside week", "days within each part of the week")
    parts: list[DayHours] = []
    for row in table.tables("week"):
        part = _read_part(row)
        row.close(also=("hours", "days"))
        if part is None:
            return None
        twice = sorted({day for other in parts for day in other.days} & set(part.days))
        if twice:
            row.fault("days", f"{_DAYS[twice[0]].title()} once more", "each day in one part")
        parts.append(part)
    return Hours(tuple(parts)) if parts else None


def _read_part(table: Written) -> DayHours | None:
    """Return hours, and the days they hold on; Monday to Friday where none are said."""
    if not table.has("hours"):
        table.fault("hours", "nothing", 'hours of the day, such as "07:00-19:00"')
    texts = table.texts("hours")
    ranges = tuple(_read_range(table, "hours", text) for text in texts)
    days = tuple(sorted(set(_read_days(table)))) if table.has("days") else (0, 1, 2, 3, 4)
    good = tuple(found for found in ranges if found)
    if any(after[0] < before[1] for before, after in pairwise(good)):
        table.fault("hours", quoted(list(texts)), "hours in their order, none within another")
    return DayHours(good, days) if good else None


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
