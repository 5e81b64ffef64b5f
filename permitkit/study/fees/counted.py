"""Terms that count a quantity: a rate for each unit, steps, tiers."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.model.money import Per, unit_of
from permitkit.model.telling.money import rate_text, term_text
from permitkit.study.fees.amounts import Charge, count_text, dollars, left_open, steps
from permitkit.units import Measure

if TYPE_CHECKING:
    from collections.abc import Iterator
    from decimal import Decimal

    from permitkit.model.money import PerUnit, Stepped, Tier, Tiered
    from permitkit.study.fees.amounts import Quantities

__all__ = ["per_unit", "stepped", "tiered"]


def per_unit(term: PerUnit, quantities: Quantities) -> Charge:
    """Return a rate times what is counted, after what is free, padded or rounded up."""
    per = unit_of(term.per)
    counted, words = _counted(term, quantities)
    if counted is None:
        return _uncounted(term, per)
    if term.free is not None:
        free = _in_units(term.free, per)
        words = f"({words} - {count_text(free, per)} free)"
        counted = max(counted - free, Fraction(0))
    charged = Fraction(steps(counted)) if term.whole_units else counted
    if term.least_units is not None:
        charged = max(charged, _in_units(term.least_units, per))
    if charged != counted:
        words = f"{words}, charged as {count_text(charged, per)},"
    low, words = charged * Fraction(term.rate), f"{words} x {rate_text(term.rate)}"
    if term.to is None:
        return Charge(low, words)
    high = charged * Fraction(term.to)
    return Charge(low, f"{words} to {rate_text(term.to)}", high, plain=True)


def _uncounted(term: PerUnit, per: Per) -> Charge:
    """Return a rate whose count is not known: no less than its least units."""
    if term.least_units is None:
        return _left_open(term)
    low = _in_units(term.least_units, per) * Fraction(term.rate)
    return left_open(term_text(term), f"{_wanted(per)} not known", low)


def _left_open(term: PerUnit | Stepped | Tiered) -> Charge:
    """Return a term whose quantity is not known."""
    return left_open(term_text(term), f"{_wanted(unit_of(term.per))} not known")


def _wanted(per: Per) -> str:
    return per.thing if per.kind is not None else per.nouns


def _counted(term: PerUnit, quantities: Quantities) -> tuple[Fraction | None, str]:
    """Return how many units there are, with the words for it."""
    per = unit_of(term.per)
    if term.pad_length is not None or term.pad_width is not None:
        return _padded(term, quantities)
    counted = Fraction(term.count) if term.count is not None else quantities.of(term.per)
    return counted, "" if counted is None else count_text(counted, per)


def _padded(term: PerUnit, quantities: Quantities) -> tuple[Fraction | None, str]:
    """Return an area whose sides are widened first."""
    per = unit_of(term.per)
    of = per.thing.removeprefix("area of ")
    unit = Per("", per.unit.removeprefix("sq "))
    area, bare, words = Fraction(1), Fraction(1), []
    for name, pad in (("length", term.pad_length), ("width", term.pad_width)):
        side = quantities.side(f"{name} of {of}", unit.unit)
        if side is None:
            return None, ""
        more = pad.in_(unit.unit) if pad is not None else Fraction(0)
        told = count_text(side, unit)
        words.append(f"({told} + {count_text(more, unit)})" if more else told)
        area *= side + more
        bare *= side
    if not bare:
        return bare, count_text(bare, per)
    return area, f"{' x '.join(words)} = {count_text(area, per)}"


def _in_units(amount: Measure | int, per: Per) -> Fraction:
    """Return a quantity in the unit money is counted by."""
    return amount.in_(per.unit) if isinstance(amount, Measure) else Fraction(amount)


def stepped(term: Stepped, quantities: Quantities) -> Charge:
    """Return a first sum, then a sum for each further step or part of one."""
    per = unit_of(term.per)
    counted = quantities.of(term.per)
    if counted is None:
        return _left_open(term)
    if counted <= 0:
        return Charge(Fraction(0), f"no {per.thing}")
    first, each = _in_units(term.first, per), _in_units(term.each, per)
    first_sum, each_sum = Fraction(term.first_sum), Fraction(term.each_sum)
    further = steps(max(counted - first, Fraction(0)) / each)
    words = f"{count_text(counted, per)}: first {count_text(first, per)} {dollars(first_sum)}"
    if further:
        name = "step" if further == 1 else "steps"
        words += f" + {further} {name} of {count_text(each, per)} or part x {dollars(each_sum)}"
    return Charge(first_sum + further * each_sum, words)


def tiered(term: Tiered, quantities: Quantities) -> Charge:
    """Return the sum of the tier reached: all at its rate, or each part at its own."""
    per = unit_of(term.per)
    counted = quantities.of(term.per)
    if counted is None:
        return _left_open(term)
    ends = [None if tier.up_to is None else _in_units(tier.up_to, per) for tier in term.tiers]
    reached = next(n for n, end in enumerate(ends) if end is None or counted <= end)
    tier, plus = term.tiers[reached], Fraction(term.tiers[reached].plus)
    upto = term.tiers[: reached + 1]
    parts = [(counted, tier.rate)] if term.whole else list(_parts(upto, ends, counted))
    told = [f"{count_text(part, per)} x {rate_text(rate)}" for part, rate in parts if rate]
    told += [dollars(plus)] if plus or not told else []
    exact = sum((part * Fraction(rate) for part, rate in parts), plus)
    return Charge(exact, " + ".join(told), plain=not any(rate for _, rate in parts))


def _parts(
    tiers: tuple[Tier, ...], ends: list[Fraction | None], counted: Fraction
) -> Iterator[tuple[Fraction, Decimal]]:
    """Yield the part of a quantity that falls in each tier, with its rate."""
    below = Fraction(0)
    for tier, end in zip(tiers, ends, strict=False):
        upper = counted if end is None else min(counted, end)
        yield upper - below, tier.rate
        below = upper
