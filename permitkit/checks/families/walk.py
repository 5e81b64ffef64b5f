"""Checks of the walk: what is taken out, what is laid, and the pipe under it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    at_least,
    far_enough,
    lasts,
    one_of,
    passes_over,
    stance,
    within,
)
from permitkit.checks.proposed import cuts, room_for, short_length, size, surface
from permitkit.checks.registry import check
from permitkit.checks.scale import Yardstick, above
from permitkit.model.keys import craft
from permitkit.model.keys import walk as keys
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import CutStudy, SlabAt, Study

__all__ = [
    "base_too_thin",
    "bore_would_break_slab",
    "concrete_over_pipe_thin",
    "concrete_too_weak",
    "panel_left_part",
    "piece_left_too_short",
    "pipe_in_slab",
    "saw_cut_too_shallow",
    "slab_too_thin",
    "tunnel_barred",
    "walk_taken_out_too_narrow",
    "walk_too_narrow",
]

NO_CUT = "the walk is not cut"
NO_PIPE_IN_SLAB = "the pipe does not stand up into the slab"
CUT, SCORE_LINE, FULL_WIDTH = craft.WALK_REMOVAL_WIDTH.words
NO_SCORE_LINE = "the job does not tell where score lines lie: noted, and not judged"
LEFT_TO_TOWN = "not stated: the town's least is built"


@check("panel-left-part", "Part of a panel is left", reads=(keys.WALK_REMOVAL,), idle=NO_CUT)
def panel_left_part(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a cut that leaves part of a panel where whole panels are called for.

    Why: a patch in a panel settles and cracks along its own edge.
    """
    for cut in cuts(job, study):
        yield one_of(
            rules[keys.WALK_REMOVAL],
            job.cut.removal if cut.panels_part_cut else "whole panels",
            item="the cut in the walk",
            cure=partial(_whole_panels, job, cut),
        )


@check(
    "piece-left-too-short",
    "The piece of panel left is too short",
    reads=(keys.WALK_PIECE_LEFT,),
    idle="no piece of a panel is left",
    beyond="The piece of panel left is too long",
)
def piece_left_too_short(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a piece of panel left between the cut and the joint that is shorter than the least.

    Why: a short piece rocks, and lifts at the first frost.
    """
    for cut in cuts(job, study):
        for side, piece in (("left", cut.remnant_left_m), ("right", cut.remnant_right_m)):
            if piece > 0:
                yield at_least(
                    rules[keys.WALK_PIECE_LEFT],
                    piece,
                    item=f"piece left on the {side}",
                    cure="cut on to the joint",
                    other="cut {short} farther toward the joint",
                )


@check(
    "walk-taken-out-too-narrow",
    "Too little of the walk's width is taken out",
    reads=(craft.WALK_REMOVAL_WIDTH,),
    idle=NO_CUT,
)
def walk_taken_out_too_narrow(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a cut that takes out less of the walk's width than the town asks for.

    Why: a seam along the walk is where the wheels and the heels go.
    """
    rule = rules[craft.WALK_REMOVAL_WIDTH]
    for cut in cuts(job, study):
        whole = cut.across_m >= float(job.walk.width)
        if rule.known and SCORE_LINE in rule.words and not whole:
            yield passes_over(NO_SCORE_LINE, rule=rule)
        else:
            cure = "take the walk out from edge to edge"
            yield far_enough(rule, FULL_WIDTH if whole else CUT, cure=cure)


@check(
    "slab-too-thin",
    "The new slab is too thin",
    reads=(keys.WALK_THICKNESS, craft.WALK_AS_REMOVED),
    standard="good practice: no thinner than what is taken out",
    idle=NO_CUT,
    beyond="The new slab is too thick",
)
def slab_too_thin(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a new slab thinner than the least for its use, or than the old one where that counts.

    Where no sheet says that the old slab counts, a thinner one is only advised against.

    Why: the walk carries the mower, the snow plough and, at a drive, the truck.
    """
    as_removed = rules[craft.WALK_AS_REMOVED]
    for _ in cuts(job, study):
        yield at_least(
            rules[keys.WALK_THICKNESS],
            job.restoration.thickness,
            missing=LEFT_TO_TOWN,
            cure="lay it {short} thicker",
            other="lay it {short} thinner",
        )
        yield at_least(
            Yardstick(
                Kind.LENGTH,
                short_length(job),
                job.walk.thickness,
                name="as thick as what is taken out",
                rule=as_removed if as_removed.known else None,
            ),
            job.restoration.thickness,
            item="against the old slab",
            missing=LEFT_TO_TOWN,
            cure="lay it {short} thicker",
            advice=not (as_removed.known and as_removed.yes),
        )


@check(
    "walk-too-narrow",
    "The walk is too narrow",
    reads=(craft.WALK_WIDTH,),
    idle=NO_CUT,
    beyond="The walk is too wide",
)
def walk_too_narrow(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a walk laid again at a width under the least.

    Why: a walk that is opened may have to be laid again as wide as walks are now.
    """
    for _ in cuts(job, study):
        cure = "ask the town: off by {short}"
        yield within(rules[craft.WALK_WIDTH], job.walk.width, cure=cure, other=cure)


@check(
    "base-too-thin",
    "The base under the slab is too thin",
    reads=(keys.WALK_BASE,),
    idle=NO_CUT,
    beyond="The base under the slab is too thick",
)
def base_too_thin(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag less base under the new slab than the least.

    Why: the slab settles where the trench was, and trips people at the joint.
    """
    for _ in cuts(job, study):
        yield at_least(
            rules[keys.WALK_BASE],
            job.restoration.base,
            missing=LEFT_TO_TOWN,
            cure="lay {short} more",
            other="lay {short} less",
        )


@check(
    "concrete-too-weak",
    "The concrete is too weak, or its strength is taken too late",
    reads=(keys.WALK_STRENGTH, keys.WALK_STRENGTH_AGE),
    idle=NO_CUT,
    beyond="The concrete is too strong",
)
def concrete_too_weak(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag concrete under the least strength, or whose strength is that of a greater age.

    Why: weak concrete scales in its first winter under salt.
    """
    for _ in cuts(job, study):
        yield at_least(
            rules[keys.WALK_STRENGTH],
            job.restoration.strength,
            missing=LEFT_TO_TOWN,
            cure="order it {short} stronger",
            other="order it {short} weaker",
        )
        yield lasts(
            rules[keys.WALK_STRENGTH_AGE],
            job.restoration.strength_days,
            "days",
            item="age at test",
            cure="state the strength at the town's age",
            most=True,
        )


@check(
    "saw-cut-too-shallow",
    "The saw cut is too shallow",
    reads=(keys.WALK_SAW_DEPTH,),
    idle=NO_CUT,
    beyond="The saw cut is too deep",
)
def saw_cut_too_shallow(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a saw cut shallower than the least.

    Why: what is not sawn through breaks where it likes, into the panel that stays.
    """
    for _ in cuts(job, study):
        yield at_least(
            rules[keys.WALK_SAW_DEPTH],
            job.cut.saw_depth,
            missing=LEFT_TO_TOWN,
            cure="saw {short} deeper",
            other="saw {short} less deep",
        )


@check(
    "pipe-in-slab",
    "The pipe stands up into the slab",
    reads=(keys.WALK_PIPE_IN_SLAB,),
    idle=NO_PIPE_IN_SLAB,
)
def pipe_in_slab(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a pipe that stands up into the walk slab, at either edge, where that is barred.

    Why: the slab cracks along a pipe that takes its thickness.
    """
    for at in in_slab(study.cut):
        yield stance(
            rules[keys.WALK_PIPE_IN_SLAB],
            partial(_into_slab, job, at),
            item=f"{at.edge} edge of the walk",
            cure=partial(_out_of_slab, job, at),
        )


@check(
    "concrete-over-pipe-thin",
    "The concrete over the pipe is too thin",
    reads=(keys.WALK_OVER_PIPE,),
    idle=NO_PIPE_IN_SLAB,
    beyond="The concrete over the pipe is too thick",
)
def concrete_over_pipe_thin(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag less concrete over a pipe in the slab than the least, at either edge of the walk.

    Why: a thin skin over a pipe spalls off under the first heel of a machine.
    """
    for at in in_slab(study.cut):
        yield at_least(
            rules[keys.WALK_OVER_PIPE],
            at.concrete_over_m,
            item=f"{at.edge} edge of the walk",
            cure="lower the pipe {short}, thicken the slab there, or use a flatter pipe",
            other="raise the pipe {short}, or lay the slab thinner there",
            levelled=1.0,
        )


@check(
    "bore-would-break-slab",
    "The bore would break the slab",
    standard="geometry: the bore's top against the slab's underside",
    idle="the walk is not bored under",
    asks="Does a bored crossing clear the slab?",
)
def bore_would_break_slab(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a bored crossing whose pipe would stand in the slab it is to pass under.

    Why: the bore lifts the walk that it was meant to save.
    """
    if job.cut.crossing == "bored":
        for at in study.cut.slab:
            yield at_least(
                room_for(job, 0.0, "slab's underside above the pipe's top"),
                at.underside_m - at.pipe_top_m,
                item=f"{at.edge} edge of the walk",
                cure="lower the bore {short}, or cut the walk",
                levelled=1.0,
            )


@check(
    "tunnel-barred",
    "The walk may not be crossed this way",
    reads=(keys.WALK_CROSSING,),
    idle="the run does not cross the walk",
)
def tunnel_barred(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a way of crossing the walk that is not among those the town takes.

    Why: a hollow under a walk is found by whoever falls into it.
    """
    if job.cut.crossing != "none":
        yield one_of(rules[keys.WALK_CROSSING], job.cut.crossing)


def in_slab(cut: CutStudy) -> list[SlabAt]:
    """Return the edges of the walk at which the pipe stands up into the slab."""
    return [at for at in cut.slab if above(at.into_slab_m, 0.0)]


def _whole_panels(job: Job, cut: CutStudy) -> str:
    return f"take out whole panels, joint to joint: {surface(job, cut.due_area_m2)} in all"


def _into_slab(job: Job, at: SlabAt) -> str:
    return f"{size(job, at.into_slab_m)} into the slab"


def _out_of_slab(job: Job, at: SlabAt) -> str:
    return f"lower the pipe by {size(job, at.into_slab_m)}, or use a flatter one"
