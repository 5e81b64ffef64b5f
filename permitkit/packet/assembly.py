"""Parts put together into one PDF: order, index, bookmarks, page numbers, draft mark."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from permitkit.model.keys.papers import PACKET_ORDER
from permitkit.packet.drawn import drawn_parts, paper_of
from permitkit.packet.enclosures import attached_files, enclosures
from permitkit.packet.forms.asked import filled_forms
from permitkit.packet.front import application, scope, transmittal
from permitkit.packet.office import office_parts
from permitkit.packet.parts import Leaf, Part, in_order
from permitkit.packet.photos import photo_part
from permitkit.packet.rules_page import rules_page
from permitkit.packet.sums import calculation, fees
from permitkit.packet.values import values_of
from permitkit.packet.wording.folders import template_folders
from permitkit.render.binding.book import Book, Piece
from permitkit.render.binding.foot import page_footers
from permitkit.render.blocks import Heading, escape

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from permitkit.checks.judge import Judged
    from permitkit.drawing.sheet import Sheet
    from permitkit.packet.forms.asked import FilledForm
    from permitkit.packet.parts import Leaf, Part

__all__ = ["Made", "office_copy", "town_copy", "town_parts"]


@dataclass(frozen=True, slots=True)
class Made:
    """A finished PDF and its number of pages."""

    pdf: bytes
    pages: int


@dataclass(frozen=True, slots=True)
class _Titled:
    """Pages that were drawn together, and the parts that begin in them."""

    piece: Piece
    marks: tuple[tuple[str, int], ...]


def _header(judged: Judged) -> str:
    return f"{judged.job.site.address}, {judged.rules.sheets[0].title}"


def _text(book: Book, judged: Judged, leaves: Sequence[Leaf]) -> _Titled:
    """Set texts that follow each other in one run, so that short ones share a page."""
    runs = [
        (Heading(escape(leaf.title)), *leaf.blocks) if leaf.title else leaf.blocks
        for leaf in leaves
    ]
    title = f"revision {judged.job.revision}"
    piece = book.text(runs, paper_of(judged.job), _header(judged), title)
    named = zip(leaves, piece.starts, strict=True)
    return _Titled(piece, tuple((leaf.title, page) for leaf, page in named if leaf.title))


def _sheets(book: Book, leaves: Sequence[Leaf]) -> _Titled:
    """Draw sheets that follow each other."""
    sheets: list[Sheet] = []
    marks = []
    for leaf in leaves:
        if leaf.title:
            marks.append((leaf.title, len(sheets)))
        sheets += leaf.sheets
    return _Titled(book.sheets(sheets), tuple(marks))


def _drawn(book: Book, judged: Judged, parts: Sequence[Part]) -> list[_Titled]:
    leaves = [leaf for part in parts for leaf in part.leaves()]
    drawn = []
    for kind, found in groupby(leaves, key=lambda leaf: leaf.kind):
        together = list(found)
        if kind == "text":
            drawn.append(_text(book, judged, together))
        elif kind == "sheets":
            drawn.append(_sheets(book, together))
        else:
            drawn += [_Titled(book.outside(leaf.file), ((leaf.title, 0),)) for leaf in together]
    return drawn


def town_parts(
    judged: Judged,
    folder: Path,
    former: Judged | None = None,
    wording: Sequence[Path] = (),
    forms: Sequence[FilledForm] = (),
) -> tuple[Part, ...]:
    """Return the town copy's parts after the transmittal, in the town's own order."""
    values, words = values_of(judged), template_folders(judged.rules.sheets, wording)
    parts = [
        *application(judged, values, words, forms),
        scope(judged, values, words),
        *drawn_parts(judged, values, former, words),
        calculation(judged),
        rules_page(judged),
        fees(judged),
        *enclosures(judged, folder, forms),
        *photo_part(judged, folder),
    ]
    order = judged.rules[PACKET_ORDER].value
    return in_order(parts, getattr(order, "steps", ()))


def _index(rest: Sequence[_Titled], first: int) -> list[tuple[str, int]]:
    """Return the title of each part and the page it begins on, `first` pages into the packet."""
    index = []
    for one in rest:
        index += [(title, first + page) for title, page in one.marks]
        first += one.piece.pages
    return index


def _transmittal(
    book: Book, judged: Judged, rest: Sequence[_Titled], forms: Sequence[FilledForm]
) -> _Titled:
    """Return the transmittal with page numbers; its own length moves the rest, so it may repeat."""
    pages = 1
    for _ in range(3):
        index = [(title, str(page + 1)) for title, page in _index(rest, pages)]
        made = _text(book, judged, transmittal(judged, index, forms).leaves())
        if made.piece.pages == pages:
            break
        pages = made.piece.pages
    return made


def _bound(
    book: Book,
    judged: Judged,
    drawn: Sequence[_Titled],
    title: str,
    *,
    draft: bool,
    files: Sequence[tuple[str, bytes]] = (),
) -> Made:
    pages = sum(one.piece.pages for one in drawn)
    pdf = book.bound(
        [one.piece for one in drawn],
        page_footers(pages, title),
        marks=_index(drawn, 0),
        title=title,
        author=judged.job.firm.name if judged.job.firm else judged.job.site.owner,
        day=judged.job.filing,
        draft=draft,
        files=files,
    )
    return Made(pdf, pages)


def town_copy(
    judged: Judged,
    *,
    draft: bool,
    folder: Path,
    former: Judged | None = None,
    wording: Sequence[Path] = (),
) -> Made:
    """Return the town's copy of the packet.

    Parameters
    ----------
    judged
        The job, judged.
    draft
        Whether every page says that it is a draft.
    folder
        Where the job's enclosures and photographs stand.
    former
        The job as it went in last time: what changed since is marked on the drawings.
    wording
        The firm's own folders of templates, nearest first; the town's stand in front of them.

    Raises
    ------
    InputError
        With the faults of the town's forms and templates, of enclosures, and of photographs.
    """
    forms = filled_forms(judged)
    book = Book()
    rest = _drawn(book, judged, town_parts(judged, folder, former, wording, forms))
    title = f"Right-of-way permit packet: {_header(judged)}"
    drawn = [_transmittal(book, judged, rest, forms), *rest]
    return _bound(book, judged, drawn, title, draft=draft)


def office_copy(judged: Judged, *, draft: bool, files: Sequence[Path] = ()) -> Made:
    """Return the office copy: state, crew card, take-off, calendar, money, and the files.

    Parameters
    ----------
    judged
        The job, judged.
    draft
        Whether every page says that it is a draft.
    files
        The files the job was read from; they ride inside, with the rule sheets and the verdicts.
    """
    book = Book()
    drawn = _drawn(book, judged, office_parts(judged))
    title = f"Office copy: {_header(judged)}"
    return _bound(book, judged, drawn, title, draft=draft, files=attached_files(judged, files))
