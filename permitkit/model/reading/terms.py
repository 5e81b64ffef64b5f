"""Terms of money: a sum, a rate, steps, tiers, a share, the greater of several, a table."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, Fact, FactKind
from permitkit.model.money import (
    PER_UNITS,
    Flat,
    Greater,
    Lesser,
    Per,
    PerUnit,
    Share,
    Stepped,
    Sum,
    Table,
    Term,
    Tier,
    Tiered,
    Unknown,
    spelt,
    unit_of,
)
from permitkit.model.reading.conditions import read_band
from permitkit.model.reading.spelling import listed, misspelt
from permitkit.model.vocabulary.conditions import meant
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.model.reading.written import Written
    from permitkit.model.rules import Threshold
    from permitkit.units import Measure

__all__ = ["TERM_WORDS", "read_term"]

_MAIN = (
    "sum",
    "rate",
    "first_sum",
    "tiers",
    "percent",
    "greater_of",
    "lesser_of",
    "sum_of",
    "by",
    "ask",
    "by_reference",
)
_BESIDE = (
    "to",
    "per",
    "free",
    "whole_units",
    "pad_length",
    "pad_width",
    "count",
    "least_units",
    "first",
    "each",
    "each_sum",
    "whole",
    "of",
    "rows",
    "otherwise",
    "once",
)
TERM_WORDS = (*_MAIN, *_BESIDE)
_RATE = re.compile(r"\$? ?([0-9]{1,9})(\.[0-9]{1,6})?")


def read_term(row: Written) -> Term | None:
    """Return the one term a table states, or nothing where it states none right."""
    stated = [name for name in _MAIN if row.has(name)]
    if len(stated) == 1:
        return _READERS[stated[0]](row)
    for name in TERM_WORDS:
        row.take(name)
    found = " and ".join(stated) or "no sum"
    row.fault("", found, f"one of {listed(_MAIN)}", "join several by sum_of or greater_of")
    return None


def _read_flat(row: Written) -> Flat | None:
    """Return a sum, or a range where the sheet only knows a range."""
    amount, upper = row.money("sum"), row.money("to")
    if amount is None:
        return None
    if upper is not None and upper < amount:
        row.fault("to", str(upper), f"more than the lower end, {amount}")
    return Flat(amount, upper)


def _rate(row: Written, name: str) -> Decimal | None:
    """Return a rate, which may be finer than a cent."""
    value = row.take(name)
    match = _RATE.fullmatch(str(value).strip().replace(",", ""))
    if isinstance(value, bool) or match is None:
        if value is not None:
            row.fault(name, repr(str(value)), 'a sum for each unit, such as "1.75"')
        return None
    return Decimal(match[1] + (match[2] or ""))


def _upper(row: Written, rate: Decimal | None) -> Decimal | None:
    """Return the high end of a rate between two."""
    upper = _rate(row, "to")
    if upper is not None and rate is not None and upper < rate:
        row.fault("to", str(upper), f"more than the lower end, {rate}")
    return upper


def _unknown(row: Written, name: str) -> Unknown:
    """Return a sum, or a rate, that somebody else sets."""
    by = row.text(name, needed=True)
    per = _named(row) if row.has("per") and _per(row) else ""
    return Unknown(by, per=per) if name == "ask" else Unknown("", by, per)


def _per(row: Written) -> Per | None:
    """Return the unit money is counted by."""
    name = _named(row)
    if name in PER_UNITS:
        return unit_of(name)
    if name[:1].isdigit():
        expected = "one thing, such as ft of trench"
        row.fault("per", repr(name), expected, 'first = "500 ft", each = "100 ft" for several')
        return None
    near = [unit for unit in PER_UNITS if name in unit.split(" of ", 1)]
    slip = misspelt(name, PER_UNITS)
    if near or slip:
        fix = slip or f"say of what: {listed(near)}"
        row.fault(
            "per", repr(name), f"one of {', '.join(PER_UNITS)}, or a thing of another name", fix
        )
        return None
    return unit_of(name) if name else None


def _named(row: Written) -> str:
    """Return the name of a unit as it is written here."""
    return spelt(row.text("per", needed=True))


def _amount(row: Written, name: str, per: Per | None) -> Measure | int | None:
    """Return a quantity of what is measured, or a whole number of what is counted."""
    if per is None:
        row.take(name)
        return None
    return row.count(name) if per.kind is None else row.measure(name, per.kind)


def _read_per_unit(row: Written) -> PerUnit | None:
    """Return a rate for each unit."""
    per, rate = _per(row), _rate(row, "rate")
    sides = {name: row.measure(name, Kind.LENGTH) for name in ("pad_length", "pad_width")}
    if any(sides.values()) and per is not None and per.kind is not Kind.AREA:
        row.fault("pad_length", "padded sides", "an area to pad: per = sq ft or sq yd of …")
    term = PerUnit(
        rate if rate is not None else Decimal(0),
        _named(row),
        free=_amount(row, "free", per),
        whole_units=row.flag("whole_units"),
        count=row.count("count"),
        least_units=_amount(row, "least_units", per),
        to=_upper(row, rate),
        **sides,
    )
    return term if per is not None and rate is not None else None


def _read_stepped(row: Written) -> Stepped | None:
    """Return a sum for the first part and one for each further step or part of one."""
    per = _per(row)
    first, each = _amount(row, "first", per), _amount(row, "each", per)
    first_sum, each_sum = row.money("first_sum"), row.money("each_sum")
    missing = [name for name in ("first", "each", "each_sum") if not row.has(name)]
    if missing:
        row.fault("", f"no {' and no '.join(missing)}", "first, first_sum, each and each_sum")
    if each is not None and not _positive(each):
        row.fault("each", "a step of nothing", "a step of some size")
        return None
    if first is None or each is None or first_sum is None or each_sum is None:
        return None
    return Stepped(_named(row), first, first_sum, each, each_sum)


def _positive(amount: Measure | int) -> bool:
    return (amount if isinstance(amount, int) else amount.si) > 0


def _read_tiered(row: Written) -> Tiered | None:
    """Return tiers, each up to a quantity and the last without an end."""
    per = _per(row)
    tiers = [_read_tier(tier, per) for tier in row.tables("tiers")]
    _check_tiers(row, [tier for tier in tiers if tier])
    term = Tiered(_named(row), tuple(t for t in tiers if t), row.flag("whole", default=True))
    return term if per is not None and tiers else None


def _read_tier(tier: Written, per: Per | None) -> Tier | None:
    """Return one tier: its end, its rate for each unit, its fixed sum."""
    up_to = _amount(tier, "up_to", per)
    rate, plus = _rate(tier, "rate"), tier.money("plus")
    if rate is None and plus is None:
        tier.fault("", "neither rate nor plus", "a rate for each unit, a fixed sum (plus), or both")
    tier.close()
    return Tier(up_to, rate or Decimal(0), plus or Decimal(0))


def _check_tiers(row: Written, tiers: list[Tier]) -> None:
    """Note tiers that are out of order, or that end."""
    ends = [tier.up_to for tier in tiers]
    if not tiers or ends[-1] is not None or None in ends[:-1]:
        row.fault("tiers", f"{len(tiers)} tiers", "tiers with up_to, and a last one without")
    elif any(a >= b for a, b in pairwise(ends[:-1])):  # type: ignore[operator]
        row.fault("tiers", "ends out of order", "each up_to above the one before")


def _read_share(row: Written) -> Share | None:
    """Return a share in percent."""
    percent, of = row.number("percent"), row.text("of", needed=True)
    of = "cost" if of.casefold() in _COSTS else of
    per = _named(row) if row.has("per") and _per(row) else ""
    return None if percent is None else Share(percent, of, per)


_COSTS = (
    "cost of the work",
    "cost of work",
    "cost of construction",
    "construction cost",
    "estimated cost",
    "estimate",
    "engineer's estimate",
    "project cost",
)


def _read_terms(row: Written, name: str) -> tuple[Term, ...]:
    """Return the terms of a greater of, a lesser of, a sum."""
    read = []
    for part in row.tables(name):
        term = read_term(part)
        part.close(elsewhere=TERM_WORDS)
        read += [term] if term is not None else []
    if not read:
        row.fault(name, "no terms", "two terms or more, such as [{ sum = 500 }, { … }]")
    return tuple(read)


def _read_table(row: Written) -> Table | None:
    """Return a term looked up by a fact."""
    by = row.word("by", FACTS)
    rows, otherwise = row.table_of("rows"), row.table_of("otherwise")
    other = _closed_term(otherwise) if otherwise else None
    once = _read_once(row, by)
    if not by or rows is None:
        if by:
            row.fault("rows", "nothing", "rows = { word = { sum = … }, … }")
        return None
    fact = FACTS[by]
    terms = {name: _closed_term(part) for name in rows.table if (part := rows.table_of(name))}
    if fact.kind in {FactKind.WORD, FactKind.NAME, FactKind.YES_NO}:
        words = fact.words or (("yes", "no") if fact.kind is FactKind.YES_NO else tuple(terms))
        meaning = {one: name for name in terms for one in meant(by, (name,))}
        known = rows.known(meaning, "", words)
        kept = {one: term for one in known if (term := terms[meaning[one]])}
        return Table(by, kept, other, once=once)
    return Table(by, {}, other, _bands(rows, terms, fact))


_SEVERAL = ("surface", "water")
"""The facts that may be several things on one job."""


def _read_once(row: Written, by: str) -> bool:
    """Return whether the dearest of several rows counts alone."""
    once = bool(row.word("once", ("greatest",)))
    if once and by not in _SEVERAL:
        row.fault("once", f"a table by {by or 'nothing'}", f"a table by {listed(_SEVERAL)}")
    return once


def _bands(
    rows: Written, terms: dict[str, Term | None], fact: Fact
) -> tuple[tuple[Threshold, Term], ...]:
    """Return rows whose names are ends, such as `up to 40` or `over 40`."""
    read = [(read_band(rows, name, fact), term) for name, term in terms.items()]
    return tuple((ends, term) for ends, term in read if ends is not None and term is not None)


def _closed_term(part: Written) -> Term | None:
    term = read_term(part)
    part.close(elsewhere=TERM_WORDS)
    return term


_READERS: dict[str, Callable[[Written], Term | None]] = {
    "sum": _read_flat,
    "rate": _read_per_unit,
    "first_sum": _read_stepped,
    "tiers": _read_tiered,
    "percent": _read_share,
    "greater_of": lambda row: Greater(_read_terms(row, "greater_of")),
    "lesser_of": lambda row: Lesser(_read_terms(row, "lesser_of")),
    "sum_of": lambda row: Sum(_read_terms(row, "sum_of")),
    "by": _read_table,
    "ask": lambda row: _unknown(row, "ask"),
    "by_reference": lambda row: _unknown(row, "by_reference"),
}
