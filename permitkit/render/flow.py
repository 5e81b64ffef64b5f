"""Text pages: blocks set in black on white, thin rules, the header of the packet on every page."""

from __future__ import annotations

import re
from functools import singledispatch
from html import unescape
from io import BytesIO
from typing import TYPE_CHECKING, Any

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    KeepTogether,
    PageTemplate,
)
from reportlab.platypus import PageBreak as FlowPageBreak
from reportlab.platypus import Paragraph as FlowParagraph
from reportlab.platypus import Spacer as FlowSpacer
from reportlab.platypus import Table as FlowTable

from permitkit.drawing.lettering import CAP_HEIGHT, text_width_mm
from permitkit.render.blocks import (
    Block,
    Bullets,
    CheckList,
    Drawing,
    Heading,
    KeyValues,
    NumberedList,
    PageBreak,
    Paragraph,
    SignatureLine,
    Spacer,
    Table,
    bold,
    escape,
)
from permitkit.render.fonts import BOLD, REGULAR, register
from permitkit.render.pdf import POINTS_PER_MM, Ink

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from reportlab.pdfgen.canvas import Canvas

    from permitkit.drawing.scale import Paper

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
    "column_widths",
    "escape",
    "render_flow",
]

_SIDE_MM, _TOP_MM, _FOOT_MM = 20.0, 25.0, 19.0
_RULE, _HAIR = 0.6, 0.3
_GREY = colors.Color(0.93, 0.93, 0.93)
_HAIR_GREY = colors.Color(0.45, 0.45, 0.45)
_HEADER_PT = 8.5
_NAME_MM = 48.0
_BOX = "\N{BALLOT BOX}"


def _style(name: str, **changes: Any) -> ParagraphStyle:  # noqa: ANN401 -- what the library takes
    """Return a paragraph style in the embedded face."""
    settings = {
        "fontName": REGULAR,
        "bulletFontName": REGULAR,
        "fontSize": 9.5,
        "bulletFontSize": 9.5,
        "leading": 13.0,
        "spaceAfter": 5.0,
        "alignment": TA_LEFT,
    }
    return ParagraphStyle(name, **{**settings, **changes})


_BODY = _style("body")
_ITEM = _style("item", leftIndent=15.0, bulletIndent=2.0, spaceAfter=2.5)
_CELL = _style("cell", fontSize=9.0, leading=11.5, spaceAfter=0.0)
_HEAD = _style("head", fontName=BOLD, fontSize=9.0, leading=11.5, spaceAfter=0.0)
_SMALL = _style("small", fontSize=8.5, leading=11.0, spaceAfter=0.0)
_HEADINGS = (
    _style("h1", fontName=BOLD, fontSize=14.0, leading=18.0, spaceAfter=7.0),
    _style("h2", fontName=BOLD, fontSize=11.0, leading=14.0, spaceBefore=8.0, spaceAfter=4.0),
    _style("h3", fontName=BOLD, fontSize=9.5, leading=13.0, spaceBefore=5.0, spaceAfter=2.0),
)


def _points(mm: float) -> float:
    """Return a length in the PDF's points."""
    return mm * POINTS_PER_MM


def render_flow(
    blocks: Sequence[Block],
    paper: Paper,
    header: str,
    title: str,
    author: str = "",
    language: str = "en-US",
) -> bytes:
    """Return a PDF of blocks set one below the other on as many pages as they need.

    Parameters
    ----------
    blocks
        At least one. Their texts are markup from `escape`.
    paper
        The page; the foot of each is left clear for a stamp.
    header
        Plain text at the head of every page on the left, such as address and town.
    title
        Plain text there on the right, and the title of the document.
    author, language
        Written into the document.

    Raises
    ------
    ValueError
        If there is nothing to set.
    """
    if not blocks:
        raise ValueError("there is nothing to set")
    register()
    target = BytesIO()
    size = (_points(paper.width_mm), _points(paper.height_mm))
    document = BaseDocTemplate(
        target,
        pagesize=size,
        title=title,
        author=author,
        subject=title,
        creator="permitkit",
        lang=language,
        displayDocTitle=1,
        invariant=1,
        pageCompression=1,
        initialFontName=REGULAR,
    )
    width = size[0] - 2 * _points(_SIDE_MM)
    foot = _points(_FOOT_MM)
    frame = Frame(
        _points(_SIDE_MM), foot, width, size[1] - foot - _points(_TOP_MM), 0, 0, 0, 0, id="text"
    )
    heads = _Heads(header, title, size)
    document.addPageTemplates([PageTemplate("page", [frame], onPage=heads.draw)])
    document.build([flowable for block in blocks for flowable in _set(block, width)])
    return target.getvalue()


class _Heads:
    """What stands above the text of every page."""

    def __init__(self, header: str, title: str, size: tuple[float, float]) -> None:
        self._header, self._title = header, title
        self._width, self._height = size

    def draw(self, canvas: Canvas, _document: object) -> None:
        """Draw header, title and rule."""
        left, right = _points(_SIDE_MM), self._width - _points(_SIDE_MM)
        line = self._height - _points(_TOP_MM - 7.0)
        title = _shortened(self._title, (right - left) * 0.45)
        room = right - left - _width(title) - 12
        canvas.saveState()
        canvas.setFont(REGULAR, _HEADER_PT)
        canvas.drawString(left, line + 4, _shortened(self._header, room))
        canvas.drawRightString(right, line + 4, title)
        canvas.setLineWidth(_HAIR)
        canvas.line(left, line, right, line)
        canvas.restoreState()


def _width(text: str) -> float:
    """Return the width of a header text in points."""
    return _points(text_width_mm(text, _HEADER_PT / POINTS_PER_MM * CAP_HEIGHT))


def _shortened(text: str, room: float) -> str:
    """Return a header text cut with an ellipsis where it would run into another."""
    if _width(text) <= room:
        return text
    ellipsis = "\N{HORIZONTAL ELLIPSIS}"
    while text and _width(text + ellipsis) > room:
        text = text[:-1]
    return text.rstrip() + ellipsis


@singledispatch
def _set(block: object, _width: float) -> list[Flowable]:
    """Return what the library sets for a block."""
    raise TypeError(f"not a block of text: {block!r}")


@_set.register
def _(block: Heading, _width: float) -> list[Flowable]:
    style = _HEADINGS[min(max(block.level, 1), len(_HEADINGS)) - 1]
    return [CondPageBreak(_points(24.0)), FlowParagraph(block.text, style)]


@_set.register
def _(block: Paragraph, _width: float) -> list[Flowable]:
    return [FlowParagraph(block.markup, _BODY)]


def _items(marked: Iterable[tuple[str, str]]) -> list[Flowable]:
    """Return the items of a list, each behind its mark."""
    items: list[Flowable] = [FlowParagraph(text, _ITEM, bulletText=mark) for mark, text in marked]
    return [*items, FlowSpacer(1, 3.0)]


@_set.register
def _(block: Bullets, _width: float) -> list[Flowable]:
    return _items(("\N{BULLET}", item) for item in block.items)


@_set.register
def _(block: NumberedList, _width: float) -> list[Flowable]:
    return _items((f"{number}.", item) for number, item in enumerate(block.items, block.start))


@_set.register
def _(block: CheckList, _width: float) -> list[Flowable]:
    return _items((_BOX, item) for item in block.items)


@_set.register
def _(block: Table, width: float) -> list[Flowable]:
    head = [FlowParagraph(text, _HEAD) for text in block.columns]
    rows = [[FlowParagraph(text, _CELL) for text in row] for row in block.rows]
    style = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("BACKGROUND", (0, 0), (-1, 0), _GREY),
        ("LINEABOVE", (0, 0), (-1, 0), _RULE, colors.black),
        ("LINEBELOW", (0, 0), (-1, 0), _RULE, colors.black),
        ("LINEBELOW", (0, 1), (-1, -1), _HAIR, _HAIR_GREY),
        *_CELLS,
    ]
    columns = column_widths(block, width)
    return [_table([head, *rows], columns, style, repeated=1), FlowSpacer(1, 7.0)]


_TAG = re.compile(r"<[^>]*>")
_CELL_PAD = 8.5


def column_widths(block: Table, width: float) -> list[float]:
    """Return the widths of a table's columns in points: their shares, but no word cut in two.

    A column too narrow for its longest word takes what it needs from the others; a word longer than
    a third of the page is broken all the same.
    """
    shares = block.widths or (1.0,) * len(block.columns)
    wanted = [width * share / sum(shares) for share in shares]
    columns = zip(*(block.columns, *block.rows), strict=True)
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
    capitals = _HEAD.fontSize / POINTS_PER_MM * CAP_HEIGHT
    words = (word for text in texts for word in unescape(_TAG.sub(" ", text)).split())
    return max((_points(text_width_mm(word, capitals, bold=True)) for word in words), default=0.0)


_CELLS = (
    ("FONTNAME", (0, 0), (-1, -1), REGULAR),
    ("TOPPADDING", (0, 0), (-1, -1), 2.5),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 3.0),
    ("LEFTPADDING", (0, 0), (-1, -1), 4.0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 4.0),
)


def _table(
    cells: list[list[Any]], columns: list[float], style: Sequence[Any], *, repeated: int = 0
) -> FlowTable:
    """Return a table that breaks between rows, and within one that is higher than a page."""
    return FlowTable(
        cells, columns, style=list(style), repeatRows=repeated, splitByRow=1, splitInRow=1
    )


@_set.register
def _(block: KeyValues, width: float) -> list[Flowable]:
    cells: list[list[Any]] = [
        [FlowParagraph(name, _HEAD), FlowParagraph(value, _CELL)] for name, value in block.rows
    ]
    style: list[Any] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("BOX", (0, 0), (-1, -1), _RULE, colors.black),
        ("LINEBELOW", (0, 0), (-1, -2), _HAIR, _HAIR_GREY),
        *_CELLS,
    ]
    if block.title:
        cells.insert(0, [FlowParagraph(block.title, _HEAD), ""])
        style.extend(
            [
                ("SPAN", (0, 0), (1, 0)),
                ("BACKGROUND", (0, 0), (1, 0), _GREY),
                ("LINEBELOW", (0, 0), (1, 0), _RULE, colors.black),
            ]
        )
    if not cells:
        return []
    name = _points(_NAME_MM)
    return [_table(cells, [name, width - name], style), FlowSpacer(1, 8.0)]


@_set.register
def _(block: Spacer, _width: float) -> list[Flowable]:
    return [FlowSpacer(1, _points(block.mm))]


@_set.register
def _(_block: PageBreak, _width: float) -> list[Flowable]:
    return [FlowPageBreak()]


@_set.register
def _(block: SignatureLine, width: float) -> list[Flowable]:
    cells = [[FlowParagraph(f"Sign here: {block.who}", _SMALL), "", FlowParagraph("Date", _SMALL)]]
    style = [
        ("LINEABOVE", (0, 0), (0, 0), _RULE, colors.black),
        ("LINEABOVE", (2, 0), (2, 0), _RULE, colors.black),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        *_CELLS,
    ]
    columns = [width * share for share in (0.62, 0.06, 0.32)]
    return [
        KeepTogether([FlowSpacer(1, _points(11.0)), _table(cells, columns, style)]),
        FlowSpacer(1, 6.0),
    ]


class _Shapes(Flowable):
    """Shapes set in the run of text, at full size."""

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        self._drawing = drawing
        self.width = _points(drawing.width_mm)
        self.height = _points(drawing.height_mm)

    def draw(self) -> None:
        """Draw the shapes with their own pens."""
        self.canv.saveState()
        self.canv.scale(POINTS_PER_MM, POINTS_PER_MM)
        Ink(self.canv).draw(self._drawing.shapes)
        self.canv.restoreState()


@_set.register
def _(block: Drawing, width: float) -> list[Flowable]:
    if _points(block.width_mm) > width + 1e-6:
        room = width / POINTS_PER_MM
        raise ValueError(f"a drawing {block.width_mm} mm wide does not fit {room:.1f} mm of page")
    parts: list[Flowable] = [_Shapes(block), FlowSpacer(1, 3.0)]
    if block.caption:
        parts.append(FlowParagraph(block.caption, _SMALL))
    return [KeepTogether([*parts, FlowSpacer(1, 6.0)])]
