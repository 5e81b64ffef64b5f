"""A ladder of texts beside a drawing: one above the other, each led to its own point."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from permitkit.drawing.info import held, loosened
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Label,
    Point,
    Polyline,
    Role,
)
from permitkit.drawing.sheet_parts.spread import spread

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.shapes import Shape

__all__ = ["Rung", "ladder", "ladder_mm"]

_AIR_MM = 1.4
_ELBOW_MM = 3.0
_OFF_TEXT_MM = 0.8
_SAME_MM = 0.3


@dataclass(frozen=True, slots=True)
class Rung:
    """One text and the point it speaks of.

    Parameters
    ----------
    text
        What it says.
    tip
        The point. [mm]
    bold
        Whether it matters most.
    low_tip
        The point in place of `tip` for a text that stands lower than it: the under edge of what it
        speaks of. [mm]
    """

    text: str
    tip: Point
    bold: bool = False
    low_tip: Point | None = None

    def tip_for(self, height_mm: float) -> Point:
        """Return the point that a text at a height is led to."""
        low = self.low_tip
        return low if low is not None and height_mm < low[1] else self.tip

    def label(self, wrap_mm: float) -> Label:
        """Return the text broken into lines, right of nothing yet."""
        lines = wrapped(held(self.text), wrap_mm, LEAST_LETTERING_MM, bold=self.bold)
        return Label(loosened("\n".join(lines)), (0.0, 0.0), Anchor.E, bold=self.bold)


def ladder(
    rungs: Sequence[Rung],
    edge_mm: float,
    span: tuple[float, float],
    wrap_mm: float,
    *,
    at_right: bool = False,
) -> tuple[Shape, ...] | None:
    """Return texts one above the other, each as near to its point's height as the others let it.

    Parameters
    ----------
    rungs
        The texts.
    edge_mm
        Where the texts end on the side of the drawing. [mm]
    span
        Between which heights they stand. [mm]
    wrap_mm
        The widest line. [mm]
    at_right
        The texts stand right of the drawing, not left of it.

    Returns
    -------
    tuple of Shape or None
        None if they have no room.
    """
    order = sorted(rungs, key=lambda rung: (rung.tip[1], rung.text))
    labels = [rung.label(wrap_mm) for rung in order]
    heights = [label.box.height + _AIR_MM for label in labels]
    if spread([rung.tip[1] for rung in order], heights, *span) is None:
        return None
    steps = list(zip(order, labels, heights, strict=True))
    placed = _hung(steps, edge_mm, span, at_right=at_right)
    crossed = _crossings(placed)
    for index in (*range(len(steps) - 1), *range(len(steps) - 2, -1, -1)):
        if not crossed:
            break
        swapped = [*steps[:index], steps[index + 1], steps[index], *steps[index + 2 :]]
        other = _hung(swapped, edge_mm, span, at_right=at_right)
        if (fewer := _crossings(other)) < crossed:
            steps, placed, crossed = swapped, other, fewer
    return tuple(mark for marks in placed for mark in marks)


def _hung(
    steps: Sequence[tuple[Rung, Label, float]],
    edge_mm: float,
    span: tuple[float, float],
    *,
    at_right: bool,
) -> list[tuple[Shape, ...]]:
    """Return texts with their leaders in an order given, lowest first."""
    middles = spread([step[0].tip[1] for step in steps], [step[2] for step in steps], *span)
    return [
        _placed(rung, label, (edge_mm, middle), at_right=at_right)
        for (rung, label, _), middle in zip(steps, middles or (), strict=True)
    ]


def _crossings(placed: Sequence[tuple[Shape, ...]]) -> int:
    """Return how many pairs of leaders cross."""
    lines = [mark.points for marks in placed for mark in marks if isinstance(mark, Polyline)]
    return sum(
        _cross(one, other)
        for (first, second) in combinations(lines, 2)
        for one in pairwise(first)
        for other in pairwise(second)
    )


def _cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Return whether two strokes cross between their ends."""
    sides = (
        _side(*one, other[0]) * _side(*one, other[1]),
        _side(*other, one[0]) * _side(*other, one[1]),
    )
    return max(sides) < 0


def _side(start: Point, end: Point, point: Point) -> float:
    """Return on which side of a stroke a point lies, by sign."""
    across, up = end[0] - start[0], end[1] - start[1]
    return across * (point[1] - start[1]) - up * (point[0] - start[0])


def _placed(rung: Rung, label: Label, at: Point, *, at_right: bool) -> tuple[Shape, ...]:
    """Return one text with its leader."""
    sign = -1.0 if at_right else 1.0
    anchor = Anchor.W if at_right else Anchor.E
    text = Label(label.text, at, anchor, bold=label.bold)
    start = (at[0] + sign * _OFF_TEXT_MM, at[1])
    tip = rung.tip_for(at[1])
    gap = sign * (tip[0] - start[0])
    if gap <= _SAME_MM:
        return (text,)
    elbow = (at[0] + sign * min(_ELBOW_MM, gap), at[1])
    level = abs(tip[1] - at[1]) <= _SAME_MM
    path = (start, (tip[0], at[1])) if level else (start, elbow, tip)
    return text, Polyline(path, Role.DIMENSION)


def ladder_mm(rungs: Sequence[Rung], wrap_mm: float) -> float:
    """Return how tall texts stand one above the other, in mm."""
    return sum(rung.label(wrap_mm).box.height + _AIR_MM for rung in rungs)
