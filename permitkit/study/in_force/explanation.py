"""How a rule was picked, step by step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from permitkit.model.facts import FACTS
from permitkit.model.rules import RuleKey
from permitkit.study.in_force.answer import InForce
from permitkit.study.in_force.facts import Gap
from permitkit.units import Measure

__all__ = ["Explanation", "Tried", "fact_text"]


@dataclass(frozen=True, slots=True)
class Tried:
    """One sheet, edition or case that was looked at, what came of it, and whether it answered."""

    sheet: str
    edition: str
    case: str
    result: str
    spoke: bool = False


@dataclass(frozen=True, slots=True)
class Explanation:
    """How the answer to a question was found.

    Parameters
    ----------
    key
        The question.
    clock
        Which of the job's dates picked the edition.
    day
        That date.
    facts
        The facts the cases asked for, in words.
    tried
        What was looked at, in order.
    result
        What holds.
    """

    key: RuleKey
    clock: str
    day: date
    facts: Mapping[str, str]
    tried: tuple[Tried, ...]
    result: InForce

    def lines(self) -> tuple[str, ...]:
        """Return the explanation as lines to print."""
        shown = [
            f"{self.key.name}: {self.key.question}",
            f"  edition by {self.clock}: {self.day.isoformat()}",
        ]
        shown += [f"  fact {name}: {text}" for name, text in self.facts.items()]
        for step in self.tried:
            where = ", ".join(part for part in (step.sheet, step.edition, step.case) if part)
            shown.append(f"  {where}: {step.result}")
        shown.append(f"  so: {self.result.text}")
        if self.result.source:
            shown.append(f"  by: {self.result.source}")
        return tuple(shown)


def fact_text(name: str, value: object) -> str:
    """Return a fact's value in words."""
    if isinstance(value, tuple):
        joint = " to " if name == "season" else " and "
        return joint.join(fact_text(name, single) for single in value)
    if isinstance(value, Gap):
        return value.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value.shown() if isinstance(value, Measure) else str(value)


def question(name: str) -> str:
    """Return what a fact tells, with its name: `the soil (soil)`."""
    return f"{FACTS[name].question} ({name})"
