"""Lines of money worked out for a job, and their sum."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import inf
from typing import TYPE_CHECKING

from permitkit.model.keys.papers import FEES_BOND, FEES_DEPOSIT, FEES_LINES
from permitkit.model.telling.money import bounds_text
from permitkit.study.fees.amounts import Charge, Quantities, between, cents, unknown
from permitkit.study.fees.choice import choice_of
from permitkit.study.fees.owed import owed_by
from permitkit.study.fees.terms import charge
from permitkit.study.results import FeeRow, FeesStudy, MoneyTotal
from permitkit.units import Measure, write_money

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from permitkit.model.money import FeeLine
    from permitkit.study.fees.choice import Choice
    from permitkit.study.fees.terms import Worked
    from permitkit.study.in_force import InForce, RulesInForce

__all__ = ["work_out"]

NOTHING = Fraction(0)


def work_out(
    rules: RulesInForce,
    quantities: Mapping[str, Measure | int | Decimal],
    paid: Collection[str] = (),
) -> FeesStudy:
    """Return the fees, the deposit and the bond, each line with its arithmetic.

    Parameters
    ----------
    rules
        The rules in force, once the sizes of the work are known.
    quantities
        What is measured and counted besides the facts, by the names of `money.PER_UNITS` or their
        things: `notch`, `panel`, `area of verge`, `length of walk`, `width of walk`. One permit is
        counted unless the number is given; what is left out leaves its lines open.
    paid
        The names of the lines that were paid: of several from which one is chosen, those count.
    """
    known = Quantities(quantities, rules.facts)
    asked = [rules[key] for key in (FEES_LINES, FEES_DEPOSIT, FEES_BOND)]
    choice = choice_of(asked, owed_by(rules), paid)
    fees, worked = _total(asked[0], known, {"fees": (NOTHING, NOTHING)}, choice)
    deposit, _ = _total(asked[1], known, worked, choice)
    bond, _ = _total(asked[2], known, worked, choice)
    return FeesStudy(fees, deposit, bond)


def _total(
    rule: InForce, quantities: Quantities, before: Worked, choice: Choice
) -> tuple[MoneyTotal, Worked]:
    """Return the lines of a rule and their sum, with what each line came to."""
    if rule.no_rule:
        return MoneyTotal((), Decimal(0)), before
    if not rule.known:
        row = _set_by_others(rule)
        return MoneyTotal((row,), Decimal(0), (row.name,), known=False), before
    worked: Worked = dict(before)
    rows: list[FeeRow] = []
    for line in rule.fees.lines:
        doubt = choice.owed.doubt(line)
        if doubt is None or choice.passed_over(line):
            continue
        found = _chosen(line, rule, choice) or _row(
            line, rule, _worked_out(line, doubt, quantities, worked)
        )
        rows.append(_with_others(found, choice.offered(line)))
        _count(found, rule, worked)
    if not rows and rule.key is FEES_LINES:
        rows.append(_none_fits(rule))
    return _together(tuple(rows)), worked


def _together(rows: tuple[FeeRow, ...]) -> MoneyTotal:
    """Return rows with both ends of their sum, and those of which the town must set the sum."""
    total = sum((row.amount for row in rows if row.amount is not None), Decimal(0))
    tops = [row.amount_to if row.amount_to is not None else row.amount for row in rows]
    bounded = not any(top is None or row.or_more for row, top in zip(rows, tops, strict=True))
    most = sum((top for top in tops if top is not None), Decimal(0)) if bounded else None
    left = tuple(row.name for row in rows if not row.settled)
    return MoneyTotal(rows, total, left, known=not left, most=most)


def _count(row: FeeRow, rule: InForce, worked: Worked) -> None:
    """Add a row to what later lines may be a share of."""
    names = (row.name, "fees") if rule.key is FEES_LINES else (row.name,)
    if row.amount is None:
        return
    top = row.amount if row.amount_to is None else row.amount_to
    upper: Fraction | float = inf if row.or_more else Fraction(top)
    for name in names:
        low, high = worked.get(name, (NOTHING, NOTHING))
        worked[name] = (low + Fraction(row.amount), high + upper)


def _none_fits(rule: InForce) -> FeeRow:
    """Return the row of a fee sheet that has lines, none of them for this work."""
    note = "no line of the sheet is for this work: is it free of charge?"
    return FeeRow("fees", "to be set", None, None, rule.source, note=note)


def _set_by_others(rule: InForce) -> FeeRow:
    """Return the row of a sum that the sheet leaves open."""
    name = {"lines": "fees", "deposit": "deposit", "bond": "bond"}[rule.key.name.partition(".")[2]]
    note = rule.why if rule.silent else f"by {rule.ask_of}: {rule.why}"
    return FeeRow(name, "to be set", None, None, rule.source, note=note)


def _chosen(line: FeeLine, rule: InForce, choice: Choice) -> FeeRow | None:
    """Return the row of a line in place of which another was paid."""
    other = choice.instead_of(line)
    if not other:
        return None
    told = f"{other} in its place"
    return FeeRow(line.name, told, Decimal(0), None, line.cite_text or rule.source)


def _with_others(row: FeeRow, offered: tuple[str, ...]) -> FeeRow:
    """Return a row with what may be paid in its place."""
    return replace(row, note="; ".join(filter(None, (row.note, *offered)))) if offered else row


def _worked_out(line: FeeLine, doubt: str, quantities: Quantities, worked: Worked) -> Charge:
    """Return what a line comes to, where nothing is left that it depends on."""
    if doubt:
        return unknown(f"depends on {doubt}")
    return _multiplied(line, _clamped(line, charge(line.term, quantities, worked)), quantities)


def _row(line: FeeLine, rule: InForce, told: Charge) -> FeeRow:
    """Return one line with what it comes to, and what has to be known besides."""
    amount = None if told.low is None else cents(told.low)
    high = None if told.high is None else cents(told.high)
    notes = [line.note, f"payable to {line.payee}" if line.payee else ""]
    if line.cap and amount is not None:
        notes.append(f"at most {write_money(amount)}; the town sets the sum")
        amount, high = None, amount
    notes += ["at the least; the town may set more"] if line.floor else []
    notes += ["worked out again from what is really cut"] if line.true_up else []
    notes += [f"returned {line.returned_when}"] if line.returned_when else []
    return FeeRow(
        line.name,
        told.told,
        amount,
        high,
        line.cite_text or rule.source,
        permit=line.permit,
        refundable=line.refundable,
        kept=line.kept,
        note="; ".join(note for note in notes if note),
        or_more=(told.above or line.floor) and not line.cap,
    )


def _clamped(line: FeeLine, told: Charge) -> Charge:
    """Return a sum held between the line's least and most; one not known lies between them."""
    if told.low is None:
        return _bounded(line, told)
    low, upper, words = told.low, told.upper, told.told
    if line.least is not None and low < line.least:
        low, words = Fraction(line.least), f"{words}, least {write_money(line.least)}"
        upper = max(upper, low)
    if line.most is not None and upper > line.most:
        most = Fraction(line.most)
        low, upper, words = min(low, most), most, f"{words}, most {write_money(line.most)}"
    if words == told.told:
        return told
    return between(low, upper, words, plain=True, ranged=told.ranged)


def _bounded(line: FeeLine, told: Charge) -> Charge:
    """Return a sum of which no more is known than the least and the most it may be."""
    if line.least is None and line.most is None:
        return told
    low = Fraction(line.least or 0)
    upper = inf if line.most is None else Fraction(line.most)
    words = f"{told.words}; {bounds_text(line.least, line.most)}"
    return replace(between(low, upper, words, plain=True), missing=told.missing)


def _multiplied(line: FeeLine, told: Charge, quantities: Quantities) -> Charge:
    """Return a sum multiplied where work began before the permit."""
    if line.begun_times is None or told.low is None or not quantities.facts["begun"]:
        return told
    times = Fraction(line.begun_times)
    words = f"{line.begun_times} x ({told.told}), since work began first"
    upper = inf if told.above else told.upper * times
    return between(told.low * times, upper, words, ranged=told.ranged)
