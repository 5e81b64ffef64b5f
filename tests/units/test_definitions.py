"""The few units defined for speed are Pint's own, to the last digit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from pint import UnitRegistry

from permitkit.units.conversion import _converted
from permitkit.units.kinds import SI, Kind
from permitkit.units.table import UNITS, Unit

FULL: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.name or "plain")
@pytest.mark.parametrize("value", [Fraction(0), Fraction(1), Fraction(7, 3)])
def test_each_unit_is_the_one_in_pints_full_list(unit: Unit, value: Fraction) -> None:
    theirs = Fraction(FULL.convert(value, unit.pint, SI[unit.kinds[0]]))

    ours = _converted(value, unit)

    if Kind.ANGLE in unit.kinds:
        assert float(ours) == pytest.approx(float(theirs), rel=1e-15)
    else:
        assert ours == theirs
