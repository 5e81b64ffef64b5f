"""Lines of money worked out for a job, and their sum."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.model.keys.papers import FEES_BOND, FEES_DEPOSIT, FEES_LINES
from permitkit.study.fees.amounts import Charge, Quantities, cents, unknown
from permitkit.study.fees.terms import charge
from permitkit.study.in_force.explanation import question
from permitkit.study.in_force.fits import fit
from permitkit.study.results import FeeRow, FeesStudy, MoneyTotal
from permitkit.units import Measure, write_money

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.money import FeeLine
    from permitkit.study.fees.terms import Worked
    from permitkit.study.in_force import InForce, RulesInForce

__all__ = ["work_out"]

NOTHING = Fraction(0)


def work_out(rules: RulesInForce, quantities: Mapping[str, Measure | int | Decimal]) -> FeesStudy:
    """Return the fees, the deposit and the bond, each line with its arithmetic.

    Parameters
    ----------
    rules
        The rules in force, once the sizes of the work are known.
    quantities
        What is measured and counted besides the facts, by the names of `money.PER_UNITS` or their
        things: `notch`, `panel`, `area of verge`, `length of walk`, `width of walk`. One permit is
        counted unless the number is given; what is left out leaves its lines open.
    """
    known = Quantities(quantities, rules.facts)
    fees, worked = _total(rules[FEES_LINES], known, {"fees": NOTHING})
    deposit, _ = _total(rules[FEES_DEPOSIT], known, worked)
    bond, _ = _total(rules[FEES_BOND], known, worked)
    return FeesStudy(fees, deposit, bond)


def _total(rule: InForce, quantities: Quantities, before: Worked) -> tuple[MoneyTotal, Worked]:
    """Return the lines of a rule and their sum, with what each line came to."""
    if rule.no_rule:
        return MoneyTotal((), Decimal(0)), before
    if not rule.known:
        row = _set_by_others(rule)
        return MoneyTotal((row,), Decimal(0), (row.name,), known=False), before
    worked: Worked = dict(before)
    rows: list[FeeRow] = []
    for line in rule.fees.lines:
        found = _row(line, rule, quantities, worked)
        if found is not None:
            rows.append(found)
            _count(found, rule, worked)
    total = sum((row.amount for row in rows if row.amount is not None), Decimal(0))
    left = tuple(row.name for row in rows if row.amount is None)
    return MoneyTotal(tuple(rows), total, left, known=not left), worked


def _count(row: FeeRow, rule: InForce, worked: Worked) -> None:
    """Add a row to what later lines may be a share of."""
    names = (row.name, "fees") if rule.key is FEES_LINES else (row.name,)
    if row.amount is not None:
        more = Fraction(row.amount)
        worked.update({name: worked.get(name, NOTHING) + more for name in names})


def _set_by_others(rule: InForce) -> FeeRow:
    """Return the row of a sum that the sheet leaves open."""
    name = {"lines": "fees", "deposit": "deposit", "bond": "bond"}[rule.key.name.partition(".")[2]]
    note = rule.why if rule.silent else f"by {rule.ask_of}: {rule.why}"
    return FeeRow(name, "to be set", None, None, rule.source, note=note)


def _row(line: FeeLine, rule: InForce, quantities: Quantities, worked: Worked) -> FeeRow | None:
    """Return one line worked out, or nothing where its condition does not fit."""
    fits, missing = fit(line.when, quantities.facts)
    if fits is False:
        return None
    if missing:
        told = unknown(f"depends on {' and '.join(question(name) for name in missing)}")
    else:
        told = _multiplied(line, _clamped(line, charge(line.term, quantities, worked)), quantities)
    amount = None if told.low is None else cents(told.low)
    high = None if told.high is None else cents(told.high)
    notes = [line.note, told.missing, f"payable to {line.payee}" if line.payee else ""]
    if line.cap and amount is not None:
        notes.append(f"at most {write_money(amount)}; the town sets the sum")
        amount, high = None, amount
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
    )


def _clamped(line: FeeLine, told: Charge) -> Charge:
    """Return a sum held between the line's least and most."""
    if told.low is None:
        return told
    low, high, words = told.low, told.high, told.told
    if line.least is not None and low < line.least:
        low, words = Fraction(line.least), f"{words}, least {write_money(line.least)}"
        high = None if high is None else max(high, low)
    if line.most is not None and (high or low) > line.most:
        most = Fraction(line.most)
        low, words = min(low, most), f"{words}, most {write_money(line.most)}"
        high = None if high is None else most
    return told if words == told.told else Charge(low, words, high, plain=True)


def _multiplied(line: FeeLine, told: Charge, quantities: Quantities) -> Charge:
    """Return a sum multiplied where work began before the permit."""
    if line.begun_times is None or told.low is None or not quantities.facts["begun"]:
        return told
    times = Fraction(line.begun_times)
    words = f"{line.begun_times} x ({told.told}), since work began first"
    return Charge(told.low * times, words, None if told.high is None else told.high * times)
