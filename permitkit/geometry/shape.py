"""Lines and arcs, outlines made of them, and what they enclose."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

__all__ = [
    "NEAR_M",
    "Arc",
    "ImpossibleShape",
    "Line",
    "Piece",
    "Point",
    "above_zero",
    "enclosed_area",
    "finite",
    "piece_points",
    "polygon_area",
    "rounded",
    "zero_or_more",
]

NEAR_M = 1e-9
Point = tuple[float, float]


class ImpossibleShape(ValueError):  # noqa: N818 - the shape is what is wrong
    """Sizes that make no shape; the message names them."""


def finite(name: str, value: float) -> float:
    """Return `value`, or raise `ImpossibleShape` if it is not a finite number."""
    if not math.isfinite(value):
        raise ImpossibleShape(f"{name} must be a finite number, not {value!r}")
    return value


def above_zero(name: str, value: float) -> float:
    """Return `value`, or raise `ImpossibleShape` unless it is finite and more than zero."""
    if finite(name, value) <= 0.0:
        raise ImpossibleShape(f"{name} must be more than zero, not {value!r}")
    return value


def zero_or_more(name: str, value: float) -> float:
    """Return `value`, or raise `ImpossibleShape` if it is not finite or is below zero."""
    if finite(name, value) < 0.0:
        raise ImpossibleShape(f"{name} must not be below zero, not {value!r}")
    return value


@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece from start to end, in m."""

    start: Point
    end: Point

    def points(self, chord_m: float) -> tuple[Point, ...]:  # noqa: ARG002 - as an arc's
        """Return its two ends."""
        return self.start, self.end

    def heights_at(self, x_m: float) -> tuple[float, ...]:
        """Return the heights at which it crosses x: none, one, or both ends if upright."""
        (x0, y0), (x1, y1) = self.start, self.end
        if not min(x0, x1) - NEAR_M <= x_m <= max(x0, x1) + NEAR_M:
            return ()
        if abs(x1 - x0) <= NEAR_M:
            return y0, y1
        return (y0 + (y1 - y0) * (x_m - x0) / (x1 - x0),)

    def offsets_at(self, height_m: float) -> tuple[float, ...]:
        """Return the x at which it crosses a height: none, one, or both ends if level."""
        turned = Line(self.start[::-1], self.end[::-1])
        return turned.heights_at(height_m)


@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of a circle.

    Parameters
    ----------
    centre, radius_m
        Of the circle. [m]
    start_rad, sweep_rad
        Angle at which it starts, from the x axis anticlockwise, and the angle it turns through:
        positive anticlockwise. [rad]
    """

    centre: Point
    radius_m: float
    start_rad: float
    sweep_rad: float

    def at(self, share: float) -> Point:
        """Return the point at a share of the sweep, 0 to 1."""
        angle = self.start_rad + self.sweep_rad * share
        return (
            self.centre[0] + self.radius_m * math.cos(angle),
            self.centre[1] + self.radius_m * math.sin(angle),
        )

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.at(0.0)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.at(1.0)

    def points(self, chord_m: float) -> tuple[Point, ...]:
        """Return points along it, no further apart than a chord."""
        count = max(math.ceil(abs(self.sweep_rad) * self.radius_m / chord_m), 1)
        return tuple(self.at(step / count) for step in range(count + 1))

    def heights_at(self, x_m: float) -> tuple[float, ...]:
        """Return the heights at which it crosses x: none, one or two."""
        return tuple(y for _, y in self._crossings(x_m - self.centre[0], upright=True))

    def offsets_at(self, height_m: float) -> tuple[float, ...]:
        """Return the x at which it crosses a height: none, one or two."""
        return tuple(x for x, _ in self._crossings(height_m - self.centre[1], upright=False))

    def _crossings(self, away_m: float, *, upright: bool) -> Iterator[Point]:
        """Yield where a line this far from the centre crosses the arc."""
        if abs(away_m) > self.radius_m + NEAR_M:
            return
        half = math.sqrt(max(self.radius_m**2 - away_m**2, 0.0))
        for other in {half, -half}:
            dx, dy = (away_m, other) if upright else (other, away_m)
            if self._holds(math.atan2(dy, dx)):
                yield self.centre[0] + dx, self.centre[1] + dy

    def _holds(self, angle_rad: float) -> bool:
        """Tell whether an angle lies within the sweep."""
        turned = (angle_rad - self.start_rad) * math.copysign(1.0, self.sweep_rad)
        slack = NEAR_M / self.radius_m
        return (turned + slack) % math.tau <= abs(self.sweep_rad) + 2.0 * slack


Piece = Line | Arc


def rounded(corners: Sequence[tuple[float, float, float]], *, closed: bool) -> tuple[Piece, ...]:
    """Return lines through corners, each rounded by its radius.

    Parameters
    ----------
    corners
        x, y and radius of each; the radius of the ends of an open line is not used. [m]
    closed
        Join the last to the first.

    Raises
    ------
    ImpossibleShape
        If two rounds would overlap on the line between them.

    Examples
    --------
    >>> square = [(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 1.0, 0.5), (0.0, 1.0, 0.0)]
    >>> round(enclosed_area(rounded(square, closed=True)), 4)
    0.9463
    """
    count = len(corners)
    inner = range(count) if closed else range(1, count - 1)
    rounds = {i: _round(corners[i - 1], corners[i], corners[(i + 1) % count]) for i in inner}
    pieces: list[Piece] = []
    for i in range(count if closed else count - 1):
        after = (i + 1) % count
        leave, arrive = rounds.get(i), rounds.get(after)
        start = leave.end if leave else corners[i][:2]
        end = arrive.start if arrive else corners[after][:2]
        taken = sum(one.tangent_m for one in (leave, arrive) if one)
        room = math.dist(corners[i][:2], corners[after][:2]) - taken
        if room < -NEAR_M:
            raise ImpossibleShape(
                f"rounds overlap by {-room:.4g} m between corners {i} and {after}"
            )
        if room > NEAR_M:
            pieces.append(Line(start, end))
        if arrive and arrive.arc:
            pieces.append(arrive.arc)
    return tuple(pieces)


@dataclass(frozen=True, slots=True)
class _Round:
    """A corner's round: where it starts and ends, how far from the corner, and its arc."""

    start: Point
    end: Point
    tangent_m: float
    arc: Arc | None


def _round(
    before: tuple[float, float, float],
    corner: tuple[float, float, float],
    after: tuple[float, float, float],
) -> _Round:
    """Return the round of one corner; one of no radius, or of no turn, has no arc."""
    x, y, radius = corner
    into = math.atan2(y - before[1], x - before[0])
    turn = math.remainder(math.atan2(after[1] - y, after[0] - x) - into, math.tau)
    tangent = zero_or_more("radius", radius) * abs(math.tan(turn / 2.0))
    if tangent <= NEAR_M:
        return _Round((x, y), (x, y), 0.0, None)
    side = math.copysign(math.pi / 2.0, turn)
    start = (x - tangent * math.cos(into), y - tangent * math.sin(into))
    centre = (
        start[0] + radius * math.cos(into + side),
        start[1] + radius * math.sin(into + side),
    )
    arc = Arc(centre, radius, into - side, turn)
    return _Round(start, arc.end, tangent, arc)


def piece_points(pieces: Iterable[Piece], chord_m: float = 0.002) -> tuple[Point, ...]:
    """Return the points of joined pieces, arcs no coarser than a chord, none twice in a row.

    Parameters
    ----------
    pieces
        Lines and arcs, each starting where the last ended.
    chord_m
        Greatest step along an arc. [m]

    Examples
    --------
    >>> piece_points([Line((0.0, 0.0), (1.0, 0.0)), Line((1.0, 0.0), (1.0, 1.0))])
    ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0))
    """
    above_zero("chord", chord_m)
    points: list[Point] = []
    for piece in pieces:
        for point in piece.points(chord_m):
            if not points or math.dist(points[-1], point) > NEAR_M:
                points.append(point)
    return tuple(points)


def polygon_area(points: Sequence[Point]) -> float:
    """Return the area inside a polygon, in m2, whichever way round it is given.

    References
    ----------
    .. [1] Gauss's area formula

    Examples
    --------
    >>> polygon_area([(0, 0), (24, 0), (24, 12), (18, 12), (18, 6), (0, 7)])
    189.0
    """
    return abs(_twice_area(points)) / 2.0


def enclosed_area(pieces: Sequence[Piece]) -> float:
    """Return the area inside a closed outline of lines and arcs, in m2, exactly.

    References
    ----------
    .. [1] Gauss's area formula on the chords, and the circular segment on each

    Examples
    --------
    >>> import math
    >>> round(enclosed_area([Arc((0.0, 0.0), 1.0, 0.0, math.tau)]), 6)
    3.141593
    """
    chords = [piece.start for piece in pieces]
    segments = sum(
        piece.radius_m**2 * (piece.sweep_rad - math.sin(piece.sweep_rad))
        for piece in pieces
        if isinstance(piece, Arc)
    )
    return abs(_twice_area(chords) + segments) / 2.0


def _twice_area(points: Sequence[Point]) -> float:
    """Return twice the signed area of a polygon, positive anticlockwise."""
    closed = [*points, points[0]]
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise(closed))
