"""The nearest word to one that is not known."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["listed", "nearest"]

_FEW = 12


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the advice that offers the nearest known words, or nothing where none is near."""
    lower = {name.lower(): name for name in known}
    close = get_close_matches(word.lower(), lower, n=2, cutoff=0.6)
    if not close:
        tails = {name.rpartition(".")[2]: name for name in lower if "." in name}
        close = [tails[tail] for tail in get_close_matches(word.lower(), tails, n=1, cutoff=0.8)]
    return "did you mean " + " or ".join(lower[name] for name in close) + "?" if close else ""


def listed(words: Iterable[str]) -> str:
    """Return words in a row, cut short where they are many."""
    every = tuple(words)
    return ", ".join(every[:_FEW]) + (", …" if len(every) > _FEW else "")
