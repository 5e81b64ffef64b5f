"""The permits a job needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.model.rules import Permit, Sheet
from permitkit.study.in_force.fits import fit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping


__all__ = ["PermitNeeded", "permits_needed"]


@dataclass(frozen=True, slots=True)
class PermitNeeded:
    """A permit whose condition is met, or might be: then `missing` names the facts that tell."""

    permit: Permit
    sheet: Sheet
    missing: tuple[str, ...] = ()

    @property
    def certain(self) -> bool:
        """Whether it is needed without question."""
        return not self.missing


def permits_needed(
    sheets: tuple[Sheet, ...], facts: Mapping[str, object]
) -> Iterator[PermitNeeded]:
    """Yield the permits of all layers that are or might be needed, the town's first."""
    for sheet in sheets:
        for permit in sheet.permits:
            fits, missing = fit(permit.when, facts)
            if fits is not False:
                yield PermitNeeded(permit, sheet, missing)
