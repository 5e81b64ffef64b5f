"""A hole cored through a curb with its pipe, the bits it is cored with, and what is left over it.

Heights are from the gutter flow line unless they say otherwise. The pipe sits in the middle of
its hole.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from permitkit.geometry.shape import ImpossibleShape, above_zero, finite, zero_or_more

__all__ = [
    "BITS_SOLD_M",
    "CoreHole",
    "Part",
    "above_bottom",
    "barrel_least_bottom",
]

INCH_M = 0.0254

BITS_SOLD_M = tuple(inches * INCH_M for inches in (2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 8.0))
"""Core bits commonly sold that can take a drain: trade practice, from memory."""

Part = Literal["hole bottom", "hole top", "centre", "invert", "crown", "pipe bottom", "pipe top"]


def above_bottom(part: Part, bit_m: float, pipe_outside_m: float, bore_m: float) -> float:
    """Return how far a part of hole or pipe lies above the hole bottom, in m.

    Parameters
    ----------
    part
        Which.
    bit_m, pipe_outside_m, bore_m
        Hole, and pipe outside and inside. [m]

    Examples
    --------
    >>> above_bottom("invert", 0.1, 0.09, 0.08) == (0.1 - 0.08) / 2
    True
    """
    of_bit, of_outside, of_bore = _AWAY[part]
    return (bit_m + of_bit * bit_m + of_outside * pipe_outside_m + of_bore * bore_m) / 2.0


_AWAY: dict[Part, tuple[int, int, int]] = {
    "hole bottom": (-1, 0, 0),
    "pipe bottom": (0, -1, 0),
    "invert": (0, 0, -1),
    "centre": (0, 0, 0),
    "crown": (0, 0, 1),
    "pipe top": (0, 1, 0),
    "hole top": (1, 0, 0),
}
"""How many times bit, outside and bore a part stands above the middle, doubled."""


@dataclass(frozen=True, slots=True)
class CoreHole:
    """A hole with its pipe.

    Parameters
    ----------
    reveal_m
        Curb top above the flow line; of several readings the least. [m]
    hole_bottom_m, bit_m
        Lowest point of the hole, and its diameter. [m]
    pipe_outside_m, bore_m
        Outside and inside height of the pipe. [m]

    Raises
    ------
    ImpossibleShape
        If a size is zero or less, or the bore is wider than the pipe. A pipe wider than its hole
        is told by a gap below zero.

    Examples
    --------
    >>> inch = 0.0254
    >>> hole = CoreHole(6 * inch, 0.375 * inch, 4 * inch, 3.5 * inch, 3.042 * inch)
    >>> [round(x / inch, 3) for x in (hole.strip_m, hole.gap_m, hole.invert_m)]
    [1.625, 0.25, 0.854]
    """

    reveal_m: float
    hole_bottom_m: float
    bit_m: float
    pipe_outside_m: float
    bore_m: float

    def __post_init__(self) -> None:
        """Refuse sizes that make no hole."""
        zero_or_more("reveal", self.reveal_m)
        above_zero("bit", self.bit_m)
        finite("hole bottom", self.hole_bottom_m)
        if above_zero("bore", self.bore_m) > above_zero("pipe outside", self.pipe_outside_m):
            raise ImpossibleShape(f"a bore of {self.bore_m!r} m is wider than its pipe")

    def height_of(self, part: Part) -> float:
        """Return the height of a part of hole or pipe, in m."""
        return self.hole_bottom_m + above_bottom(part, self.bit_m, self.pipe_outside_m, self.bore_m)

    @property
    def top_m(self) -> float:
        """Highest point of the hole, in m."""
        return self.height_of("hole top")

    @property
    def invert_m(self) -> float:
        """Bottom inside of the pipe, in m."""
        return self.height_of("invert")

    @property
    def crown_m(self) -> float:
        """Top inside of the pipe, in m."""
        return self.height_of("crown")

    @property
    def strip_m(self) -> float:
        """Concrete left between the hole and the top of the curb, in m."""
        return self.reveal_m - self.top_m

    @property
    def gap_m(self) -> float:
        """Room for grout all round, in m; below zero where the pipe does not go in."""
        return (self.bit_m - self.pipe_outside_m) / 2.0

    @property
    def centre_below_top_m(self) -> float:
        """The setting-out number: bit centre below the curb top, in m."""
        return self.reveal_m - self.height_of("centre")

    def grout_m3(self, through_m: float) -> float:
        """Return the volume of grout round the pipe over a length through the curb, in m3.

        Examples
        --------
        >>> inch = 0.0254
        >>> hole = CoreHole(0.2, 0.0, 4.5 * inch, 3.5 * inch, 3 * inch)
        >>> round(hole.grout_m3(6 * inch) / inch**3, 3)
        37.699
        """
        ring = math.pi / 4.0 * (self.bit_m**2 - self.pipe_outside_m**2)
        return max(ring, 0.0) * zero_or_more("length through the curb", through_m)


def barrel_least_bottom(barrel_out_m: float, pan_slope: float, pipe_slope: float) -> float:
    """Return the lowest hole that a bit can drill from the street without touching the pan, in m.

    Parameters
    ----------
    barrel_out_m
        Barrel that sticks out in front of the face, held at the pipe's slope. [m]
    pan_slope, pipe_slope
        Rise of the pan toward the street, and fall of the pipe toward it. [-]

    References
    ----------
    .. [1] Geometry

    Examples
    --------
    >>> round(barrel_least_bottom(14 * 0.0254, 1 / 12, 1 / 96) / 0.0254, 1)
    1.3
    """
    rise = zero_or_more("pan slope", pan_slope) + finite("pipe slope", pipe_slope)
    return max(zero_or_more("barrel", barrel_out_m) * rise, 0.0)
