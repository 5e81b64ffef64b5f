"""Quantities that money is counted by, and an amount with the words that led to it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import ceil, inf
from typing import TYPE_CHECKING

from permitkit.model.money import PER_UNITS, unit_of
from permitkit.study.in_force import UNKNOWN
from permitkit.units import Measure, same, write_money

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.money import Per

__all__ = [
    "Charge",
    "Quantities",
    "between",
    "cents",
    "count_text",
    "dollars",
    "left_open",
    "steps",
    "unknown",
]

_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Charge:
    """A sum, the words that led to it, and what is missing where it is not known.

    Parameters
    ----------
    low
        The sum, or the low end of a range, exact; nothing where it is not known.
    words
        The arithmetic, without the result where the words are the result already.
    high
        The high end, where the sheet only knows a range.
    missing
        What has to be known first, or who sets it.
    plain
        Whether the words are the sum itself.
    above
        Whether it may be more than that: only the low end is known.
    """

    low: Fraction | None
    words: str
    high: Fraction | None = None
    missing: str = ""
    plain: bool = False
    above: bool = False

    @property
    def upper(self) -> Fraction | float:
        """The high end of a range, else the sum itself; endless where it may be more."""
        if self.above:
            return inf
        return self.high if self.high is not None else self.low or Fraction(0)

    @property
    def ranged(self) -> bool:
        """Whether it is known only from one end to another, or from below."""
        return self.above or self.high is not None

    @property
    def told(self) -> str:
        """The arithmetic with its result."""
        if self.low is None or self.plain:
            return self.words
        return f"{self.words} = {dollars(self.low)}"


def between(
    low: Fraction, upper: Fraction | float, words: str, *, plain: bool = False, ranged: bool = True
) -> Charge:
    """Return a sum between two ends, of which the upper may be endless."""
    above = isinstance(upper, float)
    high = None if isinstance(upper, float) or not ranged else upper
    return Charge(low, words, high, plain=plain, above=above)


def unknown(missing: str) -> Charge:
    """Return a sum that cannot be worked out, and why."""
    return Charge(None, f"to be set: {missing}", missing=missing)


def left_open(told: str, missing: str, low: Fraction | None = None) -> Charge:
    """Return a sum of which its rule is known and not what it is counted by; `low` is its floor."""
    if not low:
        return Charge(None, f"to be set: {told}; {missing}", missing=missing)
    return Charge(low, f"{told}; {missing}", missing=missing, plain=True, above=True)


def cents(exact: Fraction) -> Decimal:
    """Return an exact sum in cents; half a cent goes up."""
    scaled = Decimal(exact.numerator) / Decimal(exact.denominator)
    return scaled.quantize(_CENT, ROUND_HALF_UP)


def dollars(exact: Fraction) -> str:
    """Return an exact sum as printed."""
    return write_money(cents(exact))


def steps(quantity: Fraction) -> int:
    """Return whole steps, a part counting as one; the noise of computing is no part."""
    near = round(quantity)
    return near if same(quantity, near) else ceil(quantity)


def count_text(number: Fraction, per: Per) -> str:
    """Return a number of a unit, to a hundredth where it is not whole."""
    hundredths = Decimal(round(number * 100)) / 100
    figures = f"{hundredths:,.2f}".rstrip("0").rstrip(".")
    return f"{figures} {per.noun if number == 1 else per.nouns}"


class Quantities:
    """What is measured and counted on the job, by the names money is counted by."""

    __slots__ = ("_given", "facts")

    def __init__(
        self, given: Mapping[str, Measure | int | Decimal], facts: Mapping[str, object]
    ) -> None:
        self._given = {"permit": 1, **given}
        self.facts = facts

    def of(self, per: str) -> Fraction | None:
        """Return how many of a unit there are, exact; nothing where that is not known."""
        unit = unit_of(per)
        found = self._named(per)
        if found is None:
            return None
        if isinstance(found, Measure):
            return found.in_(unit.unit)
        return Fraction(found)

    def _named(self, per: str) -> Measure | int | Decimal | None:
        """Return a quantity under the unit's own name, another of the same thing, or as a fact."""
        unit = unit_of(per)
        kin = [name for name, other in PER_UNITS.items() if other.thing == unit.thing]
        for name in (per, unit.thing, *kin):
            if name in self._given:
                return self._given[name]
        fact = self.facts.get(unit.fact, UNKNOWN)
        return fact if isinstance(fact, Measure | int) else None

    def side(self, name: str, unit: str) -> Fraction | None:
        """Return a side of a cut, such as `length of walk`, in a unit."""
        found = self._given.get(name)
        return found.in_(unit) if isinstance(found, Measure) else None

    def cost(self) -> Fraction | None:
        """Return the cost of the work."""
        found = self._given.get("cost", self.facts.get("cost", UNKNOWN))
        return Fraction(found) if isinstance(found, int | Decimal) else None

    def surfaces(self) -> tuple[str, ...] | None:
        """Return the surfaces that are opened; nothing where no area is known."""
        named = {
            "walk": "sq ft of walk",
            "pavement": "sq ft of pavement",
            "verge": "sq ft of verge",
        }
        areas = {surface: self.of(per) for surface, per in named.items()}
        curb = self.of("ft of curb")
        if all(area is None for area in areas.values()):
            return None
        opened = [surface for surface, area in areas.items() if area]
        return (*opened, "curb") if curb else tuple(opened)
