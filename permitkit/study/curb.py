"""The curb at the outlet: the hole or notch in it, its window, and what stands near it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.geometry.core import CoreHole, barrel_least_bottom
from permitkit.geometry.notch import Notch, breaks_face
from permitkit.geometry.span import Span, spaced_about
from permitkit.study.results import Bound, CurbStudy, HoleStudy, NotchStudy
from permitkit.study.window import HoleLimits, HoleSize, hole_limits

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.hydraulics.materials import Pipe
    from permitkit.model.job import Job
    from permitkit.model.site import Feature
    from permitkit.study.in_force import RulesInForce
    from permitkit.units import Measure

__all__ = [
    "CurbHeights",
    "Laid",
    "at_the_curb",
    "curb_heights",
    "curb_limits",
    "hole_bottom_m",
    "hole_size",
    "round_about_m",
    "running_depth_m",
    "study_curb",
]

HOLES = ("core", "existing hole")
NOTCHES = ("notch", "culvert under walk")


@dataclass(frozen=True, slots=True)
class CurbHeights:
    """The curb at the outlet: reveals above the flow line, its level, its depth along the run."""

    reveal_m: float
    reveal_at_hole_m: float
    flow_line_m: float
    depth_m: float

    @property
    def top_m(self) -> float:
        """Level of the lowest curb top measured."""
        return self.flow_line_m + self.reveal_m


@dataclass(frozen=True, slots=True)
class Laid:
    """How the reach that ends at the outlet lies: slope, upper invert, the fall it needs.

    `running_m` is how deep the gutter runs.
    """

    slope: float
    upper_invert_m: float
    need_m: float
    running_m: float


def at_the_curb(job: Job) -> bool:
    """Tell whether the water is let go through the curb."""
    return job.outlet.kind in (*HOLES, *NOTCHES)


def curb_heights(job: Job) -> CurbHeights:
    """Return the curb's reveals, level and depth; the least of the readings counts."""
    reveals = [float(reading) for reading in job.curb.reveal] or [0.0]
    rolled = job.curb.shape in {"rolled", "half-round"} and job.curb.roll_width is not None
    depth = job.curb.roll_width if rolled else job.curb.top_width
    flow_line = float(job.gutter.flow_line)
    return CurbHeights(min(reveals), reveals[0], flow_line, float(depth or 0))


def curb_limits(job: Job, rules: RulesInForce) -> HoleLimits:
    """Return what curb and town ask of a hole in the job's curb."""
    return hole_limits(rules, curb_heights(job).reveal_m, float(job.gutter.overlay_lip or 0))


def running_depth_m(job: Job, heights: CurbHeights) -> float:
    """Return how deep the job takes the gutter to run: as given, else half the least reveal."""
    given = job.gutter.depth_running
    return heights.reveal_m / 2.0 if given is None else float(given)


def round_about_m(pipe: Pipe) -> float:
    """Return the diameter of the least round hole that takes a pipe: of a box, its diagonal."""
    return pipe.outside_m[0] if pipe.shape == "round" else hypot(*pipe.outside_m)


def hole_size(job: Job, pipe: Pipe) -> HoleSize:
    """Return the bit and the pipe in it.

    Raises
    ------
    InputError
        If no diameter of a hole is given.
    """
    reused = (hole.size for hole in job.existing if hole.plan == "reuse")
    bit = job.outlet.bit or next(reused, None)
    if bit is None:
        fix = 'give the bit, such as bit = "4 in"'
        raise InputError.of([Fault("outlet.bit", "nothing", "the diameter of the hole", fix)])
    return HoleSize(float(bit), round_about_m(pipe), pipe.bore_height_m)


def hole_bottom_m(job: Job, heights: CurbHeights, size: HoleSize) -> float:
    """Return the hole's lowest point above the flow line, from whichever height is given.

    Raises
    ------
    InputError
        If no height is given.
    """
    outlet = job.outlet
    if outlet.hole_bottom is not None:
        return float(outlet.hole_bottom)
    if outlet.invert is not None:
        return float(outlet.invert) - size.invert_up_m
    if outlet.centre_below_top is not None:
        centre = heights.reveal_at_hole_m - float(outlet.centre_below_top)
        return centre - size.bit_m / 2.0
    fix = "give hole_bottom, invert or centre_below_top"
    raise InputError.of([Fault("outlet.hole_bottom", "nothing", "one height of the hole", fix)])


def study_curb(job: Job, rules: RulesInForce, pipe: Pipe | None, laid: Laid) -> CurbStudy | None:
    """Return the curb at the outlet, or None where the water is not let go through the curb.

    Parameters
    ----------
    job, rules
        The job and the rules in force.
    pipe
        The pipe that ends at the curb; None where notches drain the verge with no pipe.
    laid
        How its reach lies.
    """
    if not at_the_curb(job):
        return None
    heights = curb_heights(job)
    cored = pipe if job.outlet.kind in HOLES else None
    hole = _hole(job, rules, heights, cored, laid) if cored else None
    notch = _notch(job, heights, pipe) if job.outlet.kind in NOTCHES else None
    half = _half_opening_m(job, hole, notch)
    station = float(job.outlet.station)
    to_line = min(station, float(job.site.frontage) - station)
    joints = tuple(_joints_m(job))
    return CurbStudy(
        shape=job.curb.shape,
        reveal_m=heights.reveal_m,
        flow_line_m=heights.flow_line_m,
        curb_top_m=heights.top_m,
        width_m=heights.depth_m,
        half_opening_m=half,
        stations_m=spaced_about(station, job.outlet.count, _metres(job.outlet.spacing) or 0.0),
        joints_m=joints,
        edge_to_joint_m=min((abs(joint - station) - half for joint in joints), default=None),
        edge_to_side_line_m=to_line - half,
        near_m=_near(job, Span.about(station, half)),
        hole=hole,
        notch=notch,
        reveal_at_hole_m=heights.reveal_at_hole_m,
    )


def _hole(job: Job, rules: RulesInForce, heights: CurbHeights, pipe: Pipe, laid: Laid) -> HoleStudy:
    """Return the core in the curb with its window."""
    size, count = hole_size(job, pipe), job.outlet.count
    core = _core(job, heights, size)
    limits = curb_limits(job, rules)
    spacing = _metres(job.outlet.spacing) if count > 1 else None
    barrel = _barrel_least_bottom_m(job, laid.slope)
    at_hole = replace(core, reveal_m=heights.reveal_at_hole_m)
    return HoleStudy(
        bit_m=core.bit_m,
        pipe_outside_m=core.pipe_outside_m,
        bore_m=core.bore_m,
        bottom_m=core.hole_bottom_m,
        invert_m=core.invert_m,
        crown_m=core.crown_m,
        top_m=core.top_m,
        strip_m=core.strip_m,
        gap_m=core.gap_m,
        centre_below_top_m=at_hole.centre_below_top_m,
        grout_m3=core.grout_m3(heights.depth_m) * count,
        count=count,
        spacing_m=spacing,
        clear_between_m=None if spacing is None else spacing - core.bit_m,
        barrel_least_bottom_m=barrel,
        window=replace(
            limits.window(size),
            advice_lows=_advice_lows(size, barrel, laid.running_m),
            advice_highs=_advice_highs(size, laid, heights),
        ),
        fitting_bits_m=limits.fitting_bits_m(size.outside_m, size.bore_m),
        largest_bit_m=limits.largest_bit_m(),
        bit_barred=not limits.bit.allows(core.bit_m) and limits.has_room(size),
    )


def _core(job: Job, heights: CurbHeights, size: HoleSize) -> CoreHole:
    """Return the hole with its pipe."""
    bottom = hole_bottom_m(job, heights, size)
    return CoreHole(heights.reveal_m, bottom, size.bit_m, size.outside_m, size.bore_m)


def _advice_lows(size: HoleSize, barrel_m: float, running_m: float) -> tuple[Bound, ...]:
    """Return the heights below which the drill hits the pan, or the gutter runs over the bore."""
    crown = Bound(running_m - size.invert_up_m - size.bore_m, "the crown at the running gutter")
    return (Bound(barrel_m, "the drill's barrel over the pan"), crown) if barrel_m else (crown,)


def _advice_highs(size: HoleSize, laid: Laid, heights: CurbHeights) -> tuple[Bound, ...]:
    """Return the height above which the last reach no longer has the fall the town asks for."""
    if not laid.need_m:
        return ()
    invert = laid.upper_invert_m - laid.need_m - heights.flow_line_m
    return (Bound(invert - size.invert_up_m, "the least fall of the last reach"),)


def _barrel_least_bottom_m(job: Job, slope: float) -> float:
    """Return the lowest hole at which a barrel held at the pipe's slope clears the pan."""
    if job.outlet.drill_from != "street" or job.outlet.barrel_out is None:
        return 0.0
    pan = float(job.gutter.pan_slope or 0)
    return barrel_least_bottom(float(job.outlet.barrel_out), pan, slope)


def _notch(job: Job, heights: CurbHeights, pipe: Pipe | None) -> NotchStudy:
    """Return the notch sawn in the curb.

    Raises
    ------
    InputError
        If its width is not given.
    """
    outlet = job.outlet
    if outlet.width is None:
        fix = 'give the width, such as width = "5 in"'
        raise InputError.of([Fault("outlet.width", "nothing", "the width of the notch", fix)])
    toe, slope = float(outlet.floor_toe or 0), float(outlet.floor_slope or 0)
    bit = float(outlet.bit or 0) or (round_about_m(pipe) if pipe else 0.0)
    sawn = Notch(float(outlet.width), toe, slope, heights.depth_m, heights.reveal_m)
    return NotchStudy(
        width_m=sawn.width_m,
        floor_toe_m=toe,
        floor_back_m=sawn.back_floor_m,
        floor_slope=slope,
        depth_back_m=sawn.back_depth_m,
        taper_m=float(outlet.taper or 0),
        core_would_break=bit > 0.0 and breaks_face(heights.reveal_m, toe, bit),
    )


def _half_opening_m(job: Job, hole: HoleStudy | None, notch: NotchStudy | None) -> float:
    """Return how far the openings reach to either side of the outlet's station."""
    width = hole.bit_m if hole else notch.width_m if notch else 0.0
    apart = _metres(job.outlet.spacing) or 0.0
    return ((job.outlet.count - 1) * apart + width) / 2.0


def _joints_m(job: Job) -> Iterator[float]:
    """Yield the stations of the curb's joints, as far as they were measured."""
    station = float(job.outlet.station)
    if job.curb.joint_left is not None:
        yield station - float(job.curb.joint_left)
    if job.curb.joint_right is not None:
        yield station + float(job.curb.joint_right)
    yield from (float(f.near) for f in job.feature if f.kind == "curb joint")


def _near(job: Job, opening: Span) -> Mapping[str, float]:
    """Return the clear distance from the opening to the nearest feature of each kind."""
    near: dict[str, float] = {}
    for kind, taken in _standing_near(job):
        clear = opening.clear_of(taken)
        near[kind] = min(clear, near.get(kind, clear))
    return near


def _standing_near(job: Job) -> Iterator[tuple[str, Span]]:
    """Yield each feature's kind and what it takes of the curb, holes that stay among them."""
    for feature in job.feature:
        yield feature.kind, _taken(feature)
    for hole in job.existing:
        if hole.plan == "keep":
            yield "existing hole", Span.about(float(hole.station), float(hole.size) / 2.0)


def _taken(feature: Feature) -> Span:
    """Return what a feature takes along the curb: flares included, a tree by its trunk."""
    ends = (float(feature.near), float(feature.far or feature.near))
    trunk = float(feature.trunk or 0) / 2.0
    return Span(min(ends) - trunk, max(ends) + trunk)


def _metres(value: Measure | None) -> float | None:
    return None if value is None else float(value)
