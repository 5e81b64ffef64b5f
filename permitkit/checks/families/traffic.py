"""Checks of the street: whose it is, and what goes on in it while the work does."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import asked, at_least, holds, in_hours, one_of, present
from permitkit.checks.proposed import metric
from permitkit.checks.registry import check
from permitkit.checks.scale import Yardstick
from permitkit.model.keys import walk as keys
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import Elsewhere, InForce, RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "drive_blocked",
    "lane_left_too_narrow",
    "layout_missing",
    "street_of_another",
    "taper_too_short",
    "work_outside_hours",
]

NOTHING_CLOSED = "neither lane nor walk is closed"
NO_LANE = "no part of the street is taken"


@check(
    "street-of-another",
    "The street belongs to another authority, and this sheet does not hold there",
    standard="the sheet's own list of streets",
    idle="no sheet names a street on which it does not hold",
    asks="Whose street is it, and does this sheet hold there?",
)
def street_of_another(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a job on a street, or a part of one, on which the town's rules do not hold.

    Why: a permit from the wrong counter is no permit.
    """
    for away in rules.elsewhere:
        yield _not_theirs(away, job)
    if not rules.elsewhere:
        for sheet in rules.sheets:
            if any(not street.holds for street in sheet.listed_streets):
                here = f"{job.street.name}, by the rules of {sheet.title}"
                yield holds(ok=True, proposed=here, limit="its own streets", item=sheet.title)


def _not_theirs(away: Elsewhere, job: Job) -> Finding:
    """Return whose street it is, and whose permit and sheet are needed; or the question."""
    street, town = away.street, away.sheet.title
    named = f', by the sheet {street.sheet} (town = "{street.sheet}" in the job)'
    theirs = f"{street.text} belongs to {street.authority}"
    if not away.certain:
        why = f"{theirs}, where the rules of {town} do not hold: does {job.site.address} lie there?"
        of = away.sheet.office or town
        return asked(why, item=town, of=of, blocking=True, proposed=job.street.name)
    return holds(
        ok=False,
        proposed=f"{job.street.name}, by the rules of {town}",
        limit=f"{theirs}: the rules of {town} do not hold there",
        item=town,
        cure=f"ask {street.authority} for its own permit{named if street.sheet else ''}",
    )


@check(
    "layout-missing",
    "The traffic layout is missing, or does not suit what is closed",
    reads=(keys.TRAFFIC_LAYOUTS,),
    idle=NOTHING_CLOSED,
)
def layout_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a closed lane or walk without a layout, or with one made for something else.

    Why: drivers and people on foot read a layout they know; one made up on the spot they do not.
    """
    if job.traffic.walk_closed or job.traffic.lane_taken != "none":
        yield one_of(rules[keys.TRAFFIC_LAYOUTS], job.traffic.layout, item="layout")


@check(
    "lane-left-too-narrow",
    "The lane left open is too narrow",
    reads=(keys.TRAFFIC_LANE,),
    idle=NO_LANE,
    beyond="The lane left open is too wide",
)
def lane_left_too_narrow(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a lane left open that is narrower than the least.

    Why: a bus that does not fit takes the barrels with it.
    """
    if job.traffic.lane_taken != "none":
        yield at_least(
            rules[keys.TRAFFIC_LANE],
            job.traffic.lane_left or study.traffic.lane_left_m,
            item=f"beside the {job.traffic.lane_taken} taken",
            missing="the width left open is not known",
            cure="take {short} less of the street, or close the lane with flaggers",
            other="leave the lane {short} narrower",
        )


@check(
    "taper-too-short",
    "The taper is too short",
    reads=(keys.TRAFFIC_TAPER,),
    standard="taper by width taken and posted speed",
    idle=NO_LANE,
)
def taper_too_short(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a taper shorter than the width taken and the speed call for.

    Why: a driver who meets the closure late swerves, or comes through it.
    """
    if job.traffic.lane_taken != "none":
        yield at_least(
            called_for(rules[keys.TRAFFIC_TAPER], study.traffic.taper_need_m, job),
            job.traffic.taper,
            item="taper",
            missing="the taper is not stated",
            cure="lengthen it by {short}",
        )


@check(
    "work-outside-hours", "The work falls outside the hours allowed", reads=(keys.TRAFFIC_HOURS,)
)
def work_outside_hours(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag work at hours, or on days of the week, that are not allowed in this street.

    Why: people sleep, and streets fill up, at known hours.
    """
    yield in_hours(
        rules[keys.TRAFFIC_HOURS],
        job.traffic.spells,
        study.calendar.work_days,
        cure="work within the hours and days allowed",
    )


@check(
    "drive-blocked",
    "A drive or a bus stop is blocked without notice",
    reads=(keys.TRAFFIC_TELL,),
    idle="no drive and no bus stop is blocked",
)
def drive_blocked(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a drive or a bus stop in the work zone of which the neighbours were not told.

    Why: whoever finds a trench across the drive in the morning calls the town, not the firm.
    """
    if job.traffic.drive_blocked != "no" or job.traffic.bus_stop_in_zone:
        yield present(
            rules[keys.TRAFFIC_TELL],
            there=job.traffic.neighbours_told,
            what="neighbors told",
            cure="tell them, with the days and a telephone number, before the work starts",
        )


def called_for(rule: InForce, need_m: float | None, job: Job) -> InForce | Yardstick:
    """Return the length that a rule on the taper comes to here; the rule itself if it is open."""
    if not rule.known:
        return rule
    unit = "m" if metric(job) else "ft"
    name = partial(_share, rule)
    return Yardstick(Kind.LENGTH, unit, least=need_m, name=name, rule=rule)


def _share(rule: InForce) -> str:
    return f"{rule.text} of the merging taper"
