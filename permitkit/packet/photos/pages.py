"""The pages of photographs: pictures with arrows, what they show, and the day they were taken."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from permitkit.drawing.info import read_by_faces
from permitkit.drawing.lettering import CAP_HEIGHT, wrapped
from permitkit.drawing.shapes import Box, Polyline, Role
from permitkit.errors import Fault, InputError
from permitkit.packet.drawn import paper_of
from permitkit.packet.parts import Part
from permitkit.packet.photos.arrows import pointed
from permitkit.packet.say import day
from permitkit.render.blocks import Drawing, Heading, PageBreak, bold, escape
from permitkit.render.flow import render_flow
from permitkit.render.pdf import POINTS_PER_MM
from permitkit.render.photo import LARGEST_FILE, printed_picture

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from permitkit.checks.judge import Judged
    from permitkit.drawing.scale import Paper
    from permitkit.model.papers import Photo
    from permitkit.render.blocks import Block

__all__ = ["photo_blocks", "photo_part"]

_TITLE = "Photographs"
_SIDES_MM = 34.2
_HEAD_AND_FOOT_MM = 40.2
_HEADING_MM = 9.0
_TO_A_PAGE = 2
_AIR_MM = 4.0
_CAPTION_LINE_MM = 11.0 / POINTS_PER_MM
_CAPTION_CAPITALS_MM = 8.5 / POINTS_PER_MM * CAP_HEIGHT
_LEAST_MM = 30.0


class _Half:
    """Half a page: what a picture may take of it once its caption stands below."""

    def __init__(self, paper: Paper) -> None:
        self._width = paper.width_mm - _SIDES_MM
        free = paper.height_mm - _HEAD_AND_FOOT_MM - _HEADING_MM
        self._height = free / _TO_A_PAGE - _AIR_MM

    def room(self, caption: tuple[str, str]) -> tuple[float, float]:
        """Return the widest and the highest a picture may stand, in mm."""
        text = " ".join(caption)
        lines = wrapped(text, self._width, _CAPTION_CAPITALS_MM, bold=True)
        return self._width, max(self._height - len(lines) * _CAPTION_LINE_MM, _LEAST_MM)


def photo_part(judged: Judged, folder: Path) -> tuple[Part, ...]:
    """Return the pages of photographs; nothing where the job names no picture file.

    Parameters
    ----------
    judged
        The job.
    folder
        Where the job file stands; pictures are named from there.

    Raises
    ------
    InputError
        With a fault for every file that is missing, no picture, broken or too large, and for every
        text with letters that cannot be printed.
    """
    job = judged.job
    blocks = photo_blocks(job.papers.photo, folder, paper_of(job))
    if not blocks:
        return ()
    header = f"{job.site.address}, {judged.rules.sheets[0].title}"
    pdf = render_flow(blocks, paper_of(job), header, f"revision {job.revision}")
    return (Part("enclosures", _TITLE, file=pdf),)


def photo_blocks(photos: Sequence[Photo], folder: Path, paper: Paper) -> tuple[Block, ...]:
    """Return the photographs that name a file, under one heading, two to a page.

    Parameters
    ----------
    photos
        All of a job's, numbered as they stand there.
    folder
        Where their files are.
    paper
        Standing; the pictures are sized to it.

    Raises
    ------
    InputError
        As for `photo_part`.
    """
    half = _Half(paper.portrait)
    drawings: list[Block] = []
    faults: list[Fault] = []
    for number, photo in enumerate(photos, 1):
        if photo.file is None:
            continue
        faults += _unprintable(photo, number)
        try:
            drawings.append(_drawing(photo, number, folder, half))
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(tuple(faults))
    return (Heading(_TITLE), *_paired(drawings)) if drawings else ()


def _paired(drawings: Sequence[Block]) -> Iterator[Block]:
    for index, drawing in enumerate(drawings):
        if index and index % _TO_A_PAGE == 0:
            yield PageBreak()
        yield drawing


def _drawing(photo: Photo, number: int, folder: Path, half: _Half) -> Drawing:
    """Return one photograph, framed, with its arrows and its caption."""
    where = f"papers.photo[{number}].file"
    content = _content(folder, photo.file or "", where)
    picture = printed_picture(content, half.room(_caption(photo, number)), where)
    arrows = pointed(photo.arrow, picture.box)
    if arrows.key:
        picture = replace(
            picture, box=_within(picture.box, half.room(_caption(photo, number, arrows.key)))
        )
        arrows = pointed(photo.arrow, picture.box)
    edge = Polyline(picture.box.corners, Role.NOTE, closed=True)
    title, said = _caption(photo, number, arrows.key)
    caption = f"{bold(escape(title))} {escape(said)}"
    shapes = (picture, edge, *arrows.shapes)
    return Drawing(shapes, picture.box.width, picture.box.height, caption)


def _caption(photo: Photo, number: int, key: Sequence[str] = ()) -> tuple[str, str]:
    """Return what a photograph shows, and what else is said of it."""
    said = (photo.caption or "", *key, f"Taken {day(photo.taken)}")
    return f"{number}. {photo.shows}.", " ".join(f"{text.rstrip('.')}." for text in said if text)


def _within(box: Box, room: tuple[float, float]) -> Box:
    """Return a box made smaller, if it must be, to stand in a room."""
    share = min(1.0, room[0] / box.width, room[1] / box.height)
    return Box(0.0, 0.0, box.width * share, box.height * share)


def _content(folder: Path, name: str, where: str) -> bytes:
    """Return the bytes of a file beside the job."""
    path = folder / name
    wanted = f"a picture of that name beside the job, of at most {LARGEST_FILE // 1_000_000} MB"
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise InputError((Fault(where, f"{name!r}, a larger file", wanted, "save it smaller"),))
        return path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        fix = "put it there, or take `file` out"
        raise InputError((Fault(where, f"{name!r}: {reason}", wanted, fix),)) from error


def _unprintable(photo: Photo, number: int) -> Iterator[Fault]:
    """Return the texts of a photograph that the faces cannot print, and their letters."""
    texts = [photo.shows, photo.caption or "", *(arrow.says or "" for arrow in photo.arrow)]
    for text, letters in read_by_faces(texts):
        yield Fault(
            f"papers.photo[{number}]",
            f"{text[:40]!r} with {letters}",
            "letters of the Latin, Greek or Cyrillic alphabets",
            "write it in these",
        )
