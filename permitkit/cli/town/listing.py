"""The command that lists the towns: how complete each sheet is, how old, when due again."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from permitkit.cli.town.days import Day, this_day
from permitkit.cli.town.found import every_place, layers_of
from permitkit.errors import Exit, InputError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

    from permitkit.study.keeping.state import SheetState

__all__ = ["add_to"]

KINDS = {"town": "TOWNS", "county": "COUNTIES", "state": "STATES", "country": "COUNTRIES"}
HEAD = f"{'place':<21}{'said':>5}{'ask':>5}{'ref':>5}{'none':>5}{'silent':>7}"
ROOM, ROOMS = 21, (5, 5, 5, 5, 7)
STANDINGS = {"not verified with the town": "unverified", "verified with the town": "verified"}


def towns(on: Day = None) -> None:
    """List every place: how complete its sheet is, how old, when due for another look.

    Of the questions a sheet can answer: said, to ask, set by another document (ref), asked and no
    rule (none), and silent, with what the sheet follows counted in.
    """
    day = this_day(on)
    states, broken = _states(day)
    for kind, head in KINDS.items():
        found = [state for state in states if state.sheet.kind == kind]
        if found:
            typer.echo("\n".join([head, *_rows(found), ""]))
    for name, count in broken.items():
        typer.echo(f"{name}: {count} faults; see: permitkit town check {name}", err=True)
    overdue = sum(state.overdue for state in states)
    typer.echo(f"{len(states)} sheets on {day.isoformat()}, {overdue} due for another look")
    raise typer.Exit(int(Exit.INPUT if broken else Exit.READY))


def _states(day: date) -> tuple[list[SheetState], dict[str, int]]:
    """Return the states of the sheets that can be read, and how many faults the others have."""
    from permitkit.study.keeping.state import sheet_state

    states, broken = [], {}
    for name in every_place():
        try:
            states.append(sheet_state(layers_of(name), day))
        except InputError as error:
            broken[name] = len(error.faults)
    return states, broken


def _rows(states: Iterable[SheetState]) -> Iterator[str]:
    yield f"{HEAD}  {'age':<10}{'due':<12}standing"
    for state in states:
        counts = [f"{n:>{room}}" for n, room in zip(state.counts.values(), ROOMS, strict=True)]
        place = state.sheet.place
        if len(place) >= ROOM:
            yield place
            place = ""
        due = "OVERDUE" if state.overdue else state.sheet.due.isoformat()
        standing = STANDINGS.get(state.sheet.standing, state.sheet.standing or "unverified")
        yield f"{place:<{ROOM}}{''.join(counts)}  {state.age:<10}{due:<12}{standing}".rstrip()


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command("list")(towns)
