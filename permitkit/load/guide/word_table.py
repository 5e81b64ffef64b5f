"""The tables of closed words that the guide for sheets prints, made from the code."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.load.guide.key_table import markdown
from permitkit.model.keys import KEYS
from permitkit.model.reading.dates import CLOCKS
from permitkit.model.rules import ValueKind
from permitkit.model.vocabulary.inspections import INSPECTIONS
from permitkit.model.vocabulary.outlets import WAYS
from permitkit.model.vocabulary.papers import other_names
from permitkit.model.vocabulary.pipes import PIPE_WORDS
from permitkit.model.words import DocumentKind, OutletKind, PolicyKind, choices

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from permitkit.model.rules import RuleKey
    from permitkit.model.vocabulary.outlets import Way

__all__ = ["word_table"]


def word_table() -> str:
    """Return every closed set of words, with where it is used, as a Markdown table."""
    return markdown(("where", "words"), [*_shared(), *_of_keys()])


def _shared() -> Iterator[tuple[str, str]]:
    """Yield the words that have a meaning of their own."""
    yield "`clock` of a span or an item: the event it is counted from", _listed(CLOCKS)
    yield "`outlet.order`", "; ".join(_way(word, way) for word, way in WAYS.items())
    joined = "material, class, wall, size or the standard's number, joined as the town does"
    like = "`PVC ASTM D3034 SDR 35`, `4 in Sch 40 PVC` and the like"
    yield f"`pipe.kind`, `pipe.under_drive`: {joined}", f"{_listed(PIPE_WORDS)}; {like}"
    yield "`kind` of a cover in `docs.insurance`", _with_others(choices(PolicyKind))
    yield "`dates.inspections`", _inspections()
    yield (
        "`docs.required`; a paper of another name is known by the title of the file attached",
        _with_others(choices(DocumentKind)),
    )


def _inspections() -> str:
    named = (kind for kind in INSPECTIONS if kind != "any")
    return (
        f"{_listed(named)}, known by these words within a longer name; another name is asked about"
    )


def _way(word: str, way: Way) -> str:
    """Return a word of an order, with what it stands for where that is another."""
    if way.kinds == (word,) or len(way.kinds) == len(choices(OutletKind)):
        return f"`{word}`"
    yards = f" in a {' or '.join(way.yards)} yard" if way.yards else ""
    return f"`{word}` ({', '.join(way.kinds)}{yards})"


def _with_others(words: Iterable[str]) -> str:
    """Return kinds, each with the other names it goes by."""
    told = []
    for word in words:
        others = other_names(word)
        told.append(f"`{word}` ({', '.join(others)})" if others else f"`{word}`")
    return "; ".join(told)


def _of_keys() -> Iterator[tuple[str, str]]:
    """Yield the words of each key: of its value, and of what is measured from where."""
    for key in sorted(KEYS.values(), key=lambda key: key.name):
        for name, words in (("", _words(key)), ("of", key.of), ("from", key.origin)):
            if len(words) > 1:
                yield f"`{key.name}`{f', `{name}`' if name else ''}", _listed(words)


def _words(key: RuleKey) -> tuple[str, ...]:
    return () if key.kind is ValueKind.ORDER and key.words == tuple(WAYS) else key.words


def _listed(words: Iterable[str]) -> str:
    return ", ".join(f"`{word}`" for word in words)
