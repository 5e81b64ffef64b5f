"""Parts of the year, of the day and of the week, as an office writes them."""

from __future__ import annotations

import re
from datetime import date, time
from typing import TYPE_CHECKING

from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import Hours, Season, Span

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["CLOCKS", "read_hours", "read_season", "read_span"]

CLOCKS = (
    "filing",
    "issue",
    "start",
    "finish",
    "call",
    "notice",
    "request",
    "opening",
    "concrete",
    "acceptance",
    "inspection",
    "enactment",
    "emergency",
    "paving",
    "end of use",
)
_UNITS = {
    "hour": "hours",
    "day": "days",
    "calendar day": "days",
    "working day": "working days",
    "business day": "working days",
    "week": "weeks",
    "month": "months",
    "year": "years",
}
_SPAN = re.compile(r"([0-9]{1,4}) (full )?([a-z ]+?)s?")
_SEASON = re.compile(r"([0-9]{1,2})-([0-9]{1,2}) to ([0-9]{1,2})-([0-9]{1,2})")
_CLOCK = re.compile(r"([0-9]{1,2}):([0-9]{2}) ?- ?([0-9]{1,2}):([0-9]{2})")
_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
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


def read_span(table: Written, name: str) -> Span | None:
    """Return a length of time, such as `10 working days`, `48 hours` or `no end`."""
    text = table.text(name).lower()
    clock = table.word("clock", CLOCKS)
    if text == "no end":
        return Span(0, "years", clock, endless=True)
    match = _SPAN.fullmatch(text)
    if match and match[3] in _UNITS:
        return Span(int(match[1]), _UNITS[match[3]], clock, full_days=bool(match[2]))
    if text:
        expected = "a number of hours, days, working days, weeks, months or years, or no end"
        table.fault(name, repr(text), expected, "write it as 10 working days, 48 hours or 2 years")
    return None


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
