"""A JSON Schema of job files, so that an editor can complete them while they are typed."""

from __future__ import annotations

from typing import Any

from permitkit.load.job_form.fields import Holds, JobField, job_fields
from permitkit.load.job_form.questions import questions
from permitkit.load.job_form.told import left_out
from permitkit.load.schema.shape import (
    DAY,
    FLAG,
    MONEY,
    TEXT,
    Schema,
    closed,
    enum,
    one_or_more,
    quantities,
    ref,
    whole_file,
)

__all__ = ["job_file_schema"]

_PLAIN: dict[Holds, Schema] = {
    Holds.TEXT: TEXT,
    Holds.FLAG: FLAG,
    Holds.MONEY: MONEY,
    Holds.NUMBER: {"type": "number", "minimum": 0},
    Holds.DAY: DAY,
    Holds.ANY: {"type": "object"},
}


def job_file_schema() -> dict[str, Any]:
    """Return the JSON Schema of a job file, made from the model and the questions of its form."""
    return whole_file("permitkit job file", _table(""), quantities())


def _table(path: str) -> Schema:
    """Return what the table at a path may hold."""
    fields = [field for field in job_fields().values() if field.parent == path]
    required = tuple(field.name for field in fields if field.required)
    return closed({field.name: _told(field) for field in fields}, required)


def _told(field: JobField) -> Schema:
    """Return what a field may hold, with its question."""
    one = _one(field)
    if field.lone:
        one = one_or_more(one)
    elif field.many:
        one = {"type": "array", "items": one}
    return one | {"description": _description(field)}


def _one(field: JobField) -> Schema:
    """Return what a field may hold, or each of its list."""
    if field.table is not None:
        return _table(field.path)
    if field.kind is not None:
        return {"allOf": [ref(field.kind.value)]}
    if field.holds is Holds.COUNT:
        ends = {"minimum": field.bound("ge"), "maximum": field.bound("le")}
        return {"type": "integer"} | {name: end for name, end in ends.items() if end is not None}
    if field.path == "schema":
        return {"const": 1}
    return enum(field.words) if field.words else dict(_PLAIN[field.holds])


def _description(field: JobField) -> str:
    """Return the question, what it means to leave the field out, and an example."""
    question = questions()[field.path]
    meant = left_out(question, "us")
    told = [question.asks]
    told += [f"Left out: {meant}."] if meant else []
    told += [f"For example: {question.example}"] if question.example else []
    return " ".join(told)
