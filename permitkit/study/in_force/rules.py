"""The rules in force for a job: one answer to every question, found when it is asked."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from permitkit.model.facts import COUNTED_FROM, FACTS
from permitkit.model.keys import KEYS
from permitkit.model.keys.duties import PERMIT_NEEDED
from permitkit.model.rules import Clock, RuleKey, Stage
from permitkit.study.in_force.answered import read_answers
from permitkit.study.in_force.explaining import explained
from permitkit.study.in_force.facts import facts_of
from permitkit.study.in_force.lookup import Lookup
from permitkit.study.in_force.permits import (
    Elsewhere,
    PermitNeeded,
    elsewhere,
    exempted,
    permits_needed,
    street_facts,
)
from permitkit.study.in_force.stack import stack_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from permitkit.model.job import Job
    from permitkit.model.rules import Sheet
    from permitkit.study.in_force.answer import InForce
    from permitkit.study.in_force.explanation import Explanation

__all__ = ["RulesInForce", "rules_in_force"]

_Found = dict[str | tuple[object, ...], "InForce"]


class RulesInForce:
    """The answer to every question a rule sheet can be asked, for one job.

    Answers are found when they are asked for and kept. Take one by its key: `rules[CORE_BIT]`; for
    one item of the job, such as a kind of water or a reach's place: `rules.at(KEY, water="sump")`.
    """

    __slots__ = ("_allowed", "_found", "_lookup")

    def __init__(
        self, lookup: Lookup, found: _Found, allowed: frozenset[str] | None = None
    ) -> None:
        self._lookup = lookup
        self._found = found
        self._allowed = allowed

    @property
    def facts(self) -> Mapping[str, object]:
        """The facts of the job by name."""
        return self._lookup.facts

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """The sheets, the town's first."""
        return self._lookup.stack.sheets

    def __getitem__(self, key: RuleKey | str) -> InForce:
        """Return the rule that holds for a question; KeyError as `at`."""
        name = self._name(key)
        found = self._found.get(name)
        if found is None:
            found = self._found[name] = self._lookup.find(KEYS[name], {})
        return found

    def at(self, key: RuleKey | str, **local: object) -> InForce:
        """Return the rule that holds for one item of the job.

        Parameters
        ----------
        key
            The question, or its name.
        local
            Facts of the item by name: `water`, `place`, `surface`, `house_distance`, `permit`.

        Raises
        ------
        KeyError
            A question that is not declared, or that this reader did not say it reads.
        """
        name = self._name(key)
        if not local or self._lookup.is_constant(name):
            return self[name]
        kept = (name, *sorted(local.items()))
        found = self._found.get(kept)
        if found is None:
            found = self._found[kept] = self._lookup.find(KEYS[name], local)
        return found

    def _name(self, key: RuleKey | str) -> str:
        """Return a key's name, if it may be read here."""
        name = key if isinstance(key, str) else key.name
        if self._allowed is not None and name not in self._allowed:
            raise KeyError(f"{name} is not among the keys declared here")
        return name

    def each(self, key: RuleKey | str) -> tuple[InForce, ...]:
        """Return what holds for the job's items together, each with the condition it holds under.

        For pages that show a rule whole: `at most 4 in where …, at most 3 in where …`.
        """
        whole = self[key]
        return self._lookup.each(whole.key) or (whole,)

    def permits(self) -> tuple[PermitNeeded, ...]:
        """Return the permits that are or might be needed, the town's first."""
        out = [each.sheet for each in self.elsewhere if each.certain]
        needed = permits_needed(self.sheets, self.facts, out)
        waters, say = self.facts.get("water"), self._permit_needed
        kinds = waters if isinstance(waters, tuple) else ()
        return tuple(exempted(permit, kinds, say) for permit in needed)

    def _permit_needed(self, **local: object) -> InForce:
        return self._lookup.find(PERMIT_NEEDED, local)

    @property
    def elsewhere(self) -> tuple[Elsewhere, ...]:
        """The sheets that do not hold on the job's street, or perhaps not."""
        return self._lookup.elsewhere

    def with_sizes(self, sizes: Mapping[str, object]) -> RulesInForce:
        """Return the rules once the study knows the sizes of the work.

        Parameters
        ----------
        sizes
            Size facts by name: `walk_area`, `trench`, `holes`, …
        """
        unknown = [name for name in sizes if name not in FACTS]
        if unknown:
            raise KeyError(f"no fact {', '.join(unknown)}")
        kept = {of: found for of, found in self._found.items() if found.key.stage is Stage.SITE}
        kept.update(self._lookup.constant)
        lookup = replace(self._lookup, facts={**self.facts, **sizes})
        return RulesInForce(lookup, kept, self._allowed)

    def only(self, keys: Iterable[RuleKey]) -> RulesInForce:
        """Return a view that gives some keys and raises KeyError for any other."""
        return self.named(frozenset(key.name for key in keys))

    def named(self, names: frozenset[str]) -> RulesInForce:
        """Return a view that gives the keys of these names and raises KeyError for any other."""
        return RulesInForce(self._lookup, self._found, names)

    def explain(self, key: RuleKey | str, **local: object) -> Explanation:
        """Return how a rule was picked: sheets, editions and cases tried, and the facts used."""
        return explained(self._lookup, self.at(key, **local), local)


def rules_in_force(sheets: Iterable[Sheet], job: Job, as_of: date | None = None) -> RulesInForce:
    """Return the rules in force for a job.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    job
        The job; its dates pick the editions, its facts the cases, its answers stand in front.
    as_of
        A day that picks every edition in place of the job's own dates.

    Raises
    ------
    InputError
        An answer of the job that cannot be read.
    """
    answers, told = read_answers(job)
    every = tuple(sheets)
    days = {
        Clock.FILING: as_of or job.filing,
        Clock.ISSUE: as_of or job.dates.issue_expected or job.filing,
        Clock.WORK: as_of or job.dates.start,
    }
    away = elsewhere(every, job, told)
    out = tuple(each.sheet for each in away if each.certain)
    stack = stack_of(every, out)
    facts = {**facts_of(job), **street_facts(every, job, told), **told, COUNTED_FROM: days}
    lookup = Lookup(stack, days, facts, answers, away)
    found: _Found = {}
    found.update(lookup.constant)
    return RulesInForce(lookup, found)
