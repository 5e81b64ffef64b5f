"""What stands beside a drawing: the legend of what is used and no more, the key, the notes."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.lettering import LINE_PITCH, text_width_mm, wrapped
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Hatch,
    Label,
    Line,
    Pattern,
    Point,
    Polygon,
    Role,
    Shape,
)
from permitkit.drawing.sheet import flatten
from permitkit.drawing.symbols import UTILITY_LETTERS, lettered_line

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

__all__ = [
    "LEGEND_WORDS",
    "PITCH_MM",
    "Entry",
    "Item",
    "filled",
    "heading",
    "hung",
    "legend_entries",
    "legend_item",
    "paragraphs",
]

PITCH_MM = LINE_PITCH * LEAST_LETTERING_MM
"""From line to line of the text beside a drawing. [mm]"""

SAMPLE_MM = 15.0
"""Length of the sample line of an entry: one whole cycle of the longest dashes. [mm]"""

LEGEND_WORDS: Mapping[Role | Pattern, str] = MappingProxyType(
    {
        Role.EXISTING: "existing",
        Role.PROPOSED: "proposed",
        Role.PIPE: "drain pipe, proposed",
        Role.REMOVED: "to be removed",
        Role.SAW_CUT: "saw cut",
        Role.PROPOSED_DIG: "limit of digging",
        Role.BOUNDARY: "property line",
        Role.RIGHT_OF_WAY: "right-of-way line",
        Role.CENTRE: "center line",
        Role.HIDDEN: "hidden or below ground",
        Role.GROUND: "ground",
        Role.WATER: "water",
        Role.GRADE_LINE: "water line at design flow",
        Role.PLANT: "tree or shrub",
        Role.UTILITY_ELECTRIC: "electric, as marked",
        Role.UTILITY_GAS: "gas, as marked",
        Role.UTILITY_COMMUNICATION: "communication, as marked",
        Role.UTILITY_WATER: "water main or service, as marked",
        Role.UTILITY_RECLAIMED: "irrigation, as marked",
        Role.UTILITY_SEWER: "sewer, as marked",
        Role.UTILITY_DRAIN: "storm drain, as marked",
        Role.SURVEY: "survey mark",
        Role.ASSUMED: "assumed, not measured",
        Pattern.CONCRETE: "concrete",
        Pattern.ASPHALT: "asphalt",
        Pattern.GRAVEL: "gravel or crushed stone",
        Pattern.SAND: "sand",
        Pattern.EARTH: "soil",
        Pattern.GROUT: "grout",
        Pattern.WATER: "standing water",
        Pattern.REMOVED: "taken out",
        Pattern.STEEL: "steel",
    }
)
"""What each role and hatch is called unless a view knows better; others never need a legend."""

_SWATCH_MM = (11.0, 3.6)
_LONGEST_PIECE = 10


class Entry(NamedTuple):
    """One line of a legend."""

    key: Role | Pattern
    words: str

    def sample(self, left: Point) -> tuple[Shape, ...]:
        """Return the sample, its left end level with the middle of its words, in mm."""
        x, y = left
        if isinstance(self.key, Pattern):
            width, height = _SWATCH_MM
            box = Box(x, y - height / 2, x + width, y + height / 2)
            return Hatch(box.corners, self.key, density=1.4), Polygon(box.corners, Role.EXISTING)
        line = Line(left, (x + SAMPLE_MM, y), self.key)
        if self.key in UTILITY_LETTERS:
            return lettered_line((line.start, line.end), self.key)
        return (line,)


def legend_entries(
    shapes: Iterable[Shape], words: Mapping[Role | Pattern, str] = LEGEND_WORDS
) -> tuple[Entry, ...]:
    """Return the legend of the roles and hatches that some shapes use, in a fixed order.

    Parameters
    ----------
    shapes
        What is drawn; texts alone do not call for an entry.
    words
        Phrases in place of the usual ones; an empty one leaves the entry out.
    """
    used: set[Role | Pattern] = set()
    for mark in flatten(shapes):
        if type(mark) is Hatch:
            used.add(mark.pattern)
        elif type(mark) is not Label:
            used.add(mark.role)
    phrases = {**LEGEND_WORDS, **words}
    return tuple(Entry(key, phrase) for key, phrase in phrases.items() if key in used and phrase)


class Item(NamedTuple):
    """Something of a given height that a column holds, and what it says if it has to move."""

    height: float
    draw: Callable[[float, float], tuple[Shape, ...]]
    text: str = ""
    entry: Entry | None = None


def hung(
    lines: Sequence[str],
    corner: Point,
    size_mm: float = LEAST_LETTERING_MM,
    *,
    bold: bool = False,
) -> Label:
    """Return lines of text hung from their top left corner."""
    return Label("\n".join(lines), corner, Anchor.NW, size_mm, bold=bold, role=Role.NOTE)


def heading(text: str) -> Item:
    """Return the heading of a list."""
    return Item(PITCH_MM + 1.0, lambda left, top: (hung([text], (left, top - 0.6), bold=True),))


def paragraphs(text: str, width: float, marker: str = "") -> tuple[Item, ...]:
    """Return a note, its marker standing out to the left, in pieces to break between."""
    indent = max(text_width_mm(marker, LEAST_LETTERING_MM) + 1.5, 6.0) if marker else 0.0
    lines = wrapped(text, width - indent, LEAST_LETTERING_MM)
    pieces = [
        lines[start : start + _LONGEST_PIECE] for start in range(0, len(lines), _LONGEST_PIECE)
    ]
    return tuple(
        _piece(piece, indent, marker if rank == 0 else "", last=rank == len(pieces) - 1)
        for rank, piece in enumerate(pieces)
    )


def _piece(lines: Sequence[str], indent: float, marker: str, *, last: bool) -> Item:
    """Return a few lines of a note."""

    def draw(left: float, top: float) -> tuple[Shape, ...]:
        body = hung(lines, (left + indent, top))
        return (hung([marker], (left, top)), body) if marker else (body,)

    height = len(lines) * PITCH_MM + (0.6 if last else 0.0)
    return Item(height, draw, f"{marker} {' '.join(lines)}".strip())


def legend_item(entry: Entry, width: float) -> Item:
    """Return a sample and its words."""
    lines = wrapped(entry.words, width - SAMPLE_MM - 2.5, LEAST_LETTERING_MM)

    def draw(left: float, top: float) -> tuple[Shape, ...]:
        middle = top - PITCH_MM / 2
        return (*entry.sample((left, middle)), hung(lines, (left + SAMPLE_MM + 2.5, top)))

    return Item(max(len(lines) * PITCH_MM, PITCH_MM) + 0.1, draw, entry=entry)


def filled(items: Sequence[Item], columns: Sequence[Box]) -> tuple[list[Shape], list[Item]]:
    """Return items set one below the other, column by column, and those without room."""
    shapes: list[Shape] = []
    waiting = list(items)
    for column in columns:
        top = column.top
        while waiting and top - waiting[0].height - _held(waiting) >= column.bottom:
            item = waiting.pop(0)
            shapes.extend(item.draw(column.left, top))
            top -= item.height
    return shapes, waiting


def _held(waiting: Sequence[Item]) -> float:
    """Return the height that has to follow on the same column: a heading never stands alone."""
    heading = not (waiting[0].text or waiting[0].entry)
    return waiting[1].height if heading and len(waiting) > 1 else 0.0
