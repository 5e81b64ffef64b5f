"""Trade scales, sheet sizes, and the way from metres on the ground to millimetres on paper."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Box, Point, turned

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = [
    "A3",
    "A4",
    "LETTER",
    "TABLOID",
    "Bar",
    "Kind",
    "Paper",
    "ProfileScale",
    "Scale",
    "System",
    "View",
    "choose_profile_scale",
    "choose_scale",
    "scale_bar_steps",
    "scales",
    "windows",
]

_FOOT_M = Fraction(3048, 10000)
_INCH_MM = 25.4


class System(StrEnum):
    """Whose units a drawing is dimensioned in."""

    US = "us"
    METRIC = "metric"


class Kind(StrEnum):
    """What is drawn: seen from above, cut through close at hand, or along the run."""

    PLAN = "plan"
    DETAIL = "detail"
    PROFILE = "profile"


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, in mm."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def landscape(self) -> Paper:
        """Return the sheet lying on its long side."""
        long, short = max(self.width_mm, self.height_mm), min(self.width_mm, self.height_mm)
        return Paper(self.name, long, short)

    @property
    def portrait(self) -> Paper:
        """Return the sheet standing on its short side."""
        long, short = max(self.width_mm, self.height_mm), min(self.width_mm, self.height_mm)
        return Paper(self.name, short, long)

    @property
    def lies(self) -> bool:
        """Return whether the sheet is wider than high."""
        return self.width_mm > self.height_mm

    @property
    def box(self) -> Box:
        """Return the edge of the paper."""
        return Box(0.0, 0.0, self.width_mm, self.height_mm)


LETTER = Paper("Letter", 8.5 * _INCH_MM, 11 * _INCH_MM)
TABLOID = Paper("Tabloid", 11 * _INCH_MM, 17 * _INCH_MM)
A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 297.0, 420.0)


@dataclass(frozen=True, slots=True)
class Scale:
    """A drawing scale: paper over ground, exact, and how the trade writes it.

    Examples
    --------
    >>> ten = scales(Kind.PLAN, System.US)[1]
    >>> ten.text, ten.ratio, round(ten.paper_mm(30.48), 6)
    ('1 in = 10 ft', Fraction(1, 120), 254.0)
    """

    ratio: Fraction
    text: str
    system: System

    def paper_mm(self, real_m: float) -> float:
        """Return how long a length on the ground is drawn, in mm."""
        return real_m * 1000.0 * self.ratio.numerator / self.ratio.denominator

    def real_m(self, paper_mm: float) -> float:
        """Return the length on the ground of a drawn one, in m."""
        return paper_mm * self.ratio.denominator / self.ratio.numerator / 1000.0


def _feet_to_inch(feet: int) -> Scale:
    """Return the engineer's scale of one inch to so many feet."""
    return Scale(Fraction(1, 12 * feet), f"1 in = {feet} ft", System.US)


def _inches_to_foot(inches: Fraction, text: str) -> Scale:
    """Return the architect's scale of so many inches to a foot."""
    return Scale(inches / 12, f"{text} in = 1 ft", System.US)


def _one_to(whole: int) -> Scale:
    """Return the metric scale of one to so many."""
    return Scale(Fraction(1, whole), f"1:{whole}", System.METRIC)


_PLAN_FEET = (5, 10, 20, 30, 40, 50, 60)
_DETAILS = (
    (Fraction(6), "6"),
    (Fraction(3), "3"),
    (Fraction(3, 2), "1 1/2"),
    (Fraction(1), "1"),
    (Fraction(3, 4), "3/4"),
    (Fraction(1, 2), "1/2"),
    (Fraction(3, 8), "3/8"),
    (Fraction(1, 4), "1/4"),
)
_SCALES: dict[tuple[Kind, System], tuple[Scale, ...]] = {
    (Kind.PLAN, System.US): tuple(map(_feet_to_inch, _PLAN_FEET)),
    (Kind.PROFILE, System.US): tuple(map(_feet_to_inch, _PLAN_FEET)),
    (Kind.DETAIL, System.US): tuple(_inches_to_foot(*detail) for detail in _DETAILS),
    (Kind.PLAN, System.METRIC): tuple(map(_one_to, (50, 100, 200, 250, 500))),
    (Kind.PROFILE, System.METRIC): tuple(map(_one_to, (50, 100, 200, 250, 500))),
    (Kind.DETAIL, System.METRIC): tuple(map(_one_to, (2, 5, 10, 20, 25, 50))),
}


def scales(kind: Kind, system: System) -> tuple[Scale, ...]:
    """Return the trade's scales for a kind of drawing, finest first.

    Plans and profiles take the engineer's scales (1 in = 10 to 60 ft, and 5 ft for a short
    frontage), details the architect's (inches to the foot); metric drawings take ratios.
    """
    return _SCALES[kind, system]


def choose_scale(
    width_m: float,
    height_m: float,
    room_w_mm: float,
    room_h_mm: float,
    kind: Kind,
    system: System,
) -> Scale | None:
    """Return the finest trade scale at which an extent fits a room on the sheet.

    Parameters
    ----------
    width_m, height_m
        What is drawn. [m]
    room_w_mm, room_h_mm
        The free rectangle. [mm]
    kind, system
        Which of the trade's scales are allowed.

    Returns
    -------
    Scale or None
        None where it fits at none of them, so the sheet has to be split; see `windows`.

    Examples
    --------
    >>> choose_scale(18.0, 23.0, 190.0, 190.0, Kind.PLAN, System.US).text
    '1 in = 20 ft'
    """
    for scale in scales(kind, system):
        if _fits(scale, scale, (width_m, height_m), (room_w_mm, room_h_mm)):
            return scale
    return None


def _fits(
    across: Scale, up: Scale, extent_m: tuple[float, float], room_mm: tuple[float, float]
) -> bool:
    """Return whether an extent fits, letting float noise touch the edge."""
    slack = 1e-9
    return (
        across.paper_mm(extent_m[0]) <= room_mm[0] + slack
        and up.paper_mm(extent_m[1]) <= room_mm[1] + slack
    )


@dataclass(frozen=True, slots=True)
class ProfileScale:
    """The two scales of a profile; heights are drawn larger than lengths, and the sheet says so."""

    horizontal: Scale
    vertical: Scale

    @property
    def exaggeration(self) -> Fraction:
        """Return how many times larger heights are drawn than lengths."""
        return self.vertical.ratio / self.horizontal.ratio

    @property
    def text(self) -> str:
        """Return both scales and the exaggeration as printed."""
        times = self.exaggeration
        stated = f"horizontal {self.horizontal.text}, vertical {self.vertical.text}"
        if times == 1:
            return f"{stated}, not exaggerated"
        return f"{stated}, vertical exaggeration {times}\N{MULTIPLICATION SIGN}"


_EXAGGERATIONS = (20, 10, 5, 4, 2, 1)


def choose_profile_scale(
    width_m: float, height_m: float, room_w_mm: float, room_h_mm: float, system: System
) -> ProfileScale | None:
    """Return the scales of a profile: lengths as fine as fit, then the greatest exaggeration.

    Examples
    --------
    >>> choose_profile_scale(20.0, 0.8, 190.0, 80.0, System.US).vertical.text
    '1 in = 1 ft'
    """
    for across in scales(Kind.PROFILE, system):
        for times in _EXAGGERATIONS:
            up = _taller(across, times)
            if up and _fits(across, up, (width_m, height_m), (room_w_mm, room_h_mm)):
                return ProfileScale(across, up)
    return None


def _taller(across: Scale, times: int) -> Scale | None:
    """Return the vertical scale so many times larger, where the trade has a name for it."""
    if across.system is System.METRIC:
        whole = across.ratio.denominator
        return None if whole % times else _one_to(whole // times)
    feet = 1 / (12 * across.ratio * times)
    return _feet_to_inch(int(feet)) if feet.denominator == 1 else None


@dataclass(frozen=True, slots=True)
class View:
    """The way from metres on the ground to millimetres on paper.

    Parameters
    ----------
    scale
        Scale of lengths, and of heights too unless `vertical` says otherwise.
    world
        A point on the ground, east and north or station and height. [m]
    paper
        Where that point lies on the sheet. [mm]
    turn_deg
        How the ground is turned on the sheet, anticlockwise. [degrees]
    vertical
        Scale of heights in a profile.

    Examples
    --------
    >>> ten = scales(Kind.PLAN, System.US)[1]
    >>> View(ten, (0.0, 0.0), (50.0, 20.0)).at(3.048, 0.0)
    (75.4, 20.0)
    """

    scale: Scale
    world: Point
    paper: Point
    turn_deg: float = 0.0
    vertical: Scale | None = None

    def at(self, x_m: float, y_m: float) -> Point:
        """Return where a point on the ground lies on the sheet, in mm."""
        across = self.paper[0] + self.scale.paper_mm(x_m - self.world[0])
        up = self.paper[1] + (self.vertical or self.scale).paper_mm(y_m - self.world[1])
        return turned((across, up), self.paper, self.turn_deg)

    def points(self, ground_m: Iterable[Point]) -> tuple[Point, ...]:
        """Return where points on the ground lie on the sheet, in mm."""
        return tuple(self.at(x, y) for x, y in ground_m)


def windows(length_m: float, room_mm: float, scale: Scale, overlap_m: float) -> tuple[Point, ...]:
    """Return the stretches, from and to, that show a length on several sheets at one scale.

    Neighbours share `overlap_m`, in which the match line is drawn; all are equally long. [m]

    Raises
    ------
    ValueError
        If the overlap leaves nothing new to show.

    Examples
    --------
    >>> sixty = scales(Kind.PLAN, System.US)[-1]
    >>> [(round(a, 3), round(b, 3)) for a, b in windows(100.0, 76.2, sixty, 4.864)]
    [(0.0, 54.864), (45.136, 100.0)]
    """
    reach = scale.real_m(room_mm)
    if length_m <= reach:
        return ((0.0, length_m),)
    if overlap_m >= reach:
        raise ValueError(f"an overlap of {overlap_m} m leaves nothing of {reach} m to show")
    count = math.ceil((length_m - overlap_m) / (reach - overlap_m) - 1e-9)
    step = (length_m - reach) / (count - 1)
    return tuple((i * step, i * step + reach) for i in range(count))


@dataclass(frozen=True, slots=True)
class Bar:
    """A scale bar: so many equal steps of a round number of units."""

    unit: str
    step: int
    count: int
    step_mm: float


_BAR_UNITS: dict[System, tuple[tuple[str, Fraction, tuple[int, ...]], ...]] = {
    System.US: (
        ("ft", _FOOT_M, (100, 50, 20, 10, 5, 2, 1)),
        ("in", _FOOT_M / 12, (6, 3, 2, 1)),
    ),
    System.METRIC: (
        ("m", Fraction(1), (50, 20, 10, 5, 2, 1)),
        ("mm", Fraction(1, 1000), (500, 200, 100, 50, 20, 10)),
    ),
}
_LEAST_STEP_MM = 7.0


@lru_cache(maxsize=64)
def scale_bar_steps(scale: Scale, room_mm: float, count: int = 4) -> Bar:
    """Return the longest scale bar of round steps that a room takes.

    Examples
    --------
    >>> scale_bar_steps(scales(Kind.PLAN, System.US)[1], 60.0)
    Bar(unit='ft', step=5, count=4, step_mm=12.7)

    Raises
    ------
    ValueError
        If the room is too short for any bar.
    """
    for unit, size_m, steps in _BAR_UNITS[scale.system]:
        for step in steps:
            step_mm = float(size_m * step * 1000 * scale.ratio)
            if step_mm * count <= room_mm and step_mm >= _LEAST_STEP_MM:
                return Bar(unit, step, count, step_mm)
    if count == 1:
        raise ValueError(f"no scale bar at {scale.text} fits {room_mm} mm")
    return scale_bar_steps(scale, room_mm, count - 1)
