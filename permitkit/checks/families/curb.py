"""Checks of the hole or the notch in the curb."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    at_least,
    holds,
    one_of,
    part_measured,
    present,
    stance,
    within,
)
from permitkit.checks.proposed import (
    bit_cure,
    curbs,
    cutter,
    drive_sides,
    fitting_bits,
    from_part,
    holes,
    notches,
    outside,
    room_for,
    size,
    smaller_pipe,
    window_cure,
)
from permitkit.checks.registry import check
from permitkit.model.keys import craft, duties
from permitkit.model.keys import outlet as keys

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import HoleStudy, Study

__all__ = [
    "barrel_hits_pan",
    "bars_not_looked_for",
    "core_below_gutter",
    "core_near_joint",
    "core_too_wide",
    "cores_too_close",
    "curb_cut_by_others",
    "curb_wrong_height",
    "drive_side_without_outlet",
    "grout_gap_wrong",
    "no_bit_fits",
    "notch_at_drive",
    "notch_floor_below_gutter",
    "notch_floor_too_flat",
    "notch_too_wide",
    "strip_too_thin",
]

NO_HOLE = "no hole is cored"
NO_NOTCH = "no notch is sawn"
FLOW_LINE = "the gutter flow line"
SAME_LEVEL = 0.0


@check("core-too-wide", "The hole is too wide", reads=(keys.CORE_BIT,), idle=NO_HOLE)
def core_too_wide(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a bit over the greatest the town allows, or none of the sizes it names.

    Why: what is taken out of a curb is what breaks it.
    """
    for curb, hole in holes(study):
        yield within(
            rules[keys.CORE_BIT],
            job.outlet.bit or hole.bit_m,
            item="bit",
            cure=partial(bit_cure, job, curb, hole),
            other=partial(bit_cure, job, curb, hole),
        )


@check(
    "no-bit-fits",
    "No hole fits this pipe and this curb at once",
    reads=(keys.CORE_BIT, keys.CORE_GAP, keys.CORE_STRIP, keys.CORE_HEIGHT),
    standard="geometry of the curb",
    idle=NO_HOLE,
    asks="Does a bit that is sold fit pipe, curb and rules at once?",
)
def no_bit_fits(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a pipe for which no bit sold meets gap, strip, height and width together.

    Why: each limit may have its own cure, and all of them together none.
    """
    for curb, hole in holes(study):
        yield holds(
            ok=bool(hole.fitting_bits_m),
            proposed=partial(fitting_bits, job, hole),
            limit=partial(_a_bit_for, job, hole, curb.reveal_m),
            cure=partial(smaller_pipe, job, curb, hole),
        )


@check(
    "strip-too-thin",
    "The strip over the hole is too thin",
    reads=(keys.CORE_STRIP,),
    idle=NO_HOLE,
    beyond="The strip over the hole is too thick",
)
def strip_too_thin(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag less concrete between the hole, or its pipe, and the curb top than the least.

    Why: a thin strip breaks out under the first wheel, and the curb is lost.
    """
    rule = rules[keys.CORE_STRIP]
    for curb, hole in holes(study):
        over_pipe = part_measured(rule) == "pipe outside"
        yield at_least(
            rule,
            hole.strip_m + hole.gap_m if over_pipe else hole.strip_m,
            cure=partial(window_cure, job, curb, hole),
            other=partial(window_cure, job, curb, hole),
            levelled=1.0,
        )


@check(
    "core-below-gutter",
    "The hole reaches below the gutter",
    standard="statics: water runs downhill",
    idle=NO_HOLE,
    asks="Does the hole stand above the gutter flow line?",
)
def core_below_gutter(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a hole whose lowest point is under the gutter flow line.

    Why: a hole under the gutter cuts the pan, and lets the gutter into the pipe.
    """
    for curb, hole in holes(study):
        yield at_least(
            room_for(job, SAME_LEVEL, FLOW_LINE),
            hole.bottom_m,
            item="hole bottom",
            cure=partial(window_cure, job, curb, hole),
            levelled=1.0,
        )


@check("grout-gap-wrong", "The grout gap is wrong", reads=(keys.CORE_GAP,), idle=NO_HOLE)
def grout_gap_wrong(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a gap round the pipe under the least or over the greatest.

    Why: too thin a gap takes no grout, too wide a one shrinks away from the pipe.
    """
    for _, hole in holes(study):
        yield within(rules[keys.CORE_GAP], hole.gap_m, cure=partial(_other_gap, job, hole))


@check(
    "curb-cut-by-others",
    "Someone else has to cut the curb",
    reads=(duties.OUTLET_WHO_CUTS,),
    idle="the curb is not cut",
)
def curb_cut_by_others(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a curb cut or cored by somebody who may not.

    Why: a curb cut by the wrong hands is replaced at the owner's cost.
    """
    rule = rules[duties.OUTLET_WHO_CUTS]
    for _curb in curbs(study):
        cure = "have it cut by those who may, and name them in cut.curb_by"
        yield one_of(rule, cutter(job, rule), item="the curb", cure=cure)


@check(
    "core-near-joint",
    "The hole is too near a curb joint",
    reads=(keys.CORE_TO_JOINT,),
    idle=NO_HOLE,
    beyond="The hole is too far from a curb joint",
)
def core_near_joint(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a hole nearer to a curb joint than the least.

    Why: the piece between hole and joint breaks off as the bit comes through.
    """
    rule = rules[keys.CORE_TO_JOINT]
    for curb, _hole in holes(study):
        yield at_least(
            rule,
            from_part(rule, curb, curb.edge_to_joint_m),
            item="to the nearest joint",
            missing="the distance to the curb's joints is not measured",
            cure="move the hole {short} away from the joint",
            other="move the hole {short} nearer to the joint",
        )


@check(
    "cores-too-close",
    "The holes stand too close",
    reads=(keys.CORE_APART,),
    idle="no second hole stands beside it",
    beyond="The holes stand too far apart",
)
def cores_too_close(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag less clear curb between two holes than the least.

    Why: the web between two holes carries the curb top over both.
    """
    for _curb, hole in holes(study):
        if hole.count > 1:
            yield at_least(
                rules[keys.CORE_APART],
                hole.clear_between_m,
                item="clear curb between the holes",
                missing="the spacing of the holes is not given",
                cure="set the holes {short} farther apart",
                other="set the holes {short} closer together",
            )


@check(
    "bars-not-looked-for",
    "Nobody looked for bars in the curb",
    reads=(keys.CORE_BARS,),
    standard="good practice: scan before drilling",
    idle=NO_HOLE,
)
def bars_not_looked_for(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a curb that is to be drilled and was not scanned for bars.

    Why: a bit that meets a bar wanders, snatches, and spalls the curb's face.
    """
    for _curb, _hole in holes(study):
        yield present(
            rules[keys.CORE_BARS],
            there=job.curb.bars_looked_for,
            what="curb scanned for bars",
            cure="scan the curb at the hole and record it",
            advice=True,
        )


@check(
    "barrel-hits-pan",
    "The drill's barrel would hit the pan",
    standard="geometry of the drill, held at the pipe's slope over the pan",
    idle="the hole is not drilled from the street",
    asks="Does the bit's barrel clear the gutter pan?",
)
def barrel_hits_pan(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Advise where a barrel held at the pipe's slope meets the pan before the curb.

    Why: the crew then drills higher than drawn, and the strip over the hole goes thin.
    """
    for _curb, hole in holes(study):
        if job.outlet.drill_from == "street":
            yield at_least(
                room_for(job, hole.barrel_least_bottom_m, "barrel clear of the pan"),
                hole.bottom_m,
                item="hole bottom",
                cure="drill from behind, or with a shorter barrel",
                advice=True,
            )


@check(
    "curb-wrong-height",
    "The curb itself does not stand as high as it must",
    reads=(craft.CORE_CURB_EXPOSURE,),
    idle="no water is let go at the curb",
)
def curb_wrong_height(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a curb whose face is not as high as the town has its curbs.

    Why: an overlay or a settled curb leaves too little face to put a hole in.
    """
    for curb in curbs(study):
        yield within(
            rules[craft.CORE_CURB_EXPOSURE],
            curb.reveal_m,
            item="face of the curb",
            other="ask the town: the curb is off by {short} before anything is done to it",
            cure="ask the town: the curb is off by {short} before anything is done to it",
        )


@check("notch-too-wide", "The notch has the wrong width", reads=(keys.NOTCH_WIDTH,), idle=NO_NOTCH)
def notch_too_wide(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a notch wider than the greatest, or narrower than the least.

    Why: a wide notch catches a wheel, a narrow one catches leaves.
    """
    for _notch in notches(study):
        yield within(
            rules[keys.NOTCH_WIDTH],
            job.outlet.width,
            cure="saw it {short} wider",
            other="saw it {short} narrower",
        )


@check(
    "notch-floor-below-gutter",
    "The notch floor lies below the gutter",
    standard="statics: water runs downhill",
    idle=NO_NOTCH,
    asks="Does the notch floor stand above the flow line?",
)
def notch_floor_below_gutter(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a notch whose floor at the toe is under the flow line, or under an overlay's lip there.

    Why: the gutter then runs up the notch and stands behind the curb.
    """
    lip = float(job.gutter.overlay_lip or 0)
    for _notch in notches(study):
        yield at_least(
            room_for(job, lip, "the overlay's lip in the gutter" if lip else FLOW_LINE),
            job.outlet.floor_toe,
            item="floor at the toe",
            cure="raise the floor {short}",
        )


@check(
    "notch-floor-too-flat",
    "The notch floor is too flat",
    reads=(keys.NOTCH_SLOPE,),
    idle=NO_NOTCH,
    beyond="The notch floor is too steep",
)
def notch_floor_too_flat(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a notch floor flatter than the least.

    Why: a flat floor holds grit and ice.
    """
    for notch in notches(study):
        yield at_least(
            rules[keys.NOTCH_SLOPE],
            job.outlet.floor_slope or notch.floor_slope,
            cure="cut the floor {short} steeper",
            other="cut the floor {short} flatter",
        )


@check(
    "drive-side-without-outlet",
    "A side of a drive has no outlet",
    reads=(craft.OUTLET_BESIDE_DRIVE,),
    idle="no water is let go at the curb, or no drive is recorded",
)
def drive_side_without_outlet(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a side of a drive, as far as the next drive or the line, that no hole serves.

    Why: the apron lies across the verge like a dam, and each side of it holds its own water.
    """
    kept = [float(hole.station) for hole in job.existing if hole.plan != "plug"]
    for curb in curbs(study):
        for name, sides in drive_sides(job):
            for side, (low, high) in sides.items():
                there = any(low <= at <= high for at in (*kept, *curb.stations_m))
                yield present(
                    rules[craft.OUTLET_BESIDE_DRIVE],
                    there=there,
                    what="a hole",
                    item=f"{side} of the {name}",
                    cure=f"let the water go {side} of it as well",
                )


@check(
    "notch-at-drive",
    "The notch stands where wheels cross the curb",
    reads=(keys.NOTCH_AT_DRIVE,),
    idle="no notch stands where wheels cross",
)
def notch_at_drive(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a notch where wheels cross the roll, where the town bars it.

    Why: every wheel that crosses breaks its edges.
    """
    for _ in notches(study):
        if job.outlet.at_drive:
            cure = "move the notch clear of the drive"
            yield stance(rules[keys.NOTCH_AT_DRIVE], "wheels cross it", cure=cure)


def _other_gap(job: Job, hole: HoleStudy) -> str:
    return f"the gap is half of bit less pipe, {outside(job, hole)}: change the one or the other"


def _a_bit_for(job: Job, hole: HoleStudy, reveal_m: float) -> str:
    return f"a bit for a pipe {outside(job, hole)} outside in a {size(job, reveal_m)} curb"
