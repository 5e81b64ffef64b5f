"""The nearest word to one that is not known."""

from __future__ import annotations

from difflib import SequenceMatcher, get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

__all__ = ["listed", "misspelt", "nearest"]

_FEW = 12
_OFFERED = 2
_SHORT = 2
_FEW_LETTERS = 5
_SLIP = 0.75
_SLIP_IN_ALL = 0.9


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the advice that offers the nearest known words, or nothing where none is near.

    A word after another point (`walk.bit` for `core.bit`) and a word cut short are near as well.
    """
    lower = {name.lower(): name for name in known}
    close = list(dict.fromkeys(_near(word.lower(), lower)))[:_OFFERED]
    return f"did you mean {' or '.join(lower[name] for name in close)}?" if close else ""


def misspelt(word: str, known: Iterable[str]) -> str:
    """Return the advice that offers the known words of which one may be a slip of the pen.

    One of as many words and nearly the same letters is a slip; any other has a meaning of its own.

    Examples
    --------
    >>> misspelt("storm sewr", ("storm sewer", "swale"))
    'did you mean storm sewer?'
    >>> misspelt("natural ditch", ("storm sewer", "ditch"))
    ''
    """
    lower = word.casefold()
    slips = [name for name in known if _alike(lower, name.casefold())]
    return nearest(word, slips)


def _alike(one: str, other: str) -> bool:
    """Tell whether two names differ by a letter or two in each of their words, not by the first."""
    if [word[0] for word in one.split()] != [word[0] for word in other.split()]:
        return False
    if SequenceMatcher(None, one, other).ratio() >= _SLIP_IN_ALL:
        return True
    pairs = zip(one.split(), other.split(), strict=False)
    ratios = (1.0 if a == b else SequenceMatcher(None, a, b).ratio() for a, b in pairs)
    return len(one.split()) == len(other.split()) and all(ratio >= _SLIP for ratio in ratios)


def _near(word: str, known: Iterable[str]) -> Iterator[str]:
    """Yield near words, the nearest first."""
    names = tuple(known)
    _, point, tail = word.rpartition(".")
    yield from (name for name in names if tail and point and name.endswith(f".{tail}"))
    yield from get_close_matches(word, names, n=_OFFERED, cutoff=_cutoff(word))
    yield from (name for name in names if len(word) > _SHORT and word in name.split())
    yield from (name for name in names if tail and name.endswith(f".{tail}"))


def _cutoff(word: str) -> float:
    """Return how much alike two words must be: short ones by more, as `town` is to `owner`."""
    return 0.7 if len(word) <= _FEW_LETTERS else 0.6


def listed(words: Iterable[str]) -> str:
    """Return words in a row, cut short where they are many."""
    every = tuple(words)
    return ", ".join(every[:_FEW]) + (", …" if len(every) > _FEW else "")
