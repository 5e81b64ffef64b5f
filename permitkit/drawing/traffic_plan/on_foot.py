"""People on foot: where the walk is closed, the way round, its edges, ramps and signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.dimensions import Arrow
from permitkit.drawing.info import held
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Box, Fill, Line, Polygon, Polyline, Role
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.traffic_plan.scene import FAR_WALK, LOT, WALK

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.traffic_plan.scene import Scene

__all__ = ["closed_stations_m", "on_foot"]

_BEYOND_MM = 5.0
_BARRICADE_MM = 1.6
_APPROACH_MM = 12.0
_HALF_WAY_MM = 2.2
_STRAIGHT_MM = 12.0


def closed_stations_m(scene: Scene) -> tuple[float, float] | None:
    """Return the stations between which walk is taken out and closed at least, if any is."""
    cut, station = scene.study.cut, float(scene.job.outlet.station)
    if cut.removed_right_m <= cut.removed_left_m:
        return None
    return station + cut.removed_left_m, station + cut.removed_right_m


def on_foot(scene: Scene) -> Part:
    """Return the barricades, the way round and the signs for people on foot."""
    if not scene.job.traffic.walk_closed:
        return Part()
    return joined(_barricades(scene), _way(scene))


def _ends(scene: Scene) -> tuple[float, float]:
    """Return where the barricades stand along the street."""
    return scene.work[0] - _BEYOND_MM, scene.work[1] + _BEYOND_MM


def _barricades(scene: Scene) -> Part:
    """Return a barricade across the walk at both ends, each with its sign."""
    walk = scene.strips[WALK]
    shapes = tuple(
        Polygon(
            Box(x - _BARRICADE_MM / 2, walk.bottom, x + _BARRICADE_MM / 2, walk.top).corners,
            Role.PROPOSED,
            Fill.SOLID,
        )
        for x in _ends(scene)
    )
    left, right = _ends(scene)
    ahead = scene.job.traffic.way_round
    before = " and before the place where people choose" if ahead and ahead.signs_ahead else ""
    words = f"barricade at both ends, \u201cSIDEWALK CLOSED\u201d{before}"
    note = Note(held(words), (right, walk.top), priority=4, wrap_mm=34.0, prefer=(Side.NE, Side.N))
    return Part(shapes, (note, *_from_to(scene, left)))


def _from_to(scene: Scene, left: float) -> tuple[Note, ...]:
    """Return the note that says from where to where the walk is closed."""
    stations, days = closed_stations_m(scene), scene.job.traffic.walk_closed_days
    words = f"walk closed {days} days" if days else "walk closed"
    if stations:
        low, high = (scene.figures.distance(at) for at in stations)
        words += f", at least from station {low} to {high}"
    tip = (left, scene.strips[WALK].top)
    return (Note(held(words), tip, priority=4, wrap_mm=40.0, prefer=(Side.NW, Side.N)),)


def _way(scene: Scene) -> Part:
    """Return the way round as a path with its width, its edges and its ramps."""
    way, given = scene.way, scene.job.traffic.way_round
    if way is None or given is None:
        tip = (scene.work[1], scene.strips[WALK].centre[1])
        return Part(notes=(Note("no way round is proposed", tip, bold=True, priority=7),))
    path = _path(scene, way.strip)
    shapes: list[Shape] = [
        Polyline(path, Role.SAW_CUT),
        Arrow(path[-2], path[-1], Role.SAW_CUT, 3.0),
        Arrow(path[1], path[0], Role.SAW_CUT, 3.0),
    ]
    if given.detectable:
        level = path[2][1]
        shapes.extend(
            Line((path[2][0], level + by), (path[3][0], level + by), Role.PROPOSED)
            for by in (-_HALF_WAY_MM, _HALF_WAY_MM)
        )
    words = f"way round {given.width.shown()} clear"
    words += ", edges a cane can follow" if given.detectable else ", edges not detectable"
    words += ", temporary ramps" if given.ramps and way.strip != LOT else ""
    middle = (path[3][0] + 5.0, path[2][1] - _HALF_WAY_MM)
    sides = (Side.N, Side.S) if way.strip == LOT else (Side.S, Side.SE, Side.SW)
    return Part(tuple(shapes), (Note(held(words), middle, priority=6, prefer=sides, wrap_mm=50.0),))


def _path(scene: Scene, strip: str) -> tuple[Point, ...]:
    """Return the path from the walk on the right to the walk on the left of the work."""
    left, right = _ends(scene)
    walk = scene.strips[WALK].centre[1]
    box = scene.strips[strip]
    level = box.bottom + 3.2 if strip == LOT else box.centre[1]
    off = 3.0 if strip == FAR_WALK else _APPROACH_MM
    return (
        (right + off + _STRAIGHT_MM, walk),
        (right + off, walk),
        (right + 2.0, level),
        (left - 2.0, level),
        (left - off, walk),
        (left - off - _STRAIGHT_MM, walk),
    )
