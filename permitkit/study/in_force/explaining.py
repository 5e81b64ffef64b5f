"""Telling how a rule was picked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.rules import Stacks
from permitkit.study.in_force.explanation import Explanation, Tried, fact_text
from permitkit.study.in_force.facts import UNKNOWN
from permitkit.study.in_force.layer import tried

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force.answer import InForce
    from permitkit.study.in_force.lookup import Lookup

__all__ = ["explained"]


def explained(lookup: Lookup, result: InForce, local: Mapping[str, object]) -> Explanation:
    """Return the way to a result: what was tried, and the facts it asked for."""
    key = result.key
    facts = {**lookup.facts, **local}
    asked = dict.fromkeys(_facts_asked(lookup, key))
    return Explanation(
        key,
        key.clock.value,
        lookup.days[key.clock],
        {name: fact_text(name, facts.get(name, UNKNOWN)) for name in asked},
        tuple(_tried(lookup, result, facts)),
        result,
    )


def _facts_asked(lookup: Lookup, key: RuleKey) -> Iterator[str]:
    """Yield the facts that the editions in force ask for."""
    for edition in lookup.editions(key):
        for case in edition.cases if edition else ():
            for alternative in case.when.alternatives if case.when else ():
                yield from alternative


def _tried(lookup: Lookup, result: InForce, facts: Mapping[str, object]) -> Iterator[Tried]:
    """Yield what was looked at, in order."""
    key = result.key
    if result.answer is not None:
        yield Tried(result.source, "", "", "stands in front of the sheets for this job")
    for sheet in lookup.stack.sheets:
        rule = sheet.rules.get(key.name)
        if rule is None:
            yield Tried(sheet.title, "", "", "says nothing")
            continue
        steps = tuple(tried(sheet, rule, lookup.days[key.clock], facts))
        yield from steps
        if key.stacks is Stacks.NEAREST and any(step.spoke for step in steps):
            return
