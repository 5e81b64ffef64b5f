"""What nobody measured, tried at its plausible low and high: which verdicts turn on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

from permitkit.model.job import Assumption
from permitkit.model.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from permitkit.model.frozen import Frozen
    from permitkit.model.job import Job
    from permitkit.units import Measure

__all__ = ["Trial", "in_doubt", "trials", "with_value"]

FINE = {Outcome.MEETS, Outcome.PASSES_OVER}
MARGIN = "margin-thin"

_Verdicts: TypeAlias = "tuple[Verdict, ...]"


@dataclass(frozen=True, slots=True)
class Trial:
    """What is said of a job with an assumed value at its low, and at its high."""

    assumption: Assumption
    low: tuple[Verdict, ...]
    high: tuple[Verdict, ...]


def trials(job: Job, judged: Callable[[Job], _Verdicts]) -> Iterator[Trial]:
    """Yield a trial of every value that nobody measured and that might be another."""
    for one in job.assumed:
        if one.low != one.high:
            low, high = (judged(with_value(job, one.field, end)) for end in (one.low, one.high))
            yield Trial(one, low, high)


def with_value(job: Job, field: str, value: Measure) -> Job:
    """Return the job with another value in one field, such as `walk.thickness`."""
    table, _, name = field.partition(".")
    part: Frozen = getattr(job, table)
    return job.model_copy(update={table: part.model_copy(update={name: value})})


def in_doubt(verdicts: _Verdicts, tried: Iterable[Trial]) -> _Verdicts:
    """Return the verdicts, those that turn on an assumed value made a question.

    The question keeps a job from being ready where the value might make a fault of it.
    """
    ends = tuple(tried)
    if not ends:
        return verdicts
    given = {_name(verdict): verdict for verdict in verdicts}
    doubts: dict[tuple[str, str], Verdict] = {}
    for trial in ends:
        low, high = ({_name(v): v for v in end} for end in (trial.low, trial.high))
        for name in dict.fromkeys((*given, *low, *high)):
            seen = [end.get(name) for end in (given, low, high)]
            if name[0] != MARGIN and len({_weight(verdict) for verdict in seen}) > 1:
                doubts.setdefault(name, _question(trial, seen))
    asked = (doubts.pop(_name(verdict), verdict) for verdict in verdicts)
    return (*asked, *doubts.values())


def _name(verdict: Verdict) -> tuple[str, str]:
    return verdict.check, verdict.item


def _weight(verdict: Verdict | None) -> Outcome:
    """Return the outcome that counts: what is not there has nothing against it."""
    return Outcome.MEETS if verdict is None or verdict.outcome in FINE else verdict.outcome


def _question(trial: Trial, seen: list[Verdict | None]) -> Verdict:
    """Return the question what the value really is."""
    one = trial.assumption
    _, low, high = seen
    verdict = next(verdict for verdict in seen if verdict is not None)
    return replace(
        verdict,
        outcome=Outcome.ASK,
        cure="",
        why=(
            f"measure {one.field}: {one.value.shown()} is assumed ({one.note}); "
            f"at {one.low.shown()} it {_says(low)}, at {one.high.shown()} it {_says(high)}"
        ),
        ask_of="the applicant",
        blocking=any(_weight(verdict) is Outcome.FAILS for verdict in seen),
    )


def _says(verdict: Verdict | None) -> str:
    """Return an outcome as a verb."""
    weight = _weight(verdict)
    if weight in {Outcome.MEETS, Outcome.FAILS}:
        return str(weight)
    return "is a question" if weight is Outcome.ASK else f"draws {weight}"
