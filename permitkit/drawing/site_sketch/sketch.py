"""The site sketch: the plan of lot, street and drain, with the enlarged plan at the outlet."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.drawing.callouts import annotate
from permitkit.drawing.frame import framed
from permitkit.drawing.info import check_letters, figures_of, loosened
from permitkit.drawing.shapes import Pattern, Role, Shape
from permitkit.drawing.sheet import extent
from permitkit.drawing.sheet_parts.prose import NO_LEGEND, legend, plain
from permitkit.drawing.sheet_parts.settled import noted_sheet, with_notes_sheets
from permitkit.drawing.site_sketch.content import Told, content, matches
from permitkit.drawing.site_sketch.layout import Tile, close_up, tiles
from permitkit.drawing.site_sketch.lot import lot_of
from permitkit.drawing.site_sketch.window import joined

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.shapes import Box
    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["site_sketch"]

_AT_OUTLET = "Plan at the outlet"

_AIR_MM = 2.0
_NAMES_OFF_MM = 4.0
_NAMES_LEAST_MM = 25.0
_NORTH_DEG = {"right": 0.0, "up": 90.0, "left": 180.0, "down": 270.0}
_WORDS: Mapping[Role | Pattern, str] = {
    Role.HIDDEN: "below ground",
    Role.CENTRE: "",
    Role.BOUNDARY: "",
    Role.RIGHT_OF_WAY: "",
    Role.WATER: "",
    Role.PROPOSED_DIG: "limit of work",
    Role.PLANT: "tree and drip line",
    Role.REMOVED: "to be plugged",
    Role.PIPE: "drain pipe",
    Role.UTILITY_ELECTRIC: "electric",
    Role.UTILITY_GAS: "gas",
    Role.UTILITY_COMMUNICATION: "communication",
    Role.UTILITY_WATER: "water",
    Role.UTILITY_RECLAIMED: "reclaimed water",
    Role.UTILITY_SEWER: "sewer",
    Role.UTILITY_DRAIN: "storm drain",
    Pattern.SAND: "dug by hand at marks",
    Pattern.REMOVED: "walk taken out",
}


def site_sketch(
    job: Job,
    study: Study,
    info: SheetInfo,
    *,
    hand_dig_m: float | None = None,
    at_outlet: bool = True,
) -> tuple[Sheet, ...]:
    """Return the site sketch: the plan, and the enlarged plan at the outlet where that is needed.

    Parameters
    ----------
    job, study
        What is proposed, and what was computed of it.
    info
        Paper, title block and the number of the first sheet.
    hand_dig_m
        How near to a marked utility digging is by hand, by the town's rule. [m]
    at_outlet
        Whether the enlarged plan is drawn; not where another sheet shows the same.

    Returns
    -------
    tuple of Sheet
        One, or several with match lines where the plan fits at no trade scale.

    Raises
    ------
    InputError
        If a text has letters that cannot be drawn.
    """
    figures = figures_of(job)
    lot = lot_of(job, study)
    told = Told(lot, info, figures, hand_dig_m)
    whole = tiles(lot, info.paper, figures, told.texts(close=False))
    coarse = at_outlet and not any(tile.window.alone for tile in whole)
    near = close_up(lot, info.paper, figures, told.texts(close=True)) if coarse else None
    every = (*whole, *((near,) if near else ()))
    sheets = tuple(_sheet(told, every, index) for index in range(len(every)))
    check_letters(sheets)
    return with_notes_sheets(sheets, job, info)


def _sheet(told: Told, every: Sequence[Tile], index: int) -> Sheet:
    """Return one sheet of the sketch."""
    tile = every[index]
    window, lot = tile.window, told.lot
    part = joined(content(told, tile), matches(told, every, index))
    fixed = list(part.shapes)
    below = legend(fixed, _WORDS, _below(window.room, fixed))
    noted = annotate(part.notes, _above(window.room, below.height_mm), fixed)
    drawn = (*fixed, *map(plain, noted.shapes))
    free = _above(window.room, below.height_mm + _AIR_MM if below.height_mm else 0.0)
    title = _AT_OUTLET if window.close else "Site sketch"
    return noted_sheet(
        (*drawn, *below.shapes),
        _below(free, drawn),
        told.texts(close=window.close).notes,
        partial(
            framed,
            tile.paper,
            told.info.title_block(lot.job, title, index),
            scales=(window.scale,),
            north_deg=_NORTH_DEG[lot.job.site.north],
            key=tuple(map(loosened, noted.key)),
            words=NO_LEGEND if below.shapes else _WORDS,
        ),
    )


def _below(room: Box, drawn: Sequence[Shape]) -> Box:
    """Return the part of a room below everything drawn."""
    return room._replace(top=max(extent(drawn).bottom - _AIR_MM, room.bottom))


def _above(room: Box, height_mm: float) -> Box:
    """Return the part of a room above its notes."""
    return room._replace(bottom=room.bottom + height_mm)
