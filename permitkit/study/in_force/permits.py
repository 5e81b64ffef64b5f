"""Whose street it is, and the permits a job needs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from permitkit.model.rules import OtherStreet, Permit, Sheet
from permitkit.study.in_force.answer import InForce
from permitkit.study.in_force.facts import UNKNOWN
from permitkit.study.in_force.fits import fit, same_name, same_street

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

    from permitkit.model.job import Job
    from permitkit.model.site import Street

__all__ = [
    "Elsewhere",
    "PermitNeeded",
    "elsewhere",
    "exempted",
    "for_the_record",
    "permits_needed",
    "street_facts",
]

_ENDS = 2


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A sheet that does not hold on the job's street, or perhaps not if the part is not known."""

    sheet: Sheet
    street: OtherStreet
    certain: bool


@dataclass(frozen=True, slots=True)
class PermitNeeded:
    """A permit whose condition is met, or might be: then `missing` names the facts that tell.

    `exempt` is the rule by which this work needs none after all, and `doubt` why it is not known
    whether one does.
    """

    permit: Permit
    sheet: Sheet
    missing: tuple[str, ...] = ()
    exempt: InForce | None = None
    doubt: str = ""

    @property
    def certain(self) -> bool:
        """Whether it is needed without question."""
        return not self.missing and self.exempt is None

    @property
    def standing(self) -> str:
        """Why it is sent although it is not needed; empty where it is, or might be."""
        return for_the_record(self.exempt) if self.exempt is not None else ""


def for_the_record(exempt: InForce) -> str:
    """Return in words that a rule lets this work go without a permit."""
    return f"no permit is needed for this work by {exempt.source}; sent for the record"


def street_facts(
    sheets: tuple[Sheet, ...], job: Job, told: Mapping[str, object]
) -> dict[str, object]:
    """Return what the sheets' own lists of streets say of the job's street.

    Parameters
    ----------
    sheets
        The sheets, nearest first.
    job
        The job.
    told
        Facts the town was asked for, which stand in front.
    """
    found: dict[str, object] = {}
    street = job.street
    lying = [
        (entry, lies)
        for sheet in sheets
        for entry in sheet.listed_streets
        if (lies := _lies(entry, street, told)) is not False
    ]
    theirs = [entry.authority for entry, lies in lying if lies]
    if lying and street.authority == "town":
        found["authority"] = theirs[0] if theirs else UNKNOWN
    for sheet in sheets:
        for name, day in sheet.paved.items():
            if street.last_paved is None and same_street(name, street.name):
                found.setdefault("street_paved", day)
    return found


def elsewhere(
    sheets: tuple[Sheet, ...], job: Job, told: Mapping[str, object]
) -> tuple[Elsewhere, ...]:
    """Return the sheets that do not hold on the job's street, or perhaps not."""
    found = []
    for sheet in sheets:
        entries = [entry for entry in sheet.listed_streets if not entry.holds]
        lying = [(entry, _lies(entry, job.street, told)) for entry in entries]
        there = [(entry, lies) for entry, lies in lying if lies is not False]
        best = next((entry for entry, lies in there if lies), None)
        if best is not None:
            found.append(Elsewhere(sheet, best, certain=True))
        elif there:
            found.append(Elsewhere(sheet, there[0][0], certain=False))
    return tuple(found)


def _lies(entry: OtherStreet, street: Street, told: Mapping[str, object]) -> bool | None:
    """Return whether a job's place lies on a listed street, or perhaps on a part of it."""
    if not same_street(entry.name, street.name):
        return False
    whose = told.get("authority", street.authority if street.authority != "town" else None)
    if whose is not None:
        return same_name(str(whose), entry.authority)
    if entry.between:
        return _within(entry.between, street.between)
    return None if entry.part else True


def _within(part: tuple[str, ...], block: tuple[str, ...]) -> bool | None:
    """Return whether a block lies in a part of a street, each told by its cross streets.

    A part of which only the two ends are told might hold blocks between other cross streets.
    """
    if not block:
        return None
    if all(any(same_street(name, other) for other in part) for name in block):
        return True
    return False if len(part) > _ENDS else None


def permits_needed(
    sheets: tuple[Sheet, ...], facts: Mapping[str, object], out: Collection[Sheet] = ()
) -> Iterator[PermitNeeded]:
    """Yield the permits of all layers that are or might be needed, the town's first.

    Of a sheet that does not hold on the street (`out`) only those count that ask whose it is.
    """
    for sheet in sheets:
        for permit in sheet.permits:
            if sheet in out and not _asks_whose(permit):
                continue
            fits, missing = fit(permit.when, facts)
            if fits is not False:
                yield PermitNeeded(permit, sheet, missing)


def exempted(
    needed: PermitNeeded, waters: Iterable[object], say: Callable[..., InForce]
) -> PermitNeeded:
    """Return a permit with the rule by which this work needs none, if there is one.

    The word of a sheet counts for its own permits alone. A permit with a condition of its own is
    needed where that fits, unless the exemption names it (`when = { permit = "…" }`). Water of
    several kinds is exempt only if each is.

    Parameters
    ----------
    needed
        The permit.
    waters
        The kinds of water that enter the line.
    say
        What holds for the local facts of an item, of the key `docs.permit_needed`.
    """
    name, kinds = needed.permit.id, [{"water": kind} for kind in waters] or [{}]
    said = [say(permit=name, **kind) for kind in kinds]
    if needed.permit.when is not None:
        general = [say(permit="", **kind) for kind in kinds]
        said = [one for one, other in zip(said, general, strict=True) if one.value != other.value]
        if len(said) < len(kinds):
            return needed
    if any(one.sheet is not needed.sheet for one in said):
        return needed
    if all(one.known and one.stance == "exempt" for one in said):
        return replace(needed, exempt=said[0])
    doubts = [one.why for one in said if one.open]
    return replace(needed, doubt=doubts[0]) if doubts else needed


def _asks_whose(permit: Permit) -> bool:
    return permit.when is not None and all("authority" in row for row in permit.when.alternatives)
