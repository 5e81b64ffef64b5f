"""The walk cut from above: panels and joints, what is taken out, saw cuts, trench, pipe, slopes."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import Along, Dimension, on_tracks
from permitkit.drawing.placing import Side, overlaps
from permitkit.drawing.profile.crossings import UTILITY_ROLES
from permitkit.drawing.shapes import Box, Circle, Fill, Hatch, Line, Pattern, Role
from permitkit.drawing.sheet import labels_of
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.symbols import flow_arrow, lettered_line, section_mark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.drawing.walk_cut.crossing import Crossing
    from permitkit.units import Measure

__all__ = ["TRACK_MM", "buried", "dimensions", "plan", "plan_ground", "section_marks"]

TRACK_MM = 6.8
"""From one line of dimensions to the next. [mm]"""

_STREET_M, _BEYOND_M = 0.3, 0.3
_NOISE_M = 1e-6
_ARROW_MM = 9.0
_ROOMY_MM = 15.0
_TRIED = 13
_FALL_WRAP_MM = 22.0
_BESIDE = (Side.E, Side.W, Side.SE, Side.SW, Side.NE, Side.NW)


def plan_ground(crossing: Crossing) -> Box:
    """Return what the plan shows: along the walk from the run, and stations from the curb face."""
    panels = crossing.cut.panels
    high = max(crossing.ground.row_m, crossing.back.station_m, crossing.trench_m[1]) + _BEYOND_M
    return Box(panels[0].left_m, -_STREET_M, panels[-1].right_m, high)


def plan(crossing: Crossing, pane: Pane) -> Part:
    """Return everything on the plan but its dimensions and buried lines."""
    return joined(
        _taken_out(crossing, pane),
        _edges(crossing, pane),
        _joints(crossing, pane),
        _trench(crossing, pane),
        _pipe(crossing, pane),
        _saw(crossing, pane),
        _slopes(crossing, pane),
        _row(crossing, pane),
        _opening(crossing, pane),
    )


def _taken_out(crossing: Crossing, pane: Pane) -> Part:
    """Return the hatch over what is taken out of the walk, with its size."""
    if not crossing.opened:
        return Part()
    box = _removed(crossing)
    write = crossing.figures
    words = (
        f"walk taken out and laid new, {write.distance(box.width)} x {write.distance(box.height)}, "
        f"{write.area(crossing.cut.walk_area_m2)}, "
        f"{write.distance(-box.left)} of it left of the run"
    )
    tip = (box.right - 0.15 * box.width, box.top - 0.15 * box.height)
    shapes = (Hatch(pane.view.points(box.corners), Pattern.REMOVED),)
    return Part(shapes, pane.note(words, tip, priority=5, dot=True, prefer=(Side.NE, Side.SE)))


def _removed(crossing: Crossing) -> Box:
    """Return what is taken out, in metres."""
    cut, front = crossing.cut, crossing.front.station_m
    return Box(cut.removed_left_m, front, cut.removed_right_m, front + crossing.cut.across_m)


def _across(pane: Pane, station: float, role: Role) -> tuple[Shape, ...]:
    """Return a line along the street from edge to edge."""
    return pane.line((pane.ground.left, station), (pane.ground.right, station), role)


def _edges(crossing: Crossing, pane: Pane) -> Part:
    """Return the lines that run along the street: curb and walk."""
    stations = {0.0, crossing.curb_m, crossing.front.station_m, crossing.back.station_m}
    shapes = (mark for at in sorted(stations) for mark in _across(pane, at, Role.EXISTING))
    return Part(tuple(shapes))


def _joints(crossing: Crossing, pane: Pane) -> Part:
    """Return the joints between the panels."""
    front, back = crossing.front.station_m, crossing.back.station_m
    lefts = [panel.left_m for panel in crossing.cut.panels]
    shapes = tuple(
        mark
        for x in (*lefts, crossing.cut.panels[-1].right_m)
        for mark in pane.line((x, front), (x, back), Role.EXISTING)
    )
    tip = (lefts[1] if len(lefts) > 1 else lefts[0], front + 0.12 * crossing.width_m)
    return Part(shapes, pane.note("joint", tip, prefer=(Side.W, Side.SW, Side.NW)))


def _trench(crossing: Crossing, pane: Pane) -> Part:
    """Return the limits of the trench in the right-of-way, open where the walk is bored under."""
    half = crossing.trench_half_m
    if not half:
        return Part()
    low, high = crossing.trench_m
    spans = [(low, high)]
    if not crossing.opened:
        spans = [(low, crossing.front.station_m), (crossing.back.station_m, high)]
    shapes = tuple(
        mark
        for start, end in spans
        if end > start + _NOISE_M
        for mark in pane.area(Box(-half, start, half, end).corners, Role.PROPOSED_DIG)
    )
    write = crossing.figures
    words = f"trench {write.height(2 * half)} wide, {write.distance(crossing.cut.trench_m)} long"
    depth = crossing.job.cut.trench_depth
    words += f", {depth.shown()} deep" if depth else ""
    level = (low + crossing.front.station_m) / 2
    notes = pane.note(words, (half, level), priority=3, prefer=(Side.E, Side.NE, Side.SE))
    return Part(shapes, pane.or_by(notes, [(-half, level)]))


def _pipe(crossing: Crossing, pane: Pane) -> Part:
    """Return the pipe as wide as it is, to the edge of the plan, with its flow."""
    start = crossing.reach.station_low_m
    half = crossing.reach.pipe.outside_m[0] / 2
    shapes: list[Shape] = []
    for at in crossing.barrels_m:
        for x in (at - half, at + half):
            shapes.extend(pane.line((x, start), (x, pane.ground.top), Role.PIPE))
    level = _clear_of_lines(crossing, (start, crossing.front.station_m))
    arrows = (flow_arrow(pane.at(x, level), 270.0, 6.0) for x in crossing.barrels_m)
    shapes.extend(arrows if crossing.front.station_m > start + half else ())
    twin = f"{crossing.reach.barrels} x " if crossing.reach.barrels > 1 else ""
    words = f"{twin}{crossing.reach.pipe.name} at {crossing.figures.slope(crossing.reach.slope)}"
    right, middle = crossing.barrels_m[-1] + half, (crossing.curb_m + crossing.front.station_m) / 2
    also = [(right, middle - 0.2), (crossing.barrels_m[0] - half, middle + 0.25)]
    sides = (Side.E, Side.NE, Side.SE)
    notes = pane.note(words, (right, middle + 0.25), priority=4, prefer=sides)
    return Part(tuple(shapes), pane.or_by(notes, also))


def _saw(crossing: Crossing, pane: Pane) -> Part:
    """Return the saw cuts: across the walk at both ends, and along it where it stays in part."""
    if not crossing.opened:
        return Part()
    box = _removed(crossing)
    ends = [((x, box.bottom), (x, box.top)) for x in (box.left, box.right)]
    if box.height < crossing.width_m - _NOISE_M:
        ends.append(((box.left, box.top), (box.right, box.top)))
    shapes = tuple(Line(pane.at(*start), pane.at(*end), Role.SAW_CUT) for start, end in ends)
    depth = crossing.job.cut.saw_depth
    words = "saw cut" + (f" {depth.shown()} deep" if depth else ", full depth")
    tip, *also = (
        (x, box.bottom + share * box.height) for x in (box.left, box.right) for share in (0.3, 0.8)
    )
    sides = (Side.W, Side.NW, Side.SW)
    return Part(shapes, pane.or_by(pane.note(words, tip, priority=4, prefer=sides), also))


def _slopes(crossing: Crossing, pane: Pane) -> Part:
    """Return arrows down the slope of each panel beside the cut and of the walk at the run."""
    walk, new = crossing.job.walk, crossing.job.restoration.cross_slope
    panels = crossing.cut.panels
    own = [f"here {walk.cross_slope.shown()} now"]
    own.extend([f"{new.shown()} new"] if new and crossing.opened else [])
    left = panels[0].left_m + 0.25 * (panels[0].right_m - panels[0].left_m)
    right = panels[-1].left_m + 0.25 * (panels[-1].right_m - panels[-1].left_m)
    middle = (crossing.cut.removed_left_m - crossing.trench_half_m) / 2
    if not crossing.opened:
        middle = -max(crossing.trench_half_m, 0.3) - 0.2
    return joined(
        _fall(crossing, pane, left, _existing(walk.cross_slope_left)),
        _fall(crossing, pane, middle, ", ".join(own), _sides_in_cut(crossing, pane)),
        _fall(crossing, pane, right, _existing(walk.cross_slope_right)),
        _running(crossing, pane, right),
    )


def _existing(slope: Measure | None) -> str:
    """Return the slope of a neighbour in words."""
    return f"{slope.shown()} now" if slope else "cross slope not measured"


def _sides_in_cut(crossing: Crossing, pane: Pane) -> tuple[Side, ...]:
    """Return where words of what is taken out may stand; not where they would tell of others."""
    if not crossing.opened:
        return _BESIDE
    beside = pane.mm(-crossing.cut.removed_left_m - crossing.trench_half_m)
    return _BESIDE if beside >= 2 * _FALL_WRAP_MM else ()


def _fall(
    crossing: Crossing, pane: Pane, at: float, words: str, sides: tuple[Side, ...] = _BESIDE
) -> Part:
    """Return an arrow down the cross slope, with its words."""
    down = 270.0 if crossing.back.surface_m >= crossing.front.surface_m else 90.0
    place = (at, _clear_of_lines(crossing, _part(crossing, 0.3, 0.75)))
    arrow = flow_arrow(pane.at(*place), down, _ARROW_MM, Role.DIMENSION)
    return Part((arrow,), pane.note(words, place, priority=6, wrap_mm=_FALL_WRAP_MM, prefer=sides))


def _part(crossing: Crossing, low: float, high: float) -> tuple[float, float]:
    """Return the stations of a part of the walk's width, from shares of it."""
    front, width = crossing.front.station_m, crossing.width_m
    return front + low * width, front + high * width


def _clear_of_lines(crossing: Crossing, span: tuple[float, float]) -> float:
    """Return the station between two others that lies farthest from buried lines and from them."""
    low, high = span
    tried = [low + (high - low) * index / (_TRIED + 1) for index in range(1, _TRIED + 1)]
    lines = [float(utility.at) for utility in crossing.job.utility if utility.along == "street"]
    return max(tried, key=lambda at: min((abs(at - line) for line in lines), default=0.0))


def _running(crossing: Crossing, pane: Pane, at: float) -> Part:
    """Return an arrow down the running slope, where it is known."""
    walk, new = crossing.job.walk.running_slope, crossing.job.restoration.running_slope
    if walk is None and new is None:
        return Part()
    words = "running slope " + ", ".join(
        f"{slope.shown()} {when}" for slope, when in ((walk, "now"), (new, "new")) if slope
    )
    angle = 180.0 if crossing.job.street.gutter_flows == "left" else 0.0
    place = (at, _clear_of_lines(crossing, _part(crossing, 0.1, 0.22)))
    arrow = flow_arrow(pane.at(*place), angle, _ARROW_MM, Role.DIMENSION)
    sides = (Side.N, Side.S, Side.NE, Side.NW)
    return Part((arrow,), pane.note(words, place, priority=3, wrap_mm=28.0, prefer=sides))


def _row(crossing: Crossing, pane: Pane) -> Part:
    """Return the right-of-way line."""
    return Part(_across(pane, crossing.ground.row_m, Role.RIGHT_OF_WAY))


def _opening(crossing: Crossing, pane: Pane) -> Part:
    """Return the opening at the curb: a notch as wide as it is sawn, a hole by a dot."""
    notch = crossing.notch_m
    shapes: list[Shape] = []
    for x in crossing.barrels_m:
        if notch and crossing.curb_m:
            box = Box(x - notch / 2, 0.0, x + notch / 2, crossing.curb_m)
            shapes.extend(pane.area(box.corners, Role.PROPOSED, Fill.WHITE))
        else:
            shapes.append(Circle(pane.at(x, 0.0), 1.0, Role.PROPOSED, Fill.SOLID))
    words = f"{crossing.job.outlet.kind}, station {crossing.job.outlet.station.shown()}"
    note = pane.note(words, (0.0, 0.0), priority=4, prefer=(Side.SE, Side.SW))
    return Part(tuple(shapes), note)


def section_marks(crossing: Crossing, pane: Pane) -> tuple[Shape, ...]:
    """Return where the two sections are cut, to be drawn over the dimensions."""
    foot, head = pane.at(0.0, pane.ground.bottom), pane.at(0.0, pane.ground.top)
    level = crossing.middle_m - 0.3 * crossing.width_m
    left, right = pane.at(pane.ground.left, level), pane.at(pane.ground.right, level)
    return (
        *section_mark((foot[0], foot[1] - 3.4), "A", 180.0),
        *section_mark((head[0], head[1] + 3.4), "A", 180.0),
        *section_mark((left[0] - 3.4, left[1]), "B", 90.0),
        *section_mark((right[0] + 3.4, right[1]), "B", 90.0),
    )


def buried(crossing: Crossing, pane: Pane, texts: tuple[Box, ...]) -> tuple[Shape, ...]:
    """Return the buried lines across the run, lettered clear of other texts."""
    shapes: list[Shape] = []
    for utility in crossing.job.utility:
        at = float(utility.at)
        if utility.along == "street" and pane.ground.bottom < at < pane.ground.top:
            ends = (pane.at(pane.ground.left, at), pane.at(pane.ground.right, at))
            pipes = (pane.at(crossing.barrels_m[0], at), pane.at(crossing.barrels_m[-1], at))
            avoid = [*texts, Box.around(pipes).grown(4.0)]
            avoid.extend(label.box for label in labels_of(shapes))
            shapes.extend(lettered_line(ends, UTILITY_ROLES[utility.kind], avoid=avoid))
    return tuple(shapes)


def dimensions(crossing: Crossing, pane: Pane) -> tuple[Dimension, ...]:
    """Return the dimensions: along the walk over the plan, across it on the right."""
    right = pane.at(pane.ground.right, 0.0)[0] + 9.0
    beside = on_tracks(tuple(_across_walk(crossing, pane)), right, TRACK_MM)
    texts = [box for dimension in beside for box in dimension.label.boxes]
    top = pane.at(0.0, pane.ground.top)[1] + 9.0
    over = on_tracks(tuple(_along_walk(crossing, pane)), top, TRACK_MM)
    while overlaps([*texts, *(box for dimension in over for box in dimension.label.boxes)]):
        top += TRACK_MM / 2
        over = on_tracks(tuple(_along_walk(crossing, pane)), top, TRACK_MM)
    return *over, *beside


def _along_walk(crossing: Crossing, pane: Pane) -> Iterator[Dimension]:
    """Yield the lengths along the walk: panels, what is taken out, the run in it, what is left."""
    cut = crossing.cut
    spans = [(panel.left_m, panel.right_m) for panel in cut.panels]
    if crossing.opened:
        left, right = cut.removed_left_m, cut.removed_right_m
        spans.append((left - cut.remnant_left_m, left))
        spans.append((right, right + cut.remnant_right_m))
        roomy = min(-left, right) > 0.0 and pane.mm(min(-left, right)) >= _ROOMY_MM
        spans.extend([(left, 0.0), (0.0, right)] if roomy else [(left, right)])
    for low, high in dict.fromkeys(spans):
        if high - low > _NOISE_M:
            ends = ((low, crossing.back.station_m), (high, crossing.back.station_m))
            yield _dimension(crossing, pane, ends, Along.HORIZONTAL)


def _across_walk(crossing: Crossing, pane: Pane) -> Iterator[Dimension]:
    """Yield the lengths across the walk: curb, verge, walk, and on to the right-of-way line."""
    stations = [0.0, crossing.curb_m, crossing.front.station_m, crossing.back.station_m]
    stations.append(crossing.ground.row_m)
    marks = sorted(set(stations))
    x = pane.ground.right
    for low, high in itertools.pairwise(marks):
        if high - low > _NOISE_M:
            yield _dimension(crossing, pane, ((x, low), (x, high)), Along.VERTICAL)
    if crossing.opened and crossing.cut.across_m < crossing.width_m - _NOISE_M:
        front = crossing.front.station_m
        ends = ((x, front), (x, front + crossing.cut.across_m))
        yield _dimension(crossing, pane, ends, Along.VERTICAL)


def _dimension(
    crossing: Crossing, pane: Pane, ends: tuple[Point, Point], along: Along
) -> Dimension:
    """Return one length with its own number as text."""
    axis = 0 if along is Along.HORIZONTAL else 1
    value = ends[1][axis] - ends[0][axis]
    start, end = pane.at(*ends[0]), pane.at(*ends[1])
    return Dimension(start, end, 0.0, crossing.figures.distance(value), value, along)
