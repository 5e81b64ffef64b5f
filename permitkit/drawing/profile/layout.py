"""How a profile lies on its paper: sheet, scales, stretches, and the heights of its parts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.frame import drawing_room
from permitkit.drawing.profile.strip import Strip
from permitkit.drawing.scale import Paper, ProfileScale, View, choose_profile_scale
from permitkit.drawing.shapes import Box
from permitkit.errors import Fault, InputError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from typing import TypeAlias

    from permitkit.drawing.profile.course import Course

    Measured: TypeAlias = Callable[[Paper, bool], "Parts"]

__all__ = ["AXIS_MM", "LEFT_MM", "TAG_PITCH_MM", "TITLE_MM", "Layout", "lay_outs"]

LEFT_MM = 12.0
"""Room for the figures of the level axis. [mm]"""

AXIS_MM = 5.8
"""Room for the figures of the station axis. [mm]"""

TITLE_MM = 9.0
"""Room for the title under the profile. [mm]"""

TAG_PITCH_MM = 4.6
"""From one upright tag to the next. [mm]"""

_RIGHT_MM = 1.0
_SKY_MM, _BELOW_MM = 10.0, 11.0
_MORE_SKY_MM = 20.0
_LEGEND_MM = 22.0
_ASIDE_MM = 42.0
_LEAST_PLOT_MM = 25.0
_MOST_SHEETS = 40
_WELL_RAISED = 4
_OVERLAP_MM = 6.0


@dataclass(frozen=True, slots=True)
class Parts:
    """The heights that a profile's parts ask for on a width of paper, in mm."""

    tags_mm: float
    bands_mm: float
    words_mm: float
    table_mm: float
    notes_mm: float


@dataclass(frozen=True, slots=True)
class Layout:
    """The paper and scales of a profile, and what each of its sheets shows.

    Parameters
    ----------
    paper, room
        The sheet, and its free rectangle. [mm]
    scale
        Of lengths and heights.
    stretches_m
        Stations from and to, one pair for each sheet.
    parts
        Heights of what stands above and below the plot.
    table_here
        Whether the table of nodes stands under the profile.
    sky_mm
        Room in the plot over the highest level, for notes. [mm]
    """

    paper: Paper
    room: Box
    scale: ProfileScale
    stretches_m: tuple[tuple[float, float], ...]
    parts: Parts
    table_here: bool
    sky_mm: float

    def beside(self, strip: Strip) -> Box | None:
        """Return the paper to the right of a plot, if sentences have room there."""
        foot = strip.plot.bottom - self.parts.bands_mm - AXIS_MM
        box = Box(strip.plot.right + 5.0, foot, self.room.right, strip.plot.top)
        return box if box.width >= _ASIDE_MM - 5.0 else None

    def strip(self, course: Course, index: int) -> Strip:
        """Return the stretch of one sheet, its plot as high as its levels need."""
        low, high = self.stretches_m[index]
        lowest, highest = course.levels_m(low, high)
        content = self.scale.vertical.paper_mm(highest - lowest)
        top = self.room.top - self.parts.tags_mm
        left = self.room.left + LEFT_MM
        right = left + self.scale.horizontal.paper_mm(high - low)
        plot = Box(left, top - content - self.sky_mm - _BELOW_MM, right, top)
        foot = (left, plot.bottom + _BELOW_MM)
        view = View(self.scale.horizontal, (low, lowest), foot, vertical=self.scale.vertical)
        return Strip(view, low, high, plot)


def lay_outs(course: Course, paper: Paper, measured: Measured) -> tuple[Layout, ...]:
    """Return the layouts with the finest scale of lengths on the fewest sheets, the best first.

    Parameters
    ----------
    course
        What is drawn.
    paper
        The sheet, lying or standing as serves better.
    measured
        Returns the heights of what stands above and below the plot, for a sheet that carries the
        table of nodes or not.

    Raises
    ------
    InputError
        If the run is too long for any number of sheets that a packet takes.
    """
    for count in range(1, _MOST_SHEETS):
        found = [
            layout
            for sheet in (paper.landscape, paper.portrait)
            for table_here in (True, False)
            if count == 1 or not table_here
            for layout in _tried(course, sheet, measured(sheet, table_here), count, table_here)
        ]
        if found:
            best, *others = sorted(found, key=_merit, reverse=True)
            finest = best.scale.horizontal
            return best, *(layout for layout in others if layout.scale.horizontal == finest)
    found_m = course.figures.distance(course.span_m[1])
    expected = f"a run whose profile takes fewer than {_MOST_SHEETS} sheets"
    raise InputError.of([Fault("drain.reach.length", f"a run of {found_m}", expected)])


def _merit(layout: Layout) -> tuple[float, bool, bool, float, bool]:
    """Return what makes one layout better: scale, one sheet for all, exaggeration, lying."""
    scale = layout.scale
    return (
        float(scale.horizontal.ratio),
        scale.exaggeration >= _WELL_RAISED,
        layout.table_here,
        float(scale.exaggeration),
        layout.paper.lies,
    )


def _tried(
    course: Course,
    paper: Paper,
    parts: Parts,
    count: int,
    table_here: bool,  # noqa: FBT001
) -> Iterator[Layout]:
    """Return the layouts on so many sheets of one kind: heights as large as fit, then smaller.

    The smaller ones leave room for what is said of the drawing.
    """
    room = drawing_room(paper)
    across = room.width - LEFT_MM - _RIGHT_MM
    below = parts.bands_mm + AXIS_MM + TITLE_MM + parts.words_mm
    table = parts.table_mm + 3.0 if table_here else 0.0
    up = room.height - parts.tags_mm - below - table - _SKY_MM - _BELOW_MM
    if up < _LEAST_PLOT_MM:
        return
    system = course.figures.system
    low, high = course.span_m
    overlap = _overlap_m(across, count, high - low)
    each = (high - low + (count - 1) * overlap) / count
    stretches = tuple(_stretches(low, high, count, overlap))
    levels = (course.levels_m(*stretch) for stretch in stretches)
    tallest = max(highest - lowest for lowest, highest in levels)
    if not _tags_fit(course, stretches, across):
        return
    for said in (0.0, _LEGEND_MM + parts.notes_mm):
        scale = choose_profile_scale(each, tallest, across, up - said, system)
        if scale is None:
            return
        spare = up - scale.vertical.paper_mm(tallest)
        aside = across - scale.horizontal.paper_mm(each) >= _ASIDE_MM
        wanted = _LEGEND_MM + (0.0 if aside else parts.notes_mm)
        kept = min(spare, max(wanted, said))
        sky = _SKY_MM + min(spare - kept, _MORE_SKY_MM)
        yield Layout(paper, room, scale, stretches, parts, table_here, sky)


def _overlap_m(across_mm: float, count: int, length_m: float) -> float:
    """Return what neighbouring sheets share, about a finger's breadth, in m."""
    if count == 1:
        return 0.0
    return _OVERLAP_MM * length_m / (count * across_mm - (count - 1) * _OVERLAP_MM)


def _stretches(
    low: float, high: float, count: int, overlap: float
) -> Iterator[tuple[float, float]]:
    """Return stations from and to of each sheet, all equally long."""
    step = (high - low - overlap) / count
    for index in range(count):
        yield low + index * step, low + (index + 1) * step + overlap


def _tags_fit(course: Course, stretches: tuple[tuple[float, float], ...], across: float) -> bool:
    """Return whether the tags of every sheet stand side by side, at least upright."""
    most = math.floor(across / TAG_PITCH_MM)
    return all(
        sum(low <= node.station_m <= high for node in course.trunk) <= most
        for low, high in stretches
    )
