"""The window chart as a sheet of its own, and what is wrong with it."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from sheet_marks import collisions, length, struck

from permitkit.drawing.shapes import Anchor, Box, Label, Line, Role
from permitkit.drawing.sheet import Sheet, flatten, outline
from permitkit.drawing.window_chart import window_chart

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["chart_faults", "chart_sheet"]

MM_OF_PAPER = 0.1


def chart_sheet(job: Job, study: Study) -> tuple[Sheet, ...]:
    """Return the chart as a sheet just as large; nothing where no hole is cored."""
    chart = window_chart(job, study)
    if chart is None:
        return ()
    return (Sheet(chart.width_mm, chart.height_mm, "Window", chart.shapes),)


def chart_faults(job: Job, study: Study, room: Box | None = None) -> Iterator[str]:
    """Yield texts on texts, strokes through texts, marks outside, and heights off their scale."""
    for sheet in chart_sheet(job, study):
        box = (room or sheet.paper).grown(0.6)
        yield from (f"{one!r} on {other!r}" for one, other in collisions(sheet))
        yield from (f"a stroke runs through {text!r}" for text in struck(sheet))
        marks = flatten(sheet.shapes)
        yield from (f"{m} leaves the chart" for m in marks if not box.holds(Box.around(outline(m))))
        yield from _off_scale(sheet, study)


def _off_scale(sheet: Sheet, study: Study) -> Iterator[str]:
    """Yield the figures under the bars and the limits that do not lie on one straight scale."""
    figures = [
        (float(length(label.text.lstrip("-"))) * (-1 if "-" in label.text else 1), label.at[0])
        for label in sheet.labels
        if isinstance(label, Label) and label.anchor is Anchor.N
    ]
    rows = sorted(figures)
    if len(rows) < 2:
        return
    one = (rows[-1][1] - rows[0][1]) / (rows[-1][0] - rows[0][0])
    for (low, left), (high, right) in pairwise(rows):
        if abs(right - left - one * (high - low)) > MM_OF_PAPER:
            yield f"{low} m and {high} m are off scale"
    hole = study.curb.hole if study.curb else None
    assert hole is not None
    drawn = [
        m.start[0] for m in flatten(sheet.shapes) if isinstance(m, Line) and m.role is Role.PIPE
    ]
    if abs(drawn[0] - rows[0][1] - one * (hole.bottom_m - rows[0][0])) > MM_OF_PAPER:
        yield "the hole does not stand where its height is"
