"""The tables of closed words that the guide for sheets prints, made from the code."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.load.guide.key_table import markdown
from permitkit.model.keys import KEYS
from permitkit.model.reading.dates import CLOCKS
from permitkit.model.rules import ValueKind
from permitkit.model.vocabulary.conditions import CALLED
from permitkit.model.vocabulary.inspections import INSPECTIONS
from permitkit.model.vocabulary.outlets import ANY_WAY, WAYS
from permitkit.model.vocabulary.papers import other_names
from permitkit.model.vocabulary.pipes import PIPE_WORDS
from permitkit.model.words import DocumentKind, OutletKind, PolicyKind, choices

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

    from permitkit.model.rules import RuleKey
    from permitkit.model.vocabulary.outlets import Way

__all__ = ["word_table"]

_OWN = "; or a word of the town's own"


def word_table() -> str:
    """Return every closed set of words, with where it is used, as a Markdown table."""
    return markdown(("where", "words"), [*_shared(), *_of_keys(), *_facts()])


def _shared() -> Iterator[tuple[str, str]]:
    """Yield the words that have a meaning of their own."""
    yield f"`clock` of a span or an item: the event it is counted from{_OWN}", _listed(CLOCKS)
    yield f"`outlet.order`{_OWN}", _ways()
    joined = "material, class, wall, size or the standard's number, joined as the town does"
    like = "`PVC ASTM D3034 SDR 35`, `4 in Sch 40 PVC` and the like"
    yield f"`pipe.kind`, `pipe.under_drive`: {joined}", f"{_listed(PIPE_WORDS)}; {like}"
    yield f"`kind` of a cover in `docs.insurance`{_OWN}", _with_others(choices(PolicyKind))
    yield "`dates.inspections`", _inspections()
    yield (
        "`docs.required`; a paper of another name is known by the title of the file attached",
        _with_others(choices(DocumentKind)),
    )


def _facts() -> Iterator[tuple[str, str]]:
    """Yield what a condition may call a fact by, besides the words in the table of facts."""
    for name, called in CALLED.items():
        grouped: dict[str, list[str]] = {}
        for word, names in called.items():
            if names and names != (word,):
                grouped.setdefault(", ".join(names), []).append(word)
        yield f"the fact `{name}` in a condition, also called", _grouped(grouped)


def _inspections() -> str:
    named = (kind for kind in INSPECTIONS if kind != "any")
    return (
        f"{_listed(named)}, known by these words within a longer name; another name is asked about"
    )


def _ways() -> str:
    """Return the ways a job may have, then those that none has."""
    meant: dict[str, list[str]] = {}
    for word, way in WAYS.items():
        meant.setdefault(_way(way), []).append(word)
    others = _listed(meant.pop(""))
    return f"{_grouped(meant)}; and ways that no job proposes: {others}"


def _way(way: Way) -> str:
    """Return what a word of an order stands for."""
    if len(way.kinds) == len(choices(OutletKind)):
        return ANY_WAY
    yards = f" in a {' or '.join(way.yards)} yard" if way.yards else ""
    return f"{', '.join(way.kinds)}{yards}"


def _grouped(meant: Mapping[str, Sequence[str]]) -> str:
    """Return words, those that stand for one thing together."""
    return "; ".join(
        _listed(words) + (f" ({name})" if name and list(words) != [name] else "")
        for name, words in meant.items()
    )


def _with_others(words: Iterable[str]) -> str:
    """Return kinds, each with the other names it goes by."""
    told = []
    for word in words:
        others = other_names(word)
        told.append(f"`{word}` ({', '.join(others)})" if others else f"`{word}`")
    return "; ".join(told)


def _of_keys() -> Iterator[tuple[str, str]]:
    """Yield the words of each key: of its value, and of what is measured from where.

    Keys with the same words of the trade share a row.
    """
    traded: dict[str, list[str]] = {}
    for key in sorted(KEYS.values(), key=lambda key: key.name):
        if key.trade:
            traded.setdefault(_trade(key), []).append(f"`{key.name}`")
    yield from ((", ".join(places) + _OWN, row) for row, places in traded.items())
    for key in sorted(KEYS.values(), key=lambda key: key.name):
        for name, words in (("", _words(key)), ("of", key.of), ("from", key.origin)):
            if len(words) > 1:
                yield f"`{key.name}`" + (f", `{name}`" if name else ""), _listed(words)


def _words(key: RuleKey) -> Collection[str]:
    told_already = key.trade or (key.kind is ValueKind.ORDER and key.words == tuple(WAYS))
    return () if told_already else key.words


def _trade(key: RuleKey) -> str:
    """Return words of the trade, each with the words of a job that it stands for."""
    meant: dict[str, list[str]] = {}
    for word, names in key.trade.items():
        meant.setdefault(", ".join(name for name in names if name in key.words), []).append(word)
    return _grouped(meant)


def _listed(words: Iterable[str]) -> str:
    return ", ".join(f"`{word}`" for word in words)
