"""Checks of the pipe run: its fall, its pipe, what lies over it and beside it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    asked,
    at_least,
    at_most,
    listed,
    named,
    one_of,
    present,
    stance,
    within,
)
from permitkit.checks.line import (
    beds,
    bore_area,
    cleanouts,
    crossings,
    house_near,
    in_line,
    longest_way,
    size_sold,
    sold_as,
    thinnest,
    walk_back,
)
from permitkit.checks.proposed import alike, as_written, room_for, rounded_down, short_length
from permitkit.checks.registry import check
from permitkit.checks.scale import Yardstick, rounded_up
from permitkit.hydraulics.materials import PIPES
from permitkit.model.keys import craft
from permitkit.model.keys import run as keys
from permitkit.model.vocabulary.pipes import pipe_fits
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.model.site import LevelSetup
    from permitkit.study.in_force import InForce, RulesInForce
    from permitkit.study.results import ReachWater, Study

__all__ = [
    "bore_shrinks",
    "cleanout_missing",
    "cover_too_thin",
    "fall_and_slope_disagree",
    "fitting_missing",
    "level_does_not_close",
    "pipe_kind_barred",
    "pipe_too_small",
    "run_falls_backward",
    "run_too_flat",
    "thin_pipe_under_drive",
    "utility_in_the_way",
]


@check(
    "run-too-flat",
    "The run lies too flat",
    reads=(keys.PIPE_SLOPE,),
    idle="no reach falls at all",
    beyond="The run lies too steep",
)
def run_too_flat(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a reach flatter than the town allows where it lies.

    Why: a flat reach drops its grit and closes.
    """
    for reach in study.water.reaches:
        if reach.slope > 0:
            for rule, place in alike(rules, keys.PIPE_SLOPE, [{"place": p} for p in reach.places]):
                yield at_least(
                    rule,
                    reach.slope,
                    item=f"{reach.name}, {place}",
                    cure_at=partial(_steeper, job, reach),
                    other="lay it {short} flatter",
                    levelled=reach.length_m,
                )


@check(
    "run-falls-backward",
    "The run falls backward",
    standard="statics: water runs downhill",
    asks="Does each reach fall toward the outlet?",
)
def run_falls_backward(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a reach whose lower end stands higher than its upper end.

    Why: water stands in it, and comes out at the house.
    """
    for reach in study.water.reaches:
        yield at_least(
            room_for(job, 0.0, "fall from the upper end to the lower"),
            reach.upper_invert_m - reach.lower_invert_m,
            item=reach.name,
            cure=f"raise {reach.upper} by {{short}}, or lower {reach.lower}",
            levelled=1.0,
        )


@check(
    "fall-and-slope-disagree",
    "The slope stated is not the slope the levels give",
    standard="arithmetic: fall over length, within the error of two readings",
    idle="no slope is stated beside the levels",
    asks="Do stated slopes agree with the levels?",
)
def fall_and_slope_disagree(job: Job, _: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a stated slope that the levels at both ends do not bear out.

    Why: one of the two was misread, and the crew will build the wrong one.
    """
    by_name = {reach.name: reach for reach in study.water.reaches}
    for drawn in job.drain.reach:
        reach = by_name[f"{drawn.upper} to {drawn.lower}"]
        if drawn.slope_stated:
            off = abs(float(drawn.slope_stated) - reach.slope) * reach.length_m
            yield at_most(
                Yardstick(
                    Kind.LENGTH, short_length(job), most=2 * level_error(job), name="off the levels"
                ),
                off,
                item=reach.name,
                cure=f"the levels give {reach.slope:.2%}: read both ends again",
            )


@check(
    "level-does-not-close",
    "The levels do not close",
    standard="survey practice: a closing shot within the instrument's error",
    idle="the levels were given, not read from set-ups",
    asks="Did the levels close on the benchmark?",
)
def level_does_not_close(job: Job, _: RulesInForce, __: Study) -> Iterator[Finding]:
    """Flag a set-up whose closing shot is off its backsight by more than the level's error.

    Why: an instrument that was knocked makes every level after it wrong.
    """
    for setup in job.level.setup:
        yield at_most(
            Yardstick(Kind.LENGTH, short_length(job), most=level_error(job), name="closing error"),
            closing_error(setup),
            item=f"set-up {setup.name}",
            missing="no closing shot was taken",
            cure="set up again and read every point of this set-up once more",
        )


@check(
    "cleanout-missing",
    "A cleanout is missing",
    reads=(keys.PIPE_CLEANOUT, keys.PIPE_CLEANOUT_AT_WALK),
    beyond="The cleanouts stand too close together",
)
def cleanout_missing(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag cleanouts farther apart than the greatest, or none before the walk.

    Why: a line nobody can rod is dug up instead, walk and all.
    """
    stations = cleanouts(job, study)
    yield at_most(
        rules[keys.PIPE_CLEANOUT],
        longest_way(stations, study),
        item="longest way between cleanouts",
        cure="add a cleanout where the way is longest",
        other="leave out a cleanout, or ask the town",
    )
    for back in walk_back(study):
        yield present(
            rules[keys.PIPE_CLEANOUT_AT_WALK],
            there=any(station >= back for station in stations),
            what="a cleanout on the house side of the walk",
            cure="add a cleanout just behind the walk",
        )


@check(
    "pipe-kind-barred",
    "This pipe may not be laid here",
    reads=(keys.PIPE_KIND,),
)
def pipe_kind_barred(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a pipe that is not among those the town takes at that place and under that surface.

    Why: the town digs up what is in its street, and wants to know what it meets.
    """
    for reach in study.water.reaches:
        near = house_near(job, reach)
        for rule, where in alike(rules, keys.PIPE_KIND, beds(reach), **near):
            yield one_of(
                rule,
                reach.pipe.name,
                fits=pipe_fits,
                item=f"{reach.name}, {where}",
                cure=partial(_other_pipe, rule, reach),
            )


@check(
    "pipe-too-small",
    "The pipe is too small",
    reads=(craft.PIPE_SIZE,),
    beyond="The pipe is too large",
)
def pipe_too_small(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a pipe of a smaller size, or a larger one, than the town has, by the size it is sold by.

    Why: a small pipe is stopped by the first acorn, and the town is called.
    """
    rule = rules[craft.PIPE_SIZE]
    for reach in study.water.reaches:
        yield within(
            rule,
            sold_as(reach),
            item=reach.name,
            cure="lay the next size that is sold",
            other="lay a smaller size that is sold",
        )


@check(
    "fitting-missing",
    "A fitting of the line is missing",
    reads=(craft.PIPE_FITTINGS,),
)
def fitting_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a fitting that the town asks for and that the line does not have.

    Why: what is left out under the walk is dug up through the walk.
    """
    rule, stated = rules[craft.PIPE_FITTINGS], job.outlet.fittings
    if stated is None and rule.known:
        for name in dict.fromkeys(named(thing) for thing in rule.items):
            why = "does the line have it? Name it in outlet.fittings"
            yield asked(why, item=name, of="the applicant")
    else:
        has = {name.casefold() for name in stated or ()}
        yield from listed(
            rule,
            lambda thing: thing.name.casefold() in has,
            cure=lambda thing: f"put it in, and name it in outlet.fittings: {thing.name}",
        )


@check(
    "bore-shrinks",
    "The bore grows smaller downstream",
    reads=(keys.PIPE_SHRINKS,),
    idle="no bore grows smaller downstream",
)
def bore_shrinks(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a reach of smaller bore below one of larger, where that is barred.

    Why: what the upper pipe carries down, the lower one holds up: leaves first.
    """
    for upper, lower in in_line(study):
        if bore_area(lower) < bore_area(upper):
            yield stance(
                rules[keys.PIPE_SHRINKS],
                f"{upper.pipe.name} into {lower.pipe.name}",
                item=f"at {upper.lower}",
                cure=f"lay {upper.pipe.name} on down to {lower.lower}",
            )


@check(
    "cover-too-thin",
    "The cover over the pipe is too thin",
    reads=(keys.PIPE_COVER,),
    idle="no cover is computed: the run has no ground over it",
    beyond="The cover over the pipe is too thick",
)
def cover_too_thin(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag less earth over the pipe than the least for that surface.

    Why: a spade, a frost or a wheel finds a shallow pipe.
    """
    for point in thinnest(study):
        place = "right-of-way" if point.in_right_of_way else "private"
        yield at_least(
            rules.at(keys.PIPE_COVER, surface=point.surface, place=place),
            point.cover_m,
            item=f"{point.surface}, {place}, at {point.where}",
            cure="lower the pipe {short} there, or give it a stronger wall",
            other="raise the pipe {short} there",
            levelled=1.0,
        )


@check(
    "thin-pipe-under-drive",
    "A thin pipe lies under a drive",
    reads=(keys.PIPE_UNDER_DRIVE,),
    idle="no reach lies under a drive",
)
def thin_pipe_under_drive(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a pipe under a drive that is not among those that carry wheels.

    Why: a sewer or thin wall is crushed where wheels come off the apron.
    """
    for reach in study.water.reaches:
        if "drive" in reach.surfaces:
            rule = rules[keys.PIPE_UNDER_DRIVE]
            yield one_of(
                rule,
                reach.pipe.name,
                fits=pipe_fits,
                item=reach.name,
                cure=partial(_other_pipe, rule, reach),
            )


@check(
    "utility-in-the-way",
    "A buried line is in the way",
    reads=(keys.UTILITY_TOLERANCE,),
    standard="geometry: two lines cannot cross in one place",
    idle="no buried line crosses the run",
)
def utility_in_the_way(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a buried line where the pipe is to lie; advise hand digging within the band round it.

    Why: a gas pipe cut by a trencher is the worst day a crew can have.
    """
    for crossing in crossings(job, study):
        item = f"{crossing.utility.kind} at {as_written(crossing.utility.at)}"
        if crossing.clear_m is None:
            yield asked("how deep does it lie?", item=item, of="a test hole dug by hand")
        elif crossing.clear_m <= 0:
            yield at_least(
                room_for(job, 0.0, "clear of the pipe"),
                crossing.clear_m,
                item=item,
                cure="move the run {short} up or down, or have the line's owner move it",
            )
        else:
            yield at_least(
                rules[keys.UTILITY_TOLERANCE],
                crossing.clear_m,
                item=item,
                cure="dig by hand within the band",
                advice=True,
            )


def level_error(job: Job) -> float:
    """Return how far one reading may be off, in m."""
    return float(job.level.error or 0)


def closing_error(setup: LevelSetup) -> float | None:
    """Return how far a closing shot is off its backsight, in m; nothing where none was taken."""
    return None if setup.closing is None else abs(float(setup.closing) - float(setup.backsight))


def _other_pipe(rule: InForce, reach: ReachWater) -> str:
    """Return the pipes sold that a rule takes, of a reach's own size where there are any."""
    taken = [p for p in PIPES.values() if any(pipe_fits(word, p.name) for word in rule.words)]
    alike = [pipe.name for pipe in taken if size_sold(pipe) == size_sold(reach.pipe)]
    names = alike or [pipe.name for pipe in taken]
    if names:
        return f"lay {' or '.join(names)}"
    return "a job can name no pipe of these kinds: ask the town for another"


def _steeper(job: Job, reach: ReachWater, least: float) -> str:
    """Return by how much the upper end must rise, or how short the reach must be."""
    fall = reach.upper_invert_m - reach.lower_invert_m
    rise = rounded_up(least * reach.length_m - fall, Kind.LENGTH, short_length(job))
    longest = rounded_down(fall / least, job)
    return f"raise {reach.upper} by {rise}, or shorten the reach to {longest}"
