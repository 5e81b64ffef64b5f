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
from permitkit.drawing.profile.layout import AXIS_MM, TITLE_MM, Parts, lay_outs
from permitkit.drawing.profile.tables import band_rows, node_table, reach_table, tables_on
from permitkit.drawing.profile.tags import tags, tags_height_mm
from permitkit.drawing.profile.words import notes, sentences
from permitkit.drawing.shapes import Anchor, Box, Label, Pattern, Role
from permitkit.drawing.sheet import extent, labels_of
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.sheet_parts.prose import plain, prose
from permitkit.drawing.sheet_parts.settled import Said, settled, waits, with_notes_sheets
from permitkit.drawing.sheet_parts.table import fitted_columns, ruled_table
from permitkit.drawing.sheet_parts.text import PITCH_MM, hung
from permitkit.drawing.symbols import UTILITY_LETTERS, match_line, view_title

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.profile.axes import Band
    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.profile.layout import Layout
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.profile.tables import TableRows
    from permitkit.drawing.scale import Paper
    from permitkit.drawing.shapes import Shape
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.sheet_parts.prose import Prose
    from permitkit.drawing.sheet_parts.table import Table
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["profile"]

TITLE = "Profile along the run"
_GAP_MM = 3.0
_MOST_UNTOLD = 3
_WORDS: Mapping[Role | Pattern, str] = {
    Role.PIPE: "",
    Role.CENTRE: "match line",
    Role.WATER: "water in pipe and gutter",
    Role.GRADE_LINE: "water line, design flow",
    **dict.fromkeys((Role.HIDDEN, Role.GROUND, Role.RIGHT_OF_WAY, *UTILITY_LETTERS), ""),
    Pattern.CONCRETE: "",
    Pattern.SAND: "dug by hand at marks",
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
    measured = partial(_parts, course, rows, notes(course, hand_dig_m))
    tried = (
        _laid_out(course, layout, rows, info, hand_dig_m)
        for layout in lay_outs(course, info.paper, measured)
    )
    every = next(tried)
    while len(every) > 1 and (other := next(tried, None)):
        every = min(every, other, key=len)
    check_letters(every)
    return every


def _laid_out(
    course: Course,
    layout: Layout,
    rows: tuple[Band, ...],
    info: SheetInfo,
    hand_dig_m: float | None,
) -> tuple[Sheet, ...]:
    """Return all sheets of one layout."""
    drawn = partial(_sheet, course, layout, rows, info, hand_dig_m)
    sheets = [drawn(index) for index in range(len(layout.stretches_m))]
    tables = _tables_waiting(course, layout, rows)
    if tables and len(sheets) == 1 and not tables_on(_under(course, layout, rows), tables)[1]:
        whole = drawn(0, tables)
        sheets, tables = (sheets, tables) if waits(whole) else ([whole], ())
    return _with_tables(course, info, sheets, tables)


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
    hand_dig_m: float | None,
    index: int,
    tables: Sequence[TableRows] = (),
) -> Sheet:
    """Return one stretch of the profile on its sheet, with tables below it where it has room."""
    strip = layout.strip(course, index)
    part = _plotted(course, strip)
    around = _around(course, layout, strip, rows)
    texts = notes(course, hand_dig_m, _told_apart(course, layout, rows, strip))
    aside = layout.beside(strip)
    under = layout.room._replace(top=extent(around).bottom - _GAP_MM)
    tabled, _ = tables_on(under, tables)
    under = under._replace(top=extent(tabled).bottom - _GAP_MM) if tabled else under
    below = prose("Notes", texts, aside or under)
    drawn = (
        *part.shapes,
        *around,
        *tabled,
        *below.shapes,
        *_match_lines(layout, strip, info, index),
    )
    right = aside.right if aside else strip.plot.right
    noted = annotate(part.notes, strip.plot._replace(right=right).grown(-0.6), drawn)
    block = info.title_block(course.job, TITLE, index)
    placed = tuple(map(plain, noted.shapes))
    frees = (_above(below, aside or under, placed), *((under,) if aside else ()))
    frame = partial(framed, layout.paper, block, scales=(layout.scale,))
    shapes = (*grid(strip, course.figures, course.heads), *drawn, *placed)
    return settled(shapes, frees, Said(noted.key, below.left_over, _WORDS), frame)


def _under(course: Course, layout: Layout, rows: tuple[Band, ...]) -> Box:
    """Return the paper under everything that stands under the plot of the first sheet."""
    around = _around(course, layout, layout.strip(course, 0), rows)
    return layout.room._replace(top=extent(around).bottom - _GAP_MM)


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
    line = foot - AXIS_MM - 6.6
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


def _tables_waiting(
    course: Course, layout: Layout, rows: tuple[Band, ...]
) -> tuple[TableRows, ...]:
    """Return the tables not drawn yet: of nodes, and of reaches where bands are short."""
    nodes_too = () if layout.table_here else (node_table(course),)
    reaches_too = (reach_table(course),) if _reaches_listed(course, layout, rows) else ()
    return *nodes_too, *reaches_too


def _with_tables(
    course: Course, info: SheetInfo, sheets: Sequence[Sheet], tables: Sequence[TableRows]
) -> tuple[Sheet, ...]:
    """Return the sheets of a profile with those of its tables, and of notes without room."""
    every, waiting = list(sheets), tables
    under: list[Shape] = []
    paper = info.paper.landscape
    while waiting:
        under, waiting = tables_on(drawing_room(paper), waiting)
        if waiting:
            block = info.title_block(course.job, f"{TITLE}: tables", len(every))
            every.append(framed(paper, block, under))
    return with_notes_sheets(every, course.job, info, under)
