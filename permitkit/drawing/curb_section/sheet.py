"""The sheets of the curb: section and front view at the outlet, or emitter and plug."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import Note, annotate
from permitkit.drawing.curb_section.core import core, core_remarks
from permitkit.drawing.curb_section.curb import assumed_fields, curb_cut
from permitkit.drawing.curb_section.emitter import (
    emitter_cut,
    emitter_parts,
    emitter_remarks,
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
from permitkit.drawing.curb_section.notch import notch, notch_remarks, top_of_core
from permitkit.drawing.curb_section.opening import Opening
from permitkit.drawing.curb_section.plug import plug
from permitkit.drawing.frame import continuation, drawing_room, framed
from permitkit.drawing.front_view.elevation import elevation
from permitkit.drawing.front_view.sheet import LOOKING, WORDS
from permitkit.drawing.info import check_letters, figures_of, held, loosened
from permitkit.drawing.scale import Kind, Scale, System, View, scales
from permitkit.drawing.shapes import Box, Shape
from permitkit.drawing.sheet import extent
from permitkit.drawing.sheet_parts.ladder import Rung, ladder
from permitkit.drawing.sheet_parts.pane import Pane, Part, joined
from permitkit.drawing.sheet_parts.prose import NO_LEGEND, legend, noted_sheet, plain
from permitkit.drawing.site_sketch.lot import lot_of
from permitkit.drawing.site_sketch.remarks import assumptions
from permitkit.drawing.symbols import view_title

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures, SheetInfo
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["curb_section"]

_LADDER_MM = 46.0
_RIGHT_MM = 38.0
_TITLE_MM = 14.0
_TITLE_DROP_MM = 7.0
_TITLE_WIDE_MM = 70.0
_AIR_MM = 2.0
_OFF_MM = 4.0
_STREET_M, _STREET_MOST_M = 0.125, 0.6
_BEHIND_M = 0.1
_ABOVE_M = 0.02
_BELOW_M = 0.13
_SIZES_MM = 16.0
_MORE_TEXT_MM = 16.0
_LEGEND_MM = 22.0
_LOWER_SHARE = 0.5


class _View(NamedTuple):
    """One view of a sheet: what it shows, its texts, its scale and its title."""

    part: Part
    left: tuple[Rung, ...]
    right: tuple[Rung, ...]
    scale: Scale
    title: str
    detail: str
    edges: tuple[float, float]


def curb_section(job: Job, study: Study, info: SheetInfo) -> tuple[Sheet, ...]:
    """Return the curb section with the front view; for an emitter, its detail and the plug's.

    Parameters
    ----------
    job, study
        What is proposed, and what was computed of it.
    info
        Paper, title block and the number of the first sheet; its detail is the one that governs.

    Returns
    -------
    tuple of Sheet
        Empty where nothing is done at a curb and no emitter is set.

    Raises
    ------
    InputError
        If the curb's measurements make no shape, or a text has letters that cannot be drawn.
    """
    figures = figures_of(job)
    sheets = tuple(_sheets(job, study, info, figures))
    check_letters(sheets)
    return (*sheets, *_more(job, info, sheets))


def _sheets(job: Job, study: Study, info: SheetInfo, figures: Figures) -> Iterator[Sheet]:
    """Return the sheets of views."""
    lot = lot_of(job, study)
    paper = info.paper.landscape
    room = drawing_room(paper)
    lower: Callable[[Box], _View | None]
    if study.curb is not None:
        upper = partial(_section, job, study, figures)
        lower = partial(_front, lot, job, figures)
        title = "Curb section at the outlet"
    elif emitter_cut(job, study) is not None:
        upper = partial(_emitter, job, study, figures)
        lower = partial(_plug, job, study, figures, info.detail)
        title = "Emitter in the lawn"
        if any(hole.plan == "plug" for hole in job.existing):
            title += ", and plug of the old hole"
    else:
        return
    yield _sheet(job, info, title, (upper, lower), _remarks(job, study, figures, info.detail), room)
    if study.curb is not None and any(hole.plan == "plug" for hole in job.existing):
        plugged = partial(_plug, job, study, figures, info.detail)
        yield _sheet(job, info.numbered(info.number + 1, info.of), "Plug of the old hole", (plugged,), (), room)


def _sheet(
    job: Job,
    info: SheetInfo,
    title: str,
    views: Sequence[Callable[[Box], _View | None]],
    notes: Sequence[str],
    room: Box,
) -> Sheet:
    """Return one sheet with its views one above the other, the lowest drawn first."""
    figures_top = room.bottom + _LEGEND_MM
    drawn: list[Shape] = []
    key: list[str] = []
    scales_used: list[Scale] = []
    looking: list[str] = []
    between = room
    for rank, draw in enumerate(reversed(views)):
        share = 1.0 if rank == len(views) - 1 else _LOWER_SHARE
        top = figures_top + (room.top - figures_top) * share
        area = room._replace(bottom=figures_top + _TITLE_MM, top=top)
        view = draw(area)
        if view is None:
            continue
        shapes, said = _placed(view, area, drawn, len(key))
        between = Box(room.left + _TITLE_WIDE_MM, figures_top + _AIR_MM, room.right, _foot(shapes))
        drawn += shapes
        key += said
        scales_used.insert(0, view.scale)
        looking.insert(0, f"{view.title}: {view.detail}")
        figures_top = max(extent(shapes).top, figures_top) + _AIR_MM
    below = legend(drawn, WORDS, room)
    under = room._replace(bottom=room.bottom + below.height_mm, top=extent(drawn).bottom)
    free = max((between, under.grown(-_AIR_MM)), key=_size)
    frame = partial(
        framed,
        info.paper.landscape,
        info.title_block(job, title),
        scales=tuple(dict.fromkeys(scales_used)),
        looking="\n".join(looking),
        key=key,
        words=NO_LEGEND,
    )
    return noted_sheet((*drawn, *below.shapes), free, notes, frame)


def _size(box: Box) -> float:
    """Return the area of a box; none where it is turned inside out."""
    return max(box.height, 0.0) * max(box.width, 0.0)


def _foot(shapes: Sequence[Shape]) -> float:
    """Return where a view ends above its title. [mm]."""
    return extent(shapes).bottom + _TITLE_MM - _AIR_MM


def _placed(
    view: _View, area: Box, before: Sequence[Shape], keyed: int
) -> tuple[list[Shape], list[str]]:
    """Return a view with its texts, its title below it, and what stands in the key."""
    fixed = list(view.part.shapes)
    notes = list(view.part.notes)
    span = area.bottom, area.top
    left = min([view.edges[0], *(rung.tip[0] for rung in view.left)]) - _OFF_MM
    right = view.edges[1] + _OFF_MM
    for rungs, edge, wrap in (
        (view.left, left, left - area.left),
        (view.right, right, area.right - right),
    ):
        drawn = ladder(rungs, edge, span, wrap, at_right=edge == right)
        fixed += drawn or ()
        if drawn is None:
            notes += [Note(held(rung.text), rung.tip) for rung in rungs]
    noted = annotate(notes, area, [*before, *fixed], keyed + 1)
    fixed += map(plain, noted.shapes)
    low = extent(fixed).bottom - _TITLE_DROP_MM
    scale_words = f"{view.scale.text}, {view.detail}"
    return (
        [*fixed, *view_title((area.left + 2.0, low), view.title, scale_words)],
        [loosened(text) for text in noted.key],
    )


def _section(job: Job, study: Study, figures: Figures, area: Box) -> _View | None:
    """Return the section through the outlet."""
    curb = study.curb
    if curb is None:
        return None
    cut = curb_cut(job, curb.reveal_at_hole_m or curb.reveal_m)
    above = top_of_core(cut, curb.notch) if curb.notch else 0.0
    pane = _section_pane(cut, figures, area, above)
    if curb.hole:
        opening = core(cut, study, curb.hole, pane, figures)
    elif curb.notch:
        opening = notch(cut, study, curb.notch, pane, figures)
    else:
        return None
    detail = f"looking {LOOKING[job.site.north][1]}"
    return _cut_view(cut, study, pane, opening, ("Section A", detail))


def _cut_view(
    cut: CurbCut, study: Study, pane: Pane, opening: Opening, titles: tuple[str, str]
) -> _View:
    """Return a section of the curb with what is in it."""
    holes = opening.cut_away
    running = study.water.gutter_levels_m["running"] - float(cut.job.gutter.flow_line)
    part = joined(
        pavement(cut, pane),
        behind(cut, pane, opening.in_soil),
        concrete(cut, pane, holes),
        Part((*water_in_gutter(cut, pane, running), *opening.shapes, *opening.dimensions)),
        _pan_words(cut, pane),
    )
    right = (*opening.right, behind_rung(cut, pane), _curb_words(cut, pane))
    return _View(part, opening.rungs, right, pane.scale, *titles, _edges(pane))


def _edges(pane: Pane) -> tuple[float, float]:
    """Return where a view ends at the left and at the right. [mm]."""
    ground = pane.ground
    return pane.at(ground.left, 0.0)[0], pane.at(ground.right, 0.0)[0]


def _section_pane(cut: CurbCut, figures: Figures, area: Box, above_m: float = 0.0) -> Pane:
    """Return the way to the paper at the finest scale that leaves room for the texts."""
    high = max(cut.reveal_m, ground_y(cut), above_m) + _ABOVE_M
    below = _BELOW_M if cut.base_m is None else min(cut.base_m + 0.03, 2 * _BELOW_M)
    least = _STREET_M + cut.back_m + _BEHIND_M
    width = area.width - _LADDER_MM - _RIGHT_MM
    allowed = _details(figures)
    fits = (
        scale
        for scale in allowed
        if scale.paper_mm(least) <= width and scale.paper_mm(high + below) <= area.height
    )
    scale = next(fits, allowed[-1])
    spare = max(width - scale.paper_mm(least), 0.0)
    texts = min(0.25 * spare, _MORE_TEXT_MM)
    street = _STREET_M + scale.real_m(spare - 2 * texts)
    street = min(street, max(cut.pan_m + 0.08, _STREET_M), _STREET_MOST_M)
    ground = Box(-street, -below, cut.back_m + _BEHIND_M, high)
    left = area.right - _RIGHT_MM - texts - scale.paper_mm(ground.width)
    bottom = area.top - scale.paper_mm(ground.height) - 1.0
    return Pane(View(scale, (ground.left, ground.bottom), (left, bottom)), ground, area)


def _told(cut: CurbCut, field: str, words: str) -> str:
    """Return words with a star where nobody measured what they tell."""
    return f"{words} *" if field in assumed_fields(cut.job) else words


def _curb_words(cut: CurbCut, pane: Pane) -> Rung:
    """Return the curb's own sizes in words, for the right of the section."""
    curb = cut.job.curb
    rolls = curb.shape in {"rolled", "half-round"} and curb.roll_width
    wide = f"width {curb.roll_width.shown()}" if rolls and curb.roll_width else f"top {curb.top_width.shown()}"
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


def _front(lot: Lot, job: Job, figures: Figures, area: Box) -> _View | None:
    """Return the front view of the curb."""
    drawn = elevation(lot, figures, area)
    if drawn is None:
        return None
    detail = f"looking {LOOKING[job.site.north][0]}"
    ends = area.left, area.right
    return _View(drawn.part, (), (), drawn.scale, "Front view", detail, ends)


def _plug(job: Job, study: Study, figures: Figures, detail: str, area: Box) -> _View | None:
    """Return the section through the first old hole that is plugged."""
    hole = next((hole for hole in job.existing if hole.plan == "plug"), None)
    if hole is None or job.curb.shape == "none":
        return None
    cut = curb_cut(job, float(job.curb.reveal[0]))
    pane = _section_pane(cut, figures, area)
    opening = plug(cut, hole, pane, figures, detail)
    looking = f"looking {LOOKING[job.site.north][1]}"
    return _cut_view(cut, study, pane, opening, ("Plug of the old hole", looking))


def _emitter(job: Job, study: Study, figures: Figures, area: Box) -> _View | None:
    """Return the section through the outlet in the lawn."""
    cut = emitter_cut(job, study)
    if cut is None:
        return None
    shown = cut.extent
    width, height = area.width - _LADDER_MM - _RIGHT_MM, area.height - _SIZES_MM
    allowed = _details(figures)
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
    return _View(part, rungs, right, scale, "Emitter", "section along the pipe", edges)


def _details(figures: Figures) -> tuple[Scale, ...]:
    """Return the scales of a detail, finest first; none finer than a quarter of full size."""
    limit = 4 if figures.system is System.US else 5
    return tuple(
        scale for scale in scales(Kind.DETAIL, figures.system) if scale.ratio * limit <= 1
    )


def _remarks(job: Job, study: Study, figures: Figures, detail: str) -> tuple[str, ...]:
    """Return the notes of the first sheet, what matters most first."""
    rows: list[str] = []
    curb = study.curb
    if curb is not None:
        cut = curb_cut(job, curb.reveal_at_hole_m or curb.reveal_m)
        if curb.hole:
            rows += core_remarks(cut, curb.hole, figures)
        if curb.notch:
            rows += notch_remarks(cut, curb.notch, figures)
    emitter = emitter_cut(job, study)
    if emitter is not None:
        rows += emitter_remarks(emitter, study, figures)
    shown = ("curb.batter", "curb.radius", "gutter", "walk.thickness")
    if detail:
        rows.insert(0, f"To the town's detail {detail}, which governs.")
    return (*rows, *assumptions(job, shown))


def _more(job: Job, info: SheetInfo, sheets: Sequence[Sheet]) -> Iterator[Sheet]:
    """Return the sheets of notes that found no room beside the views."""
    index = len(sheets)
    for sheet in sheets:
        block = info.title_block(job, f"{sheet.title}, notes", index)
        for more in continuation(sheet, info.paper.landscape, block):
            index += 1
            yield more
