"""Drawn sheets written as files: all of them as SVG and as one PDF, the site sketch as DXF."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from permitkit.drawing.scale import Kind, System, scales
from permitkit.errors import Fault, UsageError
from permitkit.packet.drawn import drawn_parts
from permitkit.packet.values import values_of
from permitkit.packet.written import write_whole
from permitkit.render.dxf import render_dxf
from permitkit.render.pdf import render_sheets
from permitkit.render.svg import render_svg

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from permitkit.checks.judge import Judged
    from permitkit.drawing.sheet import Sheet
    from permitkit.packet.parts import Part

__all__ = ["KINDS", "sketch_files"]

KINDS = ("svg", "dxf", "pdf")
"""The kinds of file a drawing can be written as."""

_DRAFTED = "site sketch"
_ALL = "drawings.pdf"
_SCALES = {scale.text: scale for system in System for scale in scales(Kind.PLAN, system)}


def sketch_files(
    judged: Judged, folder_out: Path, kinds: Sequence[str] = KINDS
) -> tuple[Path, ...]:
    """Write the drawings of a job, the same sheets as in the packet; return the files.

    Parameters
    ----------
    judged
        The job.
    folder_out
        A folder that exists; files of the same names are replaced, each when the new one is whole.
    kinds
        Any of `KINDS`: an SVG for each sheet, a DXF for each plan of the site sketch, in feet or
        metres on the ground, and one PDF of all sheets.

    Raises
    ------
    UsageError
        If a kind is not known.
    InputError
        If a text has letters that cannot be drawn.
    OutputError
        If the folder cannot be written, or DXF is wanted and its library is not installed. Every
        file is drawn before the first is written.
    """
    _check(kinds)
    parts = [part for part in drawn_parts(judged, values_of(judged)) if part.sheets]
    files = {name: content for kind in kinds for name, content in _drawn(kind, parts, judged)}
    paths = {folder_out / name: content for name, content in files.items()}
    for path, content in paths.items():
        write_whole(path, content)
    return tuple(paths)


def _check(kinds: Iterable[str]) -> None:
    """Refuse a kind of file that is not known."""
    faults = tuple(
        Fault("kind of drawing file", repr(kind), f"any of {', '.join(KINDS)}")
        for kind in kinds
        if kind not in KINDS
    )
    if faults:
        raise UsageError(faults)


def _drawn(kind: str, parts: Sequence[Part], judged: Judged) -> Iterator[tuple[str, bytes]]:
    """Return the files of one kind, each with its name."""
    if kind == "pdf":
        sheets = [sheet for part in parts for sheet in part.sheets]
        title = f"Drawings: {judged.job.site.address}"
        author = judged.job.firm.name if judged.job.firm else ""
        yield _ALL, render_sheets(sheets, title=title, author=author)
        return
    for name, sheet in _named(parts, of="" if kind == "svg" else _DRAFTED):
        if kind == "svg":
            yield f"{name}.svg", render_svg(sheet)
        elif sheet.scale_text in _SCALES:
            yield f"{name}.dxf", render_dxf(sheet, _SCALES[sheet.scale_text])


def _named(parts: Iterable[Part], of: str) -> Iterator[tuple[str, Sheet]]:
    """Return sheets with the names of their files: the part's, numbered from its second on."""
    count: Counter[str] = Counter()
    for part in parts:
        if of in ("", part.key):
            for sheet in part.sheets:
                count[part.key] += 1
                name = part.key.replace(" ", "-")
                yield (name if count[part.key] == 1 else f"{name}-{count[part.key]}"), sheet
