"""Studies of the demo jobs, of the same with something changed, and of rules written for a test."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from demo_jobs import Change, changed, job_path

from permitkit.errors import Fault, InputError
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers, load_sheet
from permitkit.model.frozen import Frozen
from permitkit.study.in_force import rules_in_force
from permitkit.study.study import studied
from permitkit.units import Kind, Measure, read_measure

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import NodeWater, ReachWater, Study

FOOT, INCH, MM = 0.3048, 0.0254, 0.001
GPM = 231 * INCH**3 / 60
CUBIC_FOOT, GALLON = FOOT**3, 231 * INCH**3
CLEAN, FAULTY, CURED = "millrace-clean", "millrace-faulty", "millrace-cured"
NOTCH, CORE_BARRED, EMITTER = (
    "sorrel-flats-notch",
    "harrow-heights-core",
    "harrow-heights-emitter",
)

HEAD = """
schema = 1
[sheet]
place = "{place}"
title = "A town for a test"
kind = "town"
checked = 2026-01-01
due = 2027-01-01
standing = "invented"
units = "us"
office = "counter"
holidays = "US"
[source.pw]
title = "Standards"
read = 2026-01-01
address = "https://example.org/pw"
"""

METRIC = {
    Kind.LENGTH: "mm",
    Kind.LEVEL: "m",
    Kind.AREA: "m2",
    Kind.SLOPE: "%",
    Kind.FLOW: "m3/s",
    Kind.INTENSITY: "mm/h",
}
MOST_DIGITS = 12


@cache
def demo(name: str) -> Job:
    return read_job(job_path(name))


@cache
def study_of(name: str) -> Study:
    job = demo(name)
    return studied(job, load_layers(job.town))[0]


def rules_of(name: str) -> RulesInForce:
    job = demo(name)
    return studied(job, load_layers(job.town))[1]


def study_job_of(job: Job) -> Study:
    return studied(job, load_layers(job.town))[0]


def altered(name: str, *changes: Change) -> Job:
    """Return a demo job with each old text, found once, replaced by the new."""
    with TemporaryDirectory() as folder:
        return read_job(changed(Path(folder), name, *changes))


def study_with(name: str, *changes: Change) -> Study:
    return study_job_of(altered(name, *changes))


def faults_with(name: str, *changes: Change) -> tuple[Fault, ...]:
    """Return the faults that the study tells of a demo job with something changed."""
    job = altered(name, *changes)
    try:
        study_job_of(job)
    except InputError as error:
        return error.faults
    return ()


@cache
def rules_saying(rules: str, name: str = CLEAN) -> RulesInForce:
    """Return the rules of a sheet that holds nothing but these lines, for a demo job."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "for-a-test" / "rules.toml"
        path.parent.mkdir()
        text = HEAD.format(place=path.parent.name) + "[rule]\n" + rules
        path.write_text(text, encoding="utf-8")
        sheet = load_sheet(path)
    return rules_in_force((sheet,), demo(name))


def reach(study: Study, name: str) -> ReachWater:
    return next(reach for reach in study.water.reaches if reach.name == name)


def node_at(study: Study, name: str) -> NodeWater:
    return next(node for node in study.water.nodes if node.name == name)


def near(value: float, printed: str) -> bool:
    """Tell whether a value comes out as printed, to half a unit of the last digit."""
    digit: float = 10.0 ** -len(printed.partition(".")[2])
    return abs(value - float(printed)) <= 0.5001 * digit


def in_metric(part: Any) -> Any:  # noqa: ANN401 - walks everything a job is made of
    """Return a job with each quantity written anew in a metric unit, and read again."""
    if isinstance(part, Frozen):
        fields = {name: in_metric(getattr(part, name)) for name in type(part).model_fields}
        return part.model_copy(update=fields)
    if isinstance(part, tuple):
        return tuple(in_metric(each) for each in part)
    return rewritten(part) if isinstance(part, Measure) else part


def rewritten(given: Measure) -> Measure:
    """Return a measure read from its own value written in a metric unit, if that is exact."""
    unit = METRIC.get(given.kind)
    if unit is None:
        return given
    number = given.in_(unit)
    text = f"{float(number):.{MOST_DIGITS}f}".rstrip("0").rstrip(".")
    return read_measure(f"{text} {unit}", given.kind) if Fraction(text) == number else given
