"""The kinds of quantity a job or a rule can state, and the fault of a text that states none."""

from __future__ import annotations

from enum import StrEnum

__all__ = ["EXPECTED", "SI", "SIGNED", "Kind", "UnitError", "nouns"]


class Kind(StrEnum):
    """What a quantity measures; two kinds never mix, save a length and a level."""

    LENGTH = "length"
    LEVEL = "level"
    AREA = "area"
    VOLUME = "volume"
    SLOPE = "slope"
    FLOW = "flow"
    VELOCITY = "velocity"
    SPEED = "speed"
    INTENSITY = "intensity"
    STRENGTH = "strength"
    ANGLE = "angle"
    TEMPERATURE = "temperature"
    MASS = "mass"
    RATIO = "ratio"


SIGNED = frozenset({Kind.LEVEL, Kind.SLOPE, Kind.TEMPERATURE})

SI: dict[Kind, str] = {
    Kind.LENGTH: "meter",
    Kind.LEVEL: "meter",
    Kind.AREA: "meter**2",
    Kind.VOLUME: "meter**3",
    Kind.SLOPE: "dimensionless",
    Kind.FLOW: "meter**3/second",
    Kind.VELOCITY: "meter/second",
    Kind.SPEED: "meter/second",
    Kind.INTENSITY: "meter/second",
    Kind.STRENGTH: "pascal",
    Kind.ANGLE: "radian",
    Kind.TEMPERATURE: "kelvin",
    Kind.MASS: "kilogram",
    Kind.RATIO: "dimensionless",
}

EXPECTED: dict[Kind, str] = {
    Kind.LENGTH: "a length with its unit, such as 12 ft or 3 1/2 in",
    Kind.LEVEL: "a level with its unit, such as 100.26 ft",
    Kind.AREA: "an area with its unit, such as 450 sq ft",
    Kind.VOLUME: "a volume with its unit, such as 12 gal or 2.5 cu yd",
    Kind.SLOPE: "a slope, such as 0.5 %, 1/4 in/ft or 1:48",
    Kind.FLOW: "a flow with its unit, such as 35 gpm or 0.8 cfs",
    Kind.VELOCITY: "a velocity with its unit, such as 2 ft/s",
    Kind.SPEED: "a speed with its unit, such as 25 mph",
    Kind.INTENSITY: "a rain intensity with its unit, such as 4.2 in/hr",
    Kind.STRENGTH: "a strength with its unit, such as 3,500 psi",
    Kind.ANGLE: "an angle with its unit, such as 45 deg",
    Kind.TEMPERATURE: "a temperature with its unit, such as 40 deg F",
    Kind.MASS: "a mass with its unit, such as 80 lb",
    Kind.RATIO: "a percentage or a plain number, such as 95 % or 0.95",
}


def nouns(kinds: tuple[Kind, ...]) -> str:
    """Return the kinds as words: `a length`, `an area`, `a slope or a ratio`."""
    return " or ".join(f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}" for kind in kinds)


class UnitError(ValueError):
    """A text that is not the quantity wanted.

    Parameters
    ----------
    found
        What was there, quoted.
    expected
        What should have been there.
    fix
        What to write instead, where it is known.
    """

    def __init__(self, found: str, expected: str, fix: str = "") -> None:
        super().__init__(found, expected, fix)
        self.found = found
        self.expected = expected
        self.fix = fix

    def __str__(self) -> str:
        """Return the fault on one line."""
        told = f"found {self.found}, expected {self.expected}"
        return f"{told}; {self.fix}" if self.fix else told
