"""Texts set on a drawing: placed clear of everything, led or keyed where it is tight."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.dimensions import Leader
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.placing import BUBBLE_MM, SIDES, Mode, Place, Side, Want, place
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Circle,
    Fill,
    Label,
    Point,
    Polyline,
    Primitive,
    Role,
    Shape,
)
from permitkit.drawing.sheet import flatten, segments_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

__all__ = ["Annotated", "Note", "annotate", "bubble"]

_WRAP_MM = 62.0


@dataclass(frozen=True, slots=True)
class Note:
    """A text to be set by a point of the drawing.

    Parameters
    ----------
    text
        What it says.
    tip
        The point it speaks of. [mm]
    size_mm, bold, role
        As for a label.
    prefer
        The sides it may stand on, best first.
    priority
        Higher ones choose first.
    clear_mm
        How far it keeps from its point. [mm]
    wrap_mm
        The widest line. [mm]
    dot
        Whether a leader ends in a dot, inside a surface, rather than a head at an edge.
    also
        Other points that would do as well as the tip. [mm]
    """

    text: str
    tip: Point
    size_mm: float = LEAST_LETTERING_MM
    bold: bool = False
    role: Role = Role.TEXT
    prefer: tuple[Side, ...] = SIDES
    priority: int = 0
    clear_mm: float = 1.5
    wrap_mm: float = _WRAP_MM
    dot: bool = False
    also: tuple[Point, ...] = ()

    @property
    def label(self) -> Label:
        """Return the text, broken into lines, with its bottom left corner at the origin."""
        lines = wrapped(self.text, self.wrap_mm, self.size_mm, bold=self.bold)
        return Label(
            "\n".join(lines),
            (0.0, 0.0),
            Anchor.SW,
            self.size_mm,
            bold=self.bold,
            backing=True,
            role=self.role,
        )


class Annotated(NamedTuple):
    """Notes as shapes, and the texts of those that stand in the key, first number first."""

    shapes: tuple[Shape, ...]
    key: tuple[str, ...]


def annotate(
    notes: Sequence[Note], room: Box, drawn: Sequence[Shape], first_number: int = 1
) -> Annotated:
    """Return notes as shapes that cover neither each other nor a text or stroke already drawn.

    Parameters
    ----------
    notes
        What is to be said, in the order in which a key would number it.
    room
        Nothing is set outside it. [mm]
    drawn
        What is on the sheet already. Hatches may be written on, with white behind the letters.
    first_number
        Where the key goes on, if the sheet has one from another view.

    Returns
    -------
    Annotated
        The shapes, and the texts that found no room: their numbers stand on the drawing.
    """
    labels = [note.label for note in notes]
    wants = [_want(note, label) for note, label in zip(notes, labels, strict=True)]
    marks = tuple(flatten(drawn))
    pipes = [mark for mark in marks if mark.role is Role.PIPE]
    places = place(wants, room, _boxes(marks), segments_of(marks), segments_of(pipes))
    shapes: list[Shape] = []
    for note, label, spot in zip(notes, labels, places, strict=True):
        shapes.extend(_set(note, label, spot, first_number))
    keyed = (note.text for note, spot in zip(notes, places, strict=True) if spot.number)
    return Annotated(tuple(shapes), tuple(keyed))


def _want(note: Note, label: Label) -> Want:
    """Return the room a note asks for."""
    box = label.box
    return Want(
        box.width, box.height, note.tip, note.clear_mm, note.prefer, note.priority, note.also
    )


def _boxes(drawn: Iterable[Primitive]) -> list[Box]:
    """Return the boxes of texts already drawn and of dots, which may not be covered."""
    boxes: list[Box] = []
    for mark in drawn:
        if isinstance(mark, Label):
            boxes.extend(mark.boxes)
        elif isinstance(mark, Circle) and mark.fill is Fill.SOLID:
            boxes.append(Box(*mark.centre, *mark.centre).grown(mark.radius_mm))
    return boxes


def _set(note: Note, label: Label, spot: Place, first_number: int) -> tuple[Shape, ...]:
    """Return the shapes of one placed note."""
    if spot.mode is Mode.UNPLACED:
        return ()
    if spot.mode is Mode.KEYED:
        numbered = bubble(spot.box.centre, first_number - 1 + spot.number)
        if not spot.leader:
            return numbered
        dot = Circle(spot.leader[0], 0.5, Role.DIMENSION, Fill.SOLID, outlined=False)
        return Polyline(spot.leader, Role.DIMENSION), dot, *numbered
    box = label.box
    moved = replace(label, at=(spot.box.left - box.left, spot.box.bottom - box.bottom))
    if spot.mode is Mode.BESIDE:
        return (moved,)
    return (Leader(spot.leader, moved, dot=note.dot),)


def bubble(centre: Point, number: int) -> tuple[Shape, ...]:
    """Return a numbered bubble, as used for texts that stand in the key."""
    ring = Circle(centre, BUBBLE_MM / 2, Role.DIMENSION, Fill.WHITE)
    return ring, Label(str(number), centre, Anchor.C)
