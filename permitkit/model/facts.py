"""The closed vocabulary of conditions: the facts a rule's `when` may ask for, and what fits."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from permitkit.model.words import (
    Applicant,
    Crossing,
    CurbShape,
    InflowKind,
    OutletKind,
    Place,
    StreetClass,
    Surface,
    choices,
)
from permitkit.units import Kind, Measure

__all__ = [
    "COUNTED_FROM",
    "FACTS",
    "Age",
    "Condition",
    "Fact",
    "FactKind",
    "Season",
    "Stage",
    "Threshold",
    "When",
]


COUNTED_FROM = "counted from"
"""Beside the facts of a job: its days by the clocks of rules, from which ages are counted back."""


class Stage(StrEnum):
    """Which facts a key's conditions may use: as found, or as computed."""

    SITE = "site"
    SIZE = "size"


class FactKind(StrEnum):
    """How a fact is compared."""

    WORD = "word"
    YES_NO = "yes or no"
    NAME = "name"
    MEASURE = "measure"
    COUNT = "count"
    MONEY = "money"
    DAY = "day"
    SEASON = "season"


@dataclass(frozen=True, slots=True)
class Fact:
    """One fact a condition may ask for; `local` facts belong to one item (a reach, an inflow).

    `question` is what it tells, to be set after "not known: ".
    """

    name: str
    kind: FactKind
    question: str
    stage: Stage = Stage.SITE
    words: tuple[str, ...] = ()
    quantity: Kind | None = None
    local: bool = False


@dataclass(frozen=True, slots=True)
class Season:
    """Month-day pairs, inclusive, that may wrap the year end; open or closed by `closed`."""

    start: tuple[int, int]
    end: tuple[int, int]
    closed: bool = True
    soft_end: bool = False

    def holds(self, day: date) -> bool:
        """Tell whether the day lies between the two ends."""
        at = (day.month, day.day)
        if self.start <= self.end:
            return self.start <= at <= self.end
        return at >= self.start or at <= self.end


@dataclass(frozen=True, slots=True)
class Age:
    """How long ago something may have been: so many days, weeks, months or years."""

    count: int
    unit: str

    @property
    def text(self) -> str:
        """The age as printed."""
        return f"{self.count} {self.unit.removesuffix('s') if self.count == 1 else self.unit}"

    def back_from(self, day: date) -> date:
        """Return the day so long before another; the last of its month where there is none."""
        if self.unit in _DAYS_IN:
            return day - timedelta(days=self.count * _DAYS_IN[self.unit])
        months = self.count * (MONTHS_A_YEAR if self.unit == "years" else 1)
        year, month = divmod(day.year * MONTHS_A_YEAR + day.month - 1 - months, MONTHS_A_YEAR)
        return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


_DAYS_IN = {"days": 1, "weeks": 7}
MONTHS_A_YEAR = 12


@dataclass(frozen=True, slots=True)
class Threshold:
    """A condition on a measured fact, a count, a sum or a day; all ends that are given must hold.

    `over` and `under` leave the end itself out; `at_least` and `up_to` let it in. A day may lie
    `within` an age instead, or be `older` than one, counted back from the day that picks the
    rule's edition.
    """

    over: Measure | date | int | Decimal | None = None
    up_to: Measure | date | int | Decimal | None = None
    at_least: Measure | date | int | Decimal | None = None
    under: Measure | date | int | Decimal | None = None
    within: Age | None = None
    older: Age | None = None


Condition = tuple[str, ...] | Threshold | Season


@dataclass(frozen=True, slots=True)
class When:
    """Alternatives (any of which will do), each a set of facts that must all hold.

    Each alternative maps a fact's name to the words that fit it (`yes` or `no` where the fact is
    one), to a threshold, or to a part of the year.
    """

    alternatives: tuple[Mapping[str, Condition], ...]


_WATER = Fact(
    "water",
    FactKind.WORD,
    "the kind of water",
    words=choices(InflowKind),
    local=True,
)
_OUTLET_FACTS = (
    Fact("outlet", FactKind.WORD, "the kind of outlet", words=choices(OutletKind)),
    Fact("new_outlet", FactKind.YES_NO, "whether the outlet is new"),
    Fact("existing_in_use", FactKind.YES_NO, "whether a hole already there stays in use"),
    Fact("other_outlet", FactKind.YES_NO, "whether the water has another acceptable outlet"),
    Fact("storm_main", FactKind.MEASURE, "the distance to a storm main", quantity=Kind.LENGTH),
    Fact("harm", FactKind.YES_NO, "whether the water ices the walk or harms a neighbor"),
    _WATER,
)
PAVEMENTS = ("asphalt", "concrete", "brick", "gravel", "surface treated")
_STREET_FACTS = (
    Fact("curb", FactKind.WORD, "the curb's shape", words=choices(CurbShape)),
    Fact("street_class", FactKind.WORD, "the class of street", words=choices(StreetClass)),
    Fact("street", FactKind.NAME, "the street's name"),
    Fact("authority", FactKind.NAME, "whose street it is"),
    Fact("lanes", FactKind.COUNT, "the number of lanes"),
    Fact("speed", FactKind.MEASURE, "the posted speed", quantity=Kind.SPEED),
    Fact("pavement_rating", FactKind.COUNT, "the pavement's rating"),
    Fact("street_paved", FactKind.DAY, "the day the street was last paved"),
    Fact("pavement_surface", FactKind.WORD, "what the street is paved with", words=PAVEMENTS),
)
_LOT_FACTS = (
    Fact("soil", FactKind.NAME, "the soil"),
    Fact("zone", FactKind.NAME, "the lot's zone"),
    Fact(
        "paved_area",
        FactKind.MEASURE,
        "the area of the lot that is roofed or paved",
        quantity=Kind.AREA,
    ),
    Fact(
        "building_use",
        FactKind.WORD,
        "the building's use",
        words=("house", "multi-family", "commercial", "industrial", "detached garage"),
    ),
    Fact("built", FactKind.DAY, "the day the building or outlet was built or altered"),
    Fact(
        "falls_to",
        FactKind.WORD,
        "which way the ground falls",
        words=("street", "house", "side", "rear"),
    ),
    Fact("yard", FactKind.WORD, "the yard it stands in", words=("front", "side", "rear")),
    Fact(
        "tree_near", FactKind.MEASURE, "the distance to the nearest town tree", quantity=Kind.LENGTH
    ),
    Fact(
        "house_distance",
        FactKind.MEASURE,
        "the distance from the house",
        quantity=Kind.LENGTH,
        local=True,
    ),
    Fact("place", FactKind.WORD, "where the pipe lies", words=choices(Place), local=True),
    Fact("surface", FactKind.WORD, "the surface above", words=choices(Surface), local=True),
)
_WORK_FACTS = (
    Fact("applicant", FactKind.WORD, "who applies", words=choices(Applicant)),
    Fact("owner_occupier", FactKind.YES_NO, "whether the owner lives there"),
    Fact(
        "walk_surface",
        FactKind.WORD,
        "what the walk is made of",
        words=("concrete", "asphalt", "brick", "stone"),
    ),
    Fact("walk_width", FactKind.MEASURE, "the walk's width", quantity=Kind.LENGTH),
    Fact("walk_use", FactKind.WORD, "the walk's use", words=("plain", "driveway", "ramp")),
    Fact("crossing", FactKind.WORD, "how the walk is crossed", words=choices(Crossing)),
    Fact(
        "trench_runs",
        FactKind.WORD,
        "which way the trench runs",
        words=("across the walk", "along the walk", "diagonally"),
    ),
    Fact("begun", FactKind.YES_NO, "whether work began before the permit"),
    Fact("dowels", FactKind.YES_NO, "whether dowels are set"),
    Fact("bevelled", FactKind.YES_NO, "whether a step is beveled"),
    Fact("walk_closed", FactKind.YES_NO, "whether the walk is closed"),
    Fact(
        "closed_part",
        FactKind.WORD,
        "what part of the street is taken",
        words=("none", "parking lane", "travel lane", "shoulder"),
    ),
    Fact("pavement_cut", FactKind.YES_NO, "whether pavement is cut"),
    Fact("strength", FactKind.MEASURE, "the concrete's strength", quantity=Kind.STRENGTH),
    Fact("restored_by", FactKind.WORD, "who restores", words=("applicant", "town")),
    Fact("cost", FactKind.MONEY, "the cost of the work"),
    Fact("emergency", FactKind.YES_NO, "whether it is an emergency"),
    Fact(
        "extension",
        FactKind.WORD,
        "whether more time is asked for",
        words=("none", "in time", "late"),
    ),
    Fact("hurry", FactKind.YES_NO, "whether a quick review is asked for"),
    Fact("season", FactKind.SEASON, "the days of the year of the work"),
    Fact("permit", FactKind.NAME, "which permit", local=True),
)
_SIZE_FACTS = (
    Fact("walk_area", FactKind.MEASURE, "the area of walk cut", Stage.SIZE, quantity=Kind.AREA),
    Fact("area", FactKind.MEASURE, "the area opened in all", Stage.SIZE, quantity=Kind.AREA),
    Fact(
        "pavement_area",
        FactKind.MEASURE,
        "the area of pavement cut",
        Stage.SIZE,
        quantity=Kind.AREA,
    ),
    Fact(
        "trench",
        FactKind.MEASURE,
        "the length of trench in the right-of-way",
        Stage.SIZE,
        quantity=Kind.LENGTH,
    ),
    Fact(
        "curb_length",
        FactKind.MEASURE,
        "the length of curb replaced",
        Stage.SIZE,
        quantity=Kind.LENGTH,
    ),
    Fact("depth", FactKind.MEASURE, "the depth of trench", Stage.SIZE, quantity=Kind.LENGTH),
    Fact("holes", FactKind.COUNT, "the number of holes", Stage.SIZE),
    Fact("flow", FactKind.MEASURE, "the design flow", Stage.SIZE, quantity=Kind.FLOW),
    Fact("days", FactKind.COUNT, "the days of work", Stage.SIZE),
)

FACTS = {
    fact.name: fact
    for group in (_OUTLET_FACTS, _STREET_FACTS, _LOT_FACTS, _WORK_FACTS, _SIZE_FACTS)
    for fact in group
}
