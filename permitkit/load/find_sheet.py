"""Where a town's sheet is: beside the job, in the firm's folder, among those shipped."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.errors import Fault, UsageError

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = [
    "FILE",
    "SheetPlaces",
    "find_sheet",
    "folder_of",
    "list_places",
    "place_of",
    "shipped_folder",
]

FOLDER = "jurisdictions"
FILE = "rules.toml"
_BEGUN = "begin a sheet for it with `permitkit town new`"


@dataclass(frozen=True, slots=True)
class SheetPlaces:
    """The folders a sheet is looked for in, nearest first; the shipped sheets come last.

    Parameters
    ----------
    job
        The folder the job file stands in.
    firm
        The firm's folder.
    file
        A sheet's own file, which stands before every other sheet of its name; what it follows is
        looked for around it as well.
    """

    job: Path | None = None
    firm: Path | None = None
    file: Path | None = None

    def folders(self) -> Iterator[Path]:
        """Yield every folder that may hold sheets, nearest first."""
        beside = around(self.file) if self.file is not None else None
        for folder in (beside, self.job, self.firm):
            if folder is not None:
                yield folder / FOLDER
                yield folder
        yield shipped_folder()


@cache
def shipped_folder() -> Path:
    """Return the folder of the sheets that came with the program."""
    package = Path(str(files("permitkit")))
    shipped = package / "shipped" / FOLDER
    return shipped if shipped.is_dir() else package.parent / FOLDER


def place_of(path: Path) -> str:
    """Return the place whose sheet a file is, by its folder's name or its own.

    Examples
    --------
    >>> place_of(Path("jurisdictions/ford/rules.toml")), place_of(Path("sheets/ford.toml"))
    ('ford', 'ford')
    """
    return path.absolute().parent.name if path.name == FILE else path.stem


def around(path: Path) -> Path:
    """Return the folder in which the sheets beside a sheet's file are looked for."""
    folder = path.absolute().parent
    return folder.parent if path.name == FILE else folder


def folder_of(path: Path) -> Path:
    """Return the folder of what goes with a sheet: its forms, its templates.

    Examples
    --------
    >>> folder_of(Path("jurisdictions/ford/rules.toml")).as_posix()
    'jurisdictions/ford'
    >>> folder_of(Path("sheets/ford.toml")).as_posix()
    'sheets/ford'
    """
    return path.parent if path.name == FILE else path.parent / path.stem


def find_sheet(place: str, places: SheetPlaces | None = None) -> Path:
    """Return the file of a town's sheet.

    Parameters
    ----------
    place
        The town, by its folder's name: `<place>/rules.toml`, or a file `<place>.toml`.
    places
        Where to look; only among the shipped sheets where nothing is said.

    Raises
    ------
    UsageError
        No sheet of that name; the nearest names are offered.
    """
    looked = places or SheetPlaces()
    if looked.file is not None and place_of(looked.file) == place:
        return looked.file
    if place and not set(place) & set("/\\.:"):
        for folder in looked.folders():
            for path in (folder / place / FILE, folder / f"{place}.toml"):
                if path.is_file():
                    return path
    from permitkit.model.reading import nearest  # noqa: PLC0415 - slow, and only here needed

    names = list_places(looked)
    raise UsageError(
        (
            Fault(
                f"town {place!r}",
                "no sheet of that name",
                f"one of {', '.join(names) or 'no sheet at all'}",
                nearest(place, names) or _BEGUN,
            ),
        )
    )


def list_places(places: SheetPlaces | None = None) -> tuple[str, ...]:
    """Return every town and layer that has a sheet, by name."""
    looked = places or SheetPlaces()
    found = {path.parent.name for folder in looked.folders() for path in folder.glob(f"*/{FILE}")}
    return tuple(sorted(found | set(_single_files(looked))))


def _single_files(places: SheetPlaces) -> Iterator[str]:
    """Yield sheets that are a file alone in a folder of sheets."""
    for folder in places.folders():
        if folder.name == FOLDER:
            yield from (path.stem for path in folder.glob("*.toml"))
