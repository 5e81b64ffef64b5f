"""Conditions: what a sheet writes after `when`, read into facts and what fits them."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, Fact, FactKind
from permitkit.model.reading.dates import read_age, read_season
from permitkit.model.reading.spelling import listed, nearest
from permitkit.model.reading.written import Written, quoted
from permitkit.model.rules import Condition, Stage, Threshold, When
from permitkit.model.vocabulary.conditions import meant
from permitkit.units import Kind

if TYPE_CHECKING:
    from decimal import Decimal

    from permitkit.units import Measure

__all__ = ["read_band", "read_when"]

_DAY_ENDS = {"before": "under", "from": "at_least"}
_AGES = ("within", "older_than")
_LOWER = (("from ", "at_least"), ("over ", "over"))
_UPPER = (("up to ", "up_to"), ("under ", "under"))
_ENDS = ("over", "at_least", "up_to", "under")


def read_when(table: Written, stage: Stage, name: str = "when") -> When | None:
    """Return the condition of a case, a fee line or a permit; nothing where it always holds."""
    if not table.has(name):
        return None
    alternatives = []
    for row in table.tables(name):
        if not row.table:
            row.fault("", "an empty condition", "at least one fact", "leave `when` out instead")
        alternatives.append(_read_alternative(row, stage))
    return When(tuple(alternatives))


def _read_alternative(row: Written, stage: Stage) -> dict[str, Condition]:
    """Return one set of facts that must all hold."""
    read: dict[str, Condition] = {}
    for name in row.table:
        fact = FACTS.get(name)
        if fact is None:
            row.fault(name, f"a fact {name!r}", f"a fact: {listed(FACTS)}", nearest(name, FACTS))
        elif fact.stage is Stage.SIZE and stage is Stage.SITE:
            row.fault(
                name,
                f"{name}, which is computed",
                "facts found on site: what this rule says is needed before sizes are known",
                "leave this fact out, or put the limit under a key that may ask for sizes",
            )
        else:
            condition = _read_condition(row, fact)
            if condition is not None:
                read[name] = condition
    return read


def _read_condition(row: Written, fact: Fact) -> Condition | None:
    """Return what fits one fact."""
    if fact.kind is FactKind.YES_NO:
        return _yes_or_no(row, fact)
    if fact.kind is FactKind.SEASON:
        return read_season(row, fact.name)
    if fact.kind is FactKind.WORD:
        words = meant(fact.name, row.texts(fact.name))
        return row.known(words, fact.name, fact.words) or None
    if fact.kind is FactKind.NAME:
        return row.texts(fact.name) or None
    return _read_threshold(row, fact)


def _yes_or_no(row: Written, fact: Fact) -> Condition | None:
    value = row.take(fact.name)
    if isinstance(value, bool):
        return ("yes",) if value else ("no",)
    row.fault(fact.name, quoted(value), "true or false, without quotes")
    return None


def _read_threshold(row: Written, fact: Fact) -> Threshold | None:
    """Return the ends a measured, counted, paid or dated fact is held against."""
    if not isinstance(row.table.get(fact.name), dict):
        row.fault(fact.name, quoted(row.take(fact.name)), _expected(fact))
        return None
    before = len(row.faults)
    ends = row.members(fact.name)
    names = {**{name: name for name in _ENDS}, **_DAY_ENDS}
    allowed = _DAY_ENDS if fact.kind is FactKind.DAY else _ENDS
    read = {names[name]: _read_end(ends, name, fact) for name in allowed if ends.has(name)}
    aged = _AGES if fact.kind is FactKind.DAY else ()
    ages = {name: read_age(ends, name) for name in aged if ends.has(name)}
    threshold = Threshold(**read, within=ages.get("within"), older=ages.get("older_than"))
    if ages and read:
        ends.fault("", "an age beside another end", "one of them", "give each its own alternative")
    ends.close((*allowed, *aged))
    if not ends.table:
        ends.fault("", "an empty table", _expected(fact))
    if len(row.faults) == before and _empty(threshold):
        ends.fault("", "ends that leave nothing between them", "a lower end below the upper end")
    return threshold


def _read_end(ends: Written, name: str, fact: Fact) -> Measure | date | int | Decimal | None:
    """Return one end of a threshold, in the fact's own terms."""
    if fact.kind is FactKind.DAY:
        return ends.day(name)
    if fact.kind is FactKind.COUNT:
        return ends.count(name)
    if fact.kind is FactKind.MONEY:
        return ends.money(name)
    return ends.measure(name, fact.quantity or Kind.LENGTH)


def _expected(fact: Fact) -> str:
    """Return how to write a threshold on this fact."""
    sample = {
        FactKind.DAY: '{ before = 2020-01-01 }, { from = 2020-01-01 }, { within = "5 years" } '
        'or { older_than = "5 years" }',
        FactKind.COUNT: "{ over = 2 } or { up_to = 2 }",
        FactKind.MONEY: "{ over = 500 } or { up_to = 500 }",
    }
    return f"ends, such as {fact.name} = {sample.get(fact.kind, _measured(fact))}"


def _measured(fact: Fact) -> str:
    """Return how to write ends of a measured fact."""
    samples = {"area": "20 sq ft", "speed": "25 mph", "flow": "30 gpm", "strength": "4,000 psi"}
    sample = samples.get(str(fact.quantity), "10 ft")
    return f'{{ over = "{sample}" }} or {{ up_to = "{sample}" }}'


def _empty(ends: Threshold) -> bool:
    """Tell whether no value lies between the ends."""
    for low, open_low in ((ends.over, True), (ends.at_least, False)):
        for high, open_high in ((ends.under, True), (ends.up_to, False)):
            if low is not None and high is not None:
                crossed = low > high  # type: ignore[operator]
                if crossed or (low == high and (open_low or open_high)):
                    return True
    return False


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
    if fact.kind is FactKind.DAY:
        ends, rest = _days(name)
    if rest or not ends:
        days = "before 2020-01-01 or from 2020-01-01"
        plain = "up to 40, over 40 up to 70, or over 70"
        rows.fault("", repr(name), f"a row such as {days if fact.kind is FactKind.DAY else plain}")
        return None
    row = Written({fact.name: ends}, f"{rows.where} {name!r}", rows.faults)
    return _read_threshold(row, fact)


def _days(name: str) -> tuple[dict[str, object], str]:
    """Return the ends that a row by a day states, and what is left: `from … before …`."""
    rest = name.strip()
    ends: dict[str, object] = {}
    for word in ("before ", "from "):
        head, found, tail = rest.rpartition(word)
        if found:
            ends[word.strip()], rest = _day(tail.strip()), head.strip()
    return ends, rest


def _day(text: str) -> object:
    """Return a day where a text is one, the text itself where it is none."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return text


def _plain(text: str) -> object:
    """Return a whole number as one, anything else as it stands."""
    text = text.strip()
    return int(text) if text.isdecimal() else text
