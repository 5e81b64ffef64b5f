"""The parts of a packet: a key the town's order speaks of, a title, and text or sheets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.sheet import Sheet
from permitkit.model.words import PARTS
from permitkit.render.blocks import Block, KeyValues, Table, escape

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


__all__ = ["Leaf", "Part", "facts", "in_order", "table"]


@dataclass(frozen=True, slots=True)
class Leaf:
    """What is printed together: text, drawn sheets, or finished pages; `title` begins a part."""

    title: str
    blocks: tuple[Block, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    file: bytes = b""

    @property
    def kind(self) -> str:
        """Which of the three it is."""
        if self.blocks:
            return "text"
        return "sheets" if self.sheets else "file"


@dataclass(frozen=True, slots=True)
class Part:
    """One part: drawn `sheets`, then `blocks` of text, or finished PDF pages from a `file`."""

    key: str
    title: str
    blocks: tuple[Block, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    file: bytes = b""

    def leaves(self) -> tuple[Leaf, ...]:
        """Return what is printed, the first of it carrying the title."""
        if self.file:
            return (Leaf(self.title, file=self.file),)
        if not self.sheets:
            return (Leaf(self.title, blocks=self.blocks),)
        drawn = Leaf(self.title, sheets=self.sheets)
        return (drawn, Leaf("", blocks=self.blocks)) if self.blocks else (drawn,)


def in_order(parts: Sequence[Part], order: Iterable[str]) -> tuple[Part, ...]:
    """Return the parts in the town's own order; what it does not name keeps the usual place.

    The transmittal leads and the enclosures close, since both speak of all the rest.
    """
    wanted = [word for word in order if word in PARTS]
    rank = {key: (1, place) for place, key in enumerate(wanted)}
    usual = {key: place for place, key in enumerate(PARTS)}
    first, last = (0, 0), (3, 0)

    def place(part: Part) -> tuple[int, int]:
        if part.key == "transmittal":
            return first
        if part.key == "enclosures":
            return last
        return rank.get(part.key, (2, usual[part.key]))

    return tuple(sorted(parts, key=place))


def table(
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    widths: Sequence[float],
    *,
    dense: bool = False,
) -> Table:
    """Return a table whose every cell went through the one door."""
    return Table(
        columns=tuple(escape(column) for column in columns),
        rows=tuple(tuple(escape(cell) for cell in row) for row in rows),
        widths=tuple(widths),
        dense=dense,
    )


def facts(rows: Iterable[tuple[str, str]], title: str = "", across: int = 1) -> KeyValues:
    """Return a box of facts; a fact with nothing to say is left out."""
    said = tuple((escape(name), escape(text)) for name, text in rows if text)
    return KeyValues(said, title=escape(title), across=across)
