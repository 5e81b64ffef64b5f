"""Points and upright boxes on a sheet, in millimetres from its bottom left corner, y up."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["Box", "Point", "arc_points", "circle_points", "turned"]

Point: TypeAlias = tuple[float, float]


class Box(NamedTuple):
    """An upright rectangle, in mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Return the width."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Return the height."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """Return the middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Return the four corners, anticlockwise from the bottom left."""
        left, bottom, right, top = self
        return (left, bottom), (right, bottom), (right, top), (left, top)

    def grown(self, by: float) -> Box:
        """Return the box made larger by so much on each side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def moved(self, dx: float, dy: float) -> Box:
        """Return the box in another place."""
        return Box(self.left + dx, self.bottom + dy, self.right + dx, self.top + dy)

    def touches(self, other: Box) -> bool:
        """Return whether two boxes share more than an edge."""
        left, bottom, right, top = self
        x0, y0, x1, y1 = other
        return left < x1 and x0 < right and bottom < y1 and y0 < top

    def holds(self, other: Box) -> bool:
        """Return whether the other box lies inside this one."""
        left, bottom, right, top = self
        x0, y0, x1, y1 = other
        return left <= x0 and bottom <= y0 and right >= x1 and top >= y1

    @classmethod
    def around(cls, points: Iterable[Point]) -> Box:
        """Return the smallest box around points; at least one is needed."""
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))


def turned(point: Point, about: Point, angle_deg: float) -> Point:
    """Return a point turned anticlockwise about another."""
    if angle_deg == 0:
        return point
    angle = math.radians(angle_deg)
    dx, dy = point[0] - about[0], point[1] - about[1]
    cosine, sine = math.cos(angle), math.sin(angle)
    return about[0] + dx * cosine - dy * sine, about[1] + dx * sine + dy * cosine


def arc_points(
    centre: Point, radius: float, start_deg: float, end_deg: float, step_deg: float = 5.0
) -> tuple[Point, ...]:
    """Return points along an arc, both ends included, no further apart than the step.

    Runs clockwise where the end lies below the start.
    """
    count = max(1, math.ceil(abs(end_deg - start_deg) / step_deg - 1e-9))
    angles = (
        math.radians(start_deg + (end_deg - start_deg) * step / count) for step in range(count + 1)
    )
    x, y = centre
    return tuple((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles)


def circle_points(centre: Point, radius: float, count: int = 72) -> tuple[Point, ...]:
    """Return points round a circle, for regions and holes of hatches."""
    return arc_points(centre, radius, 0.0, 360.0, 360.0 / count)[:-1]
