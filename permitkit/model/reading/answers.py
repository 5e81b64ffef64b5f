"""Answers a town gave for one job: to a rule's question, or about a fact."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, Fact, FactKind
from permitkit.model.keys import KEYS
from permitkit.model.papers import Answer
from permitkit.model.reading.cases import read_case
from permitkit.model.reading.spelling import listed, nearest
from permitkit.model.reading.written import Written, quoted
from permitkit.model.rules import Case, RuleKey
from permitkit.units import Measure

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.errors import Fault

__all__ = ["FactAnswer", "FactValue", "RuleAnswer", "read_answer"]

FactValue = str | bool | int | date | Decimal | Measure


@dataclass(frozen=True, slots=True)
class RuleAnswer:
    """An answer to a rule's question; its case may carry a condition of its own."""

    key: RuleKey
    case: Case
    answer: Answer


@dataclass(frozen=True, slots=True)
class FactAnswer:
    """An answer about a fact that the job's own fields do not state."""

    fact: Fact
    value: FactValue
    answer: Answer


def read_answer(answer: Answer, where: str, faults: list[Fault]) -> RuleAnswer | FactAnswer | None:
    """Return an answer read, or nothing once its faults are noted.

    Parameters
    ----------
    answer
        The answer as the job states it; `value` holds the words of a rule's case, or `is` for a
        fact.
    where
        The place, as its author would look for it.
    faults
        The list the faults go on.
    """
    table = Written(answer.value, f"{where}.value", faults)
    if answer.key in KEYS:
        key = KEYS[answer.key]
        case = read_case(table, key, {}, cited=False)
        return None if case is None else RuleAnswer(key, case, answer)
    if answer.key in FACTS:
        fact = FACTS[answer.key]
        value = _read_fact(table, fact)
        table.close()
        return None if value is None else FactAnswer(fact, value, answer)
    known = (*KEYS, *FACTS)
    expected = f"a rule key or a fact: {listed(known)}"
    Written({}, where, faults).fault("key", repr(answer.key), expected, nearest(answer.key, known))
    return None


def _read_fact(table: Written, fact: Fact) -> FactValue | None:
    """Return what the answer says a fact is."""
    if not table.has("is"):
        table.fault("", quoted(dict(table.table)), f"what {fact.name} is: value = {{ is = … }}")
        return None
    readers: dict[FactKind, Callable[[str], FactValue | None]] = {
        FactKind.YES_NO: table.flag,
        FactKind.NAME: table.text,
        FactKind.COUNT: table.count,
        FactKind.MONEY: table.money,
        FactKind.DAY: table.day,
        FactKind.SEASON: table.day,
    }
    if fact.kind is FactKind.WORD:
        return table.word("is", fact.words) or None
    if fact.quantity is not None:
        return table.measure("is", fact.quantity)
    return readers[fact.kind]("is")
