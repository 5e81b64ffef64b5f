"""The wet shape inside a pipe: round bore or box, by depth of water.

Water in a box that reaches the roof wets a fourth side at once, so the box carries less when it
is just full than when it is just not. `wetted` is the free surface, up to the brim; `full` is the
pipe with its roof wet.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from permitkit.hydraulics.bounds import above_zero, zero_or_more

__all__ = ["Box", "Round", "Section", "Wetted"]

ROUND_BEST_DEPTH = 0.938181


class Wetted(NamedTuple):
    """What the water fills and touches at one depth."""

    area_m2: float
    perimeter_m: float
    top_width_m: float

    @property
    def hydraulic_radius_m(self) -> float:
        """Area over wetted perimeter; zero when dry, in m."""
        return self.area_m2 / self.perimeter_m if self.perimeter_m else 0.0

    @property
    def conveyance(self) -> float:
        """A R^(2/3), which times sqrt(slope)/n is the flow; zero when dry, in m^(8/3)."""
        area, perimeter, _ = self
        return float(area * (area / perimeter) ** (2.0 / 3.0)) if perimeter else 0.0


@lru_cache(maxsize=256)
def _full(bore_m: float) -> Wetted:
    """Return a round pipe filled to its crown."""
    return Wetted(math.pi * bore_m**2 / 4.0, math.pi * bore_m, 0.0)


@dataclass(frozen=True, slots=True)
class Round:
    """A round pipe.

    Parameters
    ----------
    bore_m
        Inside diameter. [m]

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, table 2-1, circle

    Examples
    --------
    >>> half = Round(0.1).wetted(0.05)
    >>> round(half.hydraulic_radius_m, 6)
    0.025
    """

    bore_m: float

    def __post_init__(self) -> None:
        """Refuse a bore that is no length."""
        above_zero("bore", self.bore_m)

    @property
    def height_m(self) -> float:
        """Inside height, in m."""
        return self.bore_m

    @property
    def brim_m(self) -> float:
        """Depth at which the free surface carries most, 0.938 of the bore, in m."""
        return ROUND_BEST_DEPTH * self.bore_m

    @property
    def full(self) -> Wetted:
        """The pipe filled to its crown."""
        return _full(self.bore_m)

    def wetted(self, depth_m: float) -> Wetted:
        """Return area, perimeter and top width at a depth; above the crown the pipe is full."""
        if not 0.0 <= depth_m < self.bore_m:
            zero_or_more("depth", depth_m)
            return self.full
        cosine = 1.0 - 2.0 * depth_m / self.bore_m
        half_angle = math.acos(cosine)
        sine = math.sqrt(1.0 - cosine * cosine)
        segment = half_angle - sine * cosine
        return Wetted(self.bore_m**2 / 4.0 * segment, self.bore_m * half_angle, self.bore_m * sine)

    def area_integral_m3(self, depth_m: float) -> float:
        """Return the area summed over all depths up to this one, closed form, in m3.

        Divided by a slope it is the water lying in a sloping pipe.

        Examples
        --------
        >>> round(Round(2.0).area_integral_m3(2.0), 9) == round(math.pi, 9)
        True
        """
        zero_or_more("depth", depth_m)
        radius = self.bore_m / 2.0
        cosine = max(1.0 - depth_m / radius, -1.0)
        sine = math.sqrt(max(1.0 - cosine * cosine, 0.0))
        inside = radius**3 * (sine - cosine * math.acos(cosine) - sine**3 / 3.0)
        return inside + self.full.area_m2 * max(depth_m - self.bore_m, 0.0)


@dataclass(frozen=True, slots=True)
class Box:
    """A box pipe, such as flat steel tube.

    Parameters
    ----------
    width_m, height_m
        Inside width and height. [m]

    Examples
    --------
    >>> tube = Box(0.12, 0.04)
    >>> tube.wetted(0.04).perimeter_m, round(tube.full.perimeter_m, 3)
    (0.2, 0.32)
    """

    width_m: float
    height_m: float

    def __post_init__(self) -> None:
        """Refuse sides that are no lengths."""
        above_zero("width", self.width_m)
        above_zero("height", self.height_m)

    @property
    def brim_m(self) -> float:
        """Depth at which the free surface carries most: just under the roof, in m."""
        return self.height_m

    @property
    def full(self) -> Wetted:
        """The box with its roof wet."""
        return Wetted(self.width_m * self.height_m, 2.0 * (self.width_m + self.height_m), 0.0)

    def wetted(self, depth_m: float) -> Wetted:
        """Return area, perimeter and top width at a depth; the roof is dry up to the brim."""
        if not 0.0 <= depth_m <= self.height_m:
            zero_or_more("depth", depth_m)
            return self.full
        if depth_m == 0.0:
            return Wetted(0.0, 0.0, 0.0)
        return Wetted(self.width_m * depth_m, self.width_m + 2.0 * depth_m, self.width_m)

    def area_integral_m3(self, depth_m: float) -> float:
        """Return the area summed over all depths up to this one, in m3.

        Examples
        --------
        >>> Box(2.0, 1.0).area_integral_m3(2.0)
        3.0
        """
        zero_or_more("depth", depth_m)
        inside = min(depth_m, self.height_m)
        above = max(depth_m - self.height_m, 0.0)
        return self.width_m * inside**2 / 2.0 + self.width_m * self.height_m * above


Section = Round | Box
