"""What the town said for this job: answers that stand in front of its sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.model.facts import FACTS
from permitkit.model.reading import FactAnswer, RuleAnswer, read_answer
from permitkit.study.in_force.answer import InForce
from permitkit.study.in_force.fits import fit

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from permitkit.model.job import Job
    from permitkit.model.rules import Edition, Sheet

__all__ = ["answer_in_force", "asks_local_facts", "lapsed_by", "read_answers"]


def read_answers(job: Job) -> tuple[dict[str, tuple[RuleAnswer, ...]], dict[str, object]]:
    """Return the job's answers to rules by key, and those about facts by name.

    Raises
    ------
    InputError
        An answer to no key and no fact, or one whose value is not of its kind.
    """
    faults: list[Fault] = []
    rules: dict[str, tuple[RuleAnswer, ...]] = {}
    facts: dict[str, object] = {}
    for n, written in enumerate(job.answer, 1):
        read = read_answer(written, f"answer[{n}]", faults)
        if isinstance(read, RuleAnswer):
            rules[read.key.name] = (read, *rules.get(read.key.name, ()))
        elif isinstance(read, FactAnswer):
            facts[read.fact.name] = read.value
    if faults:
        raise InputError(tuple(faults))
    return rules, facts


def answer_in_force(
    answers: tuple[RuleAnswer, ...], sheet: Sheet | None, facts: Mapping[str, object]
) -> InForce | None:
    """Return the last answer whose own condition fits."""
    for read in answers:
        if fit(read.case.when, facts)[0]:
            case = read.case
            return InForce(
                read.key,
                case.value,
                None,
                sheet,
                case.waivable_by,
                case.waiver_needs,
                note=case.note,
                answer=read.answer,
            )
    return None


def lapsed_by(answer: InForce, editions: Iterable[Edition | None]) -> str:
    """Return why an answer no longer stands, or nothing where it does."""
    assert answer.answer is not None  # noqa: S101 - only answers are asked
    given = answer.answer.on
    for edition in editions:
        if edition is not None and edition.since is not None and edition.since > given:
            return (
                f"the {answer.source} no longer stands: "
                f"a newer edition began on {edition.since.isoformat()}"
            )
    return ""


def asks_local_facts(editions: Iterable[Edition | None]) -> bool:
    """Return whether a rule tells items of one job apart, such as kinds of water."""
    return any(
        FACTS[name].local
        for edition in editions
        if edition is not None
        for case in edition.cases
        if case.when is not None
        for alternative in case.when.alternatives
        for name in alternative
    )
