"""Terms of money worked out: exact sums, with their arithmetic in words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from permitkit.model.facts import FACTS
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
from permitkit.model.telling import condition_text
from permitkit.model.telling.money import term_text
from permitkit.study.fees.amounts import Charge, between, count_text, dollars, left_open, unknown
from permitkit.study.fees.counted import per_unit, stepped, tiered
from permitkit.study.in_force import UNKNOWN
from permitkit.study.in_force.explanation import fact_text
from permitkit.study.in_force.fits import fit_one
from permitkit.units import write_money

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from permitkit.model.money import Term
    from permitkit.study.fees.amounts import Quantities

__all__ = ["Worked", "charge"]

Worked = dict[str, tuple[Fraction, Fraction | float]]
"""Both ends of the lines worked out before this one, by name, and of all fees so far by `fees`."""


def charge(term: Term, quantities: Quantities, before: Worked) -> Charge:
    """Return what a term comes to.

    Parameters
    ----------
    term
        The term.
    quantities
        What is measured and counted on the job.
    before
        The lines above this one, of which it may be a share.
    """
    return _WORKERS[type(term)](term, quantities, before)


def _flat(term: Flat, _quantities: Quantities, _before: Worked) -> Charge:
    low = Fraction(term.amount)
    if term.to is None:
        return Charge(low, write_money(term.amount), plain=True)
    words = f"{write_money(term.amount)} to {write_money(term.to)}"
    return Charge(low, words, Fraction(term.to), plain=True)


def _share(term: Share, quantities: Quantities, before: Worked) -> Charge:
    """Return a share of the cost, of the lines before, or of one of them."""
    cost = quantities.cost() if term.of == "cost" else None
    ends = before.get(term.of) if cost is None else (cost, cost)
    if ends is None:
        return left_open(term_text(term), f"{term.of} not known")
    low, upper = ends
    part, words = Fraction(term.percent) / 100, f"{term.percent.normalize():f} % of {dollars(low)}"
    if term.per:
        unit, counted = unit_of(term.per), quantities.of(term.per)
        if counted is None:
            missing = unit.thing if unit.kind is not None else unit.nouns
            return left_open(term_text(term), f"{missing} not known")
        part, words = part * counted, f"{count_text(counted, unit)} x {words}"
    words += " or more" if isinstance(upper, float) else ""
    most = upper if isinstance(upper, float) else upper * part
    return between(low * part, most, words, ranged=low != upper)


def _chosen(word: str, pick: Callable[..., Any]) -> Callable[..., Charge]:
    """Return the worker for the greater or the lesser of several terms."""

    def work(term: Greater | Lesser, quantities: Quantities, before: Worked) -> Charge:
        charges = [charge(part, quantities, before) for part in term.terms]
        return _picked(charges, word, pick)

    return work


def _picked(charges: list[Charge], word: str, pick: Callable[..., Any]) -> Charge:
    """Return the greatest or the least of charges; one not known leaves one end open."""
    told = f"{word} of {' and '.join(_bracketed(part) for part in charges)}"
    known = [part for part in charges if part.low is not None]
    missing = "; ".join(part.missing for part in charges if part.low is None)
    if not missing:
        low = pick(part.low for part in charges)
        ranged = any(part.ranged for part in charges)
        upper = pick(part.upper for part in charges)
        return between(low, upper, f"{told}: {dollars(low)}", plain=True, ranged=ranged)
    if not known:
        return left_open(told, missing)
    if pick is max:
        floor = max(part.low for part in known if part.low is not None)
        return replace(left_open(told, missing, floor), words=told)
    most = min(part.upper for part in known)
    return replace(between(Fraction(0), most, told, plain=True), missing=missing)


def _bracketed(part: Charge) -> str:
    return part.told if part.plain else f"({part.told})"


def _sum(term: Sum, quantities: Quantities, before: Worked) -> Charge:
    return _added([charge(part, quantities, before) for part in term.terms])


def _added(charges: list[Charge]) -> Charge:
    """Return charges added up; one that is not known leaves no more than a floor."""
    if len(charges) == 1:
        return charges[0]
    words = " + ".join(part.words for part in charges)
    missing = "; ".join(part.missing for part in charges if part.low is None)
    low = sum((part.low for part in charges if part.low is not None), Fraction(0))
    ranged = any(part.ranged for part in charges)
    upper = sum((part.upper for part in charges), Fraction(0))
    if missing:
        return replace(left_open(words, missing, low), words=words)
    return between(low, upper, words, ranged=ranged)


def _table(term: Table, quantities: Quantities, before: Worked) -> Charge:
    """Return the row that a fact picks; a sum of rows where several surfaces are opened."""
    value = _fact(term, quantities)
    question = FACTS[term.by].question
    if value is UNKNOWN:
        return unknown(f"{question} not known")
    charges = []
    several = value if isinstance(value, tuple) else (value,)
    for single in several:
        row, told = _row(term, single), fact_text(term.by, single)
        if row is None:
            return unknown(f"the sheet has no row for {question} {told}")
        worked = charge(row, quantities, before)
        if worked.low is None and len(several) == 1:
            return worked
        charges.append(replace(worked, words=_row_words(term, single, told, worked.words)))
    pick_one = term.once and len(charges) > 1
    return _picked(charges, "greatest", max) if pick_one else _added(charges)


def _row_words(term: Table, value: object, told: str, words: str) -> str:
    """Return the arithmetic of a row behind what picked it, which is not said twice."""
    if isinstance(value, bool):
        told = condition_text(term.by, ("yes" if value else "no",))
    return words if words.startswith(f"{told}:") else f"{told}: {words}"


def _fact(term: Table, quantities: Quantities) -> object:
    """Return the fact a table asks for; of surfaces, all that are opened."""
    value = quantities.facts.get(term.by, UNKNOWN)
    if value is UNKNOWN and term.by == "surface":
        return quantities.surfaces() or UNKNOWN
    return value


def _row(term: Table, value: object) -> Term | None:
    """Return the row for one value, or the one for all others."""
    for name, row in term.rows.items():
        if fit_one(term.by, (name,), value):
            return row
    for ends, row in term.bands:
        if fit_one(term.by, ends, value):
            return row
    return term.otherwise


def _unknown(term: Unknown, quantities: Quantities, _before: Worked) -> Charge:
    told = f"set by {term.reference}" if term.reference else f"by {term.by or 'the town'}"
    if not term.per:
        return unknown(told)
    counted = quantities.of(term.per)
    many = "" if counted is None else f"; {count_text(counted, unit_of(term.per))} here"
    return unknown(f"{told}, per {term.per}{many}")


_WORKERS: Mapping[type, Callable[..., Charge]] = {
    Flat: _flat,
    PerUnit: lambda term, quantities, _before: per_unit(term, quantities),
    Stepped: lambda term, quantities, _before: stepped(term, quantities),
    Tiered: lambda term, quantities, _before: tiered(term, quantities),
    Share: _share,
    Greater: _chosen("greater", max),
    Lesser: _chosen("lesser", min),
    Sum: _sum,
    Table: _table,
    Unknown: _unknown,
}
