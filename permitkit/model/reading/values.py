"""Values: what a sheet writes for each kind of rule, read into the model."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.reading.amounts import read_limit, read_rain
from permitkit.model.reading.dates import SPAN_WORDS, read_hours, read_seasons, read_time
from permitkit.model.reading.fees import read_fees
from permitkit.model.reading.lists import read_insurance, read_items, read_order, read_sentences
from permitkit.model.reading.spelling import listed
from permitkit.model.rules import ValueKind
from permitkit.model.values import Ask, ByReference, NoRule, Stance, Words, YesNo
from permitkit.model.vocabulary.pipes import PIPE_WORDS, marks

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from permitkit.model.reading.written import Written
    from permitkit.model.rules import RuleKey, Source
    from permitkit.model.values import Value

__all__ = ["HONEST_WORDS", "read_value", "value_words"]

HONEST_WORDS = ("ask", "by_reference", "no_rule")

_VALUE_WORDS: dict[ValueKind, tuple[tuple[str, ...], tuple[str, ...]]] = {
    ValueKind.LIMIT: (("at_least", "at_most", "exactly", "sizes"), ("of", "from")),
    ValueKind.YES_NO: (("yes",), ()),
    ValueKind.STANCE: (("stance",), ()),
    ValueKind.WORDS: (("one_of",), ()),
    ValueKind.ORDER: (("order",), ("reason_needed",)),
    ValueKind.SENTENCES: (("say",), ()),
    ValueKind.ITEMS: (("items",), ()),
    ValueKind.SPAN: (
        (*SPAN_WORDS, "lesser_of", "greater_of"),
        ("clock", "earliest", "cutoff"),
    ),
    ValueKind.SEASON: (("closed", "open"), ("soft_end",)),
    ValueKind.HOURS: (("hours", "week"), ("days",)),
    ValueKind.RAIN: (("rain",), ("period", "duration")),
    ValueKind.FEES: (("line",), ()),
    ValueKind.INSURANCE: (("covers",), ()),
}
"""For each kind the words that state its value, and the words that may stand beside them."""


def value_words(key: RuleKey) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the words that state a key's value, and the words that may stand beside them."""
    main, beside = _VALUE_WORDS[key.kind]
    if key.also is not None:
        others, others_beside = _VALUE_WORDS[key.also]
        main, beside = (*main, *others), (*beside, *others_beside)
    return main, beside


def read_value(table: Written, key: RuleKey, sources: Mapping[str, Source]) -> Value | None:
    """Return the one value a case states for its key, or nothing where it states none right."""
    main, beside = value_words(key)
    stated = [name for name in (*main, *HONEST_WORDS) if table.has(name)]
    if not stated:
        _tell_missing(table, key, main)
        for name in beside:
            table.take(name)
        return None
    if len(stated) > 1 and set(stated) != {"at_least", "at_most"}:
        table.fault("", " and ".join(stated), "one value", "give each its own case")
    if stated[0] in HONEST_WORDS:
        return _read_honest(table, stated[0])
    for name in beside:
        table.take(name)
    if key.kind is ValueKind.FEES:
        return read_fees(table, sources)
    kind = key.kind if stated[0] in _VALUE_WORDS[key.kind][0] else key.also or key.kind
    return _READERS[kind](table, key)


def _tell_missing(table: Written, key: RuleKey, main: tuple[str, ...]) -> None:
    """Note that a case states no value, or states one of another kind."""
    others = {word for words, _ in _VALUE_WORDS.values() for word in words}
    found = [name for name in table.table if name in others]
    for name in found:
        table.take(name)
    expected = f"for {key.name}, {_KIND_NOUNS[key.kind]}: one of {listed(main)}"
    table.fault("", " and ".join(found) or "no value", expected, "or ask, by_reference, no_rule")


def _read_honest(table: Written, name: str) -> Value | None:
    """Return one of the three honest answers."""
    if name == "ask":
        return Ask(by=table.text("ask", needed=True))
    if name == "by_reference":
        return ByReference(table.text("by_reference", needed=True))
    if not table.flag("no_rule"):
        table.fault("no_rule", "false", "true", "leave it out where there is a rule")
    return NoRule()


def _read_yes(table: Written, _key: RuleKey) -> YesNo:
    return YesNo(table.flag("yes"))


def _read_stance(table: Written, key: RuleKey) -> Stance | None:
    word = table.word("stance", key.words)
    return Stance(word) if word else None


def _read_words(table: Written, key: RuleKey) -> Words | None:
    words = table.texts("one_of")
    if key.pipes:
        _tell_joined(table, words)
        return Words(
            tuple(
                word
                for word in words
                if marks(word) or table.known_or_own((word,), "one_of", PIPE_WORDS)
            )
        )
    known = table.known_or_own if key.own_words else table.known
    return Words(known(words, "one_of", key.words) if key.words else words)


def _tell_joined(table: Written, words: tuple[str, ...]) -> None:
    """Note two kinds of pipe written as one."""
    for word in words:
        parts = word.split(" or ")
        if len(parts) > 1 and not marks(word) and all(marks(part) for part in parts):
            table.fault("one_of", repr(word), "each kind for itself", f"write {listed(parts)}")


_KIND_NOUNS = {
    ValueKind.LIMIT: "a limit",
    ValueKind.YES_NO: "a yes or no",
    ValueKind.STANCE: "where the town stands",
    ValueKind.WORDS: "a set of words",
    ValueKind.ORDER: "an order of preference",
    ValueKind.SENTENCES: "sentences to print",
    ValueKind.ITEMS: "a list of items",
    ValueKind.SPAN: "a span of time",
    ValueKind.SEASON: "a season",
    ValueKind.HOURS: "hours of the day",
    ValueKind.RAIN: "a design rain",
    ValueKind.FEES: "lines of money",
    ValueKind.INSURANCE: "covers of insurance",
}

_READERS: dict[ValueKind, Callable[[Written, RuleKey], Value | None]] = {
    ValueKind.LIMIT: read_limit,
    ValueKind.YES_NO: _read_yes,
    ValueKind.STANCE: _read_stance,
    ValueKind.WORDS: _read_words,
    ValueKind.ORDER: read_order,
    ValueKind.SENTENCES: read_sentences,
    ValueKind.ITEMS: read_items,
    ValueKind.SPAN: read_time,
    ValueKind.SEASON: lambda table, _key: read_seasons(table),
    ValueKind.HOURS: lambda table, _key: read_hours(table),
    ValueKind.RAIN: read_rain,
    ValueKind.INSURANCE: read_insurance,
}
