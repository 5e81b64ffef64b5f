"""A sheet held against the layers it follows, and against its own list of streets."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault
from permitkit.model.reading.spelling import listed
from permitkit.model.rules import Stacks
from permitkit.model.telling import value_text
from permitkit.model.values import Ask, ByReference, Limit, NoRule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import Edition, Sheet

__all__ = ["on_listed_streets", "stricter_parents"]


def stricter_parents(sheet: Sheet, layers: tuple[Sheet, ...]) -> Iterator[Fault]:
    """Yield limits of a sheet that a layer tightens, so that the layer's end is in force."""
    for name, rule in sheet.rules.items():
        if rule.key.stacks is not Stacks.STRICTEST:
            continue
        for layer in layers:
            own, other = _plain_limit(sheet, name), _plain_limit(layer, name)
            if own is not None and other is not None and _looser(own, other):
                yield Fault(
                    f"{sheet.path}: {name}",
                    f"{value_text(own)}, looser than {value_text(other)} of {layer.title}",
                    f"to know that the stricter holds: {value_text(other)}",
                )


def _plain_limit(sheet: Sheet, name: str) -> Limit | None:
    """Return the limit a sheet's newest edition gives in every case, if it does."""
    rule = sheet.rules.get(name)
    cases = rule.editions[-1].cases if rule is not None else ()
    plain = cases[-1].value if cases and cases[-1].when is None else None
    return plain if isinstance(plain, Limit) else None


def _looser(own: Limit, other: Limit) -> bool:
    """Return whether an end of the other is tighter than the same end of one's own."""
    return (
        _tighter(other.at_most, own.at_most, -1) or _tighter(other.at_least, own.at_least, 1)
    ) and (own.of, own.origin) == (other.of, other.origin)


def _tighter(other: Any, own: Any, sign: int) -> bool:  # noqa: ANN401 - quantities or counts
    if other is None or own is None:
        return False
    return bool(other > own if sign > 0 else other < own)


def on_listed_streets(sheet: Sheet) -> Iterator[Fault]:
    """Yield the rules that hold on another authority's streets too, where the sheet lists any."""
    listed_too = (street.authority for street in sheet.listed_streets if street.holds)
    owners = {owner for owner in listed_too if owner != sheet.title}
    names = [name for name, rule in sheet.rules.items() if not _asks_whose(rule.editions[-1])]
    if owners and names:
        yield Fault(
            f"{sheet.path}: sheet.listed_streets",
            f"rules that hold there too, {len(names)} in all: {listed(names)}",
            f"to know that they hold on the streets of {', '.join(sorted(owners))} as well",
            'add authority = "town" to the `when` of a rule that does not, or holds = false to a '
            "street on which none does",
        )


def _asks_whose(edition: Edition) -> bool:
    """Return whether every case that gives a value asks whose street it is."""
    return all(
        case.when is not None and all("authority" in row for row in case.when.alternatives)
        for case in edition.cases
        if not isinstance(case.value, Ask | ByReference | NoRule)
    )
