"""Checks of the way the water is let go, and where."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    at_least,
    at_most,
    holds,
    in_order,
    measured_from,
    one_of,
    part_measured,
    present,
    stance,
    within,
)
from permitkit.checks.proposed import (
    alike,
    as_written,
    curbs,
    features,
    from_part,
    waters,
    window_cure,
)
from permitkit.checks.registry import check
from permitkit.model.keys import craft
from permitkit.model.keys import outlet as keys
from permitkit.model.vocabulary.outlets import NO_WAY, way_of
from permitkit.model.words import OutletKind, choices

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.checks.scale import Lazy
    from permitkit.model.job import Job
    from permitkit.study.in_force import InForce, RulesInForce
    from permitkit.study.results import CurbStudy, HoleStudy, Study

__all__ = [
    "better_outlet_not_tried",
    "curb_outlet_barred",
    "old_hole_left_open",
    "old_pipe_renewed",
    "outlet_count_wrong",
    "outlet_near_drive",
    "outlet_near_inlet",
    "outlet_near_line",
    "outlet_near_ramp",
    "outlet_near_tree",
    "outlet_too_high",
    "outlet_too_low",
    "outlet_wrong_for_curb",
    "water_passes_ramp",
]

PART_OF_CURB = {"core": keys.CORE_CURBS, "notch": keys.NOTCH_CURBS}
CURB_TOP = "curb top"
NO_CURB = "no water is let go at the curb"


@check(
    "curb-outlet-barred",
    "Water may not be let go this way",
    reads=(keys.OUTLET_ALLOWED, keys.OUTLET_ORDER),
)
def curb_outlet_barred(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a way of letting water go that the town bars for this water and curb.

    Why: everything after it is idle if the town will not have water let go this way at all.
    """
    for rule, water in alike(rules, keys.OUTLET_ALLOWED, waters(job)):
        yield stance(
            rule,
            job.outlet.kind,
            item=f"{job.outlet.kind} for {water} water",
            cure=partial(ways_left, rules, job),
        )


@check(
    "better-outlet-not-tried",
    "A way the town would rather see was not tried",
    reads=(keys.OUTLET_ORDER,),
)
def better_outlet_not_tried(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an earlier choice in the town's order that no stated reason rules out.

    Why: a town that ranks the ways wants to know why the better ones do not work here.
    """
    reasons = {passed.way for passed in job.outlet.passed_over}
    yard = rules.facts.get("yard")
    yield from in_order(rules[keys.OUTLET_ORDER], job.outlet.kind, reasons, yard=yard)


@check(
    "outlet-wrong-for-curb",
    "The outlet does not suit the curb",
    reads=(keys.CORE_CURBS, keys.NOTCH_CURBS),
    idle="neither a core nor a notch is proposed",
)
def outlet_wrong_for_curb(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a core or a notch in a curb of a shape the town does not want it in.

    Why: a core breaks out of a rolled curb, and a notch takes the face off a vertical one.
    """
    for kind in PART_OF_CURB.keys() & {job.outlet.kind}:
        yield one_of(rules[PART_OF_CURB[kind]], job.curb.shape, item=f"{kind} in the curb")


@check(
    "outlet-too-low",
    "The outlet stands too low",
    reads=(keys.CORE_HEIGHT, keys.NOTCH_FLOOR, craft.OUTLET_HEIGHT),
    idle=NO_CURB,
)
def outlet_too_low(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a hole or a notch lower than the least height, of the part the town names.

    Why: an outlet low in the curb stands in the gutter's own water and silts up.
    """
    for rule, height, item, cure in heights(job, rules, study, "raise"):
        low_end = at_most if measured_from(rule) == CURB_TOP else at_least
        yield low_end(rule, height, item=item, cure=cure, levelled=1.0)


@check(
    "outlet-too-high",
    "The outlet stands too high",
    reads=(keys.CORE_HEIGHT, keys.NOTCH_FLOOR, craft.OUTLET_HEIGHT),
    idle=NO_CURB,
)
def outlet_too_high(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a hole or a notch higher than the greatest height, of the part the town names.

    Why: an outlet high in the curb leaves a thin top that breaks, and throws water at the street.
    """
    for rule, height, item, cure in heights(job, rules, study, "lower"):
        high_end = at_least if measured_from(rule) == CURB_TOP else at_most
        yield high_end(rule, height, item=item, cure=cure, levelled=1.0)


@check(
    "outlet-count-wrong",
    "The frontage has the wrong number of outlets",
    reads=(keys.OUTLET_COUNT,),
    idle=NO_CURB,
)
def outlet_count_wrong(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag more outlets on the frontage than the town allows, those that stay counted.

    Why: every hole weakens the curb, and the town answers for all of them.
    """
    kept = sum(hole.plan == "keep" for hole in job.existing)
    for _ in curbs(study):
        yield within(
            rules[keys.OUTLET_COUNT],
            kept + job.outlet.count,
            item="outlets on this frontage",
            cure_at=partial(_other_count, kept + job.outlet.count),
        )


@check(
    "outlet-near-line",
    "The outlet is too near a side line",
    reads=(keys.OUTLET_TO_LINE,),
    idle=NO_CURB,
    beyond="The outlet is too far from a side line",
)
def outlet_near_line(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an outlet nearer to a side property line, extended, than the least.

    Why: water let go at the line runs along the neighbour's curb, and the line may be elsewhere.
    """
    rule = rules[keys.OUTLET_TO_LINE]
    for curb in curbs(study):
        yield at_least(
            rule,
            from_part(rule, curb, curb.edge_to_side_line_m),
            item="to the nearer side line",
            cure="move the outlet {short} away from the line",
            other="move the outlet {short} nearer to the line",
        )


@check(
    "outlet-near-drive",
    "The outlet is too near a drive",
    reads=(keys.OUTLET_TO_DRIVE,),
    idle=NO_CURB,
    beyond="The outlet is too far from a drive",
)
def outlet_near_drive(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an outlet nearer to a drive's flare or apron than the least.

    Why: the curb thins toward a flare, and wheels run up on it there.
    """
    for curb in curbs(study):
        yield apart_from(rules[keys.OUTLET_TO_DRIVE], curb, "drive")


@check(
    "outlet-near-ramp",
    "The outlet is too near a curb ramp",
    reads=(keys.OUTLET_TO_RAMP,),
    idle=NO_CURB,
    beyond="The outlet is too far from a curb ramp",
)
def outlet_near_ramp(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an outlet nearer to a curb ramp than the least.

    Why: water at the foot of a ramp freezes, and keeps people out of it.
    """
    for curb in curbs(study):
        yield apart_from(rules[keys.OUTLET_TO_RAMP], curb, "ramp")


@check(
    "water-passes-ramp",
    "The water passes a ramp before it reaches an inlet",
    standard="good practice: accessible ways kept free of running water",
    idle="no ramp or crosswalk is recorded, or not which way the gutter flows",
)
def water_passes_ramp(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Advise where the water let go runs past a ramp or crosswalk before it finds an inlet.

    Why: what is let go here crosses the foot of that ramp, and lies there as ice.
    """
    for _curb in curbs(study):
        for ramp in downstream(job, "ramp", "crosswalk"):
            yield holds(
                ok=any(inlet < ramp for inlet in downstream(job, "inlet")),
                proposed=f"flows {job.street.gutter_flows} past it",
                limit="an inlet before it",
                item="the nearest ramp or crosswalk downstream",
                cure="let the water go on the far side of the inlet, or tell the town of it",
                advice=True,
            )


@check(
    "outlet-near-inlet",
    "The outlet stands wrong to the nearest inlet",
    reads=(keys.OUTLET_TO_INLET,),
    idle=NO_CURB,
)
def outlet_near_inlet(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an outlet nearer to an inlet than the least, or farther than the greatest.

    Why: some towns keep the inlet's throat clear, others want the street wet for a short way only.
    """
    for curb in curbs(study):
        yield apart_from(rules[keys.OUTLET_TO_INLET], curb, "inlet")


@check(
    "outlet-near-tree",
    "The outlet is too near a town tree",
    reads=(keys.OUTLET_TO_TREE,),
    idle=NO_CURB,
    beyond="The outlet is too far from a town tree",
)
def outlet_near_tree(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an outlet nearer to a town tree than the least.

    Why: the trench to it cuts the roots that hold the tree up.
    """
    for curb in curbs(study):
        yield apart_from(rules[keys.OUTLET_TO_TREE], curb, "tree")


@check(
    "old-hole-left-open",
    "An old hole is left open",
    reads=(keys.OUTLET_PLUG_OLD,),
    idle="no old hole goes out of use",
)
def old_hole_left_open(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an old hole that goes out of use and is not plugged, where the town wants it plugged.

    Why: an idle hole lets the street back into the old line, and the curb breaks at it.
    """
    for hole in job.existing:
        if hole.plan == "plug" or not hole.in_use:
            yield present(
                rules[keys.OUTLET_PLUG_OLD],
                there=hole.plan == "plug",
                what="plugged",
                item=f"old hole at {as_written(hole.station)}",
                cure="plug it full depth to the town's detail",
            )


@check(
    "old-pipe-renewed",
    "An old curb pipe may not be renewed",
    reads=(craft.OUTLET_RENEWAL,),
    idle="no hole already there is used again",
)
def old_pipe_renewed(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a hole already there that is used again, where the town bars renewal in kind.

    Why: where curb pipes are barred, the old ones are let die out.
    """
    for hole in job.existing:
        if hole.plan == "reuse":
            old, rule = f"old hole at {as_written(hole.station)}", rules[craft.OUTLET_RENEWAL]
            yield stance(rule, "used again", item=old, cure="plug it")


def _other_count(count: int, limit: float) -> str:
    fewer = "plug an old hole, or let the water go through fewer"
    return f"let the water go through {limit:g}" if count < limit else fewer


def ways_left(rules: RulesInForce, job: Job) -> str:
    """Return the ways the town allows here, in its order, with what it says they need."""
    order, waters_in = rules[keys.OUTLET_ORDER], waters(job)
    ways = [
        way
        for way in (order.order.steps if order.known else choices(OutletKind))
        if any(
            all(lets(rules.at(keys.OUTLET_ALLOWED, outlet=kind, **water)) for water in waters_in)
            for kind in (way_of(way) or NO_WAY).kinds
        )
    ]
    if not ways:
        return "the sheet names no way that is allowed here: ask the town"
    needs = f": {order.note}" if order.note else ""
    return f"let the water go by {', then '.join(ways)}{needs}"


def lets(rule: InForce) -> bool:
    """Tell whether the town lets a thing be done."""
    return rule.known and rule.stance != "barred"


def heights(
    job: Job, rules: RulesInForce, study: Study, verb: str
) -> Iterator[tuple[InForce, float, str, Lazy]]:
    """Yield the rule on height, the height of the part it names, the item and the cure."""
    for curb in curbs(study):
        if curb.hole:
            rule = rules[keys.CORE_HEIGHT]
            height = height_of_part(rule, job, curb, curb.hole)
            yield (
                rule,
                height,
                f"the {part_measured(rule)}",
                partial(window_cure, job, curb, curb.hole),
            )
        if curb.notch:
            cure = f"{verb} the floor by {{short}}"
            yield rules[keys.NOTCH_FLOOR], curb.notch.floor_toe_m, "notch floor at the toe", cure
        lowest = curb.hole.invert_m if curb.hole else float(job.outlet.floor_toe or 0)
        lip = float(job.gutter.overlay_lip or 0)
        cure = f"{verb} the outlet by {{short}}"
        yield rules[craft.OUTLET_HEIGHT], lowest - lip, "where the water leaves", cure


def height_of_part(rule: InForce, job: Job, curb: CurbStudy, hole: HoleStudy) -> float:
    """Return the height of the part of a hole a rule names, from the datum it names."""
    part = {
        "invert": hole.invert_m,
        "hole bottom": hole.bottom_m,
        "hole centre": hole.bottom_m + hole.bit_m / 2,
        "hole top": hole.top_m,
        "pipe outside": hole.bottom_m + hole.gap_m,
    }[part_measured(rule)]
    datum = {
        "flow line": part,
        "pavement": part - float(job.gutter.overlay_lip or 0),
        CURB_TOP: curb.reveal_m - part,
    }
    return datum[measured_from(rule)]


def apart_from(rule: InForce, curb: CurbStudy, kind: str) -> Finding:
    """Return whether the outlet keeps the distance a rule sets to the nearest of some feature."""
    return within(
        rule,
        from_part(rule, curb, curb.near_m.get(kind)),
        item=f"to the nearest {kind}",
        missing=f"no {kind} is recorded along this curb",
        cure=f"move the outlet {{short}} along the curb, clear of the {kind}",
        other=f"move the outlet {{short}} along the curb, nearer to the {kind}",
    )


def downstream(job: Job, *kinds: str) -> list[float]:
    """Return how far the nearest feature of some kinds lies down the gutter, if one does."""
    sign = {"left": -1, "right": 1}.get(job.street.gutter_flows or "", 0)
    here = float(job.outlet.station)
    far = ((float(feature.near) - here) * sign for feature in features(job, *kinds))
    return sorted(distance for distance in far if distance > 0)[:1]
