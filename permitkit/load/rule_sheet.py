"""Rule sheets: one town's file, and the sheets it builds on, read into the model."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault, InputError, UsageError
from permitkit.load.find_sheet import SheetPlaces, find_sheet
from permitkit.load.sheet.head import read_head
from permitkit.load.sheet.rules import read_permits, read_rules
from permitkit.load.toml_text import read_bytes, shown_path, toml_table
from permitkit.model.reading import Written
from permitkit.model.rules import Sheet

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = ["load_layers", "load_sheet"]

_TABLES = ("schema", "sheet", "source", "rule", "edition", "permit")


def load_sheet(path: Path) -> Sheet:
    """Return one rule sheet.

    Parameters
    ----------
    path
        The file, such as `jurisdictions/<place>/rules.toml`.

    Raises
    ------
    InputError
        Everything that is wrong with the file, at once.
    """
    return _sheet_of(read_bytes(path), path)


@lru_cache(maxsize=512)
def _sheet_of(data: bytes, path: Path) -> Sheet:
    """Return the sheet a file's bytes state; the same bytes give the same sheet."""
    shown = shown_path(path)
    sheet, faults = _read(toml_table(data, shown), shown, hashlib.sha256(data).hexdigest())
    if faults or sheet is None:
        raise InputError(tuple(faults))
    return sheet


def _read(table: dict[str, Any], shown: str, digest: str) -> tuple[Sheet | None, list[Fault]]:
    """Return the sheet and every fault of its file."""
    faults: list[Fault] = []
    top = Written(table, "", faults)
    top.where = shown
    if top.take("schema") != 1:
        faults.append(Fault(f"{shown}: schema", str(table.get("schema")), "schema = 1"))
    head = read_head(top, shown, faults)
    rules = read_rules(top, shown, head.sources)
    permits = read_permits(top, shown, head.sources)
    _close(top, shown)
    sheet = Sheet(
        **head.fields, rules=rules, sources=head.sources, permits=permits, path=shown, digest=digest
    )
    return sheet, faults


def _close(top: Written, shown: str) -> None:
    """Note headings nobody knows."""
    unknown = [name for name in top.table if name not in _TABLES]
    for name in unknown:
        Written({name: 0}, f"{shown}: ", top.faults).close(also=_TABLES)


def load_layers(place: str, places: SheetPlaces | None = None) -> tuple[Sheet, ...]:
    """Return a town's sheet and those it builds on, the town first, each once.

    Parameters
    ----------
    place
        The town, by its folder's name.
    places
        Where to look; only among the shipped sheets where nothing is said.

    Raises
    ------
    UsageError
        No sheet of that name.
    InputError
        Everything that is wrong with the town's file and with those it builds on, at once.
    """
    faults: list[Fault] = []
    sheets: dict[str, Sheet] = {}
    _gather(place, places or SheetPlaces(), (), sheets, faults)
    if faults:
        raise InputError(tuple(dict.fromkeys(faults)))
    return tuple(_ordered(place, sheets))


def _gather(
    place: str,
    places: SheetPlaces,
    chain: tuple[str, ...],
    sheets: dict[str, Sheet],
    faults: list[Fault],
) -> None:
    """Load a sheet and those it follows, noting loops and layers that are not there."""
    if place in sheets:
        return
    try:
        sheets[place] = load_sheet(find_sheet(place, places))
    except InputError as error:
        faults.extend(error.faults)
        return
    except UsageError as error:
        if not chain:
            raise
        follower = sheets[chain[-1]].path
        fix = error.faults[0].fix
        faults.append(
            Fault(f"{follower}: sheet.follows", repr(place), "a place that has a sheet", fix)
        )
        return
    for followed in sheets[place].follows:
        if followed in (*chain, place):
            loop = " follows ".join((*chain, place, followed))
            faults.append(
                Fault(f"{sheets[place].path}: sheet.follows", loop, "layers without a loop")
            )
        else:
            _gather(followed, places, (*chain, place), sheets, faults)


def _ordered(place: str, sheets: dict[str, Sheet]) -> Iterator[Sheet]:
    """Yield the sheets nearest first: a sheet stands before every sheet it follows."""
    seen: list[str] = []

    def visit(name: str) -> None:
        for followed in reversed(sheets[name].follows):
            if followed not in seen:
                visit(followed)
        seen.append(name)

    visit(place)
    yield from (sheets[name] for name in reversed(seen))
