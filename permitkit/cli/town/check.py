"""The command that tells everything wrong with rule sheets, their forms and their templates."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.town.found import every_place, layers_of, strange_sheets
from permitkit.errors import Exit, Fault, InputError, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.model.rules import Sheet

__all__ = ["add_to"]

WIDTH = 80
HANG = " " * 12


def check(
    sheets: Annotated[
        list[str] | None,
        typer.Argument(metavar="[SHEET]...", help="Towns or files; every sheet when left out."),
    ] = None,
) -> None:
    """Tell every problem in rule sheets, forms and templates; fit to run before each commit."""
    from permitkit.load.rule_lint import lint, notes

    faults: list[Fault] = []
    strangers: list[Fault] = []
    wanted = list(dict.fromkeys(sheets or every_place()))
    for name in wanted:
        try:
            layers = layers_of(name)
        except InputError as error:
            faults += error.faults
            continue
        except UsageError as error:
            strangers += error.faults
            continue
        faults += (
            *lint(layers[0], layers[1:]),
            *_beside(layers),
            *strange_sheets(name, layers[0]),
        )
        typer.echo(f"{layers[0].title}: {layers[0].path} ({layers[0].digest[:12]})")
        for note in notes(layers[0], layers[1:]):
            typer.echo("\n".join(_told(note)))
    if faults:
        raise InputError((*dict.fromkeys(faults), *strangers))
    if strangers:
        raise UsageError(tuple(strangers))
    typer.echo(f"{len(wanted)} sheet{'' if len(wanted) == 1 else 's'}, nothing wrong")
    raise typer.Exit(int(Exit.READY))


def _told(note: Fault) -> Iterator[str]:
    """Yield the lines of what is worth knowing and no fault."""
    yield f"note: {note.where}"
    told = (
        ("found", note.found),
        ("know", note.expected.removeprefix("to know ")),
        ("fix", note.fix),
    )
    for label, text in told:
        for n, line in enumerate(wrap(text, WIDTH - len(HANG), break_on_hyphens=False)):
            yield f"{HANG if n else f'  {label}'.ljust(len(HANG))}{line}"


def _beside(layers: Sequence[Sheet]) -> Iterator[Fault]:
    """Yield what is wrong with the forms and the templates that lie beside a sheet."""
    from permitkit.load.find_sheet import folder_of

    beside = folder_of(layers[0].file)
    if (beside / "forms").is_dir():
        from permitkit.packet.forms.asked import faults_of_forms

        yield from faults_of_forms(layers)
    if (beside / "templates").is_dir():
        from permitkit.packet.wording.tried import template_faults

        yield from template_faults(layers)


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(check)
