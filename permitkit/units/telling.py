"""Quantities told to a reader: in another unit, in two units, or apart from a limit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.units.measure import Measure, same
from permitkit.units.numerals import finer, rounded
from permitkit.units.table import Form, second_unit, unit_named
from permitkit.units.writing import fitting_step, written

if TYPE_CHECKING:
    from fractions import Fraction

    from permitkit.units.table import Unit

__all__ = ["apart", "both_ways", "write_measure"]


def write_measure(m: Measure, unit: str | None = None, step: Fraction | None = None) -> str:
    """Return a measure in a unit, to a step of that unit; the author's unit unless stated."""
    return (m if unit is None else Measure(m.si, m.kind, unit)).shown(step)


def both_ways(m: Measure) -> str:
    """Return a measure in the author's unit and once more: `5.54 ft (5 ft 6 1/2 in)`."""
    other = second_unit(m.unit, m.kind)
    return f"{m.shown()} ({write_measure(m, other)})" if other else m.shown()


def apart(a: Measure, b: Measure, unit: str, step: Fraction) -> tuple[str, str]:
    """Return two measures in print, fine enough that the print says which is more.

    Two that differ only by the noise of computing print alike.
    """
    known = unit_named(unit, a.kind)
    if known.form is Form.RISE_RUN and not (a.si and b.si):
        known = unit_named("%", a.kind)
    one, two = a.in_(known.name), b.in_(known.name)
    if same(a.si, b.si):
        one = two
    step = min(
        fitting_step(one, known, step, exact=bool(a.text)),
        fitting_step(two, known, step, exact=bool(b.text)),
    )
    step = _telling_step(one, two, known, step)
    return written(one, known, a.kind, step), written(two, known, b.kind, step)


def _telling_step(one: Fraction, two: Fraction, unit: Unit, step: Fraction) -> Fraction:
    """Return the first step, from the one given on, at which unequal numbers print unequal."""
    while one != two and rounded(one, step) == rounded(two, step):
        step = finer(step, fractions=unit.in_fractions)
    return step
