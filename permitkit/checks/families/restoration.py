"""Checks of how everything is put back."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import at_least, at_most, lasts, listed, one_of, present
from permitkit.checks.proposed import as_written, cuts, features, holes
from permitkit.checks.registry import check
from permitkit.model.keys import craft, duties
from permitkit.model.keys import walk as keys
from permitkit.model.vocabulary.trade import stands_for

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.model.site import Feature
    from permitkit.model.values import Item
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "asphalt_strip_too_narrow",
    "backfill_too_loose",
    "curb_piece_too_short",
    "grout_wrong_kind",
    "joints_too_far_apart",
    "lift_too_thick",
    "open_too_early",
    "restoration_does_not_match",
    "restoration_not_stated",
    "restored_by_others",
    "tree_roots_cut",
]

NO_CUT = "the walk is not cut"
LEFT_TO_TOWN = "not stated: the town's own figure is built"


@check(
    "restoration-does-not-match",
    "The restoration does not match what was there",
    reads=(keys.RESTORE_MATCH,),
    idle=NO_CUT,
)
def restoration_does_not_match(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag finish, score pattern or material unlike what was taken out.

    Why: an odd panel is what the whole street sees of the firm for thirty years.
    """
    for _ in cuts(job, study):
        yield present(
            rules[keys.RESTORE_MATCH],
            there=job.restoration.matches,
            what="finish, score pattern and material matched",
            cure="match finish, score pattern and material of the panels beside it",
        )


@check(
    "restoration-not-stated", "Part of the restoration is not stated", reads=(keys.RESTORE_STATE,)
)
def restoration_not_stated(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a part of the restoration that the town wants stated and the job leaves out.

    Why: what is not written down is done the cheapest way.
    """

    def stated(part: Item) -> bool:
        return getattr(job.restoration, part.name.replace(" ", "_"), None) is not None

    yield from listed(
        rules[keys.RESTORE_STATE],
        stated,
        cure=lambda part: f"state restoration.{part.name.replace(' ', '_')} in the job file",
    )


@check(
    "curb-piece-too-short",
    "The piece of curb replaced is too short",
    reads=(keys.RESTORE_CURB_PIECE,),
    idle="no curb is replaced",
    beyond="The piece of curb replaced is too long",
)
def curb_piece_too_short(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a replaced piece of curb shorter than the least, which dowels may lower.

    Why: a short piece of curb is pushed out of line by the first truck.
    """
    if job.cut.curb_removed:
        yield at_least(
            rules[keys.RESTORE_CURB_PIECE],
            job.cut.curb_removed,
            item="with dowels" if job.restoration.dowels else "without dowels",
            cure="replace {short} more, to a joint",
            other="replace {short} less",
        )


@check(
    "restored-by-others",
    "Someone else has to restore walk, curb and pavement",
    reads=(duties.RESTORE_BY,),
)
def restored_by_others(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a restoration by the applicant where the town does it itself, or the other way round.

    Why: where the town restores, its work is charged, and the firm's is taken out again.
    """
    cure = "name who restores in restoration.by, and the fee that goes with it"
    yield one_of(
        rules[duties.RESTORE_BY], job.restoration.by, fits=partial(_restores, job), cure=cure
    )


def _restores(job: Job, word: str, by: str) -> bool | None:
    """Return whether a sheet's word stands for who restores, an applicant by what he is as well."""
    found = stands_for(duties.RESTORE_BY, word, by)
    if found is False and by == "applicant":
        named = stands_for(duties.RESTORE_BY, word, job.papers.applicant)
        return named or (None if "town" not in duties.RESTORE_BY.trade[word] else False)
    return found


@check(
    "asphalt-strip-too-narrow",
    "The strip of asphalt renewed beside the gutter is too narrow",
    reads=(craft.RESTORE_ASPHALT,),
    idle="no pavement is cut",
)
def asphalt_strip_too_narrow(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag pavement cut beside the gutter in a strip narrower than the town renews.

    Why: a narrow strip cannot be rolled, and settles into a second gutter.
    """
    if job.cut.pavement_cut:
        cure = "cut {short} more of the pavement"
        yield at_least(rules[craft.RESTORE_ASPHALT], job.cut.pavement_cut, item="strip", cure=cure)


@check(
    "joints-too-far-apart",
    "Joints in the new walk are too far apart",
    reads=(craft.WALK_JOINTS,),
    idle="no panel is taken out",
)
def joints_too_far_apart(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag panels longer than the town lets joints stand apart.

    Why: concrete makes the joint it was not given, and not in a straight line.
    """
    for _cut in cuts(job, study):
        cure = "score the new panels at the town's spacing"
        length = job.walk.panel_length
        yield at_most(rules[craft.WALK_JOINTS], length, item="length of a panel", cure=cure)


@check(
    "grout-wrong-kind",
    "The grout is of the wrong kind",
    reads=(keys.RESTORE_GROUT,),
    idle="no hole in a curb is grouted",
)
def grout_wrong_kind(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a grout that is not among those the town takes.

    Why: plain mortar shrinks, lets water behind the curb, and falls out in a few winters.
    """
    if holes(study) or any(hole.plan == "plug" for hole in job.existing):
        yield one_of(rules[keys.RESTORE_GROUT], job.restoration.grout, missing=LEFT_TO_TOWN)


@check(
    "lift-too-thick",
    "The backfill goes in too thick a lift",
    reads=(keys.RESTORE_LIFT,),
    beyond="The backfill goes in too thin a lift",
)
def lift_too_thick(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a lift of backfill thicker than the greatest.

    Why: a rammer packs only the top of a thick lift, and the trench sinks for years.
    """
    yield at_most(
        rules[keys.RESTORE_LIFT],
        job.restoration.lift,
        missing=LEFT_TO_TOWN,
        cure="lay it in lifts {short} thinner",
        other="lay it in lifts {short} thicker",
    )


@check(
    "backfill-too-loose",
    "The backfill is too loose",
    reads=(keys.RESTORE_DENSITY,),
    beyond="The backfill is too dense",
)
def backfill_too_loose(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag backfill less dense than the least.

    Why: loose backfill sinks under the walk and takes it along.
    """
    yield at_least(
        rules[keys.RESTORE_DENSITY],
        job.restoration.density,
        missing=LEFT_TO_TOWN,
        cure="compact it {short} more",
        other="compact it {short} less",
    )


@check(
    "open-too-early",
    "New concrete is opened too early",
    reads=(keys.RESTORE_TO_FEET, keys.RESTORE_TO_WHEELS),
    idle=NO_CUT,
)
def open_too_early(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag new concrete opened to feet, or to wheels, before it has cured for the least time.

    Why: heels print a green slab, and wheels crack it.
    """
    for _ in cuts(job, study):
        cure = "keep it barricaded for the full time"
        feet, wheels = job.restoration.hours_to_feet, job.restoration.days_to_wheels
        yield lasts(rules[keys.RESTORE_TO_FEET], feet, "hours", item="to feet", cure=cure)
        yield lasts(rules[keys.RESTORE_TO_WHEELS], wheels, "days", item="to wheels", cure=cure)


@check(
    "tree-roots-cut",
    "Roots are cut without the forester's word",
    reads=(keys.RESTORE_TREE,),
    idle="the run passes no tree within its drip line",
)
def tree_roots_cut(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a run within a tree's drip line for which the forester has not given his word.

    Why: the roots that hold a tree up lie in the top foot, where the pipe goes.
    """
    for tree in features(job, "tree"):
        if under_tree(job, tree):
            yield present(
                rules[keys.RESTORE_TREE],
                there=job.papers.tree_statement,
                what="the forester's word",
                item=f"{tree.name or 'tree'} at {as_written(tree.near)}",
                cure="ask the forester, and bore under the roots",
            )


def under_tree(job: Job, tree: Feature) -> bool:
    """Tell whether the run passes within a tree's drip line."""
    return abs(float(tree.near) - float(job.outlet.station)) < float(tree.drip_line or 0)
