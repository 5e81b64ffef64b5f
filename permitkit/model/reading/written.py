"""A table of a file while it is read: what is taken, what nobody took, every fault found."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.model.reading.spelling import listed, misspelt, nearest
from permitkit.units import Kind, Measure, UnitError, read_measure, read_money

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = ["Written", "quoted"]

_LONGEST = 60


def quoted(value: object) -> str:
    """Return a value as its file shows it, cut where it runs on."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, date):
        return value.isoformat()
    text = repr(value) if isinstance(value, str) else _plain(value)
    return text if len(text) <= _LONGEST else text[:_LONGEST] + "…"


def _plain(value: object) -> str:
    if isinstance(value, dict):
        return "a table of " + (listed(str(name) for name in value) or "nothing")
    if isinstance(value, list):
        return "a list of " + str(len(value))
    return str(value)


class Written:
    """A table being read. Each `take` method returns the field typed, or notes a fault.

    Parameters
    ----------
    table
        The table as its file's parser gave it.
    where
        The place, as its author would look for it.
    faults
        The list every fault of the file is put on.
    """

    __slots__ = ("_taken", "faults", "table", "where")

    def __init__(self, table: Mapping[str, object], where: str, faults: list[Fault]) -> None:
        self.table = table
        self.where = where
        self.faults = faults
        self._taken: set[str] = set()

    def at(self, name: str) -> str:
        """Return the place of a field."""
        return f"{self.where}.{name}" if name else self.where

    def fault(self, name: str, found: str, expected: str, fix: str = "") -> None:
        """Note a fault of a field (of the table itself where no name is given)."""
        self.faults.append(Fault(self.at(name), found, expected, fix))

    def has(self, name: str) -> bool:
        """Tell whether the field is there."""
        return name in self.table

    def take(self, name: str) -> object | None:
        """Return a field as it stands, or nothing."""
        self._taken.add(name)
        return self.table.get(name)

    def text(
        self, name: str, default: str = "", *, needed: bool = False, blank: bool = False
    ) -> str:
        """Return a field that is a text of one line or more; `blank` where it may be empty."""
        value = self.take(name)
        if isinstance(value, str) and (value.strip() or blank):
            return " ".join(value.split())
        if value is not None:
            self.fault(name, quoted(value), "a text in quotes")
        elif needed:
            self.fault(name, "nothing", f"a text: {name} = …")
        return default

    def word(self, name: str, known: Iterable[str], default: str = "") -> str:
        """Return a field that is one word of a closed set."""
        value = self.text(name, default)
        if not value or value == default:
            return default
        return next(iter(self.known((value,), name, known)), default)

    def known(self, words: Iterable[str], name: str, known: Iterable[str]) -> tuple[str, ...]:
        """Return those of the words that a closed set knows; note the others."""
        allowed = tuple(known)
        good = []
        for word in words:
            if word in allowed:
                good.append(word)
            else:
                self.fault(name, repr(word), f"one of {listed(allowed)}", nearest(word, allowed))
        return tuple(good)

    def known_or_own(
        self, words: Iterable[str], name: str, known: Iterable[str]
    ) -> tuple[str, ...]:
        """Return the words, known ones or the author's own; note those that look misspelt."""
        allowed = tuple(known)
        good = []
        for word in words:
            same = next((one for one in allowed if one.casefold() == word.casefold()), "")
            slip = "" if same else misspelt(word, allowed)
            if slip:
                expected = f"one of {listed(allowed)}, or other words that are not so like them"
                self.fault(name, repr(word), expected, slip)
            else:
                good.append(same or word)
        return tuple(good)

    def texts(self, name: str, *, some: bool = True) -> tuple[str, ...]:
        """Return a field that is a text or a list of texts, some of them unless none will do."""
        value = self.take(name)
        rows = value if isinstance(value, list) else [value]
        if value is None:
            return ()
        good = [" ".join(row.split()) for row in rows if isinstance(row, str) and row.strip()]
        if len(good) < len(rows) or (some and not rows):
            self.fault(name, quoted(value), 'texts in quotes, such as ["one", "another"]')
        return tuple(good)

    def flag(self, name: str, *, default: bool = False) -> bool:
        """Return a field that is true or false."""
        value = self.take(name)
        if isinstance(value, bool):
            return value
        if value is not None:
            self.fault(name, quoted(value), "true or false, without quotes")
        return default

    def count(self, name: str) -> int | None:
        """Return a field that is a whole number."""
        value = self.take(name)
        if isinstance(value, int) and not isinstance(value, bool) and value >= 0:
            return value
        if value is not None:
            self.fault(name, quoted(value), "a whole number, such as 2, without quotes")
        return None

    def day(self, name: str, *, needed: bool = False) -> date | None:
        """Return a field that is a date."""
        value = self.take(name)
        if isinstance(value, datetime):
            return value.date()
        if isinstance(value, date):
            return value
        if value is not None or needed:
            fix = f"write {name} = 2026-04-06, without quotes" if isinstance(value, str) else ""
            found = "nothing" if value is None else quoted(value)
            self.fault(name, found, "a date, such as 2026-04-06", fix)
        return None

    def measure(self, name: str, kind: Kind) -> Measure | None:
        """Return a field that is a quantity of a kind."""
        value = self.take(name)
        return None if value is None else self.read_measure(value, name, kind)

    def read_measure(self, value: object, name: str, kind: Kind) -> Measure | None:
        """Return a value that is a quantity of a kind."""
        try:
            return read_measure(value, kind)
        except UnitError as error:
            self.fault(name, error.found, error.expected, error.fix)
            return None

    def money(self, name: str) -> Decimal | None:
        """Return a field that is a sum of money."""
        value = self.take(name)
        try:
            return None if value is None else read_money(value)
        except UnitError as error:
            self.fault(name, error.found, error.expected, error.fix)
            return None

    def number(self, name: str) -> Decimal | None:
        """Return a field that is a plain number: a multiple, a percentage without its sign."""
        value = self.take(name)
        if isinstance(value, int | Decimal) and not isinstance(value, bool) and value >= 0:
            return Decimal(value)
        if value is not None:
            self.fault(name, quoted(value), "a number, such as 2 or 1.5, without quotes")
        return None

    def tables(self, name: str) -> list[Written]:
        """Return a field that is a list of tables, each to be read."""
        value = self.take(name)
        if value is None:
            return []
        rows = value if isinstance(value, list) else [value]
        good = [row for row in rows if isinstance(row, dict)]
        if len(good) < len(rows):
            self.fault(name, quoted(value), f"tables, such as [[…{name}]]")
        place = self.at(name)
        places = [
            f"{place}[{n}]" if isinstance(value, list) else place for n in range(1, 1 + len(good))
        ]
        return [Written(row, at, self.faults) for row, at in zip(good, places, strict=True)]

    def table_of(self, name: str) -> Written | None:
        """Return a field that is a table, to be read."""
        value = self.take(name)
        if isinstance(value, dict):
            return Written(value, self.at(name), self.faults)
        if value is not None:
            self.fault(name, quoted(value), f"a table, such as {name} = {{ … }}")
        return None

    def members(self, name: str) -> Written:
        """Return a field that is a table, to be read name by name; an empty one if it is not."""
        return self.table_of(name) or Written({}, self.at(name), self.faults)

    def close(self, also: Iterable[str] = (), elsewhere: Iterable[str] = ()) -> None:
        """Note every field nobody took.

        `also` are fields that would have been known here; `elsewhere` those that go with another
        form of the same, and not with what this table states.
        """
        strange = [name for name in self.table if name not in self._taken]
        known = sorted({*self._taken, *also} - {*strange}) if strange else []
        for name in strange:
            found, fix = f"a field {name!r}", nearest(name, known)
            if name in {*also, *elsewhere}:
                found, fix = f"{found}, which does not go with the rest", ""
            self.fault(name, found, f"one of {listed(known)}", fix)
