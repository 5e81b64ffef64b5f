"""The map of one form: a small TOML file beside the PDF."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.load.forms.fills import FILLS, read_fill
from permitkit.load.toml_text import read_toml, shown_path
from permitkit.model.forms.form import DAYS, FormField, FormMap, Say, Spot, Tick, Write
from permitkit.model.reading import Written, nearest
from permitkit.model.reading.written import quoted
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from permitkit.model.forms.form import Fill

__all__ = ["read_form_map"]

_TABLES = ("schema", "form", "field")
_SPOT = ("page", "across", "down", "width", "letters", "lines", "pitch")
_NEVER = date(1, 1, 1)
_SIGNED = ("signature", "signed", "sign here")
_PRINTED = ("print", "typed", "name", "title")
_LETTERS_M, _LEAST_LETTERS_M = 0.0025, 0.002


def read_form_map(path: Path) -> tuple[FormMap | None, list[Fault]]:
    """Return the map that a file states, or nothing, with every fault in it.

    Raises
    ------
    InputError
        The file cannot be read, or is no TOML.
    """
    table, shown = read_toml(path), shown_path(path)
    faults: list[Fault] = []
    top = Written(table, shown, faults)
    if table.get("schema") != 1:
        found = quoted(table["schema"]) if "schema" in table else "nothing"
        faults.append(Fault(f"{shown}: schema", found, "schema = 1"))
    head = _head(top, path, shown)
    fields = tuple(_fields(top, shown, head.days))
    for name in (name for name in table if name not in _TABLES):
        fix = nearest(name, _TABLES)
        faults.append(Fault(f"{shown}: {name}", f"a heading {name!r}", "form or field", fix))
    _check_twice(fields, faults)
    return (None if faults else replace(head, fields=fields)), faults


def _head(top: Written, path: Path, shown: str) -> FormMap:
    """Return what the map says of the form as a whole."""
    form = top.members("form")
    form.where = f"{shown}: form"
    read = form.day("read", needed=True)
    head = FormMap(
        number=form.text("number", needed=True),
        title=form.text("title", needed=True),
        edition=form.text("edition", needed=True),
        source=form.text("source", needed=True),
        read=read or _NEVER,
        pdf=path.with_suffix(".pdf"),
        path=shown,
        days=form.word("days", DAYS, "Apr 6, 2026"),
        digest=form.text("digest").lower(),
        declares=form.flag("declares"),
    )
    form.close()
    return head


def _fields(top: Written, shown: str, days: str) -> Iterator[FormField]:
    for n, table in enumerate(top.tables("field"), 1):
        name = table.text("name")
        table.where = f"{shown}: field {n}" + (f", {name!r}" if name else "")
        fill = read_fill(table, days)
        spot = _spot(table, fill) if any(table.has(word) for word in _SPOT) else None
        if bool(name) is (spot is not None):
            found = "a name and a place" if name else "neither a name nor a place"
            table.fault("", found, "the field's name in the PDF, or its page and place on paper")
        label = table.text("label")
        table.close(FILLS)
        if fill is None:
            continue
        _check_signed(table, fill, f"{name} {label}")
        yield FormField(fill, table.where, name, spot, label)


def _spot(table: Written, fill: Fill | None) -> Spot:
    """Return a place on paper; nothing need be told of letters where a box is ticked."""
    page = table.count("page")
    if page is None or page < 1:
        table.fault("page", "nothing" if page is None else str(page), "a page, counted from 1")
    across, down, width = (_needed(table, name) for name in ("across", "down", "width"))
    letters, lines = _length(table, "letters"), table.count("lines")
    pitch = _length(table, "pitch")
    if letters and letters < _LEAST_LETTERS_M - 1e-9:
        table.fault("letters", quoted(table.table["letters"]), "letters of at least 2 mm")
    if lines is not None and lines > 1 and not pitch:
        table.fault("pitch", "nothing", "how far the lines stand apart, such as 8 mm")
    if lines == 0:
        table.fault("lines", "0", "at least one line")
    if isinstance(fill, Tick) and letters:
        table.fault("letters", "a height of letters", "the box to tick: page, across, down, width")
    return Spot(
        page or 1, across, down, width, letters or _LETTERS_M, lines or 1, pitch or _LETTERS_M
    )


def _needed(table: Written, name: str) -> float:
    if not table.has(name):
        table.fault(name, "nothing", f"a length on paper: {name} = 20 mm, in quotes")
    return _length(table, name) or 0.0


def _length(table: Written, name: str) -> float | None:
    measure = table.measure(name, Kind.LENGTH)
    return None if measure is None else float(measure)


def _check_signed(table: Written, fill: Fill, told: str) -> None:
    """Note a place to sign that something would be written into."""
    words = "".join(f" {letter}" if letter.isupper() else letter for letter in told).lower()
    words = words.replace("_", " ").replace("-", " ")
    lower = f"{words} {told.lower()}"
    signed = any(word in lower for word in _SIGNED) and not any(p in lower for p in _PRINTED)
    if signed and isinstance(fill, Write | Say):
        found = f"{told.strip()!r}, filled in"
        table.fault("", found, "sign = true: a signature and its day stay empty")


def _check_twice(fields: tuple[FormField, ...], faults: list[Fault]) -> None:
    """Note a field of the PDF that stands in the map twice."""
    seen: dict[str, FormField] = {}
    for one in fields:
        if one.name and seen.setdefault(one.name, one) is not one:
            before = seen[one.name].where.partition(": ")[2]
            faults.append(
                Fault(one.where, f"{one.name!r} again, after {before}", "each field once")
            )
