"""Marks laid over the pages of a finished PDF, as they are read."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

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

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pypdf import PageObject, PdfWriter

__all__ = ["form_of", "lay_over", "page_turn", "shown_size"]

_FORM = "/PermitkitFoot"


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
