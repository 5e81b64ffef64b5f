"""How each role is drawn: line width, dashes and colour.

Widths are those of the drafting standards: thick 0.6 and thin 0.3 mm (ASME Y14.2), and steps of the
ISO 128 series in between and below. No two roles share width and dashes, so that a black copy still
reads; utilities share theirs and are told apart by the letter in the line. Colours of utilities
follow the APWA uniform color code, darkened until they show on white paper and come out black, not
white, on a copier that knows nothing between.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Role

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["PENS", "TONE", "Colour", "Pen"]

Colour = tuple[float, float, float]

_BLACK: Colour = (0.0, 0.0, 0.0)
TONE: Colour = (0.88, 0.88, 0.88)
"""The one grey, for what is filled but not hatched."""


@dataclass(frozen=True, slots=True)
class Pen:
    """A line's width and dashes in mm, and its colour in red, green and blue from 0 to 1."""

    width_mm: float
    dashes_mm: tuple[float, ...] = ()
    colour: Colour = _BLACK

    @property
    def round_ends(self) -> bool:
        """Return whether strokes end round; dashes end square so that they stay apart."""
        return not self.dashes_mm


_THICK, _THIN = 0.6, 0.3
_UTILITY_MM = 0.35

PENS: Mapping[Role, Pen] = MappingProxyType(
    {
        Role.EXISTING: Pen(_THIN),
        Role.PROPOSED: Pen(_THICK),
        Role.REMOVED: Pen(_THIN, (2.4, 1.2)),
        Role.HIDDEN: Pen(_THIN, (1.2, 0.8)),
        Role.CENTRE: Pen(_THIN, (8.0, 1.2, 1.8, 1.2)),
        Role.BOUNDARY: Pen(0.5, (7.4, 1.2, 1.8, 1.2, 1.8, 1.2)),
        Role.RIGHT_OF_WAY: Pen(_THICK, (6.0, 1.5, 2.0, 1.5)),
        Role.DIMENSION: Pen(0.18),
        Role.TEXT: Pen(0.2),
        Role.WATER: Pen(_UTILITY_MM, (), (0.0, 0.2, 0.6)),
        Role.GRADE_LINE: Pen(_UTILITY_MM, (5.0, 1.0, 0.7, 1.0, 0.7, 1.0), (0.0, 0.2, 0.6)),
        Role.GROUND: Pen(0.45),
        Role.PIPE: Pen(0.7),
        Role.SAW_CUT: Pen(_THICK, (3.0, 1.2)),
        Role.PLANT: Pen(0.25),
        Role.UTILITY_ELECTRIC: Pen(_UTILITY_MM, (), (0.78, 0.05, 0.05)),
        Role.UTILITY_GAS: Pen(_UTILITY_MM, (), (0.55, 0.41, 0.0)),
        Role.UTILITY_COMMUNICATION: Pen(_UTILITY_MM, (), (0.74, 0.33, 0.0)),
        Role.UTILITY_WATER: Pen(_UTILITY_MM, (), (0.0, 0.25, 0.75)),
        Role.UTILITY_RECLAIMED: Pen(_UTILITY_MM, (), (0.45, 0.10, 0.55)),
        Role.UTILITY_SEWER: Pen(_UTILITY_MM, (), (0.0, 0.45, 0.15)),
        Role.UTILITY_DRAIN: Pen(_UTILITY_MM, (), (0.0, 0.45, 0.15)),
        Role.SURVEY: Pen(0.25, (0.6, 0.8), (0.72, 0.12, 0.46)),
        Role.PROPOSED_DIG: Pen(0.5, (1.6, 1.2)),
        Role.HATCH: Pen(0.15),
        Role.FRAME: Pen(0.4),
        Role.ASSUMED: Pen(_THIN, (0.6, 1.0)),
        Role.NOTE: Pen(0.22),
    }
)
"""One pen for every role."""
