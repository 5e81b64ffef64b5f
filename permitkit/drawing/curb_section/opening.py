"""What the openings share: texts with their heights, dimensions on the face, the run's fall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import Along, Dimension, on_tracks
from permitkit.drawing.shapes import Line, Point, Role, Shape
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.hydraulics.materials import find_pipe

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.hydraulics.materials import Pipe
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = [
    "Heights",
    "Opening",
    "at_face",
    "face_dimensions",
    "height_lines",
    "pipe_at_outlet",
    "pipe_words",
    "reveal_words",
    "run_slope",
    "tube",
    "water_row",
]

_FIRST_MM = 11.0
_TRACK_MM = 7.5
_PAST_MM = 0.8
_SAMPLES = 12
_SAME_M = 1e-9


@dataclass(frozen=True, slots=True)
class Opening:
    """An opening as drawn: what is cut away, its marks, its dimensions, and what is to be said.

    Parameters
    ----------
    cut_away
        What is taken out of the concrete. [m]
    in_soil
        What is taken out of the soil behind it. [m]
    shapes
        Its marks.
    dimensions
        Outermost first.
    rungs
        Texts for the ladder at the left.
    right
        Texts for the ladder at the right.
    """

    cut_away: tuple[tuple[Point, ...], ...] = ()
    in_soil: tuple[tuple[Point, ...], ...] = ()
    shapes: tuple[Shape, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    rungs: tuple[Rung, ...] = ()
    right: tuple[Rung, ...] = ()


Heights = tuple[float, float]
"""From one height to another, above the flow line. [m]"""


def run_slope(study: Study) -> float:
    """Return the fall over length of the reach that ends at the outlet."""
    ends = (reach.slope for reach in study.water.reaches if reach.lower == "outlet")
    return next(ends, 0.0)


def pipe_at_outlet(job: Job) -> tuple[Pipe, str] | None:
    """Return the pipe that ends at the outlet and what the job calls it; None if none is laid."""
    named = (reach.pipe for reach in job.drain.reach if reach.lower == "outlet")
    own = job.outlet.pipe or next(named, None)
    return (find_pipe(own), own) if own else None


def pipe_words(job: Job, figures: Figures) -> str:
    """Return the pipe at the outlet with its outside and inside."""
    laid = pipe_at_outlet(job)
    if laid is None:
        return "no pipe"
    pipe, own = laid
    write = figures.height
    if pipe.shape == "round":
        return f"{own}, outside {write(pipe.outside_m[0])}, bore {write(pipe.bore_m[0])}"
    times = " \N{MULTIPLICATION SIGN} "
    outside, inside = (times.join(map(write, pair)) for pair in (pipe.outside_m, pipe.bore_m))
    return f"{own}, outside {outside}, inside {inside}"


def reveal_words(cut: CurbCut, figures: Figures) -> str:
    """Return the reveal at the outlet as measured, and the least of the readings."""
    readings = [float(reading) for reading in cut.job.curb.reveal]
    here = cut.job.curb.reveal[0].shown()
    if len(readings) == 1:
        return here
    if readings[0] - min(readings) < _SAME_M:
        return f"{here}, the least of {len(readings)} readings"
    return f"{here}, least reading {figures.height(min(readings))}"


def water_row(cut: CurbCut, study: Study, figures: Figures) -> list[tuple[float, str, bool]]:
    """Return the running gutter's height with its words, where it stands at the face."""
    running = study.water.gutter_levels_m["running"] - float(cut.job.gutter.flow_line)
    if not 0.0 < running < cut.reveal_m:
        return []
    return [(running, f"gutter running {figures.height(running)} deep", False)]


def tube(
    cut: CurbCut, heights: Heights, slope: float, far_m: float, near_m: float | None = None
) -> tuple[Point, ...]:
    """Return what a straight tube takes of the section, its end flush with the face of the curb.

    Parameters
    ----------
    heights
        Its lowest and highest at the face. [m]
    slope
        Its rise toward the house over run.
    far_m
        How far back it goes. [m]
    near_m
        Where it begins, if not at the face. [m]
    """
    low, high = heights
    steps = (low + (high - low) * step / _SAMPLES for step in range(_SAMPLES + 1))
    face = [(cut.face_x(height) if near_m is None else near_m, height) for height in steps]
    (x0, _), (x1, _) = face[0], face[-1]
    return (
        *reversed(face),
        (far_m, low + slope * (far_m - x0)),
        (far_m, high + slope * (far_m - x1)),
    )


def at_face(cut: CurbCut, pane: Pane, height_m: float) -> Point:
    """Return where a height meets the face, on paper."""
    return pane.at(cut.face_x(height_m), height_m)


def face_dimensions(
    cut: CurbCut, pane: Pane, spans: Iterable[Heights], figures: Figures
) -> tuple[Dimension, ...]:
    """Return upright dimensions in front of the face, where the figure fits between the heads."""
    rows: list[Dimension] = []
    for low, high in spans:
        value = high - low
        row = Dimension(
            at_face(cut, pane, low),
            at_face(cut, pane, high),
            0.0,
            figures.height(value),
            value,
            Along.VERTICAL,
        )
        if row.heads_inside and row.label.width_mm <= row.length_mm - 1.0:
            rows.append(row)
    line = at_face(cut, pane, 0.0)[0] - _FIRST_MM
    return tuple(reversed(on_tracks(rows, line, -_TRACK_MM))) if rows else ()


def height_lines(
    cut: CurbCut, pane: Pane, heights: Iterable[float], dimensions: Iterable[Dimension]
) -> tuple[tuple[Shape, ...], float]:
    """Return thin lines from the face past the dimensions, and where they end, in mm."""
    ends = [row.label.box.left for row in dimensions]
    edge = min(ends, default=at_face(cut, pane, 0.0)[0] - _FIRST_MM) - _PAST_MM
    lines = (
        Line((point[0] - 1.0, point[1]), (edge, point[1]), Role.DIMENSION)
        for point in (at_face(cut, pane, height) for height in heights)
    )
    return tuple(lines), edge
