"""Examples in round metric units."""

from __future__ import annotations

import re
from fractions import Fraction

from permitkit.units import Kind, Measure, read_measure, write_measure

__all__ = ["in_metric"]

_QUOTED = re.compile(r'"([^"]+)"')
_STEPS: dict[Kind, tuple[str, Fraction]] = {
    Kind.LEVEL: ("m", Fraction(1, 1000)),
    Kind.AREA: ("m2", Fraction(1)),
    Kind.SLOPE: ("%", Fraction(1, 10)),
    Kind.FLOW: ("L/s", Fraction(1, 20)),
    Kind.INTENSITY: ("mm/h", Fraction(1)),
    Kind.SPEED: ("km/h", Fraction(10)),
    Kind.STRENGTH: ("MPa", Fraction(5)),
}
_LENGTHS: tuple[tuple[int, str, Fraction], ...] = (
    (20, "mm", Fraction(1)),
    (1000, "mm", Fraction(5)),
)
"""Up to so many millimetres: the unit, and the step."""
_LONG = ("m", Fraction(1, 20))


def in_metric(example: str, kind: Kind) -> str:
    """Return an example with its quantities in metric units, rounded as one would measure them.

    Examples
    --------
    >>> in_metric('["6 in", "41 ft 6 in"]', Kind.LENGTH)
    '["150 mm", "12.65 m"]'
    """
    return _QUOTED.sub(lambda match: f'"{_told(match[1], kind)}"', example)


def _told(text: str, kind: Kind) -> str:
    """Return a quantity in metric units; as it is, if it has none or would round to nothing."""
    measure = read_measure(text, kind)
    unit, step = _of_length(measure) if kind is Kind.LENGTH else _STEPS.get(kind, ("", Fraction(1)))
    if not unit or 0 < measure.in_(unit) < step / 2:
        return text
    return write_measure(measure, unit, step)


def _of_length(length: Measure) -> tuple[str, Fraction]:
    """Return the unit and the step that a length of that size is taped in."""
    size = length.in_("mm")
    return next(((unit, step) for end, unit, step in _LENGTHS if size < end), _LONG)
