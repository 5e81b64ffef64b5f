"""Words of a sheet that no job can meet, and words of its own that only its town can explain."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.hydraulics.materials import PIPES
from permitkit.model.money import PER, each_term
from permitkit.model.reading.dates import CLOCKS
from permitkit.model.reading.spelling import nearest
from permitkit.model.telling import value_text
from permitkit.model.values import Fees, Insurance, Items, Order, Span, Spans, Words
from permitkit.model.vocabulary.pipes import PIPE_WORDS, marks, pipe_fits
from permitkit.model.words import PolicyKind, choices

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from permitkit.model.rules import Edition, RuleKey
    from permitkit.model.values import Value

__all__ = ["own_words", "pipes_not_sold"]

_WAY = "a job says why it will not do, or the town is asked whether the job's way is meant"
_WORD = "where no other word fits, the town is asked whether it is meant"
_COVER = "the town is asked which policy holds it"
_UNIT = "a job says how many of them in its [[counts.other]]; else the sum stays open"
_EVENT = "a time counted from it is printed, and no day is reckoned"


def own_words(where: str, key: RuleKey, edition: Edition) -> Iterator[Fault]:
    """Yield words that are none of those known here, with what becomes of them."""
    for n, case in enumerate(edition.cases, 1):
        words, known, taken = _words(key, case.value)
        for word in dict.fromkeys(words):
            if word not in known:
                yield Fault(
                    f"{where}: case {n}",
                    f"{word!r}, a word of the sheet's own",
                    f"to know what becomes of it: {taken}",
                    nearest(word, known),
                )


def _words(key: RuleKey, value: Value) -> tuple[Iterable[str], tuple[str, ...], str]:
    """Return the words of a value that may be its sheet's own, those known, and what follows."""
    if isinstance(value, Fees):
        return _units(value), PER, _UNIT
    if isinstance(value, Insurance):
        return (cover.kind for cover in value.covers), choices(PolicyKind), _COVER
    if isinstance(value, Span | Spans | Items):
        return _events(value), CLOCKS, _EVENT
    if isinstance(value, Order):
        return value.steps, key.words, _WAY
    words = value.words if isinstance(value, Words) and (key.own_words or key.pipes) else ()
    if key.pipes:
        return (word for word in words if not marks(word)), PIPE_WORDS, _WORD
    return words, key.words, _WORD


def _units(value: Fees) -> Iterator[str]:
    """Yield what the lines of money are counted by."""
    for line in value.lines:
        units = (getattr(term, "per", "") for term in each_term(line.term))
        yield from (unit for unit in units if unit)


def _events(value: Span | Spans | Items) -> Iterator[str]:
    """Yield the events that times are counted from."""
    if isinstance(value, Items):
        timed: tuple[object, ...] = value.items
    else:
        timed = value.parts if isinstance(value, Spans) else (value,)
    yield from (clock for part in timed if (clock := getattr(part, "clock", "")))


def pipes_not_sold(where: str, key: RuleKey, edition: Edition) -> Iterator[Fault]:
    """Yield kinds of pipe of which a job can name none, so that every pipe fails."""
    for n, case in enumerate(edition.cases if key.pipes else (), 1):
        value = case.value
        if isinstance(value, Words) and not any(
            pipe_fits(word, pipe.name) is not False
            for word in value.words
            for pipe in PIPES.values()
        ):
            names = ", ".join(pipe.name for pipe in PIPES.values())
            yield Fault(
                f"{where}: case {n}",
                f"{value_text(value)}: no pipe that a job can name",
                f"to know that every pipe fails it: a job names one of {names}",
            )
