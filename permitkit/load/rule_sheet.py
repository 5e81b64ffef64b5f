"""Rule sheets: one town's file, and the sheets it builds on, read into the model."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault, InputError, UsageError
from permitkit.load.find_sheet import FILE, SheetPlaces, find_sheet, place_of
from permitkit.load.sheet.head import read_head
from permitkit.load.sheet.order import in_layers
from permitkit.load.sheet.rules import read_permits, read_rules
from permitkit.load.toml_text import read_bytes, read_toml, shown_path, toml_table
from permitkit.model.reading import Written, nearest
from permitkit.model.reading.written import quoted
from permitkit.model.rules import Sheet

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["load_layers", "load_sheet", "read_sheet"]

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
    return read_sheet(read_bytes(path), path)


@lru_cache(maxsize=512)
def read_sheet(data: bytes, path: Path) -> Sheet:
    """Return the sheet that a file's bytes state; the same bytes give the same sheet.

    Raises
    ------
    InputError
        Everything that is wrong with the file, at once.
    """
    table = toml_table(data, shown_path(path))
    faults: list[Fault] = []
    sheet = _read(table, path, data, faults)
    if faults:
        raise InputError(tuple(faults))
    return sheet


def _read(table: dict[str, Any], path: Path, data: bytes, faults: list[Fault]) -> Sheet:
    """Return the sheet a table states, noting every fault of its file."""
    shown = shown_path(path)
    top = Written(table, shown, faults)
    if table.get("schema") != 1:
        found = quoted(table["schema"]) if "schema" in table else "nothing"
        faults.append(Fault(f"{shown}: schema", found, "schema = 1"))
    head = read_head(top, shown, faults)
    _check_place(head.fields["place"], path, faults)
    rules = read_rules(top, shown, head.sources)
    permits = read_permits(top, shown, head.sources)
    for name in (name for name in table if name not in _TABLES):
        expected = f"one of {', '.join(_TABLES)}"
        faults.append(
            Fault(f"{shown}: {name}", f"a heading {name!r}", expected, nearest(name, _TABLES))
        )
    return Sheet(
        **head.fields,
        rules=rules,
        sources=head.sources,
        permits=permits,
        path=shown,
        digest=hashlib.sha256(data).hexdigest(),
        data=data,
        file=path,
    )


def _check_place(place: str, path: Path, faults: list[Fault]) -> None:
    """Note a sheet whose folder, or file where it stands alone, has another name."""
    named = place_of(path)
    if place and place != named:
        expected = f"{named!r}, as its {'folder' if path.name == FILE else 'file'} is named"
        faults.append(Fault(f"{shown_path(path)}: sheet.place", repr(place), expected))


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
    gathered = _Gathered(places or SheetPlaces())
    gathered.add(place, ())
    if gathered.faults:
        raise InputError(tuple(dict.fromkeys(gathered.faults)))
    return tuple(in_layers(place, gathered.sheets))


class _Gathered:
    """A town's sheet and those it follows while they are loaded, with every fault on the way."""

    def __init__(self, places: SheetPlaces) -> None:
        self.places = places
        self.sheets: dict[str, Sheet] = {}
        self.faults: list[Fault] = []
        self._paths: dict[str, Path] = {}

    def add(self, place: str, chain: tuple[str, ...]) -> None:
        """Load a sheet and those it follows, noting loops and layers that are not there."""
        if place in self._paths:
            return
        path = self._found(place, chain)
        if path is None:
            return
        self._paths[place] = path
        for followed in self._loaded(place, path):
            if followed in (*chain, place):
                loop = " follows ".join((*chain, place, followed))
                self._fault(place, loop, "layers without a loop")
            else:
                self.add(followed, (*chain, place))

    def _found(self, place: str, chain: tuple[str, ...]) -> Path | None:
        """Return a sheet's file; a layer that is not there is a fault of the sheet before it."""
        try:
            return find_sheet(place, self.places)
        except UsageError as error:
            if not chain:
                raise
            fix = error.faults[0].fix
            self._fault(chain[-1], repr(place), "a place that has a sheet", fix)
            return None

    def _loaded(self, place: str, path: Path) -> tuple[str, ...]:
        """Load a sheet, and return what it follows even where it has faults."""
        try:
            self.sheets[place] = load_sheet(path)
        except InputError as error:
            self.faults.extend(error.faults)
            return _stated_layers(path)
        return self.sheets[place].follows

    def _fault(self, place: str, found: str, expected: str, fix: str = "") -> None:
        where = f"{shown_path(self._paths[place])}: sheet.follows"
        self.faults.append(Fault(where, found, expected, fix))


def _stated_layers(path: Path) -> tuple[str, ...]:
    """Return what a sheet with faults says it follows, as far as it can be read."""
    try:
        head = read_toml(path).get("sheet")
    except InputError:
        return ()
    return Written(head if isinstance(head, dict) else {}, "", []).texts("follows", some=False)
