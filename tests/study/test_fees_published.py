"""Fees as towns publish them, each to the cent."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from town import edition, rules

from permitkit.model.money import PER_UNITS
from permitkit.study.fees import work_out
from permitkit.units import Kind, Measure, read_measure

PUBLISHED = Path(__file__).resolve().parent.parent / "published" / "fees.toml"
ROWS = tomllib.loads(PUBLISHED.read_text(encoding="utf-8"))["fee"]
CASES = [(row, case) for row in ROWS for case in row["case"]]


def measured(name: str, value: str | int) -> Measure | int:
    """Return a count as it stands, a quantity of the unit's own kind."""
    if isinstance(value, int):
        return value
    return read_measure(
        value, PER_UNITS[name].kind or Kind.LENGTH if name in PER_UNITS else Kind.LENGTH
    )


def answers(facts: dict[str, Any]) -> list[dict[str, Any]]:
    told = {"who": "A. Name", "how": "by letter", "on": date(2026, 4, 1)}
    return [told | {"key": name, "value": {"is": value}} for name, value in facts.items()]


@pytest.mark.parametrize(
    ("row", "case"), CASES, ids=[f"{r['town']} {r['name']} {c['amount']}" for r, c in CASES]
)
def test_a_published_fee_comes_to_the_published_figure(
    row: dict[str, Any], case: dict[str, Any]
) -> None:
    town = edition(row["key"], f"line = [{{ name = 'it', {row['written']} }}]\ncite = 'code 1'")
    quantities = {name: measured(name, it) for name, it in case.get("measured", {}).items()}

    study = work_out(rules(town, answer=answers(case.get("facts", {}))), quantities)

    total = {"lines": study.fees, "deposit": study.deposit, "bond": study.bond}
    found = total[row["key"].partition(".")[2]]
    assert str(found.total) == case["amount"]
    assert found.known


@pytest.mark.parametrize("row", ROWS, ids=[f"{row['town']} {row['name']}" for row in ROWS])
def test_a_published_fee_names_its_source(row: dict[str, Any]) -> None:
    assert row["source"]
    assert row["address"].startswith("http")
    assert row["known"] in {"seen", "memory"}


def test_there_are_many_towns() -> None:
    assert len({row["town"] for row in ROWS}) >= 20
