"""Whether a line of money is owed for a job: by its condition, and by the permit it belongs to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.study.in_force.explanation import question
from permitkit.study.in_force.fits import fit
from permitkit.study.in_force.permits import PermitNeeded

if TYPE_CHECKING:
    from permitkit.model.money import FeeLine
    from permitkit.study.in_force import RulesInForce

__all__ = ["Owed", "owed_by"]


@dataclass(frozen=True, slots=True)
class Owed:
    """What tells whether lines of money are owed: the facts, and each permit that sheets list.

    A permit that is not needed stands with nothing.
    """

    facts: Mapping[str, object]
    permits: Mapping[str, PermitNeeded | None]

    def doubt(self, line: FeeLine) -> str | None:
        """Return what a line's being owed depends on, empty where it is; nothing where it is not.

        A line of a permit that is not needed, or from which the work is exempt, is not owed.
        """
        fits, missing = fit(line.when, self.facts)
        if fits is False:
            return None
        told = [question(name) for name in missing]
        if line.permit in self.permits:
            needed = self.permits[line.permit]
            if needed is None or needed.exempt is not None:
                return None
            if needed.missing or needed.doubt:
                told.append(f"whether the {needed.permit.title} is needed")
        return " and ".join(told)


def owed_by(rules: RulesInForce) -> Owed:
    """Return what tells, by the rules in force, whether lines of money are owed."""
    permits: dict[str, PermitNeeded | None] = {
        permit.id: None for sheet in rules.sheets for permit in sheet.permits
    }
    permits.update((needed.permit.id, needed) for needed in rules.permits())
    return Owed(rules.facts, permits)
