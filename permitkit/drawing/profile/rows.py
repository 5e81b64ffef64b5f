"""What the bands under a profile say: the pipe, the surface, whose land, where one digs by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.profile.axes import PIPE_BAND_MM, Band, Cell
from permitkit.drawing.profile.crossings import hand_dug_m

if TYPE_CHECKING:
    from permitkit.drawing.profile.course import Course
    from permitkit.study.results import ReachWater

__all__ = ["band_rows", "pipe_words"]

_LOT = "the lot"


def band_rows(course: Course, hand_dig_m: float | None) -> tuple[Band, ...]:
    """Return the bands from the top; digging by hand only where marks and their distance are known.

    Parameters
    ----------
    course
        What is drawn.
    hand_dig_m
        How near a marked line digging must be by hand. [m]
    """
    rows = [_pipes(course), _surfaces(course), _land(course)]
    if hand_dig_m:
        cells = [
            Cell(*ends, ("dig by hand", "by hand", "hand")) for ends in _dug(course, hand_dig_m)
        ]
        rows.extend([Band("dig", tuple(cells))] if cells else [])
    return tuple(rows)


def _dug(course: Course, hand_dig_m: float) -> list[tuple[float, float]]:
    """Return the stretches dug by hand that lie on the run."""
    top = course.trunk[-1].station_m
    return [(max(low, 0.0), min(high, top)) for low, high in hand_dug_m(course, hand_dig_m)]


def _pipes(course: Course) -> Band:
    """Return the reaches with their length, pipe and slope."""
    cells = (
        Cell(reach.station_low_m, reach.station_high_m, pipe_words(course, reach), reach.name)
        for reach in course.reaches
    )
    return Band("pipe", tuple(cells), PIPE_BAND_MM)


def pipe_words(course: Course, reach: ReachWater) -> tuple[str, ...]:
    """Return a reach in words, the longest first; the shortest are its slope and nothing else."""
    write = course.figures
    twin = f"{reach.barrels} x " if reach.barrels > 1 else ""
    length, slope = write.distance(reach.length_m), write.slope(reach.slope)
    return f"{length} of {twin}{reach.pipe.name} at {slope}", f"{length} at {slope}", slope


def _surfaces(course: Course) -> Band:
    """Return the surfaces over the run from the street up."""
    cells = []
    if course.curb:
        pan = "gutter" if course.job.gutter.pan_width else "street"
        cells.append(Cell(-course.street_m, 0.0, (pan,)))
    cells.extend(
        Cell(stretch.low_m, stretch.high_m, (stretch.surface,))
        for stretch in course.ground.stretches
        if stretch.surface != "drive"
    )
    behind = max((stretch.high_m for stretch in course.ground.stretches), default=0.0)
    for reach in course.reaches:
        own = reach.surfaces[-1] if reach.surfaces else "lawn"
        low = max(reach.station_low_m, behind)
        if low >= reach.station_high_m:
            continue
        if cells and cells[-1].texts == (own,) and abs(cells[-1].high_m - low) < 1e-6:
            low = cells.pop().low_m
        cells.append(Cell(low, reach.station_high_m, (own,)))
    return Band("above", tuple(cells))


def _land(course: Course) -> Band:
    """Return which part of the run lies in the right-of-way and which on the lot."""
    low, high = course.span_m
    row = course.ground.row_m
    sides = (
        (low, min(row, high), ("right-of-way", "r.o.w.")),
        (max(row, low), high, (_LOT, "lot")),
    )
    return Band("land", tuple(Cell(*side) for side in sides if side[1] > side[0]))
