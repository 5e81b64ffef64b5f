"""What a new file, the guide and the schema tell of a field, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.load.assumptions import assumed_words
from permitkit.load.job_form.fields import Holds, JobField, job_fields
from permitkit.load.job_form.question import EVERY
from permitkit.load.job_form.questions import questions
from permitkit.units import Kind
from permitkit.units.kinds import nouns

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.load.job_form.question import Outlets, Question
    from permitkit.model.words import OutletKind

__all__ = [
    "aside_for",
    "choice_words",
    "form_words",
    "heading",
    "left_out",
    "needed",
    "only_for",
    "outlets_of",
]

_FORMS = {
    Holds.FLAG: "true or false",
    Holds.COUNT: "a whole number",
    Holds.MONEY: "a sum of money",
    Holds.NUMBER: "a number",
    Holds.DAY: "a day, without quotes",
    Holds.ANY: "a table in { }",
}
_COUNTS = "counts as"


def outlets_of(path: str) -> Outlets:
    """Return the kinds of outlet a field is asked for: its own, as far as its tables' go."""
    asked = [questions()[step].outlets for step in _above(path)]
    return tuple(kind for kind in EVERY if all(kind in outlets for outlets in asked))


def aside_for(path: str, outlet: OutletKind) -> bool:
    """Tell whether the small job of a kind of outlet goes without a field."""
    left = any(outlet in questions()[step].aside for step in _above(path))
    return left or outlet not in outlets_of(path)


def only_for(question: Question) -> str:
    """Return the kinds of outlet a field is asked for, where its table is asked for more."""
    table = job_fields()[question.path].parent
    outlets = outlets_of(question.path)
    return ", ".join(outlets) if outlets != (outlets_of(table) if table else EVERY) else ""


def heading(field: JobField) -> str:
    """Return the heading of a table, as a file writes it."""
    return f"[[{field.path}]]" if field.many else f"[{field.path}]"


def needed(question: Question, outlet: OutletKind | None) -> bool:
    """Tell whether a field must be filled in where its table stands; for any outlet, if for all."""
    if outlet is None:
        return job_fields()[question.path].required or question.needed_for == EVERY
    return job_fields()[question.path].required or outlet in question.needed_for


def form_words(field: JobField) -> str:
    """Return how an answer is written; nothing where any words, or those listed, will do."""
    if field.kind is Kind.LEVEL and field.parent != "level":
        return "a level or a rod reading"
    form = nouns((field.kind,)) if field.kind else _FORMS.get(field.holds, "")
    if field.lone:
        return f"{form}, or a list of them"
    return f"a list, each {form}" if field.many and form else "a list" if field.many else form


def choice_words(field: JobField) -> str:
    """Return the words among which one is chosen, where there is a choice."""
    if len(field.words) < 2:  # noqa: PLR2004 - one word is no choice
        return ""
    return ("; " if any("," in word for word in field.words) else ", ").join(field.words)


def left_out(question: Question, units: str) -> str:
    """Return what it means to leave a field out, where that can be done.

    Parameters
    ----------
    question
        The field's question.
    units
        The units the job is printed in: `us` or `metric`.
    """
    field = job_fields()[question.path]
    if field.required:
        return ""
    assumed = assumed_words(question.path, units)
    if assumed:
        return f"assumed {assumed}"
    if question.left_out:
        return question.left_out
    return _default_words(field)


def _default_words(field: JobField) -> str:
    """Return what a field's default says, in the words of a file."""
    default = field.default
    if isinstance(default, bool):
        return f"{_COUNTS} {str(default).lower()}"
    if isinstance(default, int):
        return f"{_COUNTS} {default}"
    return f'{_COUNTS} "{default}"' if isinstance(default, str) else ""


def _above(path: str) -> Iterator[str]:
    """Yield a field's path and those of the tables it stands in, from the inside out."""
    while path:
        yield path
        path = path.rpartition(".")[0]
