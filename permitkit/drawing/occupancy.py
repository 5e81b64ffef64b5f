"""Which parts of a sheet are taken, kept as rows of bits so that asking costs next to nothing."""

from __future__ import annotations

import math
from enum import IntEnum
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.shapes import Box, Point

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

__all__ = [
    "AIR_MM",
    "CELL_MM",
    "Board",
    "Candidate",
    "Ease",
    "Segment",
    "TakenPaper",
    "between",
]

AIR_MM = 0.5
"""What a text keeps at least from everything. [mm]"""


Segment = tuple[Point, Point]

CELL_MM = 0.5
"""Size of a cell. [mm]"""

_LEVEL = 1e-9
_SHARED_TIP_MM = 1.5
_OWN_PIPE_MM = 2.4


class TakenPaper:
    """Which half millimetres of a room are taken, one whole number of bits a row.

    Everything is rounded outwards to the bit: what is called free is free.

    Parameters
    ----------
    room
        The part of the sheet looked after. [mm]
    """

    def __init__(self, room: Box) -> None:
        self.left, self.bottom = room.left, room.bottom
        self.rows = [0] * (math.ceil(room.height / CELL_MM) + 1)

    def take(self, box: Box) -> None:
        """Mark a box as taken; what lies outside the room is cut off."""
        bottom, top, bits = self._covered(box, 0.0)
        for row in range(bottom, min(top, len(self.rows))):
            self.rows[row] |= bits

    def free(self, box: Box, air_mm: float = 0.0) -> bool:
        """Return whether no part of a box, nor of the air round it, is taken."""
        bottom, top, bits = self._covered(box, air_mm)
        for row in self.rows[bottom:top]:  # noqa: SIM110 -- a generator here doubles the time of it all
            if row & bits:
                return False
        return True

    def _covered(self, box: Box, air_mm: float) -> tuple[int, int, int]:
        """Return the first row a box with its air covers, the row after its last, and its bits."""
        left, bottom, right, top = box
        low = max(math.floor((bottom - air_mm - self.bottom) / CELL_MM - _LEVEL), 0)
        high = math.floor((top + air_mm - self.bottom) / CELL_MM + _LEVEL) + 1
        end = right + air_mm - self.left
        if end < 0:
            return low, high, 0
        first = max(math.floor((left - air_mm - self.left) / CELL_MM - _LEVEL), 0)
        count = math.floor(end / CELL_MM + _LEVEL) + 1 - first
        return low, high, ((1 << max(count, 1)) - 1) << first

    def stroke(self, segment: Segment) -> Iterator[tuple[int, int]]:
        """Return the row and bits of every row that a stroke passes."""
        (x0, y0), (x1, y1) = segment if segment[0][1] <= segment[1][1] else segment[::-1]
        low, high = (y0 - self.bottom) / CELL_MM, (y1 - self.bottom) / CELL_MM
        start, end = (x0 - self.left) / CELL_MM, (x1 - self.left) / CELL_MM
        level = high - low <= _LEVEL
        if level and end < start:
            start, end = end, start
        rows = range(max(math.floor(low), 0), min(math.floor(high), len(self.rows) - 1) + 1)
        if level or start == end:
            bits = _bits(start, end)
            yield from ((row, bits) for row in rows if bits)
            return
        slope = (end - start) / (high - low)
        for row in rows:
            at = start + slope * (row - low) if row > low else start
            to = end if row + 1 >= high else start + slope * (row + 1 - low)
            bits = _bits(at, to) if slope >= 0 else _bits(to, at)
            if bits:
                yield row, bits

    def draw(self, segments: Iterable[Segment]) -> None:
        """Mark strokes as taken."""
        self.mark(self.cells(segments))

    def cells(self, segments: Iterable[Segment]) -> list[tuple[int, int]]:
        """Return the row and bits of every row that strokes pass."""
        return [cell for segment in segments for cell in self.stroke(segment)]

    def mark(self, cells: Iterable[tuple[int, int]]) -> None:
        """Mark rows and bits as taken."""
        rows = self.rows
        for row, bits in cells:
            rows[row] |= bits

    def meets(self, segments: Iterable[Segment]) -> bool:
        """Return whether strokes pass anything taken."""
        return any(
            not self.free(Box.around(segment))
            and any(self.rows[row] & bits for row, bits in self.stroke(segment))
            for segment in segments
        )

    def crossed(self, segments: Iterable[Segment]) -> int:
        """Return how many taken cells strokes pass."""
        return sum(
            (self.rows[row] & bits).bit_count()
            for segment in segments
            for row, bits in self.stroke(segment)
        )


def _bits(low: float, high: float) -> int:
    """Return the bits of the cells that a stretch touches, both ends counted in cells."""
    first, last = math.floor(low - _LEVEL), math.floor(high + _LEVEL)
    if last < 0:
        return 0
    first = max(first, 0)
    return ((2 << (last - first)) - 1) << first


def between(start: Point, end: Point, share: float) -> Point:
    """Return the point so far along from start to end."""
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


class Candidate(NamedTuple):
    """A box a text might have, with its leader."""

    box: Box
    leader: tuple[Point, ...] = ()

    @property
    def strokes(self) -> list[Segment]:
        """Return the leader's strokes."""
        return list(pairwise(self.leader))

    def begun(self, after_mm: float = _SHARED_TIP_MM) -> list[Segment]:
        """Return the leader's strokes without its first bit, where others may start too. [mm]."""
        tip, elbow, *_ = self.leader
        share = min(1.0, after_mm / math.dist(tip, elbow))
        return [(between(tip, elbow, share), elbow), *self.strokes[1:]]


class Ease(IntEnum):
    """What a text may lie on and its leader may cross: nothing, strokes, leaders, even texts."""

    STRICT = 0
    OVER_STROKES = 1
    OVER_LEADERS = 2
    UNDER_TEXTS = 3


class Board:
    """What is taken while places are found: texts, leaders, strokes of the drawing."""

    def __init__(
        self,
        room: Box,
        boxes: Iterable[Box],
        segments: Iterable[Segment],
        pipes: Iterable[Segment] = (),
        air_mm: float = AIR_MM,
    ) -> None:
        self.room, self.air_mm = room, air_mm
        papers = (TakenPaper(room) for _ in range(6))
        self.texts, self.strokes, self.leaders, self.tips, self.all, self.pipes = papers
        self.pipes.draw(pipes)
        for box in boxes:
            self.texts.take(box)
            self.all.take(box)
        self.draw(segments)

    def point(self, tips: Iterable[Point]) -> None:
        """Take the points that texts speak of: no other text may ever cover them."""
        spots = [(tip, tip) for tip in tips]
        self.tips.draw(spots)
        self.draw(spots)

    def draw(self, segments: Iterable[Segment]) -> None:
        """Take strokes of the drawing."""
        cells = self.strokes.cells(segments)
        for paper in (self.strokes, self.all):
            paper.mark(cells)

    def open(self, candidate: Candidate, ease: Ease = Ease.STRICT) -> bool:
        """Return whether a candidate lies in the room, on nothing, with its leader clear."""
        box = candidate.box
        if not self.room.holds(box):
            return False
        if ease is Ease.STRICT:
            clear = self.all.free(box, AIR_MM)
            clear = clear and (self.air_mm == AIR_MM or self.texts.free(box, self.air_mm))
            return clear and (not candidate.leader or self._clear(candidate))
        clear = self.texts.free(box, AIR_MM) and self.leaders.free(box, AIR_MM)
        clear = clear and self.tips.free(box)
        return clear and self._clear(candidate, ease)

    def _clear(self, candidate: Candidate, ease: Ease = Ease.STRICT) -> bool:
        """Return whether a leader stays in the room, but for its tip, and off every text."""
        if not candidate.leader:
            return True
        if not self.room.holds(Box.around(candidate.leader[1:])):
            return False
        begun = candidate.begun()
        crosses = ease < Ease.OVER_LEADERS and self.leaders.meets(begun)
        return not (crosses or (ease < Ease.UNDER_TEXTS and self.texts.meets(begun)))

    def over_pipe(self, candidate: Candidate) -> bool:
        """Return whether a box lies on a pipe, or its leader runs over one but where it begins."""
        if not self.pipes.free(candidate.box):
            return True
        return bool(candidate.leader) and self.pipes.meets(candidate.begun(_OWN_PIPE_MM))

    def anew(
        self, boxes: Iterable[Box], leaders: Iterable[tuple[Point, ...]], air_mm: float
    ) -> Board:
        """Return a board with the same strokes, but these texts and leaders, and more air."""
        board = Board(self.room, boxes, (), (), air_mm)
        board.pipes = self.pipes
        board.strokes.rows = list(self.strokes.rows)
        board.all.rows = [
            one | other for one, other in zip(board.all.rows, self.strokes.rows, strict=True)
        ]
        for leader in leaders:
            for paper in (board.leaders, board.all):
                paper.draw(pairwise(leader))
        return board

    def put(self, candidate: Candidate) -> None:
        """Take the paper a candidate needs."""
        for paper in (self.texts, self.all):
            paper.take(candidate.box)
        for paper in (self.leaders, self.all):
            paper.draw(candidate.strokes)
