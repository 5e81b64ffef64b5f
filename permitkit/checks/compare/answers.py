"""The honest answers: what is said where a sheet sets nothing, and what needs no sheet at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.checks.finding import Finding
from permitkit.model.verdict import Outcome

if TYPE_CHECKING:
    from permitkit.checks.scale import Lazy
    from permitkit.study.in_force import InForce

__all__ = ["asked", "holds", "honest", "judged", "passes_over"]

NO_RULE = "the town was asked and has no rule"
SILENT = "the sheet is silent; good practice only"


def honest(rule: InForce, *, item: str, proposed: Lazy = "") -> Finding:
    """Return what is said where the rule in force is no rule one can be held to.

    An open question is asked, of whoever can answer it; a town without a rule, or silent on what
    many towns never write down, leaves nothing to judge.
    """
    if rule.no_rule:
        return passes_over(NO_RULE, item=item, rule=rule)
    if rule.silent and rule.key.plain:
        return passes_over(SILENT, item=item, rule=rule)
    return Finding(
        Outcome.ASK,
        item,
        rule,
        proposed=proposed,
        why=f"{rule.key.question} {rule.why}",
        ask_of=rule.ask_of,
        blocking=rule.key.blocking,
    )


def passes_over(why: str, *, item: str = "", rule: InForce | None = None) -> Finding:
    """Return that there is nothing to judge, and why."""
    return Finding(Outcome.PASSES_OVER, item, rule, why=why)


def asked(why: str, *, item: str, of: str, blocking: bool = False, proposed: Lazy = "") -> Finding:
    """Return a question that the job leaves open, and who can answer it."""
    return Finding(Outcome.ASK, item, proposed=proposed, why=why, ask_of=of, blocking=blocking)


def holds(
    *,
    ok: bool,
    proposed: Lazy,
    limit: Lazy,
    item: str = "",
    cure: Lazy = "",
    advice: bool = False,
    source: str = "",
) -> Finding:
    """Return whether a plain fact is as it should be, where no rule's value is needed to say so."""
    return Finding(
        judged(ok=ok, advice=advice), item, proposed=proposed, limit=limit, cure=cure, source=source
    )


def judged(*, ok: bool, advice: bool = False) -> Outcome:
    """Return the outcome of a comparison; what is only good practice never fails."""
    if ok:
        return Outcome.MEETS
    return Outcome.ADVICE if advice else Outcome.FAILS
