"""All that one sheet of the site sketch shows: existing, proposed, dimensions, names."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import Note
from permitkit.drawing.dimensions import Dimension
from permitkit.drawing.info import Figures, SheetInfo, held
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import Role
from permitkit.drawing.sheet import labels_of
from permitkit.drawing.sheet_parts.ladder import ladder
from permitkit.drawing.site_sketch.bounds import (
    house,
    names_of_utilities,
    property_lines,
    utilities,
)
from permitkit.drawing.site_sketch.drain import limit_of_work, nodes, outlet, run, section_line
from permitkit.drawing.site_sketch.hollow import hollow
from permitkit.drawing.site_sketch.layout import OVERLAP_MM, Texts, Tile, names_top
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
from permitkit.drawing.site_sketch.window import Part, Window, joined

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.shapes import Box
    from permitkit.drawing.site_sketch.lot import Lot

__all__ = ["Told", "content", "matches"]

_NAMES_OFF_MM = 4.0
_NAMES_LEAST_MM = 25.0
_NAMES_BELOW_PAN_MM = 4.0


class Told(NamedTuple):
    """What every sheet of the sketch draws on."""

    lot: Lot
    info: SheetInfo
    figures: Figures
    hand_dig_m: float | None

    def texts(self, *, close: bool) -> Texts:
        """Return what stands below the plan."""
        notes = remarks(self.lot, self.figures, self.hand_dig_m, close=close)
        return Texts(street_words(self.lot, self.figures, self.info.town), notes)


def content(told: Told, tile: Tile) -> Part:
    """Return everything drawn on a sheet, existing first, and its notes."""
    lot, figures, window = told.lot, told.figures, tile.window
    texts = _texts(told, tile)
    lines = (row.line_box for row in texts.shapes if isinstance(row, Dimension))
    marks = section_line(lot, window, [*_boxes(texts), *(line.grown(1.0) for line in lines)])
    taken = [*_boxes(texts), *_boxes(marks)]
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
        hollow(lot, window, figures),
        outlet(lot, window, figures),
        marks,
    )
    return joined(existing, proposed, texts)


def _boxes(part: Part) -> list[Box]:
    """Return the boxes of a part's texts."""
    return [box for label in labels_of(part.shapes) for box in label.boxes]


def _texts(told: Told, tile: Tile) -> Part:
    """Return dimensions, and the names of street and bands, none of them on another."""
    lot, figures, window = told.lot, told.figures, tile.window
    along = along_curb(lot, window, figures) if tile.at_street else ()
    names = _names(told, window) if tile.at_street else Part()
    taken = [*(row.label.box for row in along), *_boxes(names)]
    across = across_street(lot, window, figures, taken)
    taken += [row.label.box for row in across]
    across = (*across, *emitter_ties(lot, window, figures, taken))
    if not tile.at_street:
        return Part(across)
    top = names_top((*along, *across), window, lot)
    words = told.texts(close=window.close).street
    return joined(
        Part((*along, *across)),
        names,
        street_name(lot, window, words, top),
        fall_of_gutter(lot, window),
    )


def _names(told: Told, window: Window) -> Part:
    """Return the names at the left edge: in a ladder, else as notes that find their own place."""
    lot, figures = told.lot, told.figures
    rungs = (*names_of_bands(lot, window, figures), *names_of_utilities(lot, window, figures))
    edge = window.at(window.ground.left, 0.0)[0] - _NAMES_OFF_MM
    low = window.at(0.0, -lot.pan_m)[1] - _NAMES_BELOW_PAN_MM
    wrap = edge - window.room.left
    drawn = ladder(rungs, edge, (low, window.room.top), wrap) if wrap > _NAMES_LEAST_MM else None
    if drawn is not None:
        return Part(drawn)
    return Part(notes=tuple(Note(held(rung.text), rung.tip, prefer=(Side.W,)) for rung in rungs))


def matches(told: Told, every: Sequence[Tile], index: int) -> Part:
    """Return the lines at which other sheets go on, each with that sheet's number."""
    own = every[index]
    if own.window.close:
        return Part()
    return joined(*_matches(told, every, index))


def _matches(told: Told, every: Sequence[Tile], index: int) -> Iterator[Part]:
    """Return the match line toward each neighbour."""
    own = every[index]
    for other, tile in enumerate(every):
        step = tile.column - own.column, tile.row - own.row
        if not tile.window.close and sorted(map(abs, step)) == [0, 1]:
            yield _match(own.window, step, f"match line, see sheet {told.info.number + other}")


def _match(window: Window, step: tuple[int, int], words: str) -> Part:
    """Return one match line, in the middle of what both sheets show."""
    ground, inward = window.ground, window.metres(OVERLAP_MM) / 2
    if step[0]:
        x = ground.right - inward if step[0] > 0 else ground.left + inward
        line = window.line((x, ground.bottom), (x, ground.top), Role.CENTRE)
        return Part(line, window.note(words, (x, ground.top), priority=7, bold=True))
    y = ground.top - inward if step[1] > 0 else ground.bottom + inward
    line = window.line((ground.left, y), (ground.right, y), Role.CENTRE)
    return Part(line, window.note(words, (ground.centre[0], y), priority=7, bold=True))
