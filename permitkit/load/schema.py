"""A JSON Schema of rule sheets, so that an editor can complete them while they are typed."""

from __future__ import annotations

from typing import Any

from permitkit.load.guide.key_table import sample_value
from permitkit.load.sheet.head import KINDS, SHEET_WORDS, SOURCE_WORDS, STANDINGS
from permitkit.model.facts import FACTS, Fact, FactKind
from permitkit.model.keys import KEYS
from permitkit.model.money import PER
from permitkit.model.reading import VALUE_WORDS
from permitkit.model.reading.cases import WAIVER_WORDS
from permitkit.model.reading.fees import LINE_WORDS
from permitkit.model.reading.lists import COVER_SUMS, ITEM_WORDS
from permitkit.model.reading.seasons import CLOCKS
from permitkit.model.reading.terms import TERM_WORDS
from permitkit.model.rules import RuleKey, ValueKind
from permitkit.units import Kind
from permitkit.units.kinds import EXPECTED

__all__ = ["rule_sheet_schema"]

Schema = dict[str, Any]

_TEXT: Schema = {"type": "string", "minLength": 1}
_TEXTS: Schema = {"anyOf": [_TEXT, {"type": "array", "items": _TEXT, "minItems": 1}]}
_COUNT: Schema = {"type": "integer", "minimum": 0}
_FLAG: Schema = {"type": "boolean"}
_MONEY: Schema = {"type": ["integer", "number", "string"]}
_DAY: Schema = {"description": "a date, such as 2026-04-06, without quotes"}


def rule_sheet_schema() -> dict[str, Any]:
    """Return the JSON Schema of `rules.toml`, made from the keys and facts as declared."""
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "permitkit rule sheet",
        **_closed(
            {
                "schema": {"const": 1},
                "sheet": _sheet(),
                "source": {"type": "object", "additionalProperties": _source()},
                "rule": _families(),
                "edition": {"type": "array", "items": _edition()},
                "permit": {"type": "array", "items": _permit()},
            },
            ("schema", "sheet"),
        ),
        "definitions": {
            "when": _when(),
            "cite": _cite(),
            "waivers": _waivers(),
            "item": _item(),
            "cover": _cover(),
            "line": _line(),
            "term": _term(),
            **{kind.value: {**_TEXT, "description": EXPECTED[kind]} for kind in Kind},
            **{key.name: _value(key) for key in KEYS.values()},
        },
    }


def _ref(name: str) -> Schema:
    return {"$ref": f"#/definitions/{name}"}


def _closed(properties: Schema, required: tuple[str, ...] = ()) -> Schema:
    """Return a table that holds these fields and no other."""
    closed = {"type": "object", "properties": properties, "additionalProperties": False}
    return closed | ({"required": list(required)} if required else {})


def _enum(words: tuple[str, ...]) -> Schema:
    return {"enum": list(words)} if words else _TEXT


def _some(words: tuple[str, ...]) -> Schema:
    """Return one word, or a list of words."""
    return {"anyOf": [_enum(words), {"type": "array", "items": _enum(words), "minItems": 1}]}


def _sheet() -> Schema:
    """Return the head of a sheet."""
    special = {
        "kind": _enum(KINDS),
        "follows": _TEXTS,
        "checked": _DAY,
        "due": _DAY,
        "standing": _enum(STANDINGS),
        "units": _enum(("us", "metric")),
        "closings": {"type": "object", "additionalProperties": _TEXT},
        "listed_streets": {"type": "object", "additionalProperties": _TEXT},
        "paved": {"type": "object", "additionalProperties": _DAY},
    }
    fields = {name: special.get(name, _TEXT) for name in SHEET_WORDS}
    return _closed(fields, ("place", "title", "checked", "due"))


def _source() -> Schema:
    days = {"read", "dated"}
    return _closed({name: _DAY if name in days else _TEXT for name in SOURCE_WORDS}, ("title",))


def _families() -> Schema:
    """Return the short form: a table for each family, a case or several for each key."""
    families: dict[str, Schema] = {}
    for key in KEYS.values():
        one = _ref(key.name)
        several = {"type": "array", "items": one, "minItems": 1}
        member = {key.name.partition(".")[2]: {"anyOf": [one, several]}}
        families.setdefault(key.family, {}).update(member)
    return _closed({family: _closed(members) for family, members in families.items()})


def _edition() -> Schema:
    """Return the long form; what a case may hold depends on the key."""
    choices = [
        {
            "if": {"properties": {"key": {"const": key.name}}},
            "then": {"properties": {"case": {"items": _ref(key.name)}}},
        }
        for key in KEYS.values()
    ]
    fields = {"key": _enum(tuple(KEYS)), "since": _DAY, "note": _TEXT, "case": {"type": "array"}}
    return _closed(fields, ("key",)) | {"allOf": choices}


def _value(key: RuleKey) -> Schema:
    """Return what a case of a key may hold."""
    main, beside = VALUE_WORDS[key.kind]
    fields = {name: _field(key, name) for name in (*main, *beside)}
    fields |= {"ask": _TEXT, "by_reference": _TEXT, "no_rule": {"const": True}}
    fields |= {"cite": _ref("cite"), "waivable_by": _ref("waivers"), "note": _TEXT}
    fields |= {"when": _ref("when")}
    return _closed(fields) | {"description": f"{key.question} For example: {sample_value(key)}"}


def _field(key: RuleKey, name: str) -> Schema:
    """Return what one value word of a key may hold."""
    if name in {"at_least", "at_most", "exactly", "rain"}:
        return _amount(key)
    special: dict[str, Schema] = {
        "sizes": {"type": "array", "items": _amount(key)},
        "of": _enum(key.of),
        "from": _enum(key.origin),
        "yes": _FLAG,
        "stance": _enum(key.words),
        "one_of": _some(key.words),
        "order": _some(key.words),
        "reason_needed": _FLAG,
        "say": _TEXTS,
        "items": {"type": "array", "items": {"anyOf": [_TEXT, _ref("item")]}},
        "clock": _enum(CLOCKS),
        "soft_end": _FLAG,
        "hours": _TEXTS,
        "days": _TEXTS,
        "line": {"type": "array", "items": _ref("line")},
        "covers": {"type": "array", "items": _ref("cover")},
    }
    return special.get(name, _TEXT)


def _amount(key: RuleKey) -> Schema:
    """Return a quantity of the key's kind, or a whole number where it counts."""
    if key.kind is ValueKind.LIMIT and key.quantity is None:
        return _COUNT
    return _ref(key.quantity.value if key.quantity else Kind.INTENSITY.value)


def _item() -> Schema:
    fields = dict.fromkeys(ITEM_WORDS, _TEXT)
    return _closed({**fields, "clock": _enum(CLOCKS)}, ("name",))


def _cover() -> Schema:
    sums = dict.fromkeys(COVER_SUMS, _MONEY)
    return _closed({"kind": _TEXT, **sums, "by_law": _FLAG, "note": _TEXT}, ("kind",))


def _cite() -> Schema:
    table = _closed({"source": _TEXT, "section": _TEXT, "page": _TEXT}, ("source",))
    return {"anyOf": [_TEXT, table], "description": "a source and its section: code 12.08"}


def _waivers() -> Schema:
    texts = {"any_of", "all_of"}
    step = _closed({name: _TEXTS if name in texts else _TEXT for name in WAIVER_WORDS})
    return {"anyOf": [_TEXT, step, {"type": "array", "items": {"anyOf": [_TEXT, step]}}]}


def _when() -> Schema:
    """Return a condition: facts that must all hold, or a list of such tables."""
    table = _closed({fact.name: _condition(fact) for fact in FACTS.values()})
    return {"anyOf": [table, {"type": "array", "items": table, "minItems": 1}]}


def _condition(fact: Fact) -> Schema:
    """Return what fits one fact."""
    told: Schema = {"description": fact.question}
    if fact.kind is FactKind.YES_NO:
        return _FLAG | told
    if fact.kind in {FactKind.WORD, FactKind.NAME}:
        return _some(fact.words) | told
    if fact.kind is FactKind.SEASON:
        return _TEXT | told
    names = (
        ("before", "from") if fact.kind is FactKind.DAY else ("over", "at_least", "up_to", "under")
    )
    kinds = {FactKind.DAY: _DAY, FactKind.COUNT: _COUNT, FactKind.MONEY: _MONEY}
    end = _ref(fact.quantity.value) if fact.quantity else kinds[fact.kind]
    return _closed(dict.fromkeys(names, end)) | told


def _term() -> Schema:
    return _closed(_term_fields())


def _term_fields() -> Schema:
    """Return the fields of a sum of money."""
    terms: Schema = {"type": "array", "items": _ref("term"), "minItems": 1}
    special: dict[str, Schema] = {
        "per": _enum(PER),
        "whole_units": _FLAG,
        "whole": _FLAG,
        "count": _COUNT,
        "percent": {"type": "number"},
        "tiers": {"type": "array", "items": _tier()},
        "greater_of": terms,
        "lesser_of": terms,
        "sum_of": terms,
        "by": _enum(tuple(FACTS)),
        "rows": {"type": "object", "additionalProperties": _ref("term")},
        "otherwise": _ref("term"),
        "free": {},
        "first": {},
        "each": {},
        "least_units": {},
    }
    sums = {"sum", "to", "rate", "first_sum", "each_sum"}
    plain = {name: _MONEY if name in sums else _TEXT for name in TERM_WORDS}
    return plain | special


def _tier() -> Schema:
    return _closed({"up_to": {}, "rate": _MONEY, "plus": _MONEY})


def _line() -> Schema:
    """Return a line of money: its term, its bounds, its condition."""
    special: dict[str, Schema] = {
        "when": _ref("when"),
        "least": _MONEY,
        "most": _MONEY,
        "kept": _MONEY,
        "begun_times": {"type": "number"},
        "refundable": _FLAG,
        "cap": _FLAG,
        "true_up": _FLAG,
    }
    fields = {name: special.get(name, _TEXT) for name in LINE_WORDS}
    return _closed(_term_fields() | fields, ("name",))


def _permit() -> Schema:
    texts = ("id", "title", "issuer", "form", "form_edition", "note")
    fields: Schema = dict.fromkeys(texts, _TEXT)
    fields |= {"when": _ref("when"), "cite": _ref("cite")}
    return _closed(fields, ("id", "title", "issuer"))
