"""Nodes of a profile: risers, openings with spare height, cleanouts, what flows in, laterals."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.dimensions import Arrow, arrowhead
from permitkit.drawing.info import held, starred
from permitkit.drawing.placing import Side
from permitkit.drawing.profile.course import spare_m, worst_water_m
from permitkit.drawing.shapes import (
    Box,
    Circle,
    Fill,
    Hatch,
    Line,
    Pattern,
    Polygon,
    Polyline,
    Role,
)
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.symbols import break_line
from permitkit.model.drain import OUTLET

if TYPE_CHECKING:
    from permitkit.drawing.profile.course import Course, Lateral
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.model.drain import Emitter, Inflow
    from permitkit.study.results import InflowWater, NodeWater

__all__ = ["inflows", "laterals", "opening_words", "outlet", "risers"]

_CAP_MM = 1.6
_ASIDE_MM = 2.6
_SPARE_MM = 2.6
_FLOOR_MM = 2.5
_ARROW_MM = 7.0
_SIDEWAYS = (Side.NW, Side.W, Side.NE, Side.E, Side.SW, Side.SE)


def risers(course: Course, strip: Strip) -> Part:
    """Return every node of the trunk: its riser, its opening, and the height to spare there."""
    seen = (node for node in course.trunk if strip.shows(node.station_m))
    return joined(*(_riser(course, strip, node) for node in seen if node.name != OUTLET))


def _riser(course: Course, strip: Strip, node: NodeWater) -> Part:
    """Return one node."""
    given = course.given.get(node.name)
    cleanout = bool(given and given.cleanout)
    bore = next(r.pipe.bore_height_m for r in course.reaches if r.upper == node.name)
    foot = strip.at(node.station_m, node.invert_m + bore)
    if node.opening_m is None:
        if not cleanout:
            return Part()
        head = strip.at(node.station_m, node.ground_m)
        words = "cleanout, capped" if given and given.sealed else "cleanout"
        note = strip.note(words, (node.station_m, node.ground_m), priority=2, prefer=_SIDEWAYS)
        note = () if course.dense else note
        return Part((Line(foot, head, Role.EXISTING), _cap(strip, head, Role.PROPOSED)), note)
    head = strip.at(node.station_m, node.opening_m)
    words = opening_words(course, node) + (", cleanout" if cleanout else "")
    told = not course.dense or node.name == course.tightest
    tip = (node.station_m, node.opening_m)
    note = strip.note(words, tip, priority=4, prefer=_SIDEWAYS) if told else ()
    shapes = (
        Line(foot, head, Role.EXISTING),
        _cap(strip, head, Role.EXISTING),
        *_spare(strip, node, node.opening_m),
    )
    return Part(shapes, note)


def _cap(strip: Strip, at: Point, role: Role) -> Line:
    """Return the short level line that closes a riser or marks an opening."""
    return _level(strip, at, (_CAP_MM, _CAP_MM), role)


def _level(strip: Strip, at: Point, reach_mm: tuple[float, float], role: Role) -> Line:
    """Return a short level line through a point, so far to both sides, cut off at the plot."""
    left, right = at[0] - reach_mm[0], at[0] + reach_mm[1]
    edge = max(strip.plot.right, at[0])
    return Line((left, at[1]), (min(right, edge), at[1]), role)


def _spare(strip: Strip, node: NodeWater, opening_m: float) -> tuple[Shape, ...]:
    """Return the highest water at a node, and an arrow from it to the opening."""
    x, water = strip.at(node.station_m, worst_water_m(node))
    _, opening = strip.at(node.station_m, opening_m)
    level = _level(strip, (x, water), (2 * _SPARE_MM, _SPARE_MM), Role.WATER)
    if abs(opening - water) < _SPARE_MM:
        return (level,)
    aside = x - _SPARE_MM
    shaft = Line((aside, water), (aside, opening), Role.DIMENSION)
    up = 90.0 if opening > water else -90.0
    heads = (
        arrowhead((aside, opening), up, Role.DIMENSION),
        arrowhead((aside, water), -up, Role.DIMENSION),
    )
    return level, shaft, *heads


def opening_words(course: Course, node: NodeWater) -> str:
    """Return an opening in words: what it is, its level, the height to spare over the water."""
    spare, level = spare_m(node), node.opening_m
    if spare is None or level is None:
        return "sealed"
    kind = node.opening_kind or "opening"
    assumed = starred(course.figures.at_level(level), course.job, "drain.node.opening")
    write = course.figures.height
    tell = f"spare {write(spare)}" if spare >= 0.0 else f"water {write(-spare)} above it"
    return f"{kind} {assumed}, {tell}"


def inflows(course: Course, strip: Strip) -> Part:
    """Return an arrow for each node at which water comes in, with what it is and how much."""
    return joined(*(_entering(course, strip, node) for node in course.trunk))


def _entering(course: Course, strip: Strip, node: NodeWater) -> Part:
    """Return what comes in at one node."""
    given = {inflow.name: inflow for inflow in course.job.drain.inflow}
    coming = [inflow for inflow in course.study.water.inflows if inflow.node == node.name]
    if not coming or not strip.shows(node.station_m):
        return Part()
    level = max(node.ground_m, node.opening_m or node.ground_m)
    x, y = strip.at(node.station_m, level)
    aside = x + _ASIDE_MM if x + 2 * _ASIDE_MM < strip.plot.right else x - 2 * _ASIDE_MM
    tail, tip = (aside, y + _ARROW_MM + 0.6), (aside, y + 0.6)
    shapes: list[Shape] = [Arrow(tail, tip, Role.WATER)]
    if any(inflow.pump_m3s for inflow in coming):
        shapes.append(_funnel(tail))
    words = "; ".join(inflow_words(course, inflow, given.get(inflow.name)) for inflow in coming)
    return Part(
        tuple(shapes), (Note(held(words), tail, prefer=_SIDEWAYS, priority=3, wrap_mm=40.0),)
    )


def _funnel(at: Point) -> Polyline:
    """Return the funnel of an air gap, its lowest point over the arrow."""
    x, y = at
    return Polyline(((x - 1.6, y + 2.6), (x, y + 0.6), (x + 1.6, y + 2.6)), Role.PROPOSED)


def inflow_words(course: Course, water: InflowWater, given: Inflow | None) -> str:
    """Return an inflow in words: its name, area, flow, and what a pump is fitted with."""
    write = course.figures
    area = f" {write.area(water.area_m2)}" if water.area_m2 else ""
    words = f"{water.name}{area}, {write.flow(water.flow_m3s)}"
    if given is None or given.pump is None:
        return words
    pump = given.pump
    return (
        f"{words}, {_fitted('air gap', pump.air_gap)}, {_fitted('check valve', pump.check_valve)}"
    )


def _fitted(thing: str, answer: str) -> str:
    """Return whether something is fitted, in words."""
    return {"yes": thing, "no": f"no {thing}"}.get(answer, f"{thing} not known")


def laterals(course: Course, strip: Strip) -> Part:
    """Return a ring at each node where a branch comes in, with its pipes and flow."""
    return joined(*(_lateral(course, strip, lateral) for lateral in course.laterals))


def _lateral(course: Course, strip: Strip, lateral: Lateral) -> Part:
    """Return one branch, seen end on."""
    first = lateral.reaches[0]
    bore = first.pipe.bore_height_m
    station = lateral.junction.station_m
    if not strip.shows(station):
        return Part()
    centre = strip.at(station, first.lower_invert_m + bore / 2)
    ring = Circle(centre, max(strip.high_mm(bore) / 2, 1.0), Role.PROPOSED, Fill.WHITE)
    names = ", ".join(reach.upper for reach in lateral.reaches)
    length = sum(reach.length_m for reach in lateral.reaches)
    write = course.figures
    words = (
        f"lateral from {names}: {write.distance(length)} of {first.pipe.name}, "
        f"{write.flow(first.flow_m3s)}"
    )
    tip = (station, first.lower_invert_m + bore / 2)
    return Part((ring,), strip.note(words, tip, priority=2, prefer=(Side.SE, Side.SW, Side.S)))


def outlet(course: Course, strip: Strip) -> Part:
    """Return the end of the run where it is not the curb: an emitter with its pit, or another."""
    node = course.trunk[0]
    if course.curb or not strip.shows(node.station_m):
        return Part()
    emitter = course.job.outlet.emitter
    if emitter is None:
        tip = (node.station_m, node.invert_m)
        return Part(notes=strip.note(course.job.outlet.kind, tip, priority=5))
    return _emitter(course, strip, node, emitter)


def _emitter(course: Course, strip: Strip, node: NodeWater, emitter: Emitter) -> Part:
    """Return an emitter: riser, lid, pit, and the water over its rim."""
    rim, study = float(emitter.rim), course.study.water.emitter
    head = strip.at(node.station_m, rim)
    shapes: list[Shape] = [*_pit(strip, node, emitter)]
    shapes.extend(_standpipe(course, strip, node, rim))
    shapes.append(_cap(strip, head, Role.PROPOSED))
    write = course.figures
    words = f"{emitter.lid_loss} emitter, rim {write.at_level(rim)}"
    if emitter.pit_depth and emitter.pit_length:
        words += f", pit {emitter.pit_depth.shown()} deep"
    if study:
        words += f", water over it {write.at_level(study.water_level_m)} at design flow"
        x, y = strip.at(node.station_m, study.water_level_m)
        shapes.append(Line((x - 4.0, y), (x + 4.0, y), Role.WATER))
    return Part(
        tuple(shapes), strip.note(words, (node.station_m, rim), priority=5, prefer=_SIDEWAYS)
    )


def _standpipe(course: Course, strip: Strip, node: NodeWater, rim: float) -> tuple[Shape, ...]:
    """Return the upright pipe of an emitter, as wide as its bore is high on paper allows."""
    half = course.reaches[0].pipe.bore_height_m / 2
    x, foot = strip.at(node.station_m, node.invert_m)
    across = max(strip.view.scale.paper_mm(half), 0.9)
    top = strip.at(node.station_m, rim)[1]
    box = Box(x - across, foot, x + across, top)
    return (Polygon(box.corners, Role.PROPOSED, Fill.WHITE),)


def _pit(strip: Strip, node: NodeWater, emitter: Emitter) -> tuple[Shape, ...]:
    """Return the gravel pit under an emitter, if its size is given."""
    if emitter.pit_depth is None or emitter.pit_length is None:
        return ()
    half = float(emitter.pit_length) / 2
    left, top = strip.at(node.station_m - half, node.invert_m)
    right, foot = strip.at(node.station_m + half, node.invert_m - float(emitter.pit_depth))
    floor = strip.plot.bottom + _FLOOR_MM
    box = Box(left, max(foot, floor), right, top)
    edge: Shape = Polygon(box.corners, Role.PROPOSED)
    if foot < floor:
        edge = Polyline(
            (box.corners[0], box.corners[3], box.corners[2], box.corners[1]), Role.PROPOSED
        )
    hatch = Hatch(box.corners, Pattern.GRAVEL, density=1.5)
    return (hatch, edge, break_line(*box.corners[:2])) if foot < floor else (hatch, edge)
