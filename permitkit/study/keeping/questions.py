"""The questions a town's sheet leaves open, those one job needs first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.model.keys.subjects import by_subject
from permitkit.model.rules import RuleKey
from permitkit.model.telling import line_text
from permitkit.model.values import Ask, ByReference, Fees
from permitkit.study.keeping.said import open_terms, said, state_of, told
from permitkit.study.keeping.state import State

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import date

    from permitkit.model.rules import Sheet
    from permitkit.study.keeping.said import Said

__all__ = ["OpenQuestion", "open_questions"]


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """A question left open.

    Parameters
    ----------
    key
        The question.
    subject
        What it is about.
    state
        Whether it is to be asked, set by another document, or nothing was said; answered where
        the sheet answers it, but not for the job that asks.
    points
        What exactly is open: the condition, the line of money, who is to be asked, the document.
    known
        What is known beside it, to be confirmed in the same breath.
    job_needs
        Why one job needs it, in words; nothing where none does.
    """

    key: RuleKey
    subject: str
    state: State
    points: tuple[str, ...] = ()
    known: tuple[str, ...] = ()
    job_needs: str = ""

    @property
    def seldom(self) -> bool:
        """Whether many towns never write this down, so that silence is no surprise."""
        return self.state is State.SILENT and self.key.plain and not self.job_needs

    @property
    def rank(self) -> int:
        """Its place among others: what the job needs, what stops any job, the rest, the seldom."""
        if self.job_needs:
            return 0
        if self.key.blocking:
            return 1
        return 3 if self.seldom else 2


def open_questions(
    sheets: Sequence[Sheet], day: date, needed: Mapping[str, str] | None = None
) -> tuple[OpenQuestion, ...]:
    """Return what a town's sheet and its layers leave open on a day, the most pressing first.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    day
        The day whose editions are read.
    needed
        Why a job needs an answer, by key; these come first, and are open whatever the sheet says.
    """
    wanted = needed or {}
    found = []
    for subject, keys in by_subject():
        for key in keys:
            words = said(key, sheets, day)
            state = state_of(key, words)
            if state in {State.ANSWERED, State.NO_RULE} and key.name not in wanted:
                continue
            points, known = tuple(_points(words)), tuple(_known(key, words))
            found.append(OpenQuestion(key, subject, state, points, known, wanted.get(key.name, "")))
    return tuple(sorted(found, key=lambda question: question.rank))


def _points(words: Sequence[Said]) -> Iterator[str]:
    """Yield what each case leaves open, in words."""
    for word in words:
        where = f"where {word.where}: " if word.where else ""
        value = word.case.value
        if isinstance(value, Ask):
            whom = f"ask {value.by}" if value.by else "not known"
            note = value.note or word.case.note
            yield f"{where}{whom}{f' ({note})' if note else ''}"
        elif isinstance(value, ByReference):
            yield f"{where}set by {value.document}"
        for line, term in open_terms(value):
            whom = f"set by {term.reference}" if term.reference else f"ask {term.by}"
            note = f" ({line.note})" if line.note else ""
            yield f"{where}{line.name}: {whom}{note}"


def _known(key: RuleKey, words: Sequence[Said]) -> Iterator[str]:
    """Yield what the other cases say, and the other lines of money of one that is open."""
    for text, word in zip(told(key, words), words, strict=True):
        value = word.case.value
        left = [line for line, _ in open_terms(value)]
        if left and isinstance(value, Fees):
            where = f"where {word.where}: " if word.where else ""
            yield from (f"{where}{line_text(line)}" for line in value.lines if line not in left)
        elif not isinstance(value, Ask | ByReference):
            yield text.rstrip(".")
