"""The sheets of a job, nearest first, and what does not depend on any job."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, FactKind
from permitkit.model.rules import Rule, Sheet
from permitkit.study.in_force.answer import InForce

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.rules import Edition

__all__ = ["Kept", "Stack", "stack_of"]

Kept = tuple[object, ...]
"""A key's name, the editions in force, and the words that what is found for it hangs on."""

WORDY = {FactKind.WORD, FactKind.YES_NO}


@dataclass(frozen=True, slots=True)
class Stack:
    """Sheets with their rules by key.

    Parameters
    ----------
    sheets
        The town first, then what it follows.
    layers
        For each key, the sheets that have a rule on it, nearest first.
    found
        Answers that hang on nothing but words, by what they hang on; filled as they are met.
    always
        Those that no fact and no date changes, by key.
    words
        The facts that rules ask for, by key and the editions in force; nothing where one of them
        is not a word.
    """

    sheets: tuple[Sheet, ...]
    layers: dict[str, tuple[tuple[Sheet, Rule], ...]]
    found: dict[Kept, InForce] = field(default_factory=dict)
    always: dict[str, InForce] = field(default_factory=dict)
    words: dict[Kept, tuple[str, ...] | None] = field(default_factory=dict)

    def keep(self, name: str, found: InForce) -> None:
        """Keep an answer that asked for no fact, if no date changes it either."""
        if all(_timeless(rule) for _, rule in self.layers.get(name, ())):
            self.always[name] = found

    def kept(
        self, name: str, editions: tuple[Edition | None, ...], facts: Mapping[str, object]
    ) -> Kept | None:
        """Return what an answer hangs on; nothing where that is more than a few words.

        Words come from closed lists, so what is kept by them cannot grow without end.
        """
        in_force = (name, *map(id, editions))
        if in_force not in self.words:
            self.words[in_force] = _words_asked(editions)
        asked = self.words[in_force]
        return None if asked is None else (*in_force, *[facts.get(fact) for fact in asked])


def _words_asked(editions: tuple[Edition | None, ...]) -> tuple[str, ...] | None:
    """Return the facts that editions ask for, if every one of them is a word, or yes or no."""
    if None in editions:
        return None
    cases = (case for edition in editions if edition for case in edition.cases)
    asked = {
        name
        for case in cases
        for alternative in (case.when.alternatives if case.when else ())
        for name in alternative
    }
    return tuple(sorted(asked)) if all(FACTS[name].kind in WORDY for name in asked) else None


def _timeless(rule: Rule) -> bool:
    """Return whether a rule is the same on every day."""
    return len(rule.editions) == 1 and rule.editions[0].since is None


@lru_cache(maxsize=256)
def stack_of(sheets: tuple[Sheet, ...], out: tuple[Sheet, ...] = ()) -> Stack:
    """Return the sheets arranged by key, without the rules of those that do not hold here.

    The same sheets give the same stack.
    """
    held = [sheet for sheet in sheets if sheet not in out]
    names = dict.fromkeys(name for sheet in held for name in sheet.rules)
    layers = {
        name: tuple((sheet, sheet.rules[name]) for sheet in held if name in sheet.rules)
        for name in names
    }
    return Stack(sheets, layers)
