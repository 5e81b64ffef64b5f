"""Stretches of a line, places spaced along it, and joints that come again and again.

A line runs along the curb or along the walk; right is positive.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from permitkit.geometry.shape import above_zero, finite, zero_or_more

__all__ = ["NOISE_M", "Joints", "Span", "spaced_about"]

NOISE_M = 1e-6
"""What two lengths along a line may differ by and still be one."""


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a line, from its left end to its right in m."""

    left_m: float
    right_m: float

    @classmethod
    def about(cls, middle_m: float, half_m: float) -> Span:
        """Return the span that reaches as far to either side of its middle."""
        return cls(middle_m - half_m, middle_m + half_m)

    @property
    def length_m(self) -> float:
        """Its length."""
        return self.right_m - self.left_m

    def joined(self, other: Span) -> Span:
        """Return the span from the one's farthest end to the other's."""
        return Span(min(self.left_m, other.left_m), max(self.right_m, other.right_m))

    def holds(self, other: Span) -> bool:
        """Tell whether another span lies within this one."""
        inside = self.left_m - NOISE_M <= other.left_m
        return inside and other.right_m <= self.right_m + NOISE_M

    def overlaps(self, other: Span) -> bool:
        """Tell whether the two share more than an end."""
        least = min(self.right_m, other.right_m) - max(self.left_m, other.left_m)
        return least > NOISE_M

    def clear_of(self, other: Span) -> float:
        """Return the length between the two, in m; zero where they meet.

        Examples
        --------
        >>> Span(0.0, 1.0).clear_of(Span(3.0, 4.0)), Span(0.0, 1.0).clear_of(Span(0.5, 4.0))
        (2.0, 0.0)
        """
        return max(other.left_m - self.right_m, self.left_m - other.right_m, 0.0)


@dataclass(frozen=True, slots=True)
class Joints:
    """Joints at even distances, without end.

    Parameters
    ----------
    one_m
        Where one of them lies. [m]
    apart_m
        From joint to joint. [m]

    Raises
    ------
    ImpossibleShape
        If they lie no distance apart, or a number is not finite.

    Examples
    --------
    >>> Joints(-1.0, 1.5).around(Span(-0.5, 0.75))
    Span(left_m=-1.0, right_m=2.0)
    """

    one_m: float
    apart_m: float

    def __post_init__(self) -> None:
        """Refuse what are no joints."""
        finite("joint", self.one_m)
        above_zero("distance between joints", self.apart_m)

    def below(self, at_m: float) -> float:
        """Return the joint at a place, or the next one left of it."""
        return floor((at_m - self.one_m) / self.apart_m + NOISE_M) * self.apart_m + self.one_m

    def above(self, at_m: float) -> float:
        """Return the joint at a place, or the next one right of it."""
        return ceil((at_m - self.one_m) / self.apart_m - NOISE_M) * self.apart_m + self.one_m

    def around(self, span: Span) -> Span:
        """Return the whole panels that a span touches."""
        return Span(self.below(span.left_m), self.above(span.right_m))

    def within(self, span: Span) -> tuple[float, ...]:
        """Return where the joints in a span lie, in m, its ends included.

        Examples
        --------
        >>> Joints(7.0, 3.0).within(Span(0.0, 10.0))
        (1.0, 4.0, 7.0, 10.0)
        """
        low = ceil((span.left_m - self.one_m) / self.apart_m - NOISE_M)
        high = floor((span.right_m - self.one_m) / self.apart_m + NOISE_M)
        return tuple(self.one_m + self.apart_m * count for count in range(low, high + 1))


def spaced_about(middle_m: float, count: int, apart_m: float) -> tuple[float, ...]:
    """Return evenly spaced places about a middle, in m.

    Parameters
    ----------
    middle_m
        Middle of them all. [m]
    count
        How many.
    apart_m
        From one to the next. [m]

    Examples
    --------
    >>> spaced_about(10.0, 3, 0.5)
    (9.5, 10.0, 10.5)
    """
    apart = zero_or_more("spacing", apart_m)
    return tuple(middle_m + (n - (count - 1) / 2.0) * apart for n in range(count))
