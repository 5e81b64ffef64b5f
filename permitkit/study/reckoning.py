"""Counting on from the events of a job, and back from them, each date with its words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from permitkit.model.rules import RuleKey
from permitkit.model.values import Ask, ByReference, NoRule, Span
from permitkit.study.dates_and_money import DatedStep
from permitkit.study.days import WorkCalendar, told
from permitkit.study.in_force import RulesInForce

__all__ = ["Events", "Onward", "Reckoner", "unsaid"]

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
class Reckoner:
    """Counts on from the events of one job, and back from them."""

    rules: RulesInForce
    working: WorkCalendar
    events: Events

    def onward(self, rule: Onward) -> list[DatedStep]:
        """Return the date a rule leads to, or one for each permit where they differ."""
        return [self._one(rule, whose, value) for whose, value in self._values(rule.asks)]

    def _values(self, key: RuleKey) -> list[tuple[str, object]]:
        """Return what a key holds: for the job, or for each of its permits by title."""
        whole = self.rules[key].value
        if not (isinstance(whole, Ask) and "permit" in whole.facts):
            return [("", whole)]
        return [
            (f", {needed.permit.title}", self.rules.at(key, permit=needed.permit.id).value)
            for needed in self.rules.permits()
        ]

    def _one(self, rule: Onward, whose: str, span: object) -> DatedStep:
        """Return one date counted on from the event that its span, or else its key, names."""
        what = rule.what + whose
        if not isinstance(span, Span) or span.endless:
            return DatedStep(rule.key, what, None, unsaid(span))
        clock = span.clock or rule.clock
        event = self.events.get(clock)
        if event is None:
            return DatedStep(rule.key, what, None, f"{span.text} after {_called(clock)}")
        day = (self.working.ready if rule.begins else self.working.last_day)(span, event)
        how = f"{span.text} after {_called(clock)} on {told(event)}, which is not counted"
        return DatedStep(rule.key, what, day, how)

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
        if not isinstance(span, Span) or span.endless or deadline is None:
            return DatedStep(key, what, None, unsaid(span))
        how = f"{span.text} before {_called(event)} on {told(deadline)}"
        return DatedStep(key, what, self.working.latest_before(span, deadline), how)


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
