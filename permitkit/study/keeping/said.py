"""What a town's sheets say to one question on a day, whatever the job."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.money import FeeLine, Unknown, each_term
from permitkit.model.rules import Case, RuleKey, Sheet, Stacks
from permitkit.model.telling import line_text, value_text, when_text
from permitkit.model.values import Ask, ByReference, Fees, NoRule, Value
from permitkit.study.in_force.layer import edition_on
from permitkit.study.keeping.state import SheetState, State, combined, counted
from permitkit.study.keeping.whole import leaves_open

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence


__all__ = ["Said", "left_open", "open_terms", "said", "said_by", "sheet_state", "state_of", "told"]


@dataclass(frozen=True, slots=True)
class Said:
    """One case that counts, the sheet it stands in, and the day its edition began."""

    sheet: Sheet
    since: date | None
    case: Case
    key: RuleKey

    @property
    def where(self) -> str:
        """The condition in words; nothing where there is none."""
        return when_text(self.case.when) if self.case.when else ""

    @property
    def text(self) -> str:
        """The condition and the value in words, on one line."""
        told = value_text(self.case.value, self.key)
        return f"where {self.where}: {told}" if self.where else told

    @property
    def statements(self) -> tuple[str, ...]:
        """The same, in pieces that can be compared: money line by line."""
        if not isinstance(self.case.value, Fees):
            return (self.text,)
        where = f"where {self.where}: " if self.where else ""
        return tuple(f"{where}{line_text(line)}" for line in self.case.value.lines)

    @property
    def source(self) -> str:
        """Where it stands: its citation, or the sheet where it cites none."""
        return self.case.cite.text if self.case.cite else self.sheet.title


def said_by(sheet: Sheet, key: RuleKey, day: date) -> tuple[Said, ...]:
    """Return the cases of a sheet's edition in force on a day."""
    rule = sheet.rules.get(key.name)
    edition = edition_on(rule, day) if rule is not None else None
    if edition is None:
        return ()
    return tuple(Said(sheet, edition.since, case, key) for case in edition.cases)


def said(key: RuleKey, sheets: Iterable[Sheet], day: date) -> tuple[Said, ...]:
    """Return the cases that count on a day, the nearest sheet's first.

    Where the nearest sheet counts, those that follow count only as far as it speaks of some jobs
    and not of all.
    """
    found: list[Said] = []
    for sheet in sheets:
        words = said_by(sheet, key, day)
        found += words
        if key.stacks is Stacks.NEAREST and any(word.case.when is None for word in words):
            break
    return tuple(found)


def told(key: RuleKey, words: Sequence[Said]) -> tuple[str, ...]:
    """Return each case in words; what is left after the conditions of a sheet is `otherwise`."""
    lines = []
    for before, word in zip((None, *words), words, strict=False):
        left = before is not None and before.sheet is word.sheet and before.where
        rest = left and not word.where and key.stacks is not Stacks.ALL
        lines.append(f"otherwise: {word.text}" if rest else word.text)
    return tuple(lines)


def left_open(key: RuleKey, words: Sequence[Said]) -> str:
    """Return that nothing is said for a job that none of the cases fits; nothing where all fit."""
    whens = [word.case.when for word in words]
    conditions = [when for when in whens if when is not None]
    if not words or key.stacks is Stacks.ALL or len(conditions) < len(whens):
        return ""
    streets = (street for word in words for street in word.sheet.listed_streets)
    owners = {street.authority for street in streets if street.holds}
    if not leaves_open(conditions, sorted(owners)):
        return ""
    return "otherwise: not said" if key.plain else "otherwise: not said, ask"


def state_of(key: RuleKey, words: Iterable[Said]) -> State:
    """Return how far a question is answered: what one case leaves open, the whole leaves open."""
    return combined(key, {_state(word.case.value) for word in words})


def _state(value: Value) -> State:
    plain = {Ask: State.ASK, ByReference: State.BY_REFERENCE, NoRule: State.NO_RULE}
    if type(value) in plain:
        return plain[type(value)]
    unknown = [term for _, term in open_terms(value)]
    if not unknown:
        return State.ANSWERED
    return State.BY_REFERENCE if all(term.reference for term in unknown) else State.ASK


def open_terms(value: Value) -> Iterator[tuple[FeeLine, Unknown]]:
    """Yield the sums that lines of money leave open, each with its line."""
    for line in value.lines if isinstance(value, Fees) else ():
        for term in each_term(line.term):
            if isinstance(term, Unknown):
                yield line, term


def sheet_state(sheets: Sequence[Sheet], day: date) -> SheetState:
    """Return the state of a town's sheet on a day.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    day
        The day whose editions are counted.
    """
    return counted(
        sheets[0].checked, sheets[0].due, day, lambda key: state_of(key, said(key, sheets, day))
    )
