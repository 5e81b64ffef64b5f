"""What the model library complains of, reworded: where, what was found, what was expected."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, TypeVar, get_args

from pydantic import ValidationError

from permitkit.errors import Fault
from permitkit.model.frozen import Frozen
from permitkit.model.reading import nearest
from permitkit.model.reading.written import quoted
from permitkit.units import UnitError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pydantic_core import ErrorDetails

__all__ = ["read_model"]

Model = TypeVar("Model", bound=Frozen)
Path = tuple[str | int, ...]

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_A_DATE = "a date without quotes, such as 2026-04-06"
_A_NUMBER = "a whole number"
_A_TABLE = "a table"

_EXPECTED: dict[str, Callable[[Mapping[str, Any]], str]] = {
    "string_type": lambda _: "a text in quotes",
    "string_too_short": lambda _: "a text that is not empty",
    "string_too_long": lambda ctx: f"a text of at most {ctx['max_length']} characters",
    "int_type": lambda _: _A_NUMBER,
    "int_parsing": lambda _: _A_NUMBER,
    "int_from_float": lambda _: _A_NUMBER,
    "bool_type": lambda _: "true or false, without quotes",
    "bool_parsing": lambda _: "true or false, without quotes",
    "date_type": lambda _: _A_DATE,
    "date_from_datetime_inexact": lambda _: _A_DATE,
    "greater_than_equal": lambda ctx: f"a number of at least {ctx['ge']}",
    "less_than_equal": lambda ctx: f"a number of at most {ctx['le']}",
    "literal_error": lambda ctx: ctx["expected"].replace("'", ""),
    "too_long": lambda ctx: f"at most {ctx['max_length']} of them",
    "tuple_type": lambda _: "a list in [ ]",
    "dict_type": lambda _: "a table in { }",
    "model_type": lambda _: _A_TABLE,
}


class _Nothing:
    """Stands where a field is missing, so that the field itself says what it expects."""


_NOTHING = _Nothing()


def read_model(
    model: type[Model], table: Mapping[str, Any], where: str
) -> tuple[Model | None, list[Fault]]:
    """Return a file's table as a model, or nothing, with every fault in it.

    Parameters
    ----------
    model
        What the table should become.
    table
        The table as its file's parser gave it.
    where
        The file, as faults name it.
    """
    read, found = _read(model, table)
    wanted = _wanted(model, table, [_path(one["loc"], table) for one in found if _missing(one)])
    return read, [_fault(one, model, table, where, wanted) for one in found]


def _read(model: type[Model], table: Mapping[str, Any]) -> tuple[Model | None, list[ErrorDetails]]:
    """Return a table as a model, or nothing, with the library's complaints."""
    try:
        return model.model_validate(table), []
    except ValidationError as error:
        return None, error.errors(include_url=False)


def _missing(error: ErrorDetails) -> bool:
    return error["type"] == "missing"


def _fault(
    error: ErrorDetails,
    model: type[Frozen],
    table: Mapping[str, Any],
    where: str,
    wanted: Mapping[Path, str],
) -> Fault:
    """Return one complaint of the library as a fault."""
    path = _path(error["loc"], table)
    place = f"{where}: {_spelled(path)}" if path else where
    if _missing(error):
        expected = wanted[path]
        name = f"[{_spelled(path)}]" if expected == _A_TABLE else str(path[-1])
        return Fault(place, "nothing", expected, f"add {name}")
    if error["type"] == "extra_forbidden":
        known = _field_names(_model_at(model, path[:-1]))
        name = str(path[-1])
        return Fault(place, f"a field {name!r}", "a field known here", nearest(name, known))
    cause = error.get("ctx", {}).get("error")
    if isinstance(cause, UnitError):
        return Fault(place, cause.found, cause.expected, cause.fix)
    return Fault(place, quoted(error["input"]), _expected(error), _fix(error))


def _expected(error: ErrorDetails) -> str:
    """Return what a complaint says should have been there, in our words."""
    context = error.get("ctx", {})
    cause = context.get("error")
    if isinstance(cause, UnitError):
        return cause.expected
    if cause is not None:
        return str(cause)
    word = _EXPECTED.get(error["type"])
    return word(context) if word else "a value of the kind this field holds"


def _fix(error: ErrorDetails) -> str:
    """Return how to put it right, where that is known."""
    value = error["input"]
    if error["type"] == "literal_error" and isinstance(value, str):
        return nearest(value, re.findall(r"'([^']+)'", error["ctx"]["expected"]))
    if error["type"] == "string_type" and isinstance(value, int | float):
        return f'write it in quotes: "{quoted(value)}"'
    if error["type"] == "tuple_type" and isinstance(value, dict):
        return f"write its heading in two brackets: [[{error['loc'][-1]}]]"
    if error["type"] == "value_error" and isinstance(value, str) and _DAY.fullmatch(value):
        return f"write it without quotes: {value}"
    return ""


def _wanted(model: type[Frozen], table: Mapping[str, Any], missing: list[Path]) -> dict[Path, str]:
    """Return what each missing field expects, as it says itself when given nothing to read."""
    probe: Any = table
    for path in missing:
        probe = _with_nothing(probe, path)
    _, told = _read(model, probe)
    return {_path(one["loc"], probe): _expected(one) for one in told if one["input"] is _NOTHING}


def _with_nothing(value: Any, path: Path) -> Any:  # noqa: ANN401 - the file may hold anything here
    """Return a copy of a table in which nothing stands at a path."""
    step, copy = path[0], value.copy()
    copy[step] = _with_nothing(copy[step], path[1:]) if path[1:] else _NOTHING
    return copy


def _path(steps: Path, table: Mapping[str, Any]) -> Path:
    """Return a complaint's path without the places a lone value was given in a list of its own."""
    path: list[str | int] = []
    value: Any = table
    for step in steps:
        in_list = isinstance(value, list)
        if isinstance(step, str) or in_list:
            path.append(step)
            value = value[step] if in_list else _inner(value, step)
    return tuple(path)


def _inner(value: object, step: str | int) -> object:
    return value.get(step) if isinstance(value, dict) else None


def _spelled(path: Path) -> str:
    """Return a path as an author looks for it: `drain.reach[2].length`, counting from one."""
    steps = [f"[{step + 1}]" if isinstance(step, int) else f".{step}" for step in path]
    return "".join(steps).removeprefix(".")


def _model_at(model: type[Frozen], path: Path) -> type[Frozen]:
    """Return the model of the table at a path."""
    names = [step for step in path if isinstance(step, str)]
    for name in names:
        model = _model_in(model.model_fields[name].annotation) or model
    return model


def _model_in(hint: object) -> type[Frozen] | None:
    """Return the first model in a type hint."""
    if isinstance(hint, type) and issubclass(hint, Frozen):
        return hint
    inner = (_model_in(part) for part in get_args(hint))
    return next((found for found in inner if found), None)


def _field_names(model: type[Frozen]) -> list[str]:
    """Return the names an author may write in a table."""
    return [field.alias or name for name, field in model.model_fields.items()]
