"""Marks that every drawing shares: north arrow, scale bar, lettered lines, flow, levels, titles."""

from __future__ import annotations

import math
from itertools import islice, pairwise
from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import Arrow
from permitkit.drawing.scale import Scale, scale_bar_steps
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Circle,
    Fill,
    Label,
    Line,
    Point,
    Polygon,
    Polyline,
    Role,
    Shape,
    turned,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

__all__ = [
    "UTILITY_LETTERS",
    "break_line",
    "flow_arrow",
    "ground_marks",
    "lettered_line",
    "match_line",
    "north_arrow",
    "scale_bar",
    "section_mark",
    "view_title",
]

UTILITY_LETTERS: Mapping[Role, str] = MappingProxyType(
    {
        Role.UTILITY_ELECTRIC: "E",
        Role.UTILITY_GAS: "G",
        Role.UTILITY_COMMUNICATION: "C",
        Role.UTILITY_WATER: "W",
        Role.UTILITY_RECLAIMED: "R",
        Role.UTILITY_SEWER: "S",
        Role.UTILITY_DRAIN: "D",
    }
)
"""The letter in the line of each utility; it carries the meaning where colour is lost."""

_BAR_MM = 1.6


def north_arrow(at: Point, north_deg: float, size_mm: float = 14.0) -> tuple[Shape, ...]:
    """Return a north arrow whose ring is centred at a point.

    Parameters
    ----------
    at
        The middle of the ring. [mm]
    north_deg
        Where north lies on the sheet, anticlockwise from the x axis: 90 is up. [degrees]
    size_mm
        Height of the needle. [mm]
    """
    half, width = size_mm / 2, size_mm / 6

    def set_in(across: float, along: float) -> Point:
        return turned((at[0] + along, at[1] - across), at, north_deg)

    tip, tail, notch = set_in(0, half), set_in(0, -half), set_in(0, -half * 0.45)
    left, right = set_in(-width, -half), set_in(width, -half)
    letter = Label("N", set_in(0, half + 3.0), Anchor.C, 3.5, bold=True)
    return (
        Circle(at, size_mm * 0.36, Role.FRAME),
        Polygon((tip, left, notch), Role.FRAME, Fill.WHITE),
        Polygon((tip, notch, right), Role.FRAME, Fill.SOLID),
        Line(notch, tail, Role.FRAME),
        letter,
    )


def scale_bar(at: Point, scale: Scale, room_mm: float) -> tuple[Shape, ...]:
    """Return a scale bar in round units, its bottom left corner at a point.

    Parameters
    ----------
    at
        The left end of the bar's underside. [mm]
    scale
        The scale it is for.
    room_mm
        How wide it may be, its figures included. [mm]
    """
    bar = scale_bar_steps(scale, room_mm - 12.0)
    shapes: list[Shape] = []
    for step in range(bar.count):
        left = at[0] + step * bar.step_mm
        corners = _rectangle((left, at[1]), bar.step_mm, _BAR_MM)
        shapes.append(Polygon(corners, Role.FRAME, Fill.WHITE if step % 2 else Fill.SOLID))
    for step in range(bar.count + 1):
        figure = f"{step * bar.step}" + (f" {bar.unit}" if step == bar.count else "")
        foot = (at[0] + step * bar.step_mm, at[1] + _BAR_MM + 0.6)
        first_letter = Label(str(step * bar.step), foot, Anchor.S).box.left
        shapes.append(Label(figure, (first_letter, foot[1]), Anchor.SW))
    return tuple(shapes)


def _rectangle(corner: Point, width: float, height: float) -> tuple[Point, ...]:
    """Return the corners of an upright rectangle from its bottom left one."""
    x, y = corner
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def lettered_line(
    points: Sequence[Point],
    role: Role,
    letter: str | None = None,
    pitch_mm: float = 32.0,
    avoid: Iterable[Box] = (),
) -> tuple[Shape, ...]:
    """Return a line broken by its letter every so often, at least once where it is long enough.

    Parameters
    ----------
    points
        The run of the line. [mm]
    role
        A utility, whose letter is known, or any role with `letter` given.
    letter
        What stands in the gaps.
    pitch_mm
        From letter to letter. [mm]
    avoid
        Texts already drawn: a letter moves along the line to keep clear, or is left out.
    """
    text = UTILITY_LETTERS[role] if letter is None else letter
    gap = Label(text, (0.0, 0.0)).width_mm + 1.4
    length = sum(math.dist(*leg) for leg in pairwise(points))
    count = max(1, round(length / pitch_mm)) if length > 3 * gap else 0
    taken = tuple(avoid)
    centres: list[float] = []
    for index in range(count):
        pitch = length / count
        spots = _spots(pitch * (index + 0.5), pitch - gap)
        clear = (at for at in spots if _clear(Label(text, _at_length(points, at), Anchor.C), taken))
        centres.extend(islice(clear, 1))
    edges = (edge for centre in centres for edge in (centre - gap / 2, centre + gap / 2))
    cuts = [0.0, *edges, length]
    strokes = zip(cuts[::2], cuts[1::2], strict=True)
    line = (Polyline(_stretch(points, start, end), role) for start, end in strokes)
    letters = (
        Label(text, _at_length(points, at), Anchor.C, backing=True, role=role) for at in centres
    )
    return *line, *letters


def _spots(centre: float, room: float) -> Iterator[float]:
    """Return places along a line, the middle one first, then further and further to both sides."""
    yield centre
    step = 1.0
    while step < room / 2:
        yield from (centre + step, centre - step)
        step += 1.0


def _clear(label: Label, taken: Sequence[Box]) -> bool:
    """Return whether a text keeps half a millimetre from every box."""
    air = label.box.grown(0.5)
    return not any(air.touches(box) for box in taken)


def _at_length(points: Sequence[Point], length: float) -> Point:
    """Return the point so far along a line."""
    left = length
    for start, end in pairwise(points):
        leg = math.dist(start, end)
        if left <= leg and leg > 0:
            share = left / leg
            return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
        left -= leg
    return points[-1]


def _stretch(points: Sequence[Point], start: float, end: float) -> tuple[Point, ...]:
    """Return the part of a line between two lengths along it."""
    inner: list[Point] = []
    run = 0.0
    for first, second in pairwise(points):
        run += math.dist(first, second)
        if start < run < end:
            inner.append(second)
    return (_at_length(points, start), *inner, _at_length(points, end))


def flow_arrow(at: Point, angle_deg: float, size_mm: float = 6.0, role: Role = Role.WATER) -> Arrow:
    """Return an arrow in the direction of flow, its middle at a point."""
    tail = turned((at[0] - size_mm / 2, at[1]), at, angle_deg)
    head = turned((at[0] + size_mm / 2, at[1]), at, angle_deg)
    return Arrow(tail, head, role)


def view_title(at: Point, text: str, detail: str = "") -> tuple[Shape, ...]:
    """Return the title under a view, underlined, with its scale or direction below.

    `at` is the left end of the line under the title. [mm]
    """
    title = Label(text, (at[0], at[1] + 0.8), Anchor.SW, 3.5, bold=True)
    shapes: list[Shape] = [title, Line(at, (at[0] + title.width_mm + 4.0, at[1]), Role.PROPOSED)]
    if detail:
        shapes.append(Label(detail, (at[0], at[1] - 0.8), Anchor.NW, LEAST_LETTERING_MM))
    return tuple(shapes)


def section_mark(at: Point, letter: str, looking_deg: float) -> tuple[Shape, ...]:
    """Return one end of a section line: its letter in a ring and an arrow where one looks."""
    ring = 3.2
    root = turned((at[0] + ring, at[1]), at, looking_deg)
    tip = turned((at[0] + ring + 5.0, at[1]), at, looking_deg)
    return (
        Circle(at, ring, Role.PROPOSED, Fill.WHITE),
        Label(letter, at, Anchor.C, 3.0, bold=True),
        Arrow(root, tip, Role.PROPOSED),
    )


def break_line(start: Point, end: Point, size_mm: float = 2.0) -> Polyline:
    """Return a thin line with a zigzag, where something goes on beyond the drawing."""
    length = math.dist(start, end)
    angle = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    middle = length / 2
    run = (
        (0.0, 0.0),
        (middle - size_mm, 0.0),
        (middle - size_mm / 2, size_mm),
        (middle + size_mm / 2, -size_mm),
        (middle + size_mm, 0.0),
        (length, 0.0),
    )
    points = (turned((start[0] + x, start[1] + y), start, angle) for x, y in run)
    return Polyline(tuple(points), Role.DIMENSION)


def ground_marks(points: Sequence[Point], pitch_mm: float = 9.0) -> tuple[Line, ...]:
    """Return groups of three short strokes below a ground line that runs from left to right."""
    length = sum(math.dist(*leg) for leg in pairwise(points))
    count = int(length / pitch_mm)
    marks: list[Line] = []
    for group in range(count):
        for stroke in range(3):
            along = (group + 0.5) * length / count + stroke * 1.3
            if along <= length:
                x, y = _at_length(points, along)
                marks.append(Line((x, y), (x - 1.8, y - 1.8), Role.HATCH))
    return tuple(marks)


def match_line(start: Point, end: Point, sheet: str) -> tuple[Shape, ...]:
    """Return the line at which another sheet goes on, with that sheet's number along it."""
    angle = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    label = Label(f"match line, see {sheet}", middle, Anchor.C, angle_deg=angle, backing=True)
    return Line(start, end, Role.CENTRE), label
