"""The ground along the run: levels, surfaces, and which part is the right-of-way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.geometry.section_walk import level_at
from permitkit.study.curb import CurbHeights, at_the_curb

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.model.job import Job
    from permitkit.study.water.line import Line

__all__ = ["Ground", "Stretch", "lay_ground"]

TOUCH_M = 1e-4
BEHIND_NONE = ("curb", "verge", "walk")


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
        return level_at(self.points, station_m)

    def surfaces(self, low_m: float, high_m: float, own: str) -> tuple[str, ...]:
        """Return the surfaces over a reach, from the street up.

        Between curb and walk they are those measured, and the reach's own where that is another
        kind; behind the walk it is the reach's own.
        """
        over = [
            stretch.surface
            for stretch in self.stretches
            if stretch.low_m < high_m - TOUCH_M and stretch.high_m > low_m + TOUCH_M
        ]
        behind = high_m > self._side_m + TOUCH_M
        if behind or own not in {*BEHIND_NONE, "lawn"}:
            over.append(self.behind(own))
        return tuple(dict.fromkeys(over))

    def surface(self, station_m: float, own: str) -> str:
        """Return the surface at one station: the street side's, or behind it the reach's own."""
        on = (s.surface for s in self.stretches if s.low_m - TOUCH_M <= station_m < s.high_m)
        return next(on, self.behind(own))

    @staticmethod
    def behind(own: str) -> str:
        """Return a reach's own surface behind the walk: lawn, if it was named for the street."""
        return "lawn" if own in BEHIND_NONE else own

    @property
    def _side_m(self) -> float:
        return max((stretch.high_m for stretch in self.stretches), default=float("-inf"))

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


def _street_side(job: Job, curb_m: float) -> tuple[Stretch, ...]:
    """Return the curb, verge and walk along the run, from the curb face."""
    verge = curb_m + float(job.verge.width)
    walk = verge + float(job.walk.width)
    stretches = [Stretch("curb", 0.0, curb_m), Stretch(job.verge.surface, curb_m, verge)]
    stretches.append(Stretch("walk", verge, walk))
    if job.walk.use == "driveway":
        stretches.append(Stretch("drive", verge, walk))
    return tuple(stretch for stretch in stretches if stretch.high_m > stretch.low_m)


def lay_ground(job: Job, heights: CurbHeights, line: Line) -> Ground:
    """Return the ground along the trunk of the run.

    Notes
    -----
    Measured are the curb top, both walk edges, the ground at each node and what else the job
    gives; where the job gives a level twice, the ground point counts before the node's.
    """
    side = _street_side(job, heights.depth_m)
    row = float(job.site.row_line_offset)
    levels = dict(_node_levels(line))
    if at_the_curb(job):
        levels.update(_street_levels(job, heights, side))
        levels.update((_at(float(point.at)), float(point.level)) for point in job.ground)
        walk = next(((s.low_m, s.high_m) for s in side if s.surface == "walk"), None)
        crosses = walk is not None and max(line.stations_m.values()) > walk[0]
        points = tuple(sorted(levels.items()))
        return Ground(points, side, row, walk if crosses else None, heights.depth_m)
    face = row + float(job.outlet.emitter.to_row) if job.outlet.emitter else row
    behind = ((_at(float(p.at) - face), float(p.level)) for p in job.ground if float(p.at) >= face)
    levels.update(behind)
    return Ground(tuple(sorted(levels.items())), (), row - face, None, 0.0)


def _node_levels(line: Line) -> Sequence[tuple[float, float]]:
    """Return station and ground of every node on the trunk."""
    ground = {node.name: node.ground_m for node in line.tree.nodes}
    return [(_at(line.stations_m[name]), ground[name]) for name in line.trunk]


def _street_levels(job: Job, heights: CurbHeights, side: Sequence[Stretch]) -> dict[float, float]:
    """Return the levels of the curb and the walk by station."""
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
