"""The editor's schema and the guide's tables, made from the code."""

from __future__ import annotations

import json
import tomllib
from typing import TYPE_CHECKING, Any

import pytest
from key_uses import key_uses
from sheet_text import case

from permitkit.load.find_sheet import find_sheet, list_places
from permitkit.load.guide.key_table import fact_table, key_table, sample_value
from permitkit.load.schema import rule_sheet_schema
from permitkit.model.facts import FACTS
from permitkit.model.keys import KEYS

if TYPE_CHECKING:
    from permitkit.model.rules import RuleKey

SCHEMA = rule_sheet_schema()
Schema = dict[str, Any]


def wrong(value: Any, schema: Schema, place: str = "") -> list[str]:  # noqa: ANN401 - as a file holds
    """Return where a value breaks the part of JSON Schema that ours is written in."""
    if "$ref" in schema:
        return wrong(value, SCHEMA["definitions"][schema["$ref"].rpartition("/")[2]], place)
    if "anyOf" in schema:
        tries = [wrong(value, one, place) for one in schema["anyOf"]]
        return [] if [] in tries else tries[-1]
    found = [] if right_type(value, schema) else [f"{place}: {value!r} is no {schema['type']}"]
    if "enum" in schema and value not in schema["enum"]:
        found.append(f"{place}: {value!r} is none of {schema['enum']}")
    if "const" in schema and value != schema["const"]:
        found.append(f"{place}: {value!r} is not {schema['const']!r}")
    if isinstance(value, dict):
        found += wrong_table(value, schema, place)
    if isinstance(value, list):
        items = schema.get("items", {})
        found += [
            fault for n, row in enumerate(value) for fault in wrong(row, items, f"{place}[{n}]")
        ]
    return found


def wrong_table(table: dict[str, Any], schema: Schema, place: str) -> list[str]:
    """Return where a table breaks its schema."""
    properties, others = schema.get("properties", {}), schema.get("additionalProperties", True)
    found = [f"{place}: no {name}" for name in schema.get("required", ()) if name not in table]
    for name, value in table.items():
        if name in properties:
            found += wrong(value, properties[name], f"{place}.{name}")
        elif others is False:
            found.append(f"{place}: {name} is not known")
        elif isinstance(others, dict):
            found += wrong(value, others, f"{place}.{name}")
    for rule in schema.get("allOf", ()):
        if not wrong(table, rule["if"], place):
            found += wrong(table, rule["then"], place)
    return found


def right_type(value: object, schema: Schema) -> bool:
    kinds = schema.get("type", "any")
    types = {
        "any": object,
        "object": dict,
        "array": list,
        "string": str,
        "integer": int,
        "boolean": bool,
        "number": int | float,
    }
    return any(
        isinstance(value, types[kind])
        and (kind in {"boolean", "any"} or not isinstance(value, bool))
        for kind in ([kinds] if isinstance(kinds, str) else kinds)
    )


@pytest.mark.parametrize("place", list_places())
def test_every_shipped_sheet_keeps_to_the_schema(place: str) -> None:
    table = tomllib.loads(find_sheet(place).read_text(encoding="utf-8"))

    assert wrong(table, SCHEMA) == []


@pytest.mark.parametrize(
    "broken",
    [
        {"rule": {"core": {"bitt": {"at_most": "4 in"}}}},
        {"rule": {"core": {"bit": {"at_most": 4}}}},
        {"rule": {"core": {"bit": {"stance": "barred"}}}},
        {"rule": {"outlet": {"allowed": {"stance": "forbidden"}}}},
        {"rule": {"outlet": {"count": {"at_most": "2"}}}},
        {"edition": [{"key": "core.bitt"}]},
        {"edition": [{"key": "core.bit", "case": [{"when": {"crub": "rolled"}}]}]},
        {"edition": [{"key": "core.bit", "case": [{"stance": "barred"}]}]},
        {"edition": [{"key": "core.bit", "case": [{"when": {"lanes": {"over": "2"}}}]}]},
        {"rule": {"fees": {"lines": {"line": [{"name": "a", "per": 3}]}}}},
        {"rules": {}},
        {"schema": 2},
    ],
)
def test_a_broken_sheet_breaks_the_schema(broken: dict[str, Any]) -> None:
    head = {"place": "a", "title": "A", "checked": 1, "due": 1}

    assert wrong({"schema": 1, "sheet": head}, SCHEMA) == []
    assert wrong({"schema": 1, "sheet": head} | broken, SCHEMA)


def test_the_schema_is_plain_json_and_the_same_each_time() -> None:
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA
    assert json.dumps(rule_sheet_schema()) == json.dumps(SCHEMA)


def test_every_key_can_be_written_in_both_forms_by_the_schema() -> None:
    rules = SCHEMA["properties"]["rule"]["properties"]

    for key in KEYS.values():
        assert key.name.partition(".")[2] in rules[key.family]["properties"]
        assert key.question in SCHEMA["definitions"][key.name]["description"]


def test_the_table_of_keys_has_a_row_for_each() -> None:
    rows = key_table(key_uses()).splitlines()

    assert len(rows) == len(KEYS) + 2
    assert {row.count("|") for row in rows} == {9}
    assert rows[2].startswith("| `access.cross_slope` | How steep may the walk fall across? |")
    assert "the strictest sheet's" in rows[2]


def test_the_table_of_facts_has_a_row_for_each() -> None:
    rows = fact_table().splitlines()

    assert len(rows) == len(FACTS) + 2
    assert {row.count("|") for row in rows} == {5}
    assert any(
        "| the posted speed | `{ over = … }`, `{ up_to = … }` with a speed |" in r for r in rows
    )
    assert any("| computed |" in row for row in rows)
    assert any("| each item |" in row for row in rows)


@pytest.mark.parametrize("key", KEYS.values(), ids=lambda key: key.name)
def test_the_sample_of_each_key_loads_once_its_figure_is_filled_in(key: RuleKey) -> None:
    text = sample_value(key).replace('"…', '"2').replace("= …", "= 2")

    assert case(key.name, text).value is not None


def test_every_key_is_declared_once() -> None:
    assert len(set(KEYS.values())) == len(KEYS)
    assert all(name == key.name for name, key in KEYS.items())


def test_every_question_ends_as_one() -> None:
    for key in KEYS.values():
        assert key.question.endswith("?"), key.name
