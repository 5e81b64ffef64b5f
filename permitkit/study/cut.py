"""The walk cut and the trench: panels, pieces left, areas, volumes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.geometry.panels import WalkCut, to_joint_where_short
from permitkit.geometry.span import Joints, Span
from permitkit.model.keys.walk import WALK_BASE, WALK_PIECE_LEFT, WALK_REMOVAL, WALK_THICKNESS
from permitkit.model.values import Words
from permitkit.study.results import CutStudy
from permitkit.study.water.buried import cover_points, slab_edges

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.line import Line

__all__ = ["study_cut"]

WHOLE, PART = "whole panels", "part panel"
DENSITY_KGM3 = {"concrete": 2400.0, "asphalt": 2350.0, "brick": 2100.0, "stone": 2650.0}
"""Usual unit masses for a haul ticket; no check reads them."""


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
    walk = _walk_cut(job, ground)
    removed, panels, pieces = walk.removed, walk.panels, walk.pieces_m
    due = _due(rules, walk).joined(removed) if walk.cut.length_m else walk.cut
    thickness, old = _thicknesses_m(job, rules)
    trench = _trench_m(job, ground)
    return CutStudy(
        panels=panels,
        removed_left_m=removed.left_m,
        removed_right_m=removed.right_m,
        remnant_left_m=pieces[0],
        remnant_right_m=pieces[1],
        panels_part_cut=sum(panel.touched and not panel.removed for panel in panels),
        across_m=walk.across_m,
        walk_area_m2=walk.area_m2,
        due_area_m2=due.length_m * _due_across_m(rules, walk),
        saw_length_m=walk.saw_m,
        concrete_m3=walk.volume_m3(thickness),
        base_m3=walk.volume_m3(_base_m(job, rules)),
        debris_kg=walk.volume_m3(old) * DENSITY_KGM3[job.walk.surface],
        trench_m=trench,
        trench_area_m2=trench * float(job.cut.trench_width or 0),
        slab=slab_edges(line, ground, thickness if walk.area_m2 else old),
        cover=cover_points(job, line, ground),
        thickness_m=thickness,
        neighbour_slope_needed=_neighbour_slope(job),
        due_left_m=due.left_m,
        due_right_m=due.right_m,
    )


def _walk_cut(job: Job, ground: Ground) -> WalkCut:
    """Return what is cut in the walk, and what is taken out for it."""
    joints = Joints(-float(job.walk.joint_left_of_run), float(job.walk.panel_length))
    cut = _cut(job, joints, ground)
    removed = joints.around(cut) if cut.length_m and job.cut.removal == WHOLE else cut
    return WalkCut(joints, cut, removed, float(job.walk.width), _across_m(job))


def _cut(job: Job, joints: Joints, ground: Ground) -> Span:
    """Return what is cut, along the walk; nothing where the walk is bored or not crossed.

    A width that is not given is that of the trench, or of the panel over it if panels go whole.
    """
    cut = job.cut
    if cut.crossing != "cut" or ground.walk_m is None:
        return Span(0.0, 0.0)
    trench = float(cut.trench_width or 0)
    if cut.width is None:
        over = Span.about(0.0, trench / 2.0)
        return joints.around(over) if cut.removal == WHOLE else over
    width = float(cut.width)
    left = width / 2.0 if cut.left_of_run is None else float(cut.left_of_run)
    return Span(-left, width - left)


def _across_m(job: Job) -> float:
    """Return how much of the walk's width is taken out: all of it where panels go whole."""
    if job.cut.length is None or job.cut.removal == WHOLE:
        return float(job.walk.width)
    return float(job.cut.length)


def _whole_due(rules: RulesInForce) -> bool:
    """Tell whether the town wants whole panels taken out."""
    value = rules[WALK_REMOVAL].value
    return isinstance(value, Words) and PART not in value.words


def _due(rules: RulesInForce, walk: WalkCut) -> Span:
    """Return what the town's rule takes out, along the walk."""
    if _whole_due(rules):
        return walk.joints.around(walk.cut)
    return to_joint_where_short(walk.joints, walk.cut, float(rules[WALK_PIECE_LEFT].least or 0))


def _due_across_m(rules: RulesInForce, walk: WalkCut) -> float:
    """Return how much of the walk's width the town's rule takes out."""
    return walk.walk_width_m if _whole_due(rules) else walk.across_m


def _thicknesses_m(job: Job, rules: RulesInForce) -> tuple[float, float]:
    """Return the thickness of the walk to be laid and of the one there now."""
    old = job.walk.thickness
    new = job.restoration.thickness
    least = float(rules[WALK_THICKNESS].least or 0)
    laid = least or float(old or 0) if new is None else float(new)
    return laid, laid if old is None else float(old)


def _base_m(job: Job, rules: RulesInForce) -> float:
    """Return the depth of base under the new walk: as proposed, else the town's least."""
    given = job.restoration.base
    return float(rules[WALK_BASE].least or 0) if given is None else float(given)


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
