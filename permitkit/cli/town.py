"""The commands about rule sheets."""

from __future__ import annotations

from typing import Annotated

import typer

from permitkit.errors import Exit, Fault, InputError

__all__ = ["app"]

app = typer.Typer(
    help="Keep rule sheets: check them, read them, compare them, ask the town what is missing.",
    no_args_is_help=True,
)


@app.command()
def check(
    sheets: Annotated[
        list[str] | None,
        typer.Argument(metavar="[SHEET]...", help="Towns or files; all that ship when left out."),
    ] = None,
) -> None:
    """Tell every problem in rule sheets at once."""
    from permitkit.load.find_sheet import list_places
    from permitkit.load.rule_lint import lint
    from permitkit.load.rule_sheet import load_layers

    faults: list[Fault] = []
    wanted = sheets or list(list_places())
    for name in wanted:
        try:
            layers = load_layers(name)
        except InputError as error:
            faults += error.faults
            continue
        faults += lint(layers[0], layers[1:])
        typer.echo(f"{layers[0].title}: {layers[0].path} ({layers[0].digest[:12]})")
    if faults:
        raise InputError(tuple(faults))
    typer.echo(f"{len(wanted)} sheets, nothing wrong")
    raise typer.Exit(int(Exit.READY))
