"""The rows of a table by a measured fact: `up to 40`, `over 40 up to 70`, `over 70`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.reading.conditions import read_threshold
from permitkit.model.reading.written import Written

if TYPE_CHECKING:
    from permitkit.model.facts import Fact
    from permitkit.model.rules import Threshold

__all__ = ["read_band"]

_LOWER = (("from ", "at_least"), ("over ", "over"))
_UPPER = (("up to ", "up_to"), ("under ", "under"))


def read_band(rows: Written, name: str, fact: Fact) -> Threshold | None:
    """Return the ends that a row's name states, in the fact's own unit."""
    ends: dict[str, object] = {}
    rest = name.strip()
    for word, end in _UPPER:
        head, found, tail = rest.rpartition(word)
        if found:
            ends[end], rest = _plain(tail), head.strip()
    for word, end in _LOWER:
        if rest.startswith(word):
            ends[end], rest = _plain(rest.removeprefix(word)), ""
    if rest or not ends:
        rows.fault("", repr(name), "a row such as up to 40, over 40 up to 70, or over 70")
        return None
    row = Written({fact.name: ends}, f"{rows.where} {name!r}", rows.faults)
    return read_threshold(row, fact)


def _plain(text: str) -> object:
    """Return a whole number as one, anything else as it stands."""
    text = text.strip()
    return int(text) if text.isdecimal() else text
