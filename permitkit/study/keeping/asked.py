"""What a town's rules ask of a job on a day: the facts they turn on, the keys they answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.model.money import PER_UNITS, PerUnit, Share, Stepped, Table, Tiered, each_term
from permitkit.model.values import Fees, Items, NoRule
from permitkit.study.keeping.said import said

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from permitkit.model.money import FeeLine, Term
    from permitkit.model.rules import Case, Sheet, When
    from permitkit.model.values import Item

__all__ = ["asked_of_jobs"]


def asked_of_jobs(sheets: Sequence[Sheet], day: date) -> dict[str, tuple[str, ...]]:
    """Return which rules ask for what: by the name of a fact or of a key, the rules that do.

    A fact is asked for by each rule that turns on it, and by each permit needed only where it
    holds; a key by itself, where it is answered with anything but that there is no rule. Of a key
    that lists things they are told with it, and each asks for `key:thing` as well.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    day
        The day whose editions are read.
    """
    found: dict[str, list[str]] = {}
    for name, key in KEYS.items():
        cases = [word.case for word in said(key, sheets, day)]
        items = [item for case in cases for item in _items(case)]
        if any(not isinstance(case.value, NoRule) for case in cases):
            found.setdefault(name, []).append(_with_items(name, items))
        for item in items:
            found.setdefault(f"{name}:{item.name.replace(' ', '_')}", []).append(name)
        for fact in dict.fromkeys(fact for case in cases for fact in _facts(case)):
            found.setdefault(fact, []).append(name)
    for permit in (permit for sheet in sheets for permit in sheet.permits):
        for fact in _named(permit.when):
            found.setdefault(fact, []).append(permit.title)
    return {name: tuple(dict.fromkeys(rules)) for name, rules in found.items()}


def _items(case: Case) -> tuple[Item, ...]:
    return case.value.items if isinstance(case.value, Items) else ()


def _with_items(name: str, items: Sequence[Item]) -> str:
    """Return a key's name with what it lists: a drawing by its number, anything else by name."""
    told = (" rev ".join(filter(None, (item.number or item.name, item.revision))) for item in items)
    listed = ", ".join(dict.fromkeys(told))
    return f"{name}: {listed}" if listed else name


def _facts(case: Case) -> Iterator[str]:
    """Yield the facts that a case turns on: its condition's, and those its money is counted by."""
    yield from _named(case.when)
    for line in case.value.lines if isinstance(case.value, Fees) else ():
        yield from _of_line(line)


def _named(when: When | None) -> Iterator[str]:
    for alternative in when.alternatives if when is not None else ():
        yield from alternative


def _of_line(line: FeeLine) -> Iterator[str]:
    """Yield the facts that a line of money turns on."""
    yield from _named(line.when)
    for term in each_term(line.term):
        yield from _of_term(term)


def _of_term(term: Term) -> Iterator[str]:
    """Yield the facts that one sum of money is counted or looked up by."""
    if isinstance(term, Table):
        yield term.by
    if isinstance(term, Share) and term.of == "cost":
        yield term.of
    if isinstance(term, PerUnit | Stepped | Tiered) and PER_UNITS[term.per].fact:
        yield PER_UNITS[term.per].fact
