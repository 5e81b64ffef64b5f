"""Whether the conditions of a rule leave some job out."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import islice, product
from typing import TYPE_CHECKING, Any

from permitkit.model.facts import FACTS, FactKind, Season, Threshold
from permitkit.study.in_force.fits import fit
from permitkit.units import Measure, from_si

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from permitkit.model.facts import Condition, When

__all__ = ["leaves_open"]

LEAP_YEAR = 2024
_MOST = 5000


def leaves_open(conditions: Sequence[When], owners: Collection[str] = ()) -> bool:
    """Return whether some job fits none of the conditions; it may where that cannot be told.

    Every word of the facts they ask for is tried with every other, a quantity at each end that is
    named, on both sides of it.

    Parameters
    ----------
    conditions
        The conditions.
    owners
        Whose the streets are that are not the town's, where the sheets list any: then nobody
        else's are thought of.
    """
    asked: dict[str, list[Condition]] = {}
    for when in conditions:
        for alternative in when.alternatives:
            for name, condition in alternative.items():
                asked.setdefault(name, []).append(condition)
    values = [list(_values(name, found)) for name, found in asked.items()]
    if owners and "authority" in asked:
        values[list(asked).index("authority")] = ["town", *owners]
    jobs = [dict(zip(asked, row, strict=True)) for row in islice(product(*values), _MOST + 1)]
    if len(jobs) > _MOST:
        return True
    return any(not any(fit(when, job)[0] for when in conditions) for job in jobs)


def _values(name: str, conditions: Sequence[Condition]) -> Iterator[Any]:
    """Yield values of a fact among which every condition on it tells the same for the rest."""
    fact = FACTS[name]
    if fact.kind is FactKind.YES_NO:
        yield from (True, False)
    elif fact.kind is FactKind.WORD:
        yield from fact.words
    elif fact.kind is FactKind.NAME:
        yield from (word for words in conditions if isinstance(words, tuple) for word in words)
        yield "another"
    elif fact.kind is FactKind.SEASON:
        yield from _days(conditions)
    else:
        yield from _round_about(conditions)


def _round_about(conditions: Sequence[Condition]) -> Iterator[Any]:
    """Yield each end that is named, and what lies just under and just over it."""
    for ends in conditions:
        if isinstance(ends, Threshold):
            for end in (ends.over, ends.at_least, ends.up_to, ends.under):
                if end is not None:
                    yield from _three(end)


def _days(conditions: Sequence[Condition]) -> Iterator[date]:
    """Yield the ends of each part of the year, and the days on both sides of them."""
    for season in conditions:
        if isinstance(season, Season):
            for month, day in (season.start, season.end):
                yield from _three(date(LEAP_YEAR, month, day))


def _three(end: Any) -> Iterator[Any]:  # noqa: ANN401 - a quantity, a number or a day
    if isinstance(end, Measure):
        near = (abs(float(end)) + 1.0) * 1e-6
        yield from (from_si(float(end) + by, end.kind, end.unit) for by in (-near, near))
        yield end
    elif isinstance(end, date):
        yield from (end + timedelta(days) for days in (-1, 0, 1))
    else:
        yield from (end - 1, end, end + 1)
