"""Working days and spans of time: public holidays, a town's own closings, counting on and back."""

from __future__ import annotations

from calendar import month_abbr, monthrange
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import lru_cache
from itertools import count, islice
from math import ceil
from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from permitkit.model.rules import Sheet
    from permitkit.model.values import Span

__all__ = ["WorkCalendar", "dated", "next_on", "told", "years_of"]

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WEEKEND = 5
PLACE = "US"
DAY = timedelta(days=1)
HOURS_A_DAY, DAYS_A_WEEK, MONTHS_A_YEAR = 24, 7, 12
CALENDAR_DAYS = {"day": 1, "calendar day": 1, "week": DAYS_A_WEEK}
MONTHS = {"month": 1, "year": MONTHS_A_YEAR}
WORKING = {"working day", "business day"}


@lru_cache(maxsize=1024)
def told(day: date) -> str:
    """Return a date in print, with its day of the week: `Mon Apr 6, 2026`."""
    return f"{WEEKDAYS[day.weekday()]} {dated(day)}"


@lru_cache(maxsize=1024)
def dated(day: date) -> str:
    """Return a date in print: `Apr 6, 2026`."""
    return f"{month_abbr[day.month]} {day.day}, {day.year}"


@lru_cache(maxsize=256)
def years_of(place: str, year: int) -> Mapping[date, str]:
    """Return one year's public holidays of `country` or `country-subdivision`.

    Raises
    ------
    InputError
        If the calendar of public holidays has no such place.
    """
    from holidays import country_holidays  # noqa: PLC0415 - slow to import; help needs no calendar

    country, _, part = place.partition("-")
    try:
        found = country_holidays(country, subdiv=part or None, years=year)
    except NotImplementedError:
        fix = "write a country code such as US, or a country and a part of it such as US-PA"
        expected = "a place whose public holidays are known"
        raise InputError.of([Fault("sheet.holidays", repr(place), expected, fix)]) from None
    return MappingProxyType(dict(found))


@dataclass(frozen=True, slots=True)
class WorkCalendar:
    """The working days of one town: Monday to Friday less public holidays and its own closings.

    Parameters
    ----------
    place
        Country, or country and subdivision, whose public holidays count.
    closings
        Further days on which the town's offices are shut, each with its reason.
    """

    place: str = PLACE
    closings: Mapping[date, str] = field(default_factory=dict)

    @classmethod
    def of(cls, sheets: Iterable[Sheet]) -> WorkCalendar:
        """Return the working days of a town: what its sheet says, and what it leaves to others.

        Parameters
        ----------
        sheets
            The town's sheet first, then the layers it follows. The nearest that names public
            holidays is heard; days on which any of their offices are shut count together.
        """
        layers = tuple(sheets)
        place = next((sheet.holidays for sheet in layers if sheet.holidays), PLACE)
        shut = (item for sheet in reversed(layers) for item in sheet.closings.items())
        return cls(place, dict(shut))

    def closed(self, day: date) -> str:
        """Return why offices are shut that day besides the weekend; empty if they are not."""
        return self.closings.get(day) or years_of(self.place, day.year).get(day, "")

    def works(self, day: date) -> bool:
        """Tell whether it is a working day."""
        return day.weekday() < WEEKEND and not self.closed(day)

    def on_or_after(self, day: date) -> date:
        """Return the day itself if it is a working day, else the next one."""
        return day if self.works(day) else next(self._onward(day))

    def working_between(self, first: date, last: date) -> tuple[date, ...]:
        """Return the working days from one day to another, both included."""
        days = (first + n * DAY for n in range((last - first).days + 1))
        return tuple(day for day in days if self.works(day))

    def shut_between(self, first: date, last: date) -> tuple[tuple[date, str], ...]:
        """Return the weekdays from one day to another on which offices are shut, and why."""
        public = (years_of(self.place, year) for year in range(first.year, last.year + 1))
        shut = {day: why for year in public for day, why in year.items()} | dict(self.closings)
        inside = (day for day in sorted(shut) if first <= day <= last and day.weekday() < WEEKEND)
        return tuple((day, shut[day]) for day in inside)

    def last_day(self, span: Span, event: date) -> date:
        """Return the last day of a span; the day of the event is not counted.

        Raises
        ------
        ValueError
            If the span's unit is none that is known.
        """
        unit = span.unit.removesuffix("s")
        if unit in WORKING:
            return next(islice(self._onward(event), span.count - 1, None)) if span.count else event
        if unit in CALENDAR_DAYS:
            return event + span.count * CALENDAR_DAYS[unit] * DAY
        if unit == "hour":
            return event + ceil(span.count / HOURS_A_DAY) * DAY
        if unit in MONTHS:
            return _months_on(event, span.count * MONTHS[unit])
        raise ValueError(f"no such span of time: {span.unit!r}")

    def ready(self, span: Span, event: date) -> date:
        """Return the first day allowed after a wait: its last day, or the next if days are full."""
        last = self.last_day(span, event)
        return last + DAY if span.full_days else last

    def latest_before(self, span: Span, deadline: date) -> date:
        """Return the last working day on which a wait may begin that must be over by a day."""
        last = deadline - DAY if span.full_days else deadline
        if span.unit.removesuffix("s") in WORKING:
            return next(islice(self._backward(last), span.count, None))
        return next(day for day in self._backward(last) if self.last_day(span, day) <= last)

    def earliest_before(self, span: Span, deadline: date) -> date:
        """Return the first day that lies no longer than a span before a day."""
        working = span.unit.removesuffix("s") in WORKING
        day = deadline
        while self._first_after(span, day - DAY, working=working) >= deadline:
            day -= DAY
        return day

    def _first_after(self, span: Span, event: date, *, working: bool) -> date:
        """Return the first day after a span, a working day where it is one of working days."""
        ready = self.ready(span, event)
        return self.on_or_after(ready) if working else ready

    def _onward(self, day: date) -> Iterator[date]:
        """Yield the working days after a day."""
        return (later for n in count(1) if self.works(later := day + n * DAY))

    def _backward(self, day: date) -> Iterator[date]:
        """Yield a day, if it is a working day, and the working days before it."""
        return (early for n in count() if self.works(early := day - n * DAY))


def next_on(month: int, day: int, event: date) -> date:
    """Return the next such day of the year, the event's own day included."""
    dated_on = (
        date(year, month, min(day, monthrange(year, month)[1]))
        for year in (event.year, event.year + 1)
    )
    return next(found for found in dated_on if found >= event)


def _months_on(day: date, months: int) -> date:
    """Return the same day so many months on, or the last of that month."""
    year, month = divmod(day.year * MONTHS_A_YEAR + day.month - 1 + months, MONTHS_A_YEAR)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
