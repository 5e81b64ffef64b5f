"""Times: how long before or after, by which day of the year, the shorter or longer of several."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, time
from typing import TYPE_CHECKING

from permitkit.model.facts import Age
from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import PaperEnd, Span, Spans, YearDay

if TYPE_CHECKING:
    from permitkit.model.rules import RuleKey

__all__ = [
    "CLOCKS",
    "PAPERS",
    "SPAN_WORDS",
    "read_age",
    "read_clock",
    "read_length",
    "read_notice",
    "read_time",
]

CLOCKS = (
    "filing",
    "issue",
    "start",
    "finish",
    "call",
    "notice",
    "request",
    "opening",
    "concrete",
    "acceptance",
    "inspection",
    "enactment",
    "emergency",
    "paving",
    "end of use",
)
_CALLED = {
    "application": "filing",
    "permit": "issue",
    "issuance": "issue",
    "permit issuance": "issue",
    "start of work": "start",
    "commencement": "start",
    "completion": "finish",
    "completion of work": "finish",
    "written notice": "notice",
    "notification": "notice",
    "demand": "request",
    "excavation": "opening",
    "pour": "concrete",
    "placing of concrete": "concrete",
    "final acceptance": "acceptance",
    "final approval": "acceptance",
    "effective date": "enactment",
    "adoption": "enactment",
    "end of operations": "finish",
    "end of work": "finish",
    "notice of completion": "acceptance",
    "resurfacing": "paving",
}
_UNITS = {
    "hour": "hours",
    "day": "days",
    "calendar day": "days",
    "working day": "working days",
    "business day": "working days",
    "workday": "working days",
    "work day": "working days",
    "weekday": "working days",
    "week": "weeks",
    "month": "months",
    "year": "years",
}
_AGES = ("days", "weeks", "months", "years")
SPAN_WORDS = ("span", "by", "before", "ends_with")
PAPERS = ("building permit", "permit")
_SPAN = re.compile(r"([0-9]{1,4}) (full )?([a-z ]+?)s?")
_YEAR_DAY = re.compile(r"([0-9]{1,2})-([0-9]{1,2})")
_HOUR = re.compile(r"([0-9]{1,2}):([0-9]{2})")
_WAIT_WORDS = ("earliest", "cutoff")
_SEVERAL = {"lesser_of": True, "greater_of": False}
_LEAP_YEAR = 2024
_TWO = 2


def read_time(table: Written, key: RuleKey) -> Span | Spans | None:
    """Return a time: one span, a day of the year, another paper's end, or several of them."""
    stated = [name for name in (*SPAN_WORDS, *_SEVERAL) if table.has(name)]
    if len(stated) > 1:  # told already: one value
        for name in (*stated, "clock"):
            table.take(name)
        return None
    for name, first in _SEVERAL.items():
        if table.has(name):
            return _read_several(table, name, key, first=first)
    part = _read_part(table, key)
    return part if part is None or isinstance(part, Span) else Spans((part,))


def read_clock(table: Written) -> str:
    """Return the event a time is counted from: a known one, or one of the sheet's own."""
    word = table.text("clock")
    known = _CALLED.get(word.casefold(), word)
    return next(iter(table.known_or_own((known,), "clock", CLOCKS)), "") if word else ""


def _read_several(table: Written, name: str, key: RuleKey, *, first: bool) -> Spans | None:
    """Return the times of which the one that ends first holds, or last."""
    value, clock = table.take(name), read_clock(table)
    for word in (word for word in _WAIT_WORDS if table.has(word)):
        table.take(word)
        table.fault(word, f"{word} beside {name}", f"{word} within one of the times")
    rows = value if isinstance(value, list) else [value]
    parts = []
    for n, row in enumerate(rows, 1):
        fields = {"span": row} if isinstance(row, str) else row
        if not isinstance(fields, dict):
            table.fault(name, quoted(row), 'times, such as ["1 year", { before = "11-15" }]')
            return None
        timed = {"clock": clock} if clock and "clock" not in fields else {}
        inner = Written({**fields, **timed}, f"{table.at(name)}[{n}]", table.faults)
        parts.append(_read_part(inner, key))
        inner.close(also=(*SPAN_WORDS, "clock", *_WAIT_WORDS))
    if len(rows) < _TWO:
        table.fault(name, f"{len(rows)} of them", "two times or more", "write it as span = …")
    good = tuple(part for part in parts if part is not None)
    return Spans(good, first=first) if len(good) == len(rows) >= _TWO else None


def _read_part(table: Written, key: RuleKey) -> Span | YearDay | PaperEnd | None:
    """Return one time, of those that the key can be answered by."""
    stated = [word for word in SPAN_WORDS if table.has(word)]
    if stated == ["span"]:
        return _read_span(table, "span", wait=key.times == "wait")
    clock = read_clock(table)
    if len(stated) != 1:
        for word in stated:
            table.take(word)
        found = " and ".join(stated) or "no time"
        table.fault("", found, "one of span, by, before, ends_with")
        return None
    if key.times != "due":
        table.take(stated[0])
        expected = 'a length of time, such as span = "10 days"'
        table.fault(stated[0], f"{stated[0]} = …", expected, "only what is due can end on a day")
        return None
    if stated == ["ends_with"]:
        paper = table.word("ends_with", PAPERS)
        return PaperEnd(paper) if paper else None
    return _read_year_day(table, stated[0], clock)


def _read_year_day(table: Written, name: str, clock: str) -> YearDay | None:
    """Return a day of the year, such as `11-15`."""
    match = _YEAR_DAY.fullmatch(text := table.text(name))
    try:
        if match:
            day = date(_LEAP_YEAR, int(match[1]), int(match[2]))
            return YearDay(day.month, day.day, clock, before=name == "before")
    except ValueError:
        match = None
    if text:
        table.fault(name, repr(text), "a day of the year as month-day, such as 11-15")
    return None


def read_age(table: Written, name: str) -> Age | None:
    """Return how long ago something may have been, such as `5 years`."""
    text = table.text(name)
    span = _length(table, name, text)
    if span is None:
        return None
    if span.endless or span.unit not in _AGES:
        table.fault(name, repr(text), "an age in days, weeks, months or years, such as 5 years")
        return None
    return Age(span.count, span.unit)


def read_length(table: Written, name: str) -> Span | None:
    """Return a length of time that is no wait before something."""
    return _read_span(table, name, wait=False)


def read_notice(table: Written, name: str) -> Span | None:
    """Return the notice that something must be called with."""
    return _read_span(table, name, wait=True)


def _read_span(table: Written, name: str, *, wait: bool) -> Span | None:
    """Return a length of time, such as `10 working days`, `48 hours` or `no end`."""
    text = table.text(name)
    clock = read_clock(table)
    span = _length(table, name, text, clock)
    cutoff = _read_hour(table, "cutoff")
    earliest = _read_earliest(table, span, wait=wait) if table.has("earliest") else None
    return None if span is None else replace(span, earliest=earliest, cutoff=cutoff)


def _length(table: Written, name: str, text: str, clock: str = "") -> Span | None:
    """Return the length of time a text states."""
    if text.lower() == "no end":
        return Span(0, "years", clock, endless=True)
    match = _SPAN.fullmatch(text.lower())
    if match and match[3] in _UNITS:
        return Span(int(match[1]), _UNITS[match[3]], clock, full_days=bool(match[2]))
    if text:
        expected = "a number of hours, days, working days, weeks, months or years, or no end"
        fix = "write it as 10 working days, 48 hours or 2 years"
        if re.search(r"(?:business|working|office) hours?$", text.lower()):
            fix = "write the working days the town means, such as 2 working days for 48 such hours"
        table.fault(name, repr(text), expected, fix)
    return None


def _read_earliest(table: Written, span: Span | None, *, wait: bool) -> Span | None:
    """Return how long before at the most a wait may begin: no shorter than the wait."""
    text = table.text("earliest")
    if not wait:
        table.fault("earliest", repr(text), "no earliest day: this is no wait before something")
        return None
    found = _length(table, "earliest", text)
    if found is None or span is None:
        return None
    if found.endless or span.endless or _hours_of(found) < _hours_of(span):
        table.fault("earliest", repr(text), f"a time no shorter than {span.text}")
        return None
    return found


def _hours_of(span: Span) -> int:
    """Return about how many hours a span is long, working days as they fall in a week."""
    weeks, days = divmod(span.count, 5) if span.unit == "working days" else (0, span.count)
    each = {"hours": 1, "weeks": 168, "months": 720, "years": 8760}.get(span.unit, 24)
    return weeks * 168 + days * each


def _read_hour(table: Written, name: str) -> time | None:
    """Return an hour of the day, such as `16:00`."""
    match = _HOUR.fullmatch(text := table.text(name))
    try:
        if match:
            return time(int(match[1]), int(match[2]))
    except ValueError:
        match = None
    if text:
        table.fault(name, repr(text), "an hour of the day, such as 16:00")
    return None
