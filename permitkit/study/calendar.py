"""The dates that matter, each with how it was reached; today's date is never read."""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.keys import deadlines, papers, walk
from permitkit.model.telling.conditions import season_text
from permitkit.model.values import Item, Items, Season, Span, Words
from permitkit.model.vocabulary.inspections import inspection_kind
from permitkit.study.dates_and_money import CalendarStudy, DatedStep
from permitkit.study.days import DAY, HOURS_A_DAY, WorkCalendar, told
from permitkit.study.reckoning import Events, Onward, Reckoner, unsaid

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.model.job import Job
    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import RulesInForce

__all__ = ["study_calendar"]

ISSUE = Onward("issue", "permit issued at the earliest", papers.DATES_REVIEW, "filing", begins=True)
ONWARD = (
    Onward("dig-from", "digging may begin", papers.DATES_LOCATE_WAIT, "call", begins=True),
    Onward("ticket-until", "locate ticket good to", papers.DATES_LOCATE_LIFE, "call"),
    Onward("permit-until", "permit good to", papers.DATES_VALIDITY, "issue"),
    Onward("guarantee-until", "guarantee ends", papers.DATES_GUARANTEE, "finish"),
)
CURED = Onward("walk-open", "walk opens to feet", walk.RESTORE_TO_FEET, "concrete", begins=True)


def study_calendar(job: Job, rules: RulesInForce, working: WorkCalendar) -> CalendarStudy:
    """Return the dates that follow from a job's own dates and the spans its rules set.

    Parameters
    ----------
    job
        Gives filing, start, finish and whatever else is dated.
    rules
        The rules in force.
    working
        The town's working days.

    Notes
    -----
    Where permits of one job have spans of their own, each has its step; work may begin with the
    last permit issued and must end with the first to run out.
    """
    count = Reckoner(rules, working, _events(job))
    issue, earliest = _issue(job, count)
    onward = [step for each in ONWARD for step in count.onward(each)]
    known = _known(onward)
    call = count.back(
        "locate-call", "last day to call the locates", papers.DATES_LOCATE_WAIT, "dig"
    )
    notice = count.back("notice", "last day to tell the town", papers.DATES_LEAD, "start")
    insured = _insurance(rules, {**known, "finish": job.dates.finish})
    every = (
        *_given(job),
        *issue,
        *onward,
        *_cured(job, count),
        call,
        notice,
        *_inspections(job, count),
        insured,
        *_season(rules, job.dates.start),
    )
    start, waits_for = _earliest_start(count, known)
    days = working.working_between(job.dates.start, job.dates.finish)
    return CalendarStudy(
        steps=tuple(sorted(every, key=lambda step: (step.day is None, step.day or job.filing))),
        work_days=tuple(sorted({job.dates.start, *days, job.dates.finish})),
        holidays_used=_holidays(job, count, known),
        earliest_issue=earliest,
        earliest_start=start,
        start_waits_for=waits_for,
        permit_until=known["permit-until"],
        guarantee_until=known["guarantee-until"],
        locate_from=known["dig-from"],
        locate_until=known["ticket-until"],
        insurance_needed_until=insured.day,
        locate_call_by=call.day,
    )


def _events(job: Job) -> Events:
    """Return the days the job itself gives, by the names of the clocks."""
    dates = job.dates
    return {
        "filing": job.filing,
        "issue": dates.issue_expected,
        "call": job.locate.called,
        "dig": dates.start,
        "start": dates.start,
        "opening": dates.start,
        "concrete": dates.concrete,
        "finish": dates.finish,
        "acceptance": dates.finish,
    }


def _given(job: Job) -> Iterator[DatedStep]:
    """Yield the steps that the job gives as they are."""
    for key, what, day in (
        ("filing", "application filed", job.filing),
        ("locate-called", "utility locate called", job.locate.called),
        ("start", "work starts", job.dates.start),
        ("concrete", "concrete placed", job.dates.concrete),
        ("finish", "work finished", job.dates.finish),
    ):
        if day is not None:
            yield DatedStep(key, what, day, "as the job says")


def _issue(job: Job, count: Reckoner) -> tuple[list[DatedStep], date | None]:
    """Return the steps of the issue and its earliest day, and set the issue among the events.

    An office that is shut issues nothing: the day moves on to the next working day.
    """
    steps = [_when_open(step, count.working) for step in count.onward(ISSUE)]
    days = [step.day for step in steps]
    earliest = max((day for day in days if day), default=None) if all(days) else None
    expected = job.dates.issue_expected
    if expected is None:
        count.events["issue"] = earliest
        return steps, earliest
    how = "as expected" + (f"; by the review alone {told(earliest)}" if earliest else "")
    return [DatedStep("issue", "permit issue expected", expected, how)], earliest


def _when_open(step: DatedStep, working: WorkCalendar) -> DatedStep:
    """Return a step moved on to a day on which offices are open."""
    day = None if step.day is None else working.on_or_after(step.day)
    if day is None or day == step.day:
        return step
    return DatedStep(step.key, step.what, day, f"{step.how}; next working day {told(day)}")


def _known(steps: list[DatedStep]) -> dict[str, date | None]:
    """Return the day of each kind of step: of several that begin the last, of others the first."""
    begins = {rule.key: rule.begins for rule in ONWARD}
    found: dict[str, list[date | None]] = {key: [] for key in begins}
    for step in steps:
        found[step.key].append(step.day)
    return {
        key: (max if begins[key] else min)((day for day in days if day), default=None)
        if all(days)
        else None
        for key, days in found.items()
    }


def _cured(job: Job, count: Reckoner) -> Iterator[DatedStep]:
    """Yield the day new concrete opens to feet: by the town's wait or the job's, the longer."""
    if job.dates.concrete is None:
        return
    own = job.restoration.hours_to_feet
    by_job = None if own is None else job.dates.concrete + -(-own // HOURS_A_DAY) * DAY
    for step in count.onward(CURED):
        if by_job and (step.day is None or step.day < by_job):
            how = f"{own} hours after the concrete, as the job says"
            yield DatedStep(step.key, step.what, by_job, how)
        else:
            yield step


def _inspections(job: Job, count: Reckoner) -> Iterator[DatedStep]:
    """Yield the last day to book each inspection the town calls for, and the day of one owed later.

    One without a notice of its own has the one that holds for any; where the town names none,
    those that the job plans are booked by it.
    """
    value = count.rules[papers.DATES_INSPECTIONS].value
    general = count.rules[deadlines.DATES_INSPECTION_NOTICE].value
    items = value.items if isinstance(value, Items) else ()
    if not items and isinstance(general, Span):
        items = tuple(Item(name) for name in job.dates.inspections)
    for item in items:
        if item.after is not None:
            yield count.later("inspection", f"due: {item.name}", item.after, item.clock or "finish")
            continue
        what = f"last day to book: {item.name}"
        notice = item.notice or (general if isinstance(general, Span) else None)
        yield count.before("inspection", what, notice, _inspected_at(item, job))


def _inspected_at(item: Item, job: Job) -> str:
    """Return the event an inspection goes with: what the sheet says, else by its name.

    A final inspection goes with the finish, any other with the concrete, or the start if none.
    """
    if item.clock and item.clock != "inspection":
        return item.clock
    if inspection_kind(item.name) == "final":
        return "finish"
    return "concrete" if job.dates.concrete else "start"


def _insurance(rules: RulesInForce, known: Mapping[str, date | None]) -> DatedStep:
    """Return the day to which insurance must run."""
    value = rules[papers.DOCS_INSURANCE_UNTIL].value
    what = "insurance must run to"
    if not isinstance(value, Words):
        return DatedStep("insurance-until", what, None, unsaid(value))
    ends = {"finish": "finish", "permit end": "permit-until", "guarantee end": "guarantee-until"}
    days = [known[ends[word]] for word in value.words]
    day = max((day for day in days if day), default=None) if all(days) else None
    return DatedStep("insurance-until", what, day, f"to the {' and the '.join(value.words)}")


def _season(rules: RulesInForce, start: date) -> Iterator[DatedStep]:
    """Yield the day from the start on that the season closes, or the start if it is closed."""
    season = rules[papers.DATES_CONCRETE].value
    if isinstance(season, Season):
        how = f"{'closed' if season.closed else 'open'} {season_text(season)}"
        yield DatedStep("closed-season", "no concrete from", _shut_from(season, start), how)


def _shut_from(season: Season, start: date) -> date:
    """Return the first day from the start on that the season is closed."""
    if season.holds(start) is season.closed:
        return start
    after = 0 if season.closed else 1
    ends = season.start if season.closed else season.end
    days = (_day_of(year, ends) + after * DAY for year in (start.year, start.year + 1))
    return min(day for day in days if day >= start)


def _day_of(year: int, month_day: tuple[int, int]) -> date:
    month, day = month_day
    return date(year, month, min(day, monthrange(year, month)[1]))


def _earliest_start(
    count: Reckoner, known: Mapping[str, date | None]
) -> tuple[date | None, RuleKey]:
    """Return the first working day on which notice, permit and locates all allow work.

    With it the question whose answer sets that day: of several the one named first.
    """
    lead, issue = count.rules[papers.DATES_LEAD].value, count.events["issue"]
    if issue is None:
        return None, papers.DATES_LEAD
    days: list[tuple[date, RuleKey]] = []
    if isinstance(lead, Span) and not lead.endless:
        told_on = count.events["filing"] if lead.clock == "filing" else issue
        days.append((count.working.ready(lead, told_on or issue), papers.DATES_LEAD))
    days += [
        (issue, papers.DATES_REVIEW),
        (known["dig-from"] or issue, papers.DATES_LOCATE_WAIT),
    ]
    day, binds = max(days, key=lambda pair: pair[0])
    return count.working.on_or_after(day), binds


def _holidays(
    job: Job, count: Reckoner, known: Mapping[str, date | None]
) -> tuple[tuple[date, str], ...]:
    """Return the weekdays without work between the first date counted and the last."""
    ends = (count.events["issue"], known["dig-from"], known["ticket-until"], job.dates.finish)
    first = min(filter(None, (job.filing, job.locate.called, job.dates.start)))
    return count.working.shut_between(first, max(filter(None, ends)))
