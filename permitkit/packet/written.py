"""Writing a file so that the old one stays whole, and what the town's portal would not take."""

from __future__ import annotations

import os
import re
import tempfile
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.errors import Fault, OutputError
from permitkit.model.keys.papers import PACKET_FILES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.study.in_force import RulesInForce

__all__ = ["not_taken", "write_whole"]

_SIZE = re.compile(r"([0-9]{1,4}(?:\.[0-9]{1,2})?) ?(KB|MB|GB)")
_BYTES = {"KB": 10**3, "MB": 10**6, "GB": 10**9}
_PAPERS = {"letter": (612, 792), "11x17": (792, 1224), "a4": (595, 842), "a3": (842, 1191)}
_POINT = 2


def not_taken(rules: RulesInForce, content: bytes) -> tuple[str, ...]:
    """Return what the town's portal would not take of a finished file, in sentences.

    Of what a sheet may say of files the size and the page size are looked at; the town's copy
    carries no attached files at all.
    """
    rule = rules[PACKET_FILES]
    stated = {item.name: item.number for item in rule.items} if rule.known else {}
    told = (*_too_large(stated.get("size", ""), content), *_other_paper(stated, content))
    return tuple(f"{each} ({rule.source})" for each in told)


def _too_large(limit: str, content: bytes) -> Iterator[str]:
    match = _SIZE.fullmatch(limit)
    if match and len(content) > float(match[1]) * _BYTES[match[2]]:
        size = f"{len(content) / _BYTES[match[2]]:.1f} {match[2]}"
        yield f"{size}, and the portal takes {limit}: bind in smaller photographs"


def _other_paper(stated: dict[str, str], content: bytes) -> Iterator[str]:
    from pypdf import PdfReader  # noqa: PLC0415 - only where the sheet says of which size

    wanted = _PAPERS.get(stated.get("page size", "").lower())
    pages = PdfReader(BytesIO(content)).pages if wanted else ()
    other = [n for n, page in enumerate(pages, 1) if not _is(page.mediabox, wanted)]
    if other:
        yield f"page {other[0]} is not {stated['page size']}, which the portal takes"


def _is(box: object, wanted: tuple[int, int] | None) -> bool:
    sides = sorted((float(getattr(box, "width", 0)), float(getattr(box, "height", 0))))
    return wanted is not None and all(
        abs(side - due) < _POINT for side, due in zip(sides, wanted, strict=True)
    )


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
