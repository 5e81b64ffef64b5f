"""A sheet held against the layers it follows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault
from permitkit.model.rules import Stacks
from permitkit.model.telling import value_text
from permitkit.model.values import Limit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import Sheet

__all__ = ["stricter_parents"]


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
