"""Ruled tables as shapes: columns as wide as their texts, long cells broken into lines."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.info import held, loosened
from permitkit.drawing.lettering import text_width_mm, wrapped
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Box, Line, Polygon, Role, Shape
from permitkit.drawing.sheet_parts.text import PITCH_MM, hung

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.shapes import Point

__all__ = [
    "Column",
    "Table",
    "fitted_columns",
    "paired_pages",
    "paired_tables",
    "rows_that_fit",
    "ruled_table",
]

_PAD_MM = 1.2
_ABOVE_MM, _BELOW_MM = 0.7, 0.9
_NARROWEST_MM = 12.0
_BETWEEN_MM = 3.0
_SLACK_MM = 1e-6
_MORE = "\N{HORIZONTAL ELLIPSIS}"

Row = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: what stands over it, and how wide it is, in mm."""

    head: str
    width_mm: float


class Table(NamedTuple):
    """A table as drawn, hung from its top left corner, with its size in mm."""

    shapes: tuple[Shape, ...]
    width_mm: float
    height_mm: float


def fitted_columns(heads: Row, rows: Sequence[Row], room_mm: float) -> tuple[Column, ...]:
    """Return columns as wide as their texts ask for, the widest narrowed until all fit a room.

    Parameters
    ----------
    heads, rows
        The texts; every row has as many cells as there are heads.
    room_mm
        The most that all columns together may take. [mm]
    """
    columns = [
        Column(head, max(_asked(cells, bold=False), _head_width(head)))
        for head, cells in zip(heads, zip(*rows, strict=True), strict=True)
    ]
    over = sum(column.width_mm for column in columns) - room_mm
    while over > _SLACK_MM:
        widest = max(range(len(columns)), key=lambda index: columns[index].width_mm)
        if columns[widest].width_mm <= _NARROWEST_MM:
            break
        columns[widest] = _narrowed(columns[widest], over)
        over = sum(column.width_mm for column in columns) - room_mm
    return tuple(columns)


def _narrowed(column: Column, over_mm: float) -> Column:
    """Return the column a step narrower, no further than is asked or than it can be."""
    step = min(over_mm, 2.0)
    return replace(column, width_mm=max(column.width_mm - step, _NARROWEST_MM))


def _asked(cells: Sequence[str], *, bold: bool) -> float:
    """Return the width at which no cell needs to be broken, in mm."""
    texts = (text_width_mm(cell, LEAST_LETTERING_MM, bold=bold) for cell in cells)
    return max(texts, default=0.0) + 2 * _PAD_MM + 0.1


def _head_width(head: str) -> float:
    """Return the least width at which a head stands in two lines, in mm."""
    words = head.split()
    breaks = [(" ".join(words[:cut]), " ".join(words[cut:])) for cut in range(1, len(words))]
    return min((_asked(lines, bold=True) for lines in breaks), default=_asked(words, bold=True))


def _lines(column: Column, text: str, *, bold: bool = False) -> tuple[str, ...]:
    """Return a cell broken into the lines its column takes."""
    across = column.width_mm - 2 * _PAD_MM
    lines = wrapped(held(text), across, LEAST_LETTERING_MM, bold=bold)
    return tuple(loosened(line) for line in lines)


def _row_height(columns: Sequence[Column], row: Row, *, bold: bool = False) -> float:
    """Return the height of a row, in mm."""
    most = max(
        len(_lines(column, text, bold=bold)) for column, text in zip(columns, row, strict=True)
    )
    return most * PITCH_MM + _ABOVE_MM + _BELOW_MM


def _heads(columns: Sequence[Column]) -> Row:
    return tuple(column.head for column in columns)


def rows_that_fit(columns: Sequence[Column], rows: Sequence[Row], height_mm: float) -> int:
    """Return how many of the first rows a table of a given height takes under its heads."""
    left = height_mm - _row_height(columns, _heads(columns), bold=True)
    for count, row in enumerate(rows):
        left -= _row_height(columns, row)
        if left < -_SLACK_MM:
            return count
    return len(rows)


def ruled_table(columns: Sequence[Column], rows: Sequence[Row], corner: Point) -> Table:
    """Return a table with rules between rows and columns, its heads bold.

    Parameters
    ----------
    columns
        Heads and widths.
    rows
        One text for each column.
    corner
        The top left corner. [mm]
    """
    left, top = corner
    shapes: list[Shape] = []
    edge = top
    for index, row in enumerate((_heads(columns), *rows)):
        head = index == 0
        shapes.extend(_cells(columns, row, (left, edge), bold=head))
        edge -= _row_height(columns, row, bold=head)
        role = Role.FRAME if head else Role.NOTE
        shapes.append(Line((left, edge), (left + _width(columns), edge), role))
    border = Box(left, edge, left + _width(columns), top)
    shapes.extend((*_uprights(columns, border), Polygon(border.corners, Role.FRAME)))
    return Table(tuple(shapes), border.width, border.height)


def paired_tables(heads: Row, rows: Sequence[Row], place: tuple[float, Box]) -> Table:
    """Return two tables side by side, names and statements, each about as high as the other.

    Parameters
    ----------
    heads, rows
        Two texts for each row.
    place
        The width of the names, and the box at whose top they hang. [mm]
    """
    room = place[1]
    columns = _pair(heads, place)
    cut = _fairest(columns, rows)[0]
    left = ruled_table(columns, rows[:cut], (room.left, room.top))
    right = ruled_table(columns, rows[cut:], (room.right - left.width_mm, room.top))
    height = max(left.height_mm, right.height_mm)
    return Table((*left.shapes, *right.shapes), room.width, height)


def _pair(heads: Row, place: tuple[float, Box]) -> tuple[Column, ...]:
    """Return the columns of one of two tables side by side."""
    name_mm, room = place
    across = (room.width - _BETWEEN_MM) / 2
    return Column(heads[0], name_mm), Column(heads[1], across - name_mm)


def _fairest(columns: Sequence[Column], rows: Sequence[Row]) -> tuple[int, float]:
    """Return after which row two tables are most alike in height, and the height of the taller."""
    heights = [_row_height(columns, row) for row in rows]
    cuts = range(1, max(len(rows), 2))
    tall = {cut: max(sum(heights[:cut]), sum(heights[cut:])) for cut in cuts}
    cut = min(cuts, key=lambda count: (tall[count], count))
    return cut, tall[cut] + _row_height(columns, _heads(columns), bold=True)


def paired_pages(heads: Row, rows: Sequence[Row], place: tuple[float, Box]) -> tuple[Table, ...]:
    """Return names and statements as `paired_tables`, on as many pages as they need.

    A statement longer than a page is cut, with an ellipsis at its end.
    """
    columns, tallest = _pair(heads, place), place[1].height + _SLACK_MM
    waiting = [_cut(row, place) for row in rows]
    pages: list[Table] = []
    while waiting:
        counts = range(len(waiting), 0, -1)
        fitting = (n for n in counts if _fairest(columns, waiting[:n])[1] <= tallest)
        count = next(fitting, 1)
        pages.append(paired_tables(heads, waiting[:count], place))
        waiting = waiting[count:]
    return tuple(pages)


def _cut(row: Row, place: tuple[float, Box]) -> Row:
    """Return a row whose statement is no taller than a page."""
    name_mm, room = place
    column = Column("", (room.width - _BETWEEN_MM) / 2 - name_mm)
    lines = _lines(column, row[1])
    most = int((room.height - 4 * PITCH_MM) / PITCH_MM)
    return row if len(lines) <= most else (row[0], " ".join(lines[:most]) + _MORE)


def _width(columns: Sequence[Column]) -> float:
    return sum(column.width_mm for column in columns)


def _cells(columns: Sequence[Column], row: Row, corner: Point, *, bold: bool) -> list[Shape]:
    """Return the texts of one row."""
    left, top = corner
    shapes: list[Shape] = []
    for column, text in zip(columns, row, strict=True):
        lines = _lines(column, text, bold=bold)
        if text:
            shapes.append(hung(lines, (left + _PAD_MM, top - _ABOVE_MM), bold=bold))
        left += column.width_mm
    return shapes


def _uprights(columns: Sequence[Column], border: Box) -> list[Line]:
    """Return the rules between columns."""
    rules: list[Line] = []
    at = border.left
    for column in columns[:-1]:
        at += column.width_mm
        rules.append(Line((at, border.bottom), (at, border.top), Role.NOTE))
    return rules
