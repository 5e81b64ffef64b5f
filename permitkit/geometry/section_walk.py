"""Levels along a run: the ground, the pipe laid in it, the slab of a walk over the pipe.

Stations run from the curb face toward the house.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.geometry.shape import ImpossibleShape, Point

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["LaidPipe", "SlabAt", "level_at"]


@dataclass(frozen=True, slots=True)
class LaidPipe:
    """A straight pipe from its lower end to its upper one.

    Parameters
    ----------
    low_m, high_m
        Stations of its two ends. [m]
    low_invert_m, high_invert_m
        Levels of its invert there. [m]
    wall_m, outside_m
        Wall below the invert, and height over all. [m]

    Examples
    --------
    >>> pipe = LaidPipe(0.0, 10.0, 1.0, 1.5, 0.0625, 0.25)
    >>> pipe.invert_at(5.0), pipe.bottom_at(5.0), pipe.top_at(5.0)
    (1.25, 1.1875, 1.4375)
    """

    low_m: float
    high_m: float
    low_invert_m: float
    high_invert_m: float
    wall_m: float
    outside_m: float

    def invert_at(self, station_m: float) -> float:
        """Return the level of its bottom inside at a station, in m."""
        share = (station_m - self.low_m) / (self.high_m - self.low_m)
        return self.low_invert_m + share * (self.high_invert_m - self.low_invert_m)

    def bottom_at(self, station_m: float) -> float:
        """Return the level of its outside bottom at a station, in m."""
        return self.invert_at(station_m) - self.wall_m

    def top_at(self, station_m: float) -> float:
        """Return the level of its outside top at a station, in m."""
        return self.bottom_at(station_m) + self.outside_m

    def clear_of(self, station_m: float, level_m: float) -> float:
        """Return the room, up or down, to what lies at a level, in m; below zero if it meets it."""
        under = self.bottom_at(station_m) - level_m
        return max(under, -under - self.outside_m)


@dataclass(frozen=True, slots=True)
class SlabAt:
    """The pipe under one edge of the walk.

    Parameters
    ----------
    edge
        Which: curb side or house side.
    station_m
        Of the edge. [m]
    surface_m, thickness_m
        Level of the slab's top [m], and its thickness. [m]
    pipe_top_m, pipe_bottom_m
        Levels of the pipe's outside. [m]

    Examples
    --------
    >>> slab = SlabAt("curb side", 1.5, 30.0, 0.125, 29.9375, 29.75)
    >>> slab.into_slab_m, slab.concrete_over_m
    (0.0625, 0.0625)
    """

    edge: str
    station_m: float
    surface_m: float
    thickness_m: float
    pipe_top_m: float
    pipe_bottom_m: float

    @property
    def underside_m(self) -> float:
        """Level of the slab's underside."""
        return self.surface_m - self.thickness_m

    @property
    def into_slab_m(self) -> float:
        """How far the pipe stands up into the slab, in m; below zero where it lies under it."""
        return self.pipe_top_m - self.underside_m

    @property
    def concrete_over_m(self) -> float:
        """Concrete over the pipe, in m: the slab, or what the pipe leaves of it."""
        return min(self.surface_m - self.pipe_top_m, self.thickness_m)


def level_at(points: Sequence[Point], station_m: float) -> float:
    """Return a level on a straight line between points, in m; beyond the ends, that of the end.

    Parameters
    ----------
    points
        Station and level of each, stations rising. [m]
    station_m
        Where. [m]

    Raises
    ------
    ImpossibleShape
        If there is no point.

    Examples
    --------
    >>> level_at([(0.0, 10.0), (2.0, 11.0)], 0.5)
    10.25
    """
    if not points:
        raise ImpossibleShape("a level line needs a point")
    inside = min(max(station_m, points[0][0]), points[-1][0])
    at = bisect_left(points, (inside, float("-inf")))
    (s1, z1), (s2, z2) = points[max(at - 1, 0)], points[at]
    return z2 if s2 <= s1 else z1 + (z2 - z1) * (inside - s1) / (s2 - s1)
