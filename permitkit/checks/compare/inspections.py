"""Inspections a town calls for held against those a job plans, by what they mean."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare.answers import passes_over
from permitkit.checks.compare.words import each_listed, on_list
from permitkit.model.vocabulary.inspections import same_inspection

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.checks.finding import Finding
    from permitkit.model.values import Item
    from permitkit.study.in_force import InForce

__all__ = ["planned"]


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
    there = True in same or (None if None in same else False)
    unsure = f"is it one of those planned: {'; '.join(plans)}?"
    return on_list(layer, item, there=there, cure=f"plan it: {item.name}", unsure=unsure)
