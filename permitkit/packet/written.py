"""Writing a file so that the old one stays whole until the new one is complete."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from permitkit.errors import Fault, OutputError

__all__ = ["write_whole"]


def write_whole(path: Path, content: bytes) -> None:
    """Write the bytes beside the path, then put them in its place in one step.

    Raises
    ------
    OutputError
        The folder is missing or cannot be written; an older file is left as it was.
    """
    try:
        _replace(path, content)
    except OSError as error:
        fault = Fault(
            where=str(path),
            found=(error.strerror or "the file cannot be written").lower(),
            expected="a folder that exists and can be written",
            fix="make the folder, close the file elsewhere, or name another place",
        )
        raise OutputError((fault,)) from error


def _replace(path: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
