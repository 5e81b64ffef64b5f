"""Which parts of a sheet are taken, kept as rows of bits so that asking costs next to nothing."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Box, Point

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

__all__ = ["Segment", "TakenPaper"]

Segment = tuple[Point, Point]

_CELL_MM = 0.5
_LEVEL = 1e-9


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
        self.rows = [0] * (math.ceil(room.height / _CELL_MM) + 1)

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
        low = max(math.floor((bottom - air_mm - self.bottom) / _CELL_MM - _LEVEL), 0)
        high = math.floor((top + air_mm - self.bottom) / _CELL_MM + _LEVEL) + 1
        end = right + air_mm - self.left
        if end < 0:
            return low, high, 0
        first = max(math.floor((left - air_mm - self.left) / _CELL_MM - _LEVEL), 0)
        count = math.floor(end / _CELL_MM + _LEVEL) + 1 - first
        return low, high, ((1 << max(count, 1)) - 1) << first

    def stroke(self, segment: Segment) -> Iterator[tuple[int, int]]:
        """Return the row and bits of every row that a stroke passes."""
        (x0, y0), (x1, y1) = segment if segment[0][1] <= segment[1][1] else segment[::-1]
        low, high = (y0 - self.bottom) / _CELL_MM, (y1 - self.bottom) / _CELL_MM
        start, end = (x0 - self.left) / _CELL_MM, (x1 - self.left) / _CELL_MM
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
