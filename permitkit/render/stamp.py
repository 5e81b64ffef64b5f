"""The foot of every page of a finished packet, and the mark of a draft, laid over what is there."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Literal, cast

from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    NullObject,
    PdfObject,
    StreamObject,
)

from permitkit.drawing.lettering import CAP_HEIGHT, text_width_mm
from permitkit.render.fonts import BOLD, REGULAR
from permitkit.render.pdf import POINTS_PER_MM, new_canvas

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pypdf import PageObject
    from reportlab.pdfgen.canvas import Canvas

__all__ = [
    "Footer",
    "form_of",
    "lay_over",
    "page_footers",
    "page_turn",
    "shown_size",
    "stamp",
]

_FOOT_MM = 7.0
_SIDE_MM = 12.0
_APART_MM = 3.0
_FOOT_PT = 7.5
_DRAFT = "DRAFT"
_DRAFT_FOOT = "DRAFT, not for filing"
_DRAFT_SHARE = 0.55
_OUTLINED: Literal[1] = 1
_FORM = "/PermitkitFoot"


@dataclass(frozen=True, slots=True)
class Footer:
    """What stands at the foot of one page, plain text."""

    left: str = ""
    middle: str = ""
    right: str = ""


def page_footers(count: int, title: str, digest: str = "") -> tuple[Footer, ...]:
    """Return the footers of a whole packet: title, digest, and page n of m.

    Examples
    --------
    >>> page_footers(2, "14 Tern Lane")[1].right
    'page 2 of 2'
    """
    return tuple(Footer(title, digest, f"page {page} of {count}") for page in range(1, count + 1))


def stamp(writer: PdfWriter, footers: Sequence[Footer | str], *, draft: bool = False) -> None:
    """Lay the footers, and the mark of a draft, over the pages of a document being made.

    Parameters
    ----------
    writer
        The finished pages; bookmarks and title stay.
    footers
        One for each page, in order; a plain text stands in the middle.
    draft
        Whether every page says that it is a draft: in words at the foot, and in hollow letters
        across the page that hide nothing.

    Raises
    ------
    ValueError
        If there are not as many footers as pages.
    """
    if len(footers) != len(writer.pages):
        raise ValueError(f"{len(footers)} footers do not fit {len(writer.pages)} pages")
    pages = list(writer.pages)
    said = [Footer(middle=foot) if isinstance(foot, str) else foot for foot in footers]
    sizes = [_size(page) for page in pages]
    overlay = PdfReader(BytesIO(_overlay(sizes, said, draft=draft)))
    lay_over(writer, pages, list(overlay.pages))


def lay_over(writer: PdfWriter, pages: Sequence[PageObject], marks: Sequence[PageObject]) -> None:
    """Lay a page of marks over each page of a document being made.

    A page keeps its size and its turn: the marks are turned with it, and stand as it is read.

    Parameters
    ----------
    writer
        The document.
    pages
        Pages of it.
    marks
        For each of them a page of another document, as large as the page is read.
    """
    apart: dict[str, IndirectObject] = {}
    for page, mark in zip(pages, marks, strict=True):
        name = _give(page, form_of(writer, mark))
        over = f"Q q {_placed(page)} cm {name} Do Q"
        for operators in ("q", over):
            if operators not in apart:
                apart[operators] = _added(writer, operators.encode())
        page[NameObject("/Contents")] = ArrayObject([apart["q"], *_contents(page), apart[over]])


def _placed(page: PageObject) -> str:
    """Return the matrix that brings marks as they are read onto a page as it lies."""
    left, bottom = map(float, page.cropbox.lower_left)
    right, top = map(float, page.cropbox.upper_right)
    turn, corner = {
        0: ("1 0 0 1", (left, bottom)),
        90: ("0 1 -1 0", (right, bottom)),
        180: ("-1 0 0 -1", (right, top)),
        270: ("0 -1 1 0", (left, top)),
    }[page_turn(page)]
    return f"{turn} {corner[0]:.4f} {corner[1]:.4f}"


def _added(writer: PdfWriter, operators: bytes) -> IndirectObject:
    """Add a short stream of operators to a document."""
    stream = DecodedStreamObject()
    stream.set_data(operators)
    return writer._add_object(stream)  # noqa: SLF001 - the library's own way to add one


def _contents(page: PageObject) -> list[PdfObject]:
    """Return the streams of a page as they stand, those not yet compressed compressed."""
    held = page.get("/Contents", NullObject())
    found = held.get_object()
    if isinstance(found, NullObject):
        return []
    streams = list(found) if isinstance(found, ArrayObject) else [held]
    if all("/Filter" in stream.get_object() for stream in streams):
        return streams
    page.compress_content_streams()
    return [page.raw_get("/Contents")]


def form_of(writer: PdfWriter, mark: PageObject) -> IndirectObject:
    """Return a page of marks as a form in a document, with the letters it needs."""
    form = cast("StreamObject", mark["/Contents"]).clone(writer)
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = ArrayObject(mark.mediabox)
    form[NameObject("/Resources")] = cast("DictionaryObject", mark["/Resources"]).clone(writer)
    return writer._add_object(form)  # noqa: SLF001 - the library's own way to add one


def _give(page: PageObject, form: IndirectObject) -> str:
    """Let a page use a form, and return the name it goes by there.

    What the page shares with others stays as it is.
    """
    held = page.get("/Resources", DictionaryObject()).get_object()
    resources = DictionaryObject({name: held.raw_get(name) for name in held})
    forms = held.get("/XObject", DictionaryObject()).get_object()
    used = {name: forms.raw_get(name) for name in forms}
    name = _FORM
    while name in used:
        name += "-again"
    resources[NameObject("/XObject")] = DictionaryObject({**used, NameObject(name): form})
    page[NameObject("/Resources")] = resources
    return name


def shown_size(page: PageObject) -> tuple[float, float]:
    """Return the width and height of a page as it is read, in points."""
    box = page.cropbox
    size = float(box.width), float(box.height)
    return (size[1], size[0]) if page_turn(page) % 180 else size


def page_turn(page: PageObject) -> int:
    """Return how far a page is turned to be read, clockwise: 0, 90, 180 or 270."""
    return int(page.rotation) // 90 * 90 % 360


def _size(page: PageObject) -> tuple[float, float]:
    """Return the width and height of a page as it is read, in mm."""
    width, height = shown_size(page)
    return width / POINTS_PER_MM, height / POINTS_PER_MM


def _overlay(
    sizes: Sequence[tuple[float, float]],
    footers: Sequence[Footer],
    draft: bool,  # noqa: FBT001
) -> bytes:
    """Return pages with the footers and nothing else."""
    target = BytesIO()
    canvas = new_canvas(target, sizes[0], title="Footers")
    for size, footer in zip(sizes, footers, strict=True):
        canvas.setPageSize((size[0] * POINTS_PER_MM, size[1] * POINTS_PER_MM))
        canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
        _foot(canvas, footer, size[0], draft=draft)
        if draft:
            _across(canvas, *size)
        canvas.showPage()
    canvas.save()
    return target.getvalue()


def _foot(canvas: Canvas, footer: Footer, width: float, *, draft: bool) -> None:
    """Write a footer, its ends cut where they would run into one another."""
    size = _FOOT_PT / POINTS_PER_MM
    canvas.setFont(REGULAR, size)
    middle = " · ".join(part for part in (footer.middle, _DRAFT_FOOT if draft else "") if part)
    whole = width - 2 * _SIDE_MM
    half = (whole - _text_mm(middle)) / 2 - _APART_MM
    right = _cut(footer.right, half)
    room = half if middle else whole - _text_mm(right) - _APART_MM
    canvas.drawString(_SIDE_MM, _FOOT_MM, _cut(footer.left, room))
    canvas.drawCentredString(width / 2, _FOOT_MM, middle)
    canvas.drawRightString(width - _SIDE_MM, _FOOT_MM, right)


def _text_mm(text: str) -> float:
    """Return the width of a footer text in mm."""
    return text_width_mm(text, _FOOT_PT / POINTS_PER_MM * CAP_HEIGHT)


def _cut(text: str, room: float) -> str:
    """Return a text shortened to a room with an ellipsis."""
    if _text_mm(text) <= room:
        return text
    while text and _text_mm(f"{text}\N{HORIZONTAL ELLIPSIS}") > room:
        text = text[:-1]
    return f"{text.rstrip()}\N{HORIZONTAL ELLIPSIS}"


def _across(canvas: Canvas, width: float, height: float) -> None:
    """Write the mark of a draft across a page in hollow grey letters."""
    diagonal = (width**2 + height**2) ** 0.5
    unit = text_width_mm(_DRAFT, CAP_HEIGHT, bold=True)
    size = diagonal * _DRAFT_SHARE / unit
    tilt = (width / diagonal, height / diagonal)
    start, drop = diagonal * _DRAFT_SHARE / 2, size * CAP_HEIGHT / 2
    text = canvas.beginText()
    text.setFont(BOLD, size)
    text.setTextRenderMode(_OUTLINED)
    text.setTextTransform(
        tilt[0],
        tilt[1],
        -tilt[1],
        tilt[0],
        width / 2 - start * tilt[0] + drop * tilt[1],
        height / 2 - start * tilt[1] - drop * tilt[0],
    )
    text.textOut(_DRAFT)
    canvas.setStrokeColorRGB(0.7, 0.7, 0.7)
    canvas.setLineWidth(0.35)
    canvas.drawText(text)
