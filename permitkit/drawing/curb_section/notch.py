"""A notch sawn in a rolled curb, why a core would break its face, and the pipe behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.curb_section.opening import (
    Opening,
    face_dimensions,
    height_lines,
    pipe_at_outlet,
    pipe_words,
    reveal_words,
    run_slope,
    water_row,
)
from permitkit.drawing.dimensions import Along, Dimension
from permitkit.drawing.shapes import Fill, Hatch, Line, Pattern, Point, Polygon, Role, Shape
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.symbols import flow_arrow
from permitkit.study.curb import round_about_m

if TYPE_CHECKING:
    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.hydraulics.materials import Pipe
    from permitkit.study.results import NotchStudy, Study

__all__ = ["notch", "notch_remarks", "top_of_core"]

_SAMPLES = 40


def notch(cut: CurbCut, study: Study, sawn: NotchStudy, pane: Pane, figures: Figures) -> Opening:
    """Return the notch, cut along its middle.

    Parameters
    ----------
    cut, study, sawn
        The curb, and what was computed of the notch.
    pane
        The way to the paper.
    """
    removed = _removed(cut, sawn)
    laid = pipe_at_outlet(cut.job)
    spans = ((0.0, cut.reveal_m), (sawn.floor_back_m, cut.reveal_m))
    dimensions = face_dimensions(cut, pane, spans, figures)
    rows = _heights(cut, sawn, figures)
    lines, edge = height_lines(cut, pane, (row[0] for row in rows), dimensions)
    rungs = tuple(
        Rung(words, (edge, pane.at(0.0, y)[1]), bold=bold)
        for y, words, bold in (*rows, *water_row(cut, study, figures))
    )
    tube = _tube(cut, study, sawn, laid[0], pane) if laid else ()
    return Opening(
        cut_away=(removed,),
        in_soil=(tube,) if tube else (),
        shapes=(
            *_marks(cut, sawn, removed, pane),
            *(_pipe_marks(tube, laid[0], pane) if laid else ()),
            *lines,
        ),
        dimensions=(*dimensions, *_along_floor(cut, sawn, pane, figures)),
        rungs=rungs,
        right=_beside(cut, sawn, laid[0] if laid else None, pane, figures),
    )


def _removed(cut: CurbCut, sawn: NotchStudy) -> tuple[Point, ...]:
    """Return what the notch takes out of the section: between its floor and the curb's surface."""
    steps = [cut.back_m * step / _SAMPLES for step in range(_SAMPLES + 1)]
    floor = [(x, _floor(sawn, x)) for x in steps]
    over = [(x, y) for x, y in ((x, cut.top_y(x)) for x in steps) if y > _floor(sawn, x)]
    first = next((x for x, _ in over), cut.back_m)
    kept = [point for point in floor if point[0] >= first]
    return (*kept, *reversed(over))


def _floor(sawn: NotchStudy, x_m: float) -> float:
    """Return the height of the floor at an offset behind the toe."""
    return sawn.floor_toe_m + sawn.floor_slope * x_m


def _heights(cut: CurbCut, sawn: NotchStudy, figures: Figures) -> list[tuple[float, str, bool]]:
    """Return every height that the section tells, in words."""
    write = figures.height
    flow_line = float(cut.job.gutter.flow_line)
    return [
        (cut.reveal_m, f"curb top, reveal {reveal_words(cut, figures)}", False),
        (
            sawn.floor_back_m,
            f"NOTCH FLOOR at the back {write(sawn.floor_back_m)} above flow line",
            True,
        ),
        (
            sawn.floor_toe_m,
            f"NOTCH FLOOR at the toe {write(sawn.floor_toe_m)} above flow line",
            True,
        ),
        (0.0, f"flow line {figures.at_level(flow_line)}", False),
    ]


def _marks(
    cut: CurbCut, sawn: NotchStudy, removed: tuple[Point, ...], pane: Pane
) -> tuple[Shape, ...]:
    """Return the concrete taken out, the floor, the curb beyond, and the core that would not do."""
    region = pane.view.points(removed)
    start = min(x for x, _ in removed)
    floor = Line(
        pane.at(start, _floor(sawn, start)), pane.at(cut.back_m, sawn.floor_back_m), Role.PROPOSED
    )
    back = Line(
        pane.at(cut.back_m, sawn.floor_back_m), pane.at(cut.back_m, cut.reveal_m), Role.PROPOSED
    )
    arrow = flow_arrow(pane.at(0.5 * cut.back_m, _floor(sawn, 0.5 * cut.back_m)), 181.0, 7.0)
    return (Hatch(region, Pattern.REMOVED), floor, back, *_ghost(cut, sawn, pane), arrow)


def _ghost(cut: CurbCut, sawn: NotchStudy, pane: Pane) -> tuple[Shape, ...]:
    """Return the core of the same pipe, dashed, where it would break out of the curb."""
    if not sawn.core_would_break:
        return ()
    low, high = sawn.floor_toe_m, sawn.floor_toe_m + _bit(cut)
    left = cut.face_x(low)
    return (
        Line(pane.at(left, low), pane.at(cut.back_m, low), Role.HIDDEN),
        Line(pane.at(left, high), pane.at(cut.back_m, high), Role.HIDDEN),
    )


def _bit(cut: CurbCut) -> float:
    """Return the diameter of the hole that the pipe would ask for, at the least."""
    laid = pipe_at_outlet(cut.job)
    asked = round_about_m(laid[0]) if laid else 0.0
    return float(cut.job.outlet.bit or 0) or asked


def _tube(
    cut: CurbCut, study: Study, sawn: NotchStudy, pipe: Pipe, pane: Pane
) -> tuple[Point, ...]:
    """Return the pipe behind the curb; its invert meets the notch's floor."""
    low = sawn.floor_back_m - pipe.wall_m
    slope, far = run_slope(study), pane.ground.right
    rise = slope * (far - cut.back_m)
    high = low + pipe.outside_height_m
    return (cut.back_m, low), (far, low + rise), (far, high + rise), (cut.back_m, high)


def _pipe_marks(outer: tuple[Point, ...], pipe: Pipe, pane: Pane) -> tuple[Shape, ...]:
    """Return the pipe behind the curb with its wall."""
    wall = pipe.wall_m
    (x0, low0), (x1, low1), (_, high1), (_, high0) = outer
    inner = (x0, low0 + wall), (x1, low1 + wall), (x1, high1 - wall), (x0, high0 - wall)
    return (
        Polygon(pane.view.points(outer), Role.PROPOSED, Fill.TONE),
        Polygon(pane.view.points(inner), Role.PROPOSED, Fill.WHITE),
    )


def _along_floor(
    cut: CurbCut, sawn: NotchStudy, pane: Pane, figures: Figures
) -> tuple[Dimension, ...]:
    """Return the width of the roll, below the flow line."""
    base = pane.at(0.0, min(pane.ground.bottom, 0.0))[1] - 6.0
    start, end = pane.at(0.0, 0.0), pane.at(cut.back_m, sawn.floor_back_m)
    text = figures.height(cut.back_m)
    return (Dimension(start, end, base - start[1], text, cut.back_m, Along.HORIZONTAL),)


def _beside(
    cut: CurbCut, sawn: NotchStudy, pipe: Pipe | None, pane: Pane, figures: Figures
) -> tuple[Rung, ...]:
    """Return what is said of notch, pipe and core, for the right of the section."""
    write, back = figures.height, cut.back_m
    slope = cut.job.outlet.floor_slope
    floor = f"notch {write(sawn.width_m)} wide, floor falls {slope.shown() if slope else '0 %'}"
    rows = [
        (floor, (0.8 * back, _floor(sawn, 0.8 * back))),
    ]
    bottom = sawn.floor_back_m - (pipe.wall_m if pipe else 0.0)
    top = bottom + pipe.outside_height_m if pipe else 0.7 * cut.reveal_m
    deep = (back, (top + cut.reveal_m) / 2 if pipe else top)
    rows.append((f"depth at the back {write(sawn.depth_back_m)}", deep))
    if sawn.core_would_break:
        bit = _bit(cut)
        words = (
            f"a core that takes this pipe ({write(bit)}) would break out of the face: its top "
            f"{write(sawn.floor_toe_m + bit)} over the flow line, the curb's {write(cut.reveal_m)}"
        )
        rows.append((words, (0.9 * back, sawn.floor_toe_m + bit)))
    tube = (_tube_rung(cut, pane, figures, (bottom, top)),) if pipe else ()
    return *(Rung(text, pane.at(*tip)) for text, tip in rows), *tube


def _tube_rung(cut: CurbCut, pane: Pane, figures: Figures, edges_m: tuple[float, float]) -> Rung:
    """Return the pipe behind the curb in words, led to the edge of it that is nearer."""
    x = (cut.back_m + 2 * pane.ground.right) / 3
    low, high = (pane.at(x, edge) for edge in edges_m)
    return Rung(pipe_words(cut.job, figures), high, low_tip=low)


def top_of_core(cut: CurbCut, sawn: NotchStudy) -> float:
    """Return how high a core in place of the notch would reach over the flow line, in m."""
    return sawn.floor_toe_m + _bit(cut) if sawn.core_would_break else 0.0


def notch_remarks(cut: CurbCut, sawn: NotchStudy, figures: Figures) -> tuple[str, ...]:
    """Return the notes of a notch."""
    outlet = cut.job.outlet
    rows = ["Saw the notch full depth on both sides; break nothing out beyond the cuts."]
    if outlet.edge_radius:
        rows.append(f"Round the edges of the notch to {outlet.edge_radius.shown()}.")
    if sawn.taper_m > 0.0:
        rows.append(f"The sides spread {figures.height(sawn.taper_m)}.")
    if outlet.plate:
        gap = f", gap {outlet.plate_gap.shown()}" if outlet.plate_gap else ""
        rows.append(f"Cover plate: {outlet.plate}{gap}.")
    return tuple(rows)
