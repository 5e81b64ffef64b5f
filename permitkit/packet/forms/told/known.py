"""One value of a job as a form takes it: printed, as words, as a number in a unit the form has."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.model.forms.form import DAYS
from permitkit.packet.say import joined
from permitkit.units import Kind, from_si, write_money

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.units import Measure

__all__ = ["NONE", "UNKNOWN", "Known", "of_day", "of_length", "of_money", "of_words", "text"]

_NONE = "none"


@dataclass(frozen=True, slots=True)
class Known:
    """A value: its text, the words that may tick a box, and its day, sum or quantity.

    A value without a text is not known. `nothing` says that there is none, and that this is known.
    """

    text: str = ""
    words: tuple[str, ...] = ()
    day: date | None = None
    money: Decimal | None = None
    si: float | None = None
    kind: Kind | None = None
    nothing: bool = False

    def written(self, unit: str = "", days: str = "") -> str:
        """Return the value as a form takes it; nothing where it is not known."""
        if self.day is not None:
            return DAYS[days or "Apr 6, 2026"].format(self.day)
        if self.money is not None:
            return write_money(self.money).removeprefix("$" if unit else "")
        if unit and self.si is not None and self.kind is not None:
            return from_si(self.si, self.kind, unit).shown().removesuffix(f" {unit}")
        return "0" if unit and self.nothing else self.text


UNKNOWN = Known()
NONE = Known(_NONE, (_NONE,), nothing=True)


def text(told: object) -> Known:
    """Return a text, or a number, as a value."""
    return UNKNOWN if told is None else Known(str(told))


def of_words(words: Iterable[str], told: str = "") -> Known:
    """Return words as a value, printed as a list unless they are told otherwise."""
    kept = tuple(dict.fromkeys(words))
    return Known(told or joined(kept), kept)


def of_day(day: date | None) -> Known:
    """Return a day as a value."""
    return UNKNOWN if day is None else Known(day.isoformat(), day=day)


def of_money(sum_of: Decimal | None) -> Known:
    """Return a sum as a value."""
    return UNKNOWN if sum_of is None else Known(write_money(sum_of), money=sum_of)


def of_length(value: Measure | float | None, kind: Kind, told: str = "") -> Known:
    """Return a quantity as a value: as its author wrote it, or a computed one as it is told."""
    if value is None:
        return UNKNOWN
    shown = told if isinstance(value, float | int) else value.shown()
    return Known(shown, si=float(value), kind=kind)
