"""Computed numbers as the packet prints them, in the units of the job's author."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.drawing.info import Figures, figures_of
from permitkit.drawing.scale import System
from permitkit.units import Kind, from_si, write_money

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date
    from decimal import Decimal
    from typing import Any

    from permitkit.checks.judge import Judged
    from permitkit.model.job import Job
    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import RulesInForce

__all__ = ["Say", "day", "joined", "money", "say_for", "sentences", "told_of"]

_TENTH, _HUNDREDTH = Fraction(1, 10), Fraction(1, 100)


def day(when: date | None) -> str:
    """Return a date with its weekday, such as Mon Apr 6, 2026."""
    return f"{when:%a %b} {when.day}, {when.year}" if when else "not known"


def money(amount: Decimal | None) -> str:
    """Return a sum of money, or a request to set it."""
    return write_money(amount) if amount is not None else "please set"


def joined(words: Sequence[str], last: str = "and") -> str:
    """Return words as an English list."""
    if len(words) < 2:  # noqa: PLR2004 - one word needs no comma
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


@dataclass(frozen=True, slots=True)
class Say:
    """Writes SI numbers for one job; the drawings' figures, and what only the text pages need."""

    figures: Figures

    def _either(
        self, value: float, kind: Kind, us: tuple[str, Fraction], metric: tuple[str, Fraction]
    ) -> str:
        unit, step = metric if self.figures.system is System.METRIC else us
        return from_si(value, kind, unit).shown(step)

    def small(self, metres: float) -> str:
        """Return a length at the curb, such as 3 5/8 in."""
        return self.figures.height(metres)

    def long(self, metres: float) -> str:
        """Return a length on the ground, such as 41 ft 6 in."""
        return self.figures.distance(metres)

    def level(self, metres: float) -> str:
        """Return a level above the job's datum, such as 99.57 ft."""
        return self.figures.at_level(metres)

    def area(self, square_metres: float) -> str:
        """Return an area."""
        return self.figures.area(square_metres)

    def flow(self, cubic_metres_a_second: float) -> str:
        """Return a flow, such as 39.4 gpm."""
        return self.figures.flow(cubic_metres_a_second)

    def slope(self, ratio: float) -> str:
        """Return a slope in percent."""
        return self.figures.slope(ratio)

    def held(self, cubic_metres: float) -> str:
        """Return a volume of water."""
        return self.figures.volume(cubic_metres)

    def volume(self, cubic_metres: float) -> str:
        """Return a volume of concrete, stone or earth."""
        return self._either(cubic_metres, Kind.VOLUME, ("cu ft", _TENTH), ("m3", _HUNDREDTH))

    def little(self, cubic_metres: float) -> str:
        """Return a volume of grout."""
        return self._either(cubic_metres, Kind.VOLUME, ("cu in", Fraction(1)), ("L", _TENTH))

    def velocity(self, metres_a_second: float) -> str:
        """Return a velocity."""
        return self._either(
            metres_a_second, Kind.VELOCITY, ("ft/s", _HUNDREDTH), ("m/s", _HUNDREDTH)
        )

    def intensity(self, metres_a_second: float) -> str:
        """Return a rain intensity."""
        return self._either(
            metres_a_second, Kind.INTENSITY, ("in/hr", _HUNDREDTH), ("mm/h", _TENTH)
        )

    def mass(self, kilograms: float) -> str:
        """Return a mass, to ten pounds or five kilograms."""
        return self._either(kilograms, Kind.MASS, ("lb", Fraction(10)), ("kg", Fraction(5)))


def say_for(job: Job) -> Say:
    """Return the writer for one job."""
    return Say(figures_of(job))


def told_of(rules: RulesInForce, keys: Iterable[RuleKey]) -> list[tuple[str, str]]:
    """Return what is in force for some questions, of those that the sheets answer."""
    return [(key.question.rstrip("?"), rule.text) for key in keys if (rule := rules[key]).known]


def sentences(judged: Judged, key: Any) -> tuple[str, ...]:  # noqa: ANN401 - a rule key
    """Return every sentence the layers of sheets ask to be printed, the town's first."""
    found: list[str] = []
    for rule in judged.rules[key].all:
        found += [text for text in getattr(rule.value, "texts", ()) if text not in found]
    return tuple(found)
