"""A legend and sentences set in columns on the free part of a drawing's room."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.dimensions import Leader
from permitkit.drawing.frame.legend import LEGEND_WORDS, legend_entries, legend_item
from permitkit.drawing.info import held, loosened
from permitkit.drawing.lettering import LINE_PITCH, wrapped
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Anchor, Box, Label, Role

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.drawing.shapes import Pattern, Shape

__all__ = ["NO_LEGEND", "Prose", "legend", "plain", "prose"]

_PITCH_MM = LINE_PITCH * LEAST_LETTERING_MM
_WIDEST_MM = 92.0
_BETWEEN_MM = 4.0
_APART_MM = 0.8
_HEAD_MM = _PITCH_MM + 1.2
_ENTRY_MM = 58.0


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
    paragraphs = [_lines(text, width) for text in texts]
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


def _flowed(
    paragraphs: Sequence[tuple[str, ...]], count: int, height: float
) -> list[Column] | None:
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


def _lines(text: str, width: float) -> tuple[str, ...]:
    """Return a sentence broken into lines, never between a number and its unit."""
    return tuple(loosened(line) for line in wrapped(held(text), width, LEAST_LETTERING_MM))


def _hung(lines: Sequence[str], left: float, top: float, *, bold: bool = False) -> Label:
    """Return lines of text hung from a corner."""
    return Label("\n".join(lines), (left, top), Anchor.NW, bold=bold, role=Role.NOTE)


NO_LEGEND: Mapping[Role | Pattern, str] = dict.fromkeys(LEGEND_WORDS, "")
"""For `framed`, where a view sets its legend itself."""


def legend(drawn: Sequence[Shape], words: Mapping[Role | Pattern, str], room: Box) -> Prose:
    """Return the legend of a drawing in columns on the bottom of a room; nothing if too tall.

    Parameters
    ----------
    drawn
        The drawing.
    words
        Phrases in place of the usual ones; an empty one leaves the entry out.
    room
        The most it may take. [mm]
    """
    count = max(1, int(room.width / _ENTRY_MM))
    width = room.width / count
    items = [legend_item(entry, width - _BETWEEN_MM) for entry in legend_entries(drawn, words)]
    rows = [items[start : start + count] for start in range(0, len(items), count)]
    tall = _HEAD_MM + sum(max(item.height for item in row) for row in rows)
    if not items or tall > room.height:
        return Prose((), 0.0, ())
    top = room.bottom + tall
    shapes: list[Shape] = [_hung(("Legend",), room.left, top, bold=True)]
    edge = top - _HEAD_MM
    for row in rows:
        for index, item in enumerate(row):
            shapes.extend(item.draw(room.left + index * width, edge))
        edge -= max(item.height for item in row)
    return Prose(tuple(shapes), tall, ())


def plain(shape: Shape) -> Shape:
    """Return a text or a leader whose spaces are plain ones."""
    if isinstance(shape, Leader):
        return replace(shape, label=_plain(shape.label))
    return _plain(shape) if isinstance(shape, Label) else shape


def _plain(label: Label) -> Label:
    return replace(label, text=loosened(label.text))
