"""Fees as plain named terms: frozen data, no expression language."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from permitkit.model.facts import Threshold, When
from permitkit.units import Kind, Measure

__all__ = [
    "PER",
    "PER_UNITS",
    "FeeLine",
    "Flat",
    "Greater",
    "Lesser",
    "Per",
    "PerUnit",
    "Share",
    "Stepped",
    "Sum",
    "Table",
    "Term",
    "Tier",
    "Tiered",
    "Unknown",
    "each_term",
    "spelt",
    "unit_of",
]


@dataclass(frozen=True, slots=True)
class Per:
    """A unit that money is counted by.

    Parameters
    ----------
    thing
        What is measured or counted; units of one thing turn into each other.
    unit
        The unit of the thing, where it is measured; empty where it is counted.
    kind
        What the unit measures; nothing where the thing is counted.
    fact
        The fact that holds the same quantity, if one does.
    many
        The word for several, where it is not made by adding an s.
    """

    thing: str
    unit: str = ""
    kind: Kind | None = None
    fact: str = ""
    many: str = ""

    @property
    def noun(self) -> str:
        """What one of it is called."""
        return self.unit or self.thing

    @property
    def nouns(self) -> str:
        """What several of it are called."""
        return self.unit or self.many or f"{self.thing}s"


def _counts(*names: str, fact: str = "", many: str = "") -> dict[str, Per]:
    """Return things that are counted."""
    return {name: Per(name, fact=fact, many=many) for name in names}


def _area(of: str, fact: str = "") -> dict[str, Per]:
    """Return an area's units."""
    return {f"{u} of {of}": Per(f"area of {of}", u, Kind.AREA, fact) for u in ("sq ft", "sq yd")}


def _length(of: str, fact: str = "") -> dict[str, Per]:
    """Return a length's unit."""
    return {f"{u} of {of}": Per(f"length of {of}", u, Kind.LENGTH, fact) for u in ("ft", "yd")}


def _volume(of: str) -> dict[str, Per]:
    """Return a volume's units."""
    return {f"{u} of {of}": Per(f"volume of {of}", u, Kind.VOLUME) for u in ("cu ft", "cu yd")}


PER_UNITS: Mapping[str, Per] = {
    **_counts("permit", "outlet", "panel", "inspection", "sheet", "hour", "lane", "block"),
    **_counts("street crossing", "location", "opening", "week", "month"),
    **_counts("hole", fact="holes"),
    **_counts("day", fact="days"),
    **_counts("notch", many="notches"),
    **_counts("copy", many="copies"),
    **_counts("surface opened", many="surfaces opened"),
    **_counts("hour of review", many="hours of review"),
    **_counts("hour of inspection", many="hours of inspection"),
    **_counts("hour of work", many="hours of work"),
    **_area("walk", "walk_area"),
    **_area("pavement", "pavement_area"),
    **_area("street"),
    **_area("verge"),
    **_area("trench"),
    **_area("opening", "area"),
    **_length("curb", "curb_length"),
    **_length("trench", "trench"),
    **_length("walk"),
    **_length("pavement"),
    **_length("opening"),
    **_volume("trench"),
}
PER = tuple(PER_UNITS)
_SPELT = (
    (r"\b(?:square (?:feet|foot)|sq\.? ?f(?:ee)?t\b\.?|sf\b)", "sq ft"),
    (r"\b(?:square yards?|sq\.? ?y(?:ar)?ds?\b\.?|sy\b)", "sq yd"),
    (r"\b(?:cubic (?:feet|foot)|cf\b)", "cu ft"),
    (r"\b(?:cubic yards?|cy\b)", "cu yd"),
    (r"\b(?:linea[lr]|lin\.?|running) (?:feet|foot|ft)|\blf\b|\b(?:feet|foot)(?= of\b)", "ft"),
    (r"(?<= of )(?:the )?(?:concrete )?side ?walk\b", "walk"),
    (r"(?<=cu ft of |cu yd of )(?:excavation|opening)\b", "trench"),
    (r"(?<= of )(?:the )?(?:excavation|street cut|cut)\b", "opening"),
    (r"(?<= of )(?:the )?(?:parkway|tree lawn|terrace|sod)\b", "verge"),
)
_SHAPES = {
    "sq ft": ("area", Kind.AREA),
    "sq yd": ("area", Kind.AREA),
    "ft": ("length", Kind.LENGTH),
    "yd": ("length", Kind.LENGTH),
    "cu ft": ("volume", Kind.VOLUME),
    "cu yd": ("volume", Kind.VOLUME),
}


def spelt(per: str) -> str:
    """Return a unit of money as it is written here, whatever a town's way of writing it.

    Examples
    --------
    >>> spelt("square foot of sidewalk"), spelt("lineal foot of trench"), spelt("truck")
    ('sq ft of walk', 'ft of trench', 'truck')
    """
    plain = " ".join(per.split())
    if plain.casefold() in PER_UNITS:
        return plain.casefold()
    for written, here in _SPELT:
        plain = re.sub(
            rf"\b(?:{written})" if written[0] != "(" else written, here, plain, flags=re.IGNORECASE
        )
    return plain


def unit_of(per: str) -> Per:
    """Return the unit of a name: a known one, or a sheet's own, measured or counted.

    Examples
    --------
    >>> unit_of("ft of frontage").thing, unit_of("hour of flagging").nouns
    ('length of frontage', 'hours of flagging')
    """
    known = PER_UNITS.get(per)
    head, of, rest = per.partition(" of ")
    if known is not None or head not in _SHAPES or not rest:
        many = f"{head}{'es' if head.endswith(('s', 'x', 'ch', 'sh')) else 's'}{of}{rest}"
        return known or Per(per, many=many)
    shape, kind = _SHAPES[head]
    return Per(f"{shape} of {rest}", head, kind)


@dataclass(frozen=True, slots=True)
class Flat:
    """One sum; a range where the sheet only knows a range."""

    amount: Decimal
    to: Decimal | None = None


@dataclass(frozen=True, slots=True)
class PerUnit:
    """A rate for each unit of a measured quantity, after a first part that is free.

    `pad_length` and `pad_width` are added to the cut's sides before its area is taken;
    `whole_units` charges a part of a unit as a whole one; `least_units` are charged at the least;
    `count` stands where the sheet itself says how many; `to` is the high end of a rate between two.
    """

    rate: Decimal
    per: str
    free: Measure | int | None = None
    whole_units: bool = False
    pad_length: Measure | None = None
    pad_width: Measure | None = None
    count: int | None = None
    least_units: Measure | int | None = None
    to: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Stepped:
    """A sum for the first part of a quantity, then a sum for each further step or part of one."""

    per: str
    first: Measure | int
    first_sum: Decimal
    each: Measure | int
    each_sum: Decimal


@dataclass(frozen=True, slots=True)
class Tier:
    """One tier: up to a quantity (the last is open), a rate and a fixed sum."""

    up_to: Measure | int | None
    rate: Decimal
    plus: Decimal


@dataclass(frozen=True, slots=True)
class Tiered:
    """A rate that changes with the quantity; `whole` charges all of it at the tier reached."""

    per: str
    tiers: tuple[Tier, ...]
    whole: bool = True


@dataclass(frozen=True, slots=True)
class Share:
    """A share in percent of `cost`, of `fees` (the lines before it), or of a named line.

    With `per`, once for each of a unit that money is counted by.
    """

    percent: Decimal
    of: str
    per: str = ""


@dataclass(frozen=True, slots=True)
class Greater:
    """The greatest of the terms."""

    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Lesser:
    """The least of the terms."""

    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Sum:
    """The sum of the terms."""

    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A term looked up by a fact (surface, street class, named street, applicant, …).

    `rows` are for words and names; `bands` for what is measured or counted, a threshold each.
    Where several rows hold, as of several surfaces opened, they are added up; `once` says that the
    dearest alone counts.
    """

    by: str
    rows: Mapping[str, Term]
    otherwise: Term | None = None
    bands: tuple[tuple[Threshold, Term], ...] = ()
    once: bool = False


@dataclass(frozen=True, slots=True)
class Unknown:
    """A sum the sheet does not know: set at review, or by another document; `per` is its unit."""

    by: str
    reference: str = ""
    per: str = ""


Term = Flat | PerUnit | Stepped | Tiered | Share | Greater | Lesser | Sum | Table | Unknown


def each_term(term: Term) -> Iterator[Term]:
    """Yield a term and every term within it."""
    yield term
    inner: tuple[Term, ...] = ()
    if isinstance(term, Table):
        inner = (*term.rows.values(), *(row for _, row in term.bands))
        inner += (term.otherwise,) if term.otherwise is not None else ()
    elif isinstance(term, Greater | Lesser | Sum):
        inner = term.terms
    for part in inner:
        yield from each_term(part)


@dataclass(frozen=True, slots=True)
class FeeLine:
    """One line of a fee sheet: its term, bounds, condition and the permit it belongs to.

    `least` and `most` clamp the term; `begun_times` multiplies the line when work began first;
    `refundable`, `kept` and `returned_when` speak of deposits; `cap` marks a figure that is a
    ceiling, `floor` one that is a least; `in_place_of` names the line it stands in place of, where
    the applicant chooses; `true_up` says the sum is worked out again from what was really cut.
    """

    name: str
    term: Term
    when: When | None = None
    least: Decimal | None = None
    most: Decimal | None = None
    begun_times: Decimal | None = None
    permit: str = ""
    payee: str = ""
    refundable: bool = False
    kept: Decimal | None = None
    returned_when: str = ""
    cap: bool = False
    floor: bool = False
    in_place_of: str = ""
    true_up: bool = False
    cite_text: str = ""
    note: str = ""
