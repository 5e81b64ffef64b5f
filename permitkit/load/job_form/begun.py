"""A job file to begin with: every field with its question, in the order one walks."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from textwrap import wrap
from typing import TYPE_CHECKING

from permitkit.load.job_form.fields import Holds, job_fields
from permitkit.load.job_form.metric import in_metric
from permitkit.load.job_form.question import CORED, EVERY, Row
from permitkit.load.job_form.questions import PARTS
from permitkit.load.job_form.told import (
    aside_for,
    choice_words,
    form_words,
    heading,
    left_out,
    needed,
    only_for,
    outlets_of,
)
from permitkit.model.words import OutletKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.load.job_form.fields import JobField
    from permitkit.load.job_form.question import Part, Question, Step

__all__ = ["NewJob", "begun_job"]

WIDTH = 98
_OFF, _ASIDE = "#", "#   "


@dataclass(frozen=True, slots=True)
class NewJob:
    """A job that has no file yet.

    Parameters
    ----------
    town
        The name of the town's rule sheet.
    title
        The town's name.
    filing
        The day of filing.
    outlet
        The kind of outlet, where it is known.
    units
        The units it is written and printed in: `us` or `metric`.
    asked
        The rules that turn on a fact or are answered for a key, by the name of the fact or key.
    """

    town: str
    title: str
    filing: date
    outlet: OutletKind | None = None
    units: str = "us"
    asked: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def like(self) -> OutletKind:
        """The kind of outlet whose small job gives the examples."""
        return self.outlet or CORED[0]

    def given(self) -> dict[str, str]:
        """Return what is known of the job already, as its file writes it."""
        known = {
            "schema": "1",
            "town": json.dumps(self.town, ensure_ascii=False),
            "filing": self.filing.isoformat(),
        }
        known |= {"units": f'"{self.units}"'} if self.units != "us" else {}
        return known | ({"outlet.kind": f'"{self.outlet}"'} if self.outlet else {})


def begun_job(job: NewJob) -> str:
    """Return the text of a job file in which what is needed stands empty.

    What is needed stands as `name = ""`, an example behind it; what may be left out stands behind
    a `#`. With every example taken, it is one small job that can be read.
    """
    writer = _Writer(job)
    return "\n".join([*_head(job), *(line for part in PARTS for line in writer.part(part))]) + "\n"


def _comment(text: str) -> Iterator[str]:
    yield from wrap(text, WIDTH, initial_indent="# ", subsequent_indent="# ")


def _head(job: NewJob) -> Iterator[str]:
    """Yield what the file is, and how it is filled in."""
    yield from _comment(f"A job in {job.title}{f', {_a(job.outlet)}' if job.outlet else ''}.")
    yield from _comment(
        "Every field a job file may hold, in the order one walks: the house first, the street "
        'last. What stands as "" is needed: put your own in its place; permitkit check tells '
        "what is still empty. What stands behind a # may be left out: take the # off to answer "
        "it, and the # off the heading in brackets above it; what has no word on leaving it out is "
        "needed in such a block. What stands further in behind its # is answered more seldom, or "
        "in place of a line above it. Copy a block in [[ ]] for each one there is. The firm's own "
        "particulars stand once, in firm.toml."
    )


def _a(outlet: str) -> str:
    return f"{'an' if outlet[0] in 'aeiou' else 'a'} {outlet}"


class _Writer:
    """Writes one table after another; knows whether the table it is in counts."""

    def __init__(self, job: NewJob) -> None:
        self._job = job
        self._given = job.given()
        self._off = ""

    def part(self, part: Part) -> Iterator[str]:
        """Yield a part of the form, as far as it is asked for."""
        yield from ("", f"# ---- {part.title} ".ljust(WIDTH + 1, "-"))
        for step in part.steps:
            yield from self._step(step)

    def _step(self, step: Step) -> Iterator[str]:
        """Yield one question or one further row, if it is asked for."""
        if isinstance(step, Row):
            if self._job.outlet is None or self._job.outlet in step.outlets:
                yield from self._row(step)
        elif self._job.outlet is None or self._job.outlet in outlets_of(step.path):
            known = job_fields()[step.path]
            if known.holds is Holds.TABLE:
                yield from self._table(step, known)
            else:
                yield from self._field(step, known)

    def _table(self, question: Question, known: JobField) -> Iterator[str]:
        """Yield the heading of a table; behind a # where it may be left out."""
        counts = needed(question, self._job.outlet) or (known.default and not known.many)
        aside = aside_for(question.path, self._job.like)
        self._off = "" if counts else _ASIDE if aside else _OFF
        yield ""
        yield from _comment(question.asks)
        yield from self._remarks(question, known)
        yield f"{self._off}{heading(known)}"

    def _row(self, row: Row) -> Iterator[str]:
        """Yield one more table of a list."""
        counts = row.needed and self._job.outlet is not None
        aside = self._job.like not in row.outlets
        self._off = "" if counts else _ASIDE if aside else _OFF
        fields = job_fields()
        yield ""
        yield from _comment(row.asks)
        if self._job.outlet is None and row.outlets != EVERY:
            yield from _kinds(", ".join(row.outlets))
        yield f"{self._off}{heading(fields[row.table])}"
        for name, example in row.answers.items():
            known = fields[f"{row.table}.{name}"]
            written = self._example(example, known)
            empty = counts and name not in row.fixed
            yield f'{name} = ""  {_such_as(known, written)}' if empty else self._line(name, written)

    def _field(self, question: Question, known: JobField) -> Iterator[str]:
        """Yield a question and the line that answers it."""
        yield from _comment(question.asks)
        example = self._example(question.example_for(self._job.like), known)
        if known.path in self._given:
            yield from self._choice(known)
            yield f"{known.name} = {self._given[known.path]}"
        elif not self._off and needed(question, self._job.outlet):
            yield from self._remarks(question, known)
            yield f'{known.name} = ""  {_such_as(known, example)}'
        else:
            yield from self._remarks(question, known)
            form = form_words(known)
            aside = aside_for(known.path, self._job.like)
            off = _ASIDE if aside or self._off == _ASIDE else _OFF
            yield f"{off}{known.name} = {example}{f'  # {form}' if form else ''}"

    def _line(self, name: str, written: str) -> str:
        return f"{self._off}{name} = {written}"

    def _example(self, example: str, known: JobField) -> str:
        """Return an example in the job's units."""
        metric = self._job.units == "metric" and known.kind is not None
        return in_metric(example, known.kind) if metric and known.kind else example

    def _choice(self, known: JobField) -> Iterator[str]:
        words = choice_words(known)
        if words:
            yield from _comment(f"One of: {words}.")

    def _remarks(self, question: Question, known: JobField) -> Iterator[str]:
        """Yield the words to choose from, for which outlet it is, and what leaving it out means."""
        yield from self._choice(known)
        if self._job.outlet is None:
            yield from _kinds(only_for(question), ", ".join(question.needed_for))
        if needed(question, self._job.outlet):
            return
        meant = left_out(question, self._job.units)
        if meant:
            yield from _comment(f"Left out: {meant}.")
        asking = dict.fromkeys(rule for word in question.reads for rule in self._asked(word))
        if asking:
            yield from _comment(f"This town asks it ({', '.join(asking)}).")

    def _asked(self, word: str) -> tuple[str, ...]:
        return self._job.asked.get(word, ())


def _kinds(only: str, needed_for: str = "") -> Iterator[str]:
    """Yield for which kinds of outlet a line is, while the kind is not known."""
    if only:
        yield from _comment(f"Only for: {only}.")
    if needed_for and needed_for != ", ".join(EVERY):
        yield from _comment(f"Needed for: {needed_for}.")


def _such_as(known: JobField, example: str) -> str:
    """Return what stands behind an answer that is needed and still empty."""
    form = form_words(known)
    return f"# {f'{form}, ' if form else ''}such as {example}"
