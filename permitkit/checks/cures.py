"""What would make a failing line pass: the smallest changes, each judged anew."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import chain
from typing import TYPE_CHECKING

from permitkit.checks.catalogue import CHECKS
from permitkit.checks.changes import changes
from permitkit.checks.judge import judge, run_checks
from permitkit.errors import InputError
from permitkit.model.job import Job
from permitkit.model.verdict import Outcome, Verdict
from permitkit.study.in_force import RulesInForce
from permitkit.study.results import Study
from permitkit.study.study import studied

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from permitkit.checks.changes import Change
    from permitkit.model.rules import Sheet

__all__ = ["COMES_WITH", "CURABLE", "LINE", "Cure", "find_cures", "line_faults"]

CURABLE = frozenset(
    {
        "curb-outlet-barred",
        "better-outlet-not-tried",
        "outlet-wrong-for-curb",
        "outlet-too-low",
        "outlet-too-high",
        "core-too-wide",
        "no-bit-fits",
        "strip-too-thin",
        "core-below-gutter",
        "grout-gap-wrong",
        "cores-too-close",
        "notch-too-wide",
        "notch-floor-below-gutter",
        "notch-floor-too-flat",
        "run-too-flat",
        "run-falls-backward",
        "pipe-kind-barred",
        "pipe-too-small",
        "bore-shrinks",
        "cover-too-thin",
        "thin-pipe-under-drive",
        "run-overloaded",
        "line-holds-water",
        "water-rises-above-opening",
    }
)
"""Faults that another pipe, height, grade or outlet may cure."""

LINE = frozenset({"outlet", "curb", "emitter", "run", "water", "walk"})
"""Families in which a cure may make no new fault."""

COMES_WITH = frozenset({"emitter-without-weep"})
"""What an outlet put in the place of another lacks, and what its own check says how to add."""

ALWAYS = ("height", "grade", "route", "split")
MOST_CHANGES = 3
BEAM = 3
MOST_CURES = 6
_FAMILIES = {check.slug: check.family for check in CHECKS}
_ASKED = tuple(check for check in CHECKS if check.family in LINE)
_Name = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Cure:
    """Changes that together make a line pass, or come as near to that as was found.

    Parameters
    ----------
    changes
        Each change in words.
    job
        The job with them.
    passes
        Whether none of the line's curable faults is left and no new one has come, save that an
        emitter still needs its weep hole and pit.
    clears, leaves
        The faults it cures, and those of the line that stay or are new.
    asks
        Questions that keep the changed job from being ready and did not before.
    """

    changes: tuple[str, ...]
    job: Job
    passes: bool
    clears: tuple[Verdict, ...]
    leaves: tuple[Verdict, ...]
    asks: tuple[Verdict, ...] = ()


@dataclass(frozen=True, slots=True)
class _Tried:
    """A job with some changes, judged."""

    words: tuple[str, ...]
    marks: tuple[str, ...]
    effort: int
    job: Job
    rules: RulesInForce
    study: Study
    verdicts: tuple[Verdict, ...]

    def faults(self) -> dict[_Name, Verdict]:
        """Return the faults of the line by check and item."""
        return {_name(v): v for v in line_faults(self.verdicts)}

    def may_take(self, change: Change, promising: frozenset[str]) -> bool:
        """Tell whether a change is worth trying: nothing is changed twice."""
        groups = {mark.partition(" ")[0] for mark in self.marks}
        return change.group not in groups and (not promising or change.mark in promising)


def line_faults(verdicts: Iterable[Verdict]) -> tuple[Verdict, ...]:
    """Return the faults of the families that a line belongs to."""
    return tuple(
        v for v in verdicts if v.outcome is Outcome.FAILS and _FAMILIES.get(v.check) in LINE
    )


def find_cures(job: Job, sheets: Sequence[Sheet]) -> tuple[Cure, ...]:
    """Return the smallest changes that make a failing line pass, the least effort first.

    Parameters
    ----------
    job
        The job.
    sheets
        The town's sheet first, then the layers it follows.

    Returns
    -------
    tuple of Cure
        None where no curable fault is found. Single changes that pass, else pairs, else three
        together; where none passes, of each kind of outlet the changes that leave the fewest
        faults, if they are fewer than now.

    Raises
    ------
    InputError
        If the job itself cannot be computed.

    Notes
    -----
    Every change is computed and checked as a job of its own, and what is returned is judged once
    more with its assumed values tried at both ends. Of the changes that do not suffice, of each
    kind of outlet the few that leave the fewest faults are carried on, with what did best alone.
    """
    start = _tried(job, sheets)
    if not _curable(start):
        return ()
    beam, met, promising = [start], [start], frozenset[str]()
    for _ in range(MOST_CHANGES):
        found = _once(chain.from_iterable(_next(one, sheets, promising) for one in beam))
        promising = promising or _promising(start, found)
        passing = [one for one in found if not _left(start, one)]
        if passing:
            return _cures(start, passing, sheets)
        beam = _best_of_each_kind(start, found, BEAM)
        met += found
    now = len(_left(start, start))
    nearest = [one for one in _best_of_each_kind(start, met, 1) if _rank(start, one)[0] < now]
    return _cures(start, nearest, sheets)


def _tried(job: Job, sheets: Sequence[Sheet]) -> _Tried:
    """Return a job judged as it stands."""
    study, rules = studied(job, sheets)
    verdicts = run_checks(job, rules, study, _ASKED)
    return _Tried((), (), 0, job, rules, study, verdicts)


def _once(found: Iterable[_Tried]) -> list[_Tried]:
    """Return what was found, the same changes in another order once."""
    return list({frozenset(one.marks): one for one in found}.values())


def _promising(start: _Tried, found: Iterable[_Tried]) -> frozenset[str]:
    """Return the marks of the few best single changes of each group."""
    best: dict[str, list[str]] = {}
    for one in sorted(found, key=lambda one: _rank(start, one)):
        (mark,) = one.marks
        best.setdefault(mark.partition(" ")[0], []).append(mark)
    few = (mark for marks in best.values() for mark in marks[:BEAM])
    return frozenset((*few, *ALWAYS))


def _rank(start: _Tried, one: _Tried) -> tuple[int, int]:
    return len(_left(start, one)), one.effort


def _best_of_each_kind(start: _Tried, found: Iterable[_Tried], most: int) -> list[_Tried]:
    """Return of each kind of outlet the few that leave the fewest faults."""
    best: dict[str, list[_Tried]] = {}
    for one in sorted(found, key=lambda one: _rank(start, one)):
        best.setdefault(one.job.outlet.kind, []).append(one)
    return [one for ones in best.values() for one in ones[:most]]


def _next(one: _Tried, sheets: Sequence[Sheet], promising: frozenset[str]) -> Iterator[_Tried]:
    """Yield a job with each further change that can be computed."""
    for change in changes(one.job, one.rules, one.study):
        if one.may_take(change, promising):
            yield from _with(one, change, sheets)


def _with(one: _Tried, change: Change, sheets: Sequence[Sheet]) -> Iterator[_Tried]:
    """Yield a job with one more change, judged; nothing if it cannot be computed."""
    try:
        tried = _tried(change.job, sheets)
    except InputError:
        return
    words, marks = (*one.words, change.words), (*one.marks, change.mark)
    yield replace(tried, words=words, marks=marks, effort=one.effort + change.effort)


def _curable(one: _Tried) -> list[Verdict]:
    return [v for v in one.faults().values() if v.check in CURABLE]


def _left(start: _Tried, one: _Tried) -> list[Verdict]:
    """Return what a cure would still have to cure: curable faults, and those that are new."""
    before = {name[0] for name in start.faults()}
    known = before | COMES_WITH
    return [v for v in one.faults().values() if v.check in CURABLE or v.check not in known]


def _cures(start: _Tried, found: Sequence[_Tried], sheets: Sequence[Sheet]) -> tuple[Cure, ...]:
    """Return the best of what was found, each judged in full."""
    chosen = sorted(found, key=lambda one: (one.effort, len(_questions(one.verdicts))))
    return tuple(_cure(start, one, sheets) for one in chosen[:MOST_CURES])


def _cure(start: _Tried, one: _Tried, sheets: Sequence[Sheet]) -> Cure:
    judged = judge(one.job, sheets)
    faults = {_name(v): v for v in line_faults(judged.verdicts)}
    cleared = tuple(v for name, v in start.faults().items() if name not in faults)
    asked = {_name(v) for v in _questions(start.verdicts)}
    asks = tuple(v for v in _questions(judged.verdicts) if _name(v) not in asked)
    left = tuple(faults.values())
    return Cure(one.words, one.job, not _left(start, one), cleared, left, asks)


def _questions(verdicts: Iterable[Verdict]) -> list[Verdict]:
    """Return the open questions that keep a job from being ready."""
    return [
        v
        for v in verdicts
        if v.outcome is Outcome.ASK and v.blocking and _FAMILIES.get(v.check) in LINE
    ]


def _name(verdict: Verdict) -> _Name:
    return verdict.check, verdict.item
