"""The command that says what changed in a town's rules between two days."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from permitkit.cli.town.days import FromDay, ToDay, days_of
from permitkit.cli.town.found import Place, layers_of

if TYPE_CHECKING:
    from permitkit.study.keeping.changes import Change

__all__ = ["add_to"]


def changes(place: Place, first: FromDay = None, last: ToDay = None) -> None:
    """Say in words what changed in a town's rules, and in those it builds on, between two days."""
    from permitkit.study.keeping.changes import changes as changed

    begin, end = days_of(first, last)
    sheets = layers_of(place)
    found = changed(sheets, begin, end)
    town = sheets[0]
    typer.echo(f"{town.title} ({town.standing}), {begin.isoformat()} to {end.isoformat()}\n")
    for change in found:
        typer.echo("\n".join(_lines(change)) + "\n")
    due = f"; the sheet falls due for another look on {town.due}" if town.due <= end else ""
    typer.echo(f"{len(found)} rule{'' if len(found) == 1 else 's'} changed{due}")


def _lines(change: Change) -> list[str]:
    from permitkit.cli.plain import beside

    lines = beside("", f"{change.key.question}  {change.key.name}", room=0)
    lines += beside("sheet", change.sheet.title, 4, 8)
    lines += beside("how", change.how, 4, 8)
    for label, texts in (("was", change.was), ("now", change.now)):
        for text in texts:
            lines += beside(label, text, 4, 8)
    if change.kept:
        lines += beside("same", f"{change.kept} more as before", 4, 8)
    return lines


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(changes)
