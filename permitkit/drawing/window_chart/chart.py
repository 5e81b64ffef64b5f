"""The outlet window: each limit on the hole's lowest point, which binds, and the proposed hole."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.dimensions import arrowhead
from permitkit.drawing.info import figures_of, held, loosened
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.scale import System
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Fill,
    Hatch,
    Label,
    Line,
    Pattern,
    Polygon,
    Role,
)
from permitkit.drawing.sheet_parts.text import PITCH_MM, hung
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.info import Figures
    from permitkit.drawing.shapes import Shape
    from permitkit.model.job import Job
    from permitkit.study.results import Bound, HoleStudy, Study, Window

__all__ = ["Chart", "window_chart"]

_WIDTH_MM = 170.0
_WORDS_MM, _VALUE_MM = 72.0, 31.0
_ROW_AIR_MM, _AXIS_MM, _HEAD_MM = 2.0, 7.0, 6.0
_BEYOND = 0.18
_SAME_M = 1e-9
_LEAST_SPAN_M = 0.01
_STEPS = {
    System.US: tuple(Fraction(1, 16) * 2**power for power in range(8)),
    System.METRIC: tuple(Fraction(step) for step in (1, 2, 5, 10, 20, 50, 100)),
}


class Chart(NamedTuple):
    """A chart as shapes in a box of its own, whose bottom left corner is the origin, in mm."""

    shapes: tuple[Shape, ...]
    width_mm: float
    height_mm: float


class Row(NamedTuple):
    """One limit: its words, its height, whether it is a least, whether it binds or only advises."""

    words: str
    bound: Bound
    least: bool
    binds: bool
    advice: bool

    @property
    def height_mm(self) -> float:
        """Return how tall the row is, in mm."""
        return len(_lines(self.words, bold=self.binds)) * PITCH_MM + _ROW_AIR_MM


def window_chart(job: Job, study: Study, width_mm: float = _WIDTH_MM) -> Chart | None:
    """Return the limits on the height of a hole as bars, with the window between them.

    Parameters
    ----------
    job, study
        The job and what was computed from it.
    width_mm
        How wide the chart is. [mm]

    Returns
    -------
    Chart or None
        None where no hole is cored.
    """
    hole = study.curb.hole if study.curb else None
    if hole is None:
        return None
    rows = tuple(_rows(hole.window))
    figures = figures_of(job)
    said = wrapped(held(_said(hole, figures)), width_mm, LEAST_LETTERING_MM)
    foot = len(said) * PITCH_MM + 2.0
    tall = sum(row.height_mm for row in rows)
    bars = Box(_WORDS_MM + _VALUE_MM, foot + _AXIS_MM, width_mm, foot + _AXIS_MM + tall)
    axis = Axis(_span_m(hole), bars, figures)
    shapes = (
        *_window(axis, hole.window),
        *_heads(axis),
        *_bars(axis, rows),
        *_scale(axis),
        *_hole(axis, hole),
        hung([loosened(line) for line in said], (0.0, foot - 1.0)),
    )
    return Chart(shapes, width_mm, bars.top + 2 * _HEAD_MM)


def _rows(window: Window) -> Iterator[Row]:
    """Yield every limit, those that ask for more height first."""
    for bounds, least, binding, advice in (
        (window.lows, True, window.low, False),
        (window.highs, False, window.high, False),
        (window.advice_lows, True, None, True),
        (window.advice_highs, False, None, True),
    ):
        for bound in sorted(bounds, key=lambda bound: (-bound.height_m, bound.name)):
            source = f" ({bound.source})" if bound.source else ""
            words = f"{'advice: ' if advice else ''}{bound.name}{source}"
            yield Row(words, bound, least, bound == binding, advice)


def _lines(words: str, *, bold: bool) -> tuple[str, ...]:
    """Return a limit's words broken into lines."""
    lines = wrapped(held(words), _WORDS_MM - 2.0, LEAST_LETTERING_MM, bold=bold)
    return tuple(loosened(line) for line in lines)


def _span_m(hole: HoleStudy) -> tuple[float, float]:
    """Return the heights between which the axis runs: all limits and the hole, with some air."""
    window = hole.window
    every = (*window.lows, *window.highs, *window.advice_lows, *window.advice_highs)
    heights = [hole.bottom_m, *(bound.height_m for bound in every)]
    low, high = min(heights), max(heights)
    air = _BEYOND * max(high - low, _LEAST_SPAN_M)
    return low - air, high + air


class Axis(NamedTuple):
    """The way from heights to paper.

    `span_m` is what is shown, `box` the part of the chart that holds the bars.
    """

    span_m: tuple[float, float]
    box: Box
    figures: Figures

    def x(self, height_m: float) -> float:
        """Return how far to the right a height lies, in mm."""
        low, high = self.span_m
        return self.box.left + (height_m - low) / (high - low) * self.box.width


def _said(hole: HoleStudy, figures: Figures) -> str:
    """Return the window in words: its ends, or which two limits cross and by how much."""
    window, write = hole.window, figures.height
    low, high = window.low, window.high
    if window.empty:
        apart = write(low.height_m - high.height_m)
        return (
            f"No height satisfies every limit: {low.name} asks for at least {write(low.height_m)}, "
            f"{high.name} for at most {write(high.height_m)}; they miss each other by {apart}."
        )
    words = (
        f"Window: hole bottom from {write(low.height_m)} ({low.name} binds) to "
        f"{write(high.height_m)} ({high.name} binds). "
    )
    return f"{words}Proposed {write(hole.bottom_m)}, {_fits(hole, figures)}."


def _fits(hole: HoleStudy, figures: Figures) -> str:
    """Return whether the proposed hole lies in the window, and else by how much it does not."""
    window, write = hole.window, figures.height
    under, over = window.low.height_m - hole.bottom_m, hole.bottom_m - window.high.height_m
    if under > _SAME_M:
        return f"{write(under)} too low"
    if over > _SAME_M:
        return f"{write(over)} too high"
    centre = write(hole.centre_below_top_m)
    return f"inside it; bit center {centre} below the curb top"


def _window(axis: Axis, window: Window) -> list[Shape]:
    """Return the window as a grey band behind the bars; nothing where it is empty."""
    if window.empty:
        return []
    left, right = axis.x(window.low.height_m), axis.x(window.high.height_m)
    band = axis.box._replace(left=left, right=max(right, left + 0.4))
    return [Polygon(band.corners, Role.NOTE, Fill.TONE, outlined=False)]


def _heads(axis: Axis) -> list[Shape]:
    """Return the heads of the columns."""
    top = axis.box.top + 2 * _HEAD_MM
    right = axis.box.right
    return [
        hung(["Limit on the hole's lowest point"], (0.0, top), bold=True),
        Label("over the flow line", (right, top), Anchor.NE, bold=True, role=Role.NOTE),
    ]


def _scale(axis: Axis) -> list[Shape]:
    """Return the round heights under the bars."""
    unit = "mm" if axis.figures.system is System.METRIC else "in"
    one_m = float(measure(1, unit, Kind.LENGTH))
    one_mm = axis.x(one_m) - axis.x(0.0)
    steps = _STEPS[axis.figures.system]
    step = next(
        (step for step in steps if float(step) * one_mm >= _apart_mm(axis, step)), steps[-1]
    )
    low, high = (height / one_m / float(step) for height in axis.span_m)
    shapes: list[Shape] = []
    for count in range(math.ceil(low), math.floor(high) + 1):
        x = axis.x(count * float(step) * one_m)
        shapes.append(Line((x, axis.box.bottom), (x, axis.box.bottom - 1.2), Role.NOTE))
        text = measure(count * step, unit, Kind.LENGTH).shown(step)
        label = Label(text, (x, axis.box.bottom - 1.8), Anchor.N)
        if label.box.right <= axis.box.right + 0.5:
            shapes.append(label)
    return shapes


def _apart_mm(axis: Axis, step: Fraction) -> float:
    """Return how far apart the figures of a step must stand, by the widest of them, in mm."""
    unit = "mm" if axis.figures.system is System.METRIC else "in"
    one_m = float(measure(1, unit, Kind.LENGTH))
    ends = (math.floor(height / one_m / float(step)) for height in axis.span_m)
    texts = (measure(count * step, unit, Kind.LENGTH).shown(step) for count in ends)
    return max(Label(text, (0.0, 0.0)).width_mm for text in texts) + 2.0


def _hole(axis: Axis, hole: HoleStudy) -> list[Shape]:
    """Return the proposed hole's bottom as a line through all bars."""
    x, box = axis.x(hole.bottom_m), axis.box
    words = f"proposed {axis.figures.height(hole.bottom_m)}"
    label = Label(words, (x, box.top + 1.2), Anchor.S, bold=True)
    over = max(label.box.right - box.right, 0.0)
    at = (x - over, box.top + 1.2)
    line = Line((x, box.bottom), (x, box.top + 1.0), Role.PIPE)
    return [line, Label(words, at, Anchor.S, bold=True)]


def _bars(axis: Axis, rows: Sequence[Row]) -> list[Shape]:
    """Return one bar for each limit: hatched where it forbids, open where it allows."""
    shapes: list[Shape] = []
    top = axis.box.top
    for row in rows:
        box = axis.box._replace(bottom=top - row.height_mm, top=top)
        shapes.extend(_bar(axis, row, box))
        top = box.bottom
    return shapes


def _bar(axis: Axis, row: Row, box: Box) -> list[Shape]:
    """Return one limit."""
    x = axis.x(row.bound.height_m)
    inner = Box(box.left, box.bottom + 0.6, box.right, box.top - 0.6)
    barred = inner._replace(right=x) if row.least else inner._replace(left=x)
    value = ("at least " if row.least else "at most ") + axis.figures.height(row.bound.height_m)
    sign = 0.0 if row.least else 180.0
    role = Role.PROPOSED if row.binds else Role.EXISTING
    shapes: list[Shape] = [
        hung(_lines(row.words, bold=row.binds), (0.0, box.top - _ROW_AIR_MM / 2), bold=row.binds),
        Line((x, inner.bottom), (x, inner.top), role),
        arrowhead((x + (2.4 if row.least else -2.4), box.centre[1]), sign, role),
    ]
    shapes.append(Label(value, (box.left - 1.5, box.centre[1]), Anchor.E, bold=row.binds))
    if barred.width > _SAME_M and not row.advice:
        shapes.insert(0, Hatch(barred.corners, Pattern.REMOVED))
    shapes.append(Polygon(inner.corners, Role.NOTE))
    return shapes
