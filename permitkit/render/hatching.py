"""The marks of the drafting patterns, as tiles that repeat without a seam.

Scattered marks stand on a low-discrepancy sequence that is even on a wrapped square, so that every
sheet gets the same marks and no clumps. The patterns are the usual ones: concrete with small
triangles and dots, earth with groups of short strokes, gravel with rounded outlines, sand and grout
with dots, steel with paired lines at 45 degrees.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Pattern, Point, arc_points

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["Tile", "tile"]

Stroke = tuple[Point, ...]

_PLASTIC = 1.32471795724474602596
_GOLDEN_DEG = 137.50776405003785


@dataclass(frozen=True, slots=True)
class Tile:
    """One square of a pattern: open strokes, and dots as their centres.

    Marks may reach beyond the square by up to `REACH_MM`; laid side by side, tiles show no seam.
    """

    size_mm: float
    strokes: tuple[Stroke, ...]
    dots: tuple[Point, ...] = ()
    dot_radius_mm: float = 0.15
    reach_mm: float = 2.0


def _scattered(count: int, size: float, skip: int = 0) -> list[Point]:
    """Return points spread evenly over a wrapped square."""
    steps = 1 / _PLASTIC, 1 / _PLASTIC**2
    return [
        (size * ((0.5 + step * index) % 1), size * ((0.5 + other * index) % 1))
        for step, other in [steps]
        for index in range(skip + 1, skip + count + 1)
    ]


def _apart(one: Point, other: Point, size: float) -> float:
    """Return the distance between two points on a wrapped square."""
    dx, dy = (abs(a - b) % size for a, b in zip(one, other, strict=True))
    return math.hypot(min(dx, size - dx), min(dy, size - dy))


def _clear_of(
    points: list[Point], others: list[Point], gap: float, size: float
) -> tuple[Point, ...]:
    """Return the points that keep a gap from others."""
    return tuple(p for p in points if all(_apart(p, other, size) >= gap for other in others))


def _ring(centre: Point, radius: float, corners: int, turn_deg: float) -> Stroke:
    """Return a closed regular outline."""
    return arc_points(centre, radius, turn_deg, turn_deg + 360, 360 / corners)


def _stone(centre: Point, radius: float, turn_deg: float) -> Stroke:
    """Return a rounded, slightly flattened outline."""
    turn = math.radians(turn_deg)
    flat = 0.72
    outline = arc_points((0.0, 0.0), radius, 0.0, 360.0, 30.0)
    return tuple(
        (
            centre[0] + x * math.cos(turn) - flat * y * math.sin(turn),
            centre[1] + x * math.sin(turn) + flat * y * math.cos(turn),
        )
        for x, y in outline
    )


def _diagonals(size: float, count: int, shift: float = 0.0) -> tuple[Stroke, ...]:
    """Return rising lines across a square, so many to its side."""
    step = size / count
    return tuple(
        stroke
        for index in range(count)
        for along in [index * step + shift]
        for stroke in (((along, 0.0), (size, size - along)), ((0.0, size - along), (along, size)))
        if math.dist(*stroke) > 0
    )


def _concrete() -> Tile:
    size = 26.0
    centres = _scattered(22, size)
    triangles = [
        _ring(centre, 0.95 if index % 3 else 0.65, 3, index * _GOLDEN_DEG)
        for index, centre in enumerate(centres)
    ]
    return Tile(size, tuple(triangles), _clear_of(_scattered(150, size, 22), centres, 1.5, size))


def _earth() -> Tile:
    size, rows, columns, stroke = 15.0, 4, 2, 2.6
    strokes: list[Stroke] = []
    for row in range(rows):
        lean = stroke if row % 2 else -stroke
        for column in range(columns):
            x = (column + (row % 2) / 2) * size / columns + (0.0 if row % 2 else stroke)
            y = row * size / rows + 0.6
            strokes.extend(((x + i * 1.2, y), (x + i * 1.2 + lean, y + stroke)) for i in range(3))
    return Tile(size, tuple(strokes), reach_mm=7.0)


def _gravel() -> Tile:
    size = 17.0
    centres = _scattered(64, size)
    stones = []
    for index, centre in enumerate(centres):
        near = min(_apart(centre, other, size) for other in centres if other is not centre)
        radius = near * (0.56 if index % 2 else 0.48)
        stones.append(_stone(centre, radius, index * _GOLDEN_DEG))
    return Tile(size, tuple(stones))


def _asphalt() -> Tile:
    size = 15.0
    return Tile(size, _diagonals(size, 5), tuple(_scattered(70, size)), 0.17)


def _grout() -> Tile:
    size = 12.0
    return Tile(size, (), tuple(_scattered(190, size)), 0.12)


def _sand() -> Tile:
    size = 16.0
    return Tile(size, (), tuple(_scattered(120, size)), 0.16)


def _water() -> Tile:
    size = 12.0
    rows = 6
    strokes = [
        ((x, y), (x + 3.6, y))
        for row in range(rows)
        for y in [(row + 0.5) * size / rows]
        for x in [(row * 5 % rows) * size / rows, (row * 5 % rows) * size / rows + size / 2]
    ]
    return Tile(size, tuple(strokes), reach_mm=10.0)


def _removed() -> Tile:
    size = 12.0
    rising = _diagonals(size, 3)
    falling = tuple(tuple((size - x, y) for x, y in stroke) for stroke in rising)
    return Tile(size, (*rising, *falling))


def _steel() -> Tile:
    size = 8.0
    return Tile(size, (*_diagonals(size, 4), *_diagonals(size, 4, 0.55)))


_TILES: dict[Pattern, Callable[[], Tile]] = {
    Pattern.CONCRETE: _concrete,
    Pattern.EARTH: _earth,
    Pattern.GRAVEL: _gravel,
    Pattern.ASPHALT: _asphalt,
    Pattern.GROUT: _grout,
    Pattern.WATER: _water,
    Pattern.SAND: _sand,
    Pattern.REMOVED: _removed,
    Pattern.STEEL: _steel,
}


@lru_cache(maxsize=64)
def tile(pattern: Pattern, density: float = 1.0) -> Tile:
    """Return the tile of a pattern, packed closer by a density above 1.

    Raises
    ------
    ValueError
        If the density is not above zero.
    """
    if density <= 0:
        raise ValueError(f"a hatch cannot be {density} times as dense")
    whole = _TILES[pattern]()
    return Tile(
        whole.size_mm / density,
        tuple(tuple((x / density, y / density) for x, y in stroke) for stroke in whole.strokes),
        tuple((x / density, y / density) for x, y in whole.dots),
        whole.dot_radius_mm,
        whole.reach_mm / density,
    )
