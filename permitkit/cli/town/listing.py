"""The command that lists the towns: how complete each sheet is, how old, when due again."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import typer

from permitkit.cli.town.days import Day, this_day
from permitkit.cli.town.found import every_place
from permitkit.errors import Exit, InputError, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from permitkit.load.sheet.glance import Glance
    from permitkit.model.rules import RuleKey
    from permitkit.study.keeping.state import SheetState

__all__ = ["add_to"]

KINDS = {"town": "TOWNS", "county": "COUNTIES", "state": "STATES", "country": "COUNTRIES"}
ROOM, ROOMS = 20, (5, 5, 5, 5, 7)
HEAD = "place                said  ask  ref none silent  age       due        standing"
STANDINGS = {"not verified with the town": "unverified", "verified with the town": "verified"}


def towns(on: Day = None) -> None:
    """List every place: how complete its sheet is, how old, when due for another look.

    Of the questions a sheet can answer: said, to ask, set by another document (ref), asked and no
    rule (none), and silent, with what the sheet follows counted in. What is wrong in a sheet is not
    looked for here: see `permitkit town check`.
    """
    day = this_day(on)
    rows, broken = _all_rows(day)
    for kind, head in KINDS.items():
        found = [row for row in rows if row.kind == kind]
        if found:
            typer.echo(
                "\n".join([head, HEAD, *(line for row in found for line in _lines(row)), ""])
            )
    for name, count in broken.items():
        told = f"{name}: {count} fault{'' if count == 1 else 's'}; see: permitkit town check {name}"
        typer.echo(told, err=True)
    overdue = sum(row.state.overdue for row in rows)
    of = sum(rows[0].state.counts.values()) if rows else 0
    typer.echo(f"{len(rows)} sheets of {of} questions on {day.isoformat()}")
    typer.echo(f"{overdue} due for another look")
    raise typer.Exit(int(Exit.INPUT if broken else Exit.READY))


class _Row(NamedTuple):
    """One place of the list."""

    place: str
    kind: str
    standing: str
    state: SheetState


def _all_rows(day: date) -> tuple[list[_Row], dict[str, int]]:
    """Return a row for each sheet that can be read, and how many faults each other has."""
    rows, broken = [], {}
    kept: dict[str, Glance] = {}
    for name in every_place():
        try:
            rows.append(_row(name, day, kept))
        except (InputError, UsageError) as error:
            broken[name] = len(error.faults)
    return rows, broken


def _row(name: str, day: date, kept: dict[str, Glance]) -> _Row:
    from permitkit.load.find_sheet import SheetPlaces
    from permitkit.load.sheet.glance import glance_layers
    from permitkit.study.keeping.state import State, counted, state_in_layers

    layers = glance_layers(name, SheetPlaces(job=Path()), kept)
    town, spoken = layers[0], {key for layer in layers for key in layer.editions}

    def state(key: RuleKey) -> State:
        if key.name not in spoken:
            return State.SILENT
        return state_in_layers(key, [layer.on(key.name, day) for layer in layers])

    found = counted(town.checked, town.due, day, state)
    return _Row(town.place or name, town.kind, town.standing, found)


def _lines(row: _Row) -> Iterator[str]:
    counts = [f"{n:>{room}}" for n, room in zip(row.state.counts.values(), ROOMS, strict=True)]
    place = row.place
    if len(place) >= ROOM:
        yield place
        place = ""
    due = "OVERDUE" if row.state.overdue else row.state.due.isoformat()
    standing = STANDINGS.get(row.standing, row.standing or "unverified")
    yield f"{place:<{ROOM}}{''.join(counts)}  {row.state.age:<10}{due:<11}{standing}"


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command("list")(towns)
