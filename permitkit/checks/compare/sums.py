"""Money and insurance held against what a sheet asks for."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare.answers import honest, judged, passes_over
from permitkit.checks.finding import Finding
from permitkit.model.telling.values import cover_limits
from permitkit.model.values import Cover, Insurance
from permitkit.model.verdict import Outcome
from permitkit.model.vocabulary.papers import STANDS_FOR
from permitkit.model.words import PolicyKind, choices
from permitkit.study.days import dated
from permitkit.units import write_money

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence
    from decimal import Decimal

    from permitkit.model.papers import Policy
    from permitkit.study.in_force import InForce
    from permitkit.study.results import MoneyTotal

__all__ = ["adds_up", "covered", "held_for", "longest", "names_line", "open_sums", "pays"]


def adds_up(rule: InForce, stated: Decimal | None, due: MoneyTotal) -> Finding:
    """Return whether a sum stated is the sum that is due, to the cent."""
    return _paid(rule, stated, due, exact=True)


def pays(rule: InForce, stated: Decimal | None, due: MoneyTotal) -> Finding:
    """Return whether a sum stated is at least the sum that is due."""
    return _paid(rule, stated, due, exact=False)


def names_line(rules: Sequence[InForce], name: str, *, item: str) -> Finding:
    """Return whether a line of money that a job names is one that the rules have."""
    known = [rule for rule in rules if rule.known]
    if not known:
        return honest(rules[0], item=item, proposed=name)
    held = {line.name: rule for rule in known for line in rule.fees.lines}
    limit = ", ".join(held)
    cure = f"name the line as the town does: {limit}"
    rule = held.get(name, known[0])
    return Finding(judged(ok=name in held), item, rule, proposed=name, limit=limit, cure=cure)


def open_sums(rule: InForce, due: MoneyTotal) -> Iterator[Finding]:
    """Yield a question for each line of money that the town has still to set."""
    for row in due.rows:
        if not row.settled:
            told = row.shown or row.arithmetic.removeprefix("to be set").removeprefix(": ")
            why = f"please set: {row.name}" + (f" ({told})" if told else "")
            yield Finding(Outcome.ASK, row.name, rule, why=why, ask_of=rule.ask_of)


def covered(rule: InForce, policies: Iterable[Policy]) -> Iterator[Finding]:
    """Yield, for each insurance a rule asks for, whether a policy reaches its limits."""
    value = rule.value
    if not isinstance(value, Insurance):
        yield honest(rule, item="")
        return
    held = longest(policies)
    for cover in value.covers:
        policy = held_for(cover.kind, held)
        if policy is None and cover.kind not in choices(PolicyKind):
            yield _which_policy(rule, cover)
            continue
        yield Finding(
            judged(ok=policy is not None and (cover.by_law or _reaches(policy, cover))),
            cover.kind,
            rule,
            proposed=partial(_held, policy),
            limit=partial(_asked, cover),
            cure=partial(_carry, cover),
        )


def _which_policy(rule: InForce, cover: Cover) -> Finding:
    """Return the question which policy holds a cover that a town has its own name for."""
    return Finding(
        Outcome.ASK,
        cover.kind,
        rule,
        limit=partial(_asked, cover),
        why=f"which policy holds {cover.kind}, and to these limits?",
        ask_of=rule.ask_of,
    )


def held_for(kind: str, held: Mapping[str, Policy]) -> Policy | None:
    """Return the policy that holds a cover: of its own kind, else of one that pays for it too."""
    return held.get(kind) or held.get(STANDS_FOR.get(kind, ""))


def longest(policies: Iterable[Policy]) -> dict[str, Policy]:
    """Return of each kind of policy the one that runs longest."""
    held: dict[str, Policy] = {}
    for policy in sorted(policies, key=lambda policy: policy.until):
        held[policy.kind] = policy
    return held


def _paid(rule: InForce, stated: Decimal | None, due: MoneyTotal, *, exact: bool) -> Finding:
    if not rule.known:
        return honest(rule, item="")
    if stated is None:
        return passes_over("no sum is stated", rule=rule)
    if not due.rows:
        return passes_over("no line of the sheet is for this job", rule=rule)
    if not due.known and not due.total and (due.most is None or not exact):
        return passes_over("the town has still to set the sum", rule=rule)
    top = due.total if due.known else due.most
    right = stated >= due.total and (not exact or top is None or stated <= top)
    return Finding(
        judged(ok=right),
        "",
        rule,
        proposed=partial(write_money, stated),
        limit=partial(_due, due, exact=exact),
        cure=partial(_arithmetic, due),
    )


def _arithmetic(due: MoneyTotal) -> str:
    """Return the lines of a sum with how each was reached, and the sum."""
    lines = [f"{row.name} {row.shown} ({row.arithmetic})" for row in due.rows if row.amount]
    return f"pay {due.shown}: {'; '.join(lines)}"


def _due(due: MoneyTotal, *, exact: bool) -> str:
    return due.shown if exact else f"at least {write_money(due.total)}"


def _reaches(policy: Policy, cover: Cover) -> bool:
    """Tell whether a policy reaches every sum of a cover; a project's own will do for all."""
    whole = policy.each if policy.aggregate is None else policy.aggregate
    in_all = [(whole, cover.aggregate), (policy.project or whole, cover.project)]
    asked = [held >= least for held, least in in_all if least is not None]
    single = max(cover.each or 0, cover.person or 0)
    return policy.each >= single and (not asked or any(asked))


def _carry(cover: Cover) -> str:
    return f"carry {cover.kind}, {_asked(cover)}"


def _asked(cover: Cover) -> str:
    if cover.by_law:
        return "as the law sets it"
    return f"at least {cover_limits(cover)}"


def _held(policy: Policy | None) -> str:
    if policy is None:
        return "none held"
    limits = cover_limits(Cover(policy.kind, policy.each, policy.aggregate, project=policy.project))
    return f"{limits}, to {dated(policy.until)}"
