"""The study of a job: everything computed from job and rules before anything is judged."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.study.calendar import study_calendar
from permitkit.study.curb import study_curb
from permitkit.study.cut import study_cut
from permitkit.study.days import WorkCalendar
from permitkit.study.fees import work_out
from permitkit.study.in_force import rules_in_force
from permitkit.study.results import Study
from permitkit.study.sizes import quantities, size_facts
from permitkit.study.traffic import study_traffic
from permitkit.study.water.buried import deepest_m
from permitkit.study.water.line import outlet_pipe
from permitkit.study.water.reaches import laid_at_outlet
from permitkit.study.water.water import study_water

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from permitkit.model.job import Job
    from permitkit.model.rules import Sheet
    from permitkit.study.in_force import RulesInForce

__all__ = ["studied", "study_job"]


def study_job(job: Job, rules: RulesInForce) -> Study:
    """Return everything computed from a job and the rules in force for it.

    Parameters
    ----------
    job, rules
        The job and its rules, which need not know any size yet.

    Raises
    ------
    InputError
        If the job cannot be computed: no way to the outlet, a loop, an unknown pipe, no height.
    """
    return _study(job, rules)[0]


def studied(
    job: Job, sheets: Sequence[Sheet], as_of: date | None = None
) -> tuple[Study, RulesInForce]:
    """Return the study of a job under a town's sheets, and the rules once sizes are known.

    Parameters
    ----------
    job
        The job.
    sheets
        The town's sheet first, then the layers it follows.
    as_of
        A day that picks every edition in place of the job's own dates.

    Raises
    ------
    InputError
        As `study_job`, or if an answer of the job cannot be read.
    """
    return _study(job, rules_in_force(sheets, job, as_of))


def _study(job: Job, rules: RulesInForce) -> tuple[Study, RulesInForce]:
    """Return the study and the rules with the sizes it found."""
    faults = tuple(_uncountable(job))
    if faults:
        raise InputError(faults)
    working = WorkCalendar.of(rules.sheets)
    water, line, ground = study_water(job, rules)
    pipe = outlet_pipe(job) if water.reaches else None
    curb = study_curb(job, rules, pipe, laid_at_outlet(water))
    cut = study_cut(job, rules, line, ground)
    traffic = study_traffic(job, rules)
    calendar = study_calendar(job, rules, working)
    depth_m = deepest_m(line, ground)
    sized = rules.with_sizes(size_facts(job, water, cut, depth_m, len(calendar.work_days)))
    paid = [payment.line for payment in job.payment if payment.line]
    fees = work_out(sized, quantities(job, cut, depth_m), paid)
    return Study(water, curb, cut, traffic, calendar, fees), sized


def _uncountable(job: Job) -> Iterator[Fault]:
    """Yield what the job gives as nothing and the study has to divide by."""
    for where, value in (
        ("street.speed", job.street.speed),
        ("walk.panel_length", job.walk.panel_length),
        ("curb.top_width", job.curb.top_width),
    ):
        if value.si <= 0:
            yield Fault(where, value.shown(), "more than nothing")
