"""The guide's tables of what to measure, made from the questions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.load.job_form.fields import Holds, job_fields
from permitkit.load.job_form.question import EVERY, Question
from permitkit.load.job_form.questions import PARTS
from permitkit.load.job_form.told import choice_words, heading, left_out, only_for, outlets_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.load.job_form.question import Part

__all__ = ["field_tables"]

_HEAD = "| field | question | example | left out |\n| --- | --- | --- | --- |"


def field_tables() -> str:
    """Return every field of a job file, in the order one walks, as tables in Markdown."""
    return "\n".join(line for part in PARTS for line in _part(part))


def _part(part: Part) -> Iterator[str]:
    """Yield one part of the way, under its own heading."""
    yield f"### {part.title[0].upper()}{part.title[1:]}\n\n{_HEAD}"
    yield from (_row(step) for step in part.steps if isinstance(step, Question))
    yield ""


def _row(question: Question) -> str:
    """Return one field as a row; a table's heading stands in bold."""
    field = job_fields()[question.path]
    table = field.holds is Holds.TABLE
    name = f"**`{heading(field)}`**" if table else f"`{question.path}`"
    example = f"`{question.example}`" if question.example else ""
    cells = (name, " ".join(_asked(question)), example, _left_out(question))
    return f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |"


def _asked(question: Question) -> Iterator[str]:
    """Yield the question, the words to choose from, and the outlets it is asked for."""
    yield question.asks
    words, only = choice_words(job_fields()[question.path]), only_for(question)
    if words:
        yield f"One of: {words}."
    if only:
        yield f"Only for: {only}."


def _left_out(question: Question) -> str:
    """Return what it means to leave a field out, or that it is needed, and for which outlets."""
    meant = left_out(question, "us")
    if job_fields()[question.path].required:
        return "needed"
    if not question.needed_for:
        return meant or "may stay empty"
    kinds = (
        ""
        if question.needed_for in (EVERY, outlets_of(question.path))
        else f" for {', '.join(question.needed_for)}"
    )
    return f"needed{kinds}{f'; else: {meant}' if meant else ''}"
