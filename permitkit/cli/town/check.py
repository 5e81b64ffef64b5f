"""The command that tells everything wrong with rule sheets."""

from __future__ import annotations

from typing import Annotated

import typer

from permitkit.cli.town.found import every_place, layers_of, strange_sheets
from permitkit.errors import Exit, Fault, InputError, UsageError

__all__ = ["add_to"]


def check(
    sheets: Annotated[
        list[str] | None,
        typer.Argument(metavar="[SHEET]...", help="Towns or files; every sheet when left out."),
    ] = None,
) -> None:
    """Tell every problem in rule sheets at once; fit to run before each commit."""
    from permitkit.load.rule_lint import lint

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
        faults += (*lint(layers[0], layers[1:]), *strange_sheets(name, layers[0]))
        typer.echo(f"{layers[0].title}: {layers[0].path} ({layers[0].digest[:12]})")
    if faults:
        raise InputError((*dict.fromkeys(faults), *strangers))
    if strangers:
        raise UsageError(tuple(strangers))
    typer.echo(f"{len(wanted)} sheet{'' if len(wanted) == 1 else 's'}, nothing wrong")
    raise typer.Exit(int(Exit.READY))


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(check)
