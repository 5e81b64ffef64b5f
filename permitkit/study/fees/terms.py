"""Terms of money worked out: exact sums, with their arithmetic in words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from permitkit.model.facts import FACTS
from permitkit.model.money import (
    PER_UNITS,
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
)
from permitkit.model.telling.money import rate_text
from permitkit.study.fees.amounts import Charge, count_text, dollars, steps, unknown
from permitkit.study.in_force import UNKNOWN
from permitkit.study.in_force.fits import fit_one
from permitkit.units import Measure, write_money

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from decimal import Decimal

    from permitkit.model.money import Term, Tier
    from permitkit.study.fees.amounts import Quantities

__all__ = ["Worked", "charge"]

Worked = dict[str, Fraction]
"""The lines worked out before this one, by name, and all fees so far by `fees`: for shares."""


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


def _per_unit(term: PerUnit, quantities: Quantities, _before: Worked) -> Charge:
    """Return a rate times what is counted, after what is free, padded, rounded up."""
    unit = PER_UNITS[term.per]
    noun = unit.noun
    counted, words = _counted(term, quantities)
    if counted is None:
        return unknown(f"{term.per} not known")
    if term.free is not None:
        free = _in_units(term.free, term.per)
        words = f"({words} - {count_text(free, noun)} free)"
        counted = max(counted - free, Fraction(0))
    if term.whole_units and steps(counted) != counted:
        counted = Fraction(steps(counted))
        words = f"{words}, charged as {count_text(counted, noun)},"
    least = None if term.least_units is None else _in_units(term.least_units, term.per)
    if least is not None and counted < least:
        counted = least
        words = f"{words}, charged as {count_text(counted, noun)},"
    return Charge(counted * Fraction(term.rate), f"{words} x {rate_text(term.rate)}")


def _counted(term: PerUnit, quantities: Quantities) -> tuple[Fraction | None, str]:
    """Return how many units there are, with the words for it."""
    unit = PER_UNITS[term.per]
    noun = unit.noun
    if term.count is not None:
        return Fraction(term.count), count_text(Fraction(term.count), noun)
    if term.pad_length is not None or term.pad_width is not None:
        return _padded(term, quantities)
    counted = quantities.of(term.per)
    return counted, "" if counted is None else count_text(counted, noun)


def _padded(term: PerUnit, quantities: Quantities) -> tuple[Fraction | None, str]:
    """Return an area whose sides are widened first."""
    unit = PER_UNITS[term.per]
    of = unit.thing.removeprefix("area of ")
    side_unit = unit.unit.removeprefix("sq ")
    area, words = Fraction(1), []
    for name, pad in (("length", term.pad_length), ("width", term.pad_width)):
        side = quantities.side(f"{name} of {of}", side_unit)
        if side is None:
            return None, ""
        more = pad.in_(side_unit) if pad is not None else Fraction(0)
        words.append(
            f"({count_text(side, side_unit)} + {count_text(more, side_unit)})"
            if more
            else count_text(side, side_unit)
        )
        area *= side + more
    return area, f"{' x '.join(words)} = {count_text(area, unit.unit)}"


def _in_units(amount: Measure | int, per: str) -> Fraction:
    """Return a quantity in the unit money is counted by."""
    return amount.in_(PER_UNITS[per].unit) if isinstance(amount, Measure) else Fraction(amount)


def _stepped(term: Stepped, quantities: Quantities, _before: Worked) -> Charge:
    """Return a first sum, then a sum for each further step or part of one."""
    counted = quantities.of(term.per)
    if counted is None:
        return unknown(f"{term.per} not known")
    noun = PER_UNITS[term.per].noun
    first, each = _in_units(term.first, term.per), _in_units(term.each, term.per)
    if counted <= 0:
        return Charge(Fraction(0), f"no {PER_UNITS[term.per].thing}")
    further = steps(max(counted - first, Fraction(0)) / each)
    words = f"{count_text(counted, noun)}: first {count_text(first, noun)} "
    words += dollars(Fraction(term.first_sum))
    if further:
        name = "step" if further == 1 else "steps"
        words += (
            f" + {further} {name} of {count_text(each, noun)} or part"
            f" x {dollars(Fraction(term.each_sum))}"
        )
    return Charge(Fraction(term.first_sum) + further * Fraction(term.each_sum), words)


def _tiered(term: Tiered, quantities: Quantities, _before: Worked) -> Charge:
    """Return the sum of the tier reached: all at its rate, or each part at its own."""
    counted = quantities.of(term.per)
    if counted is None:
        return unknown(f"{term.per} not known")
    noun = PER_UNITS[term.per].noun
    reached = next(n for n, tier in enumerate(term.tiers) if _holds(tier, counted, term.per))
    plus = Fraction(term.tiers[reached].plus)
    if term.whole:
        parts = [(counted, term.tiers[reached].rate)]
    else:
        parts = list(_parts(term.tiers[: reached + 1], counted, term.per))
    words = " + ".join(
        f"{count_text(part, noun)} x {rate_text(rate)}" for part, rate in parts if rate
    )
    words += f"{' + ' if words else ''}{dollars(plus)}" if plus or not words else ""
    return Charge(sum((part * Fraction(rate) for part, rate in parts), plus), words)


def _holds(tier: Tier, counted: Fraction, per: str) -> bool:
    return tier.up_to is None or counted <= _in_units(tier.up_to, per)


def _parts(
    tiers: tuple[Tier, ...], counted: Fraction, per: str
) -> Iterable[tuple[Fraction, Decimal]]:
    """Yield the part of a quantity that falls in each tier, with its rate."""
    below = Fraction(0)
    for tier in tiers:
        end = counted if tier.up_to is None else min(counted, _in_units(tier.up_to, per))
        yield end - below, tier.rate
        below = end


def _share(term: Share, quantities: Quantities, before: Worked) -> Charge:
    """Return a share of the cost, of the lines before, or of one of them."""
    whole = quantities.cost() if term.of == "cost" else before.get(term.of)
    if whole is None:
        return unknown(f"{term.of} not known")
    exact = whole * Fraction(term.percent) / 100
    return Charge(exact, f"{term.percent.normalize():f} % of {dollars(whole)}")


def _chosen(word: str, pick: Callable[..., Any]) -> Callable[..., Charge]:
    """Return the worker for the greater or the lesser of several terms."""

    def work(term: Greater | Lesser, quantities: Quantities, before: Worked) -> Charge:
        charges = [charge(part, quantities, before) for part in term.terms]
        missing = next((part for part in charges if part.low is None), None)
        if missing is not None:
            return missing
        low = pick(part.low for part in charges)
        highs = [part.low if part.high is None else part.high for part in charges]
        high = pick(highs) if any(part.high is not None for part in charges) else None
        told = " and ".join(_bracketed(part) for part in charges)
        return Charge(low, f"{word} of {told}: {dollars(low)}", high, plain=True)

    return work


def _bracketed(part: Charge) -> str:
    return part.told if part.plain else f"({part.told})"


def _sum(term: Sum, quantities: Quantities, before: Worked) -> Charge:
    charges = [charge(part, quantities, before) for part in term.terms]
    missing = next((part for part in charges if part.low is None), None)
    if missing is not None:
        return missing
    return _added(charges)


def _added(charges: list[Charge]) -> Charge:
    """Return known charges added up."""
    low = sum((part.low for part in charges if part.low is not None), Fraction(0))
    highs = [part.low if part.high is None else part.high for part in charges]
    high = sum((part for part in highs if part is not None), Fraction(0))
    words = " + ".join(part.words for part in charges)
    return Charge(low, words, high if any(part.high is not None for part in charges) else None)


def _table(term: Table, quantities: Quantities, before: Worked) -> Charge:
    """Return the row that a fact picks; a sum of rows where several surfaces are opened."""
    value = _fact(term, quantities)
    if value is UNKNOWN:
        return unknown(f"{FACTS[term.by].question} not known")
    values = value if isinstance(value, tuple) else (value,)
    charges = []
    for single in values:
        row = _row(term, single)
        if row is None:
            return unknown(f"no row for {FACTS[term.by].question} {_plain(single)}")
        worked = charge(row, quantities, before)
        if worked.low is None:
            return worked
        charges.append(replace(worked, words=f"{_plain(single)}: {worked.words}"))
    return charges[0] if len(charges) == 1 else _added(charges)


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


def _plain(value: object) -> str:
    return value.shown() if isinstance(value, Measure) else str(value)


def _unknown(term: Unknown, _quantities: Quantities, _before: Worked) -> Charge:
    return unknown(f"set by {term.reference}" if term.reference else f"by {term.by}")


_WORKERS: Mapping[type, Callable[..., Charge]] = {
    Flat: _flat,
    PerUnit: _per_unit,
    Stepped: _stepped,
    Tiered: _tiered,
    Share: _share,
    Greater: _chosen("greater", max),
    Lesser: _chosen("lesser", min),
    Sum: _sum,
    Table: _table,
    Unknown: _unknown,
}
