"""Section A-A along the pipe, through the walk: slab, base, pipe, bedding, backfill, edges."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.dimensions import Along, Dimension, on_tracks
from permitkit.drawing.info import held
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Box, Fill, Line, Pattern, Polygon, Role
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.symbols import flow_arrow, ground_marks
from permitkit.drawing.walk_cut.plan import TRACK_MM

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.drawing.walk_cut.crossing import Crossing

__all__ = ["along", "along_dimensions", "along_ground"]

_BESIDE_M = 0.2
_ABOVE_M, _BELOW_M = 0.03, 0.06
_OVER = (Side.N, Side.NE, Side.NW)
_UNDER = (Side.S, Side.SE, Side.SW)
_LEVEL_M = 1e-4


def along_ground(crossing: Crossing) -> Box:
    """Return what the section shows: stations and levels."""
    low = max(crossing.front.station_m - _BESIDE_M, min(crossing.curb_m, crossing.front.station_m))
    high = crossing.back.station_m + _BESIDE_M
    floor = min(crossing.trench_floor_m(low), crossing.trench_floor_m(high), _lowest(crossing))
    top = max(crossing.surface_m(low), crossing.surface_m(high), crossing.back.surface_m)
    return Box(low, floor - _BELOW_M, high, top + _ABOVE_M)


def _lowest(crossing: Crossing) -> float:
    """Return the lowest of base and encasement under the walk, as a level."""
    ends = (crossing.front, crossing.back)
    return min(end.underside_m - max(crossing.base_m, _jacket_m(crossing)) for end in ends)


def _jacket_m(crossing: Crossing) -> float:
    """Return how far below the slab its concrete reaches round the pipe, in m."""
    if not crossing.encased:
        return 0.0
    ends = (crossing.front, crossing.back)
    return max(end.underside_m - end.pipe_bottom_m + max(end.concrete_over_m, 0.0) for end in ends)


def along(crossing: Crossing, pane: Pane) -> Part:
    """Return the section along the pipe, with what is to be said about it."""
    return joined(
        _soil(crossing, pane),
        _base(crossing, pane),
        _slab(crossing, pane),
        _pipe(crossing, pane),
        _surface(crossing, pane),
        _edges(crossing, pane),
    )


def _stations(crossing: Crossing, pane: Pane) -> list[float]:
    """Return the stations at which a line over the section may bend."""
    low, high = pane.ground.left, pane.ground.right
    return [low, crossing.front.station_m, crossing.back.station_m, high]


def _surface_line(crossing: Crossing, pane: Pane) -> list[Point]:
    """Return the surface from edge to edge."""
    return [(s, crossing.surface_m(s)) for s in _stations(crossing, pane)]


def _soil(crossing: Crossing, pane: Pane) -> Part:
    """Return the trench filled again: bedding under the walk, backfill beside it."""
    if not crossing.opened:
        return Part(pane.hatched(_trenched(crossing, pane), Pattern.EARTH))
    low, front, back, high = _stations(crossing, pane)
    shapes: list[Shape] = []
    for start, end in ((low, front), (back, high)):
        if end > start:
            region = _between(crossing, start, end)
            shapes.extend(pane.hatched(region, Pattern.EARTH, 1.2))
    under = [*_under_slab(crossing, crossing.base_m), *_floor(crossing, front, back)[::-1]]
    shapes.extend(pane.hatched(under, Pattern.SAND, 1.2))
    line = tuple(pane.at(*point) for point in _floor(crossing, low, high))
    shapes.extend((Line(line[0], line[1], Role.PROPOSED_DIG), *ground_marks(line)))
    return Part(tuple(shapes), _filling(crossing, pane))


def _trenched(crossing: Crossing, pane: Pane) -> list[Point]:
    """Return all of the ground in the section, from the surface to the floor."""
    low, high = pane.ground.left, pane.ground.right
    return [*_surface_line(crossing, pane), *_floor(crossing, low, high)[::-1]]


def _floor(crossing: Crossing, low: float, high: float) -> list[Point]:
    """Return the trench's floor between two stations."""
    return [(s, crossing.trench_floor_m(s)) for s in (low, high)]


def _between(crossing: Crossing, low: float, high: float) -> list[Point]:
    """Return the ground between two stations, from the surface to the floor."""
    surface = [(s, crossing.surface_m(s)) for s in (low, high)]
    return [*surface, *_floor(crossing, low, high)[::-1]]


def _under_slab(crossing: Crossing, below_m: float) -> list[Point]:
    """Return the line so far below the slab's underside."""
    return [(end.station_m, end.underside_m - below_m) for end in (crossing.front, crossing.back)]


def _filling(crossing: Crossing, pane: Pane) -> tuple[Note, ...]:
    """Return what the trench is filled with, in words."""
    bed = (crossing.middle_m, crossing.trench_floor_m(crossing.middle_m) + 0.02)
    beside = pane.ground.right - 0.05
    inside = (beside, _midway_over_pipe(crossing, beside))
    return (
        *pane.note("bedding", bed, dot=True, prefer=_UNDER),
        *pane.note("backfill, compacted", inside, dot=True, prefer=_OVER, wrap_mm=24.0),
    )


def _midway_over_pipe(crossing: Crossing, station: float) -> float:
    """Return the level midway in the ground over the pipe, or under it where there is more."""
    bottom, top = crossing.pipe_m(station)
    over, under = crossing.surface_m(station) - top, bottom - crossing.trench_floor_m(station)
    return top + over / 2 if over >= under else bottom - under / 2


def _base(crossing: Crossing, pane: Pane) -> Part:
    """Return the base under the new walk."""
    if not crossing.opened or not crossing.base_m:
        return Part()
    region = [*_under_slab(crossing, 0.0), *_under_slab(crossing, crossing.base_m)[::-1]]
    material = crossing.job.restoration.base_material or "base"
    words = f"{material}, {crossing.figures.height(crossing.base_m)}"
    station = crossing.front.station_m + 0.9 * crossing.width_m
    level = _slab_level(crossing, station) - 0.85 * crossing.base_m
    return Part(
        (*pane.area(region, Role.PROPOSED), *pane.hatched(region, Pattern.GRAVEL)),
        pane.note(words, (station, level), dot=True, priority=3, prefer=_UNDER),
    )


def _slab_level(crossing: Crossing, station: float) -> float:
    """Return the level of the slab's underside at a station."""
    share = (station - crossing.front.station_m) / crossing.width_m
    return crossing.front.underside_m + share * (
        crossing.back.underside_m - crossing.front.underside_m
    )


def _slab(crossing: Crossing, pane: Pane) -> Part:
    """Return the slab, and its concrete round the pipe where it is encased or thickened."""
    front, back = crossing.front, crossing.back
    below = _jacket_m(crossing)
    region = [
        (front.station_m, front.surface_m),
        (back.station_m, back.surface_m),
        *_under_slab(crossing, below)[::-1],
    ]
    role = Role.PROPOSED if crossing.opened else Role.EXISTING
    shapes = (*pane.area(region, role, Fill.WHITE), *pane.hatched(region, Pattern.CONCRETE, 1.5))
    state = "new" if crossing.opened else "existing, kept"
    words = f"{crossing.job.walk.surface} walk, {state}, {crossing.figures.height(crossing.slab_m)}"
    if crossing.encased:
        words += f", {crossing.job.cut.slab_at_pipe} at the pipe"
    station = front.station_m + 0.35 * crossing.width_m
    tip = (station, _slab_level(crossing, station) + 0.85 * crossing.slab_m)
    return Part(shapes, pane.note(words, tip, dot=True, priority=5, prefer=_OVER))


def _pipe(crossing: Crossing, pane: Pane) -> Part:
    """Return the pipe cut along its axis: its outside, and its bore."""
    low = max(pane.ground.left, crossing.reach.station_low_m)
    high = min(pane.ground.right, crossing.reach.station_high_m)
    wall = crossing.reach.pipe.wall_m
    bottoms, tops = zip(*(crossing.pipe_m(s) for s in (low, high)), strict=True)
    outside = [(low, bottoms[0]), (high, bottoms[1]), (high, tops[1]), (low, tops[0])]
    shapes: list[Shape] = [
        Polygon(pane.view.points(outside), Role.PIPE, Fill.WHITE, outlined=False)
    ]
    for ends in (bottoms, tops):
        shapes.extend(pane.line((low, ends[0]), (high, ends[1]), Role.PIPE))
    for ends, by in ((bottoms, wall), (tops, -wall)):
        shapes.extend(pane.line((low, ends[0] + by), (high, ends[1] + by), Role.EXISTING))
    middle = (low + high) / 2
    centre = sum(crossing.pipe_m(middle)) / 2
    shapes.append(flow_arrow(pane.at(middle, centre), 180.0, 6.0))
    write, pipe = crossing.figures, crossing.reach.pipe
    words = f"{pipe.name}, {write.height(pipe.outside_height_m)} outside, at " + write.slope(
        crossing.reach.slope
    )
    tip, *also = (
        (crossing.front.station_m + share * crossing.width_m, edge)
        for share in (0.2, 0.8)
        for edge in crossing.pipe_m(crossing.front.station_m + share * crossing.width_m)
    )
    notes = pane.or_by(pane.note(words, tip, priority=5, prefer=_UNDER), also)
    return Part(tuple(shapes), notes)


def _surface(crossing: Crossing, pane: Pane) -> Part:
    """Return the ground beside the walk, and the fall of the walk across."""
    low, front, back, high = _stations(crossing, pane)
    shapes: list[Shape] = []
    for start, end in ((low, front), (back, high)):
        ends = ((start, crossing.surface_m(start)), (end, crossing.surface_m(end)))
        shapes.extend(pane.line(*ends, Role.GROUND))
    down = 180.0 if crossing.back.surface_m >= crossing.front.surface_m else 0.0
    station = crossing.front.station_m + 0.75 * crossing.width_m
    rise = crossing.back.surface_m - crossing.front.surface_m
    x, y = pane.at(station, crossing.front.surface_m + 0.75 * rise)
    shapes.append(flow_arrow((x, y + 2.2), down, 9.0, Role.DIMENSION))
    slope = crossing.job.restoration.cross_slope if crossing.opened else None
    walk = crossing.job.walk.cross_slope
    words = f"cross fall {slope.shown()}" if slope else f"cross fall {walk.shown()}, as it is"
    note = Note(held(words), (x, y + 2.2), prefer=_OVER, priority=6)
    return Part(tuple(shapes), (note,))


def _edges(crossing: Crossing, pane: Pane) -> Part:
    """Return how the edges of the walk meet the ground beside them."""
    if not crossing.opened:
        return Part()
    lip = crossing.job.restoration.lip
    if lip is None:
        return Part()
    flush = f"edges {lip.shown()} high" if lip.si else "edges flush"
    beside: str = crossing.job.verge.surface
    if crossing.front.station_m - crossing.curb_m <= _LEVEL_M:
        beside = "curb, joint filler"
    words = f"{flush}: {beside} and lawn"
    tip = (crossing.front.station_m, crossing.front.surface_m)
    return Part(notes=pane.note(words, tip, priority=2, wrap_mm=32.0))


def along_dimensions(crossing: Crossing, pane: Pane) -> tuple[Dimension, ...]:
    """Return thicknesses at both edges of the walk, and its width under the section."""
    left, right = pane.at(pane.ground.left, 0.0)[0], pane.at(pane.ground.right, 0.0)[0]
    foot = pane.at(0.0, pane.ground.bottom)[1]
    ends = ((crossing.front.station_m, _bottom(pane)), (crossing.back.station_m, _bottom(pane)))
    width = Dimension(
        pane.at(*ends[0]),
        pane.at(*ends[1]),
        0.0,
        crossing.figures.distance(crossing.width_m),
        crossing.width_m,
        Along.HORIZONTAL,
    )
    return (
        *on_tracks(tuple(_upright(crossing, pane, 0)), left - 4.0, -TRACK_MM),
        *on_tracks(tuple(_upright(crossing, pane, 1)), right + 4.0, TRACK_MM),
        *on_tracks((width,), foot - 4.0, -TRACK_MM),
    )


def _bottom(pane: Pane) -> float:
    return pane.ground.bottom + 0.01


def _upright(crossing: Crossing, pane: Pane, side: int) -> list[Dimension]:
    """Return the heights at one edge: slab, concrete over the pipe, pipe, base."""
    end = (crossing.front, crossing.back)[side]
    spans = [(end.underside_m, end.surface_m)]
    if end.pipe_top_m > end.underside_m + _LEVEL_M:
        spans.append((end.pipe_top_m, end.surface_m))
    if crossing.opened and crossing.base_m:
        spans.append((end.underside_m - crossing.base_m, end.underside_m))
    return [
        Dimension(
            pane.at(end.station_m, low),
            pane.at(end.station_m, high),
            0.0,
            crossing.figures.height(high - low),
            high - low,
            Along.VERTICAL,
        )
        for low, high in spans
        if high > low
    ]
