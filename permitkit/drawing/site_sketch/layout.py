"""Which ground goes on which sheet: paper, scale, margins, and the split where it does not fit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.frame import drawing_room
from permitkit.drawing.scale import Kind, Paper, Scale, System, View, scales, windows
from permitkit.drawing.shapes import Box
from permitkit.drawing.sheet import labels_of
from permitkit.drawing.sheet_parts.prose import prose
from permitkit.drawing.site_sketch.street import street_name
from permitkit.drawing.site_sketch.strings import across_street, along_curb, spans_along
from permitkit.drawing.site_sketch.window import Window

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.dimensions import Dimension
    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot

__all__ = ["OVERLAP_MM", "Margins", "Texts", "Tile", "close_up", "extent_of", "names_top", "tiles"]

_NAMES_MM = 49.0
_EDGE_MM = 8.0
_TOP_MM = 4.0
_BESIDE_MM = 10.0
_BELOW_PAN_MM = 5.0
_BELOW_LINES_MM = 3.0
_BELOW_GROUND_MM = 1.0
_FOOT_MM = 8.0
_LEGEND_MM = 40.0
_LEAST_ABOVE_MM = 7.0
_EDGE_SHARE = 0.035
_MOST_ABOVE_MM = 20.0
_NEIGHBOUR_M = 7.7
_BEHIND_M = 1.0
_DEEPEST_ROW_M = 12.0
OVERLAP_MM = 14.0
"""What two sheets of a split plan both show. [mm]"""

_ANYWHERE = Box(-1e6, -1e6, 1e6, 1e6)
_DETAILED = {System.US: Fraction(1, 120), System.METRIC: Fraction(1, 100)}


class Margins(NamedTuple):
    """The paper round the ground that names and dimensions take, in mm."""

    left: float
    right: float
    below: float
    notes: float

    def inner(self, room: Box) -> Box:
        """Return the paper that is left for the ground above the curb face."""
        return Box(
            room.left + self.left,
            room.bottom + self.below,
            room.right - self.right,
            room.top - _TOP_MM,
        )


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet's share: its window, its paper, and its place among its neighbours.

    Parameters
    ----------
    window
        What is shown, at which scale.
    paper
        The sheet.
    row, column
        Its place: rows from the street up, columns from the left.
    """

    window: Window
    paper: Paper
    row: int = 0
    column: int = 0

    @property
    def at_street(self) -> bool:
        """Return whether the street is on this sheet."""
        return self.row == 0


def extent_of(lot: Lot) -> Box:
    """Return the ground that a site sketch shows: the frontage, the run, the front of the house."""
    stations = [0.0, lot.frontage_m, lot.outlet[0], *(x for x, _ in lot.nodes.values())]
    near = (lot.edges_of(feature) for feature in lot.job.feature)
    stations += [x for edges in near for x in edges if x <= lot.frontage_m + _NEIGHBOUR_M]
    offsets = [lot.row_m, lot.walk_back_m, *(y for _, y in lot.nodes.values())]
    if lot.house:
        offsets.append(min(lot.house.top, lot.house.bottom + 4.5))
    top = max(offsets)
    return Box(min(stations), 0.0, max(stations), top + max(0.03 * top, 0.6))


class Texts(NamedTuple):
    """The texts below a plan: under the street's name, and the notes at the foot of the sheet."""

    street: str
    notes: tuple[str, ...]

    def notes_mm(self, room: Box) -> float:
        """Return the height that the notes need."""
        return prose("Notes", self.notes, room).height_mm + _LEGEND_MM


def tiles(lot: Lot, paper: Paper, figures: Figures, words: Texts) -> tuple[Tile, ...]:
    """Return the sheets of the whole plan: one at the finest scale that fits, else several.

    Parameters
    ----------
    paper
        Its long and its short side are both tried as width.
    words
        What is printed below it.
    """
    ground = extent_of(lot)
    papers = (paper.landscape, paper.portrait)
    for scale in scales(Kind.PLAN, figures.system):
        for lying in papers:
            margins = _margins(lot, scale, lying, figures, words, close=False)
            shown = _with_edges(ground, scale)
            inner = margins.inner(drawing_room(lying))
            if (
                scale.paper_mm(shown.width) <= inner.width
                and scale.paper_mm(shown.top) <= inner.height
            ):
                return (_tile(lot, lying, scale, shown, margins, (False, _detailed(scale))),)
    return _split(lot, papers[0], figures, words)


def _detailed(scale: Scale) -> bool:
    """Return whether a scale shows the curb well enough without an enlarged plan."""
    return scale.ratio >= _DETAILED[scale.system]


def _with_edges(ground: Box, scale: Scale) -> Box:
    """Return the ground with a strip of the neighbors' at both ends."""
    edge = scale.real_m(_EDGE_MM)
    return ground._replace(left=ground.left - edge, right=ground.right + edge)


def _below_pan_m(lot: Lot, scale: Scale) -> float:
    """Return how far into the street the lowest sheet shows, below 0."""
    return -lot.pan_m - scale.real_m(_BELOW_PAN_MM)


def _margins(
    lot: Lot, scale: Scale, paper: Paper, figures: Figures, words: Texts, *, close: bool
) -> Margins:
    """Return the paper that names and strings of dimensions need at a scale."""
    ground = _with_edges(extent_of(lot), scale)._replace(bottom=_below_pan_m(lot, scale))
    view = View(scale, (0.0, 0.0), (0.0, 0.0))
    room = drawing_room(paper)
    trial = Window(view, ground, _ANYWHERE, close, _detailed(scale))
    across = across_street(lot, trial, figures)
    top = names_top((*along_curb(lot, trial, figures), *across), trial, lot)
    names = labels_of(street_name(lot, replace(trial, room=room), words.street, top).shapes)
    below = _FOOT_MM - min(label.box.bottom for label in names)
    texts = [row.label.box.right for row in across]
    right = max(texts, default=0.0) - view.at(ground.right, 0.0)[0]
    notes = words.notes_mm(room)
    return Margins(_NAMES_MM, max(right, 0.0) + _BESIDE_MM, below, notes)


def names_top(dimensions: Sequence[Dimension], window: Window, lot: Lot) -> float:
    """Return how high the street's name may stand: below ground and dimensions, in mm."""
    lines = [min(row.line_box.bottom, row.label.box.bottom) for row in dimensions]
    ground = window.at(0.0, -lot.pan_m)[1] - _BELOW_PAN_MM
    return min([line - _BELOW_LINES_MM for line in lines] + [ground - _BELOW_GROUND_MM])


def _tile(
    lot: Lot, paper: Paper, scale: Scale, shown: Box, margins: Margins, window: tuple[bool, bool]
) -> Tile:
    """Return one sheet, the ground in the middle of what its margins leave."""
    room = drawing_room(paper)
    inner = margins.inner(room)
    spare = inner.height - scale.paper_mm(shown.height)
    above = min(max(spare - margins.notes, min(spare, _LEAST_ABOVE_MM)), _MOST_ABOVE_MM)
    corner = (
        inner.left + (inner.width - scale.paper_mm(shown.width)) / 2,
        inner.top - scale.paper_mm(shown.height) - above,
    )
    view = View(scale, (shown.left, shown.bottom), corner)
    low = shown.bottom if shown.bottom > 0.0 else _below_pan_m(lot, scale)
    close, alone = window
    return Tile(Window(view, shown._replace(bottom=low), room, close, alone), paper)


def _split(lot: Lot, paper: Paper, figures: Figures, words: Texts) -> tuple[Tile, ...]:
    """Return the tiles of a plan too large for one sheet at the coarsest scale."""
    scale = scales(Kind.PLAN, figures.system)[-1]
    margins = _margins(lot, scale, paper, figures, words, close=False)
    inner = margins.inner(drawing_room(paper))
    shown = _with_edges(extent_of(lot), scale)
    overlap = scale.real_m(OVERLAP_MM)
    across = windows(shown.width, inner.width, scale, overlap)
    up = windows(shown.height, inner.height, scale, overlap)
    return tuple(
        replace(
            _tile(
                lot,
                paper,
                scale,
                Box(shown.left + x0, y0, shown.left + x1, y1),
                margins,
                (False, False),
            ),
            row=row,
            column=column,
        )
        for (row, (y0, y1)), (column, (x0, x1)) in product(enumerate(up), enumerate(across))
    )


def close_up(lot: Lot, paper: Paper, figures: Figures, words: Texts) -> Tile | None:
    """Return the enlarged plan at the outlet; None where it fits at no scale."""
    row = min(lot.row_m, max(lot.walk_back_m, _DEEPEST_ROW_M))
    top = max(row, lot.outlet[1] + _BEHIND_M) + _BEHIND_M
    lying = paper.landscape
    for scale in scales(Kind.PLAN, figures.system):
        margins = _margins(lot, scale, lying, figures, words, close=True)
        inner = margins.inner(drawing_room(lying))
        if scale.paper_mm(top) <= inner.height - _LEGEND_MM / 2:
            left, right = _telling_stretch(lot, scale.real_m(inner.width))
            return _tile(lot, lying, scale, Box(left, 0.0, right, top), margins, (True, False))
    return None


def _telling_stretch(lot: Lot, width_m: float) -> tuple[float, float]:
    """Return the stretch that an enlarged plan shows: what matters most, nearest first."""
    x = lot.outlet[0]
    low = high = x
    edge = _EDGE_SHARE * width_m
    near = sorted(_telling_stations(lot), key=lambda station: abs(station - x))
    for station in near:
        if max(high, station) - min(low, station) <= width_m - 2 * edge:
            low, high = min(low, station), max(high, station)
    spare = (width_m - (high - low)) / 2
    return low - spare, high + spare


def _telling_stations(lot: Lot) -> Iterator[float]:
    """Return the stations that matter beside the outlet: what is dimensioned, old holes, lines."""
    yield from (span.end_m for span in spans_along(lot))
    yield from (float(hole.station) for hole in lot.job.existing)
    yield from (*lot.holes_m, 0.0, lot.frontage_m)
