"""The office copy tells what a registration and a breach cost, beside the sums of the job."""

from __future__ import annotations

from datetime import date

import pytest
from demo_jobs import JOBS, ROOT

from permitkit.checks.judge import judge
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers, read_sheet
from permitkit.packet.office import office_parts
from permitkit.render.blocks import Table

REGISTER = """
[[edition]]
key = "fees.registration"
[[edition.case]]
line = [{ name = "registration", sum = 100, note = "for a year" }]
cite = "fees 1"
"""
BREACH = """
[[edition]]
key = "fees.penalty"
[[edition.case]]
line = [{ name = "violation", rate = 50, to = 750, per = "day" }]
cite = "fees 1"
"""
NEXT_YEAR = date(2027, 4, 1)


def beside(rules: str, until: date | None) -> list[tuple[str, ...]]:
    """Return what stands beside the sums, for a firm whose registration runs so long."""
    job = read_job(JOBS / "millrace-clean" / "job.toml")
    assert job.firm is not None
    held = tuple(one.model_copy(update={"until": until}) for one in job.firm.licence if until)
    job = job.model_copy(update={"firm": job.firm.model_copy(update={"licence": held})})
    town, *others = load_layers(job.town)
    path = ROOT / town.path
    text = path.read_text(encoding="utf-8") + rules
    parts = office_parts(judge(job, (read_sheet(text.encode(), path), *others)))
    (page,) = (part for part in parts if part.key == "money")
    tables = [block for block in page.blocks if isinstance(block, Table)]
    return [row for each in tables if "What it costs" in each.columns for row in each.rows]


RUNS = [(None, True), (date(2026, 4, 1), True), (NEXT_YEAR, False)]


@pytest.mark.parametrize(("until", "told"), RUNS)
def test_a_registration_is_told_where_the_firm_has_none_that_runs(
    until: date | None,
    told: bool,  # noqa: FBT001 - pytest hands it by name
) -> None:
    rows = [row[:2] for row in beside(REGISTER, until)]

    assert (("Registration", "registration: $100.00 (for a year)") in rows) is told


def test_what_a_breach_costs_is_told_and_not_added() -> None:
    rows = beside(BREACH, NEXT_YEAR)

    assert rows[-1][:2] == ("A breach", "violation: $50.00 to $750.00 per day")
