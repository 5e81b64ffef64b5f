"""Levels along a run: ground, pipe, slab; cover over the pipe and the pipe in the slab.

Stations run from the curb face toward the house.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise

from permitkit.geometry.shape import NEAR_M, ImpossibleShape, above_zero, finite

__all__ = [
    "Cover",
    "LevelLine",
    "SlabCrossing",
    "SlabEdge",
    "cover_at",
    "least_cover",
    "pipe_top_above_invert",
    "slab_crossing",
]


@dataclass(frozen=True, slots=True)
class LevelLine:
    """A level that changes straight between stations, such as ground or invert.

    Parameters
    ----------
    points
        Station and level of each point, stations rising. [m]

    Raises
    ------
    ImpossibleShape
        If there are fewer than two points, or stations do not rise.

    Examples
    --------
    >>> LevelLine(((0.0, 10.0), (2.0, 11.0))).at(0.5)
    10.25
    """

    points: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        """Refuse what is no line."""
        if len(self.points) < 2:  # noqa: PLR2004 - a line has two ends
            raise ImpossibleShape("a level line needs two points or more")
        for station, level in self.points:
            finite("station", station)
            finite("level", level)
        if any(after[0] - before[0] <= 0.0 for before, after in pairwise(self.points)):
            raise ImpossibleShape("stations must rise along a level line")

    @property
    def start_m(self) -> float:
        """First station, in m."""
        return self.points[0][0]

    @property
    def end_m(self) -> float:
        """Last station, in m."""
        return self.points[-1][0]

    def at(self, station_m: float) -> float:
        """Return the level at a station, in m.

        Raises
        ------
        ImpossibleShape
            If the station lies beyond the line's ends.
        """
        if not self.start_m - NEAR_M <= station_m <= self.end_m + NEAR_M:
            raise ImpossibleShape(
                f"station {station_m:.4g} m lies beyond {self.start_m:.4g} to {self.end_m:.4g} m"
            )
        stations = [station for station, _ in self.points]
        after = min(max(bisect_right(stations, station_m), 1), len(stations) - 1)
        (x0, y0), (x1, y1) = self.points[after - 1], self.points[after]
        return y0 + (y1 - y0) * (station_m - x0) / (x1 - x0)

    def stations_between(self, near_m: float, far_m: float) -> tuple[float, ...]:
        """Return the two stations and the line's own between them."""
        own = (station for station, _ in self.points if near_m < station < far_m)
        return (near_m, *own, far_m)


@dataclass(frozen=True, slots=True)
class Cover:
    """Ground over the outside of a pipe at a station; below zero where it stands out."""

    station_m: float
    cover_m: float


@dataclass(frozen=True, slots=True)
class SlabEdge:
    """A slab and a pipe at one edge of a walk.

    Parameters
    ----------
    station_m
        Of the edge. [m]
    slab_top_m, underside_m, pipe_top_m
        Levels of the slab's top and underside and of the pipe's outside top. [m]
    """

    station_m: float
    slab_top_m: float
    underside_m: float
    pipe_top_m: float

    @property
    def into_slab_m(self) -> float:
        """How far the pipe reaches up into the slab, in m; zero where it lies below."""
        return max(self.pipe_top_m - self.underside_m, 0.0)

    @property
    def below_slab_m(self) -> float:
        """Room between slab and pipe, in m; zero where the pipe is in the slab."""
        return max(self.underside_m - self.pipe_top_m, 0.0)

    @property
    def concrete_over_m(self) -> float:
        """Concrete over the pipe, in m: the slab, or what the pipe leaves of it."""
        return self.slab_top_m - max(self.pipe_top_m, self.underside_m)


@dataclass(frozen=True, slots=True)
class SlabCrossing:
    """A pipe on its way under or through a walk: both edges."""

    curb_edge: SlabEdge
    house_edge: SlabEdge

    @property
    def into_slab_m(self) -> float:
        """The greater reach into the slab, in m."""
        return max(self.curb_edge.into_slab_m, self.house_edge.into_slab_m)

    @property
    def concrete_over_m(self) -> float:
        """The lesser concrete over the pipe, in m."""
        return min(self.curb_edge.concrete_over_m, self.house_edge.concrete_over_m)

    @property
    def below_slab_m(self) -> float:
        """The lesser room under the slab, in m."""
        return min(self.curb_edge.below_slab_m, self.house_edge.below_slab_m)


def pipe_top_above_invert(outside_m: float, bore_m: float) -> float:
    """Return how far a pipe's outside top stands above its invert, in m.

    Raises
    ------
    ImpossibleShape
        If the bore is wider than the pipe.

    Examples
    --------
    >>> round(pipe_top_above_invert(3.5, 3.042), 3)
    3.271
    """
    if above_zero("bore", bore_m) > above_zero("outside", outside_m):
        raise ImpossibleShape(f"a bore of {bore_m!r} m is wider than its pipe")
    return (outside_m + bore_m) / 2.0


def cover_at(
    ground: LevelLine, invert: LevelLine, top_above_invert_m: float, station_m: float
) -> Cover:
    """Return the cover over a pipe at a station.

    Parameters
    ----------
    ground, invert
        Their levels. [m]
    top_above_invert_m
        Outside top above invert, see `pipe_top_above_invert`. [m]
    station_m
        Where. [m]

    Examples
    --------
    >>> ground = LevelLine(((0.0, 1.0), (10.0, 1.2)))
    >>> round(cover_at(ground, LevelLine(((0.0, 0.8), (10.0, 0.9))), 0.1, 5.0).cover_m, 3)
    0.15
    """
    return Cover(station_m, ground.at(station_m) - invert.at(station_m) - top_above_invert_m)


def least_cover(
    ground: LevelLine,
    invert: LevelLine,
    top_above_invert_m: float,
    near_m: float,
    far_m: float,
) -> Cover:
    """Return the least cover between two stations, and where; of equals the nearest the curb.

    Parameters
    ----------
    ground, invert
        Their levels. [m]
    top_above_invert_m
        Outside top above invert. [m]
    near_m, far_m
        From station to station. [m]

    Notes
    -----
    Both lines are straight between their points, so the least lies at one of those.

    Examples
    --------
    >>> ground = LevelLine(((0.0, 1.0), (4.0, 0.95), (10.0, 1.2)))
    >>> least_cover(ground, LevelLine(((0.0, 0.8), (10.0, 0.9))), 0.1, 0.0, 10.0).station_m
    4.0
    """
    own = {*ground.stations_between(near_m, far_m), *invert.stations_between(near_m, far_m)}
    covers = [cover_at(ground, invert, top_above_invert_m, station) for station in sorted(own)]
    return min(covers, key=lambda cover: cover.cover_m)


def slab_crossing(
    walk: LevelLine, thickness_m: float, invert: LevelLine, top_above_invert_m: float
) -> SlabCrossing:
    """Return how a pipe passes a walk slab, at both of its edges.

    Parameters
    ----------
    walk
        The slab's top from the edge toward the curb to that toward the house. [m]
    thickness_m
        Of the slab. [m]
    invert
        Of the pipe, at least from edge to edge. [m]
    top_above_invert_m
        Outside top above invert. [m]

    Examples
    --------
    >>> walk, invert = LevelLine(((2.0, 1.0), (3.5, 1.03))), LevelLine(((0.0, 0.8), (9.0, 0.89)))
    >>> round(slab_crossing(walk, 0.1, invert, 0.09).into_slab_m, 3)
    0.01
    """
    thickness = above_zero("thickness", thickness_m)

    def edge(station_m: float) -> SlabEdge:
        top = walk.at(station_m)
        pipe = invert.at(station_m) + top_above_invert_m
        return SlabEdge(station_m, top, top - thickness, pipe)

    return SlabCrossing(edge(walk.start_m), edge(walk.end_m))
