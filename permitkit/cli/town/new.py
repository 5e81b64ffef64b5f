"""The command that begins a town's sheet from a state's."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.new_file import write_new
from permitkit.cli.town.days import Day, this_day
from permitkit.cli.town.found import layers_of
from permitkit.errors import Fault, UsageError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from permitkit.model.rules import Sheet

__all__ = ["add_to"]

OutFile = Annotated[
    Path,
    typer.Option(
        "-o", "--out", metavar="FILE", help="The new file, such as jurisdictions/ford/rules.toml."
    ),
]
_PLACE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")


def new(
    state: Annotated[
        str, typer.Argument(metavar="STATE", help="The state's or county's sheet, such as us-xx.")
    ],
    name: Annotated[str, typer.Argument(metavar="NAME", help='"Town of Ford".')],
    out: OutFile,
    on: Day = None,
) -> None:
    """Begin a sheet: every key with its question and an example, on what the state says already."""
    from permitkit.load.sheet.started import NewTown, started_sheet

    day, sheets, place = this_day(on), layers_of(state), _place(out)
    if sheets[0].kind == "town":
        raise UsageError((Fault("STATE", f"{state!r}, a town", "a state, a county or a country"),))
    title = " ".join(name.split())
    if not title:
        raise UsageError((Fault("NAME", "nothing", 'a name, such as "Town of Ford"'),))
    town = NewTown(place, title, sheets[0], day, _a_year_on(day))
    write_new(out, started_sheet(town, _known(sheets, day)))
    typer.echo(f"{out}  begun from {sheets[0].title}")
    typer.echo(f"next: fill in what you know, then: permitkit town check {out}")


def _place(out: Path) -> str:
    """Return the place that a new file is named for."""
    from permitkit.load.find_sheet import place_of

    place = place_of(out)
    if out.suffix == ".toml" and _PLACE.fullmatch(place):
        return place
    expected = "a name of letters, digits and hyphens, such as jurisdictions/ford/rules.toml"
    raise UsageError((Fault("--out", repr(str(out)), expected),))


def _a_year_on(day: date) -> date:
    """Return the same day a year later; the last of February for a leap day."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)


def _known(sheets: Sequence[Sheet], day: date) -> dict[str, str]:
    """Return what the layers say already, in words, by key."""
    from permitkit.model.keys import KEYS
    from permitkit.study.keeping.said import said, told

    words = {name: said(key, sheets, day) for name, key in KEYS.items()}
    return {
        name: f"{'; '.join(told(KEYS[name], found))} ({found[0].sheet.title})"
        for name, found in words.items()
        if found
    }


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(new)
