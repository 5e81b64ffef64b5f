"""Whether one condition lies within another, and what fits two at once."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import product
from typing import TYPE_CHECKING, Any

from permitkit.model.rules import Threshold, When
from permitkit.model.values import Season

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from permitkit.model.facts import Age
    from permitkit.model.rules import Condition

__all__ = ["is_within", "meeting"]

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


def meeting(one: When | None, other: When | None) -> When | None:
    """Return what fits two conditions at once; nothing where no job could fit both.

    A condition that is not there fits every job; two of them meet in a condition without facts.
    """
    both = tuple(
        pair
        for a in (one.alternatives if one else ({},))
        for b in (other.alternatives if other else ({},))
        for pair in _together(a, b)
    )
    return When(both) if both else None


def _together(
    one: Mapping[str, Condition], other: Mapping[str, Condition]
) -> Iterator[dict[str, Condition]]:
    """Yield the alternatives that fit both alternatives."""
    names = [name for name in one if name in other]
    for shared in product(*(_shared(one[name], other[name]) for name in names)):
        yield {**one, **other, **dict(zip(names, shared, strict=True))}


def _shared(one: Condition, other: Condition) -> Sequence[Condition]:
    """Return what fits two conditions of one fact; nothing where they exclude each other."""
    if isinstance(one, Threshold) and isinstance(other, Threshold):
        apart = _apart(one, other) or _apart(other, one)
        return () if apart else (_stricter(one, other),)
    if isinstance(one, Season) and isinstance(other, Season):
        return _seasons([one.holds(day) and other.holds(day) for day in _LEAP_YEAR])
    words = _members(one) & _members(other)
    return (tuple(sorted(words)),) if words else ()


def _seasons(fits: Sequence[bool]) -> list[Condition]:
    """Return the parts of the year in which days fit, the turn of the year not parting them."""
    if all(fits):
        return [Season((1, 1), (12, 31))]
    days = range(len(fits))
    starts = [day for day in days if fits[day] and not fits[day - 1]]
    ends = [day for day in days if fits[day] and not fits[(day + 1) % len(fits)]]
    if ends and ends[0] < starts[0]:
        ends = [*ends[1:], ends[0]]
    dates = [
        (_LEAP_YEAR[first], _LEAP_YEAR[last]) for first, last in zip(starts, ends, strict=True)
    ]
    return [Season((first.month, first.day), (last.month, last.day)) for first, last in dates]


def _stricter(one: Threshold, other: Threshold) -> Threshold:
    """Return the ends that both thresholds set, of two the one that lets in less."""

    def end(name: str, pick: Callable[..., Any]) -> Any:  # noqa: ANN401 - a quantity, a day, a sum
        ends = [each for each in (getattr(one, name), getattr(other, name)) if each is not None]
        return pick(ends) if ends else None

    ages = [each.within for each in (one, other) if each.within is not None]
    return Threshold(
        over=end("over", max),
        up_to=end("up_to", min),
        at_least=end("at_least", max),
        under=end("under", min),
        within=max(ages, key=lambda age: age.back_from(_DAY)) if ages else None,
    )


def _apart(lower: Threshold, upper: Threshold) -> bool:
    """Return whether the one lies wholly below the other."""
    return any(
        high < low or (high == low and (high_out or low_out))
        for high, high_out in _highs(lower)
        for low, low_out in _lows(upper)
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
