"""Tables and boxes of facts on text pages."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING, Any

from reportlab.lib import colors
from reportlab.platypus import KeepTogether
from reportlab.platypus import Spacer as FlowSpacer
from reportlab.platypus import Table as LibraryTable
from reportlab.platypus.tables import CellStyle

from permitkit.drawing.lettering import CAP_HEIGHT, text_width_mm
from permitkit.render.fonts import REGULAR
from permitkit.render.pdf import POINTS_PER_MM
from permitkit.render.styles import CELL, DENSE, GREY, HAIR, HAIR_GREY, HEAD, RULE, Text, points

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from reportlab.platypus import Flowable

    from permitkit.render.blocks import KeyValues, Table

__all__ = ["column_widths", "facts_set", "laid", "table_set"]

_NAME_MM = 48.0


def table_set(block: Table, width: float) -> list[Flowable]:
    """Return a table as what the library sets."""
    face = DENSE if block.dense else CELL
    head = [Text(text, HEAD) for text in block.columns]
    blank = [""] * (len(block.columns) - 1)
    rows: list[list[Any]] = [
        [Text(row[0], HEAD), *blank] if len(row) == 1 else [Text(text, face) for text in row]
        for row in block.rows
    ]
    style = [
        ("BACKGROUND", (0, 0), (-1, 0), GREY),
        ("LINEABOVE", (0, 0), (-1, 0), RULE, colors.black),
        ("LINEBELOW", (0, 0), (-1, 0), RULE, colors.black),
        ("LINEBELOW", (0, 1), (-1, -1), HAIR, HAIR_GREY),
        *(("SPAN", (0, at), (-1, at)) for at, row in enumerate(block.rows, 1) if len(row) == 1),
    ]
    columns = column_widths(block, width)
    padded = _CLOSE if block.dense else _OPEN
    return [laid([head, *rows], columns, style, padded, repeated=1), FlowSpacer(1, 7.0)]


_TAG = re.compile(r"<[^>]*>")
_CELL_PAD = 8.5
_NAME_SHARE = 0.34


def column_widths(block: Table, width: float) -> list[float]:
    """Return the widths of a table's columns in points: their shares, but no word cut in two.

    A column too narrow for its longest word takes what it needs from the others; a word longer than
    a third of the page is broken all the same.
    """
    shares = block.widths or (1.0,) * len(block.columns)
    wanted = [width * share / sum(shares) for share in shares]
    whole = (row for row in block.rows if len(row) > 1)
    columns = zip(*(block.columns, *whole), strict=True)
    needed = [min(_longest_word(texts) + _CELL_PAD, width / 3) for texts in columns]
    short = sum(max(need - want, 0.0) for need, want in zip(needed, wanted, strict=True))
    spare = sum(max(want - need, 0.0) for need, want in zip(needed, wanted, strict=True))
    given = min(1.0, short / spare) if spare else 0.0
    return [
        want - (want - need) * given if want > need else want + (need - want) * _met(short, spare)
        for need, want in zip(needed, wanted, strict=True)
    ]


def _met(short: float, spare: float) -> float:
    """Return how much of what is short can be given."""
    return min(1.0, spare / short) if short else 0.0


def _longest_word(texts: Iterable[str]) -> float:
    """Return the width in points of the longest word of a column, all of it taken as a heading."""
    capitals = HEAD.fontSize / POINTS_PER_MM * CAP_HEIGHT
    words = (word for text in texts for word in unescape(_TAG.sub(" ", text)).split())
    return max((points(text_width_mm(word, capitals, bold=True)) for word in words), default=0.0)


def _padded(above: float, below: float) -> CellStyle:
    """Return how all cells of a table hold their texts: hung from the top, with some air."""
    style = CellStyle("cell")
    style.fontname, style.valign = REGULAR, "TOP"
    style.leftPadding = style.rightPadding = 4.0
    style.topPadding, style.bottomPadding = above, below
    return style


_OPEN, _CLOSE = _padded(2.5, 3.0), _padded(1.0, 1.5)


class FlowTable(LibraryTable):
    """A table whose rows are measured once for a width, however often room is sought for it."""

    _took: tuple[float, tuple[float, float]] | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return its size."""
        if self._took and self._took[0] == width:
            return self._took[1]
        size = super().wrap(width, height)
        whole = self._hmax == self._nrows  # type: ignore[attr-defined]  # not in the stubs
        self._took = (width, size) if whole else None
        return size


def laid(
    cells: list[list[Any]],
    columns: list[float],
    style: Sequence[Any],
    padded: CellStyle = _OPEN,
    *,
    repeated: int = 0,
) -> FlowTable:
    """Return a table that breaks between rows, and within one that is higher than a page."""
    return FlowTable(
        cells,
        columns,
        style=list(style),
        repeatRows=repeated,
        splitByRow=1,
        splitInRow=1,
        cellStyles=[[padded] * len(row) for row in cells],
    )


def facts_set(block: KeyValues, width: float) -> list[Flowable]:
    """Return a box of facts as what the library sets."""
    cells = _read_down(block)
    style: list[Any] = [
        ("BOX", (0, 0), (-1, -1), RULE, colors.black),
        ("LINEBELOW", (0, 0), (-1, -2), HAIR, HAIR_GREY),
    ]
    if block.title:
        cells.insert(0, [Text(block.title, HEAD), *[""] * (2 * block.across - 1)])
        style.extend(
            [
                ("SPAN", (0, 0), (-1, 0)),
                ("BACKGROUND", (0, 0), (-1, 0), GREY),
                ("LINEBELOW", (0, 0), (-1, 0), RULE, colors.black),
            ]
        )
    if not cells:
        return []
    share = width / block.across
    name = points(_NAME_MM) if block.across == 1 else share * _NAME_SHARE
    box = laid(cells, [name, share - name] * block.across, style)
    return [KeepTogether([box]), FlowSpacer(1, 8.0)]


def _read_down(block: KeyValues) -> list[list[Any]]:
    """Return the cells of a box of facts, its first column filled before its second."""
    deep = -(-len(block.rows) // block.across)
    rows = [*block.rows, *[("", "")] * (deep * block.across - len(block.rows))]
    return [
        [cell for name, value in rows[line::deep] for cell in (Text(name, HEAD), Text(value, CELL))]
        for line in range(deep)
    ]
