"""What tests look for on a finished sheet: its texts, its dimensions, and what is wrong with it."""

from __future__ import annotations

import math
import re
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

from demo_jobs import job_path

from permitkit.drawing.dimensions import Dimension
from permitkit.drawing.frame import drawing_room
from permitkit.drawing.info import SheetInfo
from permitkit.drawing.placing import overlaps
from permitkit.drawing.scale import Kind, Paper, Scale, System, scales
from permitkit.drawing.shapes import Anchor, Box, Circle, Fill, Polygon, Role
from permitkit.drawing.sheet import flatten, outline, outside, segments_of
from permitkit.drawing.sheet_parts.pane import clipped_line
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers
from permitkit.study.study import studied
from permitkit.units import Kind as Quantity
from permitkit.units import read_measure

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from permitkit.drawing.shapes import Primitive
    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job
    from permitkit.study.results import Study
    from permitkit.units import Measure

MM_OF_PAPER = 0.1
HAND_DIG_M = 0.4572
INK_MM = 0.25
HALF_STEP_M = 0.0064
INFO = SheetInfo(
    town="Town of Millrace",
    applicant="Larkspur & Vane Drainage, Inc.",
    prepared_by="R. Vane",
    date="2026-04-06",
    revision="A",
    number=3,
    of=10,
    detail="M-7 rev C",
)

_SCALES = {
    scale.text: scale
    for kind in (Kind.PLAN, Kind.DETAIL)
    for system in System
    for scale in scales(kind, system)
}


@cache
def demo(name: str) -> tuple[Job, Study]:
    """Return a demo job with its study."""
    job = read_job(job_path(name))
    return job, studied(job, load_layers(job.town))[0]


def restudied(job: Job) -> Study:
    """Return the study of a changed demo job."""
    return studied(job, load_layers(job.town))[0]


def length(text: str) -> Measure:
    return read_measure(text, Quantity.LENGTH)


def with_table(job: Job, table: str, **fields: object) -> Job:
    """Return a job with some fields of one table changed."""
    changed = getattr(job, table).model_copy(update=fields)
    return job.model_copy(update={table: changed})


def text_of(sheets: Iterable[Sheet]) -> str:
    """Return every text on some sheets, lines joined, spaces made plain."""
    words = (label.text for sheet in sheets for label in sheet.labels)
    return re.sub(r"\s+", " ", " | ".join(words))


def dimensions_of(sheet: Sheet) -> tuple[Dimension, ...]:
    return tuple(shape for shape in sheet.shapes if isinstance(shape, Dimension))


def collisions(sheet: Sheet) -> list[tuple[str, str]]:
    """Return the pairs of texts that lie on each other."""
    boxes = sheet.label_boxes
    pairs = overlaps([box for _, box in boxes])
    return [
        (boxes[one][0].text, boxes[two][0].text)
        for one, two in pairs
        if boxes[one][0] is not boxes[two][0]
    ]


def escaping(sheet: Sheet) -> list[Primitive]:
    """Return the marks of the drawing that cross the border of its room."""
    room = drawing_room(Paper("", sheet.width_mm, sheet.height_mm))
    return [
        mark
        for mark in outside(sheet.shapes, room)
        if Box.around(outline(mark)).touches(room) and not _is_frame(mark)
    ]


def _is_frame(mark: Primitive) -> bool:
    border = isinstance(mark, Polygon) and mark.role is Role.PROPOSED and len(mark.points) == 4
    return border or mark.role is Role.FRAME


def scales_of(sheet: Sheet) -> tuple[Scale, ...]:
    """Return the scales that a sheet states, in its title block or under its views."""
    if sheet.scale_text in _SCALES:
        return (_SCALES[sheet.scale_text],)
    lines = (line for label in sheet.labels for line in label.text.split("\n"))
    found = (_SCALES.get(line.split(",")[0].strip()) for line in lines)
    return tuple(dict.fromkeys(scale for scale in found if scale is not None))


def off_scale(sheet: Sheet) -> list[str]:
    """Return the dimensions whose drawn length is not their value at a scale the sheet states."""
    return [
        f"{row.text}: {row.length_mm:.3f} mm for {row.value_m} m"
        for row in dimensions_of(sheet)
        if not any(
            abs(row.length_mm - scale.paper_mm(row.value_m)) < MM_OF_PAPER
            for scale in scales_of(sheet)
        )
    ]


def misstated(sheet: Sheet) -> list[str]:
    """Return the dimensions whose text is not their value, rounded to half an inch or finer."""
    return [
        f"{row.text} for {row.value_m} m"
        for row in dimensions_of(sheet)
        if abs(float(length(row.text)) - row.value_m) > HALF_STEP_M
    ]


def struck(sheet: Sheet) -> list[str]:
    """Return the texts in the drawing's room that a stroke runs through.

    White behind a text breaks whatever passes there, so that only texts without it can be struck.
    """
    room = drawing_room(Paper("", sheet.width_mm, sheet.height_mm)).grown(1.0)
    discs = [
        mark.centre
        for mark in sheet.primitives
        if isinstance(mark, Circle) and mark.fill is not Fill.NONE
    ]
    bare = [
        (label.text, box.grown(-INK_MM))
        for label, box in sheet.label_boxes
        if not label.backing and room.holds(box) and not _in_a_bubble(box, discs)
    ]
    return [
        text
        for stroke in segments_of(sheet.shapes)
        for text, box in bare
        if Box.around(stroke).grown(1e-6).touches(box)
        for inside in [clipped_line(*stroke, box)]
        if inside and math.dist(*inside) > INK_MM
    ]


def _in_a_bubble(box: Box, discs: list[tuple[float, float]]) -> bool:
    """Return whether a text is the number in a bubble, or the letter in a ring."""
    return any(math.dist(box.centre, centre) < 1.0 for centre in discs)


def unnumbered(sheet: Sheet) -> list[str]:
    """Return the numbers of the key that no bubble of the drawing shows."""
    room = drawing_room(Paper("", sheet.width_mm, sheet.height_mm))
    discs = [mark.centre for mark in sheet.primitives if isinstance(mark, Circle)]
    shown = {
        label.text
        for label, box in sheet.label_boxes
        if room.holds(box) and _in_a_bubble(box, discs)
    }
    column = [label for label in sheet.labels if not room.touches(label.box)]
    keyed = {
        one.text
        for one, other in pairwise(column)
        if one.text.isdigit() and one.anchor is other.anchor is Anchor.NW
        if abs(one.at[1] - other.at[1]) < MM_OF_PAPER
    }
    return sorted(keyed - shown)


def faults_of(sheets: Iterable[Sheet]) -> list[str]:
    """Return all that is wrong with some sheets: texts on texts, marks cut off, lengths off."""
    return [fault for sheet in sheets for fault in _faults(sheet)]


def _faults(sheet: Sheet) -> Iterator[str]:
    yield from (f"{sheet.title}: {one!r} on {two!r}" for one, two in collisions(sheet))
    yield from (f"{sheet.title}: {mark} leaves its room" for mark in escaping(sheet))
    yield from (f"{sheet.title}: {row}" for row in (*off_scale(sheet), *misstated(sheet)))
    yield from (f"{sheet.title}: a stroke runs through {text!r}" for text in struck(sheet))
    yield from (f"{sheet.title}: no bubble {number}" for number in unnumbered(sheet))
    clipped = (box for _, box in sheet.label_boxes if not sheet.paper.holds(box))
    yield from (f"{sheet.title}: a text at {box} leaves the paper" for box in clipped)


def marks_of(sheet: Sheet, role: Role) -> list[Primitive]:
    return [mark for mark in flatten(sheet.shapes) if mark.role is role]
