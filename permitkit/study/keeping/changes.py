"""What a town's sheets say otherwise on a later day than on an earlier one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.model.rules import RuleKey, Sheet
from permitkit.study.in_force.layer import edition_on
from permitkit.study.keeping.said import said_by

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.model.rules import Edition, Rule

__all__ = ["Change", "changes"]


@dataclass(frozen=True, slots=True)
class Change:
    """One rule of one sheet that changed.

    Parameters
    ----------
    sheet, key
        Whose rule it is, and its question.
    since
        The day the later edition began.
    how
        What happened, in words.
    was, now
        What was said and is said no more, and what is said anew; money line by line.
    kept
        How many statements stay as they were.
    """

    sheet: Sheet
    key: RuleKey
    since: date | None
    how: str
    was: tuple[str, ...]
    now: tuple[str, ...]
    kept: int


def changes(sheets: Sequence[Sheet], first: date, last: date) -> tuple[Change, ...]:
    """Return what changed between two days, sheet by sheet, key by key.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    first, last
        The earlier day and the later one.
    """
    return tuple(_changes(sheets, first, last))


def _changes(sheets: Sequence[Sheet], first: date, last: date) -> Iterator[Change]:
    for sheet in sheets:
        for name in KEYS:
            rule = sheet.rules.get(name)
            if rule is not None and edition_on(rule, first) is not edition_on(rule, last):
                yield _change(sheet, rule, first, last)


def _change(sheet: Sheet, rule: Rule, first: date, last: date) -> Change:
    before = [text for word in said_by(sheet, rule.key, first) for text in word.statements]
    after = [text for word in said_by(sheet, rule.key, last) for text in word.statements]
    old, new = edition_on(rule, first), edition_on(rule, last)
    return Change(
        sheet,
        rule.key,
        new.since if new else None,
        _how(old, new),
        tuple(text for text in before if text not in after),
        tuple(text for text in after if text not in before),
        sum(text in before for text in after),
    )


def _how(old: Edition | None, new: Edition | None) -> str:
    """Return what happened to a rule between two editions."""
    assert new is not None  # noqa: S101 - what was in force stays so till another begins
    assert new.since is not None  # noqa: S101 - a later edition has its day
    begun = new.since.isoformat()
    if not new.cases:
        return f"ended on {begun}; what the sheet follows stands"
    if old is None or not old.cases:
        return f"first said on {begun}"
    last = f"the edition of {old.since.isoformat()}" if old.since else "the edition before it"
    return f"edition of {begun}, in place of {last}"
