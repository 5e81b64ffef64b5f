"""Finding the rule that holds: layers in turn, the job's answers in front."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from permitkit.model.reading import RuleAnswer
from permitkit.model.rules import Clock, Stacks
from permitkit.model.values import Silent
from permitkit.study.in_force.answer import InForce
from permitkit.study.in_force.answered import answer_in_force, asks_local_facts, lapsed_by
from permitkit.study.in_force.layer import LayerWord, edition_on, layer_word, might_hold
from permitkit.study.in_force.permits import Elsewhere
from permitkit.study.in_force.stack import Kept, Stack
from permitkit.study.in_force.stacking import all_of, strictest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import Edition, RuleKey

__all__ = ["Lookup"]


@dataclass(frozen=True, slots=True)
class Lookup:
    """What is needed to find any rule of one job.

    Parameters
    ----------
    stack
        The sheets.
    days
        The job's date for each clock.
    facts
        The job's facts by name.
    answers
        The town's answers for this job by key, the last first.
    elsewhere
        The sheets that do not hold on the job's street, or perhaps not.
    """

    stack: Stack
    days: Mapping[Clock, date]
    facts: Mapping[str, object]
    answers: Mapping[str, tuple[RuleAnswer, ...]]
    elsewhere: tuple[Elsewhere, ...] = ()

    @property
    def constant(self) -> Mapping[str, InForce]:
        """Answers that neither a date, a fact nor an answer of the town changes, by key."""
        if not self.answers:
            return self.stack.always
        return {name: it for name, it in self.stack.always.items() if name not in self.answers}

    def is_constant(self, name: str) -> bool:
        """Return whether neither a date, a fact nor an answer changes what is found for a key."""
        return name in self.stack.always and name not in self.answers

    def find(self, key: RuleKey, local: Mapping[str, object]) -> InForce:
        """Return the rule that holds for a question, for an item with these facts of its own."""
        editions = self.editions(key)
        answers = self.answers.get(key.name)
        facts = {**self.facts, **local} if local else self.facts
        if answers:
            words = tuple(self._words(key, editions, facts))
            return self._answered(answers, _combined(key, words), editions, words, facts)
        kept = self.stack.kept(key.name, editions, facts)
        found = self.stack.found.get(kept) if kept else None
        return found or self._new(key, editions, facts, kept)

    def _new(
        self,
        key: RuleKey,
        editions: tuple[Edition | None, ...],
        facts: Mapping[str, object],
        kept: Kept | None,
    ) -> InForce:
        """Return a rule found for the first time, kept for the next job it is the same for."""
        words = tuple(self._words(key, editions, facts))
        found = _combined(key, words)
        if kept:
            self.stack.found[kept] = found
        if all(word.fixed for word in words):
            self.stack.keep(key.name, found)
        return found

    def editions(self, key: RuleKey) -> tuple[Edition | None, ...]:
        """Return the edition in force in each sheet that has a rule on the key."""
        day = self.days[key.clock]
        return tuple(edition_on(rule, day) for _, rule in self.stack.layers.get(key.name, ()))

    def _words(
        self, key: RuleKey, editions: tuple[Edition | None, ...], facts: Mapping[str, object]
    ) -> Iterator[LayerWord]:
        """Yield what each sheet says, up to the first that speaks where the nearest counts."""
        day = self.days[key.clock]
        layers = self.stack.layers.get(key.name, ())
        for (sheet, rule), edition in zip(layers, editions, strict=True):
            word = layer_word(sheet, rule, edition, day, facts)
            yield word
            if word.found and key.stacks is Stacks.NEAREST:
                return

    def _answered(
        self,
        answers: tuple[RuleAnswer, ...],
        found: InForce,
        editions: tuple[Edition | None, ...],
        words: tuple[LayerWord, ...],
        facts: Mapping[str, object],
    ) -> InForce:
        """Return the town's answer for this job where it stands, else what the sheets say."""
        sheet = self.stack.sheets[0] if self.stack.sheets else None
        answer = answer_in_force(answers, sheet, facts)
        if answer is None:
            return found
        lapsed = lapsed_by(answer, editions[: len(words)])
        if lapsed:
            return replace(found, note="; ".join(part for part in (found.note, lapsed) if part))
        unconditional = answers[0].case.when is None
        if unconditional and asks_local_facts(editions) and found.known:
            return found
        others = tuple(each for word in words for each in word.found if each.sheet is not sheet)
        if found.key.stacks is Stacks.STRICTEST:
            return strictest((answer, *others))
        if found.key.stacks is Stacks.ALL:
            stated = tuple(each for word in words for each in word.found if each.known)
            return all_of((answer, *stated))
        return answer

    def each(self, key: RuleKey) -> tuple[InForce, ...]:
        """Return the cases that hold for some item of the job; nothing where items do not count."""
        editions = self.editions(key)
        if key.stacks is not Stacks.NEAREST or key.name in self.answers:
            return ()
        if not asks_local_facts(editions):
            return ()
        for (sheet, _), edition in zip(self.stack.layers[key.name], editions, strict=True):
            found = tuple(might_hold(sheet, key, edition, self.facts)) if edition else ()
            if found:
                return found
        return ()


def _combined(key: RuleKey, words: tuple[LayerWord, ...]) -> InForce:
    """Return one answer from what the sheets say, as the key declares."""
    found = tuple(each for word in words for each in word.found)
    if not found:
        notes = "; ".join(word.note for word in words if word.note)
        return InForce(key, Silent(), note=notes)
    if key.stacks is Stacks.STRICTEST:
        return strictest(found)
    return all_of(found) if key.stacks is Stacks.ALL else found[0]
