"""Values in words."""

from __future__ import annotations

from calendar import month_abbr
from typing import TYPE_CHECKING

from permitkit.model.telling.conditions import any_of, season_text
from permitkit.model.telling.money import line_text
from permitkit.model.values import (
    Ask,
    ByReference,
    Fees,
    Hours,
    Insurance,
    Items,
    Limit,
    NoRule,
    Order,
    PaperEnd,
    RainRule,
    Seasons,
    Sentences,
    Silent,
    Span,
    Spans,
    Stance,
    Value,
    Words,
    YearDay,
    YesNo,
)
from permitkit.units import Kind, Measure, read_measure, write_money

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import time
    from typing import Any

    from permitkit.model.rules import RuleKey
    from permitkit.model.values import Cover, Item

__all__ = [
    "amount_text",
    "cover_limits",
    "cutoff_text",
    "hours_text",
    "seasons_text",
    "time_text",
    "value_text",
]

EARLIER = ("filing", "issue", "call", "notice", "request")
_WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def value_text(value: Value, key: RuleKey | None = None) -> str:
    """Return a value in words, on one line; `key` is the question it answers, where it matters."""
    if isinstance(value, Span) and key is not None and key.times == "wait":
        return _ahead(value, key)
    return _TELLERS[type(value)](value)


def amount_text(amount: Measure | int) -> str:
    """Return a quantity in its author's unit, as written where print rounds it, or a number."""
    if not isinstance(amount, Measure):
        return str(amount)
    shown = amount.shown()
    rounded = amount.kind is Kind.SLOPE and read_measure(shown, amount.kind).si != amount.si
    return amount.text if rounded and amount.text else shown


def _limit(value: Limit) -> str:
    """Return a limit: `1/2 in to 1 1/4 in, invert above flow line`."""
    if value.sizes:
        told = any_of(tuple(amount_text(size) for size in value.sizes))
    elif value.at_least is None:
        told = "no limit" if value.at_most is None else f"at most {amount_text(value.at_most)}"
    elif value.at_most is None:
        told = f"at least {amount_text(value.at_least)}"
    elif value.at_least == value.at_most:
        told = f"exactly {amount_text(value.at_least)}"
    else:
        told = f"{amount_text(value.at_least)} to {amount_text(value.at_most)}"
    datum = f"{value.of} from {value.origin}" if value.of and value.origin else value.of
    return f"{told}, {datum}" if datum else told


def _order(value: Order) -> str:
    steps = ", then ".join(value.steps)
    return f"{steps}; a reason is due for each passed over" if value.reason_needed else steps


def _item(item: Item) -> str:
    parts = [item.name, item.number, f"rev {item.revision}" if item.revision else ""]
    told = " ".join(part for part in parts if part)
    extra = [f"only if {item.only_if}"] if item.only_if else []
    extra += [f"{item.after.text} after the {item.clock or 'finish'}"] if item.after else []
    extra += [_notice(item.notice)] if item.notice else []
    extra += [item.note] if item.note else []
    return f"{told} ({', '.join(extra)})" if extra else told


def _notice(notice: Span) -> str:
    told = f"{notice.text} notice"
    told += f", at most {notice.earliest.text}" if notice.earliest is not None else ""
    return told + cutoff_text(notice, "; a call")


def _span(value: Span) -> str:
    told = value.text
    if value.earliest is not None:
        told = f"at least {told} and at most {value.earliest.text} before"
    told += f", counted from the {value.clock}" if value.clock else ""
    return told + cutoff_text(value, "; what comes")


def _ahead(value: Span, key: RuleKey) -> str:
    """Return a span that lies before its event, unless it is counted on from an earlier one."""
    if value.clock in EARLIER or value.endless:
        return _span(value)
    event = "inspection" if key.name.endswith("inspection_notice") else "start"
    told = value.text
    if value.earliest is not None:
        told = f"at least {told} and at most {value.earliest.text}"
    return f"{told} before the {value.clock or event}{cutoff_text(value, '; what comes')}"


def cutoff_text(value: Span, what: str) -> str:
    """Return from when on a later day counts: `; a call after 16:00 counts from …`."""
    if value.cutoff is None:
        return ""
    return f"{what} after {value.cutoff:%H:%M} counts from the next working day"


def time_text(part: Span | YearDay | PaperEnd) -> str:
    """Return one of several times: `30 days, counted from issue`, `before Nov 15`."""
    if isinstance(part, Span):
        return _span(part)
    if isinstance(part, PaperEnd):
        return f"the end of the {part.paper}"
    word = "before" if part.before else "by"
    return f"{word} {month_abbr[part.month]} {part.day}"


def _spans(value: Spans) -> str:
    if len(value.parts) == 1:
        return time_text(value.parts[0])
    told = "; or ".join(time_text(part) for part in value.parts)
    return f"{told}; whichever ends {'first' if value.first else 'last'}"


def seasons_text(value: Seasons) -> str:
    """Return the parts of the year that are closed or open: `closed Nov 15 to Mar 31`."""
    parts = [season_text(part) for part in value.parts]
    return f"{'closed' if value.closed else 'open'} {' and '.join(parts)}"


def _seasons(value: Seasons) -> str:
    told = seasons_text(value)
    soft = [season_text(part) for part in value.parts if part.soft_end]
    if not soft:
        return told
    of = "" if len(value.parts) == 1 else f" of {' and '.join(soft)}"
    return f"{told} (the end{of} may move)"


def hours_text(ranges: tuple[tuple[time, time], ...]) -> str:
    """Return hours of the day: `08:30-11:30, 13:30-15:30`."""
    return ", ".join(f"{a:%H:%M}-{b:%H:%M}" for a, b in ranges)


def _hours(value: Hours) -> str:
    return "; ".join(
        f"{hours_text(part.ranges)} on {', '.join(_WEEK[day] for day in part.days)}"
        for part in value.parts
    )


def _rain(value: RainRule) -> str:
    return f"{value.intensity.shown()} ({value.period}, {value.duration})"


def _cover(cover: Cover) -> str:
    told = f"{cover.kind} {'as the law asks' if cover.by_law else cover_limits(cover)}"
    return f"{told} ({cover.note})" if cover.note else told


def cover_limits(cover: Cover) -> str:
    """Return the sums of a cover: `$1,000,000.00 each, $2,000,000.00 in all`."""
    each, whole, person = (
        f"{write_money(sum_of)} {word}" if sum_of is not None else ""
        for sum_of, word in (
            (cover.each, "each"),
            (cover.aggregate, "in all"),
            (cover.person, "each person"),
        )
    )
    if cover.project is not None:
        alone = f"{write_money(cover.project)} for the project"
        whole = f"{whole} or {alone}" if whole else alone
    return ", ".join(part for part in (each, whole, person) if part)


def _ask(value: Ask) -> str:
    told = f"ask {value.by}" if value.by else "ask"
    return f"{told}: {value.note}" if value.note else told


_TELLERS: dict[type, Callable[[Any], str]] = {
    Limit: _limit,
    YesNo: lambda value: "yes" if value.yes else "no",
    Stance: lambda value: value.word,
    Words: lambda value: any_of(value.words) if value.words else "none",
    Order: _order,
    Sentences: lambda value: " ".join(value.texts),
    Items: lambda value: "; ".join(_item(item) for item in value.items),
    Span: _span,
    Spans: _spans,
    Seasons: _seasons,
    Hours: _hours,
    RainRule: _rain,
    Fees: lambda value: "; ".join(line_text(line) for line in value.lines),
    Insurance: lambda value: "; ".join(_cover(cover) for cover in value.covers),
    Ask: _ask,
    ByReference: lambda value: f"set by {value.document}",
    NoRule: lambda _value: "no rule",
    Silent: lambda _value: "nothing said",
}
