"""The paper that a drawing leaves blank, and texts poured into it."""

from __future__ import annotations

from functools import reduce
from itertools import pairwise
from operator import or_
from typing import TYPE_CHECKING

from permitkit.drawing.occupancy import CELL_MM, TakenPaper
from permitkit.drawing.shapes import Box, Circle, Fill, Hatch, Label, Picture, Polygon
from permitkit.drawing.sheet import flatten, outline, segments_of
from permitkit.drawing.sheet_parts.prose import Prose, prose

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.shapes import Primitive, Shape

__all__ = ["blanks", "poured"]

_AIR_MM = 2.0
_LEAST_MM = (48.0, 11.0)
_MOST = 3
_GROUP = 4
_COARSE_MM = _GROUP * CELL_MM


def blanks(shapes: Sequence[Shape], room: Box) -> tuple[Box, ...]:
    """Return the largest rectangles of a room that nothing is drawn on, the largest first.

    Parameters
    ----------
    shapes
        What is drawn; whatever is filled or hatched is taken whole.
    room
        Where to look. [mm]

    Returns
    -------
    tuple of Box
        At most three that do not overlap, each wide and tall enough for a few lines of text.
    """
    paper = TakenPaper(room)
    for box in _covered(shapes):
        paper.take(box.grown(_AIR_MM))
    paper.draw(segments_of(shapes))
    found: list[Box] = []
    for _ in range(_MOST):
        largest = _largest(paper, room)
        if largest is None:
            break
        found.append(largest)
        paper.take(largest)
    return tuple(box.grown(-_AIR_MM / 2) for box in found)


def _covered(shapes: Sequence[Shape]) -> Iterator[Box]:
    """Yield the boxes of texts and of surfaces that are covered."""
    for mark in flatten(shapes):
        if isinstance(mark, Label):
            yield from mark.boxes
        elif isinstance(mark, Hatch | Picture) or _filled(mark):
            yield Box.around(outline(mark))


def _filled(mark: Primitive) -> bool:
    return isinstance(mark, Polygon | Circle) and mark.fill is not Fill.NONE


def _largest(paper: TakenPaper, room: Box) -> Box | None:
    """Return the largest free rectangle that is wide and tall enough for text, if there is one."""
    columns = int(room.width / _COARSE_MM)
    wide, tall = (round(least / _COARSE_MM) for least in _LEAST_MM)
    heights = [0] * columns
    area, best = 0, None
    rows = _coarse(paper, int(room.height / _COARSE_MM))
    for row, (taken, above) in enumerate(pairwise((*rows, -1)), 1):
        cells = f"{taken:0{columns}x}"[::-1]
        heights = [
            tops + 1 if cell == "0" else 0 for cell, tops in zip(cells, heights, strict=False)
        ]
        if above & ~taken == 0 or max(heights) < tall:
            continue
        for left, right, height in _rectangles(heights, wide, tall):
            if (right - left) * height > area:
                area = (right - left) * height
                best = _box(room, (left, right), (row - height, row))
    return best


def _coarse(paper: TakenPaper, count: int) -> list[int]:
    """Return what is taken of the lowest coarse rows; a hexadecimal digit is a coarse cell."""
    groups = (paper.rows[row * _GROUP : (row + 1) * _GROUP] for row in range(count))
    return [reduce(or_, bits, 0) for bits in groups]


def _box(room: Box, across: tuple[int, int], up: tuple[int, int]) -> Box:
    """Return a rectangle of coarse cells as it lies in a room."""
    left, right = (room.left + edge * _COARSE_MM for edge in across)
    bottom, top = (room.bottom + edge * _COARSE_MM for edge in up)
    return Box(left, bottom, right, top)


def _rectangles(heights: Sequence[int], wide: int, tall: int) -> Iterator[tuple[int, int, int]]:
    """Yield the rectangles under a skyline, as columns from and to, and height; no small ones."""
    open_: list[tuple[int, int]] = []
    for column, height in enumerate((*heights, 0)):
        left = column
        while open_ and open_[-1][1] >= height:
            left, top = open_.pop()
            if top >= tall and column - left >= wide:
                yield left, column, top
        open_.append((left, height))


def poured(heading: str, texts: Sequence[str], boxes: Sequence[Box]) -> Prose:
    """Return texts in as many boxes as they need, hung from the top of each.

    Parameters
    ----------
    heading
        What stands over them in each box.
    texts
        One paragraph each.
    boxes
        Where they may stand, in the order in which they are filled. [mm]
    """
    shapes: list[Shape] = []
    waiting, tall = tuple(texts), 0.0
    for box in boxes:
        said = prose(heading, waiting, box)
        if said.shapes:
            lifted = box.moved(0.0, box.height - said.height_mm)
            shapes.extend(prose(heading, waiting, lifted).shapes)
            waiting, tall = said.left_over, tall + said.height_mm
    return Prose(tuple(shapes), tall, waiting)
