"""A document of many parts, drawn on one canvas in any order and bound in the order wanted."""

from __future__ import annotations

import io
from dataclasses import dataclass
from itertools import accumulate
from typing import TYPE_CHECKING, Any

from pypdf import PdfReader
from reportlab.pdfbase.pdfdoc import PDFnull

from permitkit.drawing.scale import LETTER
from permitkit.render.binding.foot import write_foot
from permitkit.render.binding.inserted import inserted
from permitkit.render.binding.overlay import shown_size
from permitkit.render.flow import set_runs
from permitkit.render.pdf import POINTS_PER_MM, draw_sheets, new_canvas

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from permitkit.drawing.scale import Paper
    from permitkit.drawing.sheet import Sheet
    from permitkit.render.binding.foot import Footer
    from permitkit.render.blocks import Block

__all__ = ["Book", "Piece"]


@dataclass(frozen=True, slots=True)
class Piece:
    """Pages that stand together in a book.

    Parameters
    ----------
    first, pages
        The first of them, counted from 0 in the order of drawing, and how many they are.
    starts
        Where in them each of what they are made of begins, counted from 0.
    pdf
        Finished pages from outside; nothing where they are the book's own.
    """

    first: int
    pages: int
    starts: tuple[int, ...] = (0,)
    pdf: bytes = b""


class Book:
    """Pages drawn one after the other, whose feet and places are settled when all are drawn."""

    def __init__(self) -> None:
        self._target = io.BytesIO()
        size = (LETTER.width_mm, LETTER.height_mm)
        self._canvas: Any = new_canvas(self._target, size, title="")
        self._sizes: list[tuple[float, float]] = []

    def text(self, runs: Sequence[Sequence[Block]], paper: Paper, header: str, title: str) -> Piece:
        """Set runs of text, as `permitkit.render.flow.set_runs` does."""
        first = len(self._sizes)
        starts = set_runs(self._canvas, runs, paper, header, title, self._end)
        return Piece(first, len(self._sizes) - first, starts)

    def sheets(self, sheets: Sequence[Sheet]) -> Piece:
        """Draw sheets, each on a page."""
        first = len(self._sizes)
        draw_sheets(self._canvas, sheets, self._end)
        return Piece(first, len(sheets), tuple(range(len(sheets))))

    def outside(self, pdf: bytes) -> Piece:
        """Keep a page free for every page of a finished PDF, which goes in when all is bound."""
        first = len(self._sizes)
        pages = PdfReader(io.BytesIO(pdf)).pages
        for page in pages:
            self._canvas.setPageSize(shown_size(page))
            self._end()
            self._canvas.showPage()
        return Piece(first, len(pages), pdf=pdf)

    def _end(self) -> None:
        """Leave room for the foot of the page that ends here."""
        self._canvas.doForm(_foot_name(len(self._sizes)))
        self._sizes.append(self._canvas._pagesize)  # noqa: SLF001 - the library has no other door

    def bound(
        self,
        pieces: Sequence[Piece],
        footers: Sequence[Footer],
        *,
        marks: Sequence[tuple[str, int]] = (),
        title: str,
        author: str,
        day: date,
        draft: bool = False,
        files: Sequence[tuple[str, bytes]] = (),
    ) -> bytes:
        """Return the pieces as one PDF, a footer on every page; the book is closed with it.

        Parameters
        ----------
        pieces
            In the order they stand. What was drawn and is not among them is left out.
        footers
            One for each page of them all.
        marks
            Bookmarks: their titles and pages, counted from 0, in order.
        title, author, day
            Written into the document; the day is the job's, so that the same job gives the same
            bytes.
        draft
            Whether every page says that it is a draft.
        files
            Name and content of each file that rides inside.

        Raises
        ------
        ValueError
            If there are not as many footers as pages.
        """
        order = [page for piece in pieces for page in range(piece.first, piece.first + piece.pages)]
        if len(footers) != len(order):
            raise ValueError(f"{len(footers)} footers do not fit {len(order)} pages")
        for page, footer in zip(order, footers, strict=True):
            self._write_foot(page, footer, draft=draft)
        self._arrange(order, marks)
        self._describe(title, author, day)
        come_in = [piece.pdf for piece in pieces]
        self._name((title, author, day.isoformat(), draft, tuple(footers), marks), come_in, files)
        self._canvas.save()
        pdf = self._target.getvalue()
        if not files and not any(come_in):
            return pdf
        places = accumulate((piece.pages for piece in pieces), initial=0)
        found = zip(places, come_in, strict=False)
        return inserted(pdf, [(place, pages) for place, pages in found if pages], files)

    def _write_foot(self, page: int, footer: Footer, *, draft: bool) -> None:
        width, height = self._sizes[page]
        canvas = self._canvas
        canvas.beginForm(_foot_name(page), 0, 0, width, height)
        canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
        write_foot(canvas, footer, (width / POINTS_PER_MM, height / POINTS_PER_MM), draft=draft)
        canvas.endForm()

    def _arrange(self, order: Sequence[int], marks: Sequence[tuple[str, int]]) -> None:
        """Put the pages in their order, nothing in the place of those left out, and mark them."""
        document = self._canvas._doc  # noqa: SLF001 - the library adds pages at the end only
        drawn = document.Pages.pages
        for page in set(range(len(drawn))) - set(order):
            document.idToObject[document.Reference(drawn[page]).name] = PDFnull
        document.Pages.pages = [drawn[page] for page in order]
        for number, (title, page) in enumerate(marks):
            spot = self._canvas._bookmarkReference(f"mark-{number}")  # noqa: SLF001 - as above
            spot.fit()
            spot.setPage(drawn[order[page]])
            self._canvas.addOutlineEntry(title, spot.name)

    def _describe(self, title: str, author: str, day: date) -> None:
        self._canvas.setTitle(title)
        self._canvas.setSubject(title)
        self._canvas.setAuthor(author)
        self._canvas.setProducer("permitkit")
        self._canvas.setDateFormatter(lambda *_: f"D:{day:%Y%m%d}000000Z")

    def _name(
        self,
        made_of: tuple[object, ...],
        come_in: Sequence[bytes],
        files: Sequence[tuple[str, bytes]],
    ) -> None:
        """Name the file by a digest of all it is made of, which is its identity."""
        document = self._canvas._doc  # noqa: SLF001 - the library has no other door
        drawn = (page.stream for page in document.Pages.pages)
        contents = (content for name, of in files for content in (name, of))
        for part in (repr(made_of), *drawn, *come_in, *contents):
            document.updateSignature(part)


def _foot_name(page: int) -> str:
    """Return the name of the foot of a page, counted in the order of drawing."""
    return f"foot-{page}"
