"""The sheet of the traffic plan."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import annotate
from permitkit.drawing.frame import drawing_room, framed
from permitkit.drawing.info import check_letters
from permitkit.drawing.shapes import Anchor, Label, Pattern, Role
from permitkit.drawing.sheet_parts.pane import joined
from permitkit.drawing.sheet_parts.prose import plain
from permitkit.drawing.sheet_parts.settled import Said, settled, with_notes_sheets
from permitkit.drawing.sheet_parts.table import paired_pages, paired_tables
from permitkit.drawing.symbols import view_title
from permitkit.drawing.traffic_plan.closure import closure
from permitkit.drawing.traffic_plan.data import traffic_rows
from permitkit.drawing.traffic_plan.on_foot import on_foot
from permitkit.drawing.traffic_plan.scene import scene_of
from permitkit.drawing.traffic_plan.street import names, street

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
    part = joined(street(scene), closure(scene), on_foot(scene), names(scene))
    shout = Label("NOT TO SCALE", (room.left, room.top), Anchor.NW, _SHOUT_MM, bold=True)
    drawn = (*part.shapes, shout)
    noted = annotate(part.notes, scene.whole._replace(top=room.top), drawn)
    foot = scene.whole.bottom - _TITLE_MM
    shapes = (*drawn, *map(plain, noted.shapes), *view_title((room.left, foot), TITLE))
    free = room._replace(top=foot - _GAP_MM)
    own = tuple(_sheets(scene, info, _Plan(shapes, free, noted.key)))
    sheets = with_notes_sheets(own, job, info)
    check_letters(sheets)
    return sheets


class _Plan(NamedTuple):
    """The plan as drawn, the paper it leaves free, and its key."""

    shapes: tuple[Shape, ...]
    free: Box
    key: tuple[str, ...]


def _sheets(scene: Scene, info: SheetInfo, plan: _Plan) -> Iterator[Sheet]:
    """Return the plan with its particulars below it, or on sheets of their own."""
    rows = traffic_rows(scene)
    table = paired_tables(_HEADS, rows, (_NAME_MM, plan.free))
    if table.height_mm <= plan.free.height:
        shapes = (*plan.shapes, *table.shapes)
        yield _sheet(scene, info, plan._replace(shapes=shapes), table.height_mm, 0)
        return
    yield _sheet(scene, info, plan, 0.0, 0)
    room = drawing_room(info.paper.landscape)
    for index, page in enumerate(paired_pages(_HEADS, rows, (_NAME_MM, room)), 1):
        yield _sheet(scene, info, _Plan(page.shapes, room, ()), page.height_mm, index)


def _sheet(scene: Scene, info: SheetInfo, plan: _Plan, used_mm: float, index: int) -> Sheet:
    """Return a drawing on its sheet, so much of its free paper already used."""
    left = plan.free._replace(top=plan.free.top - used_mm - _GAP_MM)
    frame = partial(framed, info.paper.landscape, info.title_block(scene.job, TITLE, index))
    frees = (left,) if left.height > 0 else ()
    return settled(plan.shapes, frees, Said(plan.key, (), _WORDS), frame)
