"""One case: its condition, its value, where it stands, who may waive it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.reading.cites import read_cite
from permitkit.model.reading.conditions import read_when
from permitkit.model.reading.values import read_value, value_words
from permitkit.model.reading.written import Written, quoted
from permitkit.model.rules import Case
from permitkit.model.telling.conditions import joined
from permitkit.model.values import Ask, ByReference, NoRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.rules import RuleKey, Source

__all__ = ["CASE_WORDS", "WAIVER_WORDS", "read_case"]

WAIVER_WORDS = ("who", "any_of", "all_of", "needs")
CASE_WORDS = ("when", "cite", "waivable_by", "note")


def read_case(
    table: Written, key: RuleKey, sources: Mapping[str, Source], *, cited: bool = True
) -> Case | None:
    """Return a case of a key, or nothing where its value could not be read.

    Parameters
    ----------
    table
        The table the case is written in.
    key
        The key it answers.
    sources
        The sources a citation may name.
    cited
        Whether a known value must name its source.
    """
    when = read_when(table, key.stage)
    value = read_value(table, key, sources)
    cite = read_cite(table, sources)
    honest = isinstance(value, Ask | ByReference | NoRule)
    if cited and value is not None and not honest and not table.has("cite"):
        table.fault("", "no `cite`", 'where the rule stands, such as cite = "code 12.08"')
    waivable_by, needs = _read_waivers(table)
    note = table.text("note")
    table.close(also=(*CASE_WORDS, *_words(key)))
    if value is None:
        return None
    if isinstance(value, Ask):
        value = Ask(value.by, note)
    return Case(value, when, cite, waivable_by, note, needs)


def _words(key: RuleKey) -> tuple[str, ...]:
    main, beside = value_words(key)
    return (*main, *beside, "ask", "by_reference", "no_rule")


def _read_waivers(table: Written) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return who may waive a rule, first to be asked first, and what each needs to see."""
    value = table.take("waivable_by")
    rows = value if isinstance(value, list) else [] if value is None else [value]
    read = [_read_waiver(table, row, n) for n, row in enumerate(rows, 1)]
    who = tuple(step[0] for step in read if step[0])
    needs = tuple(step[1] for step in read if step[0])
    return who, needs if any(needs) else ()


def _read_waiver(table: Written, row: object, n: int) -> tuple[str, str]:
    """Return one step of the ladder: who, and what that office needs."""
    if isinstance(row, str) and row.strip():
        return row.strip(), ""
    if isinstance(row, dict):
        step = Written(row, f"{table.at('waivable_by')}[{n}]", table.faults)
        found = _read_who(step), step.text("needs")
        step.close(also=WAIVER_WORDS)
        return found
    table.fault("waivable_by", quoted(row), 'who may waive it, such as ["town engineer"]')
    return "", ""


def _read_who(step: Written) -> str:
    """Return who waives at one step: an office, any one of several, or all of them together."""
    stated = [name for name in WAIVER_WORDS[:3] if step.has(name)]
    if len(stated) != 1:
        for name in stated:
            step.take(name)
        found = " and ".join(stated) or "nobody"
        step.fault("", found, 'who = an office, any_of = ["one", "another"] or all_of')
        return ""
    names = step.texts(stated[0]) if stated[0] != "who" else (step.text("who"),)
    return joined(names, "and" if stated[0] == "all_of" else "or") if names else ""
