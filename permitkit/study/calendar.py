"""The dates that matter, each with how it was reached; today's date is never read."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.keys import papers, walk
from permitkit.model.rules import RuleKey
from permitkit.model.values import Ask, ByReference, Items, NoRule, Season, Span, Words
from permitkit.study.days import DAY, WorkCalendar, told
from permitkit.study.results import CalendarStudy, DatedStep

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.model.job import Job
    from permitkit.model.values import Item
    from permitkit.study.in_force import RulesInForce

__all__ = ["study_calendar"]

Events = dict[str, date | None]

CALLED = {
    "filing": "filing",
    "issue": "issue",
    "call": "the locate call",
    "dig": "the first day of digging",
    "start": "the start",
    "concrete": "the concrete",
    "finish": "the finish",
}


@dataclass(frozen=True, slots=True)
class _Reckoned:
    """A rule that leads from one event to a date: its key, the event it runs from if unsaid."""

    key: str
    what: str
    asks: RuleKey
    clock: str
    begins: bool


ISSUE = _Reckoned(
    "issue", "permit issued at the earliest", papers.DATES_REVIEW, "filing", begins=True
)
ONWARD = (
    _Reckoned("dig-from", "digging may begin", papers.DATES_LOCATE_WAIT, "call", begins=True),
    _Reckoned(
        "ticket-until", "locate ticket good to", papers.DATES_LOCATE_LIFE, "call", begins=False
    ),
    _Reckoned("walk-open", "walk opens to feet", walk.RESTORE_TO_FEET, "concrete", begins=True),
    _Reckoned("permit-until", "permit good to", papers.DATES_VALIDITY, "issue", begins=False),
    _Reckoned("guarantee-until", "guarantee ends", papers.DATES_GUARANTEE, "finish", begins=False),
)


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
    """
    events = _events(job)
    issue = _issue(job, rules, working, events)
    steps = {step.key: step for step in _onward(rules, working, events)}
    known = {key: step.day for key, step in steps.items()}
    back = (*_back(rules, working, events), *_inspections(job, rules, working, events))
    insured = _insurance(rules, {**known, "finish": events["finish"]})
    every = (*_given(job, events), issue, *steps.values(), *back, insured, *_season(rules, events))
    days = working.working_between(job.dates.start, job.dates.finish)
    return CalendarStudy(
        steps=tuple(sorted(every, key=lambda step: (step.day is None, step.day or job.filing))),
        work_days=tuple(sorted({job.dates.start, *days, job.dates.finish})),
        holidays_used=_holidays(working, job, events, known),
        earliest_issue=events["review"],
        earliest_start=_earliest_start(rules, working, events, known),
        permit_until=known["permit-until"],
        guarantee_until=known["guarantee-until"],
        locate_from=known["dig-from"],
        locate_until=known["ticket-until"],
        insurance_needed_until=insured.day,
        locate_call_by=back[1].day,
    )


def _events(job: Job) -> Events:
    """Return the days the job itself gives."""
    dates = job.dates
    return {
        "filing": job.filing,
        "issue": dates.issue_expected,
        "call": job.locate.called,
        "dig": dates.start,
        "start": dates.start,
        "concrete": dates.concrete,
        "finish": dates.finish,
    }


def _given(job: Job, events: Events) -> Iterator[DatedStep]:
    """Yield the steps that the job gives as they are."""
    plain = {"filing": "application filed", "start": "work starts"}
    later = {"concrete": "concrete placed", "finish": "work finished"}
    for key, what in {**plain, **later}.items():
        if events[key]:
            yield DatedStep(key, what, events[key], "as the job says")
    if job.locate.called:
        yield DatedStep("locate-called", "utility locate called", job.locate.called, "as called")


def _issue(job: Job, rules: RulesInForce, working: WorkCalendar, events: Events) -> DatedStep:
    """Return the issue of the permit, and set it among the events."""
    step = _reached(ISSUE, rules, working, events)
    day = working.on_or_after(step.day) if step.day else None
    if day and day != step.day:
        step = DatedStep(step.key, step.what, day, f"{step.how}; next working day {told(day)}")
    events["review"] = day
    if not job.dates.issue_expected:
        events["issue"] = day
        return step
    how = "as expected" + (f"; by the review alone {told(day)}" if day else "")
    return DatedStep("issue", "permit issue expected", job.dates.issue_expected, how)


def _onward(rules: RulesInForce, working: WorkCalendar, events: Events) -> Iterator[DatedStep]:
    """Yield the dates that are counted on from an event."""
    return (_reached(rule, rules, working, events) for rule in ONWARD)


def _reached(
    rule: _Reckoned, rules: RulesInForce, working: WorkCalendar, events: Events
) -> DatedStep:
    """Return one date counted on from the event that its span, or else its key, names."""
    span = rules[rule.asks].value
    if not isinstance(span, Span):
        return DatedStep(rule.key, rule.what, None, _unsaid(span))
    clock = span.clock or rule.clock
    event = events.get(clock)
    if event is None:
        return DatedStep(rule.key, rule.what, None, f"{span.text} after {_called(clock)}")
    day = working.ready(span, event) if rule.begins else working.last_day(span, event)
    how = f"{span.text} after {_called(clock)} on {told(event)}, which is not counted"
    return DatedStep(rule.key, rule.what, day, how)


def _back(
    rules: RulesInForce, working: WorkCalendar, events: Events
) -> tuple[DatedStep, DatedStep]:
    """Return the last days for telling the town and for calling the locates."""
    tell = rules[papers.DATES_LEAD].value
    call = rules[papers.DATES_LOCATE_WAIT].value
    return (
        _before("notice", "last day to tell the town", tell, "start", working, events),
        _before("locate-call", "last day to call the locates", call, "dig", working, events),
    )


def _before(
    key: str, what: str, span: object, event: str, working: WorkCalendar, events: Events
) -> DatedStep:
    """Return the last day on which a wait may begin that must be over by an event."""
    deadline = events[event]
    if not isinstance(span, Span) or deadline is None:
        return DatedStep(key, what, None, _unsaid(span))
    how = f"{span.text} before {_called(event)} on {told(deadline)}"
    return DatedStep(key, what, working.latest_before(span, deadline), how)


def _inspections(
    job: Job, rules: RulesInForce, working: WorkCalendar, events: Events
) -> Iterator[DatedStep]:
    """Yield the last day to book each inspection the town calls for."""
    value = rules[papers.DATES_INSPECTIONS].value
    for item in value.items if isinstance(value, Items) else ():
        event = _inspected_at(item, job)
        what = f"last day to book: {item.name}"
        yield _before("inspection", what, item.notice, event, working, events)


def _inspected_at(item: Item, job: Job) -> str:
    """Return the event an inspection goes with; what its notice says, else by its name."""
    if item.notice and item.notice.clock:
        return item.notice.clock
    if "final" in item.name.lower():
        return "finish"
    return "concrete" if job.dates.concrete else "start"


def _insurance(rules: RulesInForce, known: Mapping[str, date | None]) -> DatedStep:
    """Return the day to which insurance must run."""
    value = rules[papers.DOCS_INSURANCE_UNTIL].value
    what = "insurance must run to"
    if not isinstance(value, Words):
        return DatedStep("insurance-until", what, None, _unsaid(value))
    ends = {"finish": "finish", "permit end": "permit-until", "guarantee end": "guarantee-until"}
    days = [known[ends[word]] for word in value.words]
    day = max((day for day in days if day), default=None) if all(days) else None
    return DatedStep("insurance-until", what, day, f"to the {' and the '.join(value.words)}")


def _season(rules: RulesInForce, events: Events) -> Iterator[DatedStep]:
    """Yield the next day from the start on which the closed season begins, or is running."""
    season = rules[papers.DATES_CONCRETE].value
    start = events["start"]
    if isinstance(season, Season) and start:
        how = f"closed {_month_days(season)}" if season.closed else f"open {_month_days(season)}"
        yield DatedStep("closed-season", "no concrete from", _shut_from(season, start), how)


def _shut_from(season: Season, start: date) -> date:
    """Return the first day from the start on that the season is closed."""
    if season.holds(start) is season.closed:
        return start
    years = (start.year - 1, start.year, start.year + 1)
    if season.closed:
        return min(day for y in years if (day := _day_of(y, season.start)) >= start)
    return min(day for y in years if (day := _day_of(y, season.end) + DAY) >= start)


def _day_of(year: int, month_day: tuple[int, int]) -> date:
    month, day = month_day
    return date(year, month, min(day, monthrange(year, month)[1]))


def _month_days(season: Season) -> str:
    (m1, d1), (m2, d2) = season.start, season.end
    return f"{m1:02}-{d1:02} to {m2:02}-{d2:02}"


def _earliest_start(
    rules: RulesInForce, working: WorkCalendar, events: Events, known: Mapping[str, date | None]
) -> date | None:
    """Return the first working day on which permit, notice and locates all allow work."""
    lead, issue = rules[papers.DATES_LEAD].value, events["issue"]
    if issue is None:
        return None
    days = [issue, known["dig-from"] or issue]
    if isinstance(lead, Span):
        days.append(working.ready(lead, events.get(lead.clock) or issue))
    return working.on_or_after(max(days))


def _holidays(
    working: WorkCalendar, job: Job, events: Events, known: Mapping[str, date | None]
) -> tuple[tuple[date, str], ...]:
    """Return the weekdays without work between the first date counted and the last."""
    ends = (events["issue"], known["dig-from"], known["ticket-until"], job.dates.finish)
    first = min(filter(None, (job.filing, job.locate.called, job.dates.start)))
    return working.shut_between(first, max(filter(None, ends)))


def _called(clock: str) -> str:
    return CALLED.get(clock, clock)


def _unsaid(value: object) -> str:
    """Return why a date cannot be told."""
    if isinstance(value, NoRule):
        return "the town has no rule"
    if isinstance(value, ByReference):
        return f"set by {value.document}"
    if isinstance(value, Ask) and value.by:
        return f"ask the {value.by}"
    return "not known"
