"""Lines of ownership, the house, and what lies buried, on the plan."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Box, Fill, Line, Pattern, Point, Role, Shape
from permitkit.drawing.sheet import labels_of
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.site_sketch.window import Part, Window, clipped_line, joined
from permitkit.drawing.symbols import break_line, lettered_line

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.callouts import Note
    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.site import Utility

__all__ = ["UTILITY_ROLES", "house", "names_of_utilities", "property_lines", "utilities"]

UTILITY_ROLES: dict[str, Role] = {
    "electric": Role.UTILITY_ELECTRIC,
    "gas": Role.UTILITY_GAS,
    "communication": Role.UTILITY_COMMUNICATION,
    "water": Role.UTILITY_WATER,
    "reclaimed water": Role.UTILITY_RECLAIMED,
    "sewer": Role.UTILITY_SEWER,
}
"""The line of each kind of utility."""

_BESIDE_M = 0.6
_PITCH_MM = 40.0
_SHIFTS = 10
_LEAST_MM = 3.0
_LETTER_AIR_MM = 0.4
_WHOLE = 0.6
_LEAST_BREAK_MM = 8.0


def property_lines(lot: Lot, window: Window) -> Part:
    """Return the side lines with their extensions to the curb, and the right-of-way line."""
    top = window.ground.top
    shapes: list[Shape] = []
    notes: list[Note] = []
    for x, side, away in ((0.0, "left", Side.W), (lot.frontage_m, "right", Side.E)):
        shapes += window.line((x, lot.row_m), (x, top), Role.BOUNDARY)
        shapes += window.line((x, lot.row_m), (x, 0.0), Role.CENTRE)
        at = (x, lot.row_m + 0.75 * (top - lot.row_m))
        notes += window.note(f"{side} side line", at, prefer=(away,), priority=2, clear_mm=1.0)
    assumed = lot.job.site.row_line_basis == "assumed"
    role = Role.ASSUMED if assumed else Role.RIGHT_OF_WAY
    shapes += window.line((window.ground.left, lot.row_m), (window.ground.right, lot.row_m), role)
    return Part(tuple(shapes), tuple(notes))


def house(lot: Lot, window: Window) -> Part:
    """Return the house, open at the back where it goes on beyond the drawing."""
    box = lot.house
    if box is None:
        return Part()
    walls = window.area(box.corners, Role.EXISTING, Fill.TONE)
    whole = lot.job.site.house and lot.job.site.house.depth and box.top <= window.ground.top
    end = () if whole else _open_back(window, box)
    shown = min(box.top, window.ground.top)
    at = (box.centre[0], (box.bottom + shown) / 2)
    note = window.note("house", at, prefer=(Side.N, Side.S), priority=4, clear_mm=0.0)
    return Part((*walls, *end), note if shown > box.bottom else ())


def _open_back(window: Window, box: Box) -> tuple[Shape, ...]:
    """Return the break line across a house that goes on."""
    top = min(box.top, window.ground.top)
    seen = clipped_line((box.left, top), (box.right, top), window.ground)
    if seen is None or window.mm(seen[1][0] - seen[0][0]) < _LEAST_BREAK_MM or top <= box.bottom:
        return ()
    return (break_line(window.at(*seen[0]), window.at(*seen[1])),)


def utilities(
    lot: Lot, window: Window, figures: Figures, hand_dig_m: float | None, taken: Sequence[Box]
) -> Part:
    """Return buried lines as marked, and the band round each in which digging is by hand.

    Parameters
    ----------
    hand_dig_m
        How far to each side of a mark. [m]
    taken
        Texts that no letter of a line may touch. [mm]
    """
    parts: list[Part] = []
    letters = list(taken)
    for line in lot.job.utility:
        part = _buried(lot, window, line, figures, letters)
        letters += [label.box for label in labels_of(part.shapes)]
        parts.append(part)
    near = min((low[1] for reached in lot.reaches for low in reached.path), default=0.0)
    street = (float(line.at) for line in lot.job.utility if line.along == "street")
    crossed = (at for at in street if lot.reaches and at >= near)
    by_hand = (mark for at in crossed for mark in _by_hand(lot, window, lot.on_run(at), hand_dig_m))
    return joined(Part(tuple(by_hand)), *parts)


def _buried(
    lot: Lot, window: Window, utility: Utility, figures: Figures, taken: Sequence[Box]
) -> Part:
    """Return one buried line."""
    offset = float(utility.at)
    x = lot.on_run(offset)[0]
    ends = _ends(lot, window, utility, x, offset)
    seen = clipped_line(*ends, window.ground)
    if seen is None:
        return Part()
    path = window.at(*seen[0]), window.at(*seen[1])
    drawn = _lettered(path, UTILITY_ROLES[utility.kind], taken)
    if utility.along == "street" or not window.told:
        return Part(drawn)
    return Part(drawn, window.note(_words(utility, figures), seen[1], priority=2))


def names_of_utilities(lot: Lot, window: Window, figures: Figures) -> tuple[Rung, ...]:
    """Return what buried lines along the street are, for the left edge."""
    left = window.ground.left
    lines = (line for line in lot.job.utility if line.along == "street" and window.told)
    return tuple(
        Rung(_words(line, figures), window.at(left, float(line.at)))
        for line in lines
        if window.shows(left, float(line.at))
    )


def _lettered(path: tuple[Point, Point], role: Role, taken: Sequence[Box]) -> tuple[Shape, ...]:
    """Return a line with its letter every so often, but for letters that would touch a text."""
    if math.dist(*path) <= 0.0:
        return ()
    found: list[_Pieces] = []
    for share in range(_SHIFTS):
        found.append(_pieces(path, role, _PITCH_MM * share / _SHIFTS, taken))
        if not found[-1].left_out:
            return found[-1].shapes
    return max(found, key=lambda pieces: len(labels_of(pieces.shapes))).shapes


class _Pieces(NamedTuple):
    """A line in pieces, and how many of its letters had to be left out."""

    shapes: tuple[Shape, ...]
    left_out: int


def _pieces(
    path: tuple[Point, Point], role: Role, shift_mm: float, taken: Sequence[Box]
) -> _Pieces:
    """Return a line cut into stretches with one letter in the middle of each that has room."""
    length = math.dist(*path)
    cuts = [0.0, *_steps(shift_mm, length), length]
    shapes: list[Shape] = []
    left_out = 0
    for start, end in pairwise(cuts):
        stretch = _on(path, start / length), _on(path, end / length)
        piece: tuple[Shape, ...] = (Line(*stretch, role),)
        if end - start >= _PITCH_MM * _WHOLE or length < _PITCH_MM:
            lettered = lettered_line(stretch, role, pitch_mm=_PITCH_MM)
            boxes = [label.box.grown(_LETTER_AIR_MM) for label in labels_of(lettered)]
            touches = any(box.touches(other) for box in boxes for other in taken)
            left_out += touches
            piece = piece if touches else lettered
        shapes += piece
    return _Pieces(tuple(shapes), left_out)


def _steps(first: float, length: float) -> Iterator[float]:
    """Return where a line is cut, between its ends."""
    at = first
    while at < length - _LEAST_MM:
        if at > _LEAST_MM:
            yield at
        at += _PITCH_MM


def _on(path: tuple[Point, Point], share: float) -> Point:
    """Return the point so far along a straight line."""
    (x0, y0), (x1, y1) = path
    return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


def _ends(
    lot: Lot, window: Window, utility: Utility, x: float, offset: float
) -> tuple[Point, Point]:
    """Return the ends of a buried line: along the street, or beside the run to the house."""
    if utility.along == "street":
        return (window.ground.left, offset), (window.ground.right, offset)
    end = lot.house.bottom if lot.house else window.ground.top
    return (x + _BESIDE_M, offset), (lot.on_run(end)[0] + _BESIDE_M, end)


def _words(utility: Utility, figures: Figures) -> str:
    """Return a buried line in words."""
    depth = f"{figures.height(float(utility.depth))} deep" if utility.depth else "depth unknown"
    marked = {"yes": "marked", "no": "not marked", "unknown": "marks to come"}[utility.marked]
    along = "" if utility.along == "street" else ", place beside the run to be found by hand"
    return f"{utility.kind}, {depth}, {marked}{along}"


def _by_hand(lot: Lot, window: Window, at: Point, hand_dig_m: float | None) -> tuple[Shape, ...]:
    """Return the part of the trench that is dug by hand round a crossing."""
    if hand_dig_m is None:
        return ()
    width = float(lot.job.cut.trench_width or 0.3)
    half = max(width / 2, window.metres(1.5))
    top, bottom = at[1] + hand_dig_m, max(at[1] - hand_dig_m, lot.curb_back_m)
    corners = (
        (at[0] - half, bottom),
        (at[0] + half, bottom),
        (at[0] + half, top),
        (at[0] - half, top),
    )
    return window.hatched(corners, Pattern.SAND, 1.5)
