"""Conditions in words."""

from __future__ import annotations

from calendar import month_abbr
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, FactKind
from permitkit.model.rules import Threshold
from permitkit.model.telling.phrases import DATED, EITHER, WORDED
from permitkit.model.values import Season
from permitkit.units import Measure, write_money

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.model.facts import Fact
    from permitkit.model.rules import Condition, When

__all__ = [
    "any_of",
    "condition_text",
    "joined",
    "ladder_text",
    "season_text",
    "threshold_text",
    "when_text",
]


def when_text(when: When | None) -> str:
    """Return a condition in words: `water is sump or footing, and outlet is core`."""
    if when is None:
        return "in every case"
    rows = [
        ", and ".join(condition_text(name, condition) for name, condition in row.items())
        for row in when.alternatives
    ]
    return "; or ".join(rows)


def ladder_text(who: Sequence[str], needs: Sequence[str]) -> str:
    """Return who may waive a rule, first to be asked first, each with what that office needs."""
    wanted = (*needs, *[""] * (len(who) - len(needs)))
    steps = zip(who, wanted, strict=True)
    return ", then ".join(f"{name} (given {need})" if need else name for name, need in steps)


def condition_text(name: str, condition: Condition) -> str:
    """Return what fits one fact in words."""
    fact = FACTS[name]
    if isinstance(condition, Season):
        return f"the work lies within {season_text(condition)}"
    if isinstance(condition, Threshold):
        ends = threshold_text(condition)
        return DATED[name].format(ends) if name in DATED else f"{fact.question} is {ends}"
    if fact.kind is FactKind.YES_NO:
        return _either(name, fact, condition)
    if name not in WORDED:
        return f"{fact.question} is {any_of(condition)}"
    sentence, words = WORDED[name]
    return sentence.format(any_of(tuple(words.get(word, word) for word in condition)))


def _either(name: str, fact: Fact, words: tuple[str, ...]) -> str:
    """Return what a fact says that is so or is not."""
    if name not in EITHER:
        return f"{fact.question.removeprefix('whether ')}: {' or '.join(words)}"
    yes, no = EITHER[name]
    return " or ".join(yes if word == "yes" else no for word in words)


_ENDS = {"over": "over", "at_least": "at least", "under": "under", "up_to": "up to"}
_DAY_ENDS = {"over": "after", "at_least": "on or after", "under": "before", "up_to": "on or before"}


def threshold_text(ends: Threshold) -> str:
    """Return the ends a fact is held against in words: `over 20 sq ft and up to 50 sq ft`."""
    stated = (ends.over, ends.at_least, ends.under, ends.up_to)
    parts = [] if ends.within is None else [f"within the last {ends.within.text}"]
    parts += [] if ends.older is None else [f"more than {ends.older.text} ago"]
    for name, word in (_DAY_ENDS if any(isinstance(e, date) for e in stated) else _ENDS).items():
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
    return joined(words, "or")


def joined(words: tuple[str, ...], word: str) -> str:
    """Return words in a row, the last after `or` or `and`."""
    *most, last = words
    return f"{', '.join(most)} {word} {last}" if most else last
