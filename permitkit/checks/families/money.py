"""Checks of fees, deposit and bond."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.checks.compare import adds_up, longest, names_line, one_of, open_sums, pays
from permitkit.checks.papers import policies, securities
from permitkit.checks.registry import check
from permitkit.model.keys import duties
from permitkit.model.keys import papers as keys

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "bond_too_low",
    "deposit_too_small",
    "fee_does_not_add_up",
    "payment_for_no_line",
    "security_wrong_kind",
    "sum_not_set",
]


@check("fee-does-not-add-up", "The fee does not add up", reads=(keys.FEES_LINES,))
def fee_does_not_add_up(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a fee stated or paid that is not the sum of the town's lines for this work.

    Why: a check for the wrong sum is sent back with the application.
    """
    yield adds_up(rules[keys.FEES_LINES], stated(job, "fee"), study.fees.fees)


@check("deposit-too-small", "The deposit is too small", reads=(keys.FEES_DEPOSIT,))
def deposit_too_small(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a deposit stated or paid that is less than the town holds for this work.

    Why: the permit is not issued until the deposit is whole.
    """
    yield pays(rules[keys.FEES_DEPOSIT], stated(job, "deposit"), study.fees.deposit)


@check("bond-too-low", "The bond is too low", reads=(keys.FEES_BOND,))
def bond_too_low(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag a bond that is less than the town asks for, or none at all.

    Why: the bond is what mends the street if the firm does not.
    """
    bond = longest(policies(job)).get("bond")
    held = bond.each if bond else stated(job, "bond") or Decimal()
    yield pays(rules[keys.FEES_BOND], held, study.fees.bond)


@check(
    "security-wrong-kind",
    "The security is of a kind that the town does not take",
    reads=(duties.DOCS_SECURITY,),
    idle="no security is given",
)
def security_wrong_kind(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a bond or a deposit given in a form that the town does not take.

    Why: the counter hands the wrong paper back, and the permit waits.
    """
    for kind in securities(job):
        yield one_of(rules[duties.DOCS_SECURITY], kind, item=kind)


@check(
    "payment-for-no-line",
    "A payment names a line that the town does not have",
    reads=(keys.FEES_LINES, keys.FEES_DEPOSIT, keys.FEES_BOND),
    idle="no payment names a line",
)
def payment_for_no_line(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a payment for a line of another name than the town's.

    Why: what is paid for nothing the town knows is counted for nothing.
    """
    asked = [rules[key] for key in (keys.FEES_LINES, keys.FEES_DEPOSIT, keys.FEES_BOND)]
    for payment in job.payment:
        if payment.line is not None:
            yield names_line(asked, payment.line, item=payment.what)


@check(
    "sum-not-set",
    "A sum is still to be set by the town",
    reads=(keys.FEES_LINES, keys.FEES_DEPOSIT, keys.FEES_BOND),
    idle="every sum is known",
)
def sum_not_set(_: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Ask for each sum that the town sets at review.

    Why: an unknown sum is asked for, never left at nothing.
    """
    yield from open_sums(rules[keys.FEES_LINES], study.fees.fees)
    yield from open_sums(rules[keys.FEES_DEPOSIT], study.fees.deposit)
    yield from open_sums(rules[keys.FEES_BOND], study.fees.bond)


def stated(job: Job, what: str) -> Decimal | None:
    """Return the sum stated or paid, if any is."""
    sums = [payment.amount for payment in job.payment if payment.what == what]
    return sum(sums, Decimal()) if sums else None
