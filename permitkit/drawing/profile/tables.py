"""What stands in rows under a profile: bands of pipe, surface and land, and the tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.profile.axes import PIPE_BAND_MM, Band, Cell
from permitkit.drawing.profile.course import spare_m
from permitkit.drawing.profile.crossings import hand_dug_m
from permitkit.drawing.profile.tags import station_text
from permitkit.drawing.shapes import Pattern
from permitkit.drawing.sheet_parts.table import fitted_columns, rows_that_fit, ruled_table
from permitkit.drawing.sheet_parts.text import PITCH_MM, hung
from permitkit.drawing.sheet_parts.written import speed_text
from permitkit.model.drain import OUTLET
from permitkit.study.results import WATERS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.shapes import Box, Shape
    from permitkit.drawing.sheet_parts.table import Row
    from permitkit.study.results import NodeWater, ReachWater

__all__ = ["TableRows", "band_rows", "node_table", "pipe_words", "reach_table", "tables_on"]

TableRows = tuple[tuple[str, ...], list[tuple[str, ...]]]
"""Heads and rows of a table."""

_GAP_MM = 3.0
_NODE = "Node"
_NODES_NOTE = "Water stands at these levels at design flow, the gutter as the heads say."
_LOT = "the lot"
_SAME_M = 1e-6


def node_table(course: Course) -> tuple[Row, list[Row]]:
    """Return heads and rows of the table of nodes, the farthest first, branches after the trunk."""
    waters = WATERS if course.curb else WATERS[:1]
    names = ("free", "running", "curb-full") if course.curb else ("flowing",)
    heads = (
        _NODE,
        "Station",
        "Ground",
        "Invert",
        "Lowest opening",
        *(f"Water, {name}" for name in names),
        "Least spare",
    )
    return heads, [_node_row(course, node, waters) for node in _nodes(course)]


def _nodes(course: Course) -> list[NodeWater]:
    """Return the trunk from the far end to the outlet, then the branches."""
    names = {node.name for node in course.trunk}
    off = [node for node in course.study.water.nodes if node.name not in names]
    return [*reversed(course.trunk), *off]


def _node_row(course: Course, node: NodeWater, waters: tuple[str, ...]) -> Row:
    """Return one node; water levels are those at design flow."""
    write = course.figures
    return (
        node.name,
        station_text(course, node),
        write.at_level(node.ground_m),
        write.at_level(node.invert_m),
        _opening(course, node),
        *(write.at_level(node.flowing_m[name]) for name in waters),
        _spare(course, node),
    )


def _opening(course: Course, node: NodeWater) -> str:
    """Return the opening of a node, or that there is none."""
    if node.name == OUTLET:
        return "outlet"
    given = course.given.get(node.name)
    cleanout = ", cleanout" if given and given.cleanout else ""
    if node.opening_m is None:
        return f"sealed{cleanout}"
    return f"{course.figures.at_level(node.opening_m)} {node.opening_kind}{cleanout}"


def _spare(course: Course, node: NodeWater) -> str:
    """Return the height to spare at a node over the highest water, still or flowing."""
    spare = spare_m(node)
    if spare is None:
        return "-"
    write = course.figures.height
    return write(spare) if spare >= 0.0 else f"short {write(-spare)}"


def reach_table(course: Course) -> tuple[Row, list[Row]]:
    """Return heads and rows of the table of reaches, the farthest first."""
    heads = (
        "Reach",
        "Length",
        "Pipe",
        "Slope",
        "Bends",
        "Flow",
        "Full flow",
        "Normal depth",
        "Velocity",
    )
    reaches = sorted(course.study.water.reaches, key=lambda reach: -reach.station_high_m)
    return heads, [_reach_row(course, reach) for reach in reaches]


def _reach_row(course: Course, reach: ReachWater) -> Row:
    """Return one reach."""
    write = course.figures
    twin = f"{reach.barrels} x " if reach.barrels > 1 else ""
    bends = ", ".join(f"{bend:g}" for bend in reach.bends_deg)
    return (
        reach.name,
        write.distance(reach.length_m),
        f"{twin}{reach.pipe.name}",
        write.slope(reach.slope),
        f"{bends} deg" if bends else "-",
        write.flow(reach.flow_m3s),
        write.flow(reach.full_flow_m3s),
        _depth(course, reach),
        speed_text(write, reach.velocity_ms),
    )


def _depth(course: Course, reach: ReachWater) -> str:
    """Return the normal depth, or that the pipe is over its full flow."""
    if reach.normal_depth_m is None:
        return "runs full"
    return course.figures.height(reach.normal_depth_m)


def band_rows(course: Course, hand_dig_m: float | None) -> tuple[Band, ...]:
    """Return the bands from the top; digging by hand only where marks and their distance are known.

    Parameters
    ----------
    course
        What is drawn.
    hand_dig_m
        How near a marked line digging must be by hand. [m]
    """
    rows = [_pipes(course), _surfaces(course), _land(course)]
    if hand_dig_m:
        cells = [
            Cell(*ends, ("dig by hand", "by hand", "hand")) for ends in _dug(course, hand_dig_m)
        ]
        rows.extend([Band("dig", tuple(cells), pattern=Pattern.SAND)] if cells else [])
    return tuple(rows)


def _dug(course: Course, hand_dig_m: float) -> list[tuple[float, float]]:
    """Return the stretches dug by hand that lie on the run."""
    top = course.trunk[-1].station_m
    return [(max(low, 0.0), min(high, top)) for low, high in hand_dug_m(course, hand_dig_m)]


def _pipes(course: Course) -> Band:
    """Return the reaches with their length, pipe and slope."""
    cells = (
        Cell(reach.station_low_m, reach.station_high_m, pipe_words(course, reach), reach.name)
        for reach in course.reaches
    )
    return Band("pipe", tuple(cells), PIPE_BAND_MM)


def pipe_words(course: Course, reach: ReachWater) -> tuple[str, ...]:
    """Return a reach in words, the longest first; the shortest are its slope and nothing else."""
    write = course.figures
    twin = f"{reach.barrels} x " if reach.barrels > 1 else ""
    length, slope = write.distance(reach.length_m), write.slope(reach.slope)
    return f"{length} of {twin}{reach.pipe.name} at {slope}", f"{length} at {slope}", slope


def _surfaces(course: Course) -> Band:
    """Return the surfaces over the run from the street up."""
    cells = []
    if course.curb:
        pan = "gutter" if course.job.gutter.pan_width else "street"
        cells.append(Cell(-course.street_m, 0.0, (pan,)))
    cells.extend(
        Cell(stretch.low_m, stretch.high_m, (stretch.surface,))
        for stretch in course.ground.stretches
        if stretch.surface != "drive"
    )
    behind = max((stretch.high_m for stretch in course.ground.stretches), default=0.0)
    for reach in course.reaches:
        own = reach.surfaces[-1] if reach.surfaces else "lawn"
        low = max(reach.station_low_m, behind)
        if low >= reach.station_high_m:
            continue
        if cells and cells[-1].texts == (own,) and abs(cells[-1].high_m - low) < _SAME_M:
            low = cells.pop().low_m
        cells.append(Cell(low, reach.station_high_m, (own,)))
    return Band("above", tuple(cells))


def _land(course: Course) -> Band:
    """Return which part of the run lies in the right-of-way and which on the lot."""
    low, high = course.span_m
    row = course.ground.row_m
    sides = (
        (low, min(row, high), ("right-of-way", "r.o.w.")),
        (max(row, low), high, (_LOT, "lot")),
    )
    return Band("land", tuple(Cell(*side) for side in sides if side[1] > side[0]))


def tables_on(room: Box, waiting: Sequence[TableRows]) -> tuple[list[Shape], list[TableRows]]:
    """Return the tables that a room takes, hung from its top, and those that wait for the next."""
    shapes: list[Shape] = []
    top, left_over = room.top, list(waiting)
    while left_over:
        heads, rows = left_over[0]
        columns = fitted_columns(heads, rows, room.width)
        count = rows_that_fit(columns, rows, top - room.bottom)
        if not count:
            break
        table = ruled_table(columns, rows[:count], (room.left, top))
        shapes.extend(table.shapes)
        top -= table.height_mm + _GAP_MM
        left_over = left_over[1:] if count == len(rows) else [(heads, rows[count:]), *left_over[1:]]
        if count < len(rows):
            break
        if heads[0] == _NODE and top - PITCH_MM > room.bottom:
            shapes.append(hung((_NODES_NOTE,), (room.left, top)))
            top -= PITCH_MM + _GAP_MM
    return shapes, left_over
