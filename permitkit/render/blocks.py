"""The small vocabulary of text pages: frozen blocks that a packet hands over to be set.

Every text in a block is inline markup that came through `escape`, the one door, so that an
ampersand or a bracket in a name is printed and never read as markup.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from permitkit.drawing.shapes import Shape

__all__ = [
    "Block",
    "Bullets",
    "CheckList",
    "Drawing",
    "Heading",
    "KeyValues",
    "NumberedList",
    "PageBreak",
    "Paragraph",
    "SignatureLine",
    "Spacer",
    "Table",
    "bold",
    "escape",
]

_DOOR = str.maketrans(
    {
        "&": "&amp;",
        "<": "&lt;",
        ">": "&gt;",
        "\n": "<br/>",
        **{chr(code): " " for code in range(32) if chr(code) != "\n"},
    }
)


def escape(text: str) -> str:
    """Return plain text as inline markup that prints the same letters.

    Examples
    --------
    >>> escape("B&B <b>")
    'B&amp;B &lt;b&gt;'
    """
    return text.translate(_DOOR)


def bold(markup: str) -> str:
    """Return markup set in the bold face."""
    return f"<b>{markup}</b>"


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 is the title of a page."""

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text."""

    markup: str


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list without an order."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NumberedList:
    """A list counted from `start`."""

    items: tuple[str, ...]
    start: int = 1


@dataclass(frozen=True, slots=True)
class CheckList:
    """Empty boxes to tick, each with its text."""

    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table whose header is repeated on every page it runs over.

    `widths` are shares of the width of the page; without them the columns are equally wide. A row
    of one cell runs across the table, as a heading of what follows. A `dense` table is set small.
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...] = ()
    dense: bool = False


@dataclass(frozen=True, slots=True)
class KeyValues:
    """A box of facts, name and value side by side, read down; `across` facts stand in one line."""

    rows: tuple[tuple[str, str], ...]
    title: str = ""
    across: int = 1


@dataclass(frozen=True, slots=True)
class Spacer:
    """Empty height, in mm."""

    mm: float


@dataclass(frozen=True, slots=True)
class PageBreak:
    """The end of a page."""


@dataclass(frozen=True, slots=True)
class SignatureLine:
    """An empty line on which somebody signs, and one for the date; nobody signs for them."""

    who: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes set in the run of text at full size, in mm: their scale is never changed."""

    shapes: tuple[Shape, ...]
    width_mm: float
    height_mm: float
    caption: str = ""


Block: TypeAlias = (
    Heading
    | Paragraph
    | Bullets
    | NumberedList
    | CheckList
    | Table
    | KeyValues
    | Spacer
    | PageBreak
    | SignatureLine
    | Drawing
)
