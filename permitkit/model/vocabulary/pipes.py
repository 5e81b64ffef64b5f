"""Pipe by the words a town uses: material, class and wall, with or without a standard's number."""

from __future__ import annotations

import re
from functools import lru_cache

__all__ = ["PIPE_WORDS", "marks", "pipe_fits"]

PIPE_WORDS = (
    "PVC",
    "Sch 40 PVC",
    "SDR 35 PVC",
    "D2729 PVC",
    "smooth wall PVC",
    "smooth wall",
    "ABS",
    "HDPE",
    "smooth wall HDPE",
    "corrugated HDPE",
    "dual wall HDPE",
    "ductile iron",
    "cast iron",
    "galvanised steel",
    "steel tube",
    "clay",
    "concrete",
    "copper",
)
"""Words for pipe, as examples: each may be joined with a class, a wall, a size or a standard."""

_MARKS = (
    ("dual wall", r"dual[ -]?wall|double[ -]?wall|smooth[ -](?:lined|interior)"),
    ("smooth wall", r"(?:smooth|solid)(?:[ -]?wall(?:ed)?)?"),
    ("single wall", r"single[ -]?wall"),
    ("thin wall", r"thin[ -]?wall"),
    ("corrugated", r"corrugated|flexible"),
    ("steel", r"steel|wrought iron|(?<=galvani[sz]ed )iron"),
    ("galvanised", r"galvani[sz]ed"),
    ("ductile iron", r"ductile(?:[ -]iron)?|dip"),
    ("cast iron", r"cast[ -]iron|cip"),
    ("tube", r"(?:rectangular )?tub(?:e|ing)"),
    ("PVC", r"p\.?v\.?c\.?|poly ?vinyl ?chloride"),
    ("ABS", r"abs|acrylonitrile butadiene styrene"),
    ("HDPE", r"hdpe|pe|(?:high[ -]density )?polyethylene"),
    ("polypropylene", r"polypropylene"),
    ("asbestos cement", r"asbestos[ -]cement"),
    ("clay", r"(?:vitrified )?clay(?: tile)?|vcp|terra ?cotta"),
    ("concrete", r"(?:reinforced )?concrete|rcp"),
    ("copper", r"copper"),
    ("aluminium", r"alumini?um"),
)
_NUMBERED = (
    ("sch {}", r"sch(?:ed(?:ule)?)?\.?[ -]*(\d+)"),
    ("sdr {}", r"(?:sdr|dr)[ .-]*(\d+(?:\.\d)?)"),
    ("{} x {}", r"(\d+) ?(?:x|by) ?(\d+)(?: ?x ?[\d/]+)?(?: ?in(?:ch(?:es)?)?\b)?"),
    ("{} in", r'(\d+)(?: ?in(?:ch(?:es)?)?\b| ?")'),
    ("{}{}", r"(?:(?:astm|aashto|awwa|csa|ansi) )?\b([a-z]{1,2})[ -]?(\d{2,5})(?:-\d+)?"),
)
_FILLER = (
    "an?|approved|astm|aashto|diameter|drain(?:age)?|gasketed|joints?|minimum|nominal|of|"
    "pipes?|piping|plastic|rigid|sewer|solvent|standard|storm|the|type|wall|weld(?:ed)?|with"
)
_IMPLIED = {
    "sch 40": ("smooth wall", "d1785", "d2665"),
    "sdr 35": ("smooth wall", "d3034"),
    "d2729": ("smooth wall", "thin wall"),
    "tube": ("smooth wall", "a500"),
    "dual wall": ("m252", "m294"),
    "corrugated": ("m252",),
}


@lru_cache(maxsize=512)
def marks(words: str) -> frozenset[str]:
    """Return what words say of a pipe; nothing where a word among them is not known.

    Examples
    --------
    >>> sorted(marks("PVC ASTM D3034 SDR 35"))
    ['PVC', 'd3034', 'sdr 35']
    >>> marks("banana")
    frozenset()
    """
    rest = " ".join(words.casefold().replace(",", " ").split())
    rest = rest.removesuffix(" or equal").removesuffix(" or better")
    found: set[str] = set()
    for name, numbered in _NUMBERED:
        found |= {name.format(*match.groups()) for match in re.finditer(numbered, rest)}
        rest = re.sub(numbered, " ", rest)
    for name, named in _MARKS:
        rest, hits = re.subn(rf"\b(?:{named})(?!\w)", " ", rest)
        found |= {name} if hits else set()
    known = all(re.fullmatch(_FILLER, word) for word in re.findall(r"[^\s()./-]+", rest))
    return frozenset(found) if known else frozenset()


@lru_cache(maxsize=2048)
def pipe_fits(words: str, pipe: str) -> bool | None:
    """Return whether a pipe, by its full name, is of the kind that words name.

    Nothing where a word among them is not known, and only the town can tell.

    Examples
    --------
    >>> pipe_fits("smooth wall PVC", "4 in Sch 40 PVC"), pipe_fits("SDR 35", "4 in Sch 40 PVC")
    (True, False)
    """
    asked, own = marks(words), marks(pipe)
    has = own.union(*(_IMPLIED.get(mark, ()) for mark in own))
    return asked <= has if asked else None
