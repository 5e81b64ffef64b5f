"""The dates that matter, each with how it was reached; today's date is never read."""

from __future__ import annotations

from datetime import date, time
from typing import TYPE_CHECKING

from permitkit.model.keys import deadlines, papers, walk
from permitkit.model.telling.conditions import any_of
from permitkit.model.telling.values import seasons_text, value_text
from permitkit.model.values import Item, Items, Seasons, Span, Spans, Words
from permitkit.model.vocabulary.inspections import inspection_kind
from permitkit.study.dates_and_money import CalendarStudy, DatedStep
from permitkit.study.days import DAY, HOURS_A_DAY, WorkCalendar, next_on, told
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
DUE = (
    Onward("start-by", "work must have begun by", deadlines.DATES_START_BY, "issue"),
    Onward("close-by", "opening must be closed by", deadlines.DATES_CLOSE_BY, "start"),
    Onward("finish-by", "work must be finished by", deadlines.DATES_COMPLETE_BY, "issue"),
    Onward("restore-by", "all must be restored for good by", deadlines.DATES_RESTORE_BY, "finish"),
)
SOONEST = (
    ("locate-call-from", "first day to call the locates", papers.DATES_LOCATE_WAIT, "dig"),
    ("notice-from", "first day to tell the town", papers.DATES_LEAD, "start"),
    ("file-from", "first day to file", deadlines.DATES_APPLY_AHEAD, "start"),
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
    count = Reckoner(rules, working, _events(job), _hours(job))
    issue, earliest = _issue(job, count)
    onward = [step for each in ONWARD for step in count.onward(each)]
    known = _known(onward, ONWARD)
    count.events["permit"] = known["permit-until"]
    due = [step for each in DUE if not rules[each.asks].silent for step in count.onward(each)]
    told_by = {step.key: step for step in _notices(count)}
    insured = _insurance(count, {**known, "finish": job.dates.finish})
    every = (
        *_given(job),
        *issue,
        *onward,
        *due,
        *_cured(job, count),
        *told_by.values(),
        *_longer(count, known["permit-until"]),
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
        locate_call_by=told_by["locate-call"].day,
        locate_call_from=_day(told_by.get("locate-call-from")),
        file_from=_day(told_by.get("file-from")),
        due=_due(job, count, due),
        late={step.key: step.late for step in every if step.late},
    )


def _notices(count: Reckoner) -> Iterator[DatedStep]:
    """Yield the last day of each notice, and the first where its rule sets one."""
    yield count.back("locate-call", "last day to call the locates", papers.DATES_LOCATE_WAIT, "dig")
    yield count.back("notice", f"last day to tell {_told(count)}", papers.DATES_LEAD, "start")
    for each in SOONEST:
        yield from count.soonest(*each)


def _told(count: Reckoner) -> str:
    """Return whom notice of the work goes to."""
    rule = count.rules[deadlines.DATES_NOTICE_TO]
    return any_of(tuple(f"the {who}" for who in rule.words)) if rule.known else "the town"


def _longer(count: Reckoner, until: date | None) -> Iterator[DatedStep]:
    """Yield the day the permit could run to if it were extended, where the town extends it."""
    value = count.rules[deadlines.DATES_EXTENSION].value
    if until is not None and (day := count.until(value, until)) is not None:
        how = f"{value_text(value)} after {told(until)}, if asked for before it runs out"
        yield DatedStep("permit-extended", "permit good to, if extended", day, how)


def _day(step: DatedStep | None) -> date | None:
    return None if step is None else step.day


def _due(job: Job, count: Reckoner, steps: list[DatedStep]) -> dict[str, date | None]:
    """Return the last day of each deadline by its rule's key, and the first day of work.

    The wait after the application is counted from filing, whatever event the sheet names; the
    years of young pavement from its paving, which the job or the sheet's own list tells.
    """
    days, rules = _known(steps, DUE), count.rules
    found = {each.asks.name: days.get(each.key) for each in DUE}
    ahead, age, emergency = (
        deadlines.DATES_APPLY_AHEAD,
        papers.DATES_PAVEMENT,
        deadlines.DATES_EMERGENCY,
    )
    found[emergency.name] = count.reach(rules[emergency].value, "emergency").day
    found[ahead.name] = count.over(rules[ahead].value, job.filing)
    paved = rules.facts.get("street_paved")
    closed = count.until(rules[age].value, paved) if isinstance(paved, date) else None
    return {**found, age.name: closed}


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
        "emergency": dates.emergency,
        "building permit": dates.building_permit_until,
    }


def _hours(job: Job) -> dict[str, time | None]:
    """Return the hours of the day the job gives, by the names of the clocks."""
    stated = {"filing": job.filed_at, "call": job.locate.called_at}
    return {clock: time.fromisoformat(hour) if hour else None for clock, hour in stated.items()}


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


def _known(steps: list[DatedStep], rules: tuple[Onward, ...]) -> dict[str, date | None]:
    """Return the day of each kind of step: of several that begin the last, of others the first."""
    begins = {rule.key: rule.begins for rule in rules}
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
        at_times = f" (only if {item.only_if})" if item.only_if else ""
        if item.after is not None:
            what = f"due: {item.name}{at_times}"
            yield count.later("inspection", what, item.after, item.clock or "finish")
            continue
        what = f"last day to book: {item.name}{at_times}"
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


def _insurance(count: Reckoner, known: Mapping[str, date | None]) -> DatedStep:
    """Return the day to which insurance must run: that of an event, or so long after one."""
    value = count.rules[papers.DOCS_INSURANCE_UNTIL].value
    what = "insurance must run to"
    if isinstance(value, Span | Spans):
        reached = count.reach(value, "finish")
        return DatedStep("insurance-until", what, reached.day, reached.how)
    if not isinstance(value, Words):
        return DatedStep("insurance-until", what, None, unsaid(value))
    ends = {"finish": "finish", "permit end": "permit-until", "guarantee end": "guarantee-until"}
    days = [known[ends[word]] for word in value.words]
    day = max((day for day in days if day), default=None) if all(days) else None
    return DatedStep("insurance-until", what, day, f"to the {' and the '.join(value.words)}")


def _season(rules: RulesInForce, start: date) -> Iterator[DatedStep]:
    """Yield the day from the start on that the season closes, or the start if it is closed."""
    seasons = rules[papers.DATES_CONCRETE].value
    if isinstance(seasons, Seasons):
        how = seasons_text(seasons)
        yield DatedStep("closed-season", "no concrete from", _shut_from(seasons, start), how)


def _shut_from(seasons: Seasons, start: date) -> date | None:
    """Return the first day from the start on that is closed; nothing where none ever is."""
    turns = [(part.start, 0) if seasons.closed else (part.end, 1) for part in seasons.parts]
    days = [start, *(next_on(*turn, start) + after * DAY for turn, after in turns)]
    return min((day for day in days if seasons.shut(day)), default=None)


def _earliest_start(
    count: Reckoner, known: Mapping[str, date | None]
) -> tuple[date | None, RuleKey]:
    """Return the first working day on which notice, permit and locates all allow work.

    With it the question whose answer sets that day: of several the one named first.
    """
    lead, issue = count.rules[papers.DATES_LEAD].value, count.events["issue"]
    if issue is None:
        return None, papers.DATES_LEAD
    told_on = count.events["filing"] if _counts_from_filing(lead) else issue
    noticed = count.over(lead, told_on or issue)
    days = [(noticed, papers.DATES_LEAD)] if noticed else []
    days += [
        (issue, papers.DATES_REVIEW),
        (known["dig-from"] or issue, papers.DATES_LOCATE_WAIT),
    ]
    day, binds = max(days, key=lambda pair: pair[0])
    return count.working.on_or_after(day), binds


def _counts_from_filing(lead: object) -> bool:
    """Tell whether notice is counted from the application, as its rule says."""
    parts = lead.parts if isinstance(lead, Spans) else (lead,)
    return any(isinstance(part, Span) and part.clock == "filing" for part in parts)


def _holidays(
    job: Job, count: Reckoner, known: Mapping[str, date | None]
) -> tuple[tuple[date, str], ...]:
    """Return the weekdays without work between the first date counted and the last."""
    ends = (count.events["issue"], known["dig-from"], known["ticket-until"], job.dates.finish)
    first = min(filter(None, (job.filing, job.locate.called, job.dates.start)))
    return count.working.shut_between(first, max(filter(None, ends)))
