"""Counting on from the events of a job, and back from them, each date with its words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, time

from permitkit.model.rules import RuleKey
from permitkit.model.telling.values import cutoff_text, time_text
from permitkit.model.values import Ask, ByReference, NoRule, PaperEnd, Span, Spans, YearDay
from permitkit.study.dates_and_money import DatedStep
from permitkit.study.days import DAY, WorkCalendar, next_on, told
from permitkit.study.in_force import RulesInForce

__all__ = ["Events", "Onward", "Reached", "Reckoner", "unsaid"]

Events = dict[str, date | None]

CALLED = {
    "call": "the locate call",
    "dig": "the first day of digging",
    "start": "the start",
    "concrete": "the concrete",
    "finish": "the finish",
}


@dataclass(frozen=True, slots=True)
class Onward:
    """A date counted on from an event: the rule that says how far, the event if it does not.

    `begins` tells a day on which something may begin from the last day of something.
    """

    key: str
    what: str
    asks: RuleKey
    clock: str
    begins: bool = False


@dataclass(frozen=True, slots=True)
class Reached:
    """The day a time leads to, how, and the day where its hour would make it later."""

    day: date | None
    how: str
    late: date | None = None


@dataclass(frozen=True, slots=True)
class Reckoner:
    """Counts on from the events of one job, and back from them.

    `hours` tells the hour of an event where the job gives one.
    """

    rules: RulesInForce
    working: WorkCalendar
    events: Events
    hours: Mapping[str, time | None] = field(default_factory=dict)

    def onward(self, rule: Onward) -> list[DatedStep]:
        """Return the date a rule leads to, or one for each permit where they differ."""
        found = []
        for whose, value in self._values(rule.asks):
            reached = self.reach(value, rule.clock, begins=rule.begins)
            step = DatedStep(rule.key, rule.what + whose, reached.day, reached.how, reached.late)
            found.append(step)
        return found

    def _values(self, key: RuleKey) -> list[tuple[str, object]]:
        """Return what a key holds: for the job, or for each of its permits by title."""
        whole = self.rules[key].value
        if not (isinstance(whole, Ask) and "permit" in whole.facts):
            return [("", whole)]
        return [
            (f", {needed.permit.title}", self.rules.at(key, permit=needed.permit.id).value)
            for needed in self.rules.permits()
        ]

    def reach(self, value: object, clock: str, *, begins: bool = False) -> Reached:
        """Return the day a rule's time leads to, counted on from its own event or the one given."""
        if isinstance(value, Spans):
            return self._several(value, clock, begins=begins)
        if not isinstance(value, Span) or value.endless:
            return Reached(None, unsaid(value))
        clock = value.clock or clock
        event = self.events.get(clock)
        if event is None:
            return Reached(None, f"{value.text} after {_called(clock)}")
        over = self.working.ready if begins else self.working.last_day
        how = f"{value.text} after {_called(clock)} on {told(event)}, which is not counted"
        hour = self.hours.get(clock)
        if value.cutoff is None or (hour is not None and hour <= value.cutoff):
            return Reached(over(value, event), how)
        after, end = self.working.on_or_after(event + DAY), f"{value.cutoff:%H:%M}"
        if hour is None:
            note = f"{how}; if it came after {end}, counted from {told(after)}"
            return Reached(over(value, event), note, over(value, after))
        how = f"{value.text} after {told(after)}, since {_called(clock)} on {told(event)} came at "
        return Reached(over(value, after), f"{how}{hour:%H:%M}, after {end}")

    def _several(self, value: Spans, clock: str, *, begins: bool) -> Reached:
        """Return the first or the last of several days; nothing where one that counts is not known.

        A part without an end is never the first, and always the last.
        """
        parts = [part for part in value.parts if not (value.first and _endless(part))]
        found = [self._part(part, clock, begins=begins) for part in parts]
        if len(value.parts) == 1:
            return found[0] if found else Reached(None, "no end")
        how = f"whichever is {'first' if value.first else 'last'}: " + "; ".join(
            f"{told(each.day)} ({each.how})" if each.day else each.how for each in found
        )
        days = [each.day for each in found if each.day]
        if len(days) < len(found) or not days:
            return Reached(None, how)
        pick = min if value.first else max
        late = pick(each.late or each.day for each in found if each.day)
        return Reached(pick(days), how, late if late > pick(days) else None)

    def _part(self, part: Span | YearDay | PaperEnd, clock: str, *, begins: bool) -> Reached:
        """Return the day one of several times leads to."""
        if isinstance(part, Span):
            return self.reach(part, clock, begins=begins)
        if isinstance(part, PaperEnd):
            day = self.events.get(part.paper)
            return Reached(day, time_text(part) + ("" if day else ", which is not known"))
        event = self.events.get(part.clock or clock)
        if event is None:
            return Reached(None, f"{time_text(part)} after {_called(part.clock or clock)}")
        due = next_on(part.month, part.day, event)
        if part.before and due == event:
            due = next_on(part.month, part.day, event + DAY)
        return Reached(due - DAY if part.before else due, time_text(part))

    def over(self, value: object, event: date) -> date | None:
        """Return the first day allowed after a wait that begins on a day, if it is one."""
        return self._from(value, event, self.working.ready)

    def until(self, value: object, event: date) -> date | None:
        """Return the last day of a time that begins on a day, if it has one."""
        return self._from(value, event, self.working.last_day)

    def _from(self, value: object, event: date, end: Callable[[Span, date], date]) -> date | None:
        days = [end(wait, event) for wait in _waits(value) if not wait.endless]
        shorter = isinstance(value, Spans) and value.first
        return (min if shorter else max)(days, default=None)

    def back(self, key: str, what: str, asks: RuleKey, event: str) -> DatedStep:
        """Return the last day on which a rule's wait may begin that an event must wait for."""
        return self.before(key, what, self.rules[asks].value, event)

    def later(self, key: str, what: str, span: Span, event: str) -> DatedStep:
        """Return the day a span after an event."""
        begun = self.events.get(event)
        if begun is None or span.endless:
            return DatedStep(key, what, None, f"{span.text} after {_called(event)}")
        how = f"{span.text} after {_called(event)} on {told(begun)}"
        return DatedStep(key, what, self.working.last_day(span, begun), how)

    def before(self, key: str, what: str, span: object, event: str) -> DatedStep:
        """Return the last day on which a wait may begin that must be over by an event."""
        deadline = self.events.get(event)
        waits = [wait for wait in _waits(span) if not wait.endless]
        if not waits or deadline is None:
            return DatedStep(key, what, None, unsaid(span))
        shorter = isinstance(span, Spans) and span.first
        days = [self.working.latest_before(wait, deadline) for wait in waits]
        words = " or ".join(wait.text for wait in waits)
        how = f"{words} before {_called(event)} on {told(deadline)}"
        if len(waits) > 1:
            how = f"the {'shorter' if shorter else 'longer'} of {how}"
        how += "".join(cutoff_text(wait, "; what comes") for wait in waits)
        return DatedStep(key, what, (max if shorter else min)(days), how)

    def soonest(self, key: str, what: str, asks: RuleKey, event: str) -> list[DatedStep]:
        """Return the first day on which a rule's wait may begin, where the rule sets one."""
        deadline = self.events.get(event)
        limits = [w.earliest for w in _waits(self.rules[asks].value) if w.earliest is not None]
        if not limits or deadline is None:
            return []
        days = [self.working.earliest_before(limit, deadline) for limit in limits]
        words = " or ".join(limit.text for limit in limits)
        how = f"at most {words} before {_called(event)} on {told(deadline)}"
        return [DatedStep(key, what, max(days), how)]


def _waits(value: object) -> list[Span]:
    """Return the spans of a wait."""
    parts = value.parts if isinstance(value, Spans) else (value,)
    return [part for part in parts if isinstance(part, Span)]


def _endless(part: object) -> bool:
    return isinstance(part, Span) and part.endless


def _called(clock: str) -> str:
    return CALLED.get(clock, clock)


def unsaid(value: object) -> str:
    """Return why a date cannot be told."""
    if isinstance(value, Span) and value.endless:
        return "no end"
    if isinstance(value, NoRule):
        return "the town has no rule"
    if isinstance(value, ByReference):
        return f"set by {value.document}"
    if isinstance(value, Ask) and value.by:
        return f"ask the {value.by}"
    return "not known"
