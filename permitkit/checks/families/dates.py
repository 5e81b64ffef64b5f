"""Checks of the dates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    asked,
    held_for,
    holds,
    in_season,
    in_time,
    longest,
    on_or_after,
    on_or_before,
    past,
    planned,
)
from permitkit.checks.papers import policies
from permitkit.checks.registry import check
from permitkit.model.keys import deadlines
from permitkit.model.keys import papers as keys
from permitkit.study.days import WorkCalendar, dated, told

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import InForce, RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "begun_too_late",
    "filed_too_late",
    "finished_too_late",
    "inspection_not_booked",
    "insurance_lapses",
    "locate_called_too_late",
    "locate_ticket_stale",
    "pavement_too_young",
    "permit_runs_out",
    "sheet_overdue",
    "work_in_closed_season",
]

SOONER = {
    keys.DATES_LEAD: "tell the town earlier, or start later",
    keys.DATES_REVIEW: "file earlier, or start later",
    keys.DATES_LOCATE_WAIT: "call the locates earlier, or start later",
}
"""What lets work start sooner, by the question whose answer it waits for."""


@check(
    "filed-too-late",
    "The application is filed too late for the work to start",
    reads=(
        keys.DATES_REVIEW,
        keys.DATES_LEAD,
        keys.DATES_LOCATE_WAIT,
        deadlines.DATES_APPLY_AHEAD,
    ),
)
def filed_too_late(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag work that starts before review and notice, in the town's working days, can be over.

    Why: a crew without a permit stands idle, or begins without one.
    """
    dates, calendar = job.dates, study.calendar
    yield on_or_after(
        rules[keys.DATES_REVIEW],
        dates.issue_expected or dates.start,
        calendar.earliest_issue,
        item="permit expected",
        cure="file earlier, or start later",
    )
    lead = rules[keys.DATES_LEAD]
    binds = calendar.start_waits_for if lead.known else lead.key
    yield on_or_after(
        rules[binds],
        dates.start,
        calendar.earliest_start,
        item="start of work",
        cure=SOONER[binds],
    )
    yield past(
        rules[deadlines.DATES_APPLY_AHEAD],
        job.filing,
        dates.start,
        WorkCalendar.of(rules.sheets),
        item="time from filing to work",
        cure="file earlier, or start later",
    )


@check(
    "begun-too-late",
    "The work begins after the permit has lapsed for want of it",
    reads=(deadlines.DATES_START_BY,),
)
def begun_too_late(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag work that starts later than the town gives from the permit's issue.

    Why: a permit not begun in time is void, and the fee with it.
    """
    rule = rules[deadlines.DATES_START_BY]
    yield in_time(
        rule,
        event(job, study, rule, "issue"),
        job.dates.start,
        WorkCalendar.of(rules.sheets),
        item="start of work",
        cure="start sooner, or ask for an extension",
    )


@check(
    "finished-too-late",
    "The work ends after the time the town gives for it",
    reads=(deadlines.DATES_COMPLETE_BY, deadlines.DATES_CLOSE_BY),
)
def finished_too_late(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag work that ends, or an opening that is closed, later than the town gives.

    Why: an opening in a walk that stays open is what the town hears of every day.
    """
    working = WorkCalendar.of(rules.sheets)
    for key, clock, item in (
        (deadlines.DATES_COMPLETE_BY, "issue", "end of work"),
        (deadlines.DATES_CLOSE_BY, "start", "opening closed"),
    ):
        since = event(job, study, rules[key], clock)
        ends = job.dates.finish
        yield in_time(rules[key], since, ends, working, item=item, cure="finish sooner")


@check("work-in-closed-season", "The work falls in the closed season", reads=(keys.DATES_CONCRETE,))
def work_in_closed_season(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a day of work in the season when no concrete is placed and no street opened.

    Why: concrete placed in frost never gets its strength.
    """
    yield in_season(
        rules[keys.DATES_CONCRETE],
        study.calendar.work_days,
        item=f"{len(study.calendar.work_days)} days of work",
        cure="work before it begins, or after it ends",
    )


@check(
    "locate-called-too-late",
    "The utility locate was called too late",
    reads=(keys.DATES_LOCATE_WAIT,),
)
def locate_called_too_late(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag digging that begins before the full waiting days after the call are over.

    Why: the marks are not down yet.
    """
    call_by = study.calendar.locate_call_by
    yield on_or_after(
        rules[keys.DATES_LOCATE_WAIT],
        job.dates.start,
        study.calendar.locate_from,
        item="first day of digging",
        cure=f"call by {told(call_by)}" if call_by else "call earlier",
    )


@check(
    "locate-ticket-stale",
    "The locate ticket runs out before the digging ends",
    reads=(keys.DATES_LOCATE_LIFE,),
)
def locate_ticket_stale(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag digging that goes on after the ticket's last day.

    Why: after that day the marks count for nothing, and nobody answers for them.
    """
    yield on_or_before(
        rules[keys.DATES_LOCATE_LIFE],
        job.dates.finish,
        study.calendar.locate_until,
        item="last day of digging",
        cure="call again, so that the new ticket covers the work",
    )


@check(
    "insurance-lapses",
    "The insurance ends too soon",
    reads=(keys.DOCS_INSURANCE_UNTIL, keys.DOCS_INSURANCE),
    idle="no insurance that the town asks for is held",
)
def insurance_lapses(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a policy that ends before the day to which the town wants to be covered.

    Why: the accident happens in the week after the policy ends.
    """
    asked, held = rules[keys.DOCS_INSURANCE], longest(policies(job))
    needed = {held_for(cover.kind, held) for cover in asked.covers} if asked.known else set()
    for policy in held.values():
        if policy in needed:
            yield on_or_after(
                rules[keys.DOCS_INSURANCE_UNTIL],
                policy.until,
                study.calendar.insurance_needed_until,
                item=f"{policy.kind}, good to",
                cure="send the renewal certificate, or finish sooner",
            )


@check("permit-runs-out", "The permit runs out before the work ends", reads=(keys.DATES_VALIDITY,))
def permit_runs_out(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag work that ends after the permit does.

    Why: a permit that has run out is paid for again.
    """
    yield on_or_before(
        rules[keys.DATES_VALIDITY],
        job.dates.finish,
        study.calendar.permit_until,
        item="end of work",
        cure="finish sooner, or ask for an extension before it runs out",
    )


@check("inspection-not-booked", "An inspection is not planned", reads=(keys.DATES_INSPECTIONS,))
def inspection_not_booked(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a hold point of the town's that the job does not plan for.

    Why: work covered up before it was seen is opened again.
    """
    yield from planned(rules[keys.DATES_INSPECTIONS], job.dates.inspections)


@check(
    "pavement-too-young",
    "The pavement is too young to be cut",
    reads=(keys.DATES_PAVEMENT,),
    idle="no pavement is cut",
)
def pavement_too_young(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a cut in pavement within the years in which the town closes it.

    Why: a new street with a trench across it is an old street.
    """
    if job.cut.pavement_cut:
        yield past(
            rules[keys.DATES_PAVEMENT],
            job.street.last_paved,
            job.dates.start,
            WorkCalendar.of(rules.sheets),
            item="start of work",
            cure="work from behind the curb, or wait",
        )


@check(
    "sheet-overdue",
    "A rule sheet is past its day for another look",
    standard="the sheet's own day for another look",
    idle="the job has no rule sheet",
    asks="Was each rule sheet held against its sources lately enough?",
)
def sheet_overdue(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Ask for another look at a sheet that fell due for one before the application is filed.

    Why: a fee or a rule that changed since is found out at the counter.
    """
    for sheet in rules.sheets:
        due, filed = dated(sheet.due), dated(job.filing)
        if job.filing <= sheet.due:
            yield holds(ok=True, proposed=filed, limit=f"by {due}", item=sheet.title)
        else:
            why = f"do these rules still stand? The sheet fell due for another look on {due}"
            of = sheet.office or sheet.title
            yield asked(why, item=sheet.title, of=of, proposed=f"filed {filed}")


def event(job: Job, study: Study, rule: InForce, clock: str) -> date | None:
    """Return the day a rule's span begins: on the event it names, else on the one given."""
    days = {
        "filing": job.filing,
        "issue": job.dates.issue_expected or study.calendar.earliest_issue,
        "start": job.dates.start,
        "opening": job.dates.start,
        "concrete": job.dates.concrete,
        "call": job.locate.called,
    }
    return days.get(rule.span.clock or clock) if rule.known else None
