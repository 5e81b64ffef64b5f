"""Ground, walk slab, curb, gutter waters and the right-of-way line of a profile."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.info import held
from permitkit.drawing.placing import Side
from permitkit.drawing.profile.course import clipped
from permitkit.drawing.shapes import Fill, Hatch, Line, Pattern, Polygon, Polyline, Role
from permitkit.drawing.sheet_parts.pane import Part
from permitkit.drawing.sheet_parts.row_line import row_words
from permitkit.drawing.symbols import ground_marks
from permitkit.study.results import WATERS

if TYPE_CHECKING:
    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.study.results import CurbStudy

__all__ = ["curb", "gutter_waters", "row_line", "surface", "walk_slab"]

_WATER_WORDS = dict(zip(WATERS, ("gutter flow line", "running gutter", "curb-full"), strict=True))
_HATCHED_MM = 3.0
_OVER = (Side.NE, Side.NW, Side.N)
_TRIANGLE_MM = 1.6


def surface(course: Course, strip: Strip) -> Part:
    """Return the ground line with its marks, off the walk."""
    start = course.curb.width_m if course.curb else strip.low_m
    line = clipped(course.surface, start, course.span_m[1])
    shapes = list(strip.path(line, Role.GROUND))
    for low, high in _open_ground(course, start):
        seen = clipped(line, max(low, strip.low_m), min(high, strip.high_m))
        if len(seen) > 1:
            shapes.extend(ground_marks(strip.view.points(seen)))
    return Part(tuple(shapes))


def _open_ground(course: Course, start: float) -> tuple[tuple[float, float], ...]:
    """Return the stretches of ground that no walk covers."""
    high = course.span_m[1]
    if course.ground.walk_m is None:
        return ((start, high),)
    front, back = course.ground.walk_m
    return (start, front), (back, high)


def walk_slab(course: Course, strip: Strip) -> Part:
    """Return the walk slab to its thickness, with what it tells of the pipe in it."""
    slab = course.study.cut.slab
    if len(slab) < 2:  # noqa: PLR2004 - a slab has two edges
        return Part()
    front, back = slab[0], slab[-1]
    upper = clipped(course.surface, front.station_m, back.station_m)
    lower = [(edge.station_m, edge.underside_m) for edge in (front, back)]
    region = strip.between(upper, lower)
    if not region:
        return Part()
    shapes = (
        Polygon(region, Role.EXISTING, Fill.WHITE),
        Hatch(region, Pattern.CONCRETE, density=2.0),
    )
    middle = (front.station_m + back.station_m) / 2
    tip = (middle, course.ground.level_m(middle))
    words = _slab_words(course)
    return Part(shapes, strip.note(words, tip, prefer=_OVER, priority=7, wrap_mm=38.0))


def _slab_words(course: Course) -> str:
    """Return the walk in words: thickness, the pipe in it, the concrete over the pipe."""
    write, slab = course.figures.height, course.study.cut.slab
    walk = course.job.walk
    thickness = slab[0].surface_m - slab[0].underside_m
    words = f"{walk.surface} walk {write(thickness)} thick"
    deepest = max(edge.into_slab_m for edge in slab)
    if deepest <= 0.0:
        return f"{words}, pipe at least {write(-deepest)} below it"
    least = min(edge.concrete_over_m for edge in slab)
    if least < 0.0:
        return f"{words}, pipe up to {write(-least)} out of its top"
    return f"{words}, pipe up to {write(deepest)} into it, at least {write(least)} over the pipe"


def curb(course: Course, strip: Strip) -> Part:
    """Return the curb and the pan or edge of the street before it."""
    if course.curb is None or not strip.shows(0.0):
        return Part()
    shapes: list[Shape] = list(_pan(course, course.curb, strip))
    if course.job.curb.shape != "none":
        region = strip.view.points(_curb_outline(course.curb, _lowest_m(course.curb, strip)))
        shapes.append(Polygon(region, Role.EXISTING, Fill.WHITE))
        if strip.x(course.curb.width_m) - strip.x(0.0) >= _HATCHED_MM:
            shapes.append(Hatch(region, Pattern.CONCRETE, density=2.0))
    return Part(tuple(shapes))


def _lowest_m(curb: CurbStudy, strip: Strip) -> float:
    """Return the level at the lower edge of the profile."""
    above = strip.at(0.0, curb.flow_line_m)[1] - strip.plot.bottom
    return curb.flow_line_m - above / strip.high_mm(1.0)


def _curb_outline(curb: CurbStudy, lowest_m: float) -> tuple[Point, ...]:
    """Return the curb by station and level; its faces are drawn upright or on the roll."""
    foot = max(curb.flow_line_m - curb.reveal_m, lowest_m)
    face = {"rolled": 1.0, "half-round": 0.5, "sloping": 0.5}.get(curb.shape, 0.0) * curb.width_m
    return (
        (0.0, foot),
        (0.0, curb.flow_line_m),
        (face, curb.curb_top_m),
        (curb.width_m, curb.curb_top_m),
        (curb.width_m, foot),
    )


def _pan(course: Course, curb: CurbStudy, strip: Strip) -> tuple[Shape, ...]:
    """Return the surface of the gutter pan and the street, as far as drawn."""
    slope = float(course.job.gutter.pan_slope) if course.job.gutter.pan_slope else 0.0
    lip = (-course.street_m, curb.flow_line_m + slope * course.street_m)
    return strip.path((lip, (0.0, curb.flow_line_m)), Role.EXISTING)


def gutter_waters(course: Course, strip: Strip) -> Part:
    """Return the waters in the gutter: lines for the running and the curb-full one, all levels."""
    if course.curb is None or not strip.shows(0.0):
        return Part()
    shapes = [
        mark
        for name, level in course.gutter.items()
        if name != WATERS[0]
        for mark in _gutter_water(course, strip, level)
    ]
    write = course.figures.at_level
    levels = sorted(course.gutter.items(), key=lambda water: -water[1])
    words = "\n".join(f"{_WATER_WORDS.get(name, name)} {write(level)}" for name, level in levels)
    tip = (-course.street_m / 2, levels[0][1])
    return Part(tuple(shapes), strip.note(words, tip, prefer=_OVER, priority=6))


def _gutter_water(course: Course, strip: Strip, level: float) -> tuple[Shape, ...]:
    """Return the line of one water in the gutter, with a triangle on it."""
    left, right = strip.at(-course.street_m, level), strip.at(0.0, level)
    x, half = (left[0] + right[0]) / 2, _TRIANGLE_MM / 2
    corners = ((x, left[1]), (x - half, left[1] + _TRIANGLE_MM), (x + half, left[1] + _TRIANGLE_MM))
    return Line(left, right, Role.WATER), Polygon(corners, Role.WATER, Fill.WHITE)


def row_line(course: Course, strip: Strip) -> Part:
    """Return the right-of-way line, from top to bottom of the plot."""
    station = course.ground.row_m
    if not strip.shows(station):
        return Part()
    x = strip.x(station)
    line = Polyline(((x, strip.plot.bottom), (x, strip.plot.top)), Role.RIGHT_OF_WAY)
    sides = (Side.SE, Side.SW, Side.E, Side.W)
    tip = (x, strip.plot.top - 1.0)
    note = (
        Note(
            held(row_words(course.job)), tip, prefer=sides, priority=6, clear_mm=1.0, wrap_mm=26.0
        ),
    )
    return Part((line,), note)
