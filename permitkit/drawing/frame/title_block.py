"""The title block: whose sheet it is, what it shows, and where it stands in the set."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from permitkit.drawing.frame.legend import PITCH_MM, hung
from permitkit.drawing.lettering import LINE_PITCH, wrapped
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Box, Line, Role, Shape

__all__ = ["TitleBlock", "Titled", "titled"]

_PAD_MM = 2.0
_CAPTION_MM = 22.0
_TITLE_MM = 3.5
_TITLE_PITCH_MM = LINE_PITCH * _TITLE_MM
_TITLE_LINES = 2
_ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What a title block says; an empty field is left out.

    Parameters
    ----------
    address, parcel, applicant, town
        Where, for whom, and to which town.
    title
        What the sheet shows.
    prepared_by, date, revision
        By whom, the day, and the revision letter.
    number, of
        Sheet number and how many sheets there are.
    datum
        What levels are counted from, and the benchmark.
    detail
        The town's own detail that governs.
    disclaimer
        What the drawing is not.
    """

    address: str
    town: str
    title: str
    parcel: str = ""
    applicant: str = ""
    prepared_by: str = ""
    date: str = ""
    revision: str = ""
    number: int = 1
    of: int = 1
    datum: str = ""
    detail: str = ""
    disclaimer: str = "Not a survey."

    @property
    def sheet_text(self) -> str:
        """Return the sheet's number as printed."""
        return f"{self.number} of {self.of}"

    @property
    def date_text(self) -> str:
        """Return the day and the revision letter as printed."""
        revision = f"revision {self.revision}" if self.revision else ""
        return ", ".join(part for part in (self.date, revision) if part)

    def rows(self, scale_text: str) -> tuple[tuple[str, str], ...]:
        """Return captions and what stands beside them."""
        rows = (
            ("Address", self.address),
            ("Parcel", self.parcel),
            ("Town", self.town),
            ("Applicant", self.applicant),
            ("Prepared by", self.prepared_by),
            ("Datum", self.datum),
            ("Town detail", self.detail),
            ("Scale", scale_text),
            ("Date", self.date_text),
            ("Sheet", self.sheet_text),
        )
        return tuple(row for row in rows if row[1])


class Titled(NamedTuple):
    """A title block as drawn: its shapes, its upper edge, and what was too long for it."""

    shapes: tuple[Shape, ...]
    top: float
    spilled: tuple[str, ...]


@lru_cache(maxsize=32)
def titled(box: Box, title: TitleBlock, scale_text: str) -> Titled:
    """Return the title block at the foot of a box.

    Fields too long for the box are cut with an ellipsis and come back whole as `spilled`.
    """
    for most_lines in (6, 4, 3, 2):
        block = _stacked(box, title, scale_text, most_lines)
        if block.top <= box.top:
            return block
    return _stacked(box, title, scale_text, 1)


class _Field(NamedTuple):
    """One field set in lines, cut to fit if `spilled` says what it was."""

    caption: str
    lines: tuple[str, ...]
    spilled: str = ""


def _field(caption: str, value: str, width: float, most_lines: int) -> _Field:
    """Return a field in at most so many lines."""
    across = width - (_CAPTION_MM if caption else 0.0)
    lines = wrapped(value, across, LEAST_LETTERING_MM)
    if len(lines) <= most_lines:
        return _Field(caption, lines)
    last = wrapped(lines[most_lines - 1], across - 3.0, LEAST_LETTERING_MM)[0]
    whole = f"{caption}: {value}" if caption else value
    return _Field(caption, (*lines[: most_lines - 1], f"{last}{_ELLIPSIS}"), whole)


def _heading(text: str, width: float) -> _Field:
    """Return the sheet's title in at most two lines."""
    lines = wrapped(text, width, _TITLE_MM, bold=True)
    if len(lines) <= _TITLE_LINES:
        return _Field("", lines)
    last = wrapped(lines[_TITLE_LINES - 1], width - 5.0, _TITLE_MM, bold=True)[0]
    return _Field("", (*lines[: _TITLE_LINES - 1], f"{last}{_ELLIPSIS}"), text)


def _stacked(box: Box, title: TitleBlock, scale_text: str, most_lines: int) -> Titled:
    """Return the title block built from the bottom up."""
    width = box.width - 2 * _PAD_MM
    rows = (*title.rows(scale_text), *((("", title.disclaimer),) if title.disclaimer else ()))
    fields = [_field(caption, value, width, most_lines) for caption, value in rows]
    shapes: list[Shape] = []
    floor = box.bottom
    for field in reversed(fields):
        floor += len(field.lines) * PITCH_MM + 1.2
        shapes.extend(_row(box, field, floor))
    heading = _heading(title.title, width)
    top = floor + len(heading.lines) * _TITLE_PITCH_MM + 1.6
    name = hung(heading.lines, (box.left + _PAD_MM, top - 1.2), _TITLE_MM, bold=True)
    edge = Line((box.left, top), (box.right, top), Role.FRAME)
    return Titled(
        (*shapes, name, edge),
        top,
        tuple(field.spilled for field in (heading, *fields) if field.spilled),
    )


def _row(box: Box, field: _Field, top: float) -> tuple[Shape, ...]:
    """Return one field below its rule."""
    left = box.left + _PAD_MM
    rule = Line((box.left, top), (box.right, top), Role.NOTE)
    if not field.caption:
        return rule, hung(field.lines, (left, top - 1.0))
    caption = hung((field.caption,), (left, top - 1.0))
    return rule, caption, hung(field.lines, (left + _CAPTION_MM, top - 1.0))
