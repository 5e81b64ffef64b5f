"""Arrows on a photograph, each with its words beside it, black on white so that both show."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import bubble
from permitkit.drawing.dimensions import arrowhead
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.occupancy import TakenPaper
from permitkit.drawing.placing import BUBBLE_MM
from permitkit.drawing.shapes import Anchor, Box, Fill, Label, Line, Point, Polygon, Role

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from permitkit.drawing.shapes import Shape
    from permitkit.model.papers import PhotoArrow

__all__ = ["Pointed", "pointed"]

_LETTERING_MM = 2.8
_WRAP_MM = 44.0
_AWAY_MM = (11.0, 15.0, 20.0, 26.0, 33.0, 42.0, 54.0)
_WAYS = tuple(
    (math.cos(math.radians(angle)), math.sin(math.radians(angle)))
    for angle in (45, 135, 315, 225, 0, 180, 90, 270, 22, 158, 338, 202, 67, 113, 293, 247)
)
_BARE_MM = 14.0
_HEAD_MM = 4.0
_CASING_MM = 1.0
_AIR_MM = 0.8
_ROLE = Role.PROPOSED


class Pointed(NamedTuple):
    """Arrows as shapes, and the words that found no room, each with its number."""

    shapes: tuple[Shape, ...] = ()
    key: tuple[str, ...] = ()


def pointed(arrows: Sequence[PhotoArrow], on: Box) -> Pointed:
    """Return the arrows of a photograph that fills a box.

    Parameters
    ----------
    arrows
        Where each points, as shares of the picture.
    on
        The picture. [mm]

    Returns
    -------
    Pointed
        Words stand clear of each other, of every tip and of every shaft; those without room are
        numbered, and stand in the key.
    """
    tips = [_tip(arrow, on) for arrow in arrows]
    board = _Board(on, tips)
    shapes = [
        shape
        for tip, arrow in zip(tips, arrows, strict=True)
        if arrow.says is None
        for shape in board.bare(tip)
    ]
    key: list[str] = []
    for tip, arrow in zip(tips, arrows, strict=True):
        if arrow.says is None:
            continue
        said = board.with_words(tip, arrow.says)
        if not said:
            key.append(f"{len(key) + 1}: {arrow.says}")
            said = board.with_number(tip, len(key)) or board.bare(tip)
        shapes.extend(said)
    return Pointed(tuple(shapes), tuple(key))


def _tip(arrow: PhotoArrow, on: Box) -> Point:
    """Return the place on the picture an arrow points to, in mm."""
    across, down = float(arrow.across.si), float(arrow.down.si)
    return on.left + across * on.width, on.top - down * on.height


class _Board:
    """What of a picture is taken: tips, shafts and words."""

    def __init__(self, on: Box, tips: Iterable[Point]) -> None:
        self._on = on
        self._taken = TakenPaper(on)
        for tip in tips:
            self._taken.take(Box(*tip, *tip).grown(_CASING_MM))

    def with_words(self, tip: Point, words: str) -> tuple[Shape, ...]:
        """Return an arrow with its words at the other end, or nothing where they find no room."""
        text = "\n".join(wrapped(words, _WRAP_MM, _LETTERING_MM))
        label = Label(text, (0.0, 0.0), Anchor.SW, _LETTERING_MM, backing=True)
        box = self._found(tip, label.box.width, label.box.height)
        if box is None:
            return ()
        at = (box.left - label.box.left, box.bottom - label.box.bottom)
        return *self._shot(tip, _nearest(box, tip)), replace(label, at=at)

    def with_number(self, tip: Point, number: int) -> tuple[Shape, ...]:
        """Return an arrow that comes from a numbered bubble, or nothing where it finds no room."""
        box = self._found(tip, BUBBLE_MM, BUBBLE_MM)
        if box is None:
            return ()
        return *self._shot(tip, box.centre), *bubble(box.centre, number)

    def bare(self, tip: Point) -> tuple[Shape, ...]:
        """Return an arrow alone, which comes from the middle of the picture."""
        return self._shot(tip, _toward_middle(tip, self._on))

    def _found(self, tip: Point, width: float, height: float) -> Box | None:
        """Return the nearest free place for a box, and take it."""
        for away in _AWAY_MM:
            for dx, dy in _WAYS:
                left = tip[0] + dx * away + (dx - 1) * width / 2
                bottom = tip[1] + dy * away + (dy - 1) * height / 2
                box = Box(left, bottom, left + width, bottom + height)
                if self._free(box, tip):
                    self._taken.take(box.grown(_CASING_MM))
                    return box
        return None

    def _free(self, box: Box, tip: Point) -> bool:
        """Return whether a box lies on the picture, on nothing, with a clear way to its tip."""
        if not (self._on.holds(box.grown(_AIR_MM)) and self._taken.free(box.grown(_AIR_MM))):
            return False
        end = _nearest(box, tip)
        return not self._taken.meets([(_along(tip, end, 2 * _CASING_MM), end)])

    def _shot(self, tip: Point, end: Point) -> tuple[Shape, ...]:
        """Return an arrow on a white casing, and take its paper."""
        length = math.dist(tip, end)
        for step in range(math.ceil(length / _CASING_MM)):
            spot = _along(tip, end, step * _CASING_MM)
            self._taken.take(Box(*spot, *spot).grown(_CASING_MM))
        return _arrow(tip, end)


def _nearest(box: Box, point: Point) -> Point:
    """Return the place of a box nearest to a point."""
    x, y = point
    return min(max(x, box.left), box.right), min(max(y, box.bottom), box.top)


def _along(start: Point, end: Point, by: float) -> Point:
    """Return the point so far from one toward another."""
    share = by / (math.dist(start, end) or 1.0)
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _toward_middle(tip: Point, on: Box) -> Point:
    """Return where an arrow without words begins: toward the middle, or above or below it."""
    if math.dist(tip, on.centre) >= _BARE_MM:
        return _along(tip, on.centre, _BARE_MM)
    up = 1 if on.top - tip[1] >= tip[1] - on.bottom else -1
    return tip[0], tip[1] + up * min(_BARE_MM, on.height / 2)


def _arrow(tip: Point, end: Point) -> tuple[Shape, ...]:
    """Return an arrow from its end to its tip, black on white."""
    angle = math.degrees(math.atan2(tip[1] - end[1], tip[0] - end[0]))
    neck, ahead = _along(tip, end, _HEAD_MM / 2), _along(tip, end, -2 * _CASING_MM)
    halo = arrowhead(ahead, angle, _ROLE, _HEAD_MM + 3 * _CASING_MM).points
    return (
        Polygon(halo, _ROLE, Fill.WHITE, outlined=False),
        Polygon(_band(neck, end), _ROLE, Fill.WHITE, outlined=False),
        Line(neck, end, _ROLE),
        arrowhead(tip, angle, _ROLE, _HEAD_MM),
    )


def _band(start: Point, end: Point) -> tuple[Point, ...]:
    """Return the strip along a line that the casing covers."""
    length = math.dist(start, end) or 1.0
    across = (start[1] - end[1]) / length * _CASING_MM, (end[0] - start[0]) / length * _CASING_MM
    return (
        (start[0] + across[0], start[1] + across[1]),
        (end[0] + across[0], end[1] + across[1]),
        (end[0] - across[0], end[1] - across[1]),
        (start[0] - across[0], start[1] - across[1]),
    )
