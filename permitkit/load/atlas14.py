"""Rain tables as NOAA Atlas 14 exports them, one place to a file, by duration and return period."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise, takewhile
from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.rain import IntensityTable
from permitkit.load.toml_text import read_bytes, shown_path
from permitkit.model.reading.written import quoted
from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from permitkit.model.drain import Rain

__all__ = ["Atlas14", "rain_from_table", "read_atlas14"]

_TITLE = re.compile(r"Point precipitation frequency estimates \(([^)]*)\)", re.IGNORECASE)
_VOLUME = re.compile(r"NOAA Atlas 14,? Volume.*", re.IGNORECASE)
_COLUMNS = re.compile(r"by duration for (ARI \(years\)|AEP):,?(.*)", re.IGNORECASE)
_PERIOD = re.compile(r"(\d+(?:\.\d+)?)[ -]*(?:years?|yrs?)", re.IGNORECASE)
_DURATION = re.compile(r"(\d+(?:\.\d+)?)[ -]*(min|h|d)[a-z]*\.?", re.IGNORECASE)
_SECONDS = {"min": 60.0, "h": 3600.0, "d": 86400.0}
_INCH, _MM, _HOUR = 0.0254, 0.001, 3600.0
_LENGTHS = {"inches": _INCH, "in": _INCH, "millimeters": _MM, "mm": _MM}
_EXPORT = "export the table again, as text in comma-separated form"
_FEWEST_LINES = 3


@dataclass(frozen=True, slots=True)
class Atlas14:
    """The rain at one place.

    Parameters
    ----------
    volume
        The book it comes from, with its volume and version.
    place
        Where it holds: the name and the two coordinates, as the file has them.
    series
        Whether the storms are those above a threshold or the greatest of each year.
    table
        Intensities by return period and duration.
    """

    volume: str
    place: str
    series: str
    table: IntensityTable

    @property
    def basis(self) -> str:
        """Book, series and place, in one phrase."""
        return ", ".join(part for part in (self.volume, self.series, self.place) if part)


@dataclass(frozen=True, slots=True)
class _Row:
    """One duration: where it stands, and a number for each return period."""

    line: int
    seconds: float
    values: tuple[float, ...]


def read_atlas14(path: Path) -> Atlas14:
    """Return the rain at one place from a file that NOAA Atlas 14 exports.

    Parameters
    ----------
    path
        The file: estimates of intensity or of depth, in inches or millimetres.

    Raises
    ------
    InputError
        Everything in the file that is not as the export writes it, at once.
    """
    where = shown_path(path)
    lines = read_bytes(path).decode("utf-8", errors="replace").splitlines()
    faults: list[Fault] = []
    scale, is_depth = _unit(lines, where, faults)
    periods, start = _periods(lines, where, faults)
    rows = list(_rows(lines, start, len(periods), where, faults)) if periods else []
    faults.extend(_disorder(rows, where, is_depth=is_depth))
    if periods and not rows and not faults:
        faults.append(Fault(where, "no line of numbers", "a line for each duration", _EXPORT))
    if faults:
        raise InputError(tuple(faults))
    head = dict(_head(lines))
    numbers = tuple(
        tuple(value * scale / (row.seconds if is_depth else _HOUR) for value in row.values)
        for row in rows
    )
    table = IntensityTable(periods, tuple(row.seconds for row in rows), numbers)
    return Atlas14(_volume(lines), _place(head), head.get("time series type", "").lower(), table)


def rain_from_table(rain: Rain, path: Path, where: str) -> Rain:
    """Return a job's rain with its intensity and source from the table it names.

    Parameters
    ----------
    rain
        The job's rain, which names a table.
    path, where
        The table's file, and the job file as faults name it.

    Raises
    ------
    InputError
        If the file is wrong, or the period or the duration is not to be found in it.
    """
    faults = [
        Fault(f"{where}: rain.{name}", "nothing", "what to look up in the table", f"add {name}")
        for name in ("period", "duration")
        if getattr(rain, name) is None
    ]
    if rain.intensity is not None:
        found = quoted(rain.intensity.text)
        expected = "no intensity beside a table that gives it"
        faults.append(Fault(f"{where}: rain.intensity", found, expected, "take it out"))
    years, seconds = _years(rain, where, faults), _duration(rain, where, faults)
    atlas = _read(path, faults)
    if faults or atlas is None:
        raise InputError(tuple(faults))
    try:
        intensity = atlas.table.intensity_ms(years, seconds)
    except OutOfRange as error:
        found = f"{rain.period}, {rain.duration}"
        expected = f"a period and a duration of the table: {_offers(atlas.table)}"
        raise InputError((Fault(f"{where}: rain", found, expected, str(error)),)) from None
    source = "; ".join(part for part in (rain.source, atlas.basis) if part)
    update = {"intensity": from_si(intensity, Kind.INTENSITY, "in/hr"), "source": source}
    return rain.model_copy(update=update)


def _read(path: Path, faults: list[Fault]) -> Atlas14 | None:
    """Return the table, or nothing once its faults are noted."""
    try:
        return read_atlas14(path)
    except InputError as error:
        faults.extend(error.faults)
        return None


def _years(rain: Rain, where: str, faults: list[Fault]) -> float:
    """Return the return period in years."""
    match = _PERIOD.fullmatch(rain.period or "")
    if match is None and rain.period is not None:
        expected = "a return period such as 25-year"
        faults.append(Fault(f"{where}: rain.period", repr(rain.period), expected))
    return float(match[1]) if match else 0.0


def _duration(rain: Rain, where: str, faults: list[Fault]) -> float:
    """Return the duration in seconds."""
    match = _DURATION.fullmatch(rain.duration or "")
    if match is None and rain.duration is not None:
        expected = "a duration such as 15 min, 2 hr or 1 day"
        faults.append(Fault(f"{where}: rain.duration", repr(rain.duration), expected))
    return _span(match) if match else 0.0


def _span(match: re.Match[str]) -> float:
    return float(match[1]) * _SECONDS[match[2].lower()]


def _offers(table: IntensityTable) -> str:
    """Return what a table can be asked for."""
    years = ", ".join(f"{period:g}" for period in table.periods_years)
    short, long = table.durations_s[0] / 60.0, table.durations_s[-1] / 60.0
    return f"{years} years; {short:g} to {long:g} min"


def _unit(lines: Sequence[str], where: str, faults: list[Fault]) -> tuple[float, bool]:
    """Return the table's unit of length in metres, and whether it holds depths."""
    first = lines[0].lstrip("\ufeff").strip() if lines else ""
    match = _TITLE.match(first)
    if match is None or len(lines) < _FEWEST_LINES:
        expected = "Point precipitation frequency estimates (inches/hour)"
        faults.append(Fault(f"{where}: line 1", quoted(first), expected, _EXPORT))
        return 1.0, False
    length, _, per = match[1].lower().partition("/")
    if length not in _LENGTHS or per not in {"", "hour", "hr"}:
        expected = "inches or mm, or one of them an hour"
        faults.append(Fault(f"{where}: line 1", quoted(match[1]), expected))
    if not _VOLUME.match(lines[1].strip()):
        expected = "NOAA Atlas 14 Volume, and which"
        faults.append(Fault(f"{where}: line 2", quoted(lines[1].strip()), expected, _EXPORT))
    return _LENGTHS.get(length, 1.0), length in _LENGTHS and not per


def _periods(
    lines: Sequence[str], where: str, faults: list[Fault]
) -> tuple[tuple[float, ...], int]:
    """Return the return periods of the columns in years, and the line after them."""
    for number, line in enumerate(lines):
        match = _COLUMNS.match(line.strip())
        if match:
            is_chance = match[1].upper() == "AEP"
            cells = [cell.strip() for cell in match[2].split(",")]
            years = [_years_of(cell, is_chance=is_chance) for cell in cells]
            faults.extend(_wrong_periods(cells, years, f"{where}: line {number + 1}"))
            return tuple(year for year in years if year), number + 1
    expected = "a line 'by duration for ARI (years):' with the return periods"
    faults.append(Fault(where, "no such line", expected, _EXPORT))
    return (), 0


def _years_of(cell: str, *, is_chance: bool) -> float | None:
    """Return a column's return period: years as they stand, or one over a yearly chance."""
    text = cell.removeprefix("1/") if is_chance else cell
    value = _number(text)
    return value if value is not None and value > 0.0 else None


def _wrong_periods(
    cells: Sequence[str], years: Sequence[float | None], where: str
) -> Iterator[Fault]:
    """Yield columns that name no period, and periods that do not rise."""
    for cell, year in zip(cells, years, strict=True):
        if year is None:
            yield Fault(where, quoted(cell), "a return period, such as 25 or 1/25")
    known = [year for year in years if year is not None]
    if any(after <= before for before, after in pairwise(known)):
        found = ", ".join(f"{year:g}" for year in known)
        yield Fault(where, found, "return periods that rise")


def _rows(
    lines: Sequence[str], start: int, columns: int, where: str, faults: list[Fault]
) -> Iterator[_Row]:
    """Yield the lines of numbers, up to the first that is none."""
    for number, line in enumerate(lines[start:], start + 1):
        head, colon, rest = line.partition(":")
        if not colon or head.strip().lower().startswith("date"):
            return
        place = f"{where}: line {number}"
        match = _DURATION.fullmatch(head.strip())
        if match is None:
            faults.append(Fault(place, quoted(head.strip()), "a duration such as 15-min"))
            continue
        cells = [cell.strip() for cell in rest.strip().removeprefix(",").split(",")]
        values = [_number(cell) for cell in cells]
        wrong = list(_wrong_cells(cells, values, columns, f"{place}, {head.strip()}"))
        faults.extend(wrong)
        if not wrong:
            yield _Row(number, _span(match), tuple(value or 0.0 for value in values))


def _wrong_cells(
    cells: Sequence[str], values: Sequence[float | None], columns: int, where: str
) -> Iterator[Fault]:
    """Yield a line's cells that are no numbers over zero, and a wrong count of them."""
    for cell, value in zip(cells, values, strict=True):
        if value is None or value <= 0.0:
            yield Fault(where, quoted(cell), "a number over zero")
    if len(cells) != columns:
        yield Fault(where, f"{len(cells)} numbers", f"{columns}, one for each return period")


def _number(text: str) -> float | None:
    """Return a plain decimal number, or nothing."""
    return float(text) if re.fullmatch(r"\d{1,9}(?:\.\d{1,9})?|\.\d{1,9}", text) else None


def _disorder(rows: Sequence[_Row], where: str, *, is_depth: bool) -> Iterator[Fault]:
    """Yield lines whose numbers cannot be: rarer rain that is lighter, longer that is heavier."""
    for row in rows:
        if any(after < before for before, after in pairwise(row.values)):
            expected = "numbers that rise with the return period"
            yield Fault(f"{where}: line {row.line}", "one that falls", expected)
    for short, long in pairwise(rows):
        place = f"{where}: line {long.line}"
        if long.seconds <= short.seconds:
            yield Fault(place, "a duration no longer than the one before", "durations that rise")
        elif any(
            _heavier(pair, is_depth=is_depth)
            for pair in zip(short.values, long.values, strict=True)
        ):
            what = "depths that never fall" if is_depth else "intensities that never rise"
            yield Fault(place, "a number that does", f"{what} as the duration grows")


def _heavier(pair: tuple[float, float], *, is_depth: bool) -> bool:
    """Tell whether a longer rain is heavier, or brings less, than a shorter one."""
    short, long = pair
    return long < short if is_depth else long > short


def _head(lines: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield the file's particulars by name, in lower case."""
    for line in takewhile(lambda line: not _COLUMNS.match(line.strip()), lines[2:]):
        name, colon, value = line.partition(":")
        if colon:
            yield name.strip().lower(), value.strip().strip('"').strip()


def _volume(lines: Sequence[str]) -> str:
    return " ".join(lines[1].replace(",", " ").split())


def _place(head: dict[str, str]) -> str:
    """Return the place by its name and coordinates, as far as the file has them."""
    name = head.get("location name (esri maps)") or head.get("location name") or ""
    where = [head.get("latitude", ""), head.get("longitude", "")]
    degrees = "latitude {}, longitude {}".format(*where) if all(where) else ""
    return ", ".join(part for part in (name.strip("' "), degrees) if part)
