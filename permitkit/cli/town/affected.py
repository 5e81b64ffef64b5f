"""The command that says which jobs come out otherwise under a town's other rules."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.town.days import FromDay, ToDay, days_of
from permitkit.errors import Exit, Fault, InputError, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from permitkit.checks.judge import Judged
    from permitkit.cli.town.turned import Turn

__all__ = ["add_to"]

Folder = Annotated[
    Path, typer.Argument(metavar="FOLDER", help="The folder of the jobs, searched throughout.")
]
SheetFile = Annotated[
    Path | None,
    typer.Option("--sheet", metavar="FILE", help="A new sheet of one town, held against it."),
]


def affected(
    folder: Folder,
    first: FromDay = None,
    last: ToDay = None,
    sheet: SheetFile = None,
) -> None:
    """Say which jobs get another verdict or another sum under the rules of another day.

    The jobs keep their own dates; only the rules are those of the two days, or those of a new
    sheet. With a new sheet and no days, the jobs' own dates pick the rules of both.
    """
    from permitkit.load.rule_sheet import load_sheet

    days = (None, None) if sheet and not (first or last) else days_of(first, last)
    if sheet is not None:
        load_sheet(sheet)
    faults: list[Fault] = []
    jobs = list(_job_files(folder, faults))
    found = 0
    for path in jobs:
        try:
            judged, turns = _turned(path, days, sheet)
        except (InputError, UsageError) as error:
            faults += error.faults
            continue
        if turns:
            found += 1
            typer.echo("\n".join([*_lines(path, judged, turns), ""]))
    typer.echo(f"{len(jobs)} jobs, {found} affected")
    if faults:
        raise InputError(tuple(dict.fromkeys(faults)))
    raise typer.Exit(int(Exit.READY))


def _job_files(folder: Path, faults: list[Fault]) -> Iterator[Path]:
    """Yield the job files of a folder, and note files that might be one but cannot be read."""
    from permitkit.load.toml_text import read_toml

    if not folder.exists():
        raise InputError((Fault(str(folder), "no folder", "a folder that is there"),))
    for path in sorted(folder.rglob("*.toml")) if folder.is_dir() else [folder]:
        try:
            table = read_toml(path)
        except InputError as error:
            faults += error.faults
            continue
        if "town" in table:
            yield path


def _turned(
    path: Path, days: tuple[date | None, date | None], sheet: Path | None
) -> tuple[Judged, tuple[Turn, ...]]:
    """Return a job as it is judged now, and what turns under the other rules."""
    from permitkit.checks.judge import judge
    from permitkit.cli.town.turned import turned
    from permitkit.load.find_sheet import SheetPlaces
    from permitkit.load.firm import find_firm
    from permitkit.load.job_file import read_job
    from permitkit.load.rule_sheet import load_layers

    job = read_job(path)
    firm = find_firm(path)
    places = SheetPlaces(job=path.parent, firm=firm.parent if firm else None)
    old, new = (load_layers(job.town, replace(places, file=file)) for file in (None, sheet))
    before, after = judge(job, old, days[0]), judge(job, new, days[1])
    return before, turned(before, after)


def _lines(path: Path, judged: Judged, turns: tuple[Turn, ...]) -> list[str]:
    from permitkit.cli.plain import beside

    lines = [str(path), *beside("", judged.job.site.address, 4, 0)]
    for turn in turns:
        lines += ["", *beside("", turn.what, 4, 0)]
        lines += beside("was", turn.was, 8, 6) + beside("now", turn.now, 8, 6)
    return lines


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(affected)
