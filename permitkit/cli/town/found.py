"""Finding the sheets that a command names: by place, by file, or all there are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.load.find_sheet import FILE, SheetPlaces, list_places, place_of
from permitkit.load.rule_sheet import load_layers

if TYPE_CHECKING:
    from permitkit.model.rules import Sheet

__all__ = ["every_place", "layers_of", "places_for"]


def _here() -> SheetPlaces:
    """Return where sheets are looked for: around the folder the command is called in."""
    return SheetPlaces(job=Path())


def every_place() -> tuple[str, ...]:
    """Return every place that has a sheet here or among those shipped."""
    return list_places(_here())


def places_for(name: str) -> tuple[str, SheetPlaces]:
    """Return the place that a name or a file means, and where its sheet and its layers are."""
    path = Path(name)
    if path.suffix != ".toml" and not path.is_dir() and path.name == name:
        return name, _here()
    if path.suffix != ".toml":
        path = path / FILE
    return place_of(path), SheetPlaces(job=Path(), file=path)


def layers_of(name: str) -> tuple[Sheet, ...]:
    """Return the sheet that a name or a file means, and those it follows.

    Raises
    ------
    UsageError
        No sheet of that name.
    InputError
        Everything that is wrong with the sheet and with those it builds on, at once.
    """
    return load_layers(*places_for(name))
