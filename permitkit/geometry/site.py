"""The site in plan: distances along the frontage and between shapes.

x runs along the curb from the left side line, seen from the street; y is the distance behind the
curb face.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.geometry.shape import (
    ImpossibleShape,
    Point,
    above_zero,
    finite,
    zero_or_more,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "along",
    "bounds",
    "centroid",
    "clear_between",
    "edge_to_point",
    "inside",
    "joints_beside",
    "path_length",
    "rectangle",
    "strip_along",
    "to_path",
    "to_segment",
]


def edge_to_point(hole_x_m: float, bit_m: float, feature_x_m: float) -> float:
    """Return the curb left between a hole's edge and a feature, in m; below zero if it cuts it.

    Parameters
    ----------
    hole_x_m, bit_m
        Station of the hole's centre, and its diameter. [m]
    feature_x_m
        Station of the joint, flare or side line. [m]

    Examples
    --------
    >>> round(edge_to_point(3.0, 0.1016, 3.6604), 4)
    0.6096
    """
    away = abs(finite("feature station", feature_x_m) - finite("hole station", hole_x_m))
    return away - above_zero("bit", bit_m) / 2.0


def clear_between(
    first_x_m: float, second_x_m: float, first_bit_m: float, second_bit_m: float
) -> float:
    """Return the curb left between two holes, in m; below zero where they run together.

    Examples
    --------
    >>> round(clear_between(3.0, 3.5, 0.1, 0.1), 3)
    0.4
    """
    away = abs(finite("station", first_x_m) - finite("station", second_x_m))
    return away - (above_zero("bit", first_bit_m) + above_zero("bit", second_bit_m)) / 2.0


def joints_beside(joints_m: Sequence[float], x_m: float) -> tuple[float | None, float | None]:
    """Return the nearest joints left (or at) and right of a station, in m; None beyond the last.

    Examples
    --------
    >>> joints_beside([0.0, 3.0, 6.0], 4.0)
    (3.0, 6.0)
    """
    left = [joint for joint in joints_m if joint <= x_m]
    right = [joint for joint in joints_m if joint > x_m]
    return max(left, default=None), min(right, default=None)


def to_segment(point: Point, start: Point, end: Point) -> tuple[float, Point]:
    """Return the distance from a point to a line between two points, in m, and where it is met.

    Examples
    --------
    >>> to_segment((1.0, 2.0), (0.0, 0.0), (4.0, 0.0))
    (2.0, (1.0, 0.0))
    """
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    reach = (point[0] - start[0]) * dx + (point[1] - start[1]) * dy
    share = min(max(reach / square, 0.0), 1.0) if square else 0.0
    foot = (start[0] + share * dx, start[1] + share * dy)
    return math.dist(point, foot), foot


def to_path(point: Point, path: Sequence[Point]) -> float:
    """Return the distance from a point to a path, in m.

    Raises
    ------
    ImpossibleShape
        If the path has fewer than two points.

    Examples
    --------
    >>> to_path((3.0, 1.0), [(0.0, 0.0), (2.0, 0.0), (2.0, 5.0)])
    1.0
    """
    _is_path(path)
    return min(to_segment(point, start, end)[0] for start, end in pairwise(path))


def path_length(path: Sequence[Point]) -> float:
    """Return the length of a path, in m.

    Examples
    --------
    >>> path_length([(0.0, 0.0), (3.0, 4.0), (3.0, 5.0)])
    6.0
    """
    _is_path(path)
    return sum(math.dist(start, end) for start, end in pairwise(path))


def along(path: Sequence[Point], distance_m: float) -> Point:
    """Return the point at a distance along a path; beyond its end, the end.

    Examples
    --------
    >>> along([(0.0, 0.0), (3.0, 4.0)], 2.5)
    (1.5, 2.0)
    """
    _is_path(path)
    left = zero_or_more("distance", distance_m)
    for start, end in pairwise(path):
        length = math.dist(start, end)
        if left <= length and length:
            share = left / length
            return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
        left -= length
    return path[-1]


def rectangle(left_m: float, right_m: float, near_m: float, far_m: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle in plan, anticlockwise from the near left.

    Raises
    ------
    ImpossibleShape
        If it has no width or no depth.

    Examples
    --------
    >>> rectangle(0.0, 2.0, 1.0, 3.0)[2]
    (2.0, 3.0)
    """
    above_zero("width", right_m - left_m)
    above_zero("depth", far_m - near_m)
    return (left_m, near_m), (right_m, near_m), (right_m, far_m), (left_m, far_m)


def strip_along(start: Point, end: Point, width_m: float) -> tuple[Point, ...]:
    """Return the corners of a strip of a width about a line, such as a trench in plan.

    Raises
    ------
    ImpossibleShape
        If the line has no length, or the width is zero or less.

    Examples
    --------
    >>> strip_along((0.0, 0.0), (4.0, 0.0), 1.0)[0]
    (0.0, -0.5)
    """
    length = above_zero("length", math.dist(start, end))
    half = above_zero("width", width_m) / 2.0
    nx, ny = -(end[1] - start[1]) / length * half, (end[0] - start[0]) / length * half
    return (
        (start[0] - nx, start[1] - ny),
        (end[0] - nx, end[1] - ny),
        (end[0] + nx, end[1] + ny),
        (start[0] + nx, start[1] + ny),
    )


def bounds(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Return least x, least y, greatest x, greatest y of some points, in m.

    Examples
    --------
    >>> bounds([(1.0, 5.0), (3.0, 2.0)])
    (1.0, 2.0, 3.0, 5.0)
    """
    if not points:
        raise ImpossibleShape("no points, no bounds")
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def centroid(polygon: Sequence[Point]) -> Point:
    """Return the centre of area of a polygon.

    Raises
    ------
    ImpossibleShape
        If it encloses nothing.

    References
    ----------
    .. [1] Gauss's area formula, first moments

    Examples
    --------
    >>> centroid(rectangle(0.0, 2.0, 0.0, 4.0))
    (1.0, 2.0)
    """
    closed = [*polygon, *polygon[:1]]
    crosses = [x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise(closed)]
    if not sum(crosses):
        raise ImpossibleShape("a polygon without area has no centre")
    edges = list(zip(pairwise(closed), crosses, strict=True))
    x = sum((a[0] + b[0]) * cross for (a, b), cross in edges)
    y = sum((a[1] + b[1]) * cross for (a, b), cross in edges)
    return x / (3.0 * sum(crosses)), y / (3.0 * sum(crosses))


def inside(point: Point, polygon: Sequence[Point]) -> bool:
    """Tell whether a point lies inside a polygon, by counting the sides to its right.

    Examples
    --------
    >>> square = rectangle(0.0, 2.0, 0.0, 2.0)
    >>> inside((1.0, 1.0), square), inside((3.0, 1.0), square)
    (True, False)
    """
    crossings = 0
    for (x0, y0), (x1, y1) in pairwise([*polygon, *polygon[:1]]):
        if (y0 > point[1]) != (y1 > point[1]):
            meets = x0 + (point[1] - y0) * (x1 - x0) / (y1 - y0)
            crossings += meets > point[0]
    return crossings % 2 == 1


def _is_path(path: Sequence[Point]) -> None:
    if len(path) < 2:  # noqa: PLR2004 - a line has two ends
        raise ImpossibleShape("a path needs two points or more")
