"""The ground of the site sketch in metres: stations to the right, offsets from the curb face up."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Box, Point
from permitkit.geometry.span import Joints, Span
from permitkit.model.job import Job
from permitkit.study.curb import at_the_curb
from permitkit.study.results import ReachWater, Study

if TYPE_CHECKING:
    from permitkit.model.site import Feature

__all__ = ["OUTLET", "Lot", "Reached", "lot_of", "middle"]

OUTLET = "outlet"
_SAME_M = 1e-6


@dataclass(frozen=True, slots=True)
class Reached:
    """One reach on the plan: its ends, upstream first, and whether they were measured."""

    reach: ReachWater
    path: tuple[Point, Point]
    taped: bool

    @property
    def drawn_m(self) -> float:
        """Return the length between its ends on the plan, in m."""
        return math.dist(*self.path)


@dataclass(frozen=True, slots=True)
class Lot:
    """Where everything lies.

    Parameters
    ----------
    job, study
        What it was read from.
    curb_back_m, walk_front_m, walk_back_m, row_m
        Offsets from the curb face: back of the curb, both edges of the walk, the right-of-way line.
    pan_m
        How far the gutter pan reaches into the street; none means 0.
    outlet
        Where the water is let go.
    nodes
        Where each node lies.
    reaches
        The run on the plan.
    """

    job: Job
    study: Study
    curb_back_m: float
    walk_front_m: float
    walk_back_m: float
    row_m: float
    pan_m: float
    outlet: Point
    nodes: Mapping[str, Point]
    reaches: tuple[Reached, ...]

    @property
    def frontage_m(self) -> float:
        """Return the length of the frontage."""
        return float(self.job.site.frontage)

    @property
    def at_curb(self) -> bool:
        """Return whether the water is let go at the curb."""
        return at_the_curb(self.job)

    @property
    def half_opening_m(self) -> float:
        """Return half the width of what is opened in the curb, over all holes."""
        return self.study.curb.half_opening_m if self.study.curb and self.at_curb else 0.0

    @property
    def half_hole_m(self) -> float:
        """Return half the width of one hole or notch."""
        curb = self.study.curb
        if curb and curb.hole:
            return curb.hole.bit_m / 2
        return curb.notch.width_m / 2 if curb and curb.notch else 0.0

    @property
    def holes_m(self) -> tuple[float, ...]:
        """Return the stations of the holes."""
        return self.study.curb.stations_m if self.study.curb else (self.outlet[0],)

    @property
    def curb_joints_m(self) -> tuple[float, ...]:
        """Return the stations of the curb joints known, those at an even spacing within reach."""
        measured = self.study.curb.joints_m if self.study.curb else ()
        pitch = float(self.job.curb.joint_spacing or 0)
        if not pitch or not measured:
            return tuple(sorted(measured))
        even = Joints(measured[0], pitch).within(Span(0.0, self.frontage_m))
        kept = {round(station, 4): station for station in (*even, *measured)}
        return tuple(sorted(kept.values()))

    @property
    def house(self) -> Box | None:
        """Return the house as far as it is known; its back stands open where no depth is given."""
        house = self.job.site.house
        if house is None:
            return None
        front = float(house.front_offset)
        depth = float(house.depth) if house.depth else 3.0
        return Box(float(house.left), front, float(house.right), front + depth)

    def on_run(self, from_curb_m: float) -> Point:
        """Return the point of the run at an offset from the curb face."""
        for reached in self.reaches:
            high, low = reached.path
            if low[1] - _SAME_M <= from_curb_m <= high[1] + _SAME_M and high[1] > low[1]:
                share = (from_curb_m - low[1]) / (high[1] - low[1])
                return low[0] + share * (high[0] - low[0]), from_curb_m
        return self.outlet[0], from_curb_m

    def edges_of(self, feature: Feature) -> tuple[float, float]:
        """Return the stations of a feature's edges, flares included; a point has two alike."""
        near = float(feature.near)
        far = float(feature.far) if feature.far else near
        return min(near, far), max(near, far)


def middle(path: tuple[Point, Point]) -> Point:
    """Return the point half way."""
    (x0, y0), (x1, y1) = path
    return (x0 + x1) / 2, (y0 + y1) / 2


def lot_of(job: Job, study: Study) -> Lot:
    """Return where everything lies on the plan, from the job's stations and offsets."""
    back = float(job.curb.roll_width or job.curb.top_width) if job.curb.shape != "none" else 0.0
    front = back + float(job.verge.width)
    outlet = _outlet(job)
    nodes = _nodes(job, study, outlet)
    return Lot(
        job,
        study,
        curb_back_m=back,
        walk_front_m=front,
        walk_back_m=front + float(job.walk.width),
        row_m=float(job.site.row_line_offset),
        pan_m=float(job.gutter.pan_width) if job.gutter.pan_width else 0.0,
        outlet=outlet,
        nodes=nodes,
        reaches=tuple(_reached(job, reach, nodes) for reach in study.water.reaches),
    )


def _outlet(job: Job) -> Point:
    """Return where the water is let go: at the curb face, or at the emitter in the lawn."""
    station = float(job.outlet.station)
    if at_the_curb(job):
        return station, 0.0
    placed = next((node for node in job.drain.node if node.name == OUTLET), None)
    if placed and placed.station is not None and placed.offset is not None:
        return float(placed.station), float(placed.offset)
    emitter = job.outlet.emitter
    behind = float(emitter.to_row) if emitter else 0.0
    return station, float(job.site.row_line_offset) + behind


def _nodes(job: Job, study: Study, outlet: Point) -> dict[str, Point]:
    """Return where each node lies: as taped, else straight back from the outlet by its station."""
    along = {node.name: node.station_m for node in study.water.nodes}
    places = {
        node.name: (float(node.station), float(node.offset))
        if node.station is not None and node.offset is not None
        else (outlet[0], outlet[1] + along.get(node.name, 0.0))
        for node in job.drain.node
    }
    return {**places, OUTLET: outlet}


def _reached(job: Job, reach: ReachWater, nodes: Mapping[str, Point]) -> Reached:
    """Return one reach on the plan; the last ends where its pipe does, behind a notch."""
    taped = {node.name for node in job.drain.node if node.station is not None} | {OUTLET}
    x, y = nodes[reach.lower]
    low = (x, y + reach.station_low_m) if reach.lower == OUTLET else (x, y)
    return Reached(reach, (nodes[reach.upper], low), reach.upper in taped and reach.lower in taped)
