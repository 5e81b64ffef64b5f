"""Finished PDFs bound into one: bookmarks, title, language, page numbers, files inside."""

from __future__ import annotations

import hashlib
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    ByteStringObject,
    DictionaryObject,
    NameObject,
    create_string_object,
)

from permitkit.render.stamp import stamp

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from permitkit.render.stamp import Footer

__all__ = ["Bound", "bound", "page_count"]


@dataclass(frozen=True, slots=True)
class Bound:
    """One piece: its pages, and the bookmarks that stand in it, by page counted from 0."""

    pdf: bytes
    marks: tuple[tuple[str, int], ...] = ()


def page_count(pdf: bytes) -> int:
    """Return the number of pages of a PDF."""
    return len(PdfReader(io.BytesIO(pdf)).pages)


def bound(
    pieces: Sequence[Bound],
    footers: Sequence[Footer],
    *,
    title: str,
    author: str,
    day: date,
    draft: bool = False,
    files: Sequence[tuple[str, bytes]] = (),
) -> bytes:
    """Return the pieces as one PDF, a footer on every page.

    Parameters
    ----------
    pieces
        In the order they stand.
    footers
        One for each page of them all.
    title, author, day
        Written into the document; the day is the job's, so that the same job gives the same bytes.
    draft
        Whether every page says that it is a draft.
    files
        Name and content of each file that rides inside.
    """
    writer = PdfWriter()
    marks = []
    for piece in pieces:
        first = len(writer.pages)
        reader = PdfReader(io.BytesIO(piece.pdf))
        writer.append(reader, import_outline=False)
        _share_faces(writer, reader)
        marks += [(name, first + page) for name, page in piece.marks]
    stamp(writer, footers, draft=draft)
    for name, page in marks:
        writer.add_outline_item(title=name, page_number=page)
    for name, content in files:
        writer.add_attachment(name, content)
    _describe(writer, title, author, day)
    made_of = (title, author, day.isoformat(), draft, tuple(footers), tuple(marks))
    contents = [piece.pdf for piece in pieces]
    _name(
        writer, made_of, [*contents, *(part for name, of in files for part in (name.encode(), of))]
    )
    target = io.BytesIO()
    writer.write(target)
    return target.getvalue()


def _share_faces(writer: PdfWriter, reader: PdfReader) -> None:
    """Let the fields of one piece find the faces they are written in, whoever came first."""
    theirs, ours = (of.root_object.get("/AcroForm", DictionaryObject()) for of in (reader, writer))
    faces: Any = theirs.get_object().get("/DR", DictionaryObject()).get_object()
    faces = faces.get("/Font", DictionaryObject()).get_object()
    if not faces:
        return
    held: Any = ours.get_object()
    for name in ("/DR", "/Font"):
        held = held.setdefault(NameObject(name), DictionaryObject()).get_object()
    for name in faces:
        if name not in held:
            held[NameObject(name)] = faces.raw_get(name).clone(writer)


def _describe(writer: PdfWriter, title: str, author: str, day: date) -> None:
    writer.metadata = {
        "/Title": title,
        "/Author": author,
        "/Producer": "permitkit",
        "/CreationDate": f"D:{day:%Y%m%d}000000Z",
    }
    root = writer.root_object
    root[NameObject("/Lang")] = create_string_object("en-US")
    shown = DictionaryObject({NameObject("/DisplayDocTitle"): BooleanObject(value=True)})
    root[NameObject("/ViewerPreferences")] = shown


def _name(writer: PdfWriter, made_of: tuple[object, ...], contents: Sequence[bytes]) -> None:
    """Name the file by a digest of all it is made of, which is its identity."""
    digest = hashlib.sha256(repr(made_of).encode())
    for content in contents:
        digest.update(hashlib.sha256(content).digest())
    name = ByteStringObject(digest.digest()[:16])
    writer._ID = ArrayObject([name, name])  # noqa: SLF001 - the library has no other door
