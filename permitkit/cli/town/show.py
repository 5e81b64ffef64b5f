"""The command that shows a town's rules as a page to read, also in ink for the wall."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.town.days import Day, this_day
from permitkit.cli.town.found import Place, layers_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from permitkit.model.rules import Sheet
    from permitkit.render.blocks import Block

__all__ = ["WORDING", "add_to", "write_pdf"]

WORDING = (Path("templates"),)
"""The firm's own templates, where the command is called."""

PdfFile = Annotated[Path | None, typer.Option("--pdf", metavar="FILE", help="Write it as a PDF.")]


def show(
    place: Place,
    on: Day = None,
    pdf: PdfFile = None,
) -> None:
    """Show a town's rules subject by subject, with where each stands and what is still open."""
    from permitkit.cli.plain import plain_text
    from permitkit.packet.town.page import town_page

    day, sheets = this_day(on), layers_of(place)
    blocks = town_page(sheets, day, WORDING)
    if pdf is None:
        typer.echo(plain_text(blocks), nl=False)
    else:
        write_pdf(pdf, blocks, sheets, f"Rules on {day.isoformat()}", day)


def write_pdf(
    path: Path, blocks: Sequence[Block], sheets: Sequence[Sheet], title: str, day: date
) -> None:
    """Write a text about a town as a PDF, its standing on every page, and say how long it is."""
    from permitkit.drawing.scale import A4, LETTER
    from permitkit.packet.written import write_whole
    from permitkit.render.binding.book import Book
    from permitkit.render.binding.foot import page_footers

    town = sheets[0]
    paper = A4 if town.units == "metric" else LETTER
    named = f"{town.title}: {title}"
    book = Book()
    text = book.text([blocks], paper, f"{town.title} ({town.standing})", title)
    footers = page_footers(text.pages, named)
    made = book.bound([text], footers, title=named, author="", day=day)
    write_whole(path, made)
    typer.echo(f"{path}  {text.pages} page{'' if text.pages == 1 else 's'}")


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(show)
