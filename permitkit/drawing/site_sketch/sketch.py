"""The site sketch: the plan of lot, street and drain, with the enlarged plan at the outlet."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import Note, annotate
from permitkit.drawing.frame import continuation, framed
from permitkit.drawing.info import check_letters, figures_of, held, loosened
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Pattern, Role, Shape
from permitkit.drawing.sheet import extent, labels_of
from permitkit.drawing.sheet_parts.ladder import ladder
from permitkit.drawing.sheet_parts.prose import NO_LEGEND, legend, noted_sheet, plain
from permitkit.drawing.site_sketch.bounds import (
    house,
    names_of_utilities,
    property_lines,
    utilities,
)
from permitkit.drawing.site_sketch.drain import limit_of_work, nodes, outlet, run, section_line
from permitkit.drawing.site_sketch.layout import OVERLAP_MM, Texts, Tile, close_up, names_top, tiles
from permitkit.drawing.site_sketch.lot import lot_of
from permitkit.drawing.site_sketch.remarks import remarks
from permitkit.drawing.site_sketch.street import (
    bands,
    fall_of_gutter,
    names_of_bands,
    street_name,
    street_words,
)
from permitkit.drawing.site_sketch.strings import across_street, along_curb, emitter_ties
from permitkit.drawing.site_sketch.things import features, old_holes
from permitkit.drawing.site_sketch.window import Part, joined
from permitkit.drawing.symbols import match_line

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from permitkit.drawing.info import Figures, SheetInfo
    from permitkit.drawing.shapes import Box
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.drawing.site_sketch.window import Window
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["site_sketch"]

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
    Pattern.SAND: "dug by hand",
    Pattern.REMOVED: "walk taken out",
}


class _Told(NamedTuple):
    """What every sheet of the sketch draws on."""

    lot: Lot
    info: SheetInfo
    figures: Figures
    hand_dig_m: float | None

    def texts(self, *, close: bool) -> Texts:
        """Return what stands below the plan."""
        notes = remarks(self.lot, self.figures, self.info, self.hand_dig_m, close=close)
        return Texts(street_words(self.lot, self.figures, self.info.town), notes)


def site_sketch(
    job: Job, study: Study, info: SheetInfo, *, hand_dig_m: float | None = None
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
    told = _Told(lot, info, figures, hand_dig_m)
    whole = tiles(lot, info.paper, figures, told.texts(close=False))
    coarse = not any(tile.window.alone for tile in whole)
    near = close_up(lot, info.paper, figures, told.texts(close=True)) if coarse else None
    every = (*whole, *((near,) if near else ()))
    sheets = tuple(_sheet(told, every, index) for index in range(len(every)))
    check_letters(sheets)
    return (*sheets, *_more(told, every, sheets))


def _more(told: _Told, every: Sequence[Tile], sheets: Sequence[Sheet]) -> Iterator[Sheet]:
    """Return the sheets of notes that found no room beside the plans."""
    index = len(sheets)
    for tile, sheet in zip(every, sheets, strict=True):
        block = told.info.title_block(told.lot.job, f"{sheet.title}, notes", index)
        for more in continuation(sheet, tile.paper, block):
            index += 1
            yield more


def _sheet(told: _Told, every: Sequence[Tile], index: int) -> Sheet:
    """Return one sheet of the sketch."""
    tile = every[index]
    window, lot = tile.window, told.lot
    texts = _texts(told, tile)
    part = joined(_content(told, tile, texts), texts)
    fixed = [*part.shapes, *_matches(told, every, index)]
    below = legend(fixed, _WORDS, window.room)
    noted = annotate(part.notes, _above(window.room, below.height_mm), fixed)
    drawn = (*fixed, *map(plain, noted.shapes))
    free = _above(window.room, below.height_mm + _AIR_MM if below.height_mm else 0.0)
    return noted_sheet(
        (*drawn, *below.shapes),
        _below(free, drawn),
        told.texts(close=window.close).notes,
        partial(
            framed,
            tile.paper,
            told.info.title_block(
                lot.job, "Plan at the outlet" if window.close else "Site sketch", index
            ),
            scales=(window.scale,),
            north_deg=_NORTH_DEG[lot.job.site.north],
            key=tuple(map(loosened, noted.key)),
            words=NO_LEGEND,
        ),
    )


def _below(room: Box, drawn: Sequence[Shape]) -> Box:
    """Return the part of a room below everything drawn."""
    return room._replace(top=max(extent(drawn).bottom - _AIR_MM, room.bottom))


def _above(room: Box, height_mm: float) -> Box:
    """Return the part of a room above its notes."""
    return room._replace(bottom=room.bottom + height_mm)


def _content(told: _Told, tile: Tile, texts: Part) -> Part:
    """Return everything drawn on a sheet, existing first, and its notes."""
    lot, figures, window = told.lot, told.figures, tile.window
    taken = [box for label in labels_of(texts.shapes) for box in label.boxes]
    existing = joined(
        house(lot, window),
        property_lines(lot, window),
        bands(lot, window),
        utilities(lot, window, figures, told.hand_dig_m, taken),
        features(lot, window, figures),
        old_holes(lot, window, figures),
    )
    proposed = joined(
        limit_of_work(lot, window, figures),
        run(lot, window),
        nodes(lot, window, figures),
        outlet(lot, window, figures),
        section_line(lot, window),
    )
    return joined(existing, proposed)


def _texts(told: _Told, tile: Tile) -> Part:
    """Return dimensions, and the names of street and bands."""
    lot, figures, window = told.lot, told.figures, tile.window
    across = (*across_street(lot, window, figures), *emitter_ties(lot, window, figures))
    if not tile.at_street:
        return Part(across)
    along = along_curb(lot, window, figures)
    top = names_top((*along, *across), window, lot)
    return joined(
        Part((*along, *across)),
        street_name(lot, window, told.texts(close=window.close).street, top),
        fall_of_gutter(lot, window),
        _names(told, window, top),
    )


def _names(told: _Told, window: Window, low_mm: float) -> Part:
    """Return the names at the left edge: in a ladder, else as notes that find their own place."""
    lot, figures = told.lot, told.figures
    rungs = (*names_of_bands(lot, window, figures), *names_of_utilities(lot, window, figures))
    edge = window.at(window.ground.left, 0.0)[0] - _NAMES_OFF_MM
    wrap = edge - window.room.left
    drawn = ladder(rungs, edge, (low_mm, window.room.top), wrap) if wrap > _NAMES_LEAST_MM else None
    if drawn is not None:
        return Part(drawn)
    return Part(notes=tuple(Note(held(rung.text), rung.tip, prefer=(Side.W,)) for rung in rungs))


def _matches(told: _Told, every: Sequence[Tile], index: int) -> Iterator[Shape]:
    """Return the lines at which other sheets go on."""
    own = every[index]
    if own.window.close:
        return
    for other, tile in enumerate(every):
        step = tile.column - own.column, tile.row - own.row
        if tile.window.close or sorted(map(abs, step)) != [0, 1]:
            continue
        yield from _match(own, step, f"sheet {told.info.number + other}")


def _match(own: Tile, step: tuple[int, int], sheet: str) -> tuple[Shape, ...]:
    """Return the match line toward one neighbour, in the middle of what both show."""
    window, ground = own.window, own.window.ground
    inward = window.metres(OVERLAP_MM) / 2
    if step[0]:
        x = ground.right - inward if step[0] > 0 else ground.left + inward
        return match_line(window.at(x, max(ground.bottom, 0.0)), window.at(x, ground.top), sheet)
    y = ground.top - inward if step[1] > 0 else ground.bottom + inward
    return match_line(window.at(ground.left, y), window.at(ground.right, y), sheet)
