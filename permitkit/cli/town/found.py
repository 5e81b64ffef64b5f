"""Finding the sheets that a command names: by place, by file, or all there are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from permitkit.errors import Fault
    from permitkit.load.find_sheet import SheetPlaces
    from permitkit.model.rules import Sheet

__all__ = ["Place", "every_place", "layers_of", "strange_sheets"]

Place = Annotated[str, typer.Argument(metavar="PLACE", help="A town, or the file of its sheet.")]


def every_place() -> tuple[str, ...]:
    """Return every place that has a sheet here or among those shipped."""
    from permitkit.load.find_sheet import SheetPlaces, list_places

    return list_places(SheetPlaces(job=Path()))


def layers_of(name: str) -> tuple[Sheet, ...]:
    """Return the sheet that a name or a file means, and those it follows.

    Raises
    ------
    UsageError
        No sheet of that name.
    InputError
        Everything that is wrong with the sheet and with those it builds on, at once.
    """
    from permitkit.load.rule_sheet import load_layers

    return load_layers(*_meant(name))


def strange_sheets(name: str, sheet: Sheet) -> tuple[Fault, ...]:
    """Return a fault for each sheet of another authority's street that is not there."""
    from permitkit.errors import Fault, UsageError
    from permitkit.load.find_sheet import find_sheet

    found = []
    places = _meant(name)[1]
    for street in sheet.listed_streets:
        try:
            if street.sheet:
                find_sheet(street.sheet, places)
        except UsageError as error:
            where = f"{sheet.path}: sheet.listed_streets.{street.name}.sheet"
            expected = "a place that has a sheet"
            found.append(Fault(where, repr(street.sheet), expected, error.faults[0].fix))
    return tuple(found)


def _meant(name: str) -> tuple[str, SheetPlaces]:
    """Return the place that a name or a file means, and where its sheet and its layers are."""
    from permitkit.load.find_sheet import FILE, SheetPlaces, place_of

    path = Path(name)
    if path.suffix != ".toml":
        path = path / FILE
        if Path(name).name == name and not path.is_file():
            return name, SheetPlaces(job=Path())
    return place_of(path), SheetPlaces(job=Path(), file=path)
