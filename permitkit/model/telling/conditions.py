"""Conditions in words."""

from __future__ import annotations

from calendar import month_abbr
from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, FactKind
from permitkit.model.rules import Threshold
from permitkit.model.values import Season
from permitkit.units import Measure, write_money

if TYPE_CHECKING:
    from datetime import date

    from permitkit.model.rules import Condition, When

__all__ = ["any_of", "condition_text", "season_text", "threshold_text", "when_text"]


def when_text(when: When | None) -> str:
    """Return a condition in words: `water is sump or footing, and outlet is core`."""
    if when is None:
        return "in every case"
    rows = [
        ", and ".join(condition_text(name, condition) for name, condition in row.items())
        for row in when.alternatives
    ]
    return "; or ".join(rows)


def condition_text(name: str, condition: Condition) -> str:
    """Return what fits one fact in words."""
    fact = FACTS[name]
    if isinstance(condition, Season):
        return f"the work lies within {season_text(condition)}"
    if isinstance(condition, Threshold):
        return f"{fact.question} is {threshold_text(condition)}"
    if fact.kind is FactKind.YES_NO:
        return f"{fact.question.removeprefix('whether ')}: {' or '.join(condition)}"
    return f"{fact.question} is {any_of(condition)}"


def threshold_text(ends: Threshold) -> str:
    """Return the ends a fact is held against in words: `over 20 sq ft and up to 50 sq ft`."""
    words = {"over": "over", "at_least": "at least", "under": "under", "up_to": "up to"}
    parts = [] if ends.within is None else [f"within the last {ends.within.text}"]
    for name, word in words.items():
        end = getattr(ends, name)
        if end is not None:
            parts.append(f"{word} {_end_text(end)}")
    return " and ".join(parts)


def _end_text(end: Measure | date | int | Decimal) -> str:
    if isinstance(end, Measure):
        return end.shown()
    return write_money(end) if isinstance(end, Decimal) else str(end)


def season_text(season: Season) -> str:
    """Return a part of the year in words: `Nov 15 to Mar 31`."""
    ends = [f"{month_abbr[month]} {day}" for month, day in (season.start, season.end)]
    return " to ".join(ends)


def any_of(words: tuple[str, ...]) -> str:
    """Return words of which any will do: `a, b or c`."""
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last
