"""The commands about rule sheets."""

from __future__ import annotations

import typer

from permitkit.cli.town import affected, ask, changes, check, compare, fields, listing, new, show

__all__ = ["app"]

app = typer.Typer(
    help="Keep rule sheets: check them, read them, compare them, ask the town what is missing.",
    no_args_is_help=True,
)
for module in (listing, show, check, compare, ask, new, fields, changes, affected):
    module.add_to(app)
