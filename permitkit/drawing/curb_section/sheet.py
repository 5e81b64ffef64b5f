"""The sheets of the curb: section and front view at the outlet, or emitter and plug."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import Note, annotate
from permitkit.drawing.curb_section.core import core_remarks
from permitkit.drawing.curb_section.curb import curb_cut
from permitkit.drawing.curb_section.emitter import emitter_cut, emitter_remarks
from permitkit.drawing.curb_section.hollow import hollow_remark
from permitkit.drawing.curb_section.notch import notch_remarks
from permitkit.drawing.curb_section.views import (
    DetailView,
    emitter_view,
    front_of_curb,
    plug_view,
    section_view,
)
from permitkit.drawing.frame import drawing_room, framed
from permitkit.drawing.front_view.sheet import WORDS
from permitkit.drawing.info import check_letters, figures_of, held, loosened
from permitkit.drawing.shapes import Box, Shape
from permitkit.drawing.sheet import extent
from permitkit.drawing.sheet_parts.ladder import ladder, ladder_mm
from permitkit.drawing.sheet_parts.prose import NO_LEGEND, legend, plain
from permitkit.drawing.sheet_parts.settled import noted_sheet, waits, with_notes_sheets
from permitkit.drawing.site_sketch.lot import lot_of
from permitkit.drawing.site_sketch.remarks import assumptions
from permitkit.drawing.symbols import view_title

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from permitkit.drawing.info import Figures, SheetInfo
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.sheet_parts.ladder import Rung
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["curb_section"]

_PLUG = "Plug of the old hole"
_TITLE_MM = 14.0
_TITLE_DROP_MM = 7.0
_TITLE_WIDE_MM = 70.0
_AIR_MM = 2.0
_OFF_MM = 4.0
_LEGEND_MM = 22.0
_LOWER_SHARES = (0.5, 0.38)


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
    return with_notes_sheets(sheets, job, info)


def _sheets(job: Job, study: Study, info: SheetInfo, figures: Figures) -> Iterator[Sheet]:
    """Return the sheets of views."""
    plugged = any(hole.plan == "plug" for hole in job.existing) and job.curb.shape != "none"
    plugging = partial(plug_view, job, study, figures, info.detail)
    notes = _remarks(job, study, figures, info.detail)
    after = info.numbered(info.number + 1, info.of)
    if study.curb is not None:
        lot = lot_of(job, study)
        views = (
            partial(section_view, job, study, figures),
            partial(front_of_curb, lot, job, figures),
        )
        yield _sheet(job, info, "Curb section at the outlet", views, notes)
        if plugged:
            yield _sheet(job, after, _PLUG, (plugging,), ())
    elif emitter_cut(job, study) is not None:
        emitting = partial(emitter_view, job, study, figures)
        title = f"Emitter in the lawn, and {_PLUG.lower()}" if plugged else "Emitter in the lawn"
        yield _sheet(job, info, title, (emitting, plugging), notes)
    elif plugged:
        yield _sheet(job, info, _PLUG, (plugging,), notes)


class _Drawn(NamedTuple):
    """What stands on a sheet so far, and where there is room for notes between the views."""

    shapes: tuple[Shape, ...]
    key: tuple[str, ...]
    views: tuple[DetailView, ...]
    between: Box


def _sheet(
    job: Job,
    info: SheetInfo,
    title: str,
    views: Sequence[Callable[[Box], DetailView | None]],
    notes: Sequence[str],
) -> Sheet:
    """Return one sheet with its views one above the other, smaller where notes would wait."""
    tried = (_tried(job, info, title, views, notes, share) for share in _LOWER_SHARES)
    best = next(tried)
    return min(best, *tried, key=lambda sheet: len(sheet.left_over)) if waits(best) else best


def _tried(
    job: Job,
    info: SheetInfo,
    title: str,
    views: Sequence[Callable[[Box], DetailView | None]],
    notes: Sequence[str],
    share: float,
) -> Sheet:
    """Return one sheet whose lower view has a share of its height."""
    paper = info.paper.landscape
    room = drawing_room(paper)
    drawn = _stacked(views, room, share)
    below = legend(drawn.shapes, WORDS, room)
    foot = room._replace(bottom=room.bottom + below.height_mm, top=extent(drawn.shapes).bottom)
    frame = partial(
        framed,
        paper,
        info.title_block(job, title),
        scales=tuple(dict.fromkeys(view.scale for view in drawn.views)),
        looking="\n".join(f"{view.title}: {view.detail}" for view in drawn.views),
        key=drawn.key,
        words=NO_LEGEND,
    )
    free = max((drawn.between, foot.grown(-_AIR_MM)), key=_size)
    return noted_sheet((*drawn.shapes, *below.shapes), free, notes, frame)


def _stacked(
    views: Sequence[Callable[[Box], DetailView | None]], room: Box, lower_share: float
) -> _Drawn:
    """Return views drawn one above the other, the lowest first, each as large as it can be."""
    floor = room.bottom + _LEGEND_MM
    shapes: list[Shape] = []
    key: list[str] = []
    found: list[DetailView] = []
    between = room._replace(top=room.bottom)
    for left, draw in reversed(list(enumerate(views))):
        share = lower_share if left else 1.0
        area = room._replace(bottom=floor + _TITLE_MM, top=floor + (room.top - floor) * share)
        view = draw(area)
        if view is None:
            continue
        view = draw(area._replace(top=area.top - _drop_mm(view, area))) or view
        placed, said, foot = _placed(view, area, shapes, len(key))
        between = Box(room.left + _TITLE_WIDE_MM, floor + _AIR_MM, room.right, foot - _AIR_MM)
        shapes += placed
        key += said
        found.insert(0, view)
        floor = max(extent(placed).top, floor) + _AIR_MM
    return _Drawn(tuple(shapes), tuple(key), tuple(found), between)


class _Column(NamedTuple):
    """Texts beside a view, where they end toward it, how wide they may be, and on which side."""

    rungs: tuple[Rung, ...]
    edge_mm: float
    wrap_mm: float
    at_right: bool


def _columns(view: DetailView, area: Box) -> tuple[_Column, _Column]:
    """Return the columns of texts left and right of a view."""
    left = min([view.edges[0], *(rung.tip[0] for rung in view.left)]) - _OFF_MM
    right = view.edges[1] + _OFF_MM
    return (
        _Column(view.left, left, left - area.left, at_right=False),
        _Column(view.right, right, area.right - right, at_right=True),
    )


def _drop_mm(view: DetailView, area: Box) -> float:
    """Return how far a low view moves down, so that its texts stand above and below it alike."""
    tall = max(ladder_mm(column.rungs, column.wrap_mm) for column in _columns(view, area))
    box = extent(view.part.shapes)
    return max(min((tall - box.height) / 2, box.bottom - area.bottom), 0.0)


def _size(box: Box) -> float:
    """Return the area of a box; none where it is turned inside out."""
    return max(box.height, 0.0) * max(box.width, 0.0)


def _placed(
    view: DetailView, area: Box, before: Sequence[Shape], keyed: int
) -> tuple[list[Shape], list[str], float]:
    """Return a view with its texts and its title, what stands in the key, and where it ends."""
    fixed = list(view.part.shapes)
    notes = list(view.part.notes)
    span = area.bottom, area.top
    for rungs, edge, wrap, at_right in _columns(view, area):
        drawn = ladder(rungs, edge, span, wrap, at_right=at_right)
        fixed += drawn or ()
        if drawn is None:
            notes += [Note(held(rung.text), rung.tip) for rung in rungs]
    noted = annotate(notes, area, [*before, *fixed], keyed + 1)
    fixed += map(plain, noted.shapes)
    foot = extent(fixed).bottom
    scale_words = f"{view.scale.text}, {view.detail}"
    title = view_title((area.left + 2.0, foot - _TITLE_DROP_MM), view.title, scale_words)
    return [*fixed, *title], [loosened(text) for text in noted.key], foot


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
    rows += [hollow_remark(study, figures)] if study.water.verge else []
    emitter = emitter_cut(job, study)
    if emitter is not None:
        rows += emitter_remarks(emitter, study, figures)
    shown = ("curb.batter", "curb.radius", "gutter", "walk.thickness")
    if detail:
        rows.insert(0, f"To the town's detail {detail}, which governs.")
    return (*rows, *assumptions(job, shown))
