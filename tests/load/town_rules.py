"""Rules of a real town for a job: what its sheet says once some facts and sizes are set."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from demo_jobs import job_path

from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers, load_sheet
from permitkit.model.facts import FACTS, FactKind
from permitkit.model.papers import Answer
from permitkit.study.fees import work_out
from permitkit.study.in_force import rules_in_force
from permitkit.units import Kind, Measure, read_measure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.job import Job
    from permitkit.model.rules import Sheet
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import FeesStudy, MoneyTotal

TOWNS = Path(__file__).parent / "towns"
SHORT = tuple(sorted(path.stem for path in TOWNS.glob("*.toml")))
REAL = ("clinton-ia", "eugene-or", "lakeside-park-ky", "rolling-meadows-il", "silverton-or")

NO_SIZE = {
    "walk_area": "0 sq ft",
    "area": "0 sq ft",
    "pavement_area": "0 sq ft",
    "trench": "0 ft",
    "curb_length": "0 ft",
}
NOTHING_ELSE: dict[str, str | int] = {
    "area of verge": "0 sq ft",
    "length of walk": "0 ft",
    "location": 1,
    "block": 0,
    "street crossing": 0,
    "surface opened": 0,
    "sheet": 0,
}


def layers(town: str) -> tuple[Sheet, ...]:
    """Return a shipped town's sheet with what it follows, or the small sheet of another."""
    return load_layers(town) if town in REAL else (load_sheet(TOWNS / f"{town}.toml"),)


@lru_cache(maxsize=1)
def _plain_job() -> Job:
    return read_job(job_path("millrace-clean"))


def rules_of(
    town: str, *, filing: date = date(2026, 11, 23), street: str = "Tern Lane", **facts: object
) -> RulesInForce:
    """Return a town's rules for a plain job with some facts told in front of its own."""
    told = tuple(
        Answer(key=name, value={"is": value}, who="the test", how="said", on=filing)
        for name, value in facts.items()
    )
    job = _plain_job()
    named = job.street.model_copy(update={"name": street})
    changes = {"filing": filing, "answer": told, "street": named}
    return rules_in_force(layers(town), job.model_copy(update=changes))


def sized(rules: RulesInForce, **sizes: str | int) -> RulesInForce:
    """Return the rules once some sizes are known, the others being nothing."""
    return rules.with_sizes(
        {name: _size(name, size) for name, size in {**NO_SIZE, **sizes}.items()}
    )


def _size(name: str, size: str | int) -> Measure | int:
    kind = FACTS[name].quantity
    assert kind is not None or FACTS[name].kind is FactKind.COUNT
    return size if isinstance(size, int) or kind is None else read_measure(size, kind)  # type: ignore[return-value]


def paid(rules: RulesInForce, counted: Mapping[str, str | int] | None = None) -> FeesStudy:
    """Return fees, deposit and bond, for rules that know their sizes."""
    every = {**NOTHING_ELSE, **(counted or {})}
    return work_out(rules, {name: _counted(name, value) for name, value in every.items()})


def _counted(name: str, value: str | int) -> Measure | int:
    if isinstance(value, int):
        return value
    return read_measure(value, Kind.AREA if name.startswith("area") else Kind.LENGTH)


def in_all(total: MoneyTotal) -> str:
    """Return a sum that is wholly known, to the cent."""
    assert total.known, f"open: {', '.join(total.open)}"
    return f"{total.total:.2f}"


def lines(total: MoneyTotal) -> dict[str, str | None]:
    """Return each line's sum to the cent, or nothing where it is still to be set."""
    return {row.name: None if row.amount is None else f"{row.amount:.2f}" for row in total.rows}
