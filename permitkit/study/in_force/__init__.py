"""Which rule holds for this job: facts, editions, cases, layers and answers."""

from __future__ import annotations

from permitkit.study.in_force.answer import InForce, NotKnownError
from permitkit.study.in_force.explanation import Explanation, Tried
from permitkit.study.in_force.facts import NONE_NEAR, UNKNOWN, facts_of
from permitkit.study.in_force.permits import Elsewhere, PermitNeeded
from permitkit.study.in_force.rules import RulesInForce, rules_in_force

__all__ = [
    "NONE_NEAR",
    "UNKNOWN",
    "Elsewhere",
    "Explanation",
    "InForce",
    "NotKnownError",
    "PermitNeeded",
    "RulesInForce",
    "Tried",
    "facts_of",
    "rules_in_force",
]
