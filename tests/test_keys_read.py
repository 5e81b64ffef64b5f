"""Every rule key is read: by a check, a fee, the study or a page of the packet."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from town import edition, rules, state

from permitkit.checks.catalogue import CHECKS
from permitkit.load.guide.key_table import sample_value
from permitkit.model import keys
from permitkit.model.keys import KEYS
from permitkit.model.rules import RuleKey
from permitkit.packet.rules_page import noted
from permitkit.render.blocks import Table

PACKAGE = Path(__file__).resolve().parent.parent / "permitkit"
READERS = ("study", "packet", "drawing")
PAGE = PACKAGE / "packet" / "rules_page.py"


@cache
def constants() -> dict[str, set[str]]:
    """Return the names under which the code knows each key."""
    found: dict[str, set[str]] = {}
    for module in pkgutil.iter_modules(keys.__path__):
        for name, value in vars(importlib.import_module(f"{keys.__name__}.{module.name}")).items():
            if isinstance(value, RuleKey):
                found.setdefault(value.name, set()).add(name)
    return found


@cache
def names_used() -> frozenset[str]:
    """Return every name in the source of the study and the pages, where it is not imported."""
    files = [path for part in READERS for path in (PACKAGE / part).rglob("*.py") if path != PAGE]
    nodes = [node for path in files for node in ast.walk(ast.parse(path.read_text("utf-8")))]
    plain = {node.id for node in nodes if isinstance(node, ast.Name)}
    return frozenset(plain | {node.attr for node in nodes if isinstance(node, ast.Attribute)})


def in_the_source(key: RuleKey) -> bool:
    return not constants().get(key.name, set()).isdisjoint(names_used())


def by_a_check(key: RuleKey) -> bool:
    return any(key.name in check.names for check in CHECKS)


def on_the_rules_page(key: RuleKey) -> bool:
    told = noted(rules(saying(key)))
    return any(key.question in row for each in told if isinstance(each, Table) for row in each.rows)


def saying(key: RuleKey) -> str:
    """Return a sheet that answers one question."""
    value = sample_value(key).replace('"…', '"2').replace("= …", "= 2")
    return f'[rule]\n{key.name} = {{ {value}, cite = "code 7" }}\n'


@pytest.mark.parametrize("name", KEYS)
def test_every_key_is_read_by_a_check_the_study_or_a_page(name: str) -> None:
    key = KEYS[name]

    assert by_a_check(key) or in_the_source(key) or on_the_rules_page(key)


def test_a_key_that_nothing_reads_is_found() -> None:
    key = replace(KEYS["walk.slump"], name="walk.colour")

    assert not by_a_check(key)
    assert not in_the_source(key)


def test_what_a_check_reads_or_a_page_prints_whole_is_not_noted_once_more() -> None:
    assert noted(rules(saying(KEYS["core.bit"]), saying(KEYS["say.conditions"]))) == []


def test_rules_are_noted_in_the_towns_own_order_the_case_that_holds_alone() -> None:
    stamp = (
        "when = { curb = 'rolled' }\nyes = true\ncite = 'code 3'",
        "yes = true\ncite = 'code 12'",
    )

    told = noted(rules(saying(KEYS["walk.slump"]) + edition("packet.sketch", *stamp)))

    (table,) = (each for each in told if isinstance(each, Table))
    assert table.rows == (
        ("7", KEYS["walk.slump"].question, "at least 2 in"),
        ("12", KEYS["packet.sketch"].question, "yes"),
    )


def test_what_a_wider_sheet_says_is_not_the_towns_to_note() -> None:
    assert noted(rules("", state(saying(KEYS["walk.slump"])))) == []


def test_a_rule_that_tells_items_apart_is_noted_with_what_each_holds_under() -> None:
    key = KEYS["docs.governs"]
    cases = (
        f"when = {{ place = 'private' }}\none_of = '{key.words[0]}'\ncite = 'code 7'",
        f"one_of = '{key.words[1]}'\ncite = 'code 7'",
    )

    told = noted(rules(edition(key.name, *cases)))

    (table,) = (each for each in told if isinstance(each, Table))
    assert [row[2] for row in table.rows] == [
        f"{key.words[0]} (the pipe lies on private ground)",
        key.words[1],
    ]
