"""The pipe in the ground: concrete over it at the walk's edges, earth over it along the run."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from permitkit.geometry.section_walk import LaidPipe, SlabAt
from permitkit.model.drain import OUTLET
from permitkit.study.curb import at_the_curb
from permitkit.study.results import CoverPoint

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.hydraulics.tree import Reach
    from permitkit.model.job import Job
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.line import Line

__all__ = ["PipeAt", "cover_points", "deepest_m", "pipe_at", "slab_edges"]

TOUCH_M = 1e-4
EDGES = ("curb side", "house side")


class PipeAt(NamedTuple):
    """The pipe at one station: outside top and bottom as levels, and the surface of its reach."""

    top_m: float
    bottom_m: float
    surface: str


def pipe_at(line: Line, station_m: float) -> PipeAt | None:
    """Return the pipe of the trunk at a station; None beyond its ends."""
    for reach in line.tree.reaches:
        low, high = line.stations_m[reach.lower], line.stations_m[reach.upper]
        inside = low - TOUCH_M <= station_m <= high + TOUCH_M
        if inside and reach.upper in line.trunk:
            return _in_reach(line, reach, station_m)
    return None


def _in_reach(line: Line, reach: Reach, station_m: float) -> PipeAt:
    """Return the pipe of a reach at a station."""
    pipe = line.pipes[reach.name]
    laid = LaidPipe(
        line.stations_m[reach.lower],
        line.stations_m[reach.upper],
        reach.lower_invert_m,
        reach.upper_invert_m,
        pipe.wall_m,
        pipe.outside_height_m,
    )
    bottom, top = laid.bottom_at(station_m), laid.top_at(station_m)
    return PipeAt(top, bottom, line.drawn[reach.name].surface)


def slab_edges(line: Line, ground: Ground, thickness_m: float) -> tuple[SlabAt, ...]:
    """Return the pipe under both edges of the walk; nothing where the run does not cross it."""
    edges = zip(EDGES, ground.walk_m or (), strict=False)
    found = ((edge, at, pipe_at(line, at)) for edge, at in edges)
    return tuple(
        SlabAt(edge, at, ground.level_m(at), thickness_m, pipe.top_m, pipe.bottom_m)
        for edge, at, pipe in found
        if pipe
    )


def cover_points(job: Job, line: Line, ground: Ground) -> tuple[CoverPoint, ...]:
    """Return the cover at both ends of each surface, the right-of-way line, shots and nodes."""
    found = [*_along(job, line, ground), *_at_nodes(line, ground)]
    return tuple(sorted(found, key=lambda point: (point.station_m, point.surface, point.where)))


def _along(job: Job, line: Line, ground: Ground) -> Iterator[CoverPoint]:
    """Yield the cover along the trunk where the surface changes and where ground was shot."""
    nodes = [line.stations_m[name] for name in line.trunk if name != OUTLET]
    for where, named, station in _stations(job, ground, nodes):
        pipe = pipe_at(line, station)
        if pipe is not None:
            level = ground.level_m(station)
            surface = named or ground.surface(station, pipe.surface)
            yield _cover(ground, where, surface, station, (level, pipe.top_m))


def _stations(job: Job, ground: Ground, nodes_m: list[float]) -> Iterator[tuple[str, str, float]]:
    """Yield the stations of interest with their surface; empty where it is the reach's own.

    Ground shot at the street side's edges or at a node is no further station.
    """
    for stretch in ground.stretches:
        if stretch.surface != "curb":
            behind_curb = abs(stretch.low_m - ground.curb_depth_m) < TOUCH_M
            near = "back of curb" if behind_curb else f"{stretch.surface}, curb side"
            yield near, stretch.surface, stretch.low_m
            yield f"{stretch.surface}, house side", stretch.surface, stretch.high_m
    if all(abs(ground.row_m - node) > TOUCH_M for node in nodes_m):
        yield "right-of-way line", "", ground.row_m
    edges = [end for stretch in ground.stretches for end in (stretch.low_m, stretch.high_m)]
    marks = (*nodes_m, *edges, ground.row_m)
    for point in job.ground if at_the_curb(job) else ():
        station = float(point.at)
        if all(abs(station - mark) > TOUCH_M for mark in marks):
            yield f"shot at {point.at.shown()}", point.surface or "", station


def _at_nodes(line: Line, ground: Ground) -> Iterator[CoverPoint]:
    """Yield the cover at every node over the pipe that leaves it."""
    grounds = {node.name: node.ground_m for node in line.tree.nodes}
    for reach in line.tree.reaches:
        if reach.upper != OUTLET:
            station = line.stations_m[reach.upper]
            pipe = _in_reach(line, reach, station)
            levels = (grounds[reach.upper], pipe.top_m)
            surface = ground.surface(station, pipe.surface)
            yield _cover(ground, reach.upper, surface, station, levels)


def _cover(
    ground: Ground, where: str, surface: str, station_m: float, levels_m: tuple[float, float]
) -> CoverPoint:
    """Return the earth between two levels, ground and pipe top."""
    level, top = levels_m
    inside = station_m <= ground.row_m + TOUCH_M
    return CoverPoint(where, surface, station_m, level, top, level - top, inside)


def deepest_m(line: Line, ground: Ground) -> float:
    """Return the greatest depth from ground to pipe bottom in the right-of-way, in m."""
    ends = [at for at, _ in ground.points if at < ground.row_m] + [ground.row_m]
    found = ((at, pipe_at(line, at)) for at in ends)
    return max((ground.level_m(at) - pipe.bottom_m for at, pipe in found if pipe), default=0.0)
