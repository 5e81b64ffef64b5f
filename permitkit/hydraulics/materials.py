"""Pipe as it is sold: outside, bore, roughness, joint; each row with its source."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from permitkit.hydraulics.section import Box, Round, Section

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["PIPES", "Pipe", "UnknownPipe", "find_pipe"]

INCH_M = 0.0254

Wall = Literal["thick", "sewer", "thin", "corrugated", "steel"]
Known = Literal["seen", "memory"]


@dataclass(frozen=True, slots=True)
class Pipe:
    """One product.

    Parameters
    ----------
    key, name
        Its key in a job file, and what is printed.
    shape
        Round or box.
    outside_m
        Outside width and height, equal where round. [m]
    bore_m
        Inside width and height: of two bores in circulation the smaller. [m]
    bore_by_least_wall_m
        Inside height by the least wall the standard allows. [m]
    n, n_source
        Manning roughness and where it is from. [s/m^(1/3)]
    wall
        Class of the wall: thick carries wheels, sewer and thin do not.
    joint
        The usual joint.
    source, known
        Of the sizes; and whether they were seen in a text or are from memory.
    """

    key: str
    name: str
    shape: Literal["round", "box"]
    outside_m: tuple[float, float]
    bore_m: tuple[float, float]
    bore_by_least_wall_m: float
    n: float
    n_source: str
    wall: Wall
    joint: str
    source: str
    known: Known

    @property
    def section(self) -> Section:
        """The inside."""
        return Round(self.bore_m[0]) if self.shape == "round" else Box(*self.bore_m)

    @property
    def outside_height_m(self) -> float:
        """Outside height, in m."""
        return self.outside_m[1]

    @property
    def bore_height_m(self) -> float:
        """Inside height, in m."""
        return self.bore_m[1]

    @property
    def wall_m(self) -> float:
        """From invert to outside bottom, in m."""
        return (self.outside_m[1] - self.bore_m[1]) / 2.0


class UnknownPipe(KeyError):  # noqa: N818 - the pipe is what is unknown
    """No such pipe; `near` holds the keys that come nearest."""

    def __init__(self, text: str, near: tuple[str, ...]) -> None:
        """Keep what was asked and what comes near."""
        self.text, self.near = text, near
        super().__init__(text)

    def __str__(self) -> str:
        """Return the message, which a KeyError would put in quotes."""
        return f"no pipe {self.text!r}; near: {', '.join(self.near)}"


_SCH40 = "ASTM D1785 PVC Schedule 40 (D2665 the same): OD, least wall, bore of the mean wall"
_SDR35 = "ASTM D3034 SDR 35: average OD, least wall"
_D2729 = "ASTM D2729 sewer and drain PVC: OD, least wall"
_HDPE = "AASHTO M 252 corrugated PE: nominal size is the bore; OD by the trade's catalogues"
_TUBE = "ASTM A500 rectangular tube: outside less twice a 3/16 in wall"
_N_PVC = "FHWA HEC-22 ch. 7, smooth plastic 0.009 to 0.011, upper end"
_N_TUBE = "Chow 1959, coated cast iron, normal 0.013"
_N_SINGLE = "Chow 1959, corrugated metal storm drain, normal 0.024"
_N_DUAL = "FHWA HEC-22 ch. 7, smooth-lined corrugated PE, upper half"


def _pvc(
    key: str,
    name: str,
    sizes_in: tuple[float, float, float],
    wall: Wall,
    joint: str,
    source: str,
    known: Known,
) -> Pipe:
    """Return a PVC pipe from outside, least-wall bore and average bore in inches."""
    outside, least_wall, bore = (size * INCH_M for size in sizes_in)
    both = (outside, outside), (bore, bore)
    return Pipe(key, name, "round", *both, least_wall, 0.011, _N_PVC, wall, joint, source, known)


def _corrugated(size_in: float, outside_in: float, *, dual: bool) -> Pipe:
    """Return a corrugated pipe from its nominal bore and outside in inches."""
    bore, outside = size_in * INCH_M, outside_in * INCH_M
    kind, joint = ("dual", "bell with gasket") if dual else ("single", "snap or split coupler")
    return Pipe(
        f"{size_in:g}-hdpe-dual" if dual else f"{size_in:g}-hdpe",
        f"{size_in:g} in corrugated HDPE, {kind} wall",
        "round",
        (outside, outside),
        (bore, bore),
        bore,
        0.012 if dual else 0.024,
        _N_DUAL if dual else _N_SINGLE,
        "corrugated",
        joint,
        _HDPE,
        "memory",
    )


def _tube(width_in: float, height_in: float) -> Pipe:
    """Return a galvanized tube with a 3/16 in wall from its outside in inches."""
    inside = ((width_in - 0.375) * INCH_M, (height_in - 0.375) * INCH_M)
    return Pipe(
        f"tube-{width_in:g}x{height_in:g}",
        f"{width_in:g} x {height_in:g} x 3/16 in galvanized steel tube",
        "box",
        (width_in * INCH_M, height_in * INCH_M),
        inside,
        inside[1],
        0.013,
        _N_TUBE,
        "steel",
        "sleeve or weld",
        _TUBE,
        "memory",
    )


_ROWS = (
    _pvc("2-sch40", "2 in Sch 40 PVC", (2.375, 2.067, 2.047), "thick", "solvent", _SCH40, "memory"),
    _pvc("3-sch40", "3 in Sch 40 PVC", (3.5, 3.068, 3.042), "thick", "solvent", _SCH40, "seen"),
    _pvc("4-sch40", "4 in Sch 40 PVC", (4.5, 4.026, 3.998), "thick", "solvent", _SCH40, "seen"),
    _pvc("6-sch40", "6 in Sch 40 PVC", (6.625, 6.065, 6.031), "thick", "solvent", _SCH40, "seen"),
    _pvc("4-sdr35", "4 in SDR 35 PVC", (4.215, 3.975, 3.975), "sewer", "gasket", _SDR35, "seen"),
    _pvc("6-sdr35", "6 in SDR 35 PVC", (6.275, 5.915, 5.915), "sewer", "gasket", _SDR35, "memory"),
    _pvc("3-d2729", "3 in D2729 PVC", (3.25, 3.11, 3.11), "thin", "loose bell", _D2729, "memory"),
    _pvc(
        "4-d2729", "4 in D2729 PVC", (4.215, 4.065, 4.065), "thin", "loose bell", _D2729, "memory"
    ),
    _corrugated(3.0, 3.65, dual=False),
    _corrugated(4.0, 4.6, dual=False),
    _corrugated(6.0, 6.95, dual=False),
    _corrugated(4.0, 4.78, dual=True),
    _corrugated(6.0, 6.92, dual=True),
    _tube(4.0, 2.0),
    _tube(5.0, 2.0),
    _tube(6.0, 2.0),
)

PIPES: Mapping[str, Pipe] = MappingProxyType({pipe.key: pipe for pipe in _ROWS})
"""Every product, by key."""

_DUAL = r"dual[ -]?wall|double[ -]?wall|smooth[ -](?:lined|interior)"
_KINDS = (
    (r"sch(?:edule)?[ .-]*40|d1785|d2665", "{}-sch40"),
    (r"sdr[ .-]*35|d3034", "{}-sdr35"),
    (r"d[ .-]*2729|thin[ -]?wall", "{}-d2729"),
    (rf"(?:hdpe|corrugated)(?=.*(?:{_DUAL}))|(?:{_DUAL})(?=.*(?:hdpe|corrugated))", "{}-hdpe-dual"),
    (r"hdpe|corrugated", "{}-hdpe"),
    (r"tube", "tube-{}"),
)
_SIZE = re.compile(r"(\d+)(?: ?in)?(?: ?(?:x|by) ?(\d+))?")


def find_pipe(text: str) -> Pipe:
    """Return the pipe meant by a key, its name, or words such as "3 in Sch 40".

    Parameters
    ----------
    text
        Key or words; upper or lower case.

    Raises
    ------
    UnknownPipe
        If no product fits, with the keys that come nearest.

    Examples
    --------
    >>> find_pipe("3 in Sch 40").key, find_pipe("5 x 2 steel tube").key
    ('3-sch40', 'tube-5x2')
    """
    plain = " ".join(text.lower().split())
    found = PIPES.get(plain) or PIPES.get(_key_in_words(plain))
    if found is None:
        raise UnknownPipe(text, _near(plain))
    return found


def _key_in_words(plain: str) -> str:
    """Return the key that words spell out, or nothing: a kind, then the first size beside it."""
    for pattern, key in _KINDS:
        rest, hits = re.subn(pattern, " ", plain.replace('"', ""), count=1)
        size = _SIZE.search(rest)
        if hits and size:
            wide, high = size.groups()
            return key.format(f"{wide}x{high}" if key.startswith("tube") else wide)
    return ""


def _near(plain: str) -> tuple[str, ...]:
    """Return the keys nearest to some words; all of them if none is near."""
    names = {pipe.name.lower(): key for key, pipe in PIPES.items()} | {key: key for key in PIPES}
    guess = _key_in_words(plain)
    close = [name for word in (guess, plain) for name in get_close_matches(word, names, n=3)]
    return tuple(dict.fromkeys(names[name] for name in close)) or tuple(PIPES)
