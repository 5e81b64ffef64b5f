"""Buried lines that the run crosses, and where one digs by hand."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Anchor, Box, Circle, Fill, Label, Polyline, Role
from permitkit.drawing.sheet_parts.pane import Part
from permitkit.drawing.symbols import UTILITY_LETTERS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.model.site import Utility

__all__ = ["UTILITY_ROLES", "crossed", "crossing_words", "crossings", "hand_dug_m"]

UTILITY_ROLES: Mapping[str, Role] = MappingProxyType(
    {
        "electric": Role.UTILITY_ELECTRIC,
        "gas": Role.UTILITY_GAS,
        "communication": Role.UTILITY_COMMUNICATION,
        "water": Role.UTILITY_WATER,
        "reclaimed water": Role.UTILITY_RECLAIMED,
        "sewer": Role.UTILITY_SEWER,
    }
)
"""How each kind of buried line is drawn."""

_RING_MM = 2.0
_FLOOR_MM = _RING_MM + 0.6
_PITCH_MM = 2 * _RING_MM + 0.4
_MARKED = {"yes": "marked", "no": "not marked", "unknown": "marks not known"}


def crossed(course: Course) -> tuple[Utility, ...]:
    """Return the buried lines that the run crosses, from the curb face on."""
    found = (utility for utility in course.job.utility if utility.along == "street")
    return tuple(sorted(found, key=lambda utility: float(utility.at))) if course.curb else ()


def _level_m(course: Course, utility: Utility) -> float | None:
    """Return the level of a buried line, if its depth is known."""
    if utility.depth is None:
        return None
    return course.ground.level_m(float(utility.at)) - float(utility.depth)


def crossings(course: Course, strip: Strip) -> Part:
    """Return every buried line as a ring: at its depth, or on the floor where it lies deeper."""
    seen = [utility for utility in crossed(course) if strip.shows(float(utility.at))]
    floor = strip.plot.bottom + _FLOOR_MM
    shapes: list[Shape] = []
    taken: list[Box] = []
    for utility in seen:
        level = _level_m(course, utility)
        x, y = strip.at(float(utility.at), level if level is not None else 0.0)
        wanted = (x, floor if level is None else max(y, floor))
        centre = _clear(wanted, strip.plot, taken)
        taken.append(Box(*centre, *centre).grown(_RING_MM))
        shapes.extend(_ring(course, strip, utility, centre))
    return Part(tuple(shapes))


def _clear(wanted: Point, plot: Box, taken: Sequence[Box]) -> Point:
    """Return the place for a ring nearest to where it belongs, beside those already there."""
    steps = sorted(range(-len(taken), len(taken) + 1), key=lambda step: (abs(step), -step))
    tried = ((wanted[0] + step * _PITCH_MM, wanted[1]) for step in steps)
    inside = (at for at in tried if plot.left + _RING_MM < at[0] < plot.right - _RING_MM)
    free = (at for at in inside if not any(Box(*at, *at).grown(_RING_MM).touches(t) for t in taken))
    return next(free, wanted)


def _ring(course: Course, strip: Strip, utility: Utility, centre: Point) -> tuple[Shape, ...]:
    """Return one buried line, with a thread from the ground over it."""
    role = UTILITY_ROLES[utility.kind]
    station = float(utility.at)
    top = strip.at(station, course.ground.level_m(station))
    knee = (top[0], min(centre[1] + 3 * _RING_MM, top[1]))
    thread = Polyline((top, knee, (centre[0], centre[1] + _RING_MM)), Role.HIDDEN)
    ring = Circle(centre, _RING_MM, role, Fill.WHITE)
    return thread, ring, Label(UTILITY_LETTERS[role], centre, Anchor.C, role=role)


def crossing_words(course: Course) -> str:
    """Return all crossings in one sentence: letter, kind, station, depth, distance, marks."""
    seen = crossed(course)
    if not seen:
        return ""
    marks = {utility.marked for utility in seen}
    alike = len(marks) == 1
    each = "; ".join(_words(course, utility, marked=not alike) for utility in seen)
    tail = (", " if len(seen) == 1 else "; all ") + _MARKED[marks.pop()] if alike else ""
    return f"Crossings: {each}{tail}."


def _words(course: Course, utility: Utility, *, marked: bool) -> str:
    """Return a buried line in words."""
    letter = UTILITY_LETTERS[UTILITY_ROLES[utility.kind]]
    words = f"{letter} {utility.kind} at {course.figures.distance(float(utility.at))}, "
    depth = utility.depth
    words += (
        "depth not known" if depth is None else f"{depth.shown()} deep{_apart(course, utility)}"
    )
    return f"{words}, {_MARKED[utility.marked]}" if marked else words


def _apart(course: Course, utility: Utility) -> str:
    """Return how far a buried line lies under or over the pipe, in words."""
    level, station = _level_m(course, utility), float(utility.at)
    reach = course.reach_at(station)
    if reach is None or level is None:
        return ""
    write = course.figures.distance
    clear = reach.laid.clear_of(station, level)
    if clear < 0.0:
        return ", at the height of the pipe"
    side = "under" if level < reach.laid.invert_at(station) else "over"
    return f", {write(clear)} {side} the pipe"


def hand_dug_m(course: Course, tolerance_m: float) -> tuple[tuple[float, float], ...]:
    """Return the stretches dug by hand, from and to, where bands that meet are one, in m."""
    merged: list[tuple[float, float]] = []
    for utility in crossed(course):
        low, high = float(utility.at) - tolerance_m, float(utility.at) + tolerance_m
        if merged and low <= merged[-1][1]:
            low, _ = merged.pop()
        merged.append((low, high))
    return tuple(merged)
