"""The command that shows the fields of a town's form, and begins its map."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from permitkit.cli.new_file import write_new
from permitkit.cli.town.days import Day, this_day

__all__ = ["add_to"]

FormFile = Annotated[Path, typer.Argument(metavar="FORM", help="The form, a PDF.")]
MapFile = Annotated[
    Path | None,
    typer.Option("-o", "--out", metavar="FILE", help="Begin its map: FORM with the ending toml."),
]


def fields(form: FormFile, out: MapFile = None, on: Day = None) -> None:
    """Show the fields of a town's own form: page, name, kind and size; or begin its map."""
    from permitkit.packet.forms.opened import open_form
    from permitkit.packet.forms.started import field_list, started_map

    pdf = open_form(form)
    for line in field_list(pdf):
        typer.echo(line)
    if out is None:
        return
    write_new(out, started_map(pdf, form.stem, this_day(on)))
    typer.echo(f"\n{out}  begun")


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(fields)
