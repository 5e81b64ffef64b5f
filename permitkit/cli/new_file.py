"""Writing a file that is new: nothing that is there is ever written over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault, OutputError

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["write_new"]


def write_new(path: Path, text: str) -> None:
    """Write a text to a new file, and make its folder where there is none yet.

    Raises
    ------
    OutputError
        There is such a file already, or the folder cannot be made or written.
    """
    from permitkit.packet.written import write_whole

    if path.exists():
        fix = "name another file, or move this one away"
        raise OutputError((Fault(str(path), "a file that is there already", "a new file", fix),))
    _make_folder(path.parent)
    write_whole(path, text.encode())


def _make_folder(folder: Path) -> None:
    """Make the folder of a new file, where it is not there yet."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        found = (error.strerror or "a folder that cannot be made").lower()
        raise OutputError((Fault(str(folder), found, "a folder that can be made"),)) from error
