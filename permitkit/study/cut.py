"""The walk cut and the trench: panels, pieces left, areas, volumes."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from permitkit.model.keys.walk import WALK_BASE, WALK_PIECE_LEFT, WALK_REMOVAL, WALK_THICKNESS
from permitkit.model.values import Limit, Words
from permitkit.study.results import CutStudy, Panel
from permitkit.study.water.buried import cover_points, slab_edges
from permitkit.units import Measure

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.line import Line

__all__ = ["study_cut"]

WHOLE, PART = "whole panels", "part panel"
NOISE_M = 1e-6
DENSITY_KGM3 = {"concrete": 2400.0, "asphalt": 2350.0, "brick": 2100.0, "stone": 2650.0}
"""Usual unit masses for a haul ticket; no check reads them."""


@dataclass(frozen=True, slots=True)
class _Span:
    """A part of the walk along its length, measured from the run; left is negative."""

    left_m: float
    right_m: float

    @property
    def length_m(self) -> float:
        """Its length along the walk."""
        return self.right_m - self.left_m

    def joined(self, other: _Span) -> _Span:
        """Return the span from the one's farthest end to the other's."""
        return _Span(min(self.left_m, other.left_m), max(self.right_m, other.right_m))

    def holds(self, other: _Span) -> bool:
        """Tell whether another span lies within this one."""
        inside = self.left_m - NOISE_M <= other.left_m
        return inside and other.right_m <= self.right_m + NOISE_M

    def overlaps(self, other: _Span) -> bool:
        """Tell whether the two share more than an end."""
        least = min(self.right_m, other.right_m) - max(self.left_m, other.left_m)
        return least > NOISE_M


@dataclass(frozen=True, slots=True)
class _Joints:
    """The joints of the walk: where one lies left of the run, and how far apart they are."""

    left_m: float
    apart_m: float

    def below(self, at_m: float) -> float:
        """Return the joint at a place, or the next one left of it."""
        return floor((at_m - self.left_m) / self.apart_m + NOISE_M) * self.apart_m + self.left_m

    def above(self, at_m: float) -> float:
        """Return the joint at a place, or the next one right of it."""
        return ceil((at_m - self.left_m) / self.apart_m - NOISE_M) * self.apart_m + self.left_m

    def around(self, span: _Span) -> _Span:
        """Return the whole panels that a span touches."""
        return _Span(self.below(span.left_m), self.above(span.right_m))


def study_cut(job: Job, rules: RulesInForce, line: Line, ground: Ground) -> CutStudy:
    """Return the opening in the walk and the trench, with what lies over the pipe.

    Parameters
    ----------
    job, rules
        The job and the rules in force.
    line, ground
        The run and the ground over it.

    Notes
    -----
    What is due is what the town's rule asks for and what is taken out anyhow, together.
    """
    joints = _Joints(-float(job.walk.joint_left_of_run), float(job.walk.panel_length))
    cut = _cut(job, joints, ground)
    removed = joints.around(cut) if cut.length_m and job.cut.removal == WHOLE else cut
    due = _due(rules, joints, cut).joined(removed) if cut.length_m else cut
    area = removed.length_m * _across_m(job)
    panels = _panels(joints, cut, removed)
    thickness, old = _thicknesses_m(job, rules)
    trench = _trench_m(job, ground)
    return CutStudy(
        panels=panels,
        cut_left_m=cut.left_m,
        cut_right_m=cut.right_m,
        removed_left_m=removed.left_m,
        removed_right_m=removed.right_m,
        remnant_left_m=removed.left_m - joints.below(removed.left_m) if area else 0.0,
        remnant_right_m=joints.above(removed.right_m) - removed.right_m if area else 0.0,
        panels_part_cut=sum(panel.touched and not panel.removed for panel in panels),
        walk_area_m2=area,
        due_area_m2=due.length_m * _due_across_m(job, rules),
        saw_length_m=_saw_m(job, removed),
        concrete_m3=area * thickness,
        base_m3=area * _base_m(job, rules),
        debris_kg=area * old * DENSITY_KGM3[job.walk.surface],
        trench_m=trench,
        trench_area_m2=trench * float(job.cut.trench_width or 0),
        slab=slab_edges(line, ground, thickness if area else old),
        cover=cover_points(job, line, ground),
        thickness_m=thickness,
        neighbour_slope_needed=_neighbour_slope(job),
        due_left_m=due.left_m,
        due_right_m=due.right_m,
    )


def _cut(job: Job, joints: _Joints, ground: Ground) -> _Span:
    """Return what is cut, along the walk; nothing where the walk is bored or not crossed.

    A width that is not given is that of the trench, or of the panel over it if panels go whole.
    """
    cut = job.cut
    if cut.crossing != "cut" or ground.walk_m is None:
        return _Span(0.0, 0.0)
    trench = float(cut.trench_width or 0)
    if cut.width is None:
        over = _Span(-trench / 2.0, trench / 2.0)
        return joints.around(over) if cut.removal == WHOLE else over
    width = float(cut.width)
    left = width / 2.0 if cut.left_of_run is None else float(cut.left_of_run)
    return _Span(-left, width - left)


def _across_m(job: Job) -> float:
    """Return how much of the walk's width is taken out: all of it where panels go whole."""
    if job.cut.length is None or job.cut.removal == WHOLE:
        return float(job.walk.width)
    return float(job.cut.length)


def _whole_due(rules: RulesInForce) -> bool:
    """Tell whether the town wants whole panels taken out."""
    value = rules[WALK_REMOVAL].value
    return isinstance(value, Words) and PART not in value.words


def _due(rules: RulesInForce, joints: _Joints, cut: _Span) -> _Span:
    """Return what the town's rule takes out, along the walk."""
    if _whole_due(rules):
        return joints.around(cut)
    return _to_joints(joints, cut, _metres(rules, WALK_PIECE_LEFT))


def _due_across_m(job: Job, rules: RulesInForce) -> float:
    """Return how much of the walk's width the town's rule takes out."""
    return float(job.walk.width) if _whole_due(rules) else _across_m(job)


def _to_joints(joints: _Joints, cut: _Span, piece_m: float | None) -> _Span:
    """Return a cut taken on to the joint on each side where the piece left would be too short."""
    whole = joints.around(cut)
    least = (piece_m or 0.0) - NOISE_M
    left = whole.left_m if cut.left_m - whole.left_m < least else cut.left_m
    right = whole.right_m if whole.right_m - cut.right_m < least else cut.right_m
    return _Span(left, right)


def _panels(joints: _Joints, cut: _Span, removed: _Span) -> tuple[Panel, ...]:
    """Return the panels from one beyond the cut on the left to one beyond it on the right."""
    around = joints.around(cut)
    first = around.left_m - joints.apart_m
    count = round((around.length_m + 2.0 * joints.apart_m) / joints.apart_m)
    spans = (
        _Span(first + n * joints.apart_m, first + (n + 1) * joints.apart_m) for n in range(count)
    )
    return tuple(
        Panel(span.left_m, span.right_m, span.overlaps(cut), removed.holds(span)) for span in spans
    )


def _saw_m(job: Job, removed: _Span) -> float:
    """Return the length of saw cut: across the walk at both ends, and along it if it stays in part.

    A joint is sawn as well, so that the panel beside it is not broken.
    """
    if not removed.length_m:
        return 0.0
    across = _across_m(job)
    along = removed.length_m if across < float(job.walk.width) - NOISE_M else 0.0
    return 2.0 * across + along


def _thicknesses_m(job: Job, rules: RulesInForce) -> tuple[float, float]:
    """Return the thickness of the walk to be laid and of the one there now."""
    old = job.walk.thickness
    new = job.restoration.thickness
    least = _metres(rules, WALK_THICKNESS)
    laid = least or float(old or 0) if new is None else float(new)
    return laid, laid if old is None else float(old)


def _base_m(job: Job, rules: RulesInForce) -> float:
    """Return the depth of base under the new walk: as proposed, else the town's least."""
    given = job.restoration.base
    return _metres(rules, WALK_BASE) or 0.0 if given is None else float(given)


def _metres(rules: RulesInForce, key: RuleKey) -> float | None:
    """Return a key's least in metres, if there is one."""
    value = rules[key].value
    if isinstance(value, Limit) and isinstance(value.at_least, Measure):
        return float(value.at_least)
    return None


def _trench_m(job: Job, ground: Ground) -> float:
    """Return the trench's length in the right-of-way: as given, else from the curb to the line."""
    if job.cut.trench_length is not None:
        return float(job.cut.trench_length)
    notched = job.outlet.kind == "notch"
    return max(ground.row_m - (0.0 if notched else ground.curb_depth_m), 0.0)


def _neighbour_slope(job: Job) -> float | None:
    """Return the cross slope at which a panel joins both neighbours: that of the steeper one."""
    sides = (job.walk.cross_slope_left, job.walk.cross_slope_right)
    return max((abs(float(side)) for side in sides if side is not None), default=None)
