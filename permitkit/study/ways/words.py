"""The comparison of ways in words, for a page and for the screen."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.model.job import Job
    from permitkit.study.ways.way import DryWell, Found, Stance, Way

__all__ = ["WAYS_HEADS", "ways_in_words", "ways_set_aside"]

WAYS_HEADS = (
    "Way",
    "Fall",
    "Water at the house",
    "Fullest pipe",
    "Stays standing",
    "Where it goes",
    "Ice and walk",
    "The town",
)
NOTHING = "-"
LITTLE = Fraction(1, 10)
STANCES = {"ask": "to be asked", "not said": "says nothing"}


def ways_in_words(job: Job, ways: Sequence[Way]) -> tuple[tuple[str, ...], ...]:
    """Return a row for each way that can be built, as `WAYS_HEADS` names the columns.

    Parameters
    ----------
    job
        The job, whose author's units are used.
    ways
        What `compare_ways` found.
    """
    say = _Say(metric=job.units == "metric")
    return tuple(_row(say, way) for way in ways if way.applies)


def ways_set_aside(ways: Sequence[Way]) -> tuple[tuple[str, str], ...]:
    """Return the ways that cannot be built here, each with its reason."""
    return tuple((way.name, way.reason) for way in ways if way.reason)


@dataclass(frozen=True, slots=True)
class _Say:
    """Writes SI numbers in the units of a job's author."""

    metric: bool

    def _either(self, value: float, kind: Kind, us: str, metric: str) -> str:
        return from_si(value, kind, metric if self.metric else us).shown()

    def small(self, metres: float) -> str:
        """Return a height."""
        step = None if self.metric else LITTLE
        return from_si(metres, Kind.LENGTH, "mm" if self.metric else "in").shown(step)

    def level(self, metres: float) -> str:
        """Return a level above the job's datum."""
        return self._either(metres, Kind.LEVEL, "ft", "m")

    def held(self, cubic_metres: float) -> str:
        """Return a volume of water."""
        return self._either(cubic_metres, Kind.VOLUME, "gal", "L")

    def area(self, square_metres: float) -> str:
        """Return an area."""
        return self._either(square_metres, Kind.AREA, "sq ft", "m2")


def _row(say: _Say, way: Way) -> tuple[str, ...]:
    """Return one way."""
    name = f"{way.name} (proposed)" if way.proposed else way.name
    runs = [_numbers(say, found) for found in (way.found,) if found]
    pits = [_pit(say, pit) for pit in (way.pit,) if pit]
    return (
        name,
        *(runs + pits)[0],
        way.goes,
        "; ".join(way.hazards) or "none seen",
        _town(way.stance),
    )


def _numbers(say: _Say, found: Found) -> tuple[str, str, str, str]:
    """Return what the run does: fall, water at the house, fullness, standing water."""
    over = found.spare_m < 0.0
    fall = (
        f"{say.small(found.fall_m)}, {say.small(abs(found.spare_m))} {'short' if over else 'spare'}"
    )
    if found.rise_m > 0.0:
        fall += f"; up again {say.small(found.rise_m)} to the rim"
    full = f"{found.fullness:.0%}"
    if found.overloaded:
        full = "overloaded"
    elif found.fullness >= 1.0:
        full = "full"
    elif found.drowned:
        full += ", drowned at its end"
    held = found.standing_m3
    stands = f"{say.held(held)}, {say.small(found.standing_m)} deep" if held > 0.0 else "none"
    return fall, _house(say, found), full, stands


def _house(say: _Say, found: Found) -> str:
    """Return the water level at the house, and what is left to the lowest opening."""
    level = f"{say.level(found.house_m)} at {found.house}"
    if found.freeboard_m is None:
        return level
    left = say.small(abs(found.freeboard_m))
    word = "above" if found.freeboard_m < 0.0 else "below"
    return f"{level}; {left} {word} the opening at {found.freeboard_at}"


def _pit(say: _Say, pit: DryWell) -> tuple[str, str, str, str]:
    """Return what a pit would have to take."""
    floor = f"a floor of {say.area(pit.floor_m2)} keeps pace with the storm"
    storm = NOTHING if pit.storm_m3 is None else f"one storm brings {say.held(pit.storm_m3)}"
    return NOTHING, floor, NOTHING, storm


def _town(stance: Stance) -> str:
    """Return what the town says."""
    word = STANCES.get(stance.word, stance.word)
    return f"{word} ({stance.source})" if stance.source else word
