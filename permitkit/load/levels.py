"""The level book: rod readings turned into levels before the job's model is built."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, get_args, get_type_hints

from pydantic import ValidationError

from permitkit.errors import Fault
from permitkit.model.frozen import Frozen, Level
from permitkit.model.job import Job
from permitkit.model.reading import nearest
from permitkit.model.reading.written import quoted
from permitkit.model.site import LevelBook
from permitkit.units import Kind, Measure, UnitError, read_measure

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Instrument", "closing_error", "instrument", "level_fields", "with_levels"]

BENCHMARK = "benchmark"

_READING = re.compile(r"\s*rod\b\s*(?P<rod>.*?)(?:\s+at\s+(?P<setup>.+?))?\s*", re.IGNORECASE)
_STANDS_IN = Measure(read_measure("100 ft", Kind.LEVEL).si, Kind.LEVEL)


@dataclass(frozen=True, slots=True)
class Instrument:
    """Where the level stood: its height at each set-up, and the points whose level is known."""

    heights: Mapping[str, Measure]
    points: Mapping[str, Measure]


def instrument(book: LevelBook, where: str = "", faults: list[Fault] | None = None) -> Instrument:
    """Return the height of the instrument at each set-up of a level book.

    Parameters
    ----------
    book
        The set-ups in the order they were taken: each looks back at the benchmark or at a turning
        point that an earlier one has fixed.
    where
        The file, as faults name it.
    faults
        The list the faults of the book go on.
    """
    points = {BENCHMARK: book.benchmark_level, book.benchmark: book.benchmark_level}
    heights: dict[str, Measure] = {}
    for n, setup in enumerate(book.setup, 1):
        place = f"{where}: level.setup[{n}]"
        told = faults if faults is not None else []
        told += _setup_faults(book, n, points, heights, place)
        height = points.get(setup.on, book.benchmark_level) + setup.backsight
        heights.setdefault(setup.name, height)
        if setup.turning_point and setup.foresight:
            points.setdefault(setup.turning_point, height - setup.foresight)
    return Instrument(heights, points)


def _setup_faults(
    book: LevelBook,
    n: int,
    points: Mapping[str, Measure],
    heights: Mapping[str, Measure],
    place: str,
) -> Iterator[Fault]:
    """Yield what is wrong with one set-up, given the points and set-ups before it."""
    setup = book.setup[n - 1]
    if setup.name in heights:
        yield Fault(f"{place}.name", repr(setup.name), "a name no other set-up has")
    if setup.on not in points:
        yield Fault(
            f"{place}.on",
            repr(setup.on),
            f"a point whose level is known by then: {', '.join(points)}",
            nearest(setup.on, points),
        )
    if setup.closing_on is not None and setup.closing_on not in points:
        yield Fault(
            f"{place}.closing_on",
            repr(setup.closing_on),
            f"a point whose level is known by then: {', '.join(points)}",
            nearest(setup.closing_on, points),
        )
    if setup.closing_on is not None and setup.closing is None:
        yield Fault(f"{place}.closing", "nothing", "the closing shot's reading, such as 4.20 ft")
    if setup.turning_point in points:
        yield Fault(f"{place}.turning_point", repr(setup.turning_point), "a point not named before")
    if (setup.turning_point is None) is not (setup.foresight is None):
        missing = "foresight" if setup.foresight is None else "turning_point"
        yield Fault(f"{place}.{missing}", "nothing", "a turning point and the foresight on it")


def closing_error(book: LevelBook) -> dict[str, Measure]:
    """Return by how much each set-up with a closing shot misses the level it closed on.

    Too high is more than nothing, too low is less; a set-up without a closing shot is left out.
    """
    known = instrument(book)
    return {
        setup.name: known.heights[setup.name]
        - setup.closing
        - known.points[setup.closing_on or setup.on]
        for setup in book.setup
        if setup.closing is not None
    }


def with_levels(table: Mapping[str, Any], where: str) -> tuple[dict[str, Any], list[Fault]]:
    """Return a job's tables with every rod reading turned into a level, and the faults met.

    Parameters
    ----------
    table
        The job file as its parser gave it. A level field may say `rod 4.70 ft`, or
        `rod 4.70 ft at 2` where there are several set-ups; every other value stays as it is.
    where
        The file, as faults name it.
    """
    faults: list[Fault] = []
    try:
        book = LevelBook.model_validate(table.get("level"))
    except ValidationError:
        rods = _Rods(None, faults)
    else:
        rods = _Rods(instrument(book, where, faults), faults)
    rest = {name: value for name, value in table.items() if name != "level"}
    turned = rods.table(rest, Job, f"{where}: ")
    return {name: turned.get(name, value) for name, value in table.items()}, faults


@cache
def level_fields(model: type[Frozen]) -> dict[str, type[Frozen] | None]:
    """Return a table's fields that hold a level (mapped to nothing) or tables (to their model)."""
    fields: dict[str, type[Frozen] | None] = {}
    for name, hint in get_type_hints(model, include_extras=True).items():
        parts = tuple(_parts(hint))
        tables = [part for part in parts if isinstance(part, type) and issubclass(part, Frozen)]
        if Level in parts:
            fields[name] = None
        elif tables:
            fields[name] = tables[0]
    return fields


def _parts(hint: object) -> Iterator[object]:
    """Yield a type hint and everything it is made of."""
    yield hint
    for part in get_args(hint):
        yield from _parts(part)


@dataclass(frozen=True, slots=True)
class _Rods:
    """Turns readings into levels; without a sound level book it lets every reading pass."""

    known: Instrument | None
    faults: list[Fault]

    def table(self, table: Mapping[str, Any], model: type[Frozen], place: str) -> dict[str, Any]:
        """Return a table with its readings turned, and those of the tables in it."""
        fields = level_fields(model)
        return {
            name: self._value(value, fields[name], place + name) if name in fields else value
            for name, value in table.items()
        }

    def _value(self, value: object, model: type[Frozen] | None, place: str) -> object:
        if model is not None and isinstance(value, list):
            return [self._value(row, model, f"{place}[{n}]") for n, row in enumerate(value, 1)]
        if model is not None and isinstance(value, dict):
            return self.table(value, model, f"{place}.")
        match = _READING.fullmatch(value) if model is None and isinstance(value, str) else None
        return value if match is None else self._level(match, place)

    def _level(self, match: re.Match[str], place: str) -> Measure:
        """Return the level of a reading, or a stand-in once its fault is noted."""
        if self.known is None:
            return _STANDS_IN
        height = self._height(match, place)
        try:
            rod = read_measure(match["rod"], Kind.LENGTH)
        except UnitError as error:
            fault = Fault(place, quoted(match[0]), "a rod reading, such as rod 4.70 ft", error.fix)
            self.faults.append(fault)
            return _STANDS_IN
        level = height - rod
        return Measure(level.si, Kind.LEVEL, level.unit, match[0])

    def _height(self, match: re.Match[str], place: str) -> Measure:
        """Return the instrument's height for a reading, or a stand-in once the fault is noted."""
        heights = self.known.heights if self.known else {}
        name = match["setup"] or (next(iter(heights)) if len(heights) == 1 else "")
        if name in heights:
            return heights[name]
        fix = nearest(name, heights)
        if not heights:
            expected, fix = "a level, or a set-up to read it from", "add [[level.setup]]"
        elif name:
            expected = f"a set-up of the level book: {', '.join(heights)}"
        else:
            expected = f"the set-up it was read from: {', '.join(heights)}"
            fix = f"write {match[0].strip()} at {next(iter(heights))}"
        self.faults.append(Fault(place, quoted(match[0]), expected, fix))
        return _STANDS_IN
