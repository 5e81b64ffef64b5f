"""The pipe of a profile: invert and crown, the water in it, the grade line, standing water."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Fill, Hatch, Line, Pattern, Role
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.symbols import flow_arrow

if TYPE_CHECKING:
    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.study.results import ReachWater, Standing

__all__ = ["grade_line", "least_cover", "pipe", "standing"]

_BOTH_LINES_MM = 2.0
_ARROW_MM = 7.0
_SEEN_MM = 0.1


def pipe(course: Course, strip: Strip) -> Part:
    """Return every reach between its invert and its crown, with normal depth and a flow arrow."""
    return joined(*(_reach(strip, reach) for reach in course.reaches))


def _reach(strip: Strip, reach: ReachWater) -> Part:
    """Return one reach; where the bore is too low for two heavy lines, the crown is a thin one."""
    bore = reach.pipe.bore_height_m
    invert, crown = _raised(reach, 0.0), _raised(reach, bore)
    tall = strip.high_mm(bore) >= _BOTH_LINES_MM
    shapes = [
        *strip.filled(crown, invert, Role.PIPE),
        *strip.path(crown, Role.PIPE if tall else Role.EXISTING),
        *strip.path(invert, Role.PIPE),
    ]
    if reach.normal_depth_m:
        shapes.extend(strip.path(_raised(reach, reach.normal_depth_m), Role.WATER))
    return Part((*shapes, *_flow(strip, reach)))


def _raised(reach: ReachWater, by_m: float) -> tuple[Point, Point]:
    """Return the line of a reach so far over its invert, from low to high station."""
    return (
        (reach.station_low_m, reach.lower_invert_m + by_m),
        (reach.station_high_m, reach.upper_invert_m + by_m),
    )


def _flow(strip: Strip, reach: ReachWater) -> tuple[Shape, ...]:
    """Return an arrow under the pipe in the direction of flow, where the reach is long enough."""
    low, high = max(reach.station_low_m, strip.low_m), min(reach.station_high_m, strip.high_m)
    if strip.x(high) - strip.x(low) < 3 * _ARROW_MM:
        return ()
    middle = (low + high) / 2
    share = (middle - reach.station_low_m) / (reach.station_high_m - reach.station_low_m)
    invert = reach.lower_invert_m + share * (reach.upper_invert_m - reach.lower_invert_m)
    x, y = strip.at(middle, invert)
    return (flow_arrow((x, y - 2.6), 180.0, _ARROW_MM),)


def grade_line(course: Course, strip: Strip) -> Part:
    """Return the water line at design flow with the gutter running, reach by reach."""
    shapes: list[Shape] = []
    for reach in course.reaches:
        line = (
            (reach.station_low_m, reach.grade_low_m),
            (reach.station_high_m, reach.grade_high_m),
        )
        shapes.extend(strip.path(line, Role.GRADE_LINE))
    for lower, upper in pairwise(course.reaches):
        step = abs(lower.grade_high_m - upper.grade_low_m)
        if strip.shows(upper.station_low_m) and strip.high_mm(step) > _SEEN_MM:
            ends = (lower.grade_high_m, upper.grade_low_m)
            foot, head = (strip.at(upper.station_low_m, level) for level in ends)
            shapes.append(Line(foot, head, Role.GRADE_LINE))
    return Part(tuple(shapes))


def standing(course: Course, strip: Strip) -> Part:
    """Return the water left standing in the trunk after rain, hatched, with its volume."""
    return joined(*(_pool(course, strip, pool) for pool in course.pools))


def _pool(course: Course, strip: Strip, pool: Standing) -> Part:
    """Return one pool: between the invert and the lower of its level and the crown."""
    shapes = tuple(
        mark
        for reach in course.reaches
        for upper, lower in _wet(reach, pool)
        for mark in _hatched(strip, upper, lower)
    )
    if not shapes:
        return Part()
    words = f"standing water {course.pool_words(pool)}"
    middle = min(max((pool.station_low_m + pool.station_high_m) / 2, strip.low_m), strip.high_m)
    tip = (middle, min(pool.level_m, course.invert_at(middle) + pool.depth_m))
    return Part(shapes, strip.note(words, tip, priority=5, prefer=(Side.S, Side.SE, Side.SW)))


def _wet(reach: ReachWater, pool: Standing) -> list[tuple[list[Point], list[Point]]]:
    """Return the wet part of a reach as its upper and lower line; nothing where it is dry."""
    low = max(reach.station_low_m, pool.station_low_m)
    high = min(reach.station_high_m, pool.station_high_m)
    if high <= low:
        return []
    marks = sorted({low, high, *(s for s in _at_level(reach, pool.level_m) if low < s < high)})
    bore = reach.pipe.bore_height_m
    lower = [(s, _invert(reach, s)) for s in marks]
    upper = [(s, max(min(pool.level_m, invert + bore), invert)) for s, invert in lower]
    return [(upper, lower)]


def _invert(reach: ReachWater, station: float) -> float:
    share = (station - reach.station_low_m) / (reach.station_high_m - reach.station_low_m)
    return reach.lower_invert_m + share * (reach.upper_invert_m - reach.lower_invert_m)


def _at_level(reach: ReachWater, level: float) -> list[float]:
    """Return the stations at which invert and crown of a reach lie at a level."""
    rise = reach.upper_invert_m - reach.lower_invert_m
    if rise == 0.0:
        return []
    length = reach.station_high_m - reach.station_low_m
    ends = (level - reach.lower_invert_m, level - reach.lower_invert_m - reach.pipe.bore_height_m)
    return [reach.station_low_m + end / rise * length for end in ends]


def _hatched(strip: Strip, upper: list[Point], lower: list[Point]) -> tuple[Shape, ...]:
    """Return the hatch of a wet stretch."""
    region = strip.between(upper, lower)
    tone = strip.filled(upper, lower, Role.WATER, Fill.TONE)
    return (*tone, Hatch(region, Pattern.WATER, density=2.0)) if region else ()


def least_cover(course: Course, strip: Strip) -> Part:
    """Return a note at the place where the pipe has the least cover, off the walk."""
    open_ground = [
        point for point in course.study.cut.cover if point.surface not in {"walk", "drive", "curb"}
    ]
    if not open_ground:
        return Part()
    least = min(open_ground, key=lambda point: (point.cover_m, point.station_m))
    words = f"least cover {course.figures.height(least.cover_m)}, {least.where}"
    foot, head = (strip.at(least.station_m, level) for level in (least.pipe_top_m, least.ground_m))
    mark = (Line(foot, head, Role.DIMENSION),) if strip.shows(least.station_m) else ()
    tip = (least.station_m, (least.ground_m + least.pipe_top_m) / 2)
    note = strip.note(words, tip, priority=8, prefer=(Side.NE, Side.NW), dot=True, wrap_mm=30.0)
    return Part(mark, note)
