"""The sheet of the traffic plan."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from permitkit.drawing.callouts import annotate
from permitkit.drawing.frame import continuation, drawing_room, framed
from permitkit.drawing.info import check_letters
from permitkit.drawing.shapes import Anchor, Label, Pattern, Role
from permitkit.drawing.sheet_parts.pane import joined
from permitkit.drawing.sheet_parts.prose import plain
from permitkit.drawing.sheet_parts.settled import Said, settled
from permitkit.drawing.sheet_parts.table import paired_tables
from permitkit.drawing.symbols import view_title
from permitkit.drawing.traffic_plan.closure import closure
from permitkit.drawing.traffic_plan.data import traffic_rows
from permitkit.drawing.traffic_plan.on_foot import on_foot
from permitkit.drawing.traffic_plan.scene import scene_of
from permitkit.drawing.traffic_plan.street import street

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.shapes import Box, Shape
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.traffic_plan.scene import Scene
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["traffic_plan"]

TITLE = "People on foot and traffic"
_HEADS = ("Part", "As proposed")
_GAP_MM, _TITLE_MM, _NAME_MM = 3.0, 8.0, 21.0
_SHOUT_MM = 3.5
_WORDS: Mapping[Role | Pattern, str] = {
    Role.EXISTING: "curb, walk, lanes as they are",
    Role.PROPOSED: "sign, barricade, cone or drum, edge",
    Role.CENTRE: "between lanes",
    Role.HIDDEN: "taper",
    Role.SAW_CUT: "way round on foot",
    Pattern.REMOVED: "work space",
}


def traffic_plan(job: Job, study: Study, info: SheetInfo) -> tuple[Sheet, ...]:
    """Return the plan of what is closed, drawn not to scale as the trade draws it.

    Parameters
    ----------
    job, study
        The job and what was computed from it.
    info
        What the title block says; its number is that of the first sheet.

    Returns
    -------
    tuple of Sheet
        Nothing where neither walk nor street is closed.

    Raises
    ------
    InputError
        If a name has letters that the typefaces do not.
    """
    if not job.traffic.walk_closed and job.traffic.lane_taken == "none":
        return ()
    paper = info.paper.landscape
    room = drawing_room(paper)
    scene = scene_of(job, study, room._replace(top=room.top - _SHOUT_MM - 2.0))
    part = joined(street(scene), closure(scene), on_foot(scene))
    shout = Label("NOT TO SCALE", (room.left, room.top), Anchor.NW, _SHOUT_MM, bold=True)
    drawn = (*part.shapes, shout)
    noted = annotate(part.notes, scene.whole._replace(top=room.top), drawn)
    foot = scene.whole.bottom - _TITLE_MM
    shapes = (*drawn, *map(plain, noted.shapes), *view_title((room.left, foot), TITLE))
    free = room._replace(top=foot - _GAP_MM)
    sheets = tuple(_sheets(scene, info, shapes, free, noted.key))
    check_letters(sheets)
    return sheets


def _sheets(
    scene: Scene, info: SheetInfo, shapes: tuple[Shape, ...], free: Box, key: tuple[str, ...]
) -> Iterator[Sheet]:
    """Return the plan with its particulars below it, or on a sheet of their own."""
    paper = info.paper.landscape
    rows = traffic_rows(scene)
    table = paired_tables(_HEADS, rows, (_NAME_MM, free))
    apart = table.height_mm > free.height
    index = 0
    for drawn, room in (
        ((shapes, free),) if not apart else ((shapes, free), ((), drawing_room(paper)))
    ):
        part = () if apart and drawn else paired_tables(_HEADS, rows, (_NAME_MM, room)).shapes
        left = room._replace(top=room.top - (table.height_mm + _GAP_MM if part else 0.0))
        block = info.title_block(scene.job, TITLE, index)
        said = Said(key if drawn else (), (), _WORDS)
        frame = partial(framed, paper, block)
        sheet = settled((*drawn, *part), (left,) if left.height > 0 else (), said, frame)
        yield sheet
        more = continuation(sheet, paper, replace(block, number=block.number + 1))
        yield from more
        index += 1 + len(more)
