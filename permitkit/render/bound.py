"""Finished PDFs bound into one: bookmarks, title, language, page numbers, files inside."""

from __future__ import annotations

import hashlib
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    ByteStringObject,
    DictionaryObject,
    NameObject,
    create_string_object,
)

from permitkit.render.stamp import stamp_pages

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

__all__ = ["Bound", "Volume", "bound"]


@dataclass(frozen=True, slots=True)
class Bound:
    """One piece: its bookmark's title and its pages."""

    title: str
    pdf: bytes


@dataclass(frozen=True, slots=True)
class Volume:
    """What was bound, and its number of pages."""

    pdf: bytes
    pages: int


def bound(
    pieces: Sequence[Bound],
    *,
    title: str = "",
    author: str = "",
    day: date | None = None,
    footer: str = "",
    draft: bool = False,
    files: Sequence[tuple[str, bytes]] = (),
) -> Volume:
    """Return the pieces as one PDF; a footer also numbers the pages n of m."""
    first = [0]
    readers = [PdfReader(io.BytesIO(piece.pdf)) for piece in pieces]
    for reader in readers:
        first.append(first[-1] + len(reader.pages))
    total = first.pop()
    if footer:
        readers = [PdfReader(io.BytesIO(_stamped(readers, footer, total, draft=draft)))]
    writer = PdfWriter()
    for reader in readers:
        writer.append(reader, import_outline=False)
    for piece, page in zip(pieces, first, strict=True):
        writer.add_outline_item(title=piece.title, page_number=page)
    for name, content in files:
        writer.add_attachment(name, content)
    _describe(writer, title, author, day)
    return Volume(_bytes_of(writer), total)


def _stamped(readers: Sequence[PdfReader], footer: str, total: int, *, draft: bool) -> bytes:
    writer = PdfWriter()
    for reader in readers:
        writer.append(reader, import_outline=False)
    footers = [f"{footer}   |   page {n} of {total}" for n in range(1, total + 1)]
    return stamp_pages(_bytes_of(writer), footers, draft=draft)


def _describe(writer: PdfWriter, title: str, author: str, day: date | None) -> None:
    info = {"/Title": title, "/Author": author, "/Producer": "permitkit"}
    if day is not None:
        info["/CreationDate"] = f"D:{day:%Y%m%d}000000Z"
    writer.metadata = {key: value for key, value in info.items() if value}
    root = writer.root_object
    root[NameObject("/Lang")] = create_string_object("en-US")
    shown = DictionaryObject({NameObject("/DisplayDocTitle"): BooleanObject(value=True)})
    root[NameObject("/ViewerPreferences")] = shown


def _bytes_of(writer: PdfWriter) -> bytes:
    """Write once for the digest that names the file, then with that name as its identity."""
    writer.compress_identical_objects(remove_identicals=True, remove_orphans=True)
    draft = io.BytesIO()
    writer.write(draft)
    name = hashlib.sha256(draft.getvalue()).digest()[:16]
    writer._ID = ArrayObject([ByteStringObject(name), ByteStringObject(name)])  # noqa: SLF001
    whole = io.BytesIO()
    writer.write(whole)
    return whole.getvalue()
