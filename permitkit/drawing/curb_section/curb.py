"""The curb as it is cut in the section: its outline in metres, from the job's measurements.

x runs from the foot of the face toward the house, y up from the gutter flow line.
"""

from __future__ import annotations

from dataclasses import dataclass

from permitkit.drawing.shapes import Point
from permitkit.errors import Fault, InputError
from permitkit.geometry.curb import (
    CurbProfile,
    Pan,
    Rounds,
    curb_and_gutter,
    vertical_curb,
)
from permitkit.geometry.roll import half_round_curb, rolled_curb
from permitkit.geometry.shape import ImpossibleShape
from permitkit.model.job import Job

__all__ = ["CurbCut", "assumed_fields", "curb_cut"]

_DEEP_M = 1.0
_IN_ONE_M = 0.25
_NO_PAN_M = 0.3


@dataclass(frozen=True, slots=True)
class CurbCut:
    """The curb in section.

    Parameters
    ----------
    job
        What it was measured in.
    profile
        Curb, and pan where they are one piece; drawn deep where nobody measured the base.
    reveal_m
        Its top above the flow line, at the outlet. [m]
    base_m
        Its base below the flow line; None where nobody measured it. [m]
    slab
        The gutter pan where it is a piece of its own, as far as it goes down.
    pan_m
        Width of the pan, 0 without one. [m]
    lip_m
        Height of the pan's street side above the flow line. [m]
    """

    job: Job
    profile: CurbProfile
    reveal_m: float
    base_m: float | None
    slab: tuple[Point, ...]
    pan_m: float
    lip_m: float

    @property
    def back_m(self) -> float:
        """Return how far behind the foot of the face its back lies."""
        return self.profile.back_m

    @property
    def outline(self) -> tuple[Point, ...]:
        """Return its outline."""
        return self.profile.outline_points()[:-1]

    def face_x(self, height_m: float) -> float:
        """Return where the face stands at a height; above it, where its top begins."""
        inside = min(max(height_m, 0.0), self.reveal_m)
        try:
            return self.profile.face_at(inside)
        except ImpossibleShape:
            return 0.0

    def top_y(self, x_m: float) -> float:
        """Return the height of the upper surface at an offset behind the face."""
        return self.profile.top_at(min(max(x_m, 0.0), self.back_m))


def assumed_fields(job: Job) -> frozenset[str]:
    """Return the fields that nobody measured."""
    return frozenset(row.field for row in job.assumed)


def curb_cut(job: Job, reveal_m: float) -> CurbCut:
    """Return the curb in section.

    Raises
    ------
    InputError
        If its measurements make no shape.
    """
    base = _base(job, reveal_m)
    pan, lip = _pan(job)
    own = _own_slab(job, base)
    try:
        profile = _profile(job, reveal_m, base, pan, own=own)
    except ImpossibleShape as error:
        fix = "measure the curb at the outlet again"
        fault = Fault("curb", str(error), "measurements that make a curb", fix)
        raise InputError((fault,)) from error
    slab = _slab(pan, lip) if own and pan else ()
    return CurbCut(job, profile, reveal_m, base, slab, pan, lip)


def _base(job: Job, reveal_m: float) -> float | None:
    """Return how deep the curb goes below the flow line, where that was measured."""
    depth = job.curb.base_depth
    if depth is None or "curb.base_depth" in assumed_fields(job):
        return None
    below = float(depth) - reveal_m
    return below if below > 0.0 else None


def _pan(job: Job) -> tuple[float, float]:
    """Return the pan's width and the height of its street side above the flow line."""
    gutter = job.gutter
    if gutter.kind == "none" or gutter.pan_width is None:
        return 0.0, 0.0
    width = float(gutter.pan_width)
    rise = abs(float(gutter.pan_slope)) * width if gutter.pan_slope else 0.0
    return width, -rise if gutter.kind == "spill" else rise


def _own_slab(job: Job, base_m: float | None) -> bool:
    """Return whether the pan is a piece of its own: beside a deep curb, or falling from it."""
    deep = base_m is not None and base_m > _IN_ONE_M
    return job.gutter.kind == "spill" or deep


def _slab(pan_m: float, lip_m: float) -> tuple[Point, ...]:
    """Return the outline of a pan that is a piece of its own, deep as nobody measured it."""
    return ((-pan_m, lip_m), (0.0, 0.0), (0.0, -_DEEP_M), (-pan_m, -_DEEP_M))


def _profile(
    job: Job, reveal_m: float, base_m: float | None, pan_m: float, *, own: bool
) -> CurbProfile:
    """Return the profile of the job's curb."""
    curb = job.curb
    deep = base_m or _DEEP_M
    radius = float(curb.radius) if curb.radius else 0.0
    slope = float(job.gutter.pan_slope or 0) if job.gutter.kind == "catch" else 0.0
    pan = Pan(pan_m or _NO_PAN_M, max(slope, 0.0), deep)
    wide = float(curb.roll_width or curb.top_width)
    if curb.shape == "half-round":
        return half_round_curb(reveal_m, wide, deep)
    if curb.shape == "rolled":
        toe, crown = _radii(reveal_m, wide, radius)
        return rolled_curb(reveal_m, wide, toe, crown, pan)
    batter = float(curb.batter) if curb.batter else 0.0
    rounds = Rounds(top_m=min(radius, float(curb.top_width) / 2))
    if own or not pan_m:
        return vertical_curb(reveal_m, float(curb.top_width), deep, batter, rounds)
    return curb_and_gutter(reveal_m, float(curb.top_width), pan, batter, rounds)


def _radii(height_m: float, roll_m: float, radius_m: float) -> tuple[float, float]:
    """Return the radii of hollow and crown: as measured, else two equal arcs that meet."""
    most = (roll_m**2 + height_m**2) / (2.0 * height_m)
    one = min(radius_m, most / 2.0) if radius_m else most / 2.0
    return one * (1.0 - 1e-9), one * (1.0 - 1e-9)
