"""Quantities told to a reader: in another unit, in two units, or apart from a limit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.units.kinds import Kind
from permitkit.units.measure import Measure, same
from permitkit.units.numerals import finer, rounded
from permitkit.units.table import Form, second_unit, unit_named
from permitkit.units.writing import fitting_step, written

if TYPE_CHECKING:
    from fractions import Fraction

    from permitkit.units.table import Unit

__all__ = ["apart", "both_ways", "write_measure"]

_SPARE = {Kind.SLOPE: ("%", "1:n")}
"""What tells a quantity once more where its unit's own second does not."""


def write_measure(m: Measure, unit: str | None = None, step: Fraction | None = None) -> str:
    """Return a measure in a unit, to a step of that unit; the author's unit unless stated."""
    return (m if unit is None else Measure(m.si, m.kind, unit)).shown(step)


def both_ways(m: Measure) -> str:
    """Return a measure in the author's unit and once more: `5.54 ft (5 ft 6 1/2 in)`.

    A second unit in which it would read the same, or as nothing, gives way to another; where none
    tells more, it is told once.
    """
    first = m.shown()
    others = dict.fromkeys((second_unit(m.unit, m.kind), *_SPARE.get(m.kind, ())))
    told = (_told(m, other) for other in others if other and m.si)
    second = next((second for second in told if second not in {first, ""}), "")
    return f"{first} ({second})" if second else first


def _told(m: Measure, unit: str) -> str:
    """Return a measure in a unit, or an empty text where its print would hide what it is."""
    text = write_measure(m, unit)
    return text if any(figure in text for figure in "123456789") or not m.in_(unit) else ""


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
