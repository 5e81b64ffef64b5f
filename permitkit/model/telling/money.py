"""Sums of money in words, before any quantity is known."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from permitkit.model.facts import FACTS, FactKind
from permitkit.model.money import (
    Flat,
    Greater,
    Lesser,
    PerUnit,
    Share,
    Stepped,
    Sum,
    Table,
    Tiered,
    Unknown,
    unit_of,
)
from permitkit.model.telling.conditions import condition_text, threshold_text, when_text
from permitkit.units import Measure, write_money

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.model.money import FeeLine, Term, Tier

__all__ = ["bounds_text", "line_text", "rate_text", "term_text"]

TWO = 2
_CENT = Decimal("0.01")


def line_text(line: FeeLine) -> str:
    """Return a line of money in words: its name, its term, what goes with it, its condition."""
    if line.term == Unknown(""):
        told = f"{line.name}: {bounds_text(line.least, line.most)}"
    else:
        told = f"{line.name}: {term_text(line.term)}"
        for bound, word in ((line.least, "least"), (line.most, "most")):
            told += f", {word} {write_money(bound)}" if bound is not None else ""
    told += f", times {line.begun_times} if work began first" if line.begun_times else ""
    told += ", refundable" if line.refundable else ""
    told += f", {write_money(line.kept)} kept" if line.kept is not None else ""
    told += f", returned {line.returned_when}" if line.returned_when else ""
    told += ", at the most: the town sets the sum" if line.cap else ""
    told += ", at the least: the town may set more" if line.floor else ""
    told += f", in place of {line.in_place_of}" if line.in_place_of else ""
    told += ", set again by what was really cut" if line.true_up else ""
    told += f", payable to {line.payee}" if line.payee else ""
    told += f", for the permit {line.permit}" if line.permit else ""
    told += f", where {when_text(line.when)}" if line.when else ""
    beside = "; ".join(filter(None, (line.note, line.cite_text)))
    return f"{told} ({beside})" if beside else told


def bounds_text(least: Decimal | None, most: Decimal | None) -> str:
    """Return the ends between which a sum lies: `at least $75.00`, `$100.00 to $300.00`."""
    if least is not None and most is not None:
        return f"{write_money(least)} to {write_money(most)}"
    if most is not None:
        return f"at most {write_money(most)}"
    return f"at least {write_money(least)}" if least is not None else ""


def term_text(term: Term) -> str:
    """Return one term in words."""
    return _TELLERS[type(term)](term)


def rate_text(rate: Decimal) -> str:
    """Return a rate, which may be finer than a cent."""
    return write_money(rate) if rate == rate.quantize(_CENT) else f"${rate.normalize():f}"


def _amount(amount: Measure | int, per: str) -> str:
    """Return a quantity: `5 ft`, or a count of what is counted."""
    if isinstance(amount, Measure):
        return amount.shown()
    return f"{amount} {unit_of(per).noun if amount == 1 else unit_of(per).nouns}"


def _flat(term: Flat) -> str:
    told = write_money(term.amount)
    return told if term.to is None else f"{told} to {write_money(term.to)}"


def _per_unit(term: PerUnit) -> str:
    high = f" to {rate_text(term.to)}" if term.to is not None else ""
    told = f"{rate_text(term.rate)}{high} per {term.per}"
    told += " or part of one" if term.whole_units else ""
    told += f", the first {_amount(term.free, term.per)} free" if term.free is not None else ""
    for side, pad in (("length", term.pad_length), ("width", term.pad_width)):
        told += f", {pad.shown()} added to the {side}" if pad is not None else ""
    if term.least_units is not None:
        told += f", at least {_amount(term.least_units, term.per)}"
    return told + (f", {term.count} of them" if term.count is not None else "")


def _stepped(term: Stepped) -> str:
    first = _amount(term.first, term.per)
    each = unit_of(term.per).noun if term.each == 1 else _amount(term.each, term.per)
    thing = f" ({unit_of(term.per).thing})" if isinstance(term.first, Measure) else ""
    return (
        f"{write_money(term.first_sum)} for the first {first}{thing}, "
        f"then {write_money(term.each_sum)} per {each} or part of it"
    )


def _tiered(term: Tiered) -> str:
    rows = "; ".join(_tier(tier, term.per) for tier in term.tiers)
    return rows + ("" if term.whole else "; each part at its own rate")


def _tier(tier: Tier, per: str) -> str:
    end = "above that" if tier.up_to is None else f"up to {_amount(tier.up_to, per)}"
    rate = f"{rate_text(tier.rate)} per {per}" if tier.rate else ""
    plus = write_money(tier.plus) if tier.plus or not tier.rate else ""
    return f"{end} {' plus '.join(part for part in (rate, plus) if part)}"


def _joined(of_two: str, of_more: str) -> Callable[[Any], str]:
    """Return how terms are told of which one counts, or all of them."""

    def told(term: Any) -> str:  # noqa: ANN401 - a term of terms
        word = of_two if len(term.terms) == TWO else of_more
        return f"{word} of " + " and ".join(term_text(part) for part in term.terms)

    return told


def _table(term: Table) -> str:
    fact = FACTS[term.by]
    if fact.kind is FactKind.YES_NO:
        rows = [
            f"{term_text(row)} where {condition_text(term.by, (name,))}"
            for name, row in term.rows.items()
        ]
        rows += [f"otherwise {term_text(term.otherwise)}"] if term.otherwise is not None else []
        return ", ".join(rows)
    rows = [f"{name} {term_text(row)}" for name, row in term.rows.items()]
    rows += [f"{threshold_text(ends)} {term_text(row)}" for ends, row in term.bands]
    rows += [f"otherwise {term_text(term.otherwise)}"] if term.otherwise is not None else []
    once = "; of several the greatest alone" if term.once else ""
    return f"by {fact.question}: {', '.join(rows)}{once}"


def _unknown(term: Unknown) -> str:
    told = f"set by {term.reference}" if term.reference else f"to be set by {term.by}"
    return f"{told}, per {term.per}" if term.per else told


_TELLERS: dict[type, Callable[[Any], str]] = {
    Flat: _flat,
    PerUnit: _per_unit,
    Stepped: _stepped,
    Tiered: _tiered,
    Share: lambda term: f"{term.percent} % of {term.of}" + (f" per {term.per}" if term.per else ""),
    Greater: _joined("greater", "greatest"),
    Lesser: _joined("lesser", "least"),
    Sum: _joined("sum", "sum"),
    Table: _table,
    Unknown: _unknown,
}
