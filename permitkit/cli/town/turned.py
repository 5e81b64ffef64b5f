"""What turns when a job is judged under other rules: verdicts, sums, whether it may go in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.model.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from permitkit.checks.judge import Judged
    from permitkit.study.results import MoneyTotal

__all__ = ["Turn", "turned"]

FINE = {Outcome.MEETS, Outcome.PASSES_OVER}
NOTHING = "nothing against it"


@dataclass(frozen=True, slots=True)
class Turn:
    """One thing that is otherwise: a check with its item or a sum, what it was and what it is."""

    what: str
    was: str
    now: str


def turned(before: Judged, after: Judged) -> tuple[Turn, ...]:
    """Return what is said otherwise of a job under other rules.

    Parameters
    ----------
    before, after
        The same job, judged under the one set of rules and under the other. What is met and what
        does not apply count as one: there is nothing against it.
    """
    return (*_standing(before, after), *_sums(before, after), *_verdicts(before, after))


def _standing(before: Judged, after: Judged) -> Iterator[Turn]:
    if before.ready is not after.ready:
        was, now = ("ready" if judged.ready else "not ready" for judged in (before, after))
        yield Turn("the job", was, now)


def _sums(before: Judged, after: Judged) -> Iterator[Turn]:
    for name in ("fees", "deposit", "bond"):
        was, now = (_sum(getattr(judged.study.fees, name)) for judged in (before, after))
        if was != now:
            yield Turn(name, was, now)


def _sum(total: MoneyTotal) -> str:
    return f"{total.shown}, and to be set: {', '.join(total.open)}" if total.open else total.shown


def _verdicts(before: Judged, after: Judged) -> Iterator[Turn]:
    old, new = _against(before.verdicts), _against(after.verdicts)
    for name in dict.fromkeys((*old, *new)):
        was, now = old.get(name), new.get(name)
        if (was and was.outcome) is not (now and now.outcome):
            yield Turn(": ".join(filter(None, name)), _told(was), _told(now))


def _against(verdicts: Iterable[Verdict]) -> dict[tuple[str, str], Verdict]:
    """Return what speaks against a job, by check and item; of several the worst."""
    rank = list(Outcome)
    found: dict[tuple[str, str], Verdict] = {}
    for verdict in sorted(verdicts, key=lambda verdict: rank.index(verdict.outcome)):
        if verdict.outcome not in FINE:
            found.setdefault((verdict.check, verdict.item), verdict)
    return found


def _told(verdict: Verdict | None) -> str:
    if verdict is None:
        return NOTHING
    parts = (verdict.proposed, f"limit {verdict.limit}" if verdict.limit else verdict.why)
    return f"{verdict.outcome}: {', '.join(filter(None, parts))}"
