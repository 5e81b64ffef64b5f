"""A number of a unit in print."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from permitkit.units.kinds import Kind
from permitkit.units.numerals import decimal, feet_inches, finer, is_binary, mixed, rounded
from permitkit.units.table import Form

if TYPE_CHECKING:
    from fractions import Fraction

    from permitkit.units.table import Unit

__all__ = ["fitting_step", "written"]

_REFINEMENTS = 3
_FINEST = 10**5


@cache
def _ladder(step: Fraction, *, fractions: bool) -> tuple[Fraction, ...]:
    """Return a step and the few finer ones that a reader still takes in."""
    steps = [step]
    for _ in range(_REFINEMENTS):
        steps.append(finer(steps[-1], fractions=fractions))
    return (step, *(fine for fine in steps[1:] if fine.denominator <= _FINEST))


def fitting_step(number: Fraction, unit: Unit, step: Fraction, *, exact: bool) -> Fraction:
    """Return the step, or a finer one where the number would lose by it.

    An exact number is printed whole if a few digits more can do it; one that is not nothing is
    not printed as nothing.
    """
    near = rounded(number, step)
    if near == number or (near and not exact):
        return step
    ladder = _ladder(step, fractions=unit.in_fractions)
    kept = (finest for finest in ladder if exact and rounded(number, finest) == number)
    seen = (finest for finest in ladder if rounded(number, finest))
    return next(kept, None) or next(seen, step)


def written(number: Fraction, unit: Unit, kind: Kind, step: Fraction) -> str:
    """Return a number of a unit rounded to a step, with its unit."""
    near = rounded(number, step)
    if unit.form is Form.FEET_INCHES:
        return feet_inches(near, step)
    if unit.form is Form.RISE_RUN:
        return ("-" if near < 0 else "") + f"1:{decimal(abs(near), step)}"
    if unit.form is Form.FRACTION and is_binary(step):
        figures = mixed(near)
    else:
        figures = decimal(near, step, padded=kind is Kind.LEVEL, grouped=unit.grouped)
    return f"{figures} {unit.label or unit.name}".rstrip()
