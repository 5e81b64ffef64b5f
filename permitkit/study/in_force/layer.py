"""What one sheet says to one question: its edition, the cases tried, the one that holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS
from permitkit.model.rules import Stacks, Threshold
from permitkit.model.telling import threshold_text, value_text, when_text
from permitkit.model.telling.conditions import any_of, joined, season_text
from permitkit.model.values import Ask, Season
from permitkit.study.in_force.answer import InForce
from permitkit.study.in_force.explanation import Tried, question
from permitkit.study.in_force.fits import fit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from datetime import date

    from permitkit.model.rules import Case, Edition, Rule, RuleKey, Sheet

__all__ = ["LayerWord", "edition_on", "holding", "layer_word", "might_hold", "tried"]


@dataclass(frozen=True, slots=True)
class LayerWord:
    """What one sheet says: nothing, one answer, or several where cases count together.

    `note` tells why it says nothing; `fixed` that no fact was asked for.
    """

    found: tuple[InForce, ...] = ()
    note: str = ""
    fixed: bool = True


def edition_on(rule: Rule, day: date) -> Edition | None:
    """Return the newest edition begun by a day, or nothing before the first."""
    begun = None
    for edition in rule.editions:
        if edition.since is None or edition.since <= day:
            begun = edition
    return begun


def layer_word(
    sheet: Sheet, rule: Rule, edition: Edition | None, day: date, facts: Mapping[str, object]
) -> LayerWord:
    """Return what a sheet says on a day.

    Parameters
    ----------
    sheet, rule
        The sheet and its rule.
    edition
        The edition in force that day, if one is.
    day
        The day.
    facts
        The facts of the job.
    """
    if edition is None:
        return LayerWord(note=_not_begun(sheet, rule, day), fixed=False)
    if not edition.cases:
        return LayerWord(note=_ended(sheet, rule, edition))
    every = rule.key.stacks is Stacks.ALL
    found = holding(sheet, rule.key, edition, facts, every=every)
    fixed = all(case.when is None for case in edition.cases[: None if every else 1])
    return LayerWord(
        tuple(found), "" if found else f"no case of {sheet.title} fits this job", fixed
    )


def _ended(sheet: Sheet, rule: Rule, edition: Edition) -> str:
    """Return that a rule was ended, and when."""
    since = f" on {edition.since.isoformat()}" if edition.since else ""
    return f"{sheet.title} ended its rule {rule.key.name}{since}"


def _not_begun(sheet: Sheet, rule: Rule, day: date) -> str:
    """Return that a sheet knows nothing so early, and from when it does."""
    first = rule.editions[0].since if rule.editions else None
    return (
        f"{sheet.title} first says {rule.key.name} for {first} on; "
        f"for {day.isoformat()} add the edition before that one to its sheet"
    )


def holding(
    sheet: Sheet, key: RuleKey, edition: Edition, facts: Mapping[str, object], *, every: bool
) -> list[InForce]:
    """Return the answer of the first case that fits or might fit, or of every such case."""
    found = []
    for case in edition.cases:
        fits, missing = fit(case.when, facts, key.clock)
        if fits is False:
            continue
        found.append(
            _answer(sheet, key, case) if fits else _open(sheet, key, edition, case, missing, facts)
        )
        if not every:
            break
    return found


def _answer(sheet: Sheet, key: RuleKey, case: Case, applies: str = "") -> InForce:
    return InForce(
        key,
        case.value,
        case.cite,
        sheet,
        case.waivable_by,
        case.waiver_needs,
        case.note,
        applies=applies,
    )


def _open(
    sheet: Sheet,
    key: RuleKey,
    edition: Edition,
    case: Case,
    missing: tuple[str, ...],
    facts: Mapping[str, object],
) -> InForce:
    """Return the question that a case which might fit leaves open."""
    told = "; ".join(_not_known(name, edition, facts.get(name)) for name in missing)
    return InForce(
        key, Ask("", told, missing), case.cite, sheet, case.waivable_by, case.waiver_needs
    )


def _not_known(name: str, edition: Edition, value: object) -> str:
    """Return that a fact is not known, or is several things at once, with what the sheet names."""
    told: list[str] = []
    for case in edition.cases:
        for alternative in case.when.alternatives if case.when else ():
            condition = alternative.get(name, ())
            if isinstance(condition, Threshold):
                told.append(threshold_text(condition))
            elif isinstance(condition, Season):
                told.append(season_text(condition))
            else:
                told.extend(condition)
    values = any_of(tuple(dict.fromkeys(told)))
    if isinstance(value, tuple) and all(isinstance(word, str) for word in value):
        both = joined(value, "and")
        return f"{question(name)} is {both} together, and the rule speaks of {values}"
    if isinstance(value, tuple):
        return f"the work lies partly within and partly without: {values}"
    return f"depends on {question(name)}, which is not known: {values}, or something else"


def might_hold(
    sheet: Sheet, key: RuleKey, edition: Edition, facts: Mapping[str, object]
) -> Iterator[InForce]:
    """Yield each case that holds for some item of the job, with its condition."""
    for case in edition.cases:
        fits, missing = fit(case.when, facts, key.clock)
        if fits is False:
            continue
        if missing and not all(FACTS[name].local for name in missing):
            yield _open(sheet, key, edition, case, missing, facts)
            return
        yield _answer(sheet, key, case, when_text(case.when) if case.when else "")
        if fits:
            return


def tried(sheet: Sheet, rule: Rule, day: date, facts: Mapping[str, object]) -> Iterator[Tried]:
    """Yield each case of a sheet that was looked at, and what came of it."""
    edition = edition_on(rule, day)
    if edition is None or not edition.cases:
        yield Tried(sheet.title, "", "", layer_word(sheet, rule, edition, day, facts).note)
        return
    every = rule.key.stacks is Stacks.ALL
    begun = f"edition of {edition.since.isoformat()}" if edition.since else "edition in force"
    for n, case in enumerate(edition.cases, 1):
        fits, missing = fit(case.when, facts, rule.key.clock)
        named = f"case {n} ({when_text(case.when)})"
        if fits is None:
            result = f"might fit: {' and '.join(missing)} not known, so ask"
        else:
            result = f"fits: {value_text(case.value, rule.key)}" if fits else "does not fit"
        yield Tried(sheet.title, begun, named, result, spoke=fits is not False)
        if fits is not False and not every:
            return
