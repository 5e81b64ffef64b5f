"""What changed on a sheet since the last round: a bar in the margin beside it, and its letter.

Two sheets are compared mark by mark, so that nobody has to remember what was moved. A view that
only lies elsewhere on the paper, because a note grew, has not changed.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import fields, replace
from typing import TYPE_CHECKING, Any

from permitkit.drawing.frame import drawing_room
from permitkit.drawing.scale import Paper
from permitkit.drawing.shapes import Anchor, Box, Fill, Label, Polygon, Role
from permitkit.drawing.sheet import outline

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from permitkit.drawing.shapes import Point, Primitive, Shape
    from permitkit.drawing.sheet import Sheet

__all__ = ["changed_boxes", "revised", "revised_sheets"]

_BAR_MM = 0.8
_BAR_OFF_MM = 1.8
_TRIANGLE_MM = (7.0, 6.1)
_TRIANGLE_OFF_MM = 3.6
_FOOT_MM = 0.9
_LEAST_BAR_MM = 4.0
_BETWEEN_MM = 4.0
_PAST_MM = 1.0
_NEW_IN_EVERY_ROUND = ("Date", "Sheet")
_OFF_GRID = 0.000123
_DIGITS = 3
_MOST = 0.75


def revised_sheets(
    former: Sequence[Sheet], sheets: Sequence[Sheet], letter: str
) -> tuple[Sheet, ...]:
    """Return the sheets of a round, each marked beside what changed since the round before.

    Parameters
    ----------
    former
        The sheets as they went in last time. A sheet is held against the one of its title, and
        where several share it, of its place among them; one without its like is new throughout.
    sheets
        The sheets now.
    letter
        The revision letter of this round.
    """
    before = dict(_named(former))
    return tuple(
        revised(sheet, _since(before.get(name), sheet), letter) for name, sheet in _named(sheets)
    )


def _named(sheets: Iterable[Sheet]) -> Iterator[tuple[tuple[str, int], Sheet]]:
    """Return every sheet with its title and its place among those of that title."""
    seen: Counter[str] = Counter()
    for sheet in sheets:
        yield (sheet.title, seen[sheet.title]), sheet
        seen[sheet.title] += 1


def _since(former: Sheet | None, sheet: Sheet) -> tuple[Box, ...]:
    return (_room(sheet),) if former is None else changed_boxes(former, sheet)


def _room(sheet: Sheet) -> Box:
    return drawing_room(Paper("", sheet.width_mm, sheet.height_mm))


def changed_boxes(former: Sheet, sheet: Sheet) -> tuple[Box, ...]:
    """Return the boxes of the marks that were added, moved, altered or taken away.

    The date and the number of the sheet, which every round changes, do not count. Where most of a
    drawing lies elsewhere by one and the same step, the step is not a change. [mm]

    Parameters
    ----------
    former
        The sheet as it went in last time.
    sheet
        The sheet now.
    """
    gone, new = _unlike(list(former.primitives), list(sheet.primitives))
    step = _common_step(gone, new, _MOST * _plan_marks(former))
    gone, new = _unlike(gone, new, step)
    passed = _passed_rows(former) | _passed_rows(sheet)
    left = [Box.around(outline(mark)).moved(*step) for mark in gone if _counts(mark, passed)]
    return *(Box.around(outline(mark)) for mark in new if _counts(mark, passed)), *left


def _unlike(
    former: Sequence[Primitive], now: Sequence[Primitive], step: Point = (0.0, 0.0)
) -> tuple[list[Primitive], list[Primitive]]:
    """Return the marks that have no like on the other side, once the former ones took a step."""
    waiting: dict[Any, list[Primitive]] = defaultdict(list)
    for mark in former:
        waiting[_told(mark)].append(mark)
    new = []
    for mark in now:
        if waiting[_told(mark, step)]:
            waiting[_told(mark, step)].pop(0)
        else:
            new.append(mark)
    return [mark for marks in waiting.values() for mark in marks], new


def _told(mark: Primitive, step: Point = (0.0, 0.0)) -> tuple[Any, ...]:
    """Return what a mark is and where it lay a step before, to a thousandth of a millimetre.

    A note says the same wherever it stands and however its lines break.
    """
    if isinstance(mark, Label) and mark.role is Role.NOTE:
        return Label, " ".join(mark.text.split())
    return type(mark), *(_stepped(getattr(mark, field.name), step) for field in fields(mark))


def _stepped(value: Any, step: Point) -> Any:  # noqa: ANN401 -- whatever a field holds
    """Return a field's value with its points moved back by a step; pairs of numbers are points."""
    if not isinstance(value, tuple):
        return _rounded(value) if isinstance(value, float) else value
    if value and all(isinstance(part, float | int) for part in value):
        return tuple(_rounded(part - step[rank % 2]) for rank, part in enumerate(value))
    return tuple(_stepped(part, step) for part in value)


def _rounded(value: float) -> float:
    """Return a number to a thousandth, halved between two of them only by chance."""
    return round(value + _OFF_GRID, _DIGITS)


def _common_step(gone: Sequence[Primitive], new: Sequence[Primitive], most: float) -> Point:
    """Return the step that more marks than `most` took together, else none."""
    steps: dict[Point, list[Point]] = defaultdict(list)
    for step in _steps(gone, new):
        steps[_rounded(step[0]), _rounded(step[1])].append(step)
    alike = max(steps.values(), key=len, default=[])
    return alike[0] if len(alike) > most else (0.0, 0.0)


def _steps(gone: Sequence[Primitive], new: Sequence[Primitive]) -> Iterator[Point]:
    """Return how far each new mark lies from the first one gone that has its form."""
    waiting: dict[Any, list[Point]] = defaultdict(list)
    for mark in gone:
        start = outline(mark)[0]
        waiting[_told(mark, start)].append(start)
    for mark in new:
        start = outline(mark)[0]
        starts = waiting[_told(mark, start)]
        if starts:
            before = starts.pop(0)
            yield start[0] - before[0], start[1] - before[1]


def _plan_marks(sheet: Sheet) -> int:
    """Return how many marks lie in the drawing itself."""
    room = _room(sheet)
    return sum(room.holds(Box.around(outline(mark))) for mark in sheet.primitives)


def _passed_rows(sheet: Sheet) -> frozenset[float]:
    """Return the heights of the rows of the title block that every round changes."""
    return frozenset(
        label.at[1]
        for label in sheet.labels
        if label.role is Role.NOTE and label.text in _NEW_IN_EVERY_ROUND
    )


def _counts(mark: Primitive, passed: frozenset[float]) -> bool:
    """Return whether a mark's change is worth a bar."""
    return not (isinstance(mark, Label) and mark.role is Role.NOTE and mark.at[1] in passed)


def revised(sheet: Sheet, boxes: Iterable[Box], letter: str) -> Sheet:
    """Return a sheet with a bar in its left margin beside each box, and a triangle with the letter.

    Bars that would run into one another are one. Without boxes the sheet is returned as it is.

    Parameters
    ----------
    sheet
        The sheet now.
    boxes
        What changed on it. [mm]
    letter
        The revision letter.
    """
    room = _room(sheet)
    low, high = room.bottom - _BAR_OFF_MM, room.top + _BAR_OFF_MM
    marks = [mark for span in _spans(boxes, low, high) for mark in _bar(span, room, letter)]
    return replace(sheet, shapes=(*sheet.shapes, *marks)) if marks else sheet


def _spans(boxes: Iterable[Box], low: float, high: float) -> list[Point]:
    """Return from where to where the bars run, none nearer to another than a triangle needs."""
    spans: list[Point] = []
    for bottom, top in sorted(_span(box, low, high) for box in boxes):
        if spans and bottom - spans[-1][1] < _BETWEEN_MM:
            spans[-1] = spans[-1][0], max(top, spans[-1][1])
        else:
            spans.append((bottom, top))
    return spans


def _span(box: Box, low: float, high: float) -> Point:
    """Return from where to where one bar runs, within the border and never too short to see."""
    short = max(_LEAST_BAR_MM - (box.height + 2 * _PAST_MM), 0.0) / 2 + _PAST_MM
    bottom = min(max(box.bottom - short, low), high - _LEAST_BAR_MM)
    return bottom, max(min(box.top + short, high), bottom + _LEAST_BAR_MM)


def _bar(span: Point, room: Box, letter: str) -> tuple[Shape, ...]:
    """Return a bar and its triangle."""
    right = room.left - _BAR_OFF_MM + _BAR_MM
    bar = Box(right - _BAR_MM, span[0], right, span[1])
    across, up = _TRIANGLE_MM
    middle, foot = room.left - _TRIANGLE_OFF_MM - across / 2, sum(span) / 2 - up / 2
    corners = ((middle - across / 2, foot), (middle + across / 2, foot), (middle, foot + up))
    text = Label(letter, (0.0, 0.0), Anchor.S, bold=True)
    at = (middle, foot + _FOOT_MM - text.first_baseline)
    return (
        Polygon(bar.corners, Role.PROPOSED, Fill.SOLID, outlined=False),
        Polygon(corners, Role.NOTE, Fill.WHITE),
        replace(text, at=at),
    )
