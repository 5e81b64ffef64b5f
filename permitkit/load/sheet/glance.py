"""A rule sheet at a glance: its head, and how far each rule is answered; no value is read.

Reading two hundred sheets whole takes longer than anybody wants to wait for a list of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, Any, NamedTuple

from permitkit.errors import Fault, InputError
from permitkit.load.find_sheet import find_sheet
from permitkit.load.sheet.order import in_layers
from permitkit.load.toml_text import read_toml, shown_path

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from permitkit.load.find_sheet import SheetPlaces

__all__ = ["CaseGlance", "Glance", "glance", "glance_layers"]


class CaseGlance(NamedTuple):
    """One case: `answered`, `ask`, `by reference` or `no rule`; and whether it has a condition."""

    state: str
    conditional: bool


@dataclass(frozen=True, slots=True)
class Glance:
    """A sheet's head, and for each key its editions: the day each begins, and its cases."""

    place: str
    kind: str
    standing: str
    follows: tuple[str, ...]
    checked: date
    due: date
    editions: dict[str, list[tuple[date | None, tuple[CaseGlance, ...]]]]

    def on(self, key: str, day: date) -> tuple[CaseGlance, ...]:
        """Return the cases in force on a day."""
        cases: tuple[CaseGlance, ...] = ()
        for since, found in self.editions.get(key, ()):
            if since is None or since <= day:
                cases = found
        return cases


def glance_layers(
    place: str, places: SheetPlaces, kept: dict[str, Glance] | None = None
) -> tuple[Glance, ...]:
    """Return a glance at a town's sheet and at those it builds on, the town first, each once.

    Parameters
    ----------
    place
        The town.
    places
        Where sheets are looked for.
    kept
        Glances taken already, by place; new ones are put there.

    Raises
    ------
    UsageError
        No sheet of that name.
    InputError
        A sheet that is no TOML, whose head cannot be read, or that follows itself.
    """
    taken = {} if kept is None else kept
    waiting, seen = [place], set()
    while waiting:
        name = waiting.pop()
        if name not in taken:
            taken[name] = glance(find_sheet(name, places))
        if name not in seen:
            seen.add(name)
            waiting += taken[name].follows
    _check_loops(place, taken)
    return tuple(in_layers(place, taken))


def _check_loops(place: str, found: Mapping[str, Glance], chain: tuple[str, ...] = ()) -> None:
    """Raise where a sheet follows itself in the end."""
    if place in chain:
        loop = " follows ".join((*chain, place))
        raise InputError((Fault(f"{place}: sheet.follows", loop, "layers without a loop"),))
    for followed in found[place].follows:
        _check_loops(followed, found, (*chain, place))


def glance(path: Path) -> Glance:
    """Return a glance at a sheet's file.

    Raises
    ------
    InputError
        The file is no TOML, or its head cannot be read.
    """
    table = read_toml(path)
    head = _table(table.get("sheet"))
    days = [head.get(name) for name in ("checked", "due")]
    if not all(isinstance(day, date) and not isinstance(day, datetime) for day in days):
        fault = Fault(f"{shown_path(path)}: sheet", "a head that cannot be read", "checked and due")
        raise InputError((fault,))
    follows = head.get("follows", [])
    return Glance(
        str(head.get("place", "")),
        str(head.get("kind", "town")),
        str(head.get("standing", "")),
        tuple(map(str, follows if isinstance(follows, list) else [follows])),
        head["checked"],
        head["due"],
        _editions(table),
    )


def _table(value: object) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _rows(value: object) -> list[dict[str, Any]]:
    return [row for row in value if isinstance(row, dict)] if isinstance(value, list) else []


def _editions(
    table: Mapping[str, Any],
) -> dict[str, list[tuple[date | None, tuple[CaseGlance, ...]]]]:
    """Return the editions of every key, oldest first as they are written."""
    found: dict[str, list[tuple[date | None, tuple[CaseGlance, ...]]]] = {}
    for family, members in _table(table.get("rule")).items():
        for name, case in _table(members).items():
            written = _rows(case) if isinstance(case, list) else [_table(case)]
            found[f"{family}.{name}"] = [(None, tuple(map(_case, written)))]
    for row in _rows(table.get("edition")):
        since = row.get("since")
        cases = tuple(map(_case, _rows(row.get("case"))))
        begun = since if isinstance(since, date) else None
        found.setdefault(str(row.get("key")), []).append((begun, cases))
    return found


def _case(case: Mapping[str, Any]) -> CaseGlance:
    return CaseGlance(_state(case), "when" in case)


def _state(case: Mapping[str, Any]) -> str:
    for word in ("ask", "by_reference", "no_rule"):
        if word in case:
            return word.replace("_", " ")
    words = set(_open_words(case.get("line")))
    return "ask" if "ask" in words else "by reference" if words else "answered"


def _open_words(value: object) -> Iterator[str]:
    """Yield what lines of money leave open, however deep."""
    if isinstance(value, list):
        for row in value:
            yield from _open_words(row)
    elif isinstance(value, dict):
        yield from (word for word in ("ask", "by_reference") if word in value)
        for part in value.values():
            yield from _open_words(part)
