"""The record of one sheet, and the ways of walking through its shapes."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import (
    Arc,
    Box,
    Circle,
    Hatch,
    Label,
    Line,
    Pattern,
    Picture,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Role,
    Shape,
    arc_points,
    circle_points,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

__all__ = [
    "Sheet",
    "extent",
    "flatten",
    "inked",
    "labels_of",
    "outline",
    "outside",
    "segments_of",
]

_PRIMITIVES = frozenset((Line, Polyline, Polygon, Circle, Arc, Hatch, Label, Picture))


def flatten(shapes: Iterable[Shape]) -> Iterator[Primitive]:
    """Return the marks that shapes are drawn with, in drawing order."""
    for shape in shapes:
        if type(shape) in _PRIMITIVES:
            yield shape  # type: ignore[misc]  # the type says so, and fast
        else:
            yield from shape.parts()  # type: ignore[union-attr]  # as above


def inked(shapes: Iterable[Shape]) -> tuple[Primitive, ...]:
    """Return the marks in the order they are drawn in: texts last, so that no stroke crosses one.

    The white behind a text then breaks whatever line passes there.
    """
    marks = list(flatten(shapes))
    return (
        *(mark for mark in marks if not isinstance(mark, Label)),
        *(mark for mark in marks if isinstance(mark, Label)),
    )


def labels_of(shapes: Iterable[Shape]) -> tuple[Label, ...]:
    """Return every text in shapes, those of dimensions and leaders too."""
    return tuple(mark for mark in flatten(shapes) if isinstance(mark, Label))


def outline(mark: Primitive) -> tuple[Point, ...]:
    """Return points whose hull holds the mark."""
    match mark:
        case Line():
            return mark.start, mark.end
        case Circle():
            x, y = mark.centre
            radius = mark.radius_mm
            return (x - radius, y - radius), (x + radius, y + radius)
        case Arc():
            return arc_points(mark.centre, mark.radius_mm, mark.start_deg, mark.end_deg)
        case Hatch():
            return mark.region
        case Label() | Picture():
            return mark.corners
        case _:
            return mark.points


def segments_of(shapes: Iterable[Shape]) -> Iterator[tuple[Point, Point]]:
    """Return every straight stroke of shapes, curves cut short; texts and hatches have none."""
    for mark in flatten(shapes):
        match mark:
            case Label() | Hatch():
                continue
            case Circle():
                points = circle_points(mark.centre, mark.radius_mm, 24)
            case _:
                points = outline(mark)
        yield from pairwise(points)
        closed = isinstance(mark, Polyline) and mark.closed
        if closed or isinstance(mark, Polygon | Circle | Picture):
            yield points[-1], points[0]


def outside(shapes: Iterable[Shape], room: Box, slack_mm: float = 1e-6) -> tuple[Primitive, ...]:
    """Return the marks that reach beyond a room, so that none is cut off unseen.

    Parameters
    ----------
    shapes
        What is drawn.
    room
        Where it should be. [mm]
    slack_mm
        What is put down to rounding. [mm]
    """
    wide = room.grown(slack_mm)
    return tuple(mark for mark in flatten(shapes) if not wide.holds(Box.around(outline(mark))))


def extent(shapes: Iterable[Shape]) -> Box:
    """Return the box around all marks of some shapes; at least one mark is needed."""
    return Box.around(point for mark in flatten(shapes) for point in outline(mark))


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of paper and everything on it: the record a renderer draws.

    Parameters
    ----------
    width_mm, height_mm
        Size of the paper. [mm]
    title
        What the sheet is called in the bookmarks.
    shapes
        In drawing order; later shapes cover earlier ones, and texts cover all others.
    scale_text
        The scale as printed, or that there is none.
    number
        The sheet's number as printed.
    left_over
        Notes and key texts that found no room here and belong on a continuation sheet.
    unexplained
        Entries of the legend that found none either: what is used, and its words.
    """

    width_mm: float
    height_mm: float
    title: str
    shapes: tuple[Shape, ...]
    scale_text: str = ""
    number: str = ""
    left_over: tuple[str, ...] = ()
    unexplained: tuple[tuple[Role | Pattern, str], ...] = ()

    @property
    def paper(self) -> Box:
        """Return the edge of the paper."""
        return Box(0.0, 0.0, self.width_mm, self.height_mm)

    @property
    def primitives(self) -> tuple[Primitive, ...]:
        """Return every mark on the sheet."""
        return tuple(flatten(self.shapes))

    @property
    def labels(self) -> tuple[Label, ...]:
        """Return every text on the sheet."""
        return labels_of(self.shapes)

    @property
    def label_boxes(self) -> tuple[tuple[Label, Box], ...]:
        """Return every text with each of the boxes it covers, for the collision test."""
        return tuple((label, box) for label in self.labels for box in label.boxes)
