"""Does a condition fit? Yes, no, or perhaps: then the facts that would tell."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from permitkit.model.facts import COUNTED_FROM, FACTS, FactKind
from permitkit.model.rules import Clock, Threshold
from permitkit.model.values import Season
from permitkit.study.in_force.facts import NONE_NEAR, UNKNOWN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.rules import Condition, When

__all__ = ["Fit", "fit", "fit_one", "same_name", "same_street"]

Fit = tuple[bool | None, tuple[str, ...]]
"""Whether a condition fits (None: perhaps), and the facts that would tell."""

_SHORT = {
    "alley": "aly",
    "avenue": "ave",
    "boulevard": "blvd",
    "circle": "cir",
    "court": "ct",
    "drive": "dr",
    "highway": "hwy",
    "lane": "ln",
    "parkway": "pkwy",
    "place": "pl",
    "road": "rd",
    "square": "sq",
    "street": "st",
    "terrace": "ter",
    "trail": "trl",
    "north": "n",
    "south": "s",
    "east": "e",
    "west": "w",
}
_FITS: Fit = (True, ())
_FITS_NOT: Fit = (False, ())


def fit(when: When | None, facts: Mapping[str, object], clock: Clock = Clock.FILING) -> Fit:
    """Return whether a condition fits the facts.

    Any alternative that fits will do; one that might fit keeps the answer open. Ages are counted
    back from the job's day of a clock.
    """
    if when is None:
        return _FITS
    missing: list[str] = []
    for alternative in when.alternatives:
        fits, lacking = _fit_all(alternative, facts, clock)
        if fits:
            return _FITS
        missing.extend(lacking)
    return (None, tuple(dict.fromkeys(missing))) if missing else _FITS_NOT


def _fit_all(
    alternative: Mapping[str, Condition], facts: Mapping[str, object], clock: Clock
) -> Fit:
    """Return whether all facts of an alternative hold; one that does not settles it."""
    missing = []
    for name, condition in alternative.items():
        value = facts.get(name, UNKNOWN)
        if isinstance(condition, Threshold) and (condition.within or condition.older):
            fits = _aged(condition, value, facts, clock)
        else:
            fits = fit_one(name, condition, value)
        if fits is False:
            return _FITS_NOT
        if fits is None:
            missing.append(name)
    return (None, tuple(missing)) if missing else _FITS


def fit_one(name: str, condition: Condition, value: object) -> bool | None:
    """Return whether one fact holds; a fact of several values holds if all of them do."""
    if value is UNKNOWN:
        return None
    if isinstance(condition, Season):
        return _within(condition, value)
    values = value if isinstance(value, tuple) else (value,)
    found = {_fit_value(name, condition, single) for single in values}
    return found.pop() if len(found) == 1 else None


def _fit_value(name: str, condition: tuple[str, ...] | Threshold, value: Any) -> bool:  # noqa: ANN401 - facts differ
    if isinstance(condition, Threshold):
        return _between(condition, value)
    if isinstance(value, bool):
        return ("yes" if value else "no") in condition
    if FACTS[name].kind is FactKind.NAME:
        same = same_street if name == "street" else same_name
        return any(same(value, word) for word in condition)
    return value in condition


def _aged(ends: Threshold, value: object, facts: Mapping[str, object], clock: Clock) -> bool | None:
    """Return whether a day is no longer ago than an age, or longer, where both days are known."""
    days = facts.get(COUNTED_FROM)
    if not isinstance(value, date) or not isinstance(days, dict):
        return None
    young = ends.within is None or value >= ends.within.back_from(days[clock])
    return young and (ends.older is None or value < ends.older.back_from(days[clock]))


def _between(ends: Threshold, value: Any) -> bool:  # noqa: ANN401 - a day, a quantity or a number
    """Return whether a value lies between the ends."""
    if value is NONE_NEAR:
        return ends.up_to is None and ends.under is None
    return (
        (ends.over is None or value > ends.over)
        and (ends.at_least is None or value >= ends.at_least)
        and (ends.up_to is None or value <= ends.up_to)
        and (ends.under is None or value < ends.under)
    )


def _within(season: Season, value: object) -> bool | None:
    """Return whether a day, or every day from a first to a last, lies in a part of the year."""
    first, last = value if isinstance(value, tuple) else (value, value)
    if not isinstance(first, date) or not isinstance(last, date):
        return None
    days = range(min((last - first).days, 366) + 1)
    found = {season.holds(first + timedelta(n)) for n in days}
    return found.pop() if len(found) == 1 else None


def same_name(one: str, other: str) -> bool:
    """Return whether two names differ in nothing but capitals and spaces.

    Examples
    --------
    >>> same_name("Silty  clay", "silty clay")
    True
    """
    return one.casefold().split() == other.casefold().split()


def same_street(one: str, other: str) -> bool:
    """Return whether two streets have one name, written out or cut short.

    Examples
    --------
    >>> same_street("Golf Rd.", "golf road")
    True
    >>> same_street("Golf Road", "Golf Lane")
    False
    """
    return _street(one) == _street(other)


def _street(name: str) -> list[str]:
    words = name.casefold().replace(".", " ").split()
    return [_SHORT.get(word, word) for word in words]
