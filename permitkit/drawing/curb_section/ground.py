"""What the curb section is drawn in: concrete, pavement, soil, walk, water in the gutter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Box, Fill, Line, Pattern, Point, Polygon, Role, Shape
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.sheet_parts.pane import Pane, Part
from permitkit.drawing.symbols import break_line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.curb_section.curb import CurbCut

__all__ = ["behind", "behind_rung", "concrete", "ground_y", "pavement", "water_in_gutter"]

_PAVEMENT_M = 0.09


def concrete(cut: CurbCut, pane: Pane, holes: Sequence[tuple[Point, ...]] = ()) -> Part:
    """Return the curb and its pan, cut, with what is taken out of them left white."""
    shapes: list[Shape] = []
    for outline in (cut.outline, cut.slab):
        if not outline:
            continue
        shapes += pane.hatched(outline, Pattern.CONCRETE, holes=holes)
        shapes += pane.area(outline, Role.EXISTING)
    return Part((*shapes, *_breaks(cut, pane)))


def _breaks(cut: CurbCut, pane: Pane) -> tuple[Shape, ...]:
    """Return the break lines where curb and pan go on below or beside the drawing."""
    ground = pane.ground
    left = max(-cut.pan_m, ground.left)
    marks: list[Shape] = []
    if cut.base_m is None or cut.base_m > -ground.bottom:
        start = left if cut.pan_m or cut.profile.lip_m < 0.0 else 0.0
        marks.append(break_line(pane.at(start, ground.bottom), pane.at(cut.back_m, ground.bottom)))
    if cut.pan_m and -cut.pan_m < ground.left:
        low = max(ground.bottom, -(cut.base_m or -ground.bottom))
        marks.append(
            break_line(pane.at(ground.left, low), pane.at(ground.left, _surface(cut, ground.left)))
        )
    return tuple(marks)


def _surface(cut: CurbCut, x: float) -> float:
    """Return the height of the street at an offset in front of the face."""
    if not cut.pan_m:
        return 0.0
    return cut.lip_m * min(-x / cut.pan_m, 1.0)


def pavement(cut: CurbCut, pane: Pane) -> Part:
    """Return the street's pavement beyond the pan, as far as it is seen."""
    left, right = pane.ground.left, -cut.pan_m
    if right <= left:
        return Part()
    top = cut.lip_m
    strip = Box(left, top - _PAVEMENT_M, right, top).corners
    surface = pane.line((left, top), (right, top), Role.EXISTING)
    middle = ((left + right) / 2, top - _PAVEMENT_M / 2)
    note = pane.note("pavement", middle, clear_mm=3.0, dot=True)
    return Part((*pane.hatched(strip, Pattern.ASPHALT), *surface), note)


def ground_y(cut: CurbCut) -> float:
    """Return the height of the ground right behind the curb."""
    level = cut.job.verge.level_curb_side
    flow_line = float(cut.job.gutter.flow_line)
    if float(cut.job.verge.width) <= 0.0:
        return float(cut.job.walk.level_curb_side) - flow_line
    return float(level) - flow_line if level is not None else cut.reveal_m


def behind(cut: CurbCut, pane: Pane, holes: Sequence[tuple[Point, ...]] = ()) -> Part:
    """Return the soil behind the curb, or the walk's slab on it where there is no verge."""
    left, right = cut.back_m, pane.ground.right
    top, bottom = ground_y(cut), pane.ground.bottom
    under = top
    shapes: list[Shape] = []
    if float(cut.job.verge.width) <= 0.0:
        thick = float(cut.job.walk.thickness or 0.1)
        under = top - thick
        slab = Box(left, under, right, top).corners
        shapes += pane.hatched(slab, Pattern.CONCRETE)
        shapes += pane.line((left, under), (right, under), Role.EXISTING)
    soil = Box(left, bottom, right, under).corners
    shapes += pane.hatched(soil, Pattern.EARTH, holes=holes)
    surface = Line(pane.at(left, top), pane.at(right, top), Role.GROUND)
    edge = break_line(pane.at(right, bottom), pane.at(right, top))
    return Part((*shapes, surface, edge))


def behind_rung(cut: CurbCut, pane: Pane) -> Rung:
    """Return what lies behind the curb, for the right of the section."""
    walk = float(cut.job.verge.width) <= 0.0
    words = "walk, soil below" if walk else "verge, soil behind the curb"
    return Rung(words, pane.at((cut.back_m + 3 * pane.ground.right) / 4, ground_y(cut)))


def water_in_gutter(cut: CurbCut, pane: Pane, height_m: float) -> tuple[Shape, ...]:
    """Return the line of water standing so high over the flow line, from the face to the street."""
    if not 0.0 < height_m < cut.reveal_m + 1e-9:
        return ()
    left = pane.ground.left
    if cut.pan_m and cut.lip_m > height_m:
        left = max(left, -cut.pan_m * height_m / cut.lip_m)
    right = cut.face_x(height_m)
    mark = level_triangle(pane.at(left + 0.25 * (right - left), height_m))
    return (*pane.line((left, height_m), (right, height_m), Role.WATER), mark)


def level_triangle(at: Point) -> Polygon:
    """Return the mark of a water level: a triangle that stands on it."""
    x, y = at
    return Polygon(((x, y), (x - 1.2, y + 2.0), (x + 1.2, y + 2.0)), Role.WATER, Fill.WHITE)
