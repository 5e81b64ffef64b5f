"""Checks of the water: what kind, how much, how high it rises, what stays in the line."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    asked,
    at_least,
    at_most,
    holds,
    honest,
    in_months,
    present,
    stance,
)
from permitkit.checks.line import openings
from permitkit.checks.proposed import (
    alike,
    curbs,
    emitters,
    flow,
    flow_unit,
    gutters,
    pumps,
    room_for,
    rounded_down,
    short_length,
    size,
    square_inches,
    steepness,
    volume,
    waters,
)
from permitkit.checks.registry import check
from permitkit.checks.scale import Yardstick, rounded_up
from permitkit.model.keys import craft
from permitkit.model.keys import run as keys
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Standing, Study

__all__ = [
    "gutter_covers_outlet",
    "gutter_deeper_than_taken",
    "gutter_spread_too_wide",
    "gutter_too_flat",
    "leader_too_small",
    "line_holds_water",
    "pump_without_air_gap",
    "rain_basis_missing",
    "run_overloaded",
    "street_runs_back",
    "sump_in_closed_months",
    "velocity_low",
    "water_kind_barred",
    "water_rises_above_opening",
]

NO_PUMP = "no pump enters the line"
LARGER = "add a leader, or take a larger one"
NO_OPENING = "no node has an opening water could leave by"
NO_GUTTER_FLOW = "the job does not say what runs along the gutter"
NO_RAIN = "the town has no rule on the design rain: choose one and state it"
LINE = "hydraulics of the run at design flow: Manning's formula, losses at bends and ends"


@check(
    "water-kind-barred",
    "This kind of water may not go there",
    reads=(keys.WATER_ALLOWED,),
    idle="no water enters the line",
)
def water_kind_barred(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a kind of water that the town does not take.

    Why: the street runs to a brook; what is not rain water may not go to it.
    """
    for rule, water in alike(rules, keys.WATER_ALLOWED, waters(job)):
        yield stance(rule, f"{water} water", item=water, cure=f"take the {water} water elsewhere")


@check(
    "sump-in-closed-months",
    "The pump runs in months that are closed to it",
    reads=(keys.WATER_SUMP_SEASON,),
    idle=NO_PUMP,
)
def sump_in_closed_months(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a pump that lets go to the street in closed months and has no other way for them.

    Why: pumped water in frost makes a sheet of ice from the outlet to the next inlet.
    """
    for inflow, pump in pumps(job):
        yield in_months(
            rules[keys.WATER_SUMP_SEASON],
            pump.months,
            job.filing.year,
            item=inflow.name,
            excused=pump.winter_route or "",
            cure="give the pump a winter route, with its own outlet on the lot",
        )


@check(
    "rain-basis-missing",
    "The design rain has no basis",
    reads=(keys.WATER_RAIN,),
    standard="a design rain is an intensity with its return period, duration and source",
    idle="no rain falls on what drains here",
    asks="Has the design rain its period, duration and source?",
)
def rain_basis_missing(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a design rain without its return period, duration or source; ask where there is none.

    Why: the same number of inches an hour is a drizzle or a flood, by how long and how often.
    """
    rain, rule = study.water.rain, rules[keys.WATER_RAIN]
    if not any(inflow.area or inflow.wall_area for inflow in job.drain.inflow):
        return
    if rain.intensity_ms is None and rule.no_rule:
        yield asked(NO_RAIN, item="", of="the applicant", blocking=rule.key.blocking)
    elif rain.intensity_ms is None:
        yield honest(rule, item="", proposed="no rain")
    else:
        yield holds(
            ok=not rain.missing,
            proposed=", ".join(filter(None, (rain.period, rain.duration, rain.source))),
            limit="intensity, return period, duration and source",
            cure=f"state in the job file: {', '.join(rain.missing)}",
        )


@check(
    "run-overloaded",
    "The run is overloaded",
    standard="Manning's formula, full bore, smallest bore sold",
    idle="no reach falls at all",
    asks="Does each reach carry its design flow without running full?",
)
def run_overloaded(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a reach that is to carry more than it can running full.

    Why: what the pipe cannot carry comes out where it went in, beside the house.
    """
    for reach in study.water.reaches:
        if reach.slope > 0:
            yield at_most(
                Yardstick(Kind.FLOW, flow_unit(job), most=reach.full_flow_m3s, name="running full"),
                reach.flow_m3s,
                item=reach.name,
                cure="take {short} elsewhere, lay a larger pipe or a second one, or more fall",
            )


@check(
    "velocity-low",
    "The full pipe runs too slowly to keep itself clean",
    reads=(keys.WATER_VELOCITY,),
    idle="no reach falls at all",
    beyond="The full pipe runs too fast",
)
def velocity_low(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Advise where the full pipe runs slower than what carries grit along.

    Why: leaves and roof grit settle in a slow line and close it in a few years.
    """
    for reach in study.water.reaches:
        if reach.slope > 0:
            yield at_least(
                rules[keys.WATER_VELOCITY],
                reach.full_velocity_ms,
                item=reach.name,
                other="less fall",
                cure="more fall, or a leaf screen and a cleanout at its upper end",
                advice=True,
            )


@check(
    "line-holds-water",
    "Water stays standing in the line",
    standard="statics: water runs downhill",
    idle="an emitter's pit takes up what its line holds",
    asks="Does the line empty after rain?",
)
def line_holds_water(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag water that stays in the line after rain, save what an emitter's pit takes up.

    Why: standing water freezes, breeds and drops its silt.
    """
    if emitters(job):
        return
    for pool in study.water.standing:
        yield holds(
            ok=False,
            proposed=partial(_pool, job, pool),
            limit="none",
            item=f"about {pool.where}",
            cure=partial(_drained, job, pool),
        )
    if not study.water.standing:
        yield holds(ok=True, proposed="the line drains dry", limit="none")


@check(
    "pump-without-air-gap",
    "A pump is piped straight into the line",
    reads=(keys.WATER_AIR_GAP,),
    idle=NO_PUMP,
)
def pump_without_air_gap(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a pump without an air gap before the gravity line, or without a check valve below it.

    Why: a full line then runs back through the pump into the cellar.
    """
    for inflow, pump in pumps(job):
        for what, there in (("air gap", pump.air_gap), ("check valve", pump.check_valve)):
            yield present(
                rules[keys.WATER_AIR_GAP],
                there=there,
                what=what,
                item=f"{inflow.name}, {what}",
                cure=f"add the {what}",
            )


@check(
    "water-rises-above-opening",
    "Water rises above an opening at design flow",
    reads=(keys.WATER_FREEBOARD,),
    standard=LINE,
    idle=NO_OPENING,
)
def water_rises_above_opening(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a node where the design flow, under any gutter water, comes within the freeboard.

    Why: the lowest opening is where the line spills, and it is beside the house.
    """
    for node, opening in openings(study):
        gutter = max(node.flowing_m, key=lambda name: node.flowing_m[name])
        yield at_least(
            rules[keys.WATER_FREEBOARD],
            opening - node.flowing_m[gutter],
            item=f"{node.name}: {node.opening_kind} over the water, {gutter} gutter",
            floor=room_for(job, 0.0, "opening above the water"),
            cure="raise or close the opening, or take {short} of water level off",
            levelled=1.0,
        )


@check(
    "street-runs-back",
    "The street runs back into the line",
    standard="statics: still water is level",
    idle=NO_OPENING,
    asks="Does every opening stand above a gutter full to the curb top?",
)
def street_runs_back(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an opening lower than the curb top, through which a full gutter comes out at the house.

    Why: a perfect pipe carries the street into the yard as well as the yard into the street.
    """
    for node, opening in openings(study):
        yield at_least(
            room_for(job, 0.0, "opening above a gutter full to the curb top"),
            opening - node.still_m["curb-full"],
            item=f"{node.name}: {node.opening_kind} over the street's water",
            cure="raise the opening {short}, take it off the line, or seal it",
            levelled=1.0,
        )


@check(
    "gutter-covers-outlet",
    "The running gutter covers the outlet",
    standard="good practice: the outlet's crown stands clear of the running gutter",
    idle="no water is let go at the curb",
    asks="Does the outlet's crown stand clear of the running gutter?",
)
def gutter_covers_outlet(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Advise where the gutter, running as it does in the storm, stands over the outlet's crown.

    Why: a drowned outlet backs the line up just when it is needed.
    """
    if study.curb:
        for reach in study.water.reaches:
            if reach.lower == "outlet":
                crown_m = reach.lower_invert_m + reach.pipe.bore_height_m
                yield at_least(
                    room_for(job, 0.0, "crown above the running gutter"),
                    crown_m - study.water.gutter_levels_m["running"],
                    item="outlet's crown",
                    cure="raise the outlet within its window",
                    advice=True,
                )


@check(
    "gutter-too-flat",
    "The gutter is too flat to take the water away",
    reads=(craft.GUTTER_SLOPE,),
    idle="no water is let go at the curb",
    beyond="The gutter is too steep",
)
def gutter_too_flat(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a gutter flatter than the least.

    Why: water let go into a flat gutter stays in front of the house.
    """
    for _ in curbs(study):
        yield at_least(
            rules[craft.GUTTER_SLOPE],
            job.street.grade and steepness(job.street.grade),
            missing="the street's grade is not measured",
            cure="let the water go where the gutter runs, or ask the town",
            other="let the water go where the gutter runs flatter, or ask the town",
        )


@check(
    "gutter-spread-too-wide",
    "The gutter's water spreads too far into the street",
    reads=(keys.GUTTER_SPREAD,),
    idle=NO_GUTTER_FLOW,
)
def gutter_spread_too_wide(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a gutter that, with the job's water in it, spreads farther than the town allows.

    Why: cars slide on the water, and people at the walk are splashed.
    """
    for street in gutters(study):
        yield at_most(
            rules[keys.GUTTER_SPREAD],
            street.after.spread_m,
            item=f"with {flow(job, street.own_m3s)} of this job's",
            cure=f"let less water go here: without it {rounded_down(street.before.spread_m, job)}",
        )


@check(
    "gutter-deeper-than-taken",
    "The gutter runs deeper than the line was computed for",
    standard="gutter equation, FHWA HEC-22 ch. 4",
    idle=NO_GUTTER_FLOW,
    asks="Does the gutter run no deeper than the line was computed for?",
)
def gutter_deeper_than_taken(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a gutter whose flow stands deeper at the curb than the running gutter was taken to.

    Why: the line backs up from the water that is there, not from the one that was assumed.
    """
    levels = study.water.gutter_levels_m
    most_m, name = levels["running"] - levels["free"], "taken for the running gutter"
    taken = Yardstick(Kind.LENGTH, short_length(job), most=most_m, name=name)
    for street in gutters(study):
        yield at_most(
            taken, street.after.depth_m, cure="state depth_running {short} deeper in the job file"
        )


@check(
    "leader-too-small",
    "The leaders are too small for the roof",
    reads=(craft.PIPE_ROOF,),
    standard="leader 7/24 full: NBS Monograph 31, 1961",
    idle="no leader is measured",
    asks="Do the leaders take what falls on the roof?",
)
def leader_too_small(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag leaders that take less than the design rain brings, or too much roof for their size.

    Why: what the leader does not take goes over the roof gutter, down the wall.
    """
    for inflow in study.water.inflows:
        if inflow.leader_m3s and inflow.leader_m2:
            able = Yardstick(
                Kind.FLOW, flow_unit(job), most=inflow.leader_m3s, name="what its leaders take"
            )
            roof = inflow.area_m2 / square_inches(inflow.leader_m2)
            each = f"{inflow.name}, a square inch"
            yield at_most(able, inflow.storm_m3s, item=inflow.name, cure=LARGER)
            yield at_most(rules[craft.PIPE_ROOF], roof, item=each, cure=LARGER)


def _pool(job: Job, pool: Standing) -> str:
    return f"{size(job, pool.depth_m)} deep, {volume(job, pool.volume_m3)} in all"


def _drained(job: Job, pool: Standing) -> str:
    depth = rounded_up(pool.depth_m, Kind.LENGTH, short_length(job))
    return f"raise {pool.where} by {depth}, or lower what lies below it"
