"""The ground along the run: levels, surfaces, and which part is the right-of-way."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.study.curb import at_the_curb, curb_heights

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.model.job import Job
    from permitkit.study.water.line import Line

__all__ = ["Ground", "Stretch", "lay_ground", "street_side"]

TOUCH_M = 1e-4


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of one surface along the run; the last has no end."""

    surface: str
    low_m: float
    high_m: float


@dataclass(frozen=True, slots=True)
class Ground:
    """The ground along the run, by station from the curb face.

    `row_m` is the station of the right-of-way line; below zero where the whole run lies on the
    lot. `walk_m` holds the stations of the walk's two edges, None where the run does not cross it.
    """

    points: tuple[tuple[float, float], ...]
    stretches: tuple[Stretch, ...]
    row_m: float
    walk_m: tuple[float, float] | None
    curb_depth_m: float

    def level_m(self, station_m: float) -> float:
        """Return the ground's level at a station, on a straight line between what was measured."""
        at = bisect_left(self.points, (station_m, float("-inf")))
        if at == 0:
            return self.points[0][1]
        if at == len(self.points):
            return self.points[-1][1]
        (s1, z1), (s2, z2) = self.points[at - 1], self.points[at]
        return z2 if s2 <= s1 else z1 + (z2 - z1) * (station_m - s1) / (s2 - s1)

    def surfaces(self, low_m: float, high_m: float, own: str) -> tuple[str, ...]:
        """Return the surfaces over a reach, from the street up; behind the walk its own."""
        over = [
            stretch.surface
            for stretch in self.stretches
            if stretch.low_m < high_m - TOUCH_M and stretch.high_m > low_m + TOUCH_M
        ]
        behind = not self.stretches or high_m > self.stretches[-1].high_m + TOUCH_M
        return tuple(dict.fromkeys([*over, own] if behind or own not in over else over))

    def places(self, low_m: float, high_m: float) -> tuple[str, ...]:
        """Return whether a reach lies in the right-of-way, behind it, or in both."""
        return tuple(
            place
            for place, holds in (
                ("right-of-way", low_m < self.row_m - TOUCH_M),
                ("private", high_m > self.row_m + TOUCH_M),
            )
            if holds
        )


def street_side(job: Job) -> tuple[Stretch, ...]:
    """Return the curb, verge and walk along the run, from the curb face."""
    curb = curb_heights(job).depth_m
    verge = curb + float(job.verge.width)
    walk = verge + float(job.walk.width)
    stretches = [Stretch("curb", 0.0, curb), Stretch(job.verge.surface, curb, verge)]
    stretches.append(Stretch("walk", verge, walk))
    if job.walk.use == "driveway":
        stretches.append(Stretch("drive", verge, walk))
    return tuple(stretch for stretch in stretches if stretch.high_m > stretch.low_m)


def lay_ground(job: Job, line: Line) -> Ground:
    """Return the ground along the trunk of the run.

    Notes
    -----
    Measured are the curb top, both walk edges, the ground at each node and what else the job
    gives; where the job gives a level twice, the ground point counts before the node's.
    """
    side = street_side(job)
    row = float(job.site.row_line_offset)
    levels = dict(_node_levels(line))
    if at_the_curb(job):
        levels.update(_street_levels(job, side))
        levels.update((_at(float(point.at)), float(point.level)) for point in job.ground)
        walk = next((s.low_m, s.high_m) for s in side if s.surface == "walk")
        crosses = max(line.stations_m.values()) > walk[0]
        depth = curb_heights(job).depth_m
        return Ground(tuple(sorted(levels.items())), side, row, walk if crosses else None, depth)
    face = row + float(job.outlet.emitter.to_row) if job.outlet.emitter else row
    behind = ((_at(float(p.at) - face), float(p.level)) for p in job.ground if float(p.at) >= face)
    levels.update(behind)
    return Ground(tuple(sorted(levels.items())), (), row - face, None, 0.0)


def _node_levels(line: Line) -> Sequence[tuple[float, float]]:
    """Return station and ground of every node on the trunk."""
    ground = {node.name: node.ground_m for node in line.tree.nodes}
    return [(_at(line.stations_m[name]), ground[name]) for name in line.trunk]


def _street_levels(job: Job, side: Sequence[Stretch]) -> dict[float, float]:
    """Return the levels of the curb and the walk by station."""
    heights = curb_heights(job)
    rolled = job.curb.shape in {"rolled", "half-round"}
    back = job.verge.level_curb_side
    levels = {
        0.0: heights.flow_line_m if rolled else heights.top_m,
        _at(heights.depth_m): heights.top_m if back is None else float(back),
    }
    for low, high in ((s.low_m, s.high_m) for s in side if s.surface == "walk"):
        levels[_at(low)] = float(job.walk.level_curb_side)
        levels[_at(high)] = float(job.walk.level_house_side)
    return levels


def _at(station_m: float) -> float:
    """Return a station to the micrometre, so that sums that differ by noise are one point."""
    return round(station_m, 6)
