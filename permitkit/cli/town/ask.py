"""The command that asks a town what its sheet leaves open: a call script, and a letter."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from permitkit.cli.town.days import Day, this_day
from permitkit.cli.town.found import Place, layers_of
from permitkit.cli.town.show import WORDING, write_pdf
from permitkit.errors import Fault, UsageError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.checks.judge import Judged
    from permitkit.model.rules import Sheet

__all__ = ["add_to"]

JobFile = Annotated[
    Path | None, typer.Option("--job", metavar="JOB", help="A job, whose questions come first.")
]
LetterFile = Annotated[
    Path | None,
    typer.Option("--letter", metavar="FILE", help="Write the letter to the town as a PDF."),
]


def ask(
    place: Place,
    job: JobFile = None,
    letter: LetterFile = None,
    short: bool = typer.Option(
        False, "--short", help="Leave out what many towns never write down."
    ),
    on: Day = None,
) -> None:
    """Ask a town exactly what its sheet leaves open, on the telephone or by letter."""
    from permitkit.cli.plain import plain_text
    from permitkit.packet.town.letter import Asking, call_script
    from permitkit.packet.town.letter import letter as written
    from permitkit.study.keeping.questions import open_questions

    sheets = layers_of(place)
    judged = _judged(job, sheets) if job else None
    day = judged.job.filing if judged and on is None else this_day(on)
    found = open_questions(sheets, day, _needed(judged) if judged else None)
    questions = [one for one in found if not (short and one.seldom)]
    if not questions:
        typer.echo(f"{sheets[0].title} leaves nothing open on {day.isoformat()}")
        return
    asking = Asking(sheets, day, questions, judged.job if judged else None, WORDING)
    if letter is None:
        typer.echo(plain_text(call_script(asking)), nl=False)
    else:
        write_pdf(letter, written(asking), sheets, "Questions to the town", day)


def _judged(path: Path, sheets: Sequence[Sheet]) -> Judged:
    """Return a job judged under the sheets of the town that is asked."""
    from permitkit.checks.judge import judge
    from permitkit.load.job_file import read_job

    job = read_job(path)
    if job.town != sheets[0].place:
        expected = f"a job in {sheets[0].place}"
        raise UsageError((Fault("--job", f"{path}, a job in {job.town}", expected),))
    return judge(job, sheets)


def _needed(judged: Judged) -> dict[str, str]:
    """Return, by key, what of the job waits for the town's answer.

    What waits for a fact of the job instead is the applicant's to find out.
    """
    from permitkit.checks.finding import Weighed
    from permitkit.model.verdict import Outcome

    needed: dict[str, list[str]] = {}
    for verdict in judged.verdicts:
        rule = verdict.finding.rule if isinstance(verdict, Weighed) else None
        if verdict.outcome is not Outcome.ASK or rule is None or not rule.open:
            continue
        if not getattr(rule.value, "facts", ()):
            needed.setdefault(rule.key.name, []).append(verdict.item or verdict.check)
    return {name: ", ".join(dict.fromkeys(items)) for name, items in needed.items()}


def add_to(app: typer.Typer) -> None:
    """Give the app the command."""
    app.command()(ask)
