"""The command that holds towns against each other, rule by rule."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.town.days import Day, this_day
from permitkit.cli.town.found import layers_of
from permitkit.errors import Fault, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.study.keeping.side_by_side import Row

__all__ = ["add_to"]

FEWEST = 2
LONGEST = 20


def compare(
    places: Annotated[
        list[str], typer.Argument(metavar="A B [C]...", help="Two or more towns, or their files.")
    ],
    on: Day = None,
) -> None:
    """Hold two or more towns against each other, rule by rule; what differs comes first."""
    from permitkit.study.keeping.side_by_side import side_by_side

    if len(set(places)) < FEWEST:
        found = ", ".join(places)
        raise UsageError((Fault("permitkit town compare", found, "two towns or more"),))
    day, towns = this_day(on), [layers_of(place) for place in places]
    names = [sheets[0].place for sheets in towns]
    rows = side_by_side(towns, day)
    for sheets in towns:
        typer.echo(f"{sheets[0].title} ({sheets[0].standing}), checked {sheets[0].checked}")
    typer.echo(f"as in force on {day.isoformat()}\n")
    typer.echo("\n".join(_lines(rows, names)))


def _lines(rows: Sequence[Row], names: Sequence[str]) -> Iterator[str]:
    """Yield what differs, town by town, then what is the same, once."""
    from permitkit.cli.plain import beside

    differing = [row for row in rows if row.differs]
    alike = [row for row in rows if not row.differs]
    room = min(max(map(len, names)), LONGEST) + 2
    yield f"THEY DIFFER ({len(differing)})"
    for row in differing:
        yield from ("", *_asked(row))
        for name, said in zip(names, row.told, strict=True):
            yield from beside(name, "\n".join(said), 4, room)
    yield from ("", f"THEY SAY THE SAME ({len(alike)})")
    for row in alike:
        yield from ("", *_asked(row), *beside("", "\n".join(row.told[0]), 4, 0))


def _asked(row: Row) -> list[str]:
    from permitkit.cli.plain import beside

    return beside("", f"{row.key.question}  {row.key.name}", 2, 0)


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(compare)
