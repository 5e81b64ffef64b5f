"""A thousand jobs that differ, from the demo jobs: for the benchmark and nothing else."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.model.rules import Sheet

__all__ = ["varied_jobs"]

JOBS = Path(__file__).resolve().parent.parent.parent / "demo" / "jobs"
NAMES = (
    "millrace-clean",
    "millrace-cured",
    "millrace-faulty",
    "sorrel-flats-notch",
    "harrow-heights-emitter",
)


def varied_jobs(count: int) -> list[tuple[Job, tuple[Sheet, ...]]]:
    """Return jobs whose roofs, reaches and stations all differ, with their sheets.

    They are taken as fully measured, so that each is judged once.
    """
    bases = [read_job(JOBS / name / "job.toml") for name in NAMES]
    sheets = {job.town: load_layers(job.town) for job in bases}
    return [
        (_varied(bases[number % len(bases)], number), sheets[bases[number % len(bases)].town])
        for number in range(count)
    ]


def _varied(job: Job, number: int) -> Job:
    factor = 1 + Fraction(number % 97, 400)
    inflows = tuple(
        inflow.model_copy(update={"area": inflow.area * factor}) if inflow.area else inflow
        for inflow in job.drain.inflow
    )
    reaches = tuple(
        reach.model_copy(update={"length": reach.length * (1 + Fraction(number % 13, 1000))})
        for reach in job.drain.reach
    )
    drain = job.drain.model_copy(update={"inflow": inflows, "reach": reaches})
    outlet = job.outlet.model_copy(
        update={"station": job.outlet.station * (1 + Fraction(number % 7, 100))}
    )
    return job.model_copy(update={"drain": drain, "outlet": outlet, "assumed": ()})
