"""Whether one condition lies within another."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from permitkit.model.rules import Threshold
from permitkit.model.values import Season

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.facts import Age
    from permitkit.model.rules import Condition, When

__all__ = ["is_within"]

_DAY = date(2024, 1, 31)
_LEAP_YEAR = [date(2024, 1, 1) + timedelta(n) for n in range(366)]


def is_within(inner: When | None, outer: When | None) -> bool:
    """Return whether the outer condition fits whenever the inner one does."""
    if outer is None:
        return True
    if inner is None:
        return False
    return all(
        any(_alternative_within(one, other) for other in outer.alternatives)
        for one in inner.alternatives
    )


def _alternative_within(inner: Mapping[str, Condition], outer: Mapping[str, Condition]) -> bool:
    return all(name in inner and _condition_within(inner[name], outer[name]) for name in outer)


def _condition_within(inner: Condition, outer: Condition) -> bool:
    """Return whether everything that fits the inner condition of a fact fits the outer."""
    if isinstance(inner, Threshold) and isinstance(outer, Threshold):
        if any((inner.within, inner.older, outer.within, outer.older)):
            return _younger(inner.within, outer.within) and _younger(outer.older, inner.older)
        return _low_within(inner, outer) and _high_within(inner, outer)
    return _members(inner) <= _members(outer)


def _younger(inner: Age | None, outer: Age | None) -> bool:
    """Return whether one age is no longer than the other; what a fixed end leaves is not known."""
    if inner is None or outer is None:
        return inner == outer
    return outer.back_from(_DAY) <= inner.back_from(_DAY)


def _members(condition: Condition) -> frozenset[Any]:
    """Return the words that fit, or the days of the year."""
    if isinstance(condition, Season):
        return frozenset(day for day in _LEAP_YEAR if condition.holds(day))
    assert not isinstance(condition, Threshold)  # noqa: S101 - a fact has one kind of condition
    return frozenset(word.casefold() for word in condition)


def _lows(ends: Threshold) -> list[tuple[Any, bool]]:
    """Return the lower ends, each with whether it is left out."""
    pairs = [(ends.over, True), (ends.at_least, False)]
    return [(end, out) for end, out in pairs if end is not None]


def _highs(ends: Threshold) -> list[tuple[Any, bool]]:
    """Return the upper ends, each with whether it is left out."""
    pairs = [(ends.under, True), (ends.up_to, False)]
    return [(end, out) for end, out in pairs if end is not None]


def _low_within(inner: Threshold, outer: Threshold) -> bool:
    return all(
        any(low > end or (low == end and (out or not end_out)) for low, out in _lows(inner))
        for end, end_out in _lows(outer)
    )


def _high_within(inner: Threshold, outer: Threshold) -> bool:
    return all(
        any(high < end or (high == end and (out or not end_out)) for high, out in _highs(inner))
        for end, end_out in _highs(outer)
    )
