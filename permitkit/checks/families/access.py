"""Checks for people on foot, and for wheels and canes among them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import at_least, at_most, holds, present, stance
from permitkit.checks.proposed import cuts, steepness
from permitkit.checks.registry import check
from permitkit.model.keys import walk as keys

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study
    from permitkit.units import Measure

__all__ = [
    "cross_slope_too_steep",
    "cut_touches_ramp",
    "lip_too_high",
    "opening_too_wide",
    "panel_cannot_meet_both",
    "running_slope_too_steep",
    "walk_closed_no_way_round",
    "way_round_too_narrow",
]

NO_CUT = "the walk is not cut"
OPEN = "the walk stays open"


@check(
    "cross-slope-too-steep",
    "The new walk falls too steeply across",
    reads=(keys.ACCESS_CROSS_SLOPE,),
    idle=NO_CUT,
    beyond="The new walk falls too little across",
)
def cross_slope_too_steep(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a new panel that falls more steeply across than the limit.

    Why: a wheelchair turns downhill by itself on a steep cross fall, into the street.
    """
    for _ in cuts(job, study):
        yield at_most(
            rules[keys.ACCESS_CROSS_SLOPE],
            steepness(job.restoration.cross_slope or job.walk.cross_slope),
            item="new panel",
            cure="lay it {short} flatter",
            other="lay it {short} steeper",
        )


@check(
    "running-slope-too-steep",
    "The new walk runs too steeply",
    reads=(keys.ACCESS_RUNNING_SLOPE,),
    idle=NO_CUT,
    beyond="The new walk runs too flat",
)
def running_slope_too_steep(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a new panel steeper along the walk than the limit, and than the street beside it.

    Why: a long steep run stops a wheelchair; a walk may only be as steep as its street.
    """
    rule = rules[keys.ACCESS_RUNNING_SLOPE]
    slope = job.restoration.running_slope or job.walk.running_slope
    for _ in cuts(job, study):
        if slope and job.street.grade and steepness(slope) <= steepness(job.street.grade):
            yield holds(
                ok=True,
                proposed=slope.shown,
                limit=partial(_street_grade, job.street.grade),
                item="new panel",
                source=rule.source,
            )
        else:
            yield at_most(
                rule,
                slope and steepness(slope),
                item="new panel",
                missing="the walk's slope along the street is not measured",
                cure="lay it {short} flatter",
                other="lay it {short} steeper",
            )


@check(
    "panel-cannot-meet-both",
    "The new panel cannot meet both its neighbors",
    reads=(keys.ACCESS_CROSS_SLOPE,),
    idle=NO_CUT,
)
def panel_cannot_meet_both(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag neighbours so steep that a panel between them must break the limit to join them.

    Why: a panel laid true between two that are not leaves a lip at each joint.
    """
    for cut in cuts(job, study):
        yield at_most(
            rules[keys.ACCESS_CROSS_SLOPE],
            cut.neighbour_slope_needed,
            item="slope needed to join both",
            missing="the slopes of the panels beside it are not measured",
            cure="take out the next panel too, and warp it as a transition",
        )


@check(
    "lip-too-high",
    "The step at the new joint is too high",
    reads=(keys.ACCESS_LIP,),
    idle=NO_CUT,
    beyond="The step at the new joint is too low",
)
def lip_too_high(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a step at the new joints over the limit, which a bevel may raise.

    Why: the smallest wheels stop at a quarter inch, and so do toes.
    """
    for _ in cuts(job, study):
        yield at_most(
            rules[keys.ACCESS_LIP],
            job.restoration.lip,
            item="beveled step" if job.restoration.lip_bevelled else "step",
            missing="not stated: laid flush",
            cure="take {short} off it",
            other="raise it {short}",
        )


@check(
    "opening-too-wide",
    "An opening on the way for people on foot is too wide",
    reads=(keys.ACCESS_OPENING,),
    idle="no plate or grate lies on the way for people on foot",
    beyond="An opening on the way for people on foot is too narrow",
)
def opening_too_wide(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a gap beside a plate, or a grate's opening, over the limit.

    Why: a cane or a small wheel drops into it.
    """
    if job.outlet.plate_gap:
        yield at_most(
            rules[keys.ACCESS_OPENING],
            job.outlet.plate_gap,
            item="gap beside the plate",
            cure="close the gap by {short}",
            other="widen the gap by {short}",
        )


@check(
    "cut-touches-ramp",
    "The cut touches a curb ramp",
    reads=(keys.ACCESS_RAMP_CUT,),
    idle="the cut touches no ramp or landing",
)
def cut_touches_ramp(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a cut that touches a ramp or its landing.

    Why: cutting a ramp counts as altering it, and all of today's rules for ramps come with it.
    """
    if job.cut.touches_ramp:
        yield stance(
            rules[keys.ACCESS_RAMP_CUT],
            "the cut touches a ramp or its landing",
            cure="move the run clear of the ramp and its landing",
        )


@check(
    "way-round-too-narrow",
    "The way round on foot is too narrow",
    reads=(keys.ACCESS_WIDTH,),
    idle=OPEN,
    beyond="The way round on foot is too wide",
)
def way_round_too_narrow(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a temporary way for people on foot narrower than the least.

    Why: whoever cannot pass it walks in the lane.
    """
    if job.traffic.walk_closed and job.traffic.way_round:
        yield at_least(
            rules[keys.ACCESS_WIDTH],
            job.traffic.way_round.width,
            item=job.traffic.way_round.where,
            cure="make it {short} wider",
            other="make it {short} narrower",
        )


@check(
    "walk-closed-no-way-round",
    "The walk is closed and there is no way round",
    reads=(keys.ACCESS_WAY_ROUND,),
    idle=OPEN,
)
def walk_closed_no_way_round(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a closed walk without a way round whose edges a cane can follow.

    Why: someone who cannot see the tape walks through it, into the trench.
    """
    way = job.traffic.way_round
    if job.traffic.walk_closed:
        yield present(
            rules[keys.ACCESS_WAY_ROUND],
            there=way is not None and way.detectable,
            what="a way round whose edge a cane can follow",
            cure="lay out a way round between edged barricades, with ramps at both ends",
        )


def _street_grade(grade: Measure) -> str:
    return f"no steeper than the street, {grade.shown()}"
