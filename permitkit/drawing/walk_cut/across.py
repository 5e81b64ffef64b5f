"""Section B-B along the walk, across the pipe: panels, joints, dowels, base, trench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import Along, Dimension, on_tracks
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Box, Circle, Fill, Line, Pattern, Role
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.walk_cut.plan import TRACK_MM

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.drawing.walk_cut.crossing import Crossing

__all__ = ["across", "across_dimensions", "across_ground"]

_BESIDE_M = 0.3
_ABOVE_M, _BELOW_M = 0.03, 0.06
_DOWEL_M = 0.15
_OVER = (Side.N, Side.NE, Side.NW)
_UNDER = (Side.S, Side.SE, Side.SW)


def _ends(crossing: Crossing) -> tuple[float, float]:
    """Return the two ends of what is laid new; of a bored crossing a stretch about the pipe."""
    cut = crossing.cut
    if crossing.opened:
        return cut.removed_left_m, cut.removed_right_m
    return -2 * _BESIDE_M, 2 * _BESIDE_M


def across_ground(crossing: Crossing) -> Box:
    """Return what the section shows: along the walk from the run, and levels."""
    left, right = _ends(crossing)
    surface = crossing.surface_m(crossing.middle_m)
    floor = min(_floor(crossing), surface - crossing.slab_m - crossing.base_m)
    return Box(left - _BESIDE_M, floor - _BELOW_M, right + _BESIDE_M, surface + _ABOVE_M)


def _floor(crossing: Crossing) -> float:
    return min(crossing.trench_floor_m(crossing.middle_m), crossing.pipe_m(crossing.middle_m)[0])


def across(crossing: Crossing, pane: Pane) -> Part:
    """Return the section across the pipe, with what is to be said about it."""
    return joined(
        _neighbours(crossing, pane),
        _trench(crossing, pane),
        _base(crossing, pane),
        _slab(crossing, pane),
        _pipes(crossing, pane),
        _joints(crossing, pane),
    )


def _surface(crossing: Crossing) -> float:
    return crossing.surface_m(crossing.middle_m)


def _neighbours(crossing: Crossing, pane: Pane) -> Part:
    """Return the walk that stays, at both ends."""
    top, foot = _surface(crossing), _surface(crossing) - crossing.old_m
    left, right = _ends(crossing)
    shapes: list[Shape] = []
    for low, high in ((pane.ground.left, left), (right, pane.ground.right)):
        region = Box(low, foot, high, top).corners
        shapes.extend(pane.hatched(region, Pattern.CONCRETE, 1.5))
        for level in (foot, top):
            shapes.extend(pane.line((low, level), (high, level), Role.EXISTING))
    words = f"walk that stays, {crossing.figures.height(crossing.old_m)}"
    tip = (pane.ground.right - _BESIDE_M / 2, foot + 0.3 * crossing.old_m)
    return Part(tuple(shapes), pane.note(words, tip, dot=True, prefer=_UNDER, wrap_mm=30.0))


def _trench(crossing: Crossing, pane: Pane) -> Part:
    """Return the trench under the walk, with its bedding."""
    half = crossing.trench_half_m
    if not crossing.opened or not half:
        return Part()
    top = _surface(crossing) - crossing.slab_m - crossing.base_m
    floor = _floor(crossing)
    if floor >= top:
        return Part()
    box = Box(-half, floor, half, top)
    shapes = (
        *pane.hatched(box.corners, Pattern.SAND, 1.2),
        *pane.path(((-half, top), (-half, floor), (half, floor), (half, top)), Role.PROPOSED_DIG),
    )
    tip = (0.7 * half, floor + 0.2 * (top - floor))
    return Part(shapes, pane.note("bedding", tip, dot=True, prefer=_UNDER))


def _base(crossing: Crossing, pane: Pane) -> Part:
    """Return the base under the new walk."""
    if not crossing.opened or not crossing.base_m:
        return Part()
    left, right = _ends(crossing)
    top = _surface(crossing) - crossing.slab_m
    box = Box(left, top - crossing.base_m, right, top)
    material = crossing.job.restoration.base_material or "base"
    tip = (left + 0.2 * box.width, box.bottom + 0.2 * box.height)
    return Part(
        (*pane.area(box.corners, Role.PROPOSED), *pane.hatched(box.corners, Pattern.GRAVEL)),
        pane.note(material, tip, dot=True, prefer=_UNDER),
    )


def _slab(crossing: Crossing, pane: Pane) -> Part:
    """Return the new walk, and its concrete round the pipe where it is encased or thickened."""
    left, right = _ends(crossing)
    top = _surface(crossing)
    foot = top - crossing.slab_m
    outline: list[Point] = [(left, top), (right, top), (right, foot)]
    if crossing.encased:
        outline.extend(_jacket(crossing, foot))
    outline.append((left, foot))
    role = Role.PROPOSED if crossing.opened else Role.EXISTING
    shapes = (*pane.area(outline, role, Fill.WHITE), *pane.hatched(outline, Pattern.CONCRETE, 1.5))
    strength = crossing.job.restoration.strength
    state = "new concrete" if crossing.opened else "walk, kept"
    words = f"{state}, {strength.shown()}" if strength and crossing.opened else state
    tip = (left + 0.2 * (right - left), foot + 0.6 * crossing.slab_m)
    return Part(shapes, pane.note(words, tip, dot=True, priority=4, prefer=_OVER))


def _jacket(crossing: Crossing, foot: float) -> list[Point]:
    """Return the outline of the concrete below the slab, round the pipes, from right to left."""
    bottom, top = crossing.pipe_m(crossing.middle_m)
    over = max(_surface(crossing) - top, 0.0)
    out = crossing.reach.pipe.outside_m[0] / 2 + over
    low = min(bottom - over, foot)
    left, right = crossing.barrels_m[0] - out, crossing.barrels_m[-1] + out
    return [(right, foot), (right, low), (left, low), (left, foot)]


def _pipes(crossing: Crossing, pane: Pane) -> Part:
    """Return each pipe end on: round or box, its outside and its bore."""
    bottom, top = crossing.pipe_m(crossing.middle_m)
    pipe = crossing.reach.pipe
    shapes: list[Shape] = []
    for x in crossing.barrels_m:
        centre = (x, (bottom + top) / 2)
        if pipe.shape == "round":
            middle = pane.at(*centre)
            shapes.append(Circle(middle, pane.mm(pipe.outside_m[1] / 2), Role.PIPE, Fill.WHITE))
            shapes.append(Circle(middle, pane.mm(pipe.bore_m[1] / 2), Role.EXISTING))
            continue
        outer, inner = (_about(centre, size) for size in (pipe.outside_m, pipe.bore_m))
        shapes.extend(pane.area(outer.corners, Role.PIPE, Fill.WHITE))
        shapes.extend(pane.area(inner.corners, Role.EXISTING))
    tip = (crossing.barrels_m[-1] + pipe.outside_m[0] / 2, (bottom + top) / 2)
    words = f"{pipe.name}" + ("" if crossing.opened else f", {crossing.job.cut.crossing}")
    over = min(_surface(crossing) - top, crossing.slab_m)
    words += f", slab {crossing.over_words(over)}{' it' if over >= 0.0 else ''}"
    return Part(tuple(shapes), pane.note(words, tip, priority=4, prefer=(Side.SE, Side.E)))


def _about(centre: Point, size: Point) -> Box:
    """Return the upright box of a size about a point."""
    x, y = centre
    return Box(x - size[0] / 2, y - size[1] / 2, x + size[0] / 2, y + size[1] / 2)


def _joints(crossing: Crossing, pane: Pane) -> Part:
    """Return the two joints between new and old walk, with filler and dowels if there are any."""
    if not crossing.opened:
        return Part()
    restoration, top = crossing.job.restoration, _surface(crossing)
    shapes: list[Shape] = []
    for x in _ends(crossing):
        deep = min(crossing.slab_m, crossing.old_m)
        shapes.append(Line(pane.at(x, top - deep), pane.at(x, top), Role.SAW_CUT))
        if restoration.dowels:
            level = top - deep / 2
            ends = (pane.at(x - _DOWEL_M, level), pane.at(x + _DOWEL_M, level))
            shapes.append(Line(*ends, Role.PROPOSED))
    words = restoration.joint or "joint as the town's detail shows"
    words += ", with dowels" if restoration.dowels else ", no dowels"
    tip = (_ends(crossing)[1], top)
    return Part(tuple(shapes), pane.note(words, tip, priority=3, prefer=_OVER, wrap_mm=52.0))


def across_dimensions(crossing: Crossing, pane: Pane) -> tuple[Dimension, ...]:
    """Return thickness, base and concrete over the pipe on the left, widths below."""
    left = pane.at(pane.ground.left, 0.0)[0]
    foot = pane.at(0.0, pane.ground.bottom)[1]
    return (
        *on_tracks(tuple(_uprights(crossing, pane)), left - 4.0, -TRACK_MM),
        *on_tracks(tuple(_widths(crossing, pane)), foot - 4.0, -TRACK_MM),
    )


def _uprights(crossing: Crossing, pane: Pane) -> list[Dimension]:
    """Return the heights at the left end."""
    top, left = _surface(crossing), _ends(crossing)[0]
    foot = top - crossing.slab_m
    spans = [(left, foot, top)]
    if crossing.opened and crossing.base_m:
        spans.append((left, foot - crossing.base_m, foot))
    return [
        Dimension(
            pane.at(x, low),
            pane.at(x, high),
            0.0,
            crossing.figures.height(high - low),
            high - low,
            Along.VERTICAL,
        )
        for x, low, high in spans
    ]


def _widths(crossing: Crossing, pane: Pane) -> list[Dimension]:
    """Return the lengths along the walk: what is laid new, and the trench."""
    half = crossing.trench_half_m
    spans = [_ends(crossing)] if crossing.opened else []
    spans.extend([(-half, half)] if crossing.opened and half else [])
    level = pane.ground.bottom + 0.01
    return [
        Dimension(
            pane.at(low, level),
            pane.at(high, level),
            0.0,
            crossing.figures.distance(high - low),
            high - low,
            Along.HORIZONTAL,
        )
        for low, high in spans
    ]
