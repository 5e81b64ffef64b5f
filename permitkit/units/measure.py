"""A quantity held exactly in SI, with the unit its author thinks in."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import isclose, isfinite
from typing import NoReturn

from permitkit.units.conversion import factor, zero
from permitkit.units.kinds import Kind, UnitError, nouns
from permitkit.units.table import Form, unit_named
from permitkit.units.writing import fitting_step, written

__all__ = ["Measure", "from_si", "measure", "same"]

_FAMILY = {kind: Kind.LENGTH if kind is Kind.LEVEL else kind for kind in Kind}


@dataclass(frozen=True, slots=True, eq=False)
class Measure:
    """One quantity.

    Parameters
    ----------
    si
        The exact value in the SI unit of its kind (m, m2, m3, m3/s, m/s, Pa, rad, K, kg, -).
    kind
        What it measures.
    unit
        The author's style, one of a closed set; empty means the kind's first unit.
    text
        As the author wrote it; no part of what is compared.
    """

    si: Fraction
    kind: Kind
    unit: str = ""
    text: str = ""

    def __float__(self) -> float:
        """Return the value in SI."""
        over, under = self.si.as_integer_ratio()
        return over / under

    def __hash__(self) -> int:
        """Return a hash that equal measures share."""
        return hash((_FAMILY[self.kind], self.si))

    def __eq__(self, other: object) -> bool:
        """Return whether both are of one family and exactly equal."""
        if not isinstance(other, Measure):
            return NotImplemented
        return self.si == other.si and _FAMILY[self.kind] is _FAMILY[other.kind]

    def __lt__(self, other: Measure) -> bool:
        """Return whether this is less; kinds that do not mix raise."""
        return self.si < self._like(other)

    def __le__(self, other: Measure) -> bool:
        """Return whether this is no more; kinds that do not mix raise."""
        return self.si <= self._like(other)

    def __gt__(self, other: Measure) -> bool:
        """Return whether this is more; kinds that do not mix raise."""
        return self.si > self._like(other)

    def __ge__(self, other: Measure) -> bool:
        """Return whether this is no less; kinds that do not mix raise."""
        return self.si >= self._like(other)

    def __add__(self, other: Measure) -> Measure:
        """Return the sum; a level and a length make a level."""
        si = self.si + self._like(other, "added to")
        if self.kind is Kind.TEMPERATURE or self.kind is other.kind is Kind.LEVEL:
            _refuse(self, other, "added to")
        level = Kind.LEVEL in {self.kind, other.kind}
        return Measure(si, Kind.LEVEL if level else self.kind, self.unit or other.unit)

    def __sub__(self, other: Measure) -> Measure:
        """Return the difference; two levels lie a length apart."""
        si = self.si - self._like(other, "lessened by")
        if self.kind is Kind.TEMPERATURE or (self.kind, other.kind) == (Kind.LENGTH, Kind.LEVEL):
            _refuse(self, other, "lessened by")
        kind = Kind.LENGTH if self.kind is other.kind is Kind.LEVEL else self.kind
        return Measure(si, kind, self.unit or other.unit)

    def __neg__(self) -> Measure:
        """Return the measure with its sign turned."""
        return self * -1

    def __mul__(self, times: int | Fraction) -> Measure:
        """Return so many times the measure."""
        if not isinstance(times, int | Fraction):
            return NotImplemented
        if self.kind is Kind.TEMPERATURE:
            raise TypeError("a temperature cannot be multiplied")
        return Measure(self.si * times, self.kind, self.unit)

    __rmul__ = __mul__

    def __truediv__(self, parts: int | Fraction) -> Measure:
        """Return one of so many equal parts."""
        if not isinstance(parts, int | Fraction):
            return NotImplemented
        return self * (1 / Fraction(parts))

    def in_(self, unit: str) -> Fraction:
        """Return the exact number of a unit; of `1:n` the n, of `ft-in` the inches.

        A level slope has no n and raises `ZeroDivisionError`.
        """
        known = unit_named(unit, self.kind)
        if known.form is Form.RISE_RUN:
            return 1 / self.si
        return (self.si - zero(known)) / factor(known)

    def shown(self, step: Fraction | None = None) -> str:
        """Return it in the author's unit, to a step of that unit or to the unit's own.

        Left to the unit's own step, what an author wrote finer is printed as fine, and a small
        amount is not printed as nothing.
        """
        return _shown(self.si, self.kind, self.unit, step, exact=bool(self.text))

    def _like(self, other: Measure, verb: str = "compared with") -> Fraction:
        """Return the other's value if the two are of one family."""
        if not isinstance(other, Measure) or _FAMILY[self.kind] is not _FAMILY[other.kind]:
            _refuse(self, other, verb)
        return other.si


@lru_cache(maxsize=4096)
def _shown(si: Fraction, kind: Kind, name: str, step: Fraction | None, *, exact: bool) -> str:
    """Return an SI value in print, to a step of a unit or to the unit's own."""
    unit = unit_named(name, kind)
    if unit.form is Form.RISE_RUN and not si:
        unit = unit_named("%", kind)
    number = Measure(si, kind).in_(unit.name)
    step = step or fitting_step(number, unit, unit.step, exact=exact)
    return written(number, unit, kind, step)


def _refuse(one: Measure, other: object, verb: str) -> NoReturn:
    """Raise for two quantities that do not go together."""
    what = nouns((other.kind,)) if isinstance(other, Measure) else type(other).__name__
    raise TypeError(f"{nouns((one.kind,))} cannot be {verb} {what}")


def measure(value: Fraction | int | str, unit: str, kind: Kind) -> Measure:
    """Return so many of a unit; of `1:n` the n, of `ft-in` the inches."""
    known = unit_named(unit, kind)
    number = Fraction(value)
    if known.form is Form.RISE_RUN:
        return Measure(1 / number, kind, known.name)
    offset = zero(known)
    si = number * factor(known)
    return Measure(si + offset if offset else si, kind, known.name)


def from_si(value: float | Fraction, kind: Kind, unit: str) -> Measure:
    """Return a computed SI value in the author's unit, without the noise past twelve digits."""
    if not isinstance(value, Fraction):
        if not isfinite(value):
            raise UnitError(str(value), "a number that is finite")
        value = _twelve_digits(value)
    return Measure(value, kind, unit_named(unit, kind).name)


@lru_cache(maxsize=4096)
def _twelve_digits(value: float) -> Fraction:
    """Return the number that the first twelve digits of another say."""
    digits, _, power = f"{value:.11e}".partition("e")
    whole, places = int(digits.replace(".", "")), int(power) - 11
    return Fraction(whole * 10**places) if places >= 0 else Fraction(whole, 10**-places)


def same(a: Fraction | float, b: Fraction | float) -> bool:
    """Return whether two SI values differ by no more than the noise of computing."""
    return isclose(float(a), float(b), rel_tol=1e-9, abs_tol=1e-12)
