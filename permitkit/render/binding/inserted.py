"""Pages from outside put into a PDF in the place kept for them, and files put inside it."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject

from permitkit.render.binding.overlay import lay_over

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["inserted"]


def inserted(
    pdf: bytes,
    outside: Sequence[tuple[int, bytes]],
    files: Sequence[tuple[str, bytes]] = (),
) -> bytes:
    """Return a PDF with pages from outside in it, and files.

    Parameters
    ----------
    pdf
        The document, with a page in the place of each that comes in, as large as that is read: what
        stands on it is laid over.
    outside
        The first page to be replaced, counted from 0, and the PDF whose pages come in.
    files
        Name and content of each file that rides inside.
    """
    own = PdfReader(io.BytesIO(pdf))
    writer: Any = PdfWriter(clone_from=own)
    moved: dict[object, object] = {}
    for place, content in outside:
        moved |= _put_in(writer, place, content)
    _point_anew(writer, moved)
    for name, held in files:
        writer.add_attachment(name, held)
    writer._ID = own.trailer["/ID"]  # noqa: SLF001 - the library has no other door
    target = io.BytesIO()
    writer.write(target)
    return target.getvalue()


def _put_in(writer: PdfWriter, place: int, content: bytes) -> dict[object, object]:
    """Put the pages of a PDF in the place kept for them; return which page became which."""
    reader = PdfReader(io.BytesIO(content))
    count = len(reader.pages)
    kept = list(writer.pages[place : place + count])
    writer.merge(place, reader, import_outline=False)
    _share_faces(writer, reader)
    come = list(writer.pages[place : place + count])
    lay_over(writer, come, kept)
    for _ in kept:
        writer.remove_page(place + count)
    pairs = zip(kept, come, strict=True)
    return {old.indirect_reference: new.indirect_reference for old, new in pairs}


def _point_anew(writer: PdfWriter, moved: Mapping[object, object]) -> None:
    """Let the bookmarks of replaced pages point to those that came in."""
    held: Any = writer.root_object.get("/Outlines", DictionaryObject())
    item = held.get_object().get("/First")
    while item is not None:
        page, *how = item.get_object()["/Dest"]
        item.get_object()[NameObject("/Dest")] = ArrayObject([moved.get(page, page), *how])
        item = item.get_object().get("/Next")


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
