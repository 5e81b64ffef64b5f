"""Around a profile: the grid with levels and stations, and the bands below it."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.info import held, loosened
from permitkit.drawing.lettering import text_width_mm, wrapped
from permitkit.drawing.scale import System
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Hatch,
    Label,
    Line,
    Polygon,
    Role,
)
from permitkit.drawing.sheet_parts.text import PITCH_MM
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.info import Figures
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.shapes import Pattern, Point, Shape

__all__ = ["BAND_MM", "PIPE_BAND_MM", "Band", "Cell", "bands", "grid", "station_axis", "untold"]

BAND_MM = PITCH_MM + 0.9
"""Height of a band of one line. [mm]"""

PIPE_BAND_MM = 2 * PITCH_MM + 1.0
"""Height of a band of two lines. [mm]"""

_FINEST_LEVELS_MM, _FINEST_STATIONS_MM = 7.0, 12.0
_STEPS = tuple(
    Fraction(digit) * Fraction(10) ** power for power in range(-2, 4) for digit in (1, 2, 5)
)
_TICK_MM = 1.4


class Cell(NamedTuple):
    """One cell of a band: stations from and to, its texts from the longest on, and its name."""

    low_m: float
    high_m: float
    texts: tuple[str, ...]
    name: str = ""


class Band(NamedTuple):
    """One band under the profile: its caption, its cells, its height in mm, their hatch."""

    caption: str
    cells: tuple[Cell, ...]
    height_mm: float = BAND_MM
    pattern: Pattern | None = None


def _unit(figures: Figures) -> str:
    return "m" if figures.system is System.METRIC else "ft"


def _step(one_mm: float, finest_mm: float) -> Fraction:
    """Return the least round number of units that stand far enough apart."""
    return next((step for step in _STEPS if float(step) * one_mm >= finest_mm), _STEPS[-1])


def _rounds(low: float, high: float, step: Fraction) -> Iterator[Fraction]:
    """Return the round numbers between two values."""
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    for count in range(first, last + 1):
        yield count * step


def grid(strip: Strip, figures: Figures, marks: Sequence[Point]) -> tuple[Shape, ...]:
    """Return level lines with their figures on the left, threads down to marks, and the border.

    Parameters
    ----------
    strip, figures
        The stretch, and how its numbers are written.
    marks
        Stations and levels that a thread goes down to from the top of the plot. [m]
    """
    one = float(measure(1, _unit(figures), Kind.LENGTH))
    plot = strip.plot
    step = _step(strip.high_mm(one), _FINEST_LEVELS_MM)
    foot = _level_at(strip, plot.bottom)
    top = _level_at(strip, plot.top)
    caption = Label(f"in {_unit(figures)}", (plot.left - 1.2, plot.top), Anchor.NE)
    shapes: list[Shape] = [Polygon(plot.corners, Role.NOTE), caption]
    for number in _rounds(foot / one, top / one, step):
        y = strip.at(strip.low_m, float(number) * one)[1]
        shapes.append(Line((plot.left, y), (plot.right, y), Role.HATCH))
        if plot.bottom + 1.5 < y < caption.box.bottom - 2.0:
            shapes.append(Label(_figure(number, figures), (plot.left - 1.2, y), Anchor.E))
    for mark in marks:
        if strip.shows(mark[0]):
            x, y = strip.at(*mark)
            shapes.append(Line((x, plot.top), (x, min(y + 0.4, plot.top)), Role.HATCH))
    return tuple(shapes)


def _figure(number: Fraction, figures: Figures) -> str:
    """Return a round level as its axis prints it."""
    return measure(number, _unit(figures), Kind.LEVEL).shown().partition(" ")[0]


def _level_at(strip: Strip, y_mm: float) -> float:
    """Return the level at a height on paper."""
    return strip.view.world[1] + (y_mm - strip.view.paper[1]) / strip.high_mm(1.0)


def station_axis(strip: Strip, figures: Figures, top_mm: float) -> tuple[Shape, ...]:
    """Return the stations along a line at a height on paper: ticks, and round figures below."""
    unit = _unit(figures)
    one = float(measure(1, unit, Kind.LENGTH))
    step = _step(strip.view.scale.paper_mm(one), _FINEST_STATIONS_MM)
    plot = strip.plot
    caption = Label("station", (plot.left - 1.2, top_mm - _TICK_MM - 0.6), Anchor.NE)
    shapes: list[Shape] = [caption]
    for number in _rounds(strip.low_m / one, strip.high_m / one, step):
        x = strip.x(float(number) * one)
        shapes.append(Line((x, top_mm), (x, top_mm - _TICK_MM), Role.NOTE))
        text = measure(number, unit, Kind.LENGTH).shown()
        label = Label(text, (x, top_mm - _TICK_MM - 0.6), Anchor.N)
        if label.box.left >= plot.left and label.box.right <= plot.right + 1.0:
            shapes.append(label)
    return tuple(shapes)


def bands(strip: Strip, rows: Sequence[Band], top_mm: float) -> tuple[Shape, ...]:
    """Return the bands below the plot, the first at a height on paper; each has its caption."""
    shapes: list[Shape] = []
    edge = top_mm
    for row in rows:
        box = Box(strip.plot.left, edge - row.height_mm, strip.plot.right, edge)
        shapes.append(Polygon(box.corners, Role.NOTE))
        shapes.append(Label(row.caption, (box.left - 1.2, box.centre[1]), Anchor.E))
        for cell in row.cells:
            shapes.extend(_cell(strip, cell, box, row.pattern))
        edge = box.bottom
    return tuple(shapes)


def _cell(strip: Strip, cell: Cell, box: Box, pattern: Pattern | None) -> list[Shape]:
    """Return one cell: the rules at its ends, and the longest of its texts that it takes."""
    low, high = max(cell.low_m, strip.low_m), min(cell.high_m, strip.high_m)
    if high <= low:
        return []
    left, right = strip.x(low), strip.x(high)
    shapes: list[Shape] = []
    if pattern:
        shapes.append(Hatch(box._replace(left=left, right=right).corners, pattern, density=1.5))
    shapes.extend(
        Line((x, box.bottom), (x, box.top), Role.NOTE)
        for x in (left, right)
        if box.left + 0.1 < x < box.right - 0.1
    )
    for text in cell.texts:
        lines = _taken(text, right - left - 1.0, box.height)
        if lines:
            middle = ((left + right) / 2, box.centre[1])
            shapes.append(Label("\n".join(lines), middle, Anchor.C, backing=pattern is not None))
            break
    return shapes


def _taken(text: str, across_mm: float, height_mm: float) -> tuple[str, ...]:
    """Return a text broken to fit a cell, or nothing."""
    if across_mm <= 0:
        return ()
    lines = wrapped(held(text), across_mm, LEAST_LETTERING_MM)
    widest = max(text_width_mm(line, LEAST_LETTERING_MM) for line in lines)
    fits = widest <= across_mm and len(lines) * PITCH_MM + 0.5 <= height_mm
    return tuple(map(loosened, lines)) if fits else ()


def untold(strip: Strip, row: Band) -> tuple[str, ...]:
    """Return the texts of a band's cells on this sheet that are too narrow for them."""
    shown = (
        (cell, max(cell.low_m, strip.low_m), min(cell.high_m, strip.high_m)) for cell in row.cells
    )
    return tuple(
        f"{cell.name}: {cell.texts[0]}"
        for cell, low, high in shown
        if high > low
        and not _taken(cell.texts[0], strip.x(high) - strip.x(low) - 1.0, row.height_mm)
    )
