"""The ground over the run, by station and level, as the study holds it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.shapes import Point
from permitkit.geometry.section_walk import level_at
from permitkit.model.drain import OUTLET

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.job import Job
    from permitkit.study.results import CurbStudy, NodeWater, Study

__all__ = ["GroundLine", "Stretch", "ground_line", "trunk_nodes"]

_ROLLED = frozenset({"rolled", "half-round"})


class Stretch(NamedTuple):
    """A stretch of one surface along the run, stations from and to, in m."""

    surface: str
    low_m: float
    high_m: float


@dataclass(frozen=True, slots=True)
class GroundLine:
    """The ground along the trunk.

    Parameters
    ----------
    points
        Station and level, in rising order. [m]
    stretches
        Curb, verge and walk, from the curb face on.
    row_m
        The station of the right-of-way line; below zero where the whole run lies on the lot. [m]
    """

    points: tuple[Point, ...]
    stretches: tuple[Stretch, ...]
    row_m: float

    @property
    def walk_m(self) -> tuple[float, float] | None:
        """Return the stations of the walk's two edges, None where the run does not come to it."""
        found = (s for s in self.stretches if s.surface == "walk")
        return next(((s.low_m, s.high_m) for s in found if s.low_m < self.points[-1][0]), None)

    def level_m(self, station_m: float) -> float:
        """Return the ground's level at a station, on a straight line between what is known."""
        return level_at(self.points, station_m)


def trunk_nodes(study: Study) -> tuple[NodeWater, ...]:
    """Return the nodes of the longest way to the outlet, the outlet first."""
    nodes = {node.name: node for node in study.water.nodes}
    lower = {reach.upper: reach.lower for reach in study.water.reaches}
    name = max(nodes.values(), key=lambda node: (node.station_m, node.name)).name
    trunk = [nodes[name]]
    while name != OUTLET:
        name = lower[name]
        trunk.append(nodes[name])
    return tuple(reversed(trunk))


def ground_line(job: Job, study: Study, trunk: tuple[NodeWater, ...]) -> GroundLine:
    """Return the ground over the trunk: at nodes, at changes of surface, and where it was shot."""
    levels = dict(_levels(study, trunk))
    if study.curb:
        levels.update(_curb_levels(study.curb))
        row = float(job.site.row_line_offset)
        return GroundLine(tuple(sorted(levels.items())), _stretches(job, study.curb), row)
    emitter = job.outlet.emitter
    row = -float(emitter.to_row) if emitter else 0.0
    levels.update(_shot_in_front(job, row))
    return GroundLine(tuple(sorted(levels.items())), (), row)


def _shot_in_front(job: Job, row_m: float) -> Iterator[Point]:
    """Yield the ground shot on the lot in front of an outlet there, from which stations run."""
    outlet = float(job.site.row_line_offset) - row_m
    shot = ((_at(float(point.at) - outlet), float(point.level)) for point in job.ground)
    yield from ((station, level) for station, level in shot if row_m <= station < 0.0)


def _levels(study: Study, trunk: tuple[NodeWater, ...]) -> Iterator[Point]:
    """Yield station and ground level of all that the study knows along the trunk."""
    names = {node.name for node in trunk}
    off = {node.name for node in study.water.nodes} - names
    yield from ((_at(node.station_m), node.ground_m) for node in trunk)
    yield from ((_at(p.station_m), p.ground_m) for p in study.cut.cover if p.where not in off)
    yield from ((_at(edge.station_m), edge.surface_m) for edge in study.cut.slab)


def _curb_levels(curb: CurbStudy) -> dict[float, float]:
    """Return the levels of the curb at its face."""
    top = curb.curb_top_m
    return {0.0: curb.flow_line_m if curb.shape in _ROLLED else top, _at(curb.width_m): top}


def _stretches(job: Job, curb: CurbStudy) -> tuple[Stretch, ...]:
    """Return the curb, verge and walk along the run."""
    verge = curb.width_m + float(job.verge.width)
    walk = verge + float(job.walk.width)
    found = (
        Stretch("curb", 0.0, curb.width_m),
        Stretch(job.verge.surface, curb.width_m, verge),
        Stretch("walk", verge, walk),
    )
    return tuple(stretch for stretch in found if stretch.high_m > stretch.low_m)


def _at(station_m: float) -> float:
    """Return a station to the micrometre, so that sums that differ by noise are one point."""
    return round(station_m, 6)
