"""Arrows on a photograph, each with its words beside it, black on white so that both show."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import bubble
from permitkit.drawing.dimensions import arrowhead
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.placing import Mode, Want, place
from permitkit.drawing.shapes import Anchor, Box, Fill, Label, Line, Point, Polygon, Role
from permitkit.drawing.sheet import labels_of, segments_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.shapes import Shape
    from permitkit.model.papers import PhotoArrow

__all__ = ["Pointed", "pointed"]

_LETTERING_MM = 2.8
_WRAP_MM = 44.0
_CLEAR_MM = 11.0
_BARE_MM = 14.0
_HEAD_MM = 4.0
_CASING_MM = 1.0
_AIR_MM = 0.6
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
        Words stand clear of each other and of every shaft; those without room are numbered.
    """
    shapes: list[Shape] = []
    key: list[str] = []
    for arrow in arrows:
        tip = (
            on.left + float(arrow.across.si) * on.width,
            on.top - float(arrow.down.si) * on.height,
        )
        if arrow.says is None:
            shapes.extend(_shot(_bare(tip, on)))
            continue
        said, number = _said(arrow.says, tip, on, shapes, len(key) + 1)
        shapes.extend(said)
        if number:
            key.append(f"{number}: {arrow.says}")
    return Pointed(tuple(shapes), tuple(key))


def _said(
    words: str, tip: Point, on: Box, drawn: Sequence[Shape], number: int
) -> tuple[list[Shape], int]:
    """Return an arrow with its words, and its number if they stand in the key."""
    text = "\n".join(wrapped(words, _WRAP_MM, _LETTERING_MM))
    label = Label(text, (0.0, 0.0), Anchor.SW, _LETTERING_MM, backing=True)
    box = label.box
    want = Want(box.width + 2 * _AIR_MM, box.height + 2 * _AIR_MM, tip, _CLEAR_MM)
    taken = [box for other in labels_of(drawn) for box in other.boxes]
    (spot,) = place([want], on, taken, segments_of(drawn))
    if spot.mode is Mode.UNPLACED:
        return [*_shot(_bare(tip, on))], number
    shot = _shot(spot.leader or (tip, _nearest(spot.box, tip)))
    if spot.mode is Mode.KEYED:
        return [*shot, *bubble(spot.box.centre, number)], number
    at = (spot.box.left + _AIR_MM - box.left, spot.box.bottom + _AIR_MM - box.bottom)
    moved = Label(text, at, Anchor.SW, _LETTERING_MM, backing=True)
    return [*shot, moved], 0


def _nearest(box: Box, point: Point) -> Point:
    """Return the place of a box nearest to a point."""
    x, y = point
    return min(max(x, box.left), box.right), min(max(y, box.bottom), box.top)


def _bare(tip: Point, on: Box) -> tuple[Point, Point]:
    """Return an arrow without words, tip first: it comes from the middle of the picture."""
    away = math.dist(tip, on.centre)
    if away < _BARE_MM:
        up = 1 if on.top - tip[1] >= tip[1] - on.bottom else -1
        reach = min(_BARE_MM, on.height / 2)
        return tip, (tip[0], tip[1] + up * reach)
    share = _BARE_MM / away
    x, y = on.centre
    return tip, (tip[0] + share * (x - tip[0]), tip[1] + share * (y - tip[1]))


def _shot(points: Sequence[Point]) -> tuple[Shape, ...]:
    """Return an arrow along a line, its tip first, on a white casing."""
    tip, next_to_it = points[0], points[1]
    angle = math.degrees(math.atan2(tip[1] - next_to_it[1], tip[0] - next_to_it[0]))
    back = (-math.cos(math.radians(angle)), -math.sin(math.radians(angle)))
    neck = (tip[0] + back[0] * _HEAD_MM / 2, tip[1] + back[1] * _HEAD_MM / 2)
    legs = list(pairwise((neck, *points[1:])))
    ahead = (tip[0] - back[0] * 2 * _CASING_MM, tip[1] - back[1] * 2 * _CASING_MM)
    halo = arrowhead(ahead, angle, _ROLE, _HEAD_MM + 3 * _CASING_MM).points
    casing = [Polygon(halo, _ROLE, Fill.WHITE, outlined=False)]
    casing += [Polygon(_band(*leg), _ROLE, Fill.WHITE, outlined=False) for leg in legs]
    shaft = (Line(*leg, _ROLE) for leg in legs)
    return *casing, *shaft, arrowhead(tip, angle, _ROLE, _HEAD_MM)


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
