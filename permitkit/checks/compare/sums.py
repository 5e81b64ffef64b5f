"""Money and insurance held against what a sheet asks for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.checks.compare.answers import honest, judged, passes_over
from permitkit.checks.finding import Finding
from permitkit.model.values import Insurance
from permitkit.model.verdict import Outcome
from permitkit.units import write_money

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from decimal import Decimal

    from permitkit.model.papers import Policy
    from permitkit.model.values import Cover
    from permitkit.study.in_force import InForce
    from permitkit.study.results import MoneyTotal

__all__ = ["adds_up", "covered", "open_sums", "pays"]


def adds_up(rule: InForce, stated: Decimal | None, due: MoneyTotal) -> Finding:
    """Return whether a sum stated is the sum that is due, to the cent."""
    return _paid(rule, stated, due, exact=True)


def pays(rule: InForce, stated: Decimal | None, due: MoneyTotal) -> Finding:
    """Return whether a sum stated is at least the sum that is due."""
    return _paid(rule, stated, due, exact=False)


def open_sums(rule: InForce, due: MoneyTotal) -> Iterator[Finding]:
    """Yield a question for each line of money that the town has still to set."""
    for name in due.open:
        why = f"please set: {name}"
        yield Finding(Outcome.ASK, name, rule, why=why, ask_of=rule.ask_of)


def covered(rule: InForce, policies: Iterable[Policy]) -> Iterator[Finding]:
    """Yield, for each insurance a rule asks for, whether a policy reaches its limits."""
    value = rule.value
    if not isinstance(value, Insurance):
        yield honest(rule, item="")
        return
    held = {policy.kind: policy for policy in policies}
    for cover in value.covers:
        policy = held.get(cover.kind)  # type: ignore[call-overload]  # a sheet may name any kind
        enough = policy is not None and _reaches(policy, cover)
        yield Finding(
            judged(enough),
            cover.kind,
            rule,
            proposed=_limits(policy.each, policy.aggregate) if policy else "none held",
            limit=f"at least {_limits(cover.each, cover.aggregate)}",
            cure=f"raise {cover.kind} to {_limits(cover.each, cover.aggregate)}",
        )


def _paid(rule: InForce, stated: Decimal | None, due: MoneyTotal, *, exact: bool) -> Finding:
    if not rule.known:
        return honest(rule, item="")
    if stated is None:
        return passes_over("no sum is stated", rule=rule)
    right = stated == due.total if exact else stated >= due.total
    return Finding(
        judged(right),
        "",
        rule,
        proposed=write_money(stated),
        limit=f"{'' if exact else 'at least '}{write_money(due.total)}",
        cure=f"{_arithmetic(due)} = {write_money(due.total)}",
    )


def _arithmetic(due: MoneyTotal) -> str:
    """Return the lines of a sum, one after the other."""
    return " + ".join(f"{row.name} {write_money(row.amount)}" for row in due.rows if row.amount)


def _reaches(policy: Policy, cover: Cover) -> bool:
    whole = policy.each if policy.aggregate is None else policy.aggregate
    return policy.each >= cover.each and (cover.aggregate is None or whole >= cover.aggregate)


def _limits(each: Decimal, aggregate: Decimal | None) -> str:
    text = f"{write_money(each)} each"
    return f"{text}, {write_money(aggregate)} in all" if aggregate is not None else text
