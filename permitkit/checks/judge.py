"""Every check put to a job, and what comes of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.checks.assumed import in_doubt, trials
from permitkit.checks.catalogue import CHECKS, GATE, GATED, MARGIN_THIN
from permitkit.checks.compare import passes_over
from permitkit.checks.finding import Finding, Weighed
from permitkit.checks.scale import told
from permitkit.model.job import Job
from permitkit.model.verdict import Outcome, Verdict
from permitkit.study.in_force import RulesInForce
from permitkit.study.results import Study
from permitkit.study.study import studied
from permitkit.units import same

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from permitkit.checks.registry import Check
    from permitkit.model.rules import Sheet

__all__ = ["Judged", "counts", "judge", "ready", "run_checks"]

ELSEWHERE = "the town's sheet does not hold on this street, so nothing more is asked by it"
BARRED = "the outlet is barred here, so nothing more is asked of it"


@dataclass(frozen=True, slots=True)
class Judged:
    """A job with the rules in force for it, what was computed, and every verdict."""

    job: Job
    rules: RulesInForce
    study: Study
    verdicts: tuple[Verdict, ...]

    @property
    def ready(self) -> bool:
        """Whether nothing keeps the packet from going in."""
        return ready(self.verdicts)


def judge(job: Job, sheets: Sequence[Sheet], as_of: date | None = None) -> Judged:
    """Return a job judged under a town's sheets.

    Parameters
    ----------
    job
        The job.
    sheets
        The town's sheet first, then the layers it follows.
    as_of
        A day that picks every edition in place of the job's own dates.

    Notes
    -----
    A value that nobody measured is tried at its plausible low and high as well; where a verdict
    turns on it, it becomes a question that names what to measure.

    Raises
    ------
    InputError
        If the job cannot be computed.
    """

    def verdicts_on(other: Job) -> tuple[Verdict, ...]:
        study, rules = studied(other, sheets, as_of)
        return run_checks(other, rules, study)

    study, rules = studied(job, sheets, as_of)
    verdicts = run_checks(job, rules, study)
    return Judged(job, rules, study, in_doubt(verdicts, trials(job, verdicts_on)))


def run_checks(
    job: Job, rules: RulesInForce, study: Study, checks: Sequence[Check] = CHECKS
) -> tuple[Verdict, ...]:
    """Return the verdicts of every check, in the order a reviewer reads.

    A check sees only the rule keys it declares. One that finds nothing to look at is listed as not
    applying, with its reason; one that raises stops the run.

    Parameters
    ----------
    job, rules, study
        What is judged: the job, its rules with the sizes known, and what was computed.
    checks
        The checks to run.
    """
    verdicts: list[Verdict] = []
    barred = False
    away = any(each.certain for each in rules.elsewhere)
    error_m = float(job.level.error or 0)
    for check in checks:
        if barred and check.family in GATED and check is not GATE:
            verdicts.append(_over(check, BARRED))
            continue
        if away and check.reads:
            verdicts.append(_over(check, ELSEWHERE))
            continue
        found = _findings(check, job, rules, study)
        if not found:
            verdicts.append(_over(check, check.idle))
        for finding in found:
            verdicts.append(Weighed.of(check, finding))
            if finding.spare_m < error_m and not same(finding.spare_m, error_m):
                verdicts.append(Weighed.of(MARGIN_THIN, _thin(check, finding)))
        barred = barred or (check is GATE and any(f.outcome is Outcome.FAILS for f in found))
    return tuple(verdicts)


def counts(verdicts: Iterable[Verdict]) -> dict[Outcome, int]:
    """Return how many verdicts there are of each outcome, worst first."""
    found = dict.fromkeys(Outcome, 0)
    for verdict in verdicts:
        found[verdict.outcome] += 1
    return found


def ready(verdicts: Iterable[Verdict]) -> bool:
    """Tell whether nothing keeps a job from going in: no fault, no blocking question."""
    return not any(verdict.stops for verdict in verdicts)


@lru_cache(maxsize=512)
def _over(check: Check, why: str) -> Weighed:
    """Return that a check has nothing to look at; the same for every job."""
    return Weighed.of(check, passes_over(why))


def _findings(check: Check, job: Job, rules: RulesInForce, study: Study) -> list[Finding]:
    """Return what a check finds, the waivers asked for taken into account."""
    found = list(check.function(job, rules.named(check.names), study))
    if not job.waiver or not any(finding.outcome is Outcome.FAILS for finding in found):
        return found
    return [_waived(check, finding, job) for finding in found]


def _waived(check: Check, finding: Finding, job: Job) -> Finding:
    """Return a fault as a waiver asked for, where its rule can be waived; else say it cannot."""
    asked = (w for w in job.waiver if w.check == check.slug and w.item in {None, finding.item})
    waiver = next(asked, None)
    if waiver is None or finding.outcome is not Outcome.FAILS:
        return finding
    if finding.rule is None or not finding.rule.waivable_by:
        refused = "a waiver was asked for, but nobody may waive this"
        return finding._replace(why="; ".join(filter(None, (told(finding.why), refused))))
    by = finding.rule.waivable_by[0]
    return finding._replace(outcome=Outcome.WAIVER, why=waiver.reason, ask_of=by)


def _thin(check: Check, finding: Finding) -> Finding:
    """Return the advice that a margin is thinner than the level can tell."""
    fault = check.slug.replace("-", " ")
    item = f"{fault}, {finding.item}" if finding.item else fault
    return finding._replace(
        outcome=Outcome.ADVICE,
        item=item,
        cure="read these levels again, or leave more to spare",
        why="met by less than the level can tell",
    )
