"""The front view of the curb on a sheet of its own."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.drawing.callouts import annotate
from permitkit.drawing.frame import drawing_room, framed
from permitkit.drawing.front_view.elevation import elevation
from permitkit.drawing.info import check_letters, figures_of, loosened
from permitkit.drawing.shapes import Role
from permitkit.drawing.sheet_parts.prose import NO_LEGEND, legend, plain
from permitkit.drawing.sheet_parts.settled import noted_sheet
from permitkit.drawing.site_sketch.lot import lot_of
from permitkit.drawing.symbols import view_title

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.shapes import Pattern
    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["LOOKING", "WORDS", "front_view"]

LOOKING: Mapping[str, tuple[str, str]] = {
    "up": ("north", "west"),
    "down": ("south", "east"),
    "left": ("east", "north"),
    "right": ("west", "south"),
}
"""Where one looks from the street to the house, and toward the left side line, by `site.north`."""

WORDS: Mapping[Role | Pattern, str] = {
    Role.CENTRE: "side line extended, axis",
    Role.WATER: "water",
    Role.HIDDEN: "core, for comparison",
}
_TITLE_MM = 9.0


def front_view(job: Job, study: Study, info: SheetInfo) -> tuple[Sheet, ...]:
    """Return the front view of the curb along the frontage; nothing where no curb is opened.

    Raises
    ------
    InputError
        If a text has letters that cannot be drawn.
    """
    figures, lot = figures_of(job), lot_of(job, study)
    paper = info.paper.landscape
    room = drawing_room(paper)
    free = room._replace(bottom=room.bottom + room.height / 3)
    drawn = elevation(lot, figures, free)
    if drawn is None:
        return ()
    below = legend(drawn.part.shapes, WORDS, room)
    noted = annotate(drawn.part.notes, room._replace(bottom=room.bottom + 30.0), drawn.part.shapes)
    title = view_title(
        (room.left + 2.0, drawn.box.bottom - _TITLE_MM), "Front view", drawn.scale.text
    )
    shapes = (*drawn.part.shapes, *map(plain, noted.shapes), *title, *below.shapes)
    sheet = noted_sheet(
        shapes,
        room._replace(bottom=room.bottom + below.height_mm, top=drawn.box.bottom - 2 * _TITLE_MM),
        (),
        partial(
            framed,
            paper,
            info.title_block(job, "Front view of the curb"),
            scales=(drawn.scale,),
            looking=f"looking {LOOKING[job.site.north][0]}",
            key=tuple(map(loosened, noted.key)),
            words=NO_LEGEND,
        ),
    )
    check_letters((sheet,))
    return (sheet,)
