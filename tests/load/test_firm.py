from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from demo_jobs import ROOT, job_path

from permitkit.errors import InputError
from permitkit.load.find_sheet import list_places
from permitkit.load.firm import find_firm, read_firm
from permitkit.load.rule_sheet import load_layers
from permitkit.model.values import Insurance
from permitkit.model.words import PolicyKind, choices

if TYPE_CHECKING:
    from pathlib import Path


def test_the_demo_firm_is_sound() -> None:
    firm, faults = read_firm(ROOT / "demo" / "firm.toml")

    assert faults == []
    assert firm is not None
    assert [policy.town for policy in firm.policy if policy.kind == "bond"] == ["sorrel-flats"]
    assert {policy.each for policy in firm.policy if policy.kind == "general liability"} == {
        Decimal(1_000_000)
    }


def test_the_firm_beside_the_job_stands_in_front_of_the_one_above() -> None:
    assert (
        find_firm(job_path("millrace-faulty")) == job_path("millrace-faulty").parent / "firm.toml"
    )
    assert find_firm(job_path("millrace-clean")) == ROOT / "demo" / "firm.toml"


def test_a_job_far_from_any_firm_has_none(tmp_path: Path) -> None:
    assert find_firm(tmp_path / "jobs" / "one" / "job.toml") is None


def test_every_fault_of_a_firm_file_is_told_at_once(tmp_path: Path) -> None:
    path = tmp_path / "firm.toml"
    text = (ROOT / "demo" / "firm.toml").read_text()
    path.write_text(
        text.replace("schema = 1", "")
        .replace("phone_24h", "phone_24")
        .replace("each = 5_000", 'each = "about 5,000"')
    )

    firm, faults = read_firm(path)

    assert firm is None
    assert [fault.where.removeprefix(f"{path}: ") for fault in faults] == [
        "schema",
        "phone_24h",
        "policy[6].each",
        "phone_24",
    ]
    assert faults[-1].fix == "did you mean phone_24h or phone?"


def test_every_cover_a_town_asks_for_is_one_a_firm_can_hold() -> None:
    sheets = [load_layers(place)[0] for place in list_places()]
    rules = [rule for sheet in sheets if (rule := sheet.rules.get("docs.insurance"))]
    values = [case.value for rule in rules for edition in rule.editions for case in edition.cases]

    asked = {
        cover.kind for value in values if isinstance(value, Insurance) for cover in value.covers
    }

    assert "owners and contractors protective" in asked
    assert asked <= set(choices(PolicyKind))


@pytest.mark.parametrize(("schema", "found"), [("schema = 2", "2"), ("", "nothing")])
def test_a_firm_file_says_its_schema(schema: str, found: str, tmp_path: Path) -> None:
    path = tmp_path / "firm.toml"
    text = (ROOT / "demo" / "firm.toml").read_text()
    path.write_text(text.replace("schema = 1", schema))

    _, faults = read_firm(path)

    assert [(fault.found, fault.expected) for fault in faults] == [(found, "schema = 1")]


def test_a_firm_file_that_is_not_toml_is_told(tmp_path: Path) -> None:
    path = tmp_path / "firm.toml"
    path.write_text("name = Larkspur\n")

    with pytest.raises(InputError, match="a text in quotes"):
        read_firm(path)
