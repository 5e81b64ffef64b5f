"""The commands about one job: check it, explain a check, build its packet."""

from __future__ import annotations

from contextlib import suppress
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


def check(
    job: JobFile,
    firm: FirmFile = None,
    as_json: bool = typer.Option(False, "--json", help="Print the verdicts for programs."),
    everything: bool = typer.Option(
        False, "--all", help="List also what is met and what does not apply."
    ),
) -> None:
    """Hold a job against its town's rules, and say what would cure each fault."""
    from permitkit.cli import report
    from permitkit.cli.opened import judged_job, sheet_told

    judged = judged_job(job, firm)
    if as_json:
        typer.echo(report.as_json(judged), nl=False)
    else:
        rules = sheet_told(judged.job.town, job, firm)
        typer.echo(report.as_text(judged, rules, everything=everything), nl=False)
    raise typer.Exit(int(Exit.READY if judged.ready else Exit.NOT_READY))


def why(
    slug: Annotated[
        str | None,
        typer.Argument(
            metavar="[CHECK]", help="A check, such as core-too-wide; all when left out."
        ),
    ] = None,
    job: Annotated[
        Path | None, typer.Argument(metavar="[JOB]", help="A job to show it on.")
    ] = None,
    firm: FirmFile = None,
) -> None:
    """Say what a check asks, which rules it reads, and how they were found for a job."""
    from permitkit.checks.catalogue import CHECKS
    from permitkit.checks.why import explain_check
    from permitkit.cli.opened import judged_job

    if slug is None:
        for one in CHECKS:
            typer.echo(f"{one.slug:<28}  {one.title}")
        return
    explained = explain_check(slug, judged_job(job, firm) if job else None)
    typer.echo("\n".join(explained.lines()))


def packet(
    job: JobFile,
    out: Annotated[
        Path | None, typer.Option("-o", "--out", metavar="FILE", help="The town's copy.")
    ] = None,
    office: Annotated[
        Path | None, typer.Option("--office", metavar="FILE", help="The office copy.")
    ] = None,
    draft: bool = typer.Option(
        False, "--draft", help="Build it though the job is not ready; every page says so."
    ),
    former: Annotated[
        Path | None,
        typer.Option(
            "--former",
            metavar="FILE",
            help="The job file as last sent: the drawings mark what changed since.",
        ),
    ] = None,
    firm: FirmFile = None,
) -> None:
    """Build the packet: the town's copy, and the office copy that stays."""
    from permitkit.cli import report
    from permitkit.cli.opened import files_read, judged_job, own_templates, sheet_told
    from permitkit.errors import Fault, UsageError
    from permitkit.packet.assembly import office_copy, town_copy
    from permitkit.packet.written import not_taken, write_whole

    if out is None and office is None:
        raise UsageError(
            (Fault("permitkit packet", "no file to write", "-o FILE, --office FILE or both"),)
        )
    judged = judged_job(job, firm)
    if not judged.ready and not draft:
        typer.echo(report.as_text(judged, sheet_told(judged.job.town, job, firm)), nl=False)
        typer.echo(
            "\nno packet written: cure the faults, or ask for a draft with --draft", err=True
        )
        raise typer.Exit(int(Exit.NOT_READY))
    draft = not judged.ready
    before = judged_job(former, firm) if former else None
    made = []
    if out is not None:
        folder, wording = job.parent, own_templates(job, firm)
        copy = town_copy(judged, draft=draft, folder=folder, former=before, wording=wording)
        made.append((out, copy))
    if office is not None:
        made.append((office, office_copy(judged, draft=draft, files=files_read(job, firm))))
    for path, whole in made:
        write_whole(path, whole.pdf)
        typer.echo(f"{path}  {whole.pages} pages")
    refused = not_taken(judged.rules, made[0][1].pdf) if out is not None else ()
    for why in refused:
        typer.echo(f"{out}: {why}", err=True)
    raise typer.Exit(int(Exit.READY if judged.ready and not refused else Exit.NOT_READY))


def sketches(
    job: JobFile,
    folder: Annotated[
        Path, typer.Option("-o", "--out", metavar="FOLDER", help="Where the files go.")
    ],
    kind: Annotated[
        list[str] | None,
        typer.Option("--kind", metavar="KIND", help="svg, dxf or pdf; all if left out."),
    ] = None,
    firm: FirmFile = None,
) -> None:
    """Write the drawings as files of their own: SVG, DXF of the site sketch, PDF."""
    from permitkit.cli.opened import judged_job
    from permitkit.packet.sketches import sketch_files

    judged = judged_job(job, firm)
    with suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True)
    for path in sketch_files(judged, folder, tuple(kind) if kind else _kinds_at_hand()):
        typer.echo(str(path))


def _kinds_at_hand() -> tuple[str, ...]:
    """Return every kind of drawing file but one whose library is missing, which is told."""
    from permitkit.packet.sketches import KINDS
    from permitkit.render.dxf import can_write

    if can_write():
        return KINDS
    typer.echo("no DXF: its library is missing; pip install 'permitkit[dxf]' brings it", err=True)
    return tuple(kind for kind in KINDS if kind != "dxf")


def add_to(app: typer.Typer) -> None:
    """Give the app the commands about a job."""
    app.command()(check)
    app.command()(why)
    app.command()(packet)
    app.command()(sketches)
