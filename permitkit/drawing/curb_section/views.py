"""The views of the curb: section through the outlet, front view, plug, emitter."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.curb_section.core import core
from permitkit.drawing.curb_section.curb import assumed_fields, curb_cut
from permitkit.drawing.curb_section.emitter import (
    emitter_cut,
    emitter_parts,
    emitter_rungs,
    emitter_section,
)
from permitkit.drawing.curb_section.ground import (
    behind,
    behind_rung,
    concrete,
    ground_y,
    pavement,
    water_in_gutter,
)
from permitkit.drawing.curb_section.hollow import (
    hollow,
    hollow_behind_m,
    hollow_rungs,
    hollow_top_m,
)
from permitkit.drawing.curb_section.notch import notch, top_of_core
from permitkit.drawing.curb_section.plug import plug
from permitkit.drawing.front_view.elevation import elevation
from permitkit.drawing.front_view.sheet import LOOKING
from permitkit.drawing.scale import Kind, Scale, View, scales
from permitkit.drawing.shapes import Box
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.sheet_parts.pane import Pane, Part, joined

if TYPE_CHECKING:
    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.curb_section.opening import Opening
    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["DetailView", "emitter_view", "front_of_curb", "plug_view", "section_view"]

_LADDER_MM = 46.0
_RIGHT_MM = 38.0
_STREET_M, _STREET_MOST_M = 0.125, 0.6
_BEHIND_M = 0.1
_ABOVE_M = 0.02
_BELOW_M, _LEAST_BELOW_M = 0.13, 0.08
_SIZES_MM = 16.0
_MORE_TEXT_MM = 16.0
_BREAK_MM = 4.0


class DetailView(NamedTuple):
    """One view of a sheet.

    Parameters
    ----------
    part
        What it shows.
    left, right
        Its texts on either side.
    scale, title, detail
        Its scale, its name, and where one looks.
    edges
        Where it ends at the left and at the right. [mm]
    """

    part: Part
    left: tuple[Rung, ...]
    right: tuple[Rung, ...]
    scale: Scale
    title: str
    detail: str
    edges: tuple[float, float]


def section_view(job: Job, study: Study, figures: Figures, area: Box) -> DetailView | None:
    """Return the section through the outlet."""
    curb = study.curb
    if curb is None:
        return None
    cut = curb_cut(job, curb.reveal_at_hole_m or curb.reveal_m)
    above = top_of_core(cut, curb.notch) if curb.notch else 0.0
    above = max(above, hollow_top_m(cut, study))
    far = hollow_behind_m(cut, study) or _BEHIND_M
    pane = _section_pane(cut, figures, area, above, far)
    if curb.hole:
        opening = core(cut, study, curb.hole, pane, figures)
    elif curb.notch:
        opening = notch(cut, study, curb.notch, pane, figures)
    else:
        return None
    detail = f"looking {LOOKING[job.site.north][1]}"
    if study.water.verge is None:
        return _cut_view(cut, study, pane, opening, ("Section A", detail))
    soil = hollow(cut, study, pane)
    opening = replace(opening, right=(*opening.right, *hollow_rungs(cut, study, pane, figures)))
    return _cut_view(cut, study, pane, opening, ("Section A", detail), soil)


def _cut_view(
    cut: CurbCut,
    study: Study,
    pane: Pane,
    opening: Opening,
    titles: tuple[str, str],
    soil: Part | None = None,
) -> DetailView:
    """Return a section of the curb with what is in it."""
    holes = opening.cut_away
    running = study.water.gutter_levels_m["running"] - float(cut.job.gutter.flow_line)
    part = joined(
        pavement(cut, pane),
        soil or behind(cut, pane, opening.in_soil),
        concrete(cut, pane, holes),
        Part((*water_in_gutter(cut, pane, running), *opening.shapes, *opening.dimensions)),
        _pan_words(cut, pane),
    )
    ground = () if soil else (behind_rung(cut, pane),)
    right = (*opening.right, *ground, _curb_words(cut, pane))
    return DetailView(part, opening.rungs, right, pane.scale, *titles, _edges(pane))


def _edges(pane: Pane) -> tuple[float, float]:
    """Return where a view ends at the left and at the right. [mm]."""
    ground = pane.ground
    return pane.at(ground.left, 0.0)[0], pane.at(ground.right, 0.0)[0]


def _section_pane(
    cut: CurbCut, figures: Figures, area: Box, above_m: float = 0.0, behind_m: float = _BEHIND_M
) -> Pane:
    """Return the way to the paper at the finest scale that leaves room for the texts."""
    high = max(cut.reveal_m, ground_y(cut), above_m) + _ABOVE_M
    below, most_below = _below_m(cut)
    up = area.height - _BREAK_MM
    least = _STREET_M + cut.back_m + behind_m
    width = area.width - _LADDER_MM - _RIGHT_MM
    allowed = scales(Kind.DETAIL, figures.system)
    fits = (
        scale
        for scale in allowed
        if scale.paper_mm(least) <= width and scale.paper_mm(high + below) <= up
    )
    scale = next(fits, allowed[-1])
    below = max(min(most_below, scale.real_m(up) - high), below)
    spare = max(width - scale.paper_mm(least), 0.0)
    texts = min(0.25 * spare, _MORE_TEXT_MM)
    street = _STREET_M + scale.real_m(spare - 2 * texts)
    street = min(street, max(cut.pan_m + 0.08, _STREET_M), _STREET_MOST_M)
    ground = Box(-street, -below, cut.back_m + behind_m, high)
    left = area.right - _RIGHT_MM - texts - scale.paper_mm(ground.width)
    bottom = area.top - scale.paper_mm(ground.height) - 1.0
    return Pane(View(scale, (ground.left, ground.bottom), (left, bottom)), ground, area)


def _below_m(cut: CurbCut) -> tuple[float, float]:
    """Return how far below the flow line a section goes, at the least and at the most, in m."""
    if cut.base_m is None:
        return _LEAST_BELOW_M, _BELOW_M
    whole = min(cut.base_m + 0.03, 2 * _BELOW_M)
    return whole, whole


def _told(cut: CurbCut, field: str, words: str) -> str:
    """Return words with a star where nobody measured what they tell."""
    return f"{words} *" if field in assumed_fields(cut.job) else words


def _curb_words(cut: CurbCut, pane: Pane) -> Rung:
    """Return the curb's own sizes in words, for the right of the section."""
    curb = cut.job.curb
    rolls = curb.shape in {"rolled", "half-round"} and curb.roll_width
    wide = (
        f"width {curb.roll_width.shown()}"
        if rolls and curb.roll_width
        else f"top {curb.top_width.shown()}"
    )
    rows = [f"{curb.shape} curb, {wide}"]
    if curb.batter and not rolls:
        rows.append(_told(cut, "curb.batter", f"face batter {curb.batter.shown()}"))
    if curb.radius:
        rows.append(_told(cut, "curb.radius", f"radius {curb.radius.shown()}"))
    if cut.base_m is not None and curb.base_depth:
        rows.append(f"base {curb.base_depth.shown()} deep")
    return Rung(", ".join(rows), pane.at(cut.back_m * 0.8, 0.5 * pane.ground.bottom))


def _pan_words(cut: CurbCut, pane: Pane) -> Part:
    """Return the pan's slope and width in words."""
    gutter = cut.job.gutter
    if not (cut.pan_m and gutter.pan_slope and gutter.pan_width):
        return Part()
    slope = _told(cut, "gutter.pan_slope", f"pan slope {gutter.pan_slope.shown()}")
    width = _told(cut, "gutter.pan_width", f"width {gutter.pan_width.shown()}")
    x = max(-cut.pan_m, pane.ground.left) * 0.6
    tip = (x, cut.lip_m * -x / cut.pan_m)
    return Part(notes=pane.note(f"{slope}, {width}", tip, clear_mm=2.0, priority=3))


def front_of_curb(lot: Lot, job: Job, figures: Figures, area: Box) -> DetailView | None:
    """Return the front view of the curb."""
    drawn = elevation(lot, figures, area)
    if drawn is None:
        return None
    detail = f"looking {LOOKING[job.site.north][0]}"
    ends = area.left, area.right
    return DetailView(drawn.part, (), (), drawn.scale, "Front view", detail, ends)


def plug_view(
    job: Job, study: Study, figures: Figures, detail: str, area: Box
) -> DetailView | None:
    """Return the section through the first old hole that is plugged."""
    hole = next((hole for hole in job.existing if hole.plan == "plug"), None)
    if hole is None or job.curb.shape == "none":
        return None
    cut = curb_cut(job, float(job.curb.reveal[0]))
    pane = _section_pane(cut, figures, area)
    opening = plug(cut, hole, pane, figures, detail)
    looking = f"looking {LOOKING[job.site.north][1]}"
    return _cut_view(cut, study, pane, opening, ("Plug of the old hole", looking))


def emitter_view(job: Job, study: Study, figures: Figures, area: Box) -> DetailView | None:
    """Return the section through the outlet in the lawn."""
    cut = emitter_cut(job, study)
    if cut is None:
        return None
    shown = cut.extent
    width, height = area.width - _LADDER_MM - _RIGHT_MM, area.height - _SIZES_MM
    allowed = scales(Kind.DETAIL, figures.system)
    fits = (
        scale
        for scale in allowed
        if scale.paper_mm(shown.width) <= width and scale.paper_mm(shown.height) <= height
    )
    scale = next(fits, allowed[-1])
    left = area.left + _LADDER_MM + (width - scale.paper_mm(shown.width)) / 2
    bottom = area.top - scale.paper_mm(shown.height) - 1.0
    pane = Pane(View(scale, (shown.left, shown.bottom), (left, bottom)), shown, area)
    part = emitter_section(cut, pane, figures)
    rungs = emitter_rungs(cut, pane, figures)
    right = emitter_parts(cut, pane, figures)
    edges = left, _edges(pane)[1]
    return DetailView(part, rungs, right, scale, "Emitter", "section along the pipe", edges)
