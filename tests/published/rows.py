"""Rows from books: what was given, what is printed, how near a result must come."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
FOOT, INCH = 0.3048, 0.0254
UNITS = {
    "": 1.0,
    "%": 0.01,
    "in/ft": 1.0 / 12.0,
    "m": 1.0,
    "ft": FOOT,
    "2 ft": 2.0 * FOOT,
    "in": INCH,
    "m2": 1.0,
    "ft2": FOOT**2,
    "in2": INCH**2,
    "acre": 43560.0 * FOOT**2,
    "ha": 1e4,
    "m3": 1.0,
    "ft3": FOOT**3,
    "in3": INCH**3,
    "yd3": 27.0 * FOOT**3,
    "m/s": 1.0,
    "ft/s": FOOT,
    "in/hr": INCH / 3600.0,
    "mm/hr": 1e-3 / 3600.0,
    "m3/s": 1.0,
    "cfs": FOOT**3,
    "1e-3 cfs": 1e-3 * FOOT**3,
    "gpm": 231.0 * INCH**3 / 60.0,
    "s": 1.0,
    "min": 60.0,
    "hr": 3600.0,
}


def amount(text: str) -> float | str:
    """Return a written amount in SI, or the word itself."""
    number, _, unit = text.partition(" ")
    try:
        return float(Fraction(number)) * UNITS[unit]
    except ValueError:
        return text


@dataclass(frozen=True)
class Row:
    """One printed number with what leads to it."""

    name: str
    quantity: str
    formulas: tuple[str, ...]
    given: dict[str, Any]
    printed: str
    unit: str
    compare: str
    tolerance: float
    why: str
    kind: str
    source: str
    edition: str
    place: str
    known: str

    def misses_by(self, result: float) -> float:
        """Return how far a result in SI lies beyond what the row allows, zero if it does not."""
        off = result / UNITS[self.unit] - float(self.printed)
        if self.compare == "at least":
            return max(-off, 0.0)
        if self.compare == "at most":
            return max(off, 0.0)
        return max(abs(off) - self.tolerance, 0.0)


def half_digit(printed: str) -> float:
    """Return half a unit of the last printed digit."""
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


def book(name: str) -> dict[str, Any]:
    """Return one file of rows as it stands."""
    return tomllib.loads((HERE / f"{name}.toml").read_text(encoding="utf-8"))


def rows(name: str) -> list[Row]:
    """Return the rows of one file."""
    whole = book(name)
    return [_row(raw, whole["source"][raw["from"]]) for raw in whole["row"]]


def _row(raw: dict[str, Any], source: dict[str, str]) -> Row:
    return Row(
        raw["name"],
        raw["quantity"],
        tuple(raw["formulas"]),
        {key: amount(text) for key, text in raw["given"].items()},
        raw["printed"],
        raw["unit"],
        raw.get("compare", "equal"),
        float(raw["tolerance"]) if "tolerance" in raw else half_digit(raw["printed"]),
        raw.get("why", ""),
        raw.get("kind", "printed"),
        source["source"],
        source["edition"],
        raw["place"],
        raw["known"],
    )
