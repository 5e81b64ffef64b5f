"""The demo packets, each built once for all tests of this folder."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from permitkit.checks.judge import Judged, judge
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers
from permitkit.packet.assembly import Made, office_copy, town_copy

JOBS = Path(__file__).resolve().parents[2] / "demo" / "jobs"
READY = (
    "millrace-clean",
    "millrace-cured",
    "sorrel-flats-notch",
    "sorrel-flats-verge",
    "harrow-heights-emitter",
)
FAILING = ("millrace-faulty", "harrow-heights-core")


@cache
def judged(name: str) -> Judged:
    job = read_job(JOBS / name / "job.toml")
    return judge(job, load_layers(job.town))


@cache
def town(name: str) -> Made:
    return town_copy(judged(name), draft=name in FAILING, folder=JOBS / name)


@cache
def office(name: str) -> Made:
    return office_copy(judged(name), draft=name in FAILING, files=[JOBS / name / "job.toml"])
