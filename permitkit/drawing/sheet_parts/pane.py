"""A part of the real world shown on a sheet: metres in, clipped shapes on paper out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import Note
from permitkit.drawing.info import held
from permitkit.drawing.placing import SIDES, Side
from permitkit.drawing.scale import View
from permitkit.drawing.shapes import (
    Box,
    Circle,
    Fill,
    Hatch,
    Line,
    Pattern,
    Point,
    Polygon,
    Polyline,
    Role,
    Shape,
    circle_points,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from permitkit.drawing.scale import Scale

__all__ = ["Pane", "Part", "clipped_line", "clipped_polygon", "joined"]

_TOUCH = 1e-9
_CORNERS = 3


class Part(NamedTuple):
    """Something drawn, and what is still to be said about it."""

    shapes: tuple[Shape, ...] = ()
    notes: tuple[Note, ...] = ()


def joined(*parts: Part) -> Part:
    """Return several parts as one, in drawing order."""
    shapes = tuple(shape for part in parts for shape in part.shapes)
    return Part(shapes, tuple(note for part in parts for note in part.notes))


def clipped_line(start: Point, end: Point, box: Box) -> tuple[Point, Point] | None:
    """Return the stretch of a straight line inside a box, or None.

    Examples
    --------
    >>> clipped_line((-1.0, 0.5), (3.0, 0.5), Box(0, 0, 2, 1))
    ((0.0, 0.5), (2.0, 0.5))
    """
    low, high = 0.0, 1.0
    for axis in (0, 1):
        run = end[axis] - start[axis]
        first, last = box[axis] - start[axis], box[axis + 2] - start[axis]
        if abs(run) < _TOUCH:
            if first > _TOUCH or last < -_TOUCH:
                return None
            continue
        near, far = sorted((first / run, last / run))
        low, high = max(low, near), min(high, far)
    if low > high:
        return None
    dx, dy = end[0] - start[0], end[1] - start[1]
    return (
        (start[0] + low * dx, start[1] + low * dy),
        (start[0] + high * dx, start[1] + high * dy),
    )


def clipped_polygon(points: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """Return the part of a polygon inside a box; empty where there is none.

    Examples
    --------
    >>> clipped_polygon(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0)), Box(2.0, 0.0, 9.0, 9.0))
    ((2.0, 2.0), (2.0, 0.0), (4.0, 0.0), (4.0, 4.0))
    """
    kept = tuple(points)
    for axis, bound, sign in (
        (0, box.left, 1),
        (1, box.bottom, 1),
        (0, box.right, -1),
        (1, box.top, -1),
    ):
        kept = _kept_beyond(kept, axis, float(bound), sign)
    return kept


def _kept_beyond(
    points: tuple[Point, ...], axis: int, bound: float, sign: int
) -> tuple[Point, ...]:
    """Return the part of a polygon on one side of an upright or level line."""
    kept: list[Point] = []
    for start, end in zip((*points[-1:], *points[:-1]), points, strict=True):
        inside, was_inside = sign * (end[axis] - bound) >= 0, sign * (start[axis] - bound) >= 0
        if inside != was_inside:
            share = (bound - start[axis]) / (end[axis] - start[axis])
            other = start[1 - axis] + share * (end[1 - axis] - start[1 - axis])
            kept.append((bound, other) if axis == 0 else (other, bound))
        if inside:
            kept.append(end)
    return tuple(kept)


@dataclass(frozen=True, slots=True)
class Pane:
    """What is visible, and the way from it to the paper.

    Parameters
    ----------
    view
        From metres to millimetres.
    ground
        What is visible: to the right and up. [m]
    room
        The paper it may use, labels included. [mm]
    """

    view: View
    ground: Box
    room: Box

    @property
    def scale(self) -> Scale:
        """Return the scale."""
        return self.view.scale

    def mm(self, metres: float) -> float:
        """Return a length on paper, in mm."""
        return self.scale.paper_mm(metres)

    def metres(self, paper_mm: float) -> float:
        """Return the length on the ground of one on paper, in m."""
        return self.scale.real_m(paper_mm)

    def shows(self, x: float, y: float) -> bool:
        """Return whether a point of the ground is visible."""
        left, bottom, right, top = self.ground.grown(_TOUCH)
        return left <= x <= right and bottom <= y <= top

    def spans_x(self, x: float) -> bool:
        """Return whether a place across is visible."""
        return self.ground.left - _TOUCH <= x <= self.ground.right + _TOUCH

    def at(self, x: float, y: float) -> Point:
        """Return where a point of the ground lies on paper, in mm."""
        return self.view.at(x, y)

    def line(self, start: Point, end: Point, role: Role) -> tuple[Shape, ...]:
        """Return the visible stretch of a line."""
        seen = clipped_line(start, end, self.ground)
        if seen is None or seen[0] == seen[1]:
            return ()
        return (Line(self.at(*seen[0]), self.at(*seen[1]), role),)

    def path(self, points: Sequence[Point], role: Role) -> tuple[Shape, ...]:
        """Return the visible stretches of a line from point to point."""
        if all(self.shows(*point) for point in points):
            return (Polyline(self.view.points(points), role),)
        return tuple(mark for leg in pairwise(points) for mark in self.line(*leg, role))

    def area(
        self, points: Sequence[Point], role: Role, fill: Fill = Fill.NONE
    ) -> tuple[Shape, ...]:
        """Return the visible part of a surface, with its own edges only."""
        seen = clipped_polygon(points, self.ground)
        if len(seen) < _CORNERS:
            return ()
        if all(self.shows(*point) for point in points):
            return (Polygon(self.view.points(points), role, fill),)
        edges = zip(points, (*points[1:], points[0]), strict=True)
        drawn = tuple(mark for edge in edges for mark in self.line(*edge, role))
        filled = (Polygon(self.view.points(seen), role, fill, outlined=False),)
        return (*filled, *drawn) if fill is not Fill.NONE else drawn

    def hatched(
        self,
        points: Sequence[Point],
        pattern: Pattern,
        density: float = 1.0,
        holes: Sequence[tuple[Point, ...]] = (),
    ) -> tuple[Hatch, ...]:
        """Return the hatch of the visible part of a surface, without what is cut out of it."""
        seen = clipped_polygon(points, self.ground)
        if len(seen) < _CORNERS:
            return ()
        cut = tuple(map(self.view.points, holes))
        return (Hatch(self.view.points(seen), pattern, cut, density),)

    def ring(self, centre: Point, radius_m: float, role: Role) -> tuple[Shape, ...]:
        """Return the visible part of a circle."""
        if self.ground.holds(Box(*centre, *centre).grown(radius_m)):
            return (Circle(self.at(*centre), self.mm(radius_m), role),)
        points = circle_points(centre, radius_m)
        return self.path((*points, points[0]), role)

    def symbol(self, at: Point, draw: Callable[[Point], tuple[Shape, ...]]) -> tuple[Shape, ...]:
        """Return a symbol of fixed size where its point is visible."""
        return draw(self.at(*at)) if self.shows(*at) else ()

    def note(
        self,
        text: str,
        at: Point,
        *,
        prefer: tuple[Side, ...] = SIDES,
        priority: int = 0,
        bold: bool = False,
        clear_mm: float = 1.5,
        dot: bool = False,
        wrap_mm: float = 38.0,
    ) -> tuple[Note, ...]:
        """Return a text to be set by a point of the ground, where that is visible."""
        if not self.shows(*at):
            return ()
        note = Note(
            held(text),
            self.at(*at),
            bold=bold,
            prefer=prefer,
            priority=priority,
            clear_mm=clear_mm,
            wrap_mm=wrap_mm,
            dot=dot,
        )
        return (note,)

    def or_by(self, notes: tuple[Note, ...], others: Iterable[Point]) -> tuple[Note, ...]:
        """Return texts that may as well be set by other points of the ground that are visible."""
        seen = tuple(self.at(*other) for other in others if self.shows(*other))
        return tuple(replace(note, also=seen) for note in notes)
