"""Shapes that carry a mark of their own: arrows, leaders and dimensions."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.drawing.placing import stack
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Circle,
    Fill,
    Label,
    Line,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Role,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["HEAD_MM", "Along", "Arrow", "Dimension", "Leader", "arrowhead", "on_tracks"]

HEAD_MM = 2.4
"""Length of the arrowheads of dimensions and leaders. [mm]"""

HEAD_LENGTH_TO_WIDTH = 3.0
"""Shape of an arrowhead: three long to one wide (ASME Y14.2, section 3)."""

_GAP_MM = 1.0
_PAST_MM = 1.6
_TAIL_MM = 5.0
_TEXT_GAP_MM = 0.35


def arrowhead(tip: Point, angle_deg: float, role: Role, length_mm: float = HEAD_MM) -> Polygon:
    """Return a solid arrowhead whose tip points along the angle."""
    back = math.radians(angle_deg + 180)
    half = length_mm / HEAD_LENGTH_TO_WIDTH / 2
    foot = (tip[0] + length_mm * math.cos(back), tip[1] + length_mm * math.sin(back))
    side = (-half * math.sin(back), half * math.cos(back))
    corners = (
        tip,
        (foot[0] + side[0], foot[1] + side[1]),
        (foot[0] - side[0], foot[1] - side[1]),
    )
    return Polygon(corners, role, Fill.SOLID, outlined=False)


def _bearing(start: Point, end: Point) -> float:
    """Return the direction from one point to another, in degrees."""
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def _along(point: Point, angle_deg: float, by: float) -> Point:
    """Return a point so far away in a direction."""
    angle = math.radians(angle_deg)
    return point[0] + by * math.cos(angle), point[1] + by * math.sin(angle)


@dataclass(frozen=True, slots=True)
class Arrow:
    """A line with a head at its end."""

    start: Point
    end: Point
    role: Role
    head_mm: float = 3.0

    def parts(self) -> tuple[Primitive, ...]:
        """Return the shaft, stopped inside the head, and the head."""
        angle = _bearing(self.start, self.end)
        shaft = Line(self.start, _along(self.end, angle, -self.head_mm / 2), self.role)
        return shaft, arrowhead(self.end, angle, self.role, self.head_mm)


@dataclass(frozen=True, slots=True)
class Leader:
    """A thin line from a text to what it speaks of; the first point is the tip.

    A dot ends a leader inside a surface, an arrowhead one at an edge.
    """

    points: tuple[Point, ...]
    label: Label
    role: Role = Role.DIMENSION
    dot: bool = False

    def parts(self) -> tuple[Primitive, ...]:
        """Return the line, its end and the text."""
        tip = self.points[0]
        end: Primitive = Circle(tip, 0.5, self.role, Fill.SOLID, outlined=False)
        if not self.dot:
            end = arrowhead(tip, _bearing(self.points[1], tip), self.role)
        return Polyline(self.points, self.role), end, self.label


class Along(StrEnum):
    """Which length a dimension gives: straight between its points, or one part of it."""

    ALIGNED = "aligned"
    HORIZONTAL = "horizontal"
    VERTICAL = "vertical"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length between two points, with extension lines, heads and its text.

    Parameters
    ----------
    start, end
        The points measured. [mm on paper]
    offset_mm
        How far the dimension line stands from `start`: positive to the left of start to end, up for
        a horizontal one, left for a vertical one. [mm]
    text
        The geometry's own number as printed.
    value_m
        That number, so that length and scale can be set against it. [m]
    along
        Which length is meant.
    size_mm
        Height of capitals. [mm]
    role
        What the dimension belongs to.
    outward_mm
        How far from `end` the text moves out where it does not fit between the heads. [mm]
    said
        What is measured, from the longest phrase on: the first that fits follows the number.
    """

    start: Point
    end: Point
    offset_mm: float
    text: str
    value_m: float
    along: Along = Along.ALIGNED
    size_mm: float = LEAST_LETTERING_MM
    role: Role = Role.DIMENSION
    outward_mm: float = 0.0
    said: tuple[str, ...] = ()

    @property
    def angle_deg(self) -> float:
        """Return the direction of the dimension line, from start to end, in degrees."""
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        if self.along is Along.HORIZONTAL:
            return 0.0 if dx >= 0 else 180.0
        if self.along is Along.VERTICAL:
            return 90.0 if dy >= 0 else -90.0
        return math.degrees(math.atan2(dy, dx))

    @property
    def feet(self) -> tuple[Point, Point]:
        """Return the two ends of the dimension line."""
        angle = math.radians(self.angle_deg)
        ux, uy = math.cos(angle), math.sin(angle)
        across = self._offset_across
        first = (self.start[0] - across * uy, self.start[1] + across * ux)
        reach = (self.end[0] - self.start[0]) * ux + (self.end[1] - self.start[1]) * uy
        return first, (first[0] + reach * ux, first[1] + reach * uy)

    @property
    def _offset_across(self) -> float:
        """Return the offset to the left of the drawn direction."""
        backwards = self.along is not Along.ALIGNED and self.angle_deg in (180.0, -90.0)
        return -self.offset_mm if backwards else self.offset_mm

    @property
    def length_mm(self) -> float:
        """Return the drawn length, in mm."""
        return math.dist(*self.feet)

    @property
    def heads_inside(self) -> bool:
        """Return whether the heads fit between the extension lines."""
        return self.length_mm >= 2 * HEAD_MM + 1.0

    @property
    def label(self) -> Label:
        """Return the text as drawn: above the line, or beyond its end where it does not fit."""
        return _label_of(self)

    @property
    def line_box(self) -> Box:
        """Return the box around the drawn dimension line."""
        return Box.around(self.feet)

    def parts(self) -> tuple[Primitive, ...]:
        """Return extension lines, the dimension line, its heads and the text."""
        return _parts_of(self)


@lru_cache(maxsize=2048)
def _label_of(dimension: Dimension) -> Label:
    """Return the text of a dimension; a sheet asks for it again and again."""
    first, last = dimension.feet
    reading = _readable(dimension.angle_deg)
    middle = ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2)
    above = _along(middle, reading + 90, _TEXT_GAP_MM)
    inside = Label(
        dimension.text,
        above,
        Anchor.S,
        dimension.size_mm,
        reading,
        backing=True,
        role=dimension.role,
    )
    for said in (*(f"{dimension.text} {words}" for words in dimension.said), dimension.text):
        worded = replace(inside, text=said)
        if worded.width_mm <= dimension.length_mm - 1.0:
            return worded
    run = _TAIL_MM + _TEXT_GAP_MM + inside.width_mm / 2 + dimension.outward_mm
    return replace(inside, at=_along(last, dimension.angle_deg, run), anchor=Anchor.C)


@lru_cache(maxsize=2048)
def _parts_of(dimension: Dimension) -> tuple[Primitive, ...]:
    """Return the marks of a dimension; a sheet asks for them again and again."""
    return (*_extensions(dimension), *_line(dimension), dimension.label)


def _extensions(dimension: Dimension) -> tuple[Line, ...]:
    """Return the two extension lines, clear of what is measured and past the dimension line."""
    pairs = zip((dimension.start, dimension.end), dimension.feet, strict=True)
    return tuple(
        Line(_along(point, away, _GAP_MM), _along(foot, away, _PAST_MM), dimension.role)
        for point, foot in pairs
        if math.dist(point, foot) > _GAP_MM
        for away in [_bearing(point, foot)]
    )


def _line(dimension: Dimension) -> tuple[Primitive, ...]:
    """Return the dimension line and its heads, inside or outside."""
    first, last = dimension.feet
    angle, role = dimension.angle_deg, dimension.role
    inside = dimension.heads_inside
    begin = first if inside else _along(first, angle, -_TAIL_MM)
    turned = 180 if inside else 0
    heads = arrowhead(first, angle + turned, role), arrowhead(last, angle + 180 - turned, role)
    return _run(dimension, begin, last), *heads


def _run(dimension: Dimension, first: Point, last: Point) -> Line:
    """Return the dimension line, drawn on to the text where that stands outside."""
    outside = dimension.label.anchor is Anchor.C
    if outside or not dimension.heads_inside:
        last = _along(last, dimension.angle_deg, _TAIL_MM + dimension.outward_mm)
    return Line(first, last, dimension.role)


def on_tracks(
    dimensions: Sequence[Dimension], line_at_mm: float, step_mm: float
) -> tuple[Dimension, ...]:
    """Return a string of dimensions set on parallel lines so that none runs into another.

    Parameters
    ----------
    dimensions
        All horizontal, or all vertical.
    line_at_mm
        Where the first line lies: its height for horizontal ones, its place across for vertical
        ones. [mm]
    step_mm
        From one line to the next, away from what is measured; its sign tells the way. [mm]

    Raises
    ------
    ValueError
        If a dimension is aligned, or they differ.
    """
    ways = {dimension.along for dimension in dimensions}
    if Along.ALIGNED in ways or len(ways) > 1:
        raise ValueError("a string of dimensions is all horizontal or all vertical")
    axis = 0 if Along.HORIZONTAL in ways else 1
    tracks = stack([_reach(dimension, axis) for dimension in dimensions])
    return tuple(
        _moved(dimension, line_at_mm + track * step_mm, axis)
        for dimension, track in zip(dimensions, tracks, strict=True)
    )


def _reach(dimension: Dimension, axis: int) -> tuple[float, float]:
    """Return from where to where a dimension and its text run along their line."""
    box = dimension.label.box
    ends = [foot[axis] for foot in dimension.feet]
    return min(*ends, box[axis]), max(*ends, box[axis + 2])


def _moved(dimension: Dimension, line_at_mm: float, axis: int) -> Dimension:
    """Return the dimension with its line at a place on the sheet."""
    across = dimension.start[1 - axis]
    return replace(dimension, offset_mm=line_at_mm - across if axis == 0 else across - line_at_mm)


def _readable(angle_deg: float) -> float:
    """Return the angle at which a text along a line reads from the bottom or the right."""
    angle = angle_deg % 180
    return angle if angle <= 90 + 1e-9 else angle - 180
