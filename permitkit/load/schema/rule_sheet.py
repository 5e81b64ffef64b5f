"""A JSON Schema of rule sheets, so that an editor can complete them while they are typed."""

from __future__ import annotations

from typing import Any

from permitkit.load.guide.key_table import sample_value
from permitkit.load.schema.shape import (
    COUNT,
    DAY,
    FLAG,
    MONEY,
    TEXT,
    Schema,
    closed,
    enum,
    one_or_more,
    quantities,
    ref,
    whole_file,
)
from permitkit.load.sheet.head import KINDS, SHEET_WORDS, SOURCE_WORDS, STANDINGS
from permitkit.model.facts import FACTS, Fact, FactKind
from permitkit.model.keys import KEYS
from permitkit.model.money import PER
from permitkit.model.reading import value_words
from permitkit.model.reading.cases import WAIVER_WORDS
from permitkit.model.reading.dates import CLOCKS, PAPERS
from permitkit.model.reading.fees import LINE_WORDS
from permitkit.model.reading.lists import COVER_SUMS, ITEM_WORDS
from permitkit.model.reading.terms import TERM_WORDS
from permitkit.model.rules import RuleKey, ValueKind
from permitkit.model.vocabulary.conditions import CALLED
from permitkit.units import Kind

__all__ = ["rule_sheet_schema"]

_TEXTS = one_or_more(TEXT)
_CLOCK: Schema = {"anyOf": [enum(CLOCKS), TEXT]}


def rule_sheet_schema() -> dict[str, Any]:
    """Return the JSON Schema of `rules.toml`, made from the keys and facts as declared."""
    body = closed(
        {
            "schema": {"const": 1},
            "sheet": _sheet(),
            "source": {"type": "object", "additionalProperties": _source()},
            "rule": _families(),
            "edition": {"type": "array", "items": _edition()},
            "permit": {"type": "array", "items": _permit()},
        },
        ("schema", "sheet"),
    )
    definitions = {
        "when": _when(),
        "cite": _cite(),
        "waivers": _waivers(),
        "item": _item(),
        "time": _time(),
        "cover": _cover(),
        "line": _line(),
        "term": _term(),
        **quantities(),
        **{key.name: _value(key) for key in KEYS.values()},
    }
    return whole_file("permitkit rule sheet", body, definitions)


def _sheet() -> Schema:
    """Return the head of a sheet."""
    special = {
        "kind": enum(KINDS),
        "follows": _TEXTS,
        "checked": DAY,
        "due": DAY,
        "standing": enum(STANDINGS),
        "units": enum(("us", "metric")),
        "closings": {"type": "object", "additionalProperties": TEXT},
        "listed_streets": {"type": "object", "additionalProperties": _listed_street()},
        "paved": {"type": "object", "additionalProperties": DAY},
    }
    fields = {name: special.get(name, TEXT) for name in SHEET_WORDS}
    return closed(fields, ("place", "title", "checked", "due"))


def _listed_street() -> Schema:
    """Return whose a street is, or parts of it."""
    texts = dict.fromkeys(("authority", "part", "sheet"), TEXT)
    part = closed({**texts, "between": _TEXTS, "holds": FLAG}, ("authority",))
    return {"anyOf": [TEXT, part, {"type": "array", "items": part, "minItems": 1}]}


def _source() -> Schema:
    days = {"read", "dated"}
    return closed({name: DAY if name in days else TEXT for name in SOURCE_WORDS}, ("title",))


def _families() -> Schema:
    """Return the short form: a table for each family, a case or several for each key."""
    families: dict[str, Schema] = {}
    for key in KEYS.values():
        one = ref(key.name)
        several = {"type": "array", "items": one, "minItems": 1}
        member = {key.name.partition(".")[2]: {"anyOf": [one, several]}}
        families.setdefault(key.family, {}).update(member)
    return closed({family: closed(members) for family, members in families.items()})


def _edition() -> Schema:
    """Return the long form; what a case may hold depends on the key."""
    choices = [
        {
            "if": {"properties": {"key": {"const": key.name}}},
            "then": {"properties": {"case": {"items": ref(key.name)}}},
        }
        for key in KEYS.values()
    ]
    fields = {"key": enum(tuple(KEYS)), "since": DAY, "note": TEXT, "case": {"type": "array"}}
    return closed(fields, ("key",)) | {"allOf": choices}


def _value(key: RuleKey) -> Schema:
    """Return what a case of a key may hold."""
    main, beside = value_words(key)
    fields = {name: _field(key, name) for name in (*main, *beside)}
    fields |= {"ask": TEXT, "by_reference": TEXT, "no_rule": {"const": True}}
    fields |= {"cite": ref("cite"), "waivable_by": ref("waivers"), "note": TEXT}
    fields |= {"when": ref("when")}
    return closed(fields) | {"description": f"{key.question} For example: {sample_value(key)}"}


def _field(key: RuleKey, name: str) -> Schema:
    """Return what one value word of a key may hold."""
    if name in {"at_least", "at_most", "exactly", "rain"}:
        return _amount(key)
    special: dict[str, Schema] = {
        "sizes": {"type": "array", "items": _amount(key)},
        "of": enum(key.of),
        "from": enum(key.origin),
        "yes": FLAG,
        "stance": enum(key.words),
        "one_of": one_or_more(_words(key)),
        "order": one_or_more(_words(key)),
        "reason_needed": FLAG,
        "say": _TEXTS,
        "items": {"type": "array", "items": {"anyOf": [TEXT, ref("item")]}},
        "clock": _CLOCK,
        "ends_with": enum(PAPERS),
        "lesser_of": {"type": "array", "items": {"anyOf": [TEXT, ref("time")]}, "minItems": 2},
        "greater_of": {"type": "array", "items": {"anyOf": [TEXT, ref("time")]}, "minItems": 2},
        "soft_end": FLAG,
        "hours": _TEXTS,
        "week": {"type": "array", "items": closed({"hours": _TEXTS, "days": _TEXTS}, ("hours",))},
        "closed": _seasons(),
        "open": _seasons(),
        "days": _TEXTS,
        "line": {"type": "array", "items": ref("line")},
        "covers": {"type": "array", "items": ref("cover")},
    }
    return special.get(name, TEXT)


def _words(key: RuleKey) -> Schema:
    """Return the words a key takes; they are offered alone where a sheet may use its own."""
    known = enum(key.words)
    return {"anyOf": [known, TEXT]} if key.own_words else known


def _amount(key: RuleKey) -> Schema:
    """Return a quantity of the key's kind, or a whole number where it counts."""
    if key.kind is ValueKind.LIMIT and key.quantity is None:
        return COUNT
    return ref(key.quantity.value if key.quantity else Kind.INTENSITY.value)


def _item() -> Schema:
    return closed({**dict.fromkeys(ITEM_WORDS, TEXT), "clock": _CLOCK}, ("name",))


def _seasons() -> Schema:
    """Return one part of the year, or several."""
    table = closed({"season": TEXT, "soft_end": FLAG}, ("season",))
    return {"anyOf": [TEXT, {"type": "array", "items": {"anyOf": [TEXT, table]}, "minItems": 1}]}


def _time() -> Schema:
    """Return one of several times."""
    texts = dict.fromkeys(("span", "by", "before", "earliest", "cutoff"), TEXT)
    return closed({**texts, "ends_with": enum(PAPERS), "clock": _CLOCK})


def _cover() -> Schema:
    sums = dict.fromkeys(COVER_SUMS, MONEY)
    return closed({"kind": TEXT, **sums, "by_law": FLAG, "note": TEXT}, ("kind",))


def _cite() -> Schema:
    table = closed({"source": TEXT, "section": TEXT, "page": TEXT}, ("source",))
    return {"anyOf": [TEXT, table], "description": "a source and its section: code 12.08"}


def _waivers() -> Schema:
    texts = {"any_of", "all_of"}
    step = closed({name: _TEXTS if name in texts else TEXT for name in WAIVER_WORDS})
    return {"anyOf": [TEXT, step, {"type": "array", "items": {"anyOf": [TEXT, step]}}]}


def _when() -> Schema:
    """Return a condition: facts that must all hold, or a list of such tables."""
    table = closed({fact.name: _condition(fact) for fact in FACTS.values()})
    return {"anyOf": [table, {"type": "array", "items": table, "minItems": 1}]}


def _condition(fact: Fact) -> Schema:
    """Return what fits one fact."""
    told: Schema = {"description": fact.question}
    if fact.kind is FactKind.YES_NO:
        return FLAG | told
    if fact.kind in {FactKind.WORD, FactKind.NAME}:
        return one_or_more(_fact_words(fact)) | told
    if fact.kind is FactKind.SEASON:
        return TEXT | told
    names = (
        ("before", "from") if fact.kind is FactKind.DAY else ("over", "at_least", "up_to", "under")
    )
    kinds = {FactKind.DAY: DAY, FactKind.COUNT: COUNT, FactKind.MONEY: MONEY}
    end = ref(fact.quantity.value) if fact.quantity else kinds[fact.kind]
    aged = {"within": TEXT, "older_than": TEXT} if fact.kind is FactKind.DAY else {}
    return closed({**dict.fromkeys(names, end), **aged}) | told


def _fact_words(fact: Fact) -> Schema:
    """Return the words of a fact, with what else it is called by."""
    return enum(tuple(dict.fromkeys((*fact.words, *CALLED.get(fact.name, ())))))


def _term() -> Schema:
    return closed(_term_fields())


def _term_fields() -> Schema:
    """Return the fields of a sum of money."""
    terms: Schema = {"type": "array", "items": ref("term"), "minItems": 1}
    special: dict[str, Schema] = {
        "per": {"anyOf": [enum(PER), TEXT]},
        "whole_units": FLAG,
        "whole": FLAG,
        "once": enum(("greatest",)),
        "count": COUNT,
        "percent": {"type": "number"},
        "tiers": {"type": "array", "items": _tier()},
        "greater_of": terms,
        "lesser_of": terms,
        "sum_of": terms,
        "by": enum(tuple(FACTS)),
        "rows": {"type": "object", "additionalProperties": ref("term")},
        "otherwise": ref("term"),
        "free": {},
        "first": {},
        "each": {},
        "least_units": {},
    }
    sums = {"sum", "to", "rate", "first_sum", "each_sum"}
    plain = {name: MONEY if name in sums else TEXT for name in TERM_WORDS}
    return plain | special


def _tier() -> Schema:
    return closed({"up_to": {}, "rate": MONEY, "plus": MONEY})


def _line() -> Schema:
    """Return a line of money: its term, its bounds, its condition."""
    special: dict[str, Schema] = {
        "when": ref("when"),
        "least": MONEY,
        "most": MONEY,
        "kept": MONEY,
        "begun_times": {"type": "number"},
        "refundable": FLAG,
        "cap": FLAG,
        "floor": FLAG,
        "true_up": FLAG,
    }
    fields = {name: special.get(name, TEXT) for name in LINE_WORDS}
    return closed(_term_fields() | fields, ("name",))


def _permit() -> Schema:
    texts = ("id", "title", "issuer", "form", "form_edition", "note")
    fields: Schema = dict.fromkeys(texts, TEXT)
    fields |= {"when": ref("when"), "cite": ref("cite")}
    return closed(fields, ("id", "title", "issuer"))
