"""Inspections by what they look at, whatever a town and a job call them."""

from __future__ import annotations

import re

__all__ = ["INSPECTIONS", "inspection_kind", "same_inspection"]

INSPECTIONS = {
    "final": r"final|complet|finished|acceptance",
    "after the pour": r"after (?:the )?(?:pour|concrete)",
    "before the pour": (
        r"before (?:the )?(?:pour|concrete|placing|material)|\bforms?\b|\bformed\b|pre-?pour"
    ),
    "plug": r"\bplug",
    "open trench": r"before (?:the )?(?:back-?fill|cover)|trench|pipe laid|pipe in place",
    "before work begins": r"before (?:the )?(?:work|start)|pre-?construction",
    "any": r"(?:(?:each|any|every|all|an) )?inspections?",
}
"""For each kind the words by which it is known; the first that is found counts."""

_WHOLE = {"any"}


def inspection_kind(name: str) -> str:
    """Return the kind of inspection that a name means, or nothing where none is known.

    Examples
    --------
    >>> inspection_kind("form and base before the pour"), inspection_kind("second look")
    ('before the pour', '')
    """
    plain = " ".join(name.casefold().split())
    for kind, words in INSPECTIONS.items():
        find = re.fullmatch if kind in _WHOLE else re.search
        if find(words, plain):
            return kind
    return ""


def same_inspection(one: str, other: str) -> bool | None:
    """Return whether two names mean one inspection; nothing where that cannot be told.

    Examples
    --------
    >>> same_inspection("forms set, before the pour", "before the pour")
    True
    """
    if one.casefold().split() == other.casefold().split():
        return True
    kinds = inspection_kind(one), inspection_kind(other)
    if "any" in kinds:
        return True
    return kinds[0] == kinds[1] if all(kinds) else None
