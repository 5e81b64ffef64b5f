"""The fields of a job file as the model declares them: what each holds, and whether it must."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import NoneType
from typing import TYPE_CHECKING, Annotated, Any, Literal, get_args, get_origin, get_type_hints

from pydantic import BeforeValidator
from pydantic.fields import FieldInfo

from permitkit.load.job_file import NOT_HERE
from permitkit.model import frozen
from permitkit.model.frozen import Frozen
from permitkit.model.job import Job
from permitkit.model.words import choices
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Holds", "JobField", "job_fields"]


class Holds(StrEnum):
    """What a field of a job file holds."""

    MEASURE = "measure"
    WORD = "word"
    TEXT = "text"
    FLAG = "flag"
    COUNT = "count"
    NUMBER = "number"
    MONEY = "money"
    DAY = "day"
    TABLE = "table"
    ANY = "any"


_KINDS = (
    (frozen.Length, Kind.LENGTH),
    (frozen.Level, Kind.LEVEL),
    (frozen.Area, Kind.AREA),
    (frozen.Slope, Kind.SLOPE),
    (frozen.Flow, Kind.FLOW),
    (frozen.Intensity, Kind.INTENSITY),
    (frozen.Speed, Kind.SPEED),
    (frozen.Strength, Kind.STRENGTH),
    (frozen.Angle, Kind.ANGLE),
    (frozen.Percent, Kind.RATIO),
)
_PLAIN: tuple[tuple[object, Holds], ...] = (
    (frozen.Money, Holds.MONEY),
    (frozen.Number, Holds.NUMBER),
    (frozen.Day, Holds.DAY),
    (frozen.Text, Holds.TEXT),
    (frozen.Name, Holds.TEXT),
    (bool, Holds.FLAG),
    (int, Holds.COUNT),
)


@dataclass(frozen=True, slots=True)
class JobField:
    """One field of a job file.

    Parameters
    ----------
    path
        Its dotted path, `drain.reach.length`.
    hint
        Its type as declared.
    info
        What the model says of it: whether it is required, its default, its bounds.
    holds
        What it holds, each of a list where there is a list.
    many
        Whether it is a list.
    kind
        What a quantity measures.
    words
        The words among which one is chosen; the whole number of a version counts as one.
    table
        The model of a table.
    """

    path: str
    hint: Any
    info: FieldInfo
    holds: Holds
    many: bool = False
    kind: Kind | None = None
    words: tuple[str, ...] = ()
    table: type[Frozen] | None = None

    @property
    def name(self) -> str:
        """The last step of its path."""
        return self.path.rpartition(".")[2]

    @property
    def parent(self) -> str:
        """The path of the table it stands in; nothing at the top of the file."""
        return self.path.rpartition(".")[0]

    @property
    def required(self) -> bool:
        """Whether its table cannot be read without it."""
        return self.info.is_required()

    @property
    def default(self) -> object:
        """What counts where it is left out; nothing for a required one."""
        return None if self.required else self.info.get_default(call_default_factory=True)

    @property
    def lone(self) -> bool:
        """Whether one of a list may stand without the list."""
        return self.many and any(isinstance(one, BeforeValidator) for one in self.info.metadata)

    def bound(self, name: str) -> int | None:
        """Return its least (`ge`) or greatest (`le`), where it has one."""
        found = (getattr(one, name, None) for one in self.info.metadata)
        return next((end for end in found if end is not None), None)


@cache
def job_fields() -> dict[str, JobField]:
    """Return every field that a job file may hold, by its dotted path, as declared."""
    return {field.path: field for field in _within(Job, "")}


def _within(model: type[Frozen], above: str) -> Iterator[JobField]:
    """Yield the fields of a table and of the tables in it."""
    hints = get_type_hints(model, include_extras=True)
    for declared, info in model.model_fields.items():
        name = info.alias or declared
        if model is Job and name in NOT_HERE:
            continue
        field = _field(f"{above}{name}", hints[declared], info)
        yield field
        if field.table is not None:
            yield from _within(field.table, f"{field.path}.")


def _field(path: str, hint: Any, info: FieldInfo) -> JobField:  # noqa: ANN401 - types are values here
    """Return one field, by what its type hint is made of."""
    core, many = _core(hint)
    for known, kind in _KINDS:
        if _marked(core, known):
            return JobField(path, hint, info, Holds.MEASURE, many, kind)
    for plain, holds in _PLAIN:
        if _marked(core, plain):
            return JobField(path, hint, info, holds, many)
    if get_origin(core) is Literal:
        return JobField(path, hint, info, Holds.WORD, many, words=choices(core))
    if isinstance(core, type) and issubclass(core, Frozen):
        return JobField(path, hint, info, Holds.TABLE, many, table=core)
    return JobField(path, hint, info, Holds.ANY, many)


def _core(hint: Any) -> tuple[Any, bool]:  # noqa: ANN401 - types are values here
    """Return the type within a hint, and whether there may be several."""
    parts = [part for part in get_args(hint) if part is not NoneType]
    if not parts or get_origin(hint) in {Literal, dict} or _named(hint):
        return hint, False
    core, many = _core(parts[0])
    return core, many or get_origin(hint) is tuple


def _named(hint: Any) -> bool:  # noqa: ANN401 - types are values here
    return any(_marked(hint, known) for known, _ in (*_KINDS, *_PLAIN))


def _marked(hint: Any, known: Any) -> bool:  # noqa: ANN401 - types are values here
    """Tell whether a hint is one of the model's own types, whatever else is asked of it."""
    marks = getattr(known, "__metadata__", ())
    if not marks:
        return bool(hint == known)
    return get_origin(hint) is Annotated and marks[0] in hint.__metadata__
