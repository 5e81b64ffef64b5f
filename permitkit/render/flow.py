"""Text pages: blocks set in black on white, thin rules, the header of the packet on every page."""

from __future__ import annotations

from functools import singledispatch
from io import BytesIO
from typing import TYPE_CHECKING

from reportlab.lib import colors
from reportlab.lib.sequencer import Sequencer
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    KeepTogether,
    PageTemplate,
)
from reportlab.platypus import PageBreak as FlowPageBreak
from reportlab.platypus import Spacer as FlowSpacer

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
from permitkit.render.fonts import REGULAR
from permitkit.render.letters import check_printable
from permitkit.render.pdf import POINTS_PER_MM, Ink, new_canvas
from permitkit.render.styles import BODY, HAIR, HEADINGS, ITEM, RULE, SMALL, Text, points
from permitkit.render.tables import column_widths, facts_set, laid, table_set

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

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
    "set_runs",
]

_SIDE_MM, _TOP_MM, _FOOT_MM = 17.0, 23.0, 17.0
_HEADER_PT = 8.5
_ROOM_MM = 28.0
_SHORT_TABLE = 4
_BOX = "\N{BALLOT BOX}"


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
    target = BytesIO()
    size = (paper.width_mm, paper.height_mm)
    canvas = new_canvas(target, size, title=title, author=author, language=language)
    set_runs(canvas, [blocks], paper, header, title)
    canvas.save()
    return target.getvalue()


def set_runs(
    canvas: Canvas,
    runs: Sequence[Sequence[Block]],
    paper: Paper,
    header: str,
    title: str,
    at_end: Callable[[], None] = lambda: None,
) -> tuple[int, ...]:
    """Set several runs of blocks on pages of a canvas; return the page each begins on, from 0.

    A run begins where the one before it ended, unless the page has too little left.

    Parameters
    ----------
    canvas
        Where the pages are added.
    runs
        Each as for `render_flow`.
    paper, header, title
        As for `render_flow`; the title of the document stays.
    at_end
        Called when a page is full, while it can still be drawn on.

    Raises
    ------
    ValueError
        If a run is empty, or there is none.
    InputError
        If a text has a letter that cannot be printed.
    """
    if not runs or not all(runs):
        raise ValueError("there is nothing to set")
    check_printable(runs)
    size = (points(paper.width_mm), points(paper.height_mm))
    canvas.setPageSize(size)
    document = _Pages(canvas, size)
    width = size[0] - 2 * points(_SIDE_MM)
    foot = points(_FOOT_MM)
    frame = Frame(
        points(_SIDE_MM), foot, width, size[1] - foot - points(_TOP_MM), 0, 0, 0, 0, id="text"
    )
    heads = _Heads(header, title, size)
    page = PageTemplate("page", [frame], onPage=heads.draw, onPageEnd=lambda *_: at_end())
    document.addPageTemplates([page])
    marks = [_Mark(document) for _ in runs]
    document.build(
        [
            flowable
            for blocks, mark in zip(runs, marks, strict=True)
            for flowable in (
                CondPageBreak(points(_ROOM_MM)),
                mark,
                *_story(blocks, width),
            )
        ]
    )
    return tuple(mark.page for mark in marks)


class _Pages(BaseDocTemplate):
    """Pages of a canvas that goes on: others come before them, and after."""

    def __init__(self, canvas: Canvas, size: tuple[float, float]) -> None:
        super().__init__("", pagesize=size, initialFontName=REGULAR)
        self._canvas = canvas
        self._doSave = 0

    def _makeCanvas(self, *_: object, **__: object) -> Canvas:  # noqa: N802 - the library's name
        """Return the canvas there is, and leave what is said of the document."""
        self.seq = Sequencer()
        return self._canvas


def _story(blocks: Sequence[Block], width: float) -> Iterator[Flowable]:
    """Yield what the library sets for blocks, a short table in one piece with its heading."""
    heading: list[Flowable] = []
    for block in blocks:
        parts = _set(block, width)
        if isinstance(block, Table) and len(block.rows) <= _SHORT_TABLE:
            yield KeepTogether([*heading[-1:], *parts])
            heading = []
            continue
        yield from heading
        heading = parts if isinstance(block, Heading) else []
        if not heading:
            yield from parts
    yield from heading


class _Mark(Flowable):
    """Takes no room, and keeps the page it came to stand on, counted from 0."""

    page = 0

    def __init__(self, document: BaseDocTemplate) -> None:
        super().__init__()
        self._document = document

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """Return no size."""
        return 0.0, 0.0

    def draw(self) -> None:
        """Draw nothing; keep the page."""
        self.page = self._document.page - 1


class _Heads:
    """What stands above the text of every page."""

    def __init__(self, header: str, title: str, size: tuple[float, float]) -> None:
        self._header, self._title = header, title
        self._width, self._height = size

    def draw(self, canvas: Canvas, _document: object) -> None:
        """Draw header, title and rule."""
        left, right = points(_SIDE_MM), self._width - points(_SIDE_MM)
        line = self._height - points(_TOP_MM - 7.0)
        title = _shortened(self._title, (right - left) * 0.45)
        room = right - left - _width(title) - 12
        canvas.saveState()
        canvas.setFont(REGULAR, _HEADER_PT)
        canvas.drawString(left, line + 4, _shortened(self._header, room))
        canvas.drawRightString(right, line + 4, title)
        canvas.setLineWidth(HAIR)
        canvas.line(left, line, right, line)
        canvas.restoreState()


def _width(text: str) -> float:
    """Return the width of a header text in points."""
    return points(text_width_mm(text, _HEADER_PT / POINTS_PER_MM * CAP_HEIGHT))


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
    style = HEADINGS[min(max(block.level, 1), len(HEADINGS)) - 1]
    return [CondPageBreak(points(18.0)), Text(block.text, style)]


@_set.register
def _(block: Paragraph, _width: float) -> list[Flowable]:
    return [Text(block.markup, BODY)]


def _items(marked: Iterable[tuple[str, str]]) -> list[Flowable]:
    """Return the items of a list, each behind its mark."""
    items: list[Flowable] = [Text(text, ITEM, bulletText=mark) for mark, text in marked]
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
    return table_set(block, width)


@_set.register
def _(block: KeyValues, width: float) -> list[Flowable]:
    return facts_set(block, width)


@_set.register
def _(block: Spacer, _width: float) -> list[Flowable]:
    return [FlowSpacer(1, points(block.mm))]


@_set.register
def _(_block: PageBreak, _width: float) -> list[Flowable]:
    return [FlowPageBreak()]


@_set.register
def _(block: SignatureLine, width: float) -> list[Flowable]:
    cells = [[Text(f"Sign here: {block.who}", SMALL), "", Text("Date", SMALL)]]
    style = [
        ("LINEABOVE", (0, 0), (0, 0), RULE, colors.black),
        ("LINEABOVE", (2, 0), (2, 0), RULE, colors.black),
    ]
    columns = [width * share for share in (0.62, 0.06, 0.32)]
    return [
        KeepTogether([FlowSpacer(1, points(11.0)), laid(cells, columns, style)]),
        FlowSpacer(1, 6.0),
    ]


class _Shapes(Flowable):
    """Shapes set in the run of text, at full size."""

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        self._drawing = drawing
        self.width = points(drawing.width_mm)
        self.height = points(drawing.height_mm)

    def draw(self) -> None:
        """Draw the shapes with their own pens."""
        self.canv.saveState()
        self.canv.scale(POINTS_PER_MM, POINTS_PER_MM)
        Ink(self.canv).draw(self._drawing.shapes)
        self.canv.restoreState()


@_set.register
def _(block: Drawing, width: float) -> list[Flowable]:
    if points(block.width_mm) > width + 1e-6:
        room = width / POINTS_PER_MM
        raise ValueError(f"a drawing {block.width_mm} mm wide does not fit {room:.1f} mm of page")
    parts: list[Flowable] = [_Shapes(block), FlowSpacer(1, 3.0)]
    if block.caption:
        parts.append(Text(block.caption, SMALL))
    return [KeepTogether([*parts, FlowSpacer(1, 6.0)])]
