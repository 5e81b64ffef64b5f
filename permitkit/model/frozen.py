"""The frozen model every file's table becomes, and the fields that read a quantity from text."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainValidator, StringConstraints

from permitkit.units import Kind, Measure, read_measure, read_money

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = [
    "Angle",
    "Area",
    "Day",
    "Flow",
    "Frozen",
    "Intensity",
    "Length",
    "Level",
    "Money",
    "Name",
    "Number",
    "Percent",
    "Slope",
    "Speed",
    "Strength",
    "Text",
]


class Frozen(BaseModel):
    """A table of a file, read once and never changed; an unknown field is a fault.

    What reads a table is built when the first one is read: a table inside another needs none.
    """

    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True
    )


def _reader(kind: Kind) -> Callable[[Any], Measure]:
    def read(value: Any) -> Measure:  # noqa: ANN401 - the file may hold anything here
        if isinstance(value, Measure):
            return value
        return read_measure(value, kind)

    return read


def _read_day(value: Any) -> Any:  # noqa: ANN401 - the file may hold anything here
    if not isinstance(value, date):
        message = "a date without quotes, such as 2026-04-06"
        raise ValueError(message)  # noqa: TRY004 - pydantic turns only a ValueError into a fault
    return value.date() if isinstance(value, datetime) else value


def _read_number(value: Any) -> Decimal:  # noqa: ANN401 - the file may hold anything here
    if isinstance(value, bool) or not isinstance(value, int | Decimal) or value < 0:
        message = "a plain number, such as 2 or 1.5, without quotes"
        raise ValueError(message)
    return Decimal(value)


Length = Annotated[Measure, PlainValidator(_reader(Kind.LENGTH))]
Level = Annotated[Measure, PlainValidator(_reader(Kind.LEVEL))]
Area = Annotated[Measure, PlainValidator(_reader(Kind.AREA))]
Slope = Annotated[Measure, PlainValidator(_reader(Kind.SLOPE))]
Flow = Annotated[Measure, PlainValidator(_reader(Kind.FLOW))]
Intensity = Annotated[Measure, PlainValidator(_reader(Kind.INTENSITY))]
Speed = Annotated[Measure, PlainValidator(_reader(Kind.SPEED))]
Strength = Annotated[Measure, PlainValidator(_reader(Kind.STRENGTH))]
Angle = Annotated[Measure, PlainValidator(_reader(Kind.ANGLE))]
Percent = Annotated[Measure, PlainValidator(_reader(Kind.RATIO))]
Money = Annotated[Decimal, PlainValidator(read_money)]
Number = Annotated[Decimal, PlainValidator(_read_number)]
Day = Annotated[date, BeforeValidator(_read_day)]
Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=2000)]
Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]
