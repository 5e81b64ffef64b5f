"""The one door to Pint: how much of the SI unit one unit is, exactly."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from permitkit.units.definitions import DEFINITIONS
from permitkit.units.kinds import SI, Kind

if TYPE_CHECKING:
    from pint import UnitRegistry

    from permitkit.units.table import Unit

__all__ = ["factor", "zero"]


@cache
def _registry() -> UnitRegistry[Any]:
    """Return the one registry, made when the first unit is met."""
    from pint import UnitRegistry  # noqa: PLC0415 - slow to import; a page of help needs no unit

    registry: UnitRegistry[Any] = UnitRegistry(None, non_int_type=Fraction)
    registry.load_definitions(DEFINITIONS.strip().splitlines())
    return registry


def _converted(value: Fraction, unit: Unit) -> Fraction:
    """Return a number of a unit in the SI unit of its kind."""
    return Fraction(_registry().convert(value, unit.pint, SI[unit.kinds[0]]))


@cache
def zero(unit: Unit) -> Fraction:
    """Return where the unit's zero lies on the SI scale: nothing, save for temperatures."""
    if Kind.TEMPERATURE not in unit.kinds:
        return Fraction(0)
    return _converted(Fraction(0), unit)


@cache
def factor(unit: Unit) -> Fraction:
    """Return one unit in the SI unit of its kind."""
    return unit.times * (_converted(Fraction(1), unit) - zero(unit))
