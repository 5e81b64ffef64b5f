"""A hole cored through the curb, with its pipe, its grout, its strip and its window."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.curb_section.opening import (
    Opening,
    face_dimensions,
    height_lines,
    pipe_at_outlet,
    pipe_words,
    reveal_words,
    run_slope,
    tube,
    water_row,
)
from permitkit.drawing.shapes import Fill, Hatch, Line, Pattern, Point, Polygon, Role, Shape
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.symbols import flow_arrow

if TYPE_CHECKING:
    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.model.job import Job
    from permitkit.study.results import HoleStudy, Study

__all__ = ["core", "core_remarks", "window_words"]

_BRACKET_MM = 4.0
_TICK_MM = 1.4


class _Tubes(NamedTuple):
    """Hole, pipe and bore in the section, in m."""

    hole: tuple[Point, ...]
    pipe: tuple[Point, ...]
    bore: tuple[Point, ...]


def _tubes(cut: CurbCut, hole: HoleStudy, slope: float, far_m: float) -> _Tubes:
    """Return hole, pipe and bore, all about one center."""
    center = hole.bottom_m + hole.bit_m / 2
    laid = pipe_at_outlet(cut.job)
    outside = (laid[0].outside_height_m if laid else hole.pipe_outside_m) / 2
    bore = (laid[0].bore_height_m if laid else hole.bore_m) / 2
    return _Tubes(
        tube(cut, (hole.bottom_m, hole.top_m), slope, cut.back_m),
        tube(cut, (center - outside, center + outside), slope, far_m),
        tube(cut, (center - bore, center + bore), slope, far_m),
    )


def core(cut: CurbCut, study: Study, hole: HoleStudy, pane: Pane, figures: Figures) -> Opening:
    """Return the hole with everything in it.

    Parameters
    ----------
    cut, study, hole
        The curb, and what was computed of the hole.
    pane
        The way to the paper.
    """
    slope = run_slope(study)
    far = pane.ground.right
    tubes = _tubes(cut, hole, slope, far)
    dimensions = face_dimensions(cut, pane, _spans(cut, hole), figures)
    rows = _heights(cut, hole, figures)
    lines, edge = height_lines(cut, pane, (row[0] for row in rows), dimensions)
    rungs = [
        Rung(words, (edge, pane.at(0.0, height)[1]), bold=bold)
        for height, words, bold in (*rows, *water_row(cut, study, figures))
    ]
    bracket = _bracket_tip(cut, hole, pane)
    rungs.append(Rung(window_words(hole, figures), (edge, bracket[1])))
    lines = (*lines, Line(bracket, (edge, bracket[1]), Role.DIMENSION))
    return Opening(
        cut_away=(tubes.hole,),
        in_soil=(tubes.pipe,),
        shapes=(*_marks(cut, tubes, pane), *_bracket(cut, hole, pane), *lines),
        dimensions=dimensions,
        rungs=tuple(rungs),
        right=_beside(cut, hole, pane, figures, slope),
    )


def _spans(cut: CurbCut, hole: HoleStudy) -> tuple[tuple[float, float], ...]:
    """Return the heights that are dimensioned: hole, strip, setting-out, reveal."""
    centre = hole.bottom_m + hole.bit_m / 2
    return (
        (0.0, hole.bottom_m),
        (hole.bottom_m, hole.top_m),
        (hole.top_m, cut.reveal_m),
        (centre, cut.reveal_m),
        (0.0, cut.reveal_m),
    )


def _heights(cut: CurbCut, hole: HoleStudy, figures: Figures) -> list[tuple[float, str, bool]]:
    """Return every height that the section tells, in words."""
    write = figures.height
    flow_line = float(cut.job.gutter.flow_line)
    centre = hole.bottom_m + hole.bit_m / 2
    return [
        (cut.reveal_m, f"curb top, reveal {reveal_words(cut, figures)}", False),
        (hole.top_m, f"hole top, strip {write(cut.reveal_m - hole.top_m)}", False),
        (centre, f"BIT CENTER {write(hole.centre_below_top_m)} below curb top", True),
        (
            hole.invert_m,
            f"invert {write(hole.invert_m)} above flow line; pipe end flush with the face",
            False,
        ),
        (hole.bottom_m, f"hole bottom {write(hole.bottom_m)} above flow line", False),
        (0.0, f"flow line {figures.at_level(flow_line)}", False),
    ]


def _marks(cut: CurbCut, tubes: _Tubes, pane: Pane) -> tuple[Shape, ...]:
    """Return grout, pipe, bore and center line."""
    hole, pipe, bore = (pane.view.points(points) for points in tubes)
    in_curb = pane.view.points(_within(tubes.pipe, cut.back_m))
    low, high = tubes.bore[len(tubes.bore) - 2], tubes.bore[len(tubes.bore) - 1]
    middle = (low[1] + high[1]) / 2
    start = ((tubes.bore[0][1] + tubes.bore[len(tubes.bore) - 3][1]) / 2, cut.face_x(0.0))
    axis = Line(pane.at(start[1], start[0]), pane.at(low[0], middle), Role.CENTRE)
    arrow = flow_arrow(pane.at(cut.back_m + 0.6 * (low[0] - cut.back_m), middle), 180.0, 7.0)
    return (
        Hatch(hole, Pattern.GROUT, (in_curb,), 1.4),
        Polygon(pipe, Role.PROPOSED, Fill.TONE),
        Polygon(bore, Role.PROPOSED, Fill.WHITE),
        Polygon(hole, Role.PROPOSED),
        axis,
        arrow,
    )


def _within(points: tuple[Point, ...], far_m: float) -> tuple[Point, ...]:
    """Return a tube cut off at an offset behind the face."""
    *face, low, high = points
    first, last = face[-1], face[0]
    share = (far_m - first[0]) / (low[0] - first[0])
    top = (far_m - last[0]) / (high[0] - last[0])
    return (
        *face,
        (far_m, first[1] + share * (low[1] - first[1])),
        (far_m, last[1] + top * (high[1] - last[1])),
    )


def _bracket(cut: CurbCut, hole: HoleStudy, pane: Pane) -> tuple[Shape, ...]:
    """Return the bracket of heights in which the hole bottom may lie, in front of the face."""
    low, high = hole.window.low.height_m, hole.window.high.height_m
    x = pane.at(cut.face_x(max(low, 0.0)), 0.0)[0] - _BRACKET_MM
    ends = [pane.at(0.0, height)[1] for height in (low, high)]
    ticks = tuple(Line((x, y), (x + _TICK_MM, y), Role.PROPOSED) for y in ends)
    if hole.window.empty:
        return ticks
    return (Line((x, ends[0]), (x, ends[1]), Role.PROPOSED), *ticks)


def window_words(hole: HoleStudy, figures: Figures) -> str:
    """Return the window of the hole bottom in few words."""
    window, write = hole.window, figures.height
    if window.empty:
        return "no height of the hole bottom fits, see notes"
    low, high = write(max(window.low.height_m, 0.0)), write(window.high.height_m)
    return f"allowed window of the hole bottom: {low} to {high}"


def window_remark(hole: HoleStudy, figures: Figures) -> str:
    """Return the limits of the hole bottom that bind, with what sets them."""
    window = hole.window
    low, high = (_signed(end.height_m, figures) for end in (window.low, window.high))
    begun = (
        "No height fits: the hole bottom must lie" if window.empty else "The hole bottom may lie"
    )
    return (
        f"{begun} no lower than {low} ({window.low.name}) "
        f"and no higher than {high} ({window.high.name})."
    )


def _signed(height_m: float, figures: Figures) -> str:
    """Return a height, told as below the flow line where it is."""
    if height_m >= 0.0:
        return figures.height(height_m)
    return f"{figures.height(-height_m)} below the flow line"


def _bracket_tip(cut: CurbCut, hole: HoleStudy, pane: Pane) -> Point:
    """Return the middle of the bracket, on paper."""
    low, high = hole.window.low.height_m, hole.window.high.height_m
    x = pane.at(cut.face_x(max(low, 0.0)), 0.0)[0] - _BRACKET_MM
    return x, pane.at(0.0, (low + high) / 2)[1]


def _beside(
    cut: CurbCut, hole: HoleStudy, pane: Pane, figures: Figures, slope: float
) -> tuple[Rung, ...]:
    """Return what is said of pipe, grout, face and drilling, for the right of the section."""
    job, write = cut.job, figures.height
    back, behind = cut.back_m, (cut.back_m + 2 * pane.ground.right) / 3
    laid = pipe_at_outlet(job)
    outside = (laid[0].outside_height_m if laid else hole.pipe_outside_m) / 2
    center = hole.bottom_m + hole.bit_m / 2
    grout = job.restoration.grout or "grout"
    rows = (
        (pipe_words(job, figures), (behind, center + outside + slope * behind)),
        (f"gap {write(hole.gap_m)}, {grout} all round", (0.85 * back, hole.top_m - hole.gap_m / 2)),
        (f"{write(hole.bit_m)} {_drilling(job)}", (back, hole.bottom_m + slope * back)),
    )
    return tuple(Rung(text, pane.at(*tip)) for text, tip in rows)


def _drilling(job: Job) -> str:
    """Return what the hole is, and from which side it is drilled."""
    if job.outlet.kind == "existing hole":
        return "hole, there already, used again"
    if job.outlet.drill_from == "street":
        return "core, starts at the street face, breaks out into the soil"
    return "core, starts behind the curb, breaks out at the face"


def core_remarks(cut: CurbCut, hole: HoleStudy, figures: Figures) -> tuple[str, ...]:
    """Return the notes of a core: where to mark, what else there is to know."""
    job = cut.job
    below = figures.height(hole.centre_below_top_m)
    rows = [
        f"Mark the bit center {below} below the curb top at the hole.",
        window_remark(hole, figures),
    ]
    if hole.count > 1 and hole.spacing_m:
        rows.append(f"{hole.count} holes alike, {figures.height(hole.spacing_m)} center to center.")
    looked = {"yes": "bars looked for", "no": "bars not looked for", "unknown": ""}
    known = f"curb {job.curb.condition}" if job.curb.condition != "unknown" else ""
    state = ", ".join(word for word in (known, looked[job.curb.bars_looked_for]) if word)
    rows += [f"At the hole: {state}."] if state else []
    if job.outlet.drill_from == "street" and hole.barrel_least_bottom_m > 0.0:
        least = figures.height(hole.barrel_least_bottom_m)
        rows.append(f"The barrel clears the pan with the hole bottom at {least} or higher.")
    return tuple(rows)
