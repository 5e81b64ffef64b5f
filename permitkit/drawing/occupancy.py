"""Which parts of a sheet are taken, kept as rows of bits so that asking costs next to nothing."""

from __future__ import annotations

import math
from enum import IntEnum
from itertools import pairwise
from math import floor
from operator import and_, or_
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.shapes import Box, Point

if TYPE_CHECKING:
    from collections.abc import Iterable

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
        low = floor((bottom - air_mm - self.bottom) / CELL_MM - _LEVEL)
        low = max(0, low)
        high = floor((top + air_mm - self.bottom) / CELL_MM + _LEVEL) + 1
        end = right + air_mm - self.left
        if end < 0:
            return low, high, 0
        first = floor((left - air_mm - self.left) / CELL_MM - _LEVEL)
        first = max(0, first)
        count = floor(end / CELL_MM + _LEVEL) + 1 - first
        return low, high, ((1 << count if count > 1 else 2) - 1) << first

    def stroke(self, segment: Segment) -> tuple[int, list[int]]:
        """Return the lowest row that a stroke passes, and its bits in that and each row above."""
        (x0, y0), (x1, y1) = segment if segment[0][1] <= segment[1][1] else segment[::-1]
        low, high = (y0 - self.bottom) / CELL_MM, (y1 - self.bottom) / CELL_MM
        start, end = (x0 - self.left) / CELL_MM, (x1 - self.left) / CELL_MM
        level = high - low <= _LEVEL
        if level and end < start:
            start, end = end, start
        rows = range(max(floor(low), 0), min(floor(high), len(self.rows) - 1) + 1)
        if level or start == end:
            return rows.start, [_bits(start, end)] * len(rows)
        slope = (end - start) / (high - low)
        found = []
        at = start + slope * (rows.start - low) if rows.start > low else start
        for row in rows:
            to = end if row + 1 >= high else start + slope * (row + 1 - low)
            found.append(_bits(at, to) if slope >= 0 else _bits(to, at))
            at = to
        return rows.start, found

    def draw(self, segments: Iterable[Segment]) -> None:
        """Mark strokes as taken."""
        rows = self.rows
        for segment in segments:
            first, bits = self.stroke(segment)
            for row, taken in enumerate(bits, first):
                rows[row] |= taken

    def add(self, other: TakenPaper) -> None:
        """Mark as taken what is taken of the same room elsewhere."""
        self.rows = list(map(or_, self.rows, other.rows))

    def meets(self, segments: Iterable[Segment]) -> bool:
        """Return whether strokes pass anything taken."""
        for segment in segments:
            if not self.free(Box.around(segment)):
                first, bits = self.stroke(segment)
                if any(map(and_, self.rows[first : first + len(bits)], bits)):
                    return True
        return False

    def crossed(self, segments: Iterable[Segment]) -> int:
        """Return how many taken cells strokes pass."""
        count = 0
        for segment in segments:
            first, bits = self.stroke(segment)
            under = map(and_, self.rows[first : first + len(bits)], bits)
            count += sum(map(int.bit_count, under))
        return count


def _bits(low: float, high: float) -> int:
    """Return the bits of the cells that a stretch touches, both ends counted in cells."""
    first, last = floor(low - _LEVEL), floor(high + _LEVEL)
    if last < 0:
        return 0
    first = max(0, first)
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
        drawn = TakenPaper(self.room)
        drawn.draw(segments)
        for paper in (self.strokes, self.all):
            paper.add(drawn)

    def bare(self, box: Box) -> bool:
        """Return whether a box lies in the room, and on nothing."""
        if not (self.room.holds(box) and self.all.free(box, AIR_MM)):
            return False
        return self.air_mm == AIR_MM or self.texts.free(box, self.air_mm)

    def open(self, candidate: Candidate, ease: Ease = Ease.STRICT) -> bool:
        """Return whether a candidate lies in the room, on nothing, with its leader clear."""
        box = candidate.box
        if ease is Ease.STRICT:
            return self.bare(box) and (not candidate.leader or self.clear(candidate))
        if not self.room.holds(box):
            return False
        clear = self.texts.free(box, AIR_MM) and self.leaders.free(box, AIR_MM)
        clear = clear and self.tips.free(box)
        return clear and self.clear(candidate, ease)

    def clear(self, candidate: Candidate, ease: Ease = Ease.STRICT) -> bool:
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
        board.strokes.add(self.strokes)
        board.all.add(self.strokes)
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
