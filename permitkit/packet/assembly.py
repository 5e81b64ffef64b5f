"""Parts put together into one PDF: order, index, bookmarks, page numbers, draft mark."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.model.keys.papers import PACKET_ORDER
from permitkit.packet.drawn import drawn_parts, paper_of
from permitkit.packet.enclosures import attached_files, enclosures
from permitkit.packet.front import application, scope, transmittal
from permitkit.packet.office import office_parts
from permitkit.packet.parts import Part, in_order
from permitkit.packet.rules_page import rules_page
from permitkit.packet.sums import calculation, fees
from permitkit.packet.values import values_of
from permitkit.render.bound import Bound, bound
from permitkit.render.flow import render_flow
from permitkit.render.pdf import render_sheets

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from permitkit.checks.judge import Judged

__all__ = ["Made", "office_copy", "town_copy", "town_parts"]


@dataclass(frozen=True, slots=True)
class Made:
    """A finished PDF and its number of pages."""

    pdf: bytes
    pages: int


@dataclass(frozen=True, slots=True)
class _Rendered:
    part: Part
    pdf: bytes
    pages: int


def _header(judged: Judged) -> str:
    return f"{judged.job.site.address}, {judged.rules.sheets[0].title}"


def _rendered(judged: Judged, part: Part) -> _Rendered:
    pieces = []
    if part.blocks:
        pieces.append(
            render_flow(part.blocks, paper_of(judged.job), header=_header(judged), title=part.title)
        )
    if part.sheets:
        pieces.append(render_sheets(part.sheets, title=part.title))
    if part.file:
        pieces.append(part.file)
    whole = bound([Bound(part.title, piece) for piece in pieces])
    return _Rendered(part, whole.pdf, whole.pages)


def town_parts(judged: Judged, folder: Path) -> tuple[Part, ...]:
    """Return the town copy's parts after the transmittal, in the town's own order."""
    values = values_of(judged)
    parts = [
        application(judged, values),
        scope(values),
        *drawn_parts(judged, values),
        calculation(judged),
        rules_page(judged),
        fees(judged),
        *enclosures(judged, folder),
    ]
    order = judged.rules[PACKET_ORDER].value
    return in_order(parts, getattr(order, "steps", ()))


def _with_index(judged: Judged, rest: Sequence[_Rendered]) -> _Rendered:
    """Return the transmittal with page numbers, laid out twice: its own length moves the rest."""
    pages = 1
    for _ in range(3):
        start = pages + 1
        index = []
        for piece in rest:
            index.append((piece.part.title, str(start)))
            start += piece.pages
        made = _rendered(judged, transmittal(judged, index))
        if made.pages == pages:
            return made
        pages = made.pages
    return made


def _bound(
    judged: Judged,
    pieces: Sequence[_Rendered],
    title: str,
    *,
    draft: bool,
    files: Sequence[tuple[str, bytes]] = (),
) -> Made:
    made = bound(
        [Bound(piece.part.title, piece.pdf) for piece in pieces],
        title=title,
        author=judged.job.firm.name if judged.job.firm else "",
        day=judged.job.filing,
        footer=f"{_header(judged)}, revision {judged.job.revision}",
        draft=draft,
        files=files,
    )
    return Made(made.pdf, made.pages)


def town_copy(judged: Judged, *, draft: bool, folder: Path) -> Made:
    """Return the town's copy of the packet."""
    rest = [_rendered(judged, part) for part in town_parts(judged, folder)]
    title = f"Right-of-way permit packet: {_header(judged)}"
    return _bound(judged, [_with_index(judged, rest), *rest], title, draft=draft)


def office_copy(judged: Judged, *, draft: bool, folder: Path) -> Made:
    """Return the office copy: state, crew card, take-off, calendar, money, with the files inside."""
    pieces = [_rendered(judged, part) for part in office_parts(judged)]
    title = f"Office copy: {_header(judged)}"
    return _bound(judged, pieces, title, draft=draft, files=attached_files(judged, folder))
