"""The head of a rule sheet: whose it is, what it builds on, its sources."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault
from permitkit.model.reading import Written
from permitkit.model.reading.written import quoted
from permitkit.model.rules import OtherStreet, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["KINDS", "STANDINGS", "Head", "read_head"]

KINDS = ("country", "state", "county", "town")
STANDINGS = ("invented", "not verified with the town", "verified with the town")
SHEET_WORDS = (
    "place",
    "title",
    "kind",
    "follows",
    "checked",
    "due",
    "standing",
    "units",
    "office",
    "office_address",
    "office_phone",
    "office_email",
    "holidays",
    "closings",
    "listed_streets",
    "paved",
)
SOURCE_WORDS = ("title", "read", "address", "note", "dated")
_NEVER = date(1, 1, 1)


@dataclass(frozen=True, slots=True)
class Head:
    """The fields of a sheet's head by name, and its sources."""

    fields: Mapping[str, Any]
    sources: Mapping[str, Source]


def read_head(top: Written, shown: str, faults: list[Fault]) -> Head:
    """Return the head of a sheet; what could not be read is noted and stands empty."""
    table = top.table.get("sheet")
    if not isinstance(table, dict):
        faults.append(Fault(f"{shown}: sheet", "no table", "[sheet] with place, title, kind, …"))
        table = {}
    sheet = Written(table, f"{shown}: sheet", faults if "sheet" in top.table else [])
    checked, due = sheet.day("checked", needed=True), sheet.day("due", needed=True)
    if checked and due and due < checked:
        sheet.fault("due", str(due), f"a day after it was checked, {checked}")
    standing = sheet.word("standing", STANDINGS)
    fields = {
        "place": sheet.text("place", needed=True),
        "title": sheet.text("title", needed=True),
        "kind": sheet.word("kind", KINDS, "town"),
        "follows": sheet.texts("follows", some=False),
        "checked": checked or _NEVER,
        "due": due or _NEVER,
        "standing": standing,
        "verified": standing == "verified with the town",
        "units": sheet.word("units", ("us", "metric"), "us"),
        "office": sheet.text("office", blank=True),
        "office_address": sheet.text("office_address", blank=True),
        "office_phone": sheet.text("office_phone", blank=True),
        "office_email": sheet.text("office_email", blank=True),
        "holidays": sheet.text("holidays"),
        "closings": dict(_closings(sheet)),
        "listed_streets": tuple(_streets(sheet)),
        "paved": dict(_paved(sheet)),
    }
    sheet.close()
    return Head(fields, dict(_sources(top, shown)))


def _closings(sheet: Written) -> Iterator[tuple[date, str]]:
    """Yield the town's own closed days."""
    table = sheet.members("closings")
    for name in table.table:
        text = table.text(name, needed=True)
        try:
            yield date.fromisoformat(name), text
        except ValueError:
            table.fault("", repr(name), 'a day in quotes, such as "2026-11-27"')


def _streets(sheet: Written) -> Iterator[OtherStreet]:
    """Yield streets that belong to another authority, or the parts of them that do."""
    table = sheet.members("listed_streets")
    for name, value in table.table.items():
        if isinstance(value, dict | list):
            yield from (_street(part, name) for part in table.tables(name))
        else:
            yield OtherStreet(name, table.text(name, needed=True))


def _street(row: Written, name: str) -> OtherStreet:
    """Return a street, or a part of it, with whose it is and whether this sheet holds there."""
    between, part = row.texts("between"), row.text("part")
    if len(between) == 1:
        row.fault("between", quoted(list(between)), "two cross streets or more, in their order")
    if between and part:
        row.fault("part", repr(part), "cross streets or words for the part, not both")
    street = OtherStreet(
        name,
        row.text("authority", needed=True),
        between,
        part,
        sheet=row.text("sheet"),
        holds=row.flag("holds", default=True),
    )
    row.close()
    return street


def _paved(sheet: Written) -> Iterator[tuple[str, date]]:
    """Yield streets with the day they were paved."""
    table = sheet.members("paved")
    for name in table.table:
        day = table.day(name)
        if day:
            yield name, day


def _sources(top: Written, shown: str) -> Iterator[tuple[str, Source]]:
    """Yield the sources by their short names."""
    sources = top.members("source")
    sources.where = f"{shown}: source"
    for name in sources.table:
        row = sources.table_of(name)
        if row is None:
            continue
        title, read = row.text("title", needed=True), row.day("read", needed=True)
        source = Source(
            name,
            title,
            read or _NEVER,
            address=row.text("address", blank=True),
            note=row.text("note", blank=True),
            dated=_dated(row),
        )
        row.close()
        yield name, source


def _dated(row: Written) -> str:
    """Return the document's own date, which may be a year, a month or a text."""
    value = row.take("dated")
    if isinstance(value, date | datetime | int) and not isinstance(value, bool):
        return str(value)
    return row.text("dated")
