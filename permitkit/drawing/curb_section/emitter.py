"""An outlet in the lawn in section: pipe, riser, lid, weep hole and pit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.curb_section.opening import run_slope
from permitkit.drawing.dimensions import Along, Dimension
from permitkit.drawing.shapes import (
    Box,
    Circle,
    Fill,
    Hatch,
    Line,
    Pattern,
    Point,
    Polygon,
    Role,
    Shape,
)
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.sheet_parts.pane import Part
from permitkit.drawing.symbols import break_line, flow_arrow
from permitkit.hydraulics.materials import Pipe, find_pipe
from permitkit.model.drain import Emitter
from permitkit.model.job import Job

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.info import Figures
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.study.results import Study

__all__ = [
    "EmitterCut",
    "emitter_cut",
    "emitter_parts",
    "emitter_remarks",
    "emitter_rungs",
    "emitter_section",
]

_BESIDE_M = 0.25
_ABOVE_M = 0.06
_PIT_M = 0.3
_LID = 0.7
_PAST_MM = 4.6
_SIZE_MM = 7.0


@dataclass(frozen=True, slots=True)
class EmitterCut:
    """An outlet in the lawn; heights are above the pipe's invert there. [m].

    Parameters
    ----------
    job, emitter, pipe
        What it was read from.
    invert_m
        Level of the invert.
    rim_m
        The rim above the invert.
    ground_m
        The ground above the invert.
    water_m
        The water at design flow above the invert, where it is computed.
    pit
        The pit in section: its floor lies below, the riser stands in its middle.
    slope
        Fall over length of the reach that ends here.
    """

    job: Job
    emitter: Emitter
    pipe: Pipe
    invert_m: float
    rim_m: float
    ground_m: float
    water_m: float | None
    pit: Box
    slope: float

    @property
    def extent(self) -> Box:
        """Return what the section shows."""
        half = max(self.pit.width / 2, 0.2) + _BESIDE_M
        high = max(self.rim_m, self.ground_m, self.water_m or 0.0) + _ABOVE_M
        return Box(-half, min(self.pit.bottom, 0.0) - 0.08, half, high)


def emitter_cut(job: Job, study: Study) -> EmitterCut | None:
    """Return the outlet in the lawn, or None where there is none."""
    emitter = job.outlet.emitter
    lowest = next((reach for reach in study.water.reaches if reach.lower == "outlet"), None)
    if emitter is None or lowest is None or job.outlet.kind != "emitter":
        return None
    node = next((node for node in job.drain.node if node.name == "outlet"), None)
    invert = lowest.lower_invert_m
    pipe = next(reach.pipe for reach in job.drain.reach if reach.lower == "outlet")
    ground = float(node.ground) if node else float(emitter.rim)
    half = float(emitter.pit_width or _PIT_M) / 2
    deep = float(emitter.pit_depth or 0)
    top = -find_pipe(pipe).wall_m
    pit = Box(-half, top - deep, half, top)
    return EmitterCut(
        job,
        emitter,
        find_pipe(pipe),
        invert,
        float(emitter.rim) - invert,
        ground - invert,
        study.water.emitter.water_level_m - invert if study.water.emitter else None,
        pit,
        run_slope(study),
    )


def emitter_section(cut: EmitterCut, pane: Pane, figures: Figures) -> Part:
    """Return the section, seen across the run with the house on the left."""
    water = _outer(cut)
    soil = pane.ground._replace(top=cut.ground_m).corners
    holes = [pane.view.points(water)]
    shapes: list[Shape] = [
        Hatch(pane.view.points(soil), Pattern.EARTH, (*holes, pane.view.points(cut.pit.corners))),
        *_ground(cut, pane),
        *_pit(cut, pane),
        *_pipework(cut, pane),
        *_lid(cut, pane),
    ]
    return Part((*shapes, *_level_lines(cut, pane, figures), *_sizes(cut, pane, figures)))


def _outer(cut: EmitterCut) -> tuple[Point, ...]:
    """Return pipe and riser as one outline."""
    half, wall = cut.pipe.outside_m[0] / 2, cut.pipe.wall_m
    left = cut.extent.left
    rise = cut.slope * (-half - left)
    low, high = -wall, cut.pipe.outside_height_m - wall
    return (
        (left, low + rise),
        (-half, low),
        (half, low),
        (half, cut.rim_m),
        (-half, cut.rim_m),
        (-half, high),
        (left, high + rise),
    )


def _inner(cut: EmitterCut) -> tuple[Point, ...]:
    """Return the inside of pipe and riser."""
    half, left = cut.pipe.bore_m[0] / 2, cut.extent.left
    rise = cut.slope * (-half - left)
    bore = cut.pipe.bore_height_m
    return (
        (left, rise),
        (-half, 0.0),
        (half, 0.0),
        (half, cut.rim_m),
        (-half, cut.rim_m),
        (-half, bore),
        (left, bore + rise),
    )


def _ground(cut: EmitterCut, pane: Pane) -> tuple[Shape, ...]:
    """Return the lawn on both sides of the riser, and the breaks where the soil goes on."""
    ground = pane.ground
    half = cut.pipe.outside_m[0] / 2
    y = cut.ground_m
    return (
        Line(pane.at(ground.left, y), pane.at(-half, y), Role.GROUND),
        Line(pane.at(half, y), pane.at(ground.right, y), Role.GROUND),
        break_line(pane.at(ground.left, ground.bottom), pane.at(ground.left, y)),
        break_line(pane.at(ground.right, ground.bottom), pane.at(ground.right, y)),
    )


def _pit(cut: EmitterCut, pane: Pane) -> tuple[Shape, ...]:
    """Return the pit with its stone."""
    if cut.pit.height <= 0.0:
        return ()
    corners = pane.view.points(cut.pit.corners)
    return (Hatch(corners, Pattern.GRAVEL), Polygon(corners, Role.PROPOSED))


def _pipework(cut: EmitterCut, pane: Pane) -> tuple[Shape, ...]:
    """Return pipe and riser with their walls, the weep hole and the way of the water."""
    outer, inner = pane.view.points(_outer(cut)), pane.view.points(_inner(cut))
    left = cut.extent.left
    along = flow_arrow(pane.at(left * 0.6, cut.pipe.bore_height_m / 2), 0.0, 7.0)
    up = flow_arrow(pane.at(0.0, cut.rim_m * 0.7), 90.0, 7.0)
    weep: tuple[Shape, ...] = ()
    if cut.emitter.weep:
        wide = max(pane.mm(float(cut.emitter.weep)) / 2, 0.4)
        (x0, y0), (x1, y1) = pane.at(0.0, 0.0), pane.at(0.0, -cut.pipe.wall_m)
        gap = ((x0 - wide, y0), (x0 + wide, y0), (x1 + wide, y1), (x1 - wide, y1))
        weep = (Polygon(gap, Role.WATER, Fill.WHITE),)
    return (
        Polygon(outer, Role.PROPOSED, Fill.TONE),
        Polygon(inner, Role.PROPOSED, Fill.WHITE),
        *weep,
        along,
        up,
    )


def _lid(cut: EmitterCut, pane: Pane) -> tuple[Shape, ...]:
    """Return the lid over the rim."""
    half = cut.pipe.outside_m[0] * _LID
    left, right = pane.at(-half, cut.rim_m), pane.at(half, cut.rim_m)
    lid = Box(left[0], left[1], right[0], right[1] + 1.6).corners
    return (
        Polygon(lid, Role.PROPOSED, Fill.WHITE),
        Circle(pane.at(0.0, cut.rim_m), 0.4, Role.PROPOSED),
    )


def _sizes(cut: EmitterCut, pane: Pane, figures: Figures) -> tuple[Dimension, ...]:
    """Return the sizes of the pit, and the rise of the rim over the invert."""
    left = pane.ground.left
    rows: list[Dimension] = []
    pairs: Sequence[tuple[Point, Point, Along, float, float]] = (
        ((left, 0.0), (left, cut.rim_m), Along.VERTICAL, _SIZE_MM, cut.rim_m),
        ((left, cut.pit.bottom), (left, cut.pit.top), Along.VERTICAL, _SIZE_MM, cut.pit.height),
        (
            (cut.pit.left, pane.ground.bottom),
            (cut.pit.right, pane.ground.bottom),
            Along.HORIZONTAL,
            -_SIZE_MM,
            cut.pit.width,
        ),
    )
    for start, end, along, offset, value in pairs:
        if value > 0.0:
            text = figures.height(value)
            rows.append(Dimension(pane.at(*start), pane.at(*end), offset, text, value, along))
    return tuple(row for row in rows if row.label.width_mm <= row.length_mm - 1.0)


def emitter_parts(cut: EmitterCut, pane: Pane, figures: Figures) -> tuple[Rung, ...]:
    """Return what the parts are, for the right of the section."""
    emitter, write = cut.emitter, figures.height
    pipe = next(reach.pipe for reach in cut.job.drain.reach if reach.lower == "outlet")
    half = cut.pipe.outside_m[0] / 2
    sizes = f"outside {write(cut.pipe.outside_m[0])}, bore {write(cut.pipe.bore_m[0])}"
    rows = [
        (f"riser {pipe}, {sizes}", (half, cut.rim_m * 0.6)),
        (emitter.lid_loss, (half * 2 * _LID, cut.rim_m)),
    ]
    if emitter.weep:
        rows.append((f"weep hole {emitter.weep.shown()}", (0.0, -cut.pipe.wall_m / 2)))
    if cut.pit.height > 0.0:
        voids = f", {emitter.pit_voids.shown()} voids" if emitter.pit_voids else ""
        long = f"{emitter.pit_length.shown()} long, " if emitter.pit_length else ""
        middle = (cut.pit.right * 0.6, (cut.pit.top + cut.pit.bottom) / 2)
        rows.append((f"pit {long}washed stone{voids}", middle))
    return tuple(Rung(text, pane.at(*tip)) for text, tip in rows)


def emitter_rungs(cut: EmitterCut, pane: Pane, figures: Figures) -> tuple[Rung, ...]:
    """Return the levels, for the ladder at the left."""
    x = pane.at(pane.ground.left, 0.0)[0] - _SIZE_MM - _PAST_MM
    return tuple(
        Rung(words, (x, pane.at(0.0, y)[1]), bold=bold)
        for y, _, words, bold in _levels(cut, figures)
    )


def _levels(cut: EmitterCut, figures: Figures) -> list[tuple[float, float, str, bool]]:
    """Return every level told: its height, how far right it is drawn, its words, whether bold."""
    half, level = cut.pipe.outside_m[0] / 2, figures.at_level
    rows = [
        (cut.rim_m, -half, f"RIM {level(float(cut.emitter.rim))}", True),
        (cut.ground_m, cut.extent.left, f"ground {level(cut.invert_m + cut.ground_m)}", False),
        (0.0, -half, f"invert {level(cut.invert_m)}", False),
    ]
    if cut.water_m is not None:
        words = f"water at design flow {level(cut.invert_m + cut.water_m)}"
        rows.append((cut.water_m, -3 * half, words, False))
    if cut.pit.height > 0.0:
        words = f"pit floor {level(cut.invert_m + cut.pit.bottom)}"
        rows.append((cut.pit.bottom, cut.pit.left, words, False))
    return rows


def _level_lines(cut: EmitterCut, pane: Pane, figures: Figures) -> tuple[Shape, ...]:
    """Return thin lines from the ladder to what each level is of, and the water over the lid."""
    left = pane.at(pane.ground.left, 0.0)[0] - _SIZE_MM - _PAST_MM
    lines = [
        Line((left, pane.at(0.0, y)[1]), pane.at(x, y), Role.DIMENSION)
        for y, x, _, _ in _levels(cut, figures)
    ]
    if cut.water_m is None:
        return tuple(lines)
    wide = 1.5 * cut.pipe.outside_m[0]
    surface = Line(pane.at(-wide, cut.water_m), pane.at(wide, cut.water_m), Role.WATER)
    return (*lines, surface)


def emitter_remarks(cut: EmitterCut, study: Study, figures: Figures) -> tuple[str, ...]:
    """Return the notes of an outlet in the lawn: where it stands, and what it holds."""
    emitter = cut.emitter
    away = (
        f"{emitter.to_row.shown()} behind the right-of-way line",
        f"{emitter.to_side_line.shown()} from the side line",
        f"{emitter.to_walk.shown()} from the walk",
        f"{emitter.to_house.shown()} from the house",
    )
    rows = [f"The emitter stands {', '.join(away)}."]
    if emitter.ground_slope:
        rows.append(
            f"The ground falls to the {emitter.falls_to} at {emitter.ground_slope.shown()}."
        )
    held_water = study.water.emitter
    if held_water:
        text = f"The line holds {figures.volume(held_water.held_m3)} to the rim"
        if held_water.pit_holds_m3:
            text += f"; the pit takes {figures.volume(held_water.pit_holds_m3)}"
        if held_water.weep_empties_s:
            minutes = round(held_water.weep_empties_s / 60)
            text += f"; the weep hole empties it in about {minutes} minutes"
        rows.append(f"{text}.")
    return tuple(rows)
