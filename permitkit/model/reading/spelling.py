"""The nearest word to one that is not known."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

__all__ = ["listed", "nearest"]

_FEW = 12
_OFFERED = 2
_SHORT = 2
_FEW_LETTERS = 5


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the advice that offers the nearest known words, or nothing where none is near.

    A word after another point (`walk.bit` for `core.bit`) and a word cut short are near as well.
    """
    lower = {name.lower(): name for name in known}
    close = list(dict.fromkeys(_near(word.lower(), lower)))[:_OFFERED]
    return f"did you mean {' or '.join(lower[name] for name in close)}?" if close else ""


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
