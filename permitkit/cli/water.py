"""The commands about the water: of a job in full, and the two questions asked at the curb."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from permitkit.errors import Exit

__all__ = ["add_to"]

JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file, such as job.toml.")]
FirmFile = Annotated[
    Path | None,
    typer.Option("--firm", metavar="FILE", help="The firm file, when it is not near the job."),
]
Town = Annotated[str, typer.Option("--town", metavar="TOWN", help="The town, or its sheet.")]
PipeName = Annotated[
    str, typer.Option("--pipe", metavar="PIPE", help='The pipe: 3-sch40, or "3 in Sch 40 PVC".')
]


def water(
    job: JobFile,
    firm: FirmFile = None,
    as_json: bool = typer.Option(False, "--json", help="Print the numbers for programs."),
) -> None:
    """Say whether a job's line drains, the outlet's window, other ways, and what would cure it."""
    from permitkit.checks.cures import line_faults
    from permitkit.cli import water_report
    from permitkit.cli.opened import judged_job

    judged = judged_job(job, firm)
    found = water_report.of_job(judged)
    text = water_report.as_json(found) if as_json else water_report.as_text(found)
    typer.echo(text, nl=False)
    faulty = bool(line_faults(judged.verdicts))
    raise typer.Exit(int(Exit.NOT_READY if faulty else Exit.READY))


def fit(
    town: Town,
    reveal: Annotated[
        str, typer.Option("--reveal", metavar="LENGTH", help='Curb top over flow line: "6 in".')
    ],
    pipe: PipeName,
    curb: Annotated[
        str, typer.Option("--curb", metavar="SHAPE", help="The curb's shape.")
    ] = "vertical",
    bit: Annotated[
        str | None, typer.Option("--bit", metavar="LENGTH", help="One bit, in place of all sold.")
    ] = None,
) -> None:
    """Say which hole fits a pipe, a curb and a town, how high it may stand, and what to mark."""
    from permitkit.cli import curbside

    fitted = curbside.fitted(town, reveal, pipe, curb, bit)
    typer.echo(curbside.fit_text(fitted), nl=False)
    raise typer.Exit(int(Exit.READY if fitted.fits else Exit.NOT_READY))


def fall(
    begin: Annotated[
        str, typer.Option("--from", metavar="LEVEL", help='Upper invert: "100.26 ft".')
    ],
    end: Annotated[str, typer.Option("--to", metavar="LEVEL", help='Lower invert: "99.57 ft".')],
    length: Annotated[
        str, typer.Option("--length", metavar="LENGTH", help='Length of the run: "66 ft 6 in".')
    ],
    pipe: Annotated[
        str | None, typer.Option("--pipe", metavar="PIPE", help="The pipe, for what it carries.")
    ] = None,
    least: Annotated[
        str | None,
        typer.Option("--least", metavar="SLOPE", help='The slope it needs: "1 %".'),
    ] = None,
    town: Annotated[
        str | None, typer.Option("--town", metavar="TOWN", help="The town whose slope it needs.")
    ] = None,
) -> None:
    """Say what slope two levels give, what is spare of it, and what a pipe carries."""
    from permitkit.cli import curbside

    fallen = curbside.fallen((begin, end), length, pipe, least, town)
    typer.echo(curbside.fall_text(fallen), nl=False)
    raise typer.Exit(int(Exit.READY if fallen.enough else Exit.NOT_READY))


def add_to(app: typer.Typer) -> None:
    """Give the app the commands about the water."""
    app.command()(water)
    app.command()(fit)
    app.command()(fall)
