"""Days, hours and spans of time held against what a sheet sets."""

from __future__ import annotations

from calendar import month_abbr, monthrange
from datetime import date, time, timedelta
from functools import lru_cache, partial
from math import inf
from typing import TYPE_CHECKING

from permitkit.checks.compare.answers import honest, judged, passes_over
from permitkit.checks.finding import Finding
from permitkit.model.telling.values import seasons_text
from permitkit.model.values import Hours, Seasons, Span, Spans
from permitkit.model.verdict import Outcome
from permitkit.study.days import WEEKDAYS, told

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.checks.scale import Lazy
    from permitkit.study.in_force import InForce

__all__ = [
    "in_hours",
    "in_months",
    "in_season",
    "lasts",
    "not_sooner",
    "on_or_after",
    "on_or_before",
    "past",
]

HOURS_IN = {"hour": 1, "day": 24, "week": 168, "month": 720, "year": 8760}
DAY = timedelta(days=1)
MONTHS = 12
UNREACHED = "the day it depends on is not known"


def on_or_after(
    rule: InForce,
    day: date | None,
    first: date | None,
    *,
    item: str = "",
    cure: str = "",
    late: date | None = None,
) -> Finding:
    """Return whether a day is no earlier than the first that the rule, reckoned out, allows.

    `late` is the first day if what the rule counts from came after its hour, where nobody says.
    """
    found = _reckoned(rule, day, first, item, cure, late=False)
    if found.outcome is Outcome.MEETS and day and late and day < late:
        return _hour_asked(found, day, late)
    return found


def on_or_before(
    rule: InForce, day: date | None, last: date | None, *, item: str = "", cure: str = ""
) -> Finding:
    """Return whether a day is no later than the last that the rule, reckoned out, allows."""
    return _reckoned(rule, day, last, item, cure, late=True)


def past(rule: InForce, day: date, last: date | None, *, item: str = "", cure: str = "") -> Finding:
    """Return whether a time has run out by a day; one without end never does."""
    if isinstance(rule.value, Span) and rule.value.endless:
        words, limit = partial(told, day), f"closed {rule.value.text}"
        return Finding(Outcome.FAILS, item, rule, proposed=words, limit=limit, cure=cure)
    return on_or_after(rule, day, last, item=item, cure=cure)


def in_time(
    rule: InForce, day: date | None, last: date | None, *, item: str = "", cure: str = ""
) -> Finding:
    """Return whether a day lies within the time a rule gives; one without end holds it always."""
    if isinstance(rule.value, Span) and rule.value.endless:
        return passes_over("no end is set", item=item, rule=rule)
    if isinstance(rule.value, Spans) and last is None:
        why = f"on which day does this time end: {rule.text}?"
        return Finding(Outcome.ASK, item, rule, why=why, ask_of=rule.ask_of)
    return on_or_before(rule, day, last, item=item, cure=cure)


def not_sooner(
    rule: InForce, day: date | None, first: date | None, *, item: str = "", cure: str = ""
) -> Finding:
    """Return whether a wait began no longer before than the rule allows, where it says so."""
    if rule.known and first is None:
        return passes_over("no earliest day is set", item=item, rule=rule)
    return on_or_after(rule, day, first, item=item, cure=cure)


def _hour_asked(found: Finding, day: date, late: date) -> Finding:
    """Return the question at what hour something came, which decides the day."""
    why = f"at what hour did it come? Counted from the next working day, {told(late)} is the first"
    return found._replace(outcome=Outcome.ASK, proposed=told(day), why=why, ask_of="whoever called")


def in_season(
    rule: InForce,
    days: Iterable[date],
    *,
    item: str = "",
    cure: str = "",
    excused: str = "",
    proposed: Lazy = "",
) -> Finding:
    """Return whether every day lies in the part of the year that is open.

    With `excused`, a day in the closed part is met all the same, by what is said there.
    """
    seasons = rule.value
    if not isinstance(seasons, Seasons):
        return honest(rule, item=item)
    wanted = sorted(days)
    shut = [day for day in wanted if seasons.shut(day)]
    return Finding(
        judged(ok=not shut or bool(excused)),
        item,
        rule,
        proposed=proposed or partial(_in_season, wanted, shut, excused),
        limit=partial(seasons_text, seasons),
        cure=cure,
    )


def in_months(
    rule: InForce,
    months: Iterable[int],
    year: int,
    *,
    item: str = "",
    cure: str = "",
    excused: str = "",
) -> Finding:
    """Return whether whole months of a year lie in the part of it that is open."""
    wanted, value = frozenset(months), rule.value
    parts = value.parts if isinstance(value, Seasons) else ()
    turns = tuple(turn for part in parts for turn in (part.start, part.end))
    return in_season(
        rule,
        _turning_days(turns, wanted, year),
        item=item,
        cure=cure,
        excused=excused,
        proposed=partial(_months, wanted, excused),
    )


def lasts(
    rule: InForce,
    count: int | None,
    unit: str,
    *,
    item: str = "",
    cure: str = "",
    most: bool = False,
) -> Finding:
    """Return whether so many hours or days are at least the span of a rule, or at most with `most`.

    Spans are held against each other by the hour; a month is 30 days and a year 365.
    """
    wanted = _hours_of(rule.value)
    if wanted is None:
        return honest(rule, item=item)
    if count is None:
        return passes_over("not stated: the town's own span holds", item=item, rule=rule)
    given = count * HOURS_IN[_singular(unit)]
    return Finding(
        judged(ok=given <= wanted if most else given >= wanted),
        item,
        rule,
        proposed=f"{count} {unit if count != 1 else _singular(unit)}",
        limit=partial(_span_limit, rule, most=most),
        cure=cure,
    )


def _hours_of(value: object) -> float | None:
    """Return how many hours a span, or the shorter or longer of several, is; without end, inf."""
    if isinstance(value, Spans):
        hours = [each for part in value.parts if (each := _hours_of(part)) is not None]
        return (min if value.first else max)(hours)
    if not isinstance(value, Span):
        return None
    return inf if value.endless else value.count * HOURS_IN[_singular(value.unit)]


def _span_limit(rule: InForce, *, most: bool) -> str:
    text = rule.value.text if isinstance(rule.value, Span) else rule.text
    return f"at {'most' if most else 'least'} {text}"


def in_hours(
    rule: InForce, spells: tuple[tuple[time, time], ...], days: Iterable[date], *, cure: str = ""
) -> Finding:
    """Return whether work keeps to the hours and the days of the week allowed.

    Parameters
    ----------
    rule
        The hours.
    spells
        From when to when there is work on each day; nothing where nobody says.
    days
        The days of work.
    """
    hours = rule.value
    if not isinstance(hours, Hours):
        return honest(rule, item="")
    worked = tuple(days)
    odd = [day for day in worked if not hours.on(day.weekday())]
    if odd:
        open_on = sorted(day for part in hours.parts for day in part.days)
        limit = f"work on {', '.join(WEEKDAYS[day] for day in open_on)}"
        return Finding(Outcome.FAILS, "days", rule, proposed=told(odd[0]), limit=limit, cure=cure)
    if not spells:
        return passes_over("the job states no hours: the town's own hold", item="hours", rule=rule)
    out = [day for day in worked if not _kept(hours, spells, day)]
    whose = f" on {told(out[0])}" if out and len(hours.parts) > 1 else ""
    day = out[0].weekday() if out else worked[0].weekday() if worked else hours.parts[0].days[0]
    return Finding(
        judged(ok=not out),
        "hours",
        rule,
        proposed=_spells(spells, " and ") + whose,
        limit=_spells(hours.on(day), " or "),
        cure=cure,
    )


def _kept(hours: Hours, spells: tuple[tuple[time, time], ...], day: date) -> bool:
    """Return whether every spell of work lies within hours of its day."""
    ranges = hours.on(day.weekday())
    return all(
        any(first <= begin and end <= last for first, last in ranges) for begin, end in spells
    )


def _spells(spells: tuple[tuple[time, time], ...], word: str) -> str:
    return word.join(f"{first:%H:%M} to {last:%H:%M}" for first, last in spells)


def _reckoned(
    rule: InForce, day: date | None, bound: date | None, item: str, cure: str, *, late: bool
) -> Finding:
    if not rule.known:
        return honest(rule, item=item)
    if day is None or bound is None:
        return passes_over(UNREACHED, item=item, rule=rule)
    return Finding(
        judged(ok=day <= bound if late else day >= bound),
        item,
        rule,
        proposed=partial(told, day),
        limit=partial(_bound, bound, late=late),
        cure=cure,
    )


def _bound(day: date, *, late: bool) -> str:
    return f"{'on or before' if late else 'on or after'} {told(day)}"


def _in_season(days: list[date], shut: list[date], excused: str) -> str:
    if not days:
        return "no day"
    if not shut:
        return f"{told(days[0])} to {told(days[-1])}"
    closed = f"{told(shut[0])} is in the closed season"
    return f"{closed}; {excused}" if excused else closed


def _months(months: frozenset[int], excused: str) -> str:
    every = len(months) == MONTHS
    names = "every month" if every else ", ".join(month_abbr[month] for month in sorted(months))
    return f"runs {names}; {excused}" if excused else f"runs {names}"


def _singular(unit: str) -> str:
    return unit.removesuffix("s").removeprefix("calendar ").removeprefix("working ")


@lru_cache(maxsize=64)
def _turning_days(
    season: tuple[tuple[int, int], ...], months: frozenset[int], year: int
) -> tuple[date, ...]:
    """Return the days of some months on which they, or a season, begin and end, or are about to."""
    ends = [date(year, month, day) for month in months for day in (1, monthrange(year, month)[1])]
    for month, day in season:
        turn = date(year, month, min(day, monthrange(year, month)[1]))
        ends += (turn - DAY, turn, turn + DAY)
    return tuple(day for day in ends if day.month in months)
