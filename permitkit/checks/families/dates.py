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
    not_sooner,
    on_or_after,
    on_or_before,
    past,
    planned,
)
from permitkit.checks.papers import policies
from permitkit.checks.registry import check
from permitkit.model.keys import deadlines
from permitkit.model.keys import papers as keys
from permitkit.study.days import dated, told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "begun_too_late",
    "emergency_filed_too_late",
    "filed_too_late",
    "filed_too_soon",
    "finished_too_late",
    "inspection_not_booked",
    "insurance_lapses",
    "locate_called_too_late",
    "locate_called_too_soon",
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
        late=calendar.late.get("issue"),
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
        dates.start,
        calendar.due[deadlines.DATES_APPLY_AHEAD.name],
        item="time from filing to work",
        cure="file earlier, or start later",
    )


@check(
    "filed-too-soon",
    "The application is filed sooner than the town takes it",
    reads=(deadlines.DATES_APPLY_AHEAD,),
)
def filed_too_soon(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an application that goes in longer before the work than the town takes one.

    Why: the counter sends it back, and the place in the row is lost.
    """
    first = study.calendar.file_from
    yield not_sooner(
        rules[deadlines.DATES_APPLY_AHEAD],
        job.filing,
        first,
        item="the application",
        cure=f"file on {told(first)} at the earliest, or start sooner" if first else "",
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
    yield in_time(
        rules[deadlines.DATES_START_BY],
        job.dates.start,
        study.calendar.due[deadlines.DATES_START_BY.name],
        item="start of work",
        cure="start sooner, or ask for an extension",
    )


@check(
    "finished-too-late",
    "The work ends after the time the town gives for it",
    reads=(deadlines.DATES_COMPLETE_BY, deadlines.DATES_CLOSE_BY, deadlines.DATES_RESTORE_BY),
)
def finished_too_late(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag work that ends, or an opening closed or restored, later than the town gives.

    Why: an opening in a walk that stays open is what the town hears of every day.
    """
    ends = job.dates.finish
    for key, day, item in (
        (deadlines.DATES_COMPLETE_BY, ends, "end of work"),
        (deadlines.DATES_CLOSE_BY, ends, "opening closed"),
        (deadlines.DATES_RESTORE_BY, job.dates.restored or ends, "restored for good"),
    ):
        last = study.calendar.due[key.name]
        yield in_time(rules[key], day, last, item=item, cure="finish sooner")


@check(
    "emergency-filed-too-late",
    "The application comes too late after the emergency",
    reads=(deadlines.DATES_EMERGENCY,),
    idle="it is no emergency",
)
def emergency_filed_too_late(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an application that follows emergency work later than the town gives.

    Why: past that day the same hole is work without a permit.
    """
    if job.dates.emergency:
        last = study.calendar.due[deadlines.DATES_EMERGENCY.name]
        cure = "file at once, and say in the scope why it is late"
        rule = rules[deadlines.DATES_EMERGENCY]
        yield in_time(rule, job.filing, last, item="the application", cure=cure)


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
        late=study.calendar.late.get("dig-from"),
    )


@check(
    "locate-called-too-soon",
    "The utility locate was called too soon",
    reads=(keys.DATES_LOCATE_WAIT,),
)
def locate_called_too_soon(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a call that comes longer before digging than the law lets it.

    Why: marks put down too soon are worn off, and the notice counts for nothing.
    """
    first = study.calendar.locate_call_from
    yield not_sooner(
        rules[keys.DATES_LOCATE_WAIT],
        job.locate.called,
        first,
        item="the locate call",
        cure=f"call again, on {told(first)} at the earliest" if first else "",
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
def pavement_too_young(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a cut in pavement within the years in which the town closes it.

    Why: a new street with a trench across it is an old street.
    """
    if job.cut.pavement_cut:
        yield past(
            rules[keys.DATES_PAVEMENT],
            job.dates.start,
            study.calendar.due[keys.DATES_PAVEMENT.name],
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
