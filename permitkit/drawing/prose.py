"""Sentences set in columns on the free part of a drawing's room."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.lettering import LINE_PITCH, wrapped
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Anchor, Box, Label, Role

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.shapes import Shape

__all__ = ["Prose", "prose"]

_PITCH_MM = LINE_PITCH * LEAST_LETTERING_MM
_WIDEST_MM = 92.0
_BETWEEN_MM = 4.0
_APART_MM = 0.8
_HEAD_MM = _PITCH_MM + 1.2


class Prose(NamedTuple):
    """Sentences as shapes, the height they take, and those that found no room."""

    shapes: tuple[Shape, ...]
    height_mm: float
    left_over: tuple[str, ...]


def prose(heading: str, texts: Sequence[str], room: Box) -> Prose:
    """Return sentences in columns of equal width that stand on the bottom of a room.

    Parameters
    ----------
    heading
        What stands over the first column.
    texts
        One paragraph each.
    room
        The most they may take. [mm]
    """
    count = max(1, math.ceil(room.width / _WIDEST_MM))
    width = (room.width - (count - 1) * _BETWEEN_MM) / count
    paragraphs = [wrapped(text, width, LEAST_LETTERING_MM) for text in texts]
    kept = _that_fit(paragraphs, count, room.height - _HEAD_MM)
    if not kept:
        return Prose((), 0.0, tuple(texts))
    shared = _level(paragraphs[:kept], count, room.height - _HEAD_MM)
    tall = max(map(_height, shared)) + _HEAD_MM
    top = room.bottom + tall
    shapes: list[Shape] = [_hung((heading,), room.left, top, bold=True)]
    for index, column in enumerate(shared):
        edge = top - _HEAD_MM
        for lines in column:
            shapes.append(_hung(lines, room.left + index * (width + _BETWEEN_MM), edge))
            edge -= len(lines) * _PITCH_MM + _APART_MM
    return Prose(tuple(shapes), tall, tuple(texts[kept:]))


Column = list[tuple[str, ...]]


def _height(column: Column) -> float:
    """Return how tall a column stands, in mm."""
    return sum(len(lines) * _PITCH_MM + _APART_MM for lines in column)


def _flowed(paragraphs: Sequence[tuple[str, ...]], count: int, height: float) -> list[Column] | None:
    """Return paragraphs in columns no taller than a height, or None if they need more columns."""
    columns: list[Column] = [[]]
    for lines in paragraphs:
        if columns[-1] and _height([*columns[-1], lines]) > height:
            columns.append([])
        columns[-1].append(lines)
    fits = len(columns) <= count and all(_height(column) <= height + 1e-6 for column in columns)
    return columns if fits else None


def _that_fit(paragraphs: Sequence[tuple[str, ...]], count: int, height: float) -> int:
    """Return how many of the first paragraphs fit."""
    fitting = (n for n in range(len(paragraphs), 0, -1) if _flowed(paragraphs[:n], count, height))
    return next(fitting, 0)


def _level(paragraphs: Sequence[tuple[str, ...]], count: int, height: float) -> list[Column]:
    """Return paragraphs in columns as level as they come."""
    low = _PITCH_MM
    while (columns := _flowed(paragraphs, count, low)) is None:
        low = min(low + _PITCH_MM / 2, height)
    return columns


def _hung(lines: Sequence[str], left: float, top: float, *, bold: bool = False) -> Label:
    """Return lines of text hung from a corner."""
    return Label("\n".join(lines), (left, top), Anchor.NW, bold=bold, role=Role.NOTE)
