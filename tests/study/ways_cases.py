"""The ways of letting the water go of a demo job, by kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from demo_jobs import job_path
from study_cases import altered, demo

from permitkit.load.rule_sheet import load_layers
from permitkit.study.in_force import rules_in_force
from permitkit.study.ways import Way, compare_ways

if TYPE_CHECKING:
    from permitkit.model.job import Job

VERGE = "sorrel-flats-verge"


def of_job(job: Job) -> dict[str, Way]:
    rules = rules_in_force(load_layers(job.town), job)
    return {way.kind: way for way in compare_ways(job, rules)}


def of(name: str, *changes: tuple[str, str]) -> dict[str, Way]:
    return of_job(altered(name, *changes) if changes else demo(name))


def hole_already_there() -> tuple[str, str]:
    return 'kind = "core"', 'kind = "existing hole"'


def lines_of(name: str) -> list[str]:
    return job_path(name).read_text(encoding="utf-8").splitlines()
