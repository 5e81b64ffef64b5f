"""Where templates are looked for: the town's, those it follows, the firm's, those shipped."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.load.find_sheet import folder_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.model.rules import Sheet

__all__ = ["FOLDER", "shipped_templates", "template_folders", "templates_of"]

FOLDER = "templates"


@cache
def shipped_templates() -> Path:
    """Return the folder of the templates that came with the program."""
    package = Path(str(files("permitkit")))
    shipped = package / "shipped" / FOLDER
    return shipped if shipped.is_dir() else package.parent / FOLDER


def templates_of(sheet: Sheet) -> Path:
    """Return the folder of a sheet's own templates, which need not be there."""
    return folder_of(sheet.file) / FOLDER


def template_folders(sheets: Iterable[Sheet], own: Iterable[Path] = ()) -> tuple[Path, ...]:
    """Return the folders in which a template is looked for, the nearest first.

    Parameters
    ----------
    sheets
        The town's sheet, then those it follows; each may have templates beside it.
    own
        The firm's own folders.
    """
    wanted = (*(templates_of(sheet) for sheet in sheets), *own, shipped_templates())
    return tuple(folder for folder in dict.fromkeys(wanted) if folder.is_dir())
