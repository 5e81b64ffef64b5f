"""What every view is told: who files, when, on what paper; and how its numbers are written."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.drawing.frame import TitleBlock
from permitkit.drawing.lettering import missing_glyphs
from permitkit.drawing.scale import LETTER, Paper, System
from permitkit.errors import Fault, InputError
from permitkit.study.sizes import ground_unit
from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job

__all__ = [
    "Figures",
    "SheetInfo",
    "check_letters",
    "day_text",
    "figures_of",
    "held",
    "loosened",
    "read_by_faces",
    "starred",
]

_LONGEST_SHOWN = 40
_HELD = "\N{NO-BREAK SPACE}"
_BEFORE_UNIT = re.compile(
    r"(?<=[0-9]) (?=(?:ft|in|m|mm|sq|cu|gal|gpm|mph|m2|L/s|L)\b|%)|(?<=sq) (?=ft\b)"
)


@dataclass(frozen=True, slots=True)
class SheetInfo:
    """What the title block of every view says besides the job itself.

    Parameters
    ----------
    town
        The authority, as its sheet titles it.
    applicant, prepared_by
        Who files, and who drew.
    date
        The day of the drawing, as printed.
    revision
        Its letter.
    number, of
        The first sheet's number, and how many there are in all.
    paper
        The sheet; a view turns it as it needs.
    detail
        The town's own detail that governs, with its revision.
    """

    town: str
    applicant: str = ""
    prepared_by: str = ""
    date: str = ""
    revision: str = "A"
    number: int = 1
    of: int = 1
    paper: Paper = LETTER
    detail: str = ""

    def title_block(self, job: Job, title: str, index: int = 0, detail: str = "") -> TitleBlock:
        """Return the title block of the sheet that lies `index` sheets after the view's first."""
        level = job.level
        return TitleBlock(
            address=job.site.address,
            town=self.town,
            title=title,
            applicant=self.applicant,
            parcel=job.site.parcel or "not given",
            prepared_by=self.prepared_by,
            date=self.date,
            revision=self.revision,
            number=self.number + index,
            of=self.of,
            datum=f"{level.benchmark}: {level.benchmark_level.shown()}",
            detail=detail or self.detail,
        )

    def numbered(self, number: int, of: int) -> SheetInfo:
        """Return the same for another place in the set."""
        return replace(self, number=number, of=of)


def day_text(day: date) -> str:
    """Return a date as drawings write it, month in letters.

    Examples
    --------
    >>> from datetime import date
    >>> day_text(date(2026, 4, 6))
    'Apr 6, 2026'
    """
    return f"{day:%b} {day.day}, {day.year}"


_HALF, _SIXTEENTH = Fraction(1, 2), Fraction(1, 16)


@dataclass(frozen=True, slots=True)
class Figures:
    """How computed numbers are written: in the units of the job's author.

    Parameters
    ----------
    ground
        The unit of distances on the ground.
    size
        The unit of sizes and heights at the curb.
    level
        The unit of levels.
    system
        Whose scales and units the drawing uses.
    """

    ground: str
    size: str
    level: str
    system: System

    def distance(self, value_m: float) -> str:
        """Return a distance on the ground: `9 ft 4 1/2 in`, `12.5 ft`, `3.81 m`."""
        step = {"ft-in": _HALF, "m": Fraction(1, 100)}.get(self.ground)
        return from_si(value_m, Kind.LENGTH, self.ground).shown(step).replace(" ft 0 in", " ft")

    def height(self, value_m: float) -> str:
        """Return a size or a height at the curb: `3 5/8 in`, `92 mm`."""
        return from_si(value_m, Kind.LENGTH, self.size).shown()

    def at_level(self, value_m: float) -> str:
        """Return a level above the job's datum: `99.50 ft`."""
        return from_si(value_m, Kind.LEVEL, self.level).shown()

    def area(self, value_m2: float) -> str:
        """Return an area: `57.5 sq ft`, `5.34 m2`."""
        return from_si(value_m2, Kind.AREA, self._one_of("sq ft", "m2")).shown()

    def flow(self, value_m3s: float) -> str:
        """Return a flow: `11.6 gpm`, `0.73 L/s`."""
        return from_si(value_m3s, Kind.FLOW, self._one_of("gpm", "L/s")).shown()

    def volume(self, value_m3: float) -> str:
        """Return a volume of water: `12.9 gal`, `49 L`."""
        return from_si(value_m3, Kind.VOLUME, self._one_of("gal", "L")).shown()

    @staticmethod
    def slope(value: float) -> str:
        """Return a slope in per cent: `1.03 %`."""
        return from_si(value, Kind.SLOPE, "%").shown()

    def _one_of(self, us: str, metric: str) -> str:
        return metric if self.system is System.METRIC else us


def figures_of(job: Job) -> Figures:
    """Return how the numbers of a job are written, read from the units its author used."""
    metric = job.units == "metric"
    if metric:
        size = "mm" if job.curb.top_width.unit != "in" else "in"
        return Figures("m", size, "m", System.METRIC)
    size = "in" if job.curb.top_width.unit != "mm" else "mm"
    level = "m" if job.gutter.flow_line.unit == "m" else "ft"
    return Figures(ground_unit(job), size, level, System.US)


def starred(text: str, job: Job, field: str) -> str:
    """Return a text with a star where the field it tells was assumed, not measured."""
    assumed = any(row.field == field for row in job.assumed)
    return f"{text} *" if assumed else text


def held(text: str) -> str:
    """Return a text whose lines never break between a number and its unit."""
    return _BEFORE_UNIT.sub(_HELD, text)


def loosened(text: str) -> str:
    """Return a text with plain spaces where `held` put others."""
    return text.replace(_HELD, " ")


def read_by_faces(texts: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Return every text with letters that neither face has, and those letters."""
    every = dict.fromkeys(texts)
    unknown = frozenset(missing_glyphs("".join(frozenset("".join(every)))))
    for text in every if unknown else ():
        missing = [letter for letter in dict.fromkeys(text) if letter in unknown]
        if missing:
            yield text, " ".join(f"{letter} (U+{ord(letter):04X})" for letter in missing)


def check_letters(sheets: Iterable[Sheet]) -> None:
    """Raise an error that names every letter which cannot be drawn.

    Raises
    ------
    InputError
        With a fault for each text.
    """
    texts = (label.text for sheet in sheets for label in sheet.labels)
    faults = tuple(
        Fault(
            where="drawing",
            found=f"{_short(text)!r} with {letters}",
            expected="letters of the Latin, Greek or Cyrillic alphabets",
            fix="write the name as it stands on the permit form",
        )
        for text, letters in read_by_faces(texts)
    )
    if faults:
        raise InputError(faults)


def _short(text: str) -> str:
    """Return a text cut to what one line of an error takes."""
    line = text.replace("\n", " ")
    return line if len(line) <= _LONGEST_SHOWN else f"{line[: _LONGEST_SHOWN - 1]}…"
