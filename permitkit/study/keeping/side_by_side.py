"""Two or more towns held against each other, rule by rule."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.model.keys.subjects import by_subject
from permitkit.model.rules import RuleKey
from permitkit.study.keeping.said import left_open, said, told

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from permitkit.model.rules import Sheet
    from permitkit.study.keeping.said import Said

__all__ = ["Row", "side_by_side"]

NOTHING = ("nothing said",)


@dataclass(frozen=True, slots=True)
class Row:
    """One question, and what each town says to it, in the order the towns were named."""

    key: RuleKey
    subject: str
    told: tuple[tuple[str, ...], ...]
    differs: bool


def side_by_side(towns: Sequence[Sequence[Sheet]], day: date) -> tuple[Row, ...]:
    """Return every question that some town answers, those answered differently first.

    Parameters
    ----------
    towns
        For each town its sheet first, then the layers it follows.
    day
        The day whose editions are read.
    """
    rows = []
    for subject, keys in by_subject():
        for key in keys:
            words = [said(key, sheets, day) for sheets in towns]
            if any(words):
                lines = tuple(_lines(key, found) for found in words)
                rows.append(Row(key, subject, lines, _differ(words, lines)))
    return tuple(sorted(rows, key=lambda row: not row.differs))


def _lines(key: RuleKey, words: Sequence[Said]) -> tuple[str, ...]:
    """Return what a town says, and that it says nothing to some jobs."""
    open_still = left_open(key, words)
    return (*told(key, words), open_still) if open_still else told(key, words) or NOTHING


def _differ(words: Sequence[Sequence[Said]], lines: Sequence[tuple[str, ...]]) -> bool:
    """Return whether towns say different things: unlike words, and unlike values."""
    if len(set(lines)) == 1:
        return False
    first, *others = [[(word.case.when, word.case.value) for word in found] for found in words]
    return any(other != first for other in others)
