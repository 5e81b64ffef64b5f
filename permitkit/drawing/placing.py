"""Where texts go on a sheet: pure functions of boxes, and never one on another.

A text stands beside what it speaks of where there is room; else further off with a leader; else a
numbered bubble stands there and the text goes to a key.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import product
from operator import itemgetter
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.occupancy import AIR_MM, Board, Candidate, Ease, Segment, between
from permitkit.drawing.shapes import Box, Point

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

__all__ = [
    "BUBBLE_MM",
    "SIDES",
    "Mode",
    "Place",
    "Segment",
    "Side",
    "Want",
    "overlaps",
    "place",
    "stack",
]

_ROOMY_MM = 1.0
_LANDING_MM = 2.0
_LEVEL = 1e-9
_RINGS_MM = (6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 40.0)
_MORE_RINGS_MM = (5.0, 7.5, 11.0, 15.5, 21.0, 27.5, 35.0, 45.0)
_BUBBLE_RINGS_MM = (6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 40.0, 52.0, 68.0, 90.0, 120.0, 160.0)
_DIAGONAL = math.sqrt(0.5)


def _pointing(angles: Iterable[int]) -> tuple[Point, ...]:
    """Return a step of one in each direction, an angle in degrees."""
    return tuple((math.cos(angle), math.sin(angle)) for angle in map(math.radians, angles))


_DIRECTIONS = _pointing(
    (30, 150, 330, 210, 60, 120, 300, 240, 45, 135, 315, 225, 15, 165, 345, 195, 90, 270)
)
_MORE_DIRECTIONS = _pointing(range(5, 360, 10))
_CROSSING_COST = 0.8
_PIPE_COST = 30.0


class Side(StrEnum):
    """Which side of its point a text stands on."""

    E = "e"
    W = "w"
    NE = "ne"
    SE = "se"
    NW = "nw"
    SW = "sw"
    N = "n"
    S = "s"


BUBBLE_MM = 6.2
"""Width of a numbered bubble, room for two figures. [mm]"""

SIDES = tuple(Side)
"""The order in which sides are tried, unless a text prefers another."""

_STEP: dict[Side, tuple[int, int]] = {
    side: (("e" in side) - ("w" in side), ("n" in side) - ("s" in side)) for side in Side
}


class Mode(StrEnum):
    """How a text was placed."""

    BESIDE = "beside"
    LED = "led"
    KEYED = "keyed"
    UNPLACED = "unplaced"


@dataclass(frozen=True, slots=True)
class Want:
    """A text looking for a place.

    Parameters
    ----------
    width_mm, height_mm
        Its size. [mm]
    tip
        The point it speaks of. [mm]
    clear_mm
        How far it keeps from that point. [mm]
    prefer
        The sides it may stand on, best first.
    priority
        Higher ones choose first.
    also
        Other points that would do as well as the tip, such as the far end of the same line. [mm]
    """

    width_mm: float
    height_mm: float
    tip: Point
    clear_mm: float = 1.5
    prefer: tuple[Side, ...] = SIDES
    priority: int = 0
    also: tuple[Point, ...] = ()

    @property
    def tips(self) -> tuple[Point, ...]:
        """Return every point it may be led to, the best first."""
        return self.tip, *self.also


@dataclass(frozen=True, slots=True)
class Place:
    """Where a text, or the bubble in its stead, was placed.

    Parameters
    ----------
    mode
        Beside its point, led to it, keyed by number, or not placed at all.
    box
        Where the text or the bubble lies; no width where it was not placed.
    leader
        From the tip to the box; empty where it stands beside it.
    number
        Its number in the key, from 1; 0 where the text itself is on the drawing.
    """

    mode: Mode
    box: Box
    leader: tuple[Point, ...] = ()
    number: int = 0


def overlaps(boxes: Sequence[Box]) -> list[tuple[int, int]]:
    """Return the pairs of boxes that share more than an edge, by index.

    Examples
    --------
    >>> overlaps([Box(0, 0, 2, 1), Box(2, 0, 3, 1), Box(1, 0.5, 1.5, 3)])
    [(0, 2)]
    """
    order = sorted(range(len(boxes)), key=lambda index: boxes[index].left)
    pairs: list[tuple[int, int]] = []
    for rank, first in enumerate(order):
        for second in order[rank + 1 :]:
            if boxes[second].left >= boxes[first].right:
                break
            if boxes[first].touches(boxes[second]):
                pairs.append((min(first, second), max(first, second)))
    return sorted(pairs)


def stack(spans: Sequence[tuple[float, float]]) -> tuple[int, ...]:
    """Return the track of each dimension of a string, 0 nearest to what is measured.

    Spans that share more than an end lie on different tracks, shorter ones inside, so that no
    extension line crosses a dimension line.

    Examples
    --------
    >>> stack([(0, 10), (0, 4), (4, 10), (2, 3)])
    (2, 1, 0, 0)
    """
    ends = [(min(span), max(span)) for span in spans]
    order = sorted(range(len(ends)), key=lambda index: (ends[index][1] - ends[index][0], index))
    tracks: dict[int, int] = {}
    for index in order:
        low, high = ends[index]
        under = [tracks[i] for i in tracks if ends[i][0] < high - 1e-6 and low < ends[i][1] - 1e-6]
        tracks[index] = max(under, default=-1) + 1
    return tuple(tracks[index] for index in range(len(ends)))


def place(
    wants: Sequence[Want],
    room: Box,
    boxes: Iterable[Box] = (),
    segments: Iterable[Segment] = (),
    pipes: Iterable[Segment] = (),
) -> tuple[Place, ...]:
    """Return a place for every text, none touching another.

    Parameters
    ----------
    wants
        The texts, in the order in which a key would number them.
    room
        Nothing is placed outside it. [mm]
    boxes
        Texts already there, and anything else that may never be covered. [mm]
    segments
        Strokes of the drawing: kept clear of, but for a bubble that has nowhere else. [mm]
    pipes
        Those among them that a leader goes round where it can. [mm]

    Returns
    -------
    tuple of Place
        One for each want. Boxes of placed texts and bubbles overlap neither each other nor `boxes`;
        leaders cross no text, but for those of bubbles with no other way out. A text keeps a whole
        millimetre from the next where that can be had.
    """
    boxes = tuple(boxes)
    board = Board(room, boxes, segments, pipes)
    board.point(tip for want in wants for tip in want.tips)
    places: dict[int, Place] = {}
    for attempt in (_beside, _led, _keyed):
        waiting = [index for index in range(len(wants)) if index not in places]
        for index in _hardest_first(waiting, wants, board):
            found = attempt(wants[index], board)
            if found is not None:
                places[index] = found
    standing = [places[index] for index in range(len(wants))]
    return _numbered(_aired(standing, wants, board, boxes))


def _aired(
    places: list[Place], wants: Sequence[Want], board: Board, boxes: Sequence[Box]
) -> list[Place]:
    """Return places in which texts that stood too close to another have moved, where they can."""
    aired = list(places)
    for index, spot in enumerate(places):
        others = [*aired[:index], *aired[index + 1 :]]
        texts = [*boxes, *(other.box for other in others if other.mode is not Mode.UNPLACED)]
        roomy = spot.box.grown(_ROOMY_MM)
        if spot.number or not any(map(roomy.touches, texts)):
            continue
        anew = board.anew(texts, [other.leader for other in others], _ROOMY_MM)
        beside = _beside(wants[index], anew) if spot.mode is Mode.BESIDE else None
        aired[index] = beside or _led(wants[index], anew) or spot
    return aired


def _hardest_first(waiting: list[int], wants: Sequence[Want], board: Board) -> list[int]:
    """Return the texts in the order in which they choose: by priority, then fewest free sides."""
    if len(waiting) == 1:
        return waiting
    choices = {i: sum(map(board.open, _beside_candidates(wants[i]))) for i in waiting}
    return sorted(waiting, key=lambda index: (-wants[index].priority, choices[index], index))


def _beside_candidates(want: Want) -> Iterator[Candidate]:
    """Return the boxes beside the tip, preferred sides first, then a little further off."""
    width, height = want.width_mm, want.height_mm
    for (tip_x, tip_y), clear in product(want.tips, (want.clear_mm, want.clear_mm + 1.5)):
        for side in want.prefer:
            dx, dy = _STEP[side]
            diagonal = _DIAGONAL if dx and dy else 1.0
            x = tip_x + dx * clear * diagonal + (dx - 1) * width / 2
            y = tip_y + dy * clear * diagonal + (dy - 1) * height / 2
            yield Candidate(Box(x, y, x + width, y + height))


def _beside(want: Want, board: Board) -> Place | None:
    """Return a place beside the tip."""
    for candidate in _beside_candidates(want):
        if board.open(candidate):
            return _put(Mode.BESIDE, candidate, board)
    return None


def _ring(centre: Point, radius: float, directions: Iterable[Point]) -> Iterator[Point]:
    """Return points on a ring, in an order given."""
    for dx, dy in directions:
        yield centre[0] + radius * dx, centre[1] + radius * dy


def _landed(want: Want, tip: Point, elbow: Point) -> Candidate:
    """Return the box whose leader turns at the elbow and lands level on the text's side."""
    sign = 1 if elbow[0] >= tip[0] - _LEVEL else -1
    land = elbow[0] + sign * _LANDING_MM
    edge = land + sign * AIR_MM
    left = edge if sign > 0 else edge - want.width_mm
    bottom = elbow[1] - want.height_mm / 2
    box = Box(left, bottom, left + want.width_mm, bottom + want.height_mm)
    return Candidate(box, (tip, elbow, (land, elbow[1])))


class _Found(NamedTuple):
    """A place that is open, and what stands against it, in mm of leader."""

    cost: float
    candidate: Candidate


def _nearest(
    rings: Iterable[tuple[float, Iterable[Candidate]]], board: Board, ease: Ease = Ease.STRICT
) -> _Found | None:
    """Return what is open on the nearest ring, and crosses the fewest strokes and no pipe."""
    best: _Found | None = None
    for radius, candidates in rings:
        if best and best.cost <= radius:
            break
        for candidate in candidates:
            if board.open(candidate, ease):
                cost = radius + _CROSSING_COST * board.strokes.crossed(candidate.strokes)
                cost += _PIPE_COST * board.over_pipe(candidate)
                best = min(best or _Found(cost, candidate), _Found(cost, candidate), key=_cost)
    return best


_cost = itemgetter(0)


def _led(want: Want, board: Board) -> Place | None:
    """Return a place with a leader that runs over no pipe."""
    found = _best_led(want, board)
    return None if found is None or board.over_pipe(found) else _put(Mode.LED, found, board)


def _best_led(want: Want, board: Board) -> Candidate | None:
    """Return a place with a leader; looked for more closely where the first lies over a pipe."""
    best = _nearest(_led_rings(want, _RINGS_MM, _DIRECTIONS), board)
    if best and board.over_pipe(best.candidate):
        finer = _nearest(_led_rings(want, _MORE_RINGS_MM, _MORE_DIRECTIONS), board)
        best = min(best, finer or best, key=_cost)
    return best.candidate if best else None


def _put(mode: Mode, found: Candidate, board: Board) -> Place:
    """Return a place that is taken from here on."""
    board.put(found)
    return Place(mode, found.box, found.leader, number=int(mode is Mode.KEYED))


def _led_rings(
    want: Want, rings_mm: Iterable[float], directions: Sequence[Point]
) -> Iterator[tuple[float, Iterator[Candidate]]]:
    """Return the boxes with leaders about every tip, ring by ring."""
    for radius in rings_mm:
        yield (
            radius,
            (
                _landed(want, tip, elbow)
                for tip in want.tips
                for elbow in _ring(tip, radius, directions)
            ),
        )


def _keyed(want: Want, board: Board) -> Place:
    """Return a place for a numbered bubble; over strokes if it must, never on a text.

    Where neither bubble nor leader keeps off the pipes, the text is led over one. Where all ways
    out are closed the bubble's leader passes under texts, whose white breaks it.
    """
    bubble = replace(want, width_mm=BUBBLE_MM, height_mm=BUBBLE_MM, clear_mm=1.0, prefer=SIDES)
    for ease in Ease:
        found = _nearest(_bubble_rings(bubble, _DIRECTIONS), board, ease)
        if found and board.over_pipe(found.candidate):
            finer = _nearest(_bubble_rings(bubble, _MORE_DIRECTIONS), board, ease)
            found = min(found, finer or found, key=_cost)
        over = found is None or board.over_pipe(found.candidate)
        led = _best_led(want, board) if over and ease is Ease.STRICT else None
        if led:
            return _put(Mode.LED, led, board)
        if found:
            return _put(Mode.KEYED, found.candidate, board)
    return Place(Mode.UNPLACED, Box(*want.tip, *want.tip), number=1)


def _bubble_rings(
    bubble: Want, directions: Sequence[Point]
) -> Iterator[tuple[float, Iterator[Candidate]]]:
    """Return the boxes for a bubble: beside the tip, then on rings with a straight leader."""
    yield 0.0, _beside_candidates(bubble)
    for radius in _BUBBLE_RINGS_MM:
        share = 1 - BUBBLE_MM / 2 / radius
        yield (
            radius,
            (
                Candidate(
                    Box(*middle, *middle).grown(BUBBLE_MM / 2), (tip, between(tip, middle, share))
                )
                for tip in bubble.tips
                for middle in _ring(tip, radius, directions)
            ),
        )


def _numbered(places: list[Place]) -> tuple[Place, ...]:
    """Return the places with those in the key numbered from 1."""
    numbers = iter(range(1, len(places) + 1))
    return tuple(replace(spot, number=next(numbers)) if spot.number else spot for spot in places)
