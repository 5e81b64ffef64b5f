"""Inspections a town calls for held against those a job plans, by what they mean."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare.answers import passes_over
from permitkit.checks.compare.words import each_listed
from permitkit.checks.finding import Finding
from permitkit.model.verdict import Outcome
from permitkit.model.vocabulary.inspections import same_inspection

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.model.values import Item
    from permitkit.study.in_force import InForce

__all__ = ["planned"]

REQUIRED = "required"


def planned(rule: InForce, plans: Sequence[str]) -> Iterator[Finding]:
    """Yield, for each inspection that any layer calls for, whether the job plans it.

    One whose name means none of the known kinds is asked about where no plan has its very name.
    """
    return each_listed(rule, partial(_planned, plans))


def _planned(plans: Sequence[str], layer: InForce, item: Item) -> Finding:
    """Return whether one inspection is planned, owed later, or cannot be told from the plans."""
    if item.after is not None:
        when = f"owed {item.after.text} after the {item.clock or 'finish'}: see the calendar"
        return passes_over(when, item=item.name, rule=layer)
    same = [same_inspection(item.name, plan) for plan in plans]
    if True in same:
        return Finding(Outcome.MEETS, item.name, layer, proposed="given", limit=REQUIRED)
    if None in same:
        why = f"is it one of those planned: {'; '.join(plans)}?"
        return Finding(
            Outcome.ASK, item.name, layer, limit=REQUIRED, why=why, ask_of="the applicant"
        )
    return Finding(
        Outcome.FAILS,
        item.name,
        layer,
        proposed="missing",
        limit=REQUIRED,
        cure=f"plan it: {item.name}",
    )
