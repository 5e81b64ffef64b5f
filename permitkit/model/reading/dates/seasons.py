"""Parts of the year, as an office writes them."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import Season, Seasons

__all__ = ["read_season", "read_seasons"]

_SEASON = re.compile(r"([0-9]{1,2})-([0-9]{1,2}) to ([0-9]{1,2})-([0-9]{1,2})")
_LEAP_YEAR = 2024


def read_seasons(table: Written) -> Seasons | None:
    """Return the parts of the year that are closed, or that alone are open, each once."""
    closed, soft = table.has("closed"), table.flag("soft_end")
    name = "closed" if closed else "open"
    value = table.take(name)
    rows = value if isinstance(value, list) else [value]
    parts = [_read_part(table, name, row, n, soft=soft) for n, row in enumerate(rows, 1)]
    seasons = tuple(replace(part, closed=closed) for part in parts if part is not None)
    if len(set(seasons)) < len(seasons):
        table.fault(name, quoted(value), "each part of the year once")
    return Seasons(seasons) if len(seasons) == len(rows) > 0 else None


def _read_part(table: Written, name: str, row: object, n: int, *, soft: bool) -> Season | None:
    """Return one part of the year: a text, or a table that says of its end alone that it moves."""
    if isinstance(row, str) and row.strip():
        return read_season(Written({name: row}, table.where, table.faults), name, soft=soft)
    if isinstance(row, dict):
        part = Written(row, f"{table.at(name)}[{n}]", table.faults)
        found = read_season(part, "season", soft=part.flag("soft_end", default=soft))
        part.close()
        return found
    table.fault(name, quoted(row), 'a part of the year, such as "11-15 to 03-31"')
    return None


def read_season(table: Written, name: str, *, soft: bool = False) -> Season | None:
    """Return a part of the year, such as `11-15 to 03-31`, both days within it."""
    match = _SEASON.fullmatch(text := table.text(name))
    try:
        if match:
            ends = [date(_LEAP_YEAR, int(match[n]), int(match[n + 1])) for n in (1, 3)]
            start, end = ((day.month, day.day) for day in ends)
            return Season(start, end, soft_end=soft)
    except ValueError:
        match = None
    if text:
        table.fault(name, repr(text), "two days of the year as month-day, such as 11-15 to 03-31")
    return None
