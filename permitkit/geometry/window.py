"""The outlet window: the heights of a hole that satisfy every limit at once.

Each limit, whatever part of hole or pipe it is on, is turned into one on the hole bottom above the
gutter flow line; the window lies between the highest from below and the lowest from above.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from permitkit.geometry.core import above_bottom
from permitkit.geometry.shape import NEAR_M, ImpossibleShape, finite

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.geometry.core import Part

__all__ = [
    "Limit",
    "Side",
    "Window",
    "hole_bottom_for",
    "limit_on",
    "outlet_window",
]

Side = Literal["low", "high"]


class Limit(NamedTuple):
    """One limit as a height of the hole bottom: who sets it, from below or above."""

    name: str
    side: Side
    hole_bottom_m: float


@dataclass(frozen=True, slots=True)
class Window:
    """The hole bottoms that satisfy every limit.

    Parameters
    ----------
    limits
        All of them, as given.
    low_by, high_by
        The limit that binds on each side; of equals the first.
    """

    limits: tuple[Limit, ...]
    low_by: Limit
    high_by: Limit

    @property
    def low_m(self) -> float:
        """Lowest hole bottom, in m."""
        return self.low_by.hole_bottom_m

    @property
    def high_m(self) -> float:
        """Highest hole bottom, in m."""
        return self.high_by.hole_bottom_m

    @property
    def crossing_m(self) -> float:
        """By how much the two binding limits cross, in m; zero where the window is open."""
        crossing = self.low_m - self.high_m
        return crossing if crossing > NEAR_M else 0.0

    @property
    def is_empty(self) -> bool:
        """Whether no height satisfies all."""
        return self.crossing_m > 0.0

    def holds(self, hole_bottom_m: float) -> bool:
        """Tell whether a hole bottom lies in the window; on its edge it does."""
        return not self.is_empty and not self.broken_by(hole_bottom_m)

    def broken_by(self, hole_bottom_m: float) -> tuple[Limit, ...]:
        """Return the limits that a hole bottom breaks."""
        return tuple(limit for limit in self.limits if _beyond(limit, hole_bottom_m) > NEAR_M)


def hole_bottom_for(
    part: Part, height_m: float, bit_m: float, pipe_outside_m: float, bore_m: float
) -> float:
    """Return the hole bottom that puts a part of hole or pipe at a height, in m.

    Parameters
    ----------
    part
        What the height is of.
    height_m
        Above the flow line; for one below the curb top give reveal less that. [m]
    bit_m, pipe_outside_m, bore_m
        Hole, and pipe outside and inside. [m]

    Examples
    --------
    >>> round(hole_bottom_for("invert", 0.0217, 0.1016, 0.0889, 0.0773), 4)
    0.0095
    """
    return finite("height", height_m) - above_bottom(part, bit_m, pipe_outside_m, bore_m)


def limit_on(
    name: str,
    part: Part,
    side: Side,
    height_m: float,
    bit_m: float,
    pipe_outside_m: float,
    bore_m: float,
) -> Limit:
    """Return a limit on any part of hole or pipe as one on the hole bottom.

    Parameters
    ----------
    name
        Who sets it, as printed.
    part, side
        What is limited, and whether that is its lowest or its highest.
    height_m
        Above the flow line. [m]
    bit_m, pipe_outside_m, bore_m
        Hole, and pipe outside and inside. [m]

    Examples
    --------
    >>> limit_on("invert, least", "invert", "low", 0.0127, 0.1016, 0.0889, 0.0773).side
    'low'
    """
    return Limit(name, side, hole_bottom_for(part, height_m, bit_m, pipe_outside_m, bore_m))


def outlet_window(limits: Iterable[Limit]) -> Window:
    """Return the window between the highest low limit and the lowest high limit.

    Parameters
    ----------
    limits
        At least one from below and one from above.

    Raises
    ------
    ImpossibleShape
        If either side has none.

    Examples
    --------
    >>> window = outlet_window([Limit("flow line", "low", 0.0), Limit("strip", "high", 0.0127)])
    >>> window.low_m, window.high_m, window.is_empty
    (0.0, 0.0127, False)
    """
    given = tuple(limits)
    lows = [limit for limit in given if limit.side == "low"]
    highs = [limit for limit in given if limit.side == "high"]
    if not lows or not highs:
        raise ImpossibleShape("a window needs a limit from below and one from above")
    low = max(lows, key=lambda limit: limit.hole_bottom_m)
    high = min(highs, key=lambda limit: limit.hole_bottom_m)
    return Window(given, low, high)


def _beyond(limit: Limit, hole_bottom_m: float) -> float:
    """Return by how much a hole bottom is beyond a limit; below zero within it."""
    past = hole_bottom_m - limit.hole_bottom_m
    return past if limit.side == "high" else -past
