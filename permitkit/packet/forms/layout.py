"""How a text stands in a field: as large as the form has it, smaller where it must, or not at all.

Lengths are millimetres, from the lower left corner of the field or of the page as it is read.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.lettering import CAP_HEIGHT, DESCENT, text_width_mm, wrapped
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.forms.form import Spot

__all__ = ["LEAST_MM", "Cell", "Cross", "Lettered", "in_cell", "on_paper", "ticked"]

LEAST_MM = 2.0
"""The least height of capitals that is still read on a copy."""

_STEP_MM = 0.1
_ABOVE_MM = 0.6
"""How far letters stand above a ruled line, so that the line does not run through them."""

_USUAL_MM, _LARGEST_MM = 2.5, 3.1
_SHARE = 0.5
_PITCH = 1.2 / CAP_HEIGHT
_BELOW = 0.18 / CAP_HEIGHT


@dataclass(frozen=True, slots=True)
class Lettered:
    """One line of text: where its baseline begins, and the height of its capitals."""

    text: str
    x: float
    y: float
    capitals: float


@dataclass(frozen=True, slots=True)
class Cross:
    """A cross in a box that is ticked."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Cell:
    """A field to write in.

    `capitals` is the height of its own letters, nothing where they fit themselves to the field;
    `set_at` 0, 1 or 2 stands for left, middle or right; `edge` is the width of its frame.
    """

    width: float
    height: float
    capitals: float = 0.0
    set_at: int = 0
    edge: float = 0.0
    most: int = 0
    lines: bool = False
    comb: bool = False

    @property
    def margin(self) -> float:
        """What is left clear at each side."""
        return max(2 * self.edge, 2 / POINTS_PER_MM)


def in_cell(text: str, cell: Cell) -> tuple[Lettered, ...]:
    """Return a text set in a field, its letters no smaller than can be read.

    Returns
    -------
    tuple of Lettered
        Nothing where the text does not fit.
    """
    if not text or (cell.most and len(text) > cell.most):
        return ()
    for capitals in _sizes(cell):
        found = _set(text, cell, capitals)
        if found:
            return found
    return ()


def _sizes(cell: Cell) -> Iterator[float]:
    """Yield heights of capitals, the form's own first, each smaller than the one before."""
    if cell.capitals:
        first = cell.capitals
    elif cell.lines:
        first = _USUAL_MM
    else:
        first = min(_LARGEST_MM, max(LEAST_MM, _SHARE * cell.height))
    yield first
    capitals = first - _STEP_MM
    while capitals > LEAST_MM:
        yield capitals
        capitals -= _STEP_MM
    if first > LEAST_MM:
        yield LEAST_MM


def _set(text: str, cell: Cell, capitals: float) -> tuple[Lettered, ...]:
    if cell.comb and cell.most:
        return _combed(text, cell, capitals)
    return _lines(text, cell, capitals) if cell.lines else _one_line(text, cell, capitals)


def _fits_upright(cell: Cell, capitals: float) -> bool:
    return capitals * (1 + _BELOW) <= cell.height - 2 * cell.edge + 1e-6


def _one_line(text: str, cell: Cell, capitals: float) -> tuple[Lettered, ...]:
    width = text_width_mm(text, capitals)
    if width > cell.width - 2 * cell.margin or not _fits_upright(cell, capitals):
        return ()
    y = max((cell.height - capitals) / 2, cell.edge + capitals * _BELOW)
    return (Lettered(text, _from_left(cell, width), y, capitals),)


def _from_left(cell: Cell, width: float) -> float:
    """Return where a line as wide as this begins."""
    free = cell.width - 2 * cell.margin - width
    return cell.margin + free * cell.set_at / 2


def _lines(text: str, cell: Cell, capitals: float) -> tuple[Lettered, ...]:
    room, pitch = cell.width - 2 * cell.margin, capitals * _PITCH
    lines = _whole_lines(text, room, capitals)
    needed = (len(lines) - 1) * pitch + capitals * (1 + DESCENT / CAP_HEIGHT)
    if not lines or needed > cell.height - 2 * cell.edge - cell.margin:
        return ()
    top = cell.height - cell.edge - cell.margin - capitals
    return tuple(
        Lettered(line, _from_left(cell, text_width_mm(line, capitals)), top - n * pitch, capitals)
        for n, line in enumerate(lines)
    )


def _whole_lines(text: str, room: float, capitals: float) -> tuple[str, ...]:
    """Return a text broken into lines at spaces alone; nothing where a word is too wide."""
    if any(text_width_mm(word, capitals) > room for word in text.split(" ")):
        return ()
    return wrapped(text, room, capitals)


def _combed(text: str, cell: Cell, capitals: float) -> tuple[Lettered, ...]:
    """Return a text set letter by letter, each in the middle of its own part."""
    part = (cell.width - 2 * cell.edge) / cell.most
    widths = [text_width_mm(letter, capitals) for letter in text]
    if max(widths) > part or not _fits_upright(cell, capitals):
        return ()
    first = (cell.most - len(text)) * cell.set_at // 2
    y = (cell.height - capitals) / 2
    return tuple(
        Lettered(letter, cell.edge + (first + n + 0.5) * part - width / 2, y, capitals)
        for n, (letter, width) in enumerate(zip(text, widths, strict=True))
    )


def on_paper(text: str, spot: Spot, page_height: float) -> tuple[Lettered, ...]:
    """Return a text set at a place on paper, on as many lines as there are.

    Parameters
    ----------
    text
        What is written.
    spot
        Where; the letters are made smaller where they must be.
    page_height
        Of the page as it is read. [mm]

    Returns
    -------
    tuple of Lettered
        Nothing where the text does not fit.
    """
    room = spot.width_m * 1000
    for capitals in _sizes(Cell(room, 0.0, spot.letters_m * 1000)):
        one = text_width_mm(text, capitals) <= room
        lines = (text,) if one else _whole_lines(text, room, capitals)
        if text and lines and len(lines) <= spot.lines:
            x, y = spot.across_m * 1000, page_height - spot.down_m * 1000 + _ABOVE_MM
            pitch = spot.pitch_m * 1000
            return tuple(Lettered(line, x, y - n * pitch, capitals) for n, line in enumerate(lines))
    return ()


def ticked(spot: Spot, page_height: float) -> Cross:
    """Return a cross in a box on paper, which is as high as it is wide."""
    width = spot.width_m * 1000
    return Cross(spot.across_m * 1000, page_height - spot.down_m * 1000, width, width)
