"""The values a rule can hold, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal

from permitkit.model.facts import Season
from permitkit.model.money import FeeLine
from permitkit.units import Measure

__all__ = [
    "Ask",
    "ByReference",
    "Cover",
    "DayHours",
    "Fees",
    "Hours",
    "Insurance",
    "Item",
    "Items",
    "Limit",
    "NoRule",
    "Order",
    "PaperEnd",
    "RainRule",
    "Season",
    "Seasons",
    "Sentences",
    "Silent",
    "Span",
    "Spans",
    "Stance",
    "Value",
    "Words",
    "YearDay",
    "YesNo",
]


@dataclass(frozen=True, slots=True)
class Limit:
    """A least, a greatest, both (a range) or one exact value; a count holds whole numbers."""

    at_least: Measure | int | None = None
    at_most: Measure | int | None = None
    of: str = ""
    origin: str = ""
    sizes: tuple[Measure, ...] = ()


@dataclass(frozen=True, slots=True)
class YesNo:
    """A plain yes or no."""

    yes: bool


@dataclass(frozen=True, slots=True)
class Stance:
    """Where the town stands: allowed, required, barred or exempt."""

    word: str


@dataclass(frozen=True, slots=True)
class Words:
    """A closed set of words, any of which will do."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Order:
    """An order of preference; a later step needs the stated reason why each earlier one fails."""

    steps: tuple[str, ...]
    reason_needed: bool = True


@dataclass(frozen=True, slots=True)
class Sentences:
    """Sentences to print, in our own words."""

    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Item:
    """A thing the town asks for by name: a document, a detail, a photograph, an inspection.

    `clock` is the event it goes with, where the sheet names one; `after` how long after that event
    it is owed. `only_if` says in words when it is wanted at all; empty, it always is.
    """

    name: str
    number: str = ""
    revision: str = ""
    notice: Span | None = None
    note: str = ""
    clock: str = ""
    after: Span | None = None
    only_if: str = ""


@dataclass(frozen=True, slots=True)
class Items:
    """A list of things asked for."""

    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """A length of time and the event it starts at; `endless` where it never runs out.

    A wait may have an `earliest` as well: notice given longer before than that is too soon. What
    comes in after the hour of `cutoff` counts from the next working day.
    """

    count: int
    unit: str
    clock: str = ""
    full_days: bool = False
    endless: bool = False
    earliest: Span | None = None
    cutoff: time | None = None

    @property
    def text(self) -> str:
        """The span as printed."""
        if self.endless:
            return "without end"
        unit = self.unit if self.count != 1 else self.unit.removesuffix("s")
        return f"{self.count} {'full ' if self.full_days else ''}{unit}"


@dataclass(frozen=True, slots=True)
class YearDay:
    """A day of the year by which something is due: the first from the start of the clock on.

    With `before` the day itself is too late.
    """

    month: int
    day: int
    clock: str = ""
    before: bool = False


@dataclass(frozen=True, slots=True)
class PaperEnd:
    """The day on which another paper runs out: this permit, or the building permit."""

    paper: str


@dataclass(frozen=True, slots=True)
class Spans:
    """Times of which the one that ends first holds, or the one that ends last."""

    parts: tuple[Span | YearDay | PaperEnd, ...]
    first: bool = True


@dataclass(frozen=True, slots=True)
class Seasons:
    """The parts of the year that are closed, or those that alone are open."""

    parts: tuple[Season, ...]

    @property
    def closed(self) -> bool:
        """Whether the parts are closed."""
        return self.parts[0].closed

    def shut(self, day: date) -> bool:
        """Tell whether a day is closed."""
        return any(part.holds(day) for part in self.parts) is self.closed


@dataclass(frozen=True, slots=True)
class DayHours:
    """Hours of the day, and the days of the week they hold on (Monday is 0)."""

    ranges: tuple[tuple[time, time], ...]
    days: tuple[int, ...] = (0, 1, 2, 3, 4)


@dataclass(frozen=True, slots=True)
class Hours:
    """The hours of the week, in parts where days differ; no day stands in two."""

    parts: tuple[DayHours, ...]

    def on(self, weekday: int) -> tuple[tuple[time, time], ...]:
        """Return the hours of one day of the week; nothing where it has none."""
        return next((part.ranges for part in self.parts if weekday in part.days), ())


@dataclass(frozen=True, slots=True)
class RainRule:
    """A design rain with its basis."""

    intensity: Measure
    period: str
    duration: str


@dataclass(frozen=True, slots=True)
class Fees:
    """Lines of money."""

    lines: tuple[FeeLine, ...]


@dataclass(frozen=True, slots=True)
class Cover:
    """One kind of insurance and its least limits: for each occurrence, in all, for each person.

    `project` is a sum for the project alone that will do in place of the sum in all. `by_law` marks
    a cover whose limit is the state's own.
    """

    kind: str
    each: Decimal | None = None
    aggregate: Decimal | None = None
    person: Decimal | None = None
    by_law: bool = False
    note: str = ""
    project: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Insurance:
    """The covers a town asks for."""

    covers: tuple[Cover, ...]


@dataclass(frozen=True, slots=True)
class Ask:
    """The answer is not known, or is set at review; `by` says whose it is to give."""

    by: str = ""
    note: str = ""
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ByReference:
    """Another document sets it."""

    document: str


@dataclass(frozen=True, slots=True)
class NoRule:
    """The town was asked and has none."""


@dataclass(frozen=True, slots=True)
class Silent:
    """No sheet says anything; this means ask."""


Value = (
    Limit
    | YesNo
    | Stance
    | Words
    | Order
    | Sentences
    | Items
    | Span
    | Spans
    | Seasons
    | Hours
    | RainRule
    | Fees
    | Insurance
    | Ask
    | ByReference
    | NoRule
    | Silent
)
