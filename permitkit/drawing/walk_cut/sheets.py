"""The sheets of a walk cut: the plan, then both sections with how everything is put back."""

from __future__ import annotations

from functools import partial
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import annotate
from permitkit.drawing.frame import drawing_room, framed
from permitkit.drawing.info import check_letters
from permitkit.drawing.scale import Kind, View, choose_scale, scales
from permitkit.drawing.shapes import Anchor, Box, Label, Pattern, Role
from permitkit.drawing.sheet import extent, labels_of
from permitkit.drawing.sheet_parts.ladder import Rung, ladder
from permitkit.drawing.sheet_parts.pane import Pane
from permitkit.drawing.sheet_parts.prose import plain
from permitkit.drawing.sheet_parts.row_line import row_words
from permitkit.drawing.sheet_parts.settled import Said, settled, with_notes_sheets
from permitkit.drawing.sheet_parts.table import (
    fitted_columns,
    paired_pages,
    paired_tables,
    ruled_table,
)
from permitkit.drawing.symbols import UTILITY_LETTERS, view_title
from permitkit.drawing.walk_cut.across import across, across_dimensions, across_ground
from permitkit.drawing.walk_cut.along import along, along_dimensions, along_ground
from permitkit.drawing.walk_cut.crossing import crossing_of
from permitkit.drawing.walk_cut.data import restoration_rows, take_off
from permitkit.drawing.walk_cut.plan import buried, dimensions, plan, plan_ground, section_marks

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.scale import Scale
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.sheet_parts.table import Table
    from permitkit.drawing.walk_cut.crossing import Crossing
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["walk_cut"]

PLAN_TITLE = "Walk cut, plan"
SECTION_TITLE = "Walk cut, sections and restoration"
_NORTH = {"right": 0.0, "up": 90.0, "left": 180.0, "down": 270.0}
_LADDER_MM, _TRACKS_MM, _TOP_MM, _FOOT_MM = 33.0, 22.0, 34.0, 10.0
_SHARES = (0.8, 0.7, 0.62)
_TRIES = 4
_SIDES_MM, _OVER_MM, _UNDER_MM = 21.0, 14.0, 18.0
_TITLE_MM, _GAP_MM = 7.0, 3.0
_NAME_MM = 20.0
_HEADS = ("Part", "As proposed")
_WORDS: Mapping[Role | Pattern, str] = {
    Role.PROPOSED_DIG: "trench",
    **dict.fromkeys((Role.GROUND, Role.WATER, Role.PIPE), ""),
    Role.RIGHT_OF_WAY: "",
    **dict.fromkeys((Pattern.CONCRETE, Pattern.GRAVEL, Pattern.EARTH, Pattern.SAND), ""),
    Pattern.REMOVED: "taken out and laid new",
    **dict.fromkeys(UTILITY_LETTERS, ""),
}


def walk_cut(job: Job, study: Study, info: SheetInfo) -> tuple[Sheet, ...]:
    """Return the walk cut: a plan, and two sections with the restoration.

    Parameters
    ----------
    job, study
        The job and what was computed from it.
    info
        What the title block says; its number is that of the first sheet.

    Returns
    -------
    tuple of Sheet
        Nothing where the run does not cross the walk.

    Raises
    ------
    InputError
        If a name has letters that the typefaces do not.
    """
    crossing = crossing_of(job, study)
    if crossing is None:
        return ()
    plan_sheet = _plan_sheet(crossing, info)
    sheets = with_notes_sheets((plan_sheet, *_section_sheets(crossing, info)), job, info)
    check_letters(sheets)
    return sheets


def _notes(crossing: Crossing) -> tuple[str, ...]:
    """Return what holds for all sheets of the cut."""
    return (
        *(("Saw wet or with a dust shroud.",) if crossing.opened else ("No walk is taken out.",)),
        "Local code, licensed practice and the town's detail decide.",
    )


class _Drawn(NamedTuple):
    """What stands on a sheet: its shapes, scales, key, the paper left free, north, notes."""

    shapes: tuple[Shape, ...]
    scales: tuple[Scale, ...]
    key: tuple[str, ...]
    free: Box
    north_deg: float | None = None
    notes: tuple[str, ...] = ()


def _set(crossing: Crossing, info: SheetInfo, title: str, index: int, drawn: _Drawn) -> Sheet:
    """Return a drawing on its sheet."""
    paper = info.paper.landscape
    block = info.title_block(crossing.job, title, index)
    frame = partial(framed, paper, block, scales=drawn.scales, north_deg=drawn.north_deg)
    said = Said(drawn.key, drawn.notes, _WORDS)
    return settled(drawn.shapes, (drawn.free,) if drawn.free.height > 0 else (), said, frame)


def _plan_sheet(crossing: Crossing, info: SheetInfo) -> Sheet:
    """Return the plan on its sheet."""
    room = drawing_room(info.paper.landscape)
    figures = _figures(crossing, room.width, (0.0, 0.0))
    pane = _plan_pane(crossing, room, figures.height_mm)
    part = plan(crossing, pane)
    drawn: list[Shape] = [
        *part.shapes,
        *dimensions(crossing, pane),
        *section_marks(crossing, pane),
        *_names(crossing, pane),
    ]
    drawn.extend(buried(crossing, pane, tuple(label.box for label in labels_of(drawn))))
    noted = annotate(part.notes, pane.room, drawn)
    foot = extent(drawn).bottom - _TITLE_MM
    title = view_title((room.left, foot), PLAN_TITLE)
    table = _figures(crossing, room.width, (room.left, foot - _GAP_MM))
    shapes = (*drawn, *map(plain, noted.shapes), *title, *table.shapes)
    free = room._replace(top=foot - _GAP_MM - table.height_mm - _GAP_MM)
    north = _NORTH[crossing.job.site.north]
    set_out = _Drawn(shapes, (pane.scale,), noted.key, free, north, _notes(crossing))
    return _set(crossing, info, PLAN_TITLE, 0, set_out)


def _figures(crossing: Crossing, width: float, corner: Point) -> Table:
    """Return the table of the take-off, of one row."""
    heads, figures = take_off(crossing)
    return ruled_table(fitted_columns(heads, [figures], width), [figures], corner)


def _plan_pane(crossing: Crossing, room: Box, table_mm: float) -> Pane:
    """Return the plan's place on the sheet, at the finest scale that leaves room around it."""
    tracks = _TRACKS_MM
    for _ in range(_TRIES):
        pane = _plan_tried(crossing, room, table_mm, tracks)
        beyond = extent(dimensions(crossing, pane)).right - room.right
        if beyond <= 0.0:
            break
        tracks += 2 * beyond + _GAP_MM
    return pane


def _plan_tried(crossing: Crossing, room: Box, table_mm: float, tracks_mm: float) -> Pane:
    """Return the plan's place with so much room for the dimensions on its right."""
    ground = plan_ground(crossing)
    across = room.width - _LADDER_MM - tracks_mm
    up = room.height - _TOP_MM - _FOOT_MM - _TITLE_MM - 2 * _GAP_MM - table_mm
    scale = _scale(crossing, ground, across, up)
    width, height = scale.paper_mm(ground.width), scale.paper_mm(ground.height)
    left = room.left + _LADDER_MM + max((across - width) / 2, 0.0)
    trial = _pane(scale, ground, (left, room.top - _TOP_MM - height))
    over = extent(dimensions(crossing, trial)).top
    return _pane(scale, ground, (left, trial.room.bottom + room.top - over))


def _pane(scale: Scale, ground: Box, foot: Point) -> Pane:
    """Return a plan's place on the sheet from its bottom left corner."""
    left, bottom = foot
    width, height = scale.paper_mm(ground.width), scale.paper_mm(ground.height)
    view = View(scale, (ground.left, ground.bottom), foot)
    return Pane(view, ground, Box(left, bottom, left + width, bottom + height))


def _scale(crossing: Crossing, ground: Box, across: float, up: float) -> Scale:
    """Return the finest scale of a detail, or failing that of a plan, at which a view fits."""
    system = crossing.figures.system
    fits = (
        choose_scale(ground.width, ground.height, across, up, kind, system)
        for kind in (Kind.DETAIL, Kind.PLAN)
    )
    return next(filter(None, fits), scales(Kind.PLAN, system)[-1])


def _names(crossing: Crossing, pane: Pane) -> tuple[Shape, ...]:
    """Return what the strips along the street are called, in a ladder on the left."""
    job, curb, front = crossing.job, crossing.curb_m, crossing.front.station_m
    bands = [
        (crossing.middle_m, f"{job.walk.surface} walk"),
        (crossing.ground.row_m, row_words(job)),
    ]
    if job.curb.shape != "none":
        bands.append((curb / 2, f"{job.curb.shape} curb"))
    if front > curb:
        bands.append(((curb + front) / 2, str(job.verge.surface)))
    bands.append((pane.ground.bottom / 2, "street"))
    left = pane.ground.left
    rungs = [Rung(words, pane.at(left, station)) for station, words in bands]
    span = (pane.room.bottom - 6.0, pane.room.top + 6.0)
    return ladder(rungs, pane.room.left - 9.0, span, _LADDER_MM - 10.0) or ()


def _section_sheets(crossing: Crossing, info: SheetInfo) -> Iterator[Sheet]:
    """Return both sections and the restoration, on one sheet if a scale can be found for it."""
    room = drawing_room(info.paper.landscape)
    rows = restoration_rows(crossing)
    largest = _sections(crossing, room, 1.0)
    tall = paired_tables(_HEADS, rows, (_NAME_MM, room)).height_mm
    smaller = (_sections(crossing, room, share) for share in _SHARES)
    tried = chain((largest,), smaller)
    views = next((drawn for drawn in tried if drawn.free.height >= tall), largest)
    if views.free.height >= tall:
        table = paired_tables(_HEADS, rows, (_NAME_MM, views.free))
        free = views.free._replace(top=views.free.top - table.height_mm - _GAP_MM)
        whole = views._replace(shapes=(*views.shapes, *table.shapes), free=free)
        yield _set(crossing, info, SECTION_TITLE, 1, whole)
        return
    yield _set(crossing, info, SECTION_TITLE, 1, views)
    for index, table in enumerate(paired_pages(_HEADS, rows, (_NAME_MM, room)), 2):
        free = room._replace(top=room.top - table.height_mm - _GAP_MM)
        yield _set(crossing, info, "Restoration", index, _Drawn(table.shapes, (), (), free))


def _sections(crossing: Crossing, room: Box, share: float) -> _Drawn:
    """Return both sections one under the other, each in a share of half the room's height."""
    views = (
        ("Section A-A, along the pipe", along, along_dimensions, along_ground(crossing)),
        ("Section B-B, along the walk", across, across_dimensions, across_ground(crossing)),
    )
    shapes: list[Shape] = []
    used: list[Scale] = []
    key: list[str] = []
    top = room.top
    for title, draw, measured, ground in views:
        pane = _section_pane(crossing, room._replace(top=top), ground, share * room.height / 2)
        over = extent(measured(crossing, pane)).top - top
        if over > 0.0:
            pane = _section_pane(
                crossing, room._replace(top=top - over), ground, share * room.height / 2
            )
        part = draw(crossing, pane)
        drawn = (*part.shapes, *measured(crossing, pane))
        noted = annotate(part.notes, pane.room, drawn, len(key) + 1)
        view = (*drawn, *map(plain, noted.shapes))
        foot = extent(view).bottom - _TITLE_MM
        shapes.extend((*view, *_titled((room.left, foot), title, pane.scale)))
        used.append(pane.scale)
        key.extend(noted.key)
        top = foot - _GAP_MM
    free = room._replace(top=top)
    return _Drawn(tuple(shapes), tuple(dict.fromkeys(used)), tuple(key), free)


def _titled(at: Point, title: str, scale: Scale) -> tuple[Shape, ...]:
    """Return a section's title with its scale beside it."""
    shapes = view_title(at, title)
    return *shapes, Label(scale.text, (extent(shapes).right + 3.0, at[1] + 0.8), Anchor.SW)


def _section_pane(crossing: Crossing, room: Box, ground: Box, most_mm: float) -> Pane:
    """Return a section's place at the top of a room, which takes in the notes around it."""
    across = room.width - 2 * _SIDES_MM
    up = most_mm - _OVER_MM - _UNDER_MM - _TITLE_MM
    scale = _scale(crossing, ground, across, up)
    width, height = scale.paper_mm(ground.width), scale.paper_mm(ground.height)
    left = room.left + _SIDES_MM + (across - width) / 2
    foot = room.top - _OVER_MM - height
    view = View(scale, (ground.left, ground.bottom), (left, foot))
    whole = Box(room.left, foot - _UNDER_MM, room.right, room.top)
    return Pane(view, ground, whole)
