"""The sheets of a profile."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.drawing.callouts import annotate
from permitkit.drawing.frame import drawing_room, framed
from permitkit.drawing.info import check_letters
from permitkit.drawing.profile import crossings, ground, nodes, pipe
from permitkit.drawing.profile.axes import bands, grid, station_axis, untold
from permitkit.drawing.profile.course import course_of
from permitkit.drawing.profile.layout import AXIS_MM, TITLE_MM, Parts, lay_out
from permitkit.drawing.profile.tables import band_rows, node_table, reach_table
from permitkit.drawing.profile.tags import tags, tags_height_mm
from permitkit.drawing.profile.words import notes, sentences
from permitkit.drawing.shapes import Anchor, Box, Label, Pattern, Role
from permitkit.drawing.sheet import extent, labels_of
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.sheet_parts.prose import plain, prose
from permitkit.drawing.sheet_parts.settled import Said, settled, with_notes_sheets
from permitkit.drawing.sheet_parts.table import fitted_columns, rows_that_fit, ruled_table
from permitkit.drawing.sheet_parts.text import PITCH_MM, hung
from permitkit.drawing.symbols import UTILITY_LETTERS, match_line, view_title

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.profile.axes import Band
    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.profile.layout import Layout
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.scale import Paper
    from permitkit.drawing.shapes import Shape
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.sheet_parts.prose import Prose
    from permitkit.drawing.sheet_parts.table import Row, Table
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["profile"]

TITLE = "Profile along the run"
_GAP_MM = 3.0
_MOST_UNTOLD = 3
_TABLE_NOTE = "Water stands at these levels at design flow, the gutter as the heads say."
_WORDS: Mapping[Role | Pattern, str] = {
    Role.PIPE: "",
    Role.CENTRE: "match line",
    Role.WATER: "water in pipe and gutter",
    Role.GRADE_LINE: "water line, design flow",
    **dict.fromkeys((Role.HIDDEN, Role.GROUND, Role.RIGHT_OF_WAY, *UTILITY_LETTERS), ""),
    Pattern.CONCRETE: "",
}


def profile(
    job: Job, study: Study, info: SheetInfo, hand_dig_m: float | None = None
) -> tuple[Sheet, ...]:
    """Return the profile along the run, with a table of its nodes.

    Parameters
    ----------
    job, study
        The job and what was computed from it.
    info
        What the title block says; its number is that of the first sheet.
    hand_dig_m
        How near a marked line digging must be by hand, by the town's rule. [m]

    Returns
    -------
    tuple of Sheet
        One sheet where it fits; else more, with match lines, and the tables on their own. Nothing
        where no pipe is laid.

    Raises
    ------
    InputError
        If a name has letters that the typefaces do not.
    """
    if not study.water.reaches:
        return ()
    course = course_of(job, study)
    rows = band_rows(course, hand_dig_m)
    layout = lay_out(course, info.paper, partial(_parts, course, rows, notes(course, hand_dig_m)))
    sheets = [
        _sheet(course, layout, rows, info, index, hand_dig_m)
        for index in range(len(layout.stretches_m))
    ]
    sheets.extend(_table_sheets(course, layout, rows, info, len(sheets)))
    whole = with_notes_sheets(sheets, job, info)
    check_letters(whole)
    return whole


def _parts(
    course: Course,
    rows: tuple[Band, ...],
    texts: tuple[str, ...],
    paper: Paper,
    table_here: bool,  # noqa: FBT001 - called by place from the layout
) -> Parts:
    """Return the heights that the parts around the plot ask for on a sheet."""
    room = drawing_room(paper)
    width = room.width
    table = _node_table(course, width, (0.0, 0.0)).height_mm
    return Parts(
        tags_mm=tags_height_mm(course, width, full=not table_here),
        bands_mm=sum(row.height_mm for row in rows),
        words_mm=len(sentences(course, width)) * PITCH_MM + 1.0,
        table_mm=table,
        notes_mm=prose("Notes", texts, room).height_mm + _GAP_MM,
    )


def _node_table(course: Course, width: float, corner: tuple[float, float]) -> Table:
    """Return the table of nodes, hung from a corner."""
    heads, rows = node_table(course)
    return ruled_table(fitted_columns(heads, rows, width), rows, corner)


def _sheet(
    course: Course,
    layout: Layout,
    rows: tuple[Band, ...],
    info: SheetInfo,
    index: int,
    hand_dig_m: float | None,
) -> Sheet:
    """Return one stretch of the profile on its sheet."""
    strip = layout.strip(course, index)
    part = _plotted(course, strip)
    around = _around(course, layout, strip, rows)
    texts = notes(course, hand_dig_m, _told_apart(course, layout, rows, strip))
    aside = layout.beside(strip)
    under = layout.room._replace(top=extent(around).bottom - _GAP_MM)
    below = prose("Notes", texts, aside or under)
    drawn = (*part.shapes, *around, *below.shapes, *_match_lines(layout, strip, info, index))
    right = aside.right if aside else strip.plot.right
    noted = annotate(part.notes, strip.plot._replace(right=right).grown(-0.6), drawn)
    block = info.title_block(course.job, TITLE, index)
    placed = tuple(map(plain, noted.shapes))
    frees = (_above(below, aside or under, placed), *((under,) if aside else ()))
    frame = partial(framed, layout.paper, block, scales=(layout.scale,))
    shapes = (*grid(strip, course.figures, course.heads), *drawn, *placed)
    return settled(shapes, frees, Said(noted.key, below.left_over, _WORDS), frame)


def _above(said: Prose, room: Box, placed: tuple[Shape, ...]) -> Box:
    """Return what a room of sentences has left over them, under every label that reaches in."""
    foot = room.bottom + said.height_mm + _GAP_MM
    reaching = [
        box.bottom for label in labels_of(placed) for box in [label.box] if box.touches(room)
    ]
    return room._replace(bottom=foot, top=max(min([room.top, *reaching]) - _GAP_MM, foot))


def _told_apart(
    course: Course, layout: Layout, rows: tuple[Band, ...], strip: Strip
) -> tuple[str, ...]:
    """Return the few reaches of a sheet that their band has no room for; many go to a table."""
    return () if _reaches_listed(course, layout, rows) else untold(strip, rows[0])


def _reaches_listed(course: Course, layout: Layout, rows: tuple[Band, ...]) -> bool:
    """Return whether the reaches need a table of their own."""
    strips = (layout.strip(course, index) for index in range(len(layout.stretches_m)))
    return bool(course.laterals) or sum(len(untold(s, rows[0])) for s in strips) > _MOST_UNTOLD


def _plotted(course: Course, strip: Strip) -> Part:
    """Return everything in the plot, in drawing order, with what is to be said about it."""
    return joined(
        ground.row_line(course, strip),
        ground.surface(course, strip),
        ground.walk_slab(course, strip),
        ground.curb(course, strip),
        nodes.outlet(course, strip),
        pipe.pipe(course, strip),
        pipe.standing(course, strip),
        pipe.grade_line(course, strip),
        ground.gutter_waters(course, strip),
        nodes.risers(course, strip),
        nodes.inflows(course, strip),
        nodes.laterals(course, strip),
        crossings.crossings(course, strip),
        pipe.least_cover(course, strip),
    )


def _match_lines(layout: Layout, strip: Strip, info: SheetInfo, index: int) -> tuple[Shape, ...]:
    """Return the lines at which the neighbouring sheets go on."""
    shapes: list[Shape] = []
    plot = strip.plot
    last = len(layout.stretches_m) - 1
    for at, other, here in (
        (plot.left + 2.0, index - 1, index > 0),
        (plot.right - 2.0, index + 1, index < last),
    ):
        if here:
            sheet = f"sheet {info.number + other}"
            shapes.extend(match_line((at, plot.bottom), (at, plot.top), sheet))
    return tuple(shapes)


def _around(
    course: Course, layout: Layout, strip: Strip, rows: tuple[Band, ...]
) -> tuple[Shape, ...]:
    """Return what stands over and under the plot: tags, bands, stations, title, fall, table."""
    edges = (layout.room.left, layout.room.right)
    over = tags(course, strip, edges, full=not layout.table_here)
    left, width = layout.room.left, layout.room.width
    foot = strip.plot.bottom - layout.parts.bands_mm
    line = foot - AXIS_MM - 5.6
    title = view_title((left, line), TITLE)
    beside = (extent(title).right + 3.0, line + 0.8)
    top = foot - AXIS_MM - TITLE_MM
    shapes = [
        *over,
        *bands(strip, rows, strip.plot.bottom),
        *station_axis(strip, course.figures, foot),
        *title,
        Label(layout.scale.text, beside, Anchor.SW),
        hung(sentences(course, width), (left, top)),
    ]
    if layout.table_here:
        corner = (left, top - layout.parts.words_mm - 1.0)
        shapes.extend(_node_table(course, width, corner).shapes)
    return tuple(shapes)


def _table_sheets(
    course: Course, layout: Layout, rows: tuple[Band, ...], info: SheetInfo, index: int
) -> Iterator[Sheet]:
    """Return the sheets of tables: nodes not tabled yet, and reaches where bands are short."""
    waiting: list[tuple[Row, list[Row]]] = []
    if not layout.table_here:
        waiting.append(node_table(course))
    if _reaches_listed(course, layout, rows):
        waiting.append(reach_table(course))
    paper = info.paper.landscape
    while waiting:
        shapes, waiting = _tables_on(drawing_room(paper), waiting)
        block = info.title_block(course.job, f"{TITLE}: tables", index)
        yield framed(paper, block, shapes, notes=(_TABLE_NOTE,))
        index += 1


def _tables_on(
    room: Box, waiting: list[tuple[Row, list[Row]]]
) -> tuple[list[Shape], list[tuple[Row, list[Row]]]]:
    """Return the tables that a sheet takes, and those that wait for the next."""
    shapes: list[Shape] = []
    top = room.top
    left_over = list(waiting)
    while left_over:
        heads, rows = left_over[0]
        columns = fitted_columns(heads, rows, room.width)
        count = rows_that_fit(columns, rows, top - room.bottom)
        if not count:
            break
        table = ruled_table(columns, rows[:count], (room.left, top))
        shapes.extend(table.shapes)
        top -= table.height_mm + _GAP_MM
        left_over = left_over[1:] if count == len(rows) else [(heads, rows[count:]), *left_over[1:]]
        if count < len(rows):
            break
    return shapes, left_over
