"""A sheet whose key, legend and notes stand in its frame, or where its drawing leaves room."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import combinations
from typing import TYPE_CHECKING

from permitkit.drawing.frame import continuation, drawing_room
from permitkit.drawing.info import loosened
from permitkit.drawing.scale import Paper
from permitkit.drawing.shapes import Pattern, Role
from permitkit.drawing.sheet_parts.blanks import blanks, poured
from permitkit.drawing.sheet_parts.prose import NO_LEGEND, legend, prose

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.shapes import Box, Shape
    from permitkit.drawing.sheet import Sheet
    from permitkit.drawing.sheet_parts.prose import Prose
    from permitkit.model.job import Job

__all__ = ["Said", "noted_sheet", "settled", "waits", "with_notes_sheets"]

_GAP_MM = 3.0
_BLOCKS = ("notes", "legend", "key")


@dataclass(frozen=True, slots=True)
class Said:
    """What is said beside a drawing.

    Parameters
    ----------
    key
        What the numbered bubbles say, first number first.
    notes
        Sentences, what matters most first.
    words
        Phrases of the legend in place of the usual ones.
    """

    key: Sequence[str]
    notes: Sequence[str]
    words: Mapping[Role | Pattern, str]

    def without(self, moved: Sequence[str]) -> dict[str, object]:
        """Return what the frame still says when some of it stands in the drawing."""
        return {
            "key": () if "key" in moved else [loosened(text) for text in self.key],
            "notes": () if "notes" in moved else self.notes,
            "words": NO_LEGEND if "legend" in moved else self.words,
        }


def settled(
    shapes: tuple[Shape, ...], frees: Sequence[Box], said: Said, frame: Callable[..., Sheet]
) -> Sheet:
    """Return a sheet with as little as can be waiting for a sheet of notes.

    Parameters
    ----------
    shapes
        The drawing.
    frees
        Parts of its room that nothing is drawn on. [mm]
    said
        Key, notes and legend.
    frame
        `framed` with everything but shapes, key, notes and words.
    """
    best = frame(shapes=shapes, **said.without(()))
    for moved in _choices(said):
        if not _left_of(best):
            break
        set_in = _placed(shapes, frees, said, moved)
        if set_in:
            sheet = frame(shapes=(*shapes, *set_in), **said.without(moved))
            best = min(best, sheet, key=_left_of)
    return _in_blanks(best, shapes, said.notes, partial(frame, **said.without(("notes",))))


def noted_sheet(
    shapes: tuple[Shape, ...], free: Box, notes: Sequence[str], frame: Callable[..., Sheet]
) -> Sheet:
    """Return a sheet whose notes stand beside the drawing, and where that is full, below it.

    Parameters
    ----------
    shapes
        The drawing.
    free
        The part of its room that nothing is drawn on. [mm]
    notes
        Sentences, what matters most first.
    frame
        `framed` with everything but shapes and notes.
    """
    sheet = _shared(frame(shapes=shapes, notes=notes), shapes, notes, (free,), frame)
    return _in_blanks(sheet, shapes, notes, frame)


def _shared(
    sheet: Sheet,
    shapes: tuple[Shape, ...],
    notes: Sequence[str],
    boxes: Sequence[Box],
    frame: Callable[..., Sheet],
) -> Sheet:
    """Return a sheet with the last of its notes in some boxes, as many as leave least waiting."""
    best = sheet
    for cut in reversed(range(len(notes))):
        if not _left_of(best):
            break
        below = poured("Notes, continued" if cut else "Notes", notes[cut:], boxes)
        if below.left_over:
            break
        again = frame(shapes=(*shapes, *below.shapes), notes=notes[:cut])
        best = min(best, again, key=_left_of)
    return best


def _in_blanks(
    sheet: Sheet, shapes: tuple[Shape, ...], notes: Sequence[str], frame: Callable[..., Sheet]
) -> Sheet:
    """Return a sheet whose notes stand wherever the drawing is blank, if some would wait else."""
    if not _left_of(sheet):
        return sheet
    room = drawing_room(Paper("", sheet.width_mm, sheet.height_mm))
    return _shared(sheet, shapes, notes, blanks(shapes, room), frame)


def _choices(said: Said) -> Iterator[tuple[str, ...]]:
    """Yield what may be moved into the drawing, the least first."""
    blocks = [block for block in _BLOCKS if block != "key" or said.key]
    for count in range(1, len(blocks) + 1):
        yield from combinations(blocks, count)


def _placed(
    shapes: tuple[Shape, ...], frees: Sequence[Box], said: Said, moved: Sequence[str]
) -> tuple[Shape, ...]:
    """Return blocks set one over the other in the free parts, or nothing if one has no room."""
    rooms = list(frees)
    placed: list[Shape] = []
    for block in moved:
        for index, room in enumerate(rooms):
            found = _block(shapes, room, said, block)
            if found.shapes and not found.left_over and found.height_mm <= room.height:
                placed.extend(found.shapes)
                rooms[index] = room._replace(bottom=room.bottom + found.height_mm + _GAP_MM)
                break
        else:
            return ()
    return tuple(placed)


def _block(shapes: tuple[Shape, ...], room: Box, said: Said, block: str) -> Prose:
    """Return one block on the bottom of a room."""
    if block == "legend":
        return legend(shapes, said.words, room)
    if block == "notes":
        return prose("Notes", said.notes, room)
    numbered = [f"{number}  {loosened(text)}" for number, text in enumerate(said.key, 1)]
    return prose("Key", numbered, room)


def _left_of(sheet: Sheet) -> int:
    """Return how much of a sheet found no room on it."""
    return len(sheet.left_over) + len(sheet.unexplained)


def waits(sheet: Sheet) -> bool:
    """Return whether something found no room on a sheet."""
    return _left_of(sheet) > 0


def with_notes_sheets(
    sheets: Sequence[Sheet], job: Job, info: SheetInfo, under: Sequence[Shape] = ()
) -> tuple[Sheet, ...]:
    """Return the sheets of a view, and after them one or more with what found no room on them.

    Parameters
    ----------
    sheets
        The view's own sheets, numbered one after the other.
    job, info
        For the title blocks of the sheets of notes.
    under
        Tables that stand at the top of the first of those sheets, which lies on its long side.
    """
    waiting = list(filter(waits, sheets))
    if not (waiting or under):
        return tuple(sheets)
    first = sheets[0] if under else waiting[0]
    paper = Paper("as drawn", first.width_mm, first.height_mm)
    paper = paper.landscape if under else paper
    names = (*(("tables",) if under else ()), *(("notes",) if waiting else ()))
    block = info.title_block(job, f"{first.title}: {' and '.join(names)}", len(sheets))
    return (*sheets, *continuation(waiting, paper, block, under))
