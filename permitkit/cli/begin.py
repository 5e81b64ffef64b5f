"""The command that begins a job's file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.new_file import write_new
from permitkit.cli.town.days import Day, this_day
from permitkit.errors import Fault, UsageError

if TYPE_CHECKING:
    from permitkit.model.words import OutletKind

__all__ = ["add_to"]

OutFile = Annotated[
    Path,
    typer.Option("-o", "--out", metavar="FILE", help="The new file, such as job.toml."),
]


def begin(
    town: Annotated[
        str, typer.Argument(metavar="TOWN", help="The town's rule sheet, such as millrace.")
    ],
    out: OutFile,
    outlet: Annotated[
        str | None,
        typer.Option(
            "--outlet",
            metavar="KIND",
            help="core, notch, emitter or another kind: asks for that kind alone.",
        ),
    ] = None,
    metric: bool = typer.Option(False, "--metric", help="Examples in meters, printed on A4."),
    on: Day = None,
) -> None:
    """Begin a job file: every field with its question, the house first and the street last."""
    from permitkit.cli.opened import town_sheets
    from permitkit.load.job_form.begun import NewJob, begun_job
    from permitkit.study.keeping.asked import asked_of_jobs

    day, kind = this_day(on), _kind(outlet)
    sheets = town_sheets(town, out)
    units = "metric" if metric else sheets[0].units
    job = NewJob(town, sheets[0].title, day, kind, units, asked_of_jobs(sheets, day))
    write_new(out, begun_job(job))
    typer.echo(f"{out}  begun for {sheets[0].title}")
    typer.echo(f"next: fill in what stands empty, then: permitkit check {out}")


def _kind(text: str | None) -> OutletKind | None:
    """Return the kind of outlet a word means.

    Raises
    ------
    UsageError
        It is none; the nearest is offered.
    """
    from permitkit.load.job_form.question import EVERY
    from permitkit.model.reading import nearest

    found = next((kind for kind in EVERY if kind == text), None)
    if text is None or found is not None:
        return found
    known = f"one of {', '.join(EVERY)}"
    raise UsageError((Fault("--outlet", repr(text), known, nearest(text, EVERY)),))


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(begin)
