"""The drain on the plan: run, nodes, inflows, outlet, and what is dug and taken out for it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import Arrow
from permitkit.drawing.info import starred
from permitkit.drawing.occupancy import between
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import (
    Box,
    Circle,
    Fill,
    Pattern,
    Point,
    Polygon,
    Role,
    Shape,
)
from permitkit.drawing.site_sketch.lot import OUTLET, middle
from permitkit.drawing.site_sketch.window import Part, Window, clipped_line, joined
from permitkit.drawing.symbols import section_mark

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot, Reached
    from permitkit.model.drain import Inflow, Node

__all__ = [
    "inflow_words",
    "limit_of_work",
    "nodes",
    "outlet",
    "run",
    "section_line",
    "work_outline",
    "work_words",
]

_ARROW_MM = 4.0
_NODE_MM = 1.2
_OPENING_MM = 1.6
_TRENCH_M = 0.3
_SECTION_MM = (10.0, 16.0, -5.0, -11.0, 22.0)
_SECTION_RING_MM = 3.4


def run(lot: Lot, window: Window) -> Part:
    """Return every reach with its length, size, fall and flow arrows."""
    return joined(*(_reach(lot, window, reached) for reached in lot.reaches))


def _reach(lot: Lot, window: Window, reached: Reached) -> Part:
    """Return one reach: a line for each barrel, and its words once."""
    shapes: list[Shape] = []
    for path in _barrels(lot, reached):
        shapes += window.path(path, Role.PIPE)
        shapes += _arrows(window, path)
    seen = clipped_line(*reached.path, window.ground)
    if seen is None:
        return Part()
    words, also = _reach_words(lot, reached), [between(*seen, share) for share in (0.35, 0.65)]
    note = window.note(words, middle(seen), priority=6, clear_mm=2.0)
    return Part(tuple(shapes), window.or_by(note, also))


def _barrels(lot: Lot, reached: Reached) -> tuple[tuple[Point, ...], ...]:
    """Return the path of each barrel: side by side from the upper node, each to its own hole."""
    high, low = reached.path
    if reached.reach.barrels == 1:
        return ((high, low),)
    apart = (
        [hole - lot.outlet[0] for hole in lot.holes_m] if lot.job.outlet.count > 1 else [-0.1, 0.1]
    )
    first, last = high[0] + apart[0], high[0] + apart[-1]
    head = ((first, high[1]), (last, high[1]))
    sides = tuple(((high[0] + dx, high[1]), (low[0] + dx, low[1])) for dx in apart)
    return (head, *sides)


def _arrows(window: Window, path: tuple[Point, ...]) -> tuple[Shape, ...]:
    """Return arrows in the direction of flow, two on a long reach."""
    seen = clipped_line(path[0], path[-1], window.ground)
    if seen is None or path[0][1] == path[-1][1] == 0.0:
        return ()
    start, end = window.at(*seen[0]), window.at(*seen[1])
    length = math.dist(start, end)
    shares = (0.28, 0.72) if length > 10 * _ARROW_MM else (0.5,)
    if length < 2 * _ARROW_MM:
        return ()
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    tips = ((start[0] + share * length * ux, start[1] + share * length * uy) for share in shares)
    return tuple(
        Arrow((x - ux * _ARROW_MM, y - uy * _ARROW_MM), (x, y), Role.PIPE, _ARROW_MM)
        for x, y in tips
    )


def _reach_words(lot: Lot, reached: Reached) -> str:
    """Return the length, the pipe and the fall of a reach."""
    reach = reached.reach
    own = next(r for r in lot.job.drain.reach if (r.upper, r.lower) == (reach.upper, reach.lower))
    barrels = f"{reach.barrels} \N{MULTIPLICATION SIGN} " if reach.barrels > 1 else ""
    fall = (
        f"falls {_percent(reach.slope)}" if reach.slope >= 0 else f"rises {_percent(-reach.slope)}"
    )
    return starred(
        f"{own.length.shown()} of {barrels}{own.pipe}, {fall}", lot.job, "drain.reach.length"
    )


def _percent(slope: float) -> str:
    """Return a slope in per cent to two places."""
    return f"{round(slope * 100, 2):g} %"


def nodes(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return every node with the water that enters there."""
    drawn = (node for node in lot.job.drain.node if node.name != OUTLET)
    return joined(*(_node(lot, window, node, figures) for node in drawn))


def _node(lot: Lot, window: Window, node: Node, figures: Figures) -> Part:
    """Return one node: a ring, with a dot in it for a cleanout, a square beside it for a roof."""
    at = lot.nodes[node.name]
    inflows = [inflow for inflow in lot.job.drain.inflow if inflow.node == node.name]

    def draw(point: Point) -> tuple[Shape, ...]:
        ring = Circle(point, _NODE_MM, Role.PROPOSED, Fill.WHITE)
        dot = (Circle(point, 0.5, Role.PROPOSED, Fill.SOLID),) if node.cleanout else ()
        roof = _corner(point) if any(inflow.kind == "roof" for inflow in inflows) else ()
        return (*roof, ring, *dot)

    words = "\n".join(_node_words(lot, node, inflows, figures))
    return Part(window.symbol(at, draw), window.note(words, at, priority=5, clear_mm=2.4))


def _corner(point: Point) -> tuple[Shape, ...]:
    """Return the small square of a downspout, beside its node."""
    box = Box(point[0], point[1] + 1.2, point[0] + 1.6, point[1] + 2.8).moved(-0.8, 0.0)
    return (Polygon(box.corners, Role.PROPOSED, Fill.WHITE),)


def _node_words(lot: Lot, node: Node, inflows: list[Inflow], figures: Figures) -> Iterator[str]:
    """Return the lines of a node's label."""
    yield f"{node.name}, cleanout" if node.cleanout else node.name
    yield from inflow_words(lot, inflows, figures)


def inflow_words(lot: Lot, inflows: Iterable[Inflow], figures: Figures) -> Iterator[str]:
    """Return one line for each inflow: its kind, area and flow, and whether a pump has air."""
    water = {row.name: figures.flow(row.flow_m3s) for row in lot.study.water.inflows}
    for inflow in inflows:
        said: list[str] = [] if inflow.kind in inflow.name else [inflow.kind]
        said += [inflow.area.shown()] if inflow.area else []
        said += [water[inflow.name]] if inflow.name in water else []
        if inflow.pump:
            said.append("air gap" if inflow.pump.air_gap == "yes" else "no air gap")
        yield f"{inflow.name}: {', '.join(said)}"


def outlet(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return the outlet with what it is."""
    words = _outlet_words(lot, figures, close=window.told)
    if not lot.at_curb:
        shapes = window.symbol(lot.outlet, lambda point: _emitter(window, lot, point))
        return Part(shapes, window.note(words, lot.outlet, priority=8, bold=True, clear_mm=3.0))
    half = lot.half_hole_m
    openings = [mark for x in lot.holes_m for mark in _opening(lot, window, x, half)]
    prefer = (Side.SE, Side.SW, Side.E, Side.W, Side.NE, Side.NW)
    at = (lot.holes_m[0], 0.0)
    note = window.note(words, at, priority=8, bold=True, prefer=prefer, clear_mm=2.5)
    return Part(tuple(openings), note)


def _opening(lot: Lot, window: Window, x: float, half_m: float) -> tuple[Shape, ...]:
    """Return a hole or notch through the curb: its two edges, drawn heavy, and water leaving it."""
    half = half_m if window.mm(half_m) > _OPENING_MM / 2 else window.metres(_OPENING_MM / 2)
    deep = max(lot.curb_back_m, window.metres(0.8))
    edges = tuple(
        mark
        for side in (x - half, x + half)
        for mark in window.line((side, 0.0), (side, deep), Role.PROPOSED)
    )
    leaves = window.symbol(
        (x, 0.0), lambda p: (Arrow((p[0], p[1] - 0.3), (p[0], p[1] - 4.3), Role.WATER, 2.4),)
    )
    return (*edges, *leaves)


def _emitter(window: Window, lot: Lot, point: Point) -> tuple[Shape, ...]:
    """Return an outlet in the lawn: its lid, and its pit to scale below ground."""
    emitter = lot.job.outlet.emitter
    lid = (
        Circle(point, 1.7, Role.PROPOSED, Fill.WHITE),
        Circle(point, 0.6, Role.PROPOSED, Fill.SOLID),
    )
    if emitter is None or not (emitter.pit_length and emitter.pit_width):
        return lid
    half = window.mm(float(emitter.pit_width)) / 2, window.mm(float(emitter.pit_length)) / 2
    x, y = point
    corners = Box(x - half[0], y - half[1], x + half[0], y + half[1]).corners
    return (Polygon(corners, Role.HIDDEN), *lid)


def _outlet_words(lot: Lot, figures: Figures, *, close: bool) -> str:
    """Return the outlet in words."""
    outlet, curb = lot.job.outlet, lot.study.curb
    count = f"{outlet.count} \N{MULTIPLICATION SIGN} " if outlet.count > 1 else ""
    see = ", see section A" if close else ""
    if curb and curb.hole and lot.at_curb:
        return f"OUTLET: {count}{figures.height(curb.hole.bit_m)} hole in the curb{see}"
    if curb and curb.notch and lot.at_curb:
        return f"OUTLET: {count}notch {figures.height(curb.notch.width_m)} wide in the curb{see}"
    if outlet.emitter:
        return f"OUTLET: emitter in the lawn, rim {outlet.emitter.rim.shown()}"
    return f"OUTLET: {count}{outlet.kind}"


def section_line(lot: Lot, window: Window, taken: Sequence[Box]) -> Part:
    """Return the marks of the curb section: street on its left, looking to the left side line.

    Parameters
    ----------
    taken
        Texts that no mark may touch. [mm]
    """
    if not (lot.at_curb and window.told):
        return Part()
    x = lot.holes_m[-1]
    ends = (-lot.pan_m - window.metres(4.4), lot.curb_back_m + window.metres(9.0))
    seen = [window.at(x, y) for y in ends if window.shows(x, y)]
    return Part(tuple(mark for end in seen for mark in _section_end(window, end, taken)))


def _section_end(window: Window, end: Point, taken: Sequence[Box]) -> tuple[Shape, ...]:
    """Return one end of the section line where it has room beside the run, else nothing."""
    for beside in _SECTION_MM:
        middle = (end[0] + beside, end[1])
        box = Box(*middle, *middle).grown(_SECTION_RING_MM)
        if window.room.holds(box) and not any(box.touches(other) for other in taken):
            return section_mark(middle, "A", 180.0)
    return ()


def work_outline(lot: Lot) -> tuple[Point, ...]:
    """Return the limit of work in the right-of-way: the trench and the walk taken out, in m."""
    half = float(lot.job.cut.trench_width or _TRENCH_M) / 2
    front, back, row = lot.walk_front_m, lot.walk_back_m, max(lot.row_m, lot.walk_back_m)
    taken = _taken_out(lot)
    trench = {y: lot.on_run(y)[0] for y in (0.0, front, back, row)}
    left = min(taken.left, trench[front] - half, trench[back] - half)
    right = max(taken.right, trench[front] + half, trench[back] + half)
    return (
        (trench[0.0] + half, 0.0),
        (trench[front] + half, front),
        (right, front),
        (right, back),
        (trench[back] + half, back),
        (trench[row] + half, row),
        (trench[row] - half, row),
        (trench[back] - half, back),
        (left, back),
        (left, front),
        (trench[front] - half, front),
        (trench[0.0] - half, 0.0),
    )


def _taken_out(lot: Lot) -> Box:
    """Return the piece of walk that is taken out, in m."""
    cut = lot.study.cut
    x = lot.on_run((lot.walk_front_m + lot.walk_back_m) / 2)[0]
    return Box(x + cut.removed_left_m, lot.walk_front_m, x + cut.removed_right_m, lot.walk_back_m)


def limit_of_work(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return the outline of the work in the right-of-way, and the walk that is taken out."""
    if not lot.at_curb or lot.study.cut.trench_m <= 0.0:
        return Part()
    shapes = [*_removed(lot, window), *window.area(work_outline(lot), Role.PROPOSED_DIG)]
    at = work_outline(lot)[3]
    words = work_words(lot, figures)
    return Part(tuple(shapes), window.note(words, at, priority=4) if window.told else ())


def work_words(lot: Lot, figures: Figures) -> str:
    """Return the limit of work in words: how long and large the trench is, and the walk lost."""
    cut = lot.study.cut
    trench = f"trench {figures.distance(cut.trench_m)} long"
    trench += f", {figures.area(cut.trench_area_m2)}" if cut.trench_area_m2 else ""
    walk = f"; walk taken out {figures.area(cut.walk_area_m2)}" if cut.walk_area_m2 > 0 else ""
    return f"limit of work in the right-of-way: {trench}{walk}"


def _removed(lot: Lot, window: Window) -> tuple[Shape, ...]:
    """Return the panels that are taken out, crossed by the pattern of what goes."""
    taken = _taken_out(lot)
    return window.hatched(taken.corners, Pattern.REMOVED) if taken.width > 0 else ()
