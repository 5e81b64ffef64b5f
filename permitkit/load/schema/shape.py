"""The pieces that the schemas of a rule sheet and of a job file are made of."""

from __future__ import annotations

from typing import Any

from permitkit.units import Kind
from permitkit.units.kinds import EXPECTED

__all__ = [
    "COUNT",
    "DAY",
    "FLAG",
    "MONEY",
    "TEXT",
    "Schema",
    "closed",
    "enum",
    "one_or_more",
    "quantities",
    "ref",
    "whole_file",
]

Schema = dict[str, Any]

TEXT: Schema = {"type": "string", "minLength": 1}
COUNT: Schema = {"type": "integer", "minimum": 0}
FLAG: Schema = {"type": "boolean"}
MONEY: Schema = {"type": ["integer", "number", "string"]}
DAY: Schema = {"description": "a date, such as 2026-04-06, without quotes"}


def whole_file(title: str, body: Schema, definitions: Schema) -> Schema:
    """Return the schema of a file: its title, what stands at its top, what that refers to."""
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": title,
        **body,
        "definitions": definitions,
    }


def quantities() -> Schema:
    """Return the definition of each kind of quantity: a text, and how it is written."""
    return {kind.value: {**TEXT, "description": EXPECTED[kind]} for kind in Kind}


def ref(name: str) -> Schema:
    """Return a reference to a definition."""
    return {"$ref": f"#/definitions/{name}"}


def closed(properties: Schema, required: tuple[str, ...] = ()) -> Schema:
    """Return a table that holds these fields and no other."""
    table = {"type": "object", "properties": properties, "additionalProperties": False}
    return table | ({"required": list(required)} if required else {})


def enum(words: tuple[str, ...]) -> Schema:
    """Return one of some words, or any text where there are none."""
    return {"enum": list(words)} if words else TEXT


def one_or_more(one: Schema) -> Schema:
    """Return a value, or a list of such values."""
    return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1}]}
