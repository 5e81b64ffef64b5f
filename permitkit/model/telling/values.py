"""Values in words."""

from __future__ import annotations

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
    RainRule,
    Season,
    Sentences,
    Silent,
    Span,
    Stance,
    Value,
    Words,
    YesNo,
)
from permitkit.units import Kind, Measure, read_measure, write_money

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from permitkit.model.rules import RuleKey
    from permitkit.model.values import Cover, Item

__all__ = ["amount_text", "cover_limits", "value_text"]

EARLIER = ("filing", "issue", "call", "notice", "request")
_WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def value_text(value: Value, key: RuleKey | None = None) -> str:
    """Return a value in words, on one line; `key` is the question it answers, where it matters."""
    if isinstance(value, Span) and key is not None and key.ahead:
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
    extra = [f"{item.after.text} after the {item.clock or 'finish'}"] if item.after else []
    extra += [f"{item.notice.text} notice"] if item.notice else []
    extra += [item.note] if item.note else []
    return f"{told} ({', '.join(extra)})" if extra else told


def _span(value: Span) -> str:
    if not value.clock:
        return value.text
    return f"{value.text}, counted from the {value.clock}"


def _ahead(value: Span, key: RuleKey) -> str:
    """Return a span that lies before its event, unless it is counted on from an earlier one."""
    if value.clock in EARLIER or value.endless:
        return _span(value)
    event = "inspection" if key.name.endswith("inspection_notice") else "start"
    return f"{value.text} before the {value.clock or event}"


def _season(value: Season) -> str:
    told = f"{'closed' if value.closed else 'open'} {season_text(value)}"
    return f"{told} (the end may move)" if value.soft_end else told


def _hours(value: Hours) -> str:
    ranges = ", ".join(f"{a:%H:%M}-{b:%H:%M}" for a, b in value.ranges)
    return f"{ranges} on {', '.join(_WEEK[day] for day in value.days)}"


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
    Season: _season,
    Hours: _hours,
    RainRule: _rain,
    Fees: lambda value: "; ".join(line_text(line) for line in value.lines),
    Insurance: lambda value: "; ".join(_cover(cover) for cover in value.covers),
    Ask: _ask,
    ByReference: lambda value: f"set by {value.document}",
    NoRule: lambda _value: "no rule",
    Silent: lambda _value: "nothing said",
}
