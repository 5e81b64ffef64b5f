"""The run as the profile shows it: trunk, laterals and ground by station and level, in metres."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.info import Figures, figures_of
from permitkit.drawing.sheet_parts.ground_line import GroundLine, ground_line, trunk_nodes
from permitkit.model.job import Job
from permitkit.study.results import NodeWater, ReachWater, Study

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from permitkit.drawing.shapes import Point
    from permitkit.model.drain import Node
    from permitkit.study.results import CurbStudy, Standing

__all__ = ["Course", "Lateral", "clipped", "course_of", "spare_m", "worst_water_m"]

_STREET_M = 0.45
_BEYOND_M = 0.1
_MOST_TOLD = 8


@dataclass(frozen=True, slots=True)
class Lateral:
    """A branch that comes to the trunk at a node, lowest reach first."""

    junction: NodeWater
    reaches: tuple[ReachWater, ...]


@dataclass(frozen=True, slots=True)
class Course:
    """What a profile is drawn from.

    Parameters
    ----------
    job, study, figures
        The job, what was computed, and how its numbers are written.
    trunk
        The nodes of the longest way to the outlet, the outlet first.
    reaches
        The reaches between them, the lowest first.
    laterals
        Branches, by where they come in.
    ground
        The ground over the trunk.
    """

    job: Job
    study: Study
    figures: Figures
    trunk: tuple[NodeWater, ...]
    reaches: tuple[ReachWater, ...]
    laterals: tuple[Lateral, ...]
    ground: GroundLine

    @property
    def curb(self) -> CurbStudy | None:
        """Return the curb, where the water is let go through it."""
        return self.study.curb

    @property
    def given(self) -> Mapping[str, Node]:
        """Return the nodes as the job gives them, by name."""
        return {node.name: node for node in self.job.drain.node}

    @property
    def street_m(self) -> float:
        """Return how far the street is drawn before the curb face, in m."""
        pan = self.job.gutter.pan_width
        return max(float(pan) if pan else 0.0, _STREET_M) if self.curb else 0.0

    @property
    def span_m(self) -> tuple[float, float]:
        """Return the stations between which it is drawn."""
        high = max(node.station_m for node in self.trunk) + _BEYOND_M
        if self.curb:
            return -self.street_m, high
        return min(self.ground.row_m, -_STREET_M) - _BEYOND_M, high

    @property
    def heads(self) -> tuple[Point, ...]:
        """Return the highest point of each node: its opening or the ground."""
        return tuple(
            (node.station_m, max(node.ground_m, node.opening_m or node.ground_m))
            for node in self.trunk
        )

    def levels_m(self, low_m: float, high_m: float) -> tuple[float, float]:
        """Return the lowest and the highest level that must be seen between two stations."""
        seen = [node for node in self.trunk if low_m <= node.station_m <= high_m]
        levels = [level for _, level in clipped(self.surface, low_m, high_m)]
        levels.extend(level for node in seen for level in node.flowing_m.values())
        levels.extend(level for station, level in self.heads if low_m <= station <= high_m)
        for reach in self.reaches:
            ends = (max(reach.station_low_m, low_m), min(reach.station_high_m, high_m))
            levels.extend(map(self.invert_at, ends) if ends[0] < ends[1] else ())
        if low_m <= 0.0:
            levels.extend(self._outlet_levels())
        walls = [reach.pipe.wall_m for reach in self.reaches]
        return min(levels) - max(walls, default=0.0), max(levels)

    def _outlet_levels(self) -> Iterable[float]:
        """Yield the levels at the curb, or at the emitter."""
        if self.curb:
            yield from (self.curb.flow_line_m, self.curb.curb_top_m, *self.gutter.values())
        if self.study.water.emitter:
            yield self.study.water.emitter.water_level_m

    @property
    def pools(self) -> tuple[Standing, ...]:
        """Return the water left standing in the trunk."""
        names = {node.name for node in self.trunk}
        return tuple(pool for pool in self.study.water.standing if pool.where in names)

    @property
    def pools_aside(self) -> tuple[Standing, ...]:
        """Return the water left standing in branches, which the profile does not show."""
        return tuple(pool for pool in self.study.water.standing if pool not in self.pools)

    def pool_words(self, pool: Standing) -> str:
        """Return a pool in words: its volume, depth and length."""
        write = self.figures
        return (
            f"{write.volume(pool.volume_m3)}, up to {write.height(pool.depth_m)} deep "
            f"over {write.distance(pool.length_m)}"
        )

    @property
    def dense(self) -> bool:
        """Return whether there are so many nodes that only the tightest is told of in words."""
        return len(self.trunk) > _MOST_TOLD

    @property
    def tightest(self) -> str:
        """Return the name of the node with the least height to spare, if any can spill."""
        spares = [(spare, node.name) for node in self.trunk if (spare := spare_m(node)) is not None]
        return min(spares)[1] if spares else ""

    @property
    def gutter(self) -> Mapping[str, float]:
        """Return the level of each gutter water."""
        return self.study.water.gutter_levels_m

    @property
    def surface(self) -> tuple[Point, ...]:
        """Return the ground from the first station drawn to the last."""
        low, high = self.span_m
        points = [point for point in self.ground.points if point[0] <= high]
        if self.curb:
            return (*points, (high, points[-1][1]))
        emitter, (first, level) = self.job.outlet.emitter, self.ground.points[0]
        slope = float(emitter.ground_slope) if emitter and emitter.ground_slope else 0.0
        return (low, level - slope * (first - low)), *points, (high, points[-1][1])

    def reach_at(self, station_m: float) -> ReachWater | None:
        """Return the reach of the trunk at a station."""
        return next(
            (r for r in self.reaches if r.station_low_m <= station_m <= r.station_high_m), None
        )

    def invert_at(self, station_m: float) -> float:
        """Return the invert of the trunk at a station; beyond its ends, that of the end."""
        reach = self.reach_at(station_m)
        if reach is None:
            first, last = self.reaches[0], self.reaches[-1]
            below = station_m < first.station_low_m
            return first.lower_invert_m if below else last.upper_invert_m
        return reach.laid.invert_at(station_m)


def course_of(job: Job, study: Study) -> Course:
    """Return the run as the profile shows it: the longest way to the outlet, and its branches."""
    trunk = trunk_nodes(study)
    by_upper = {reach.upper: reach for reach in study.water.reaches}
    reaches = tuple(by_upper[node.name] for node in trunk[1:])
    branches = tuple(_laterals(study.water.reaches, trunk))
    ground = ground_line(job, study, trunk)
    return Course(job, study, figures_of(job), trunk, reaches, branches, ground)


def _laterals(reaches: Iterable[ReachWater], trunk: tuple[NodeWater, ...]) -> Iterable[Lateral]:
    """Return the branches, by the node of the trunk at which each comes in."""
    names = {node.name for node in trunk}
    off = [reach for reach in reaches if reach.upper not in names]
    for node in trunk:
        for first in (reach for reach in off if reach.lower == node.name):
            yield Lateral(node, (first, *_above(first, off)))


def _above(reach: ReachWater, off: list[ReachWater]) -> Iterable[ReachWater]:
    """Return all reaches that drain into one."""
    for upper in (other for other in off if other.lower == reach.upper):
        yield upper
        yield from _above(upper, off)


def worst_water_m(node: NodeWater) -> float:
    """Return the highest the water stands at a node, over all gutter waters, still and flowing."""
    return max((*node.flowing_m.values(), *node.still_m.values()))


def spare_m(node: NodeWater) -> float | None:
    """Return the height from the highest water to the opening; None where nothing can spill."""
    return None if node.opening_m is None else node.opening_m - worst_water_m(node)


def clipped(points: Iterable[Point], low_m: float, high_m: float) -> tuple[Point, ...]:
    """Return the part of a line between two stations; its points run from low to high.

    Examples
    --------
    >>> clipped([(0.0, 1.0), (4.0, 3.0)], 1.0, 2.0)
    ((1.0, 1.5), (2.0, 2.0))
    """
    kept: list[Point] = []
    line = list(points)
    for (x0, y0), (x1, y1) in itertools.pairwise(line):
        start, end = max(x0, low_m), min(x1, high_m)
        if start > end:
            continue
        for share in _shares(x0, x1, start, end):
            point = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
            if not kept or kept[-1] != point:
                kept.append(point)
    return tuple(kept)


def _shares(x0: float, x1: float, start: float, end: float) -> tuple[float, float]:
    """Return how far along a leg its part between two stations begins and ends."""
    if x1 <= x0:
        return 0.0, 1.0
    return (start - x0) / (x1 - x0), (end - x0) / (x1 - x0)
