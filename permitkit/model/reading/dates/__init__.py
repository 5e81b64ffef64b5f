"""Times, parts of the year, and hours of the week, as an office writes them."""

from __future__ import annotations

from permitkit.model.reading.dates.hours import read_hours
from permitkit.model.reading.dates.seasons import read_season, read_seasons
from permitkit.model.reading.dates.spans import (
    CLOCKS,
    PAPERS,
    SPAN_WORDS,
    read_age,
    read_clock,
    read_length,
    read_notice,
    read_time,
)

__all__ = [
    "CLOCKS",
    "PAPERS",
    "SPAN_WORDS",
    "read_age",
    "read_clock",
    "read_hours",
    "read_length",
    "read_notice",
    "read_season",
    "read_seasons",
    "read_time",
]
