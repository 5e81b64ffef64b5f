"""The cut through a walk: panels touched, pieces left, saw cut, area, concrete.

Lengths along the walk are from the run, which crosses it at a right angle; left is negative.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from permitkit.geometry.shape import above_zero, zero_or_more
from permitkit.geometry.span import NOISE_M, Joints, Span

__all__ = [
    "Panel",
    "WalkCut",
    "bag_yield_m3",
    "bags_for",
    "to_joint_where_short",
]

FOOT3_M3 = 0.3048**3
BAG_YIELD_FT3_LB = 0.15 / 20.0
"""Concrete from a bag of dry mix by its weight, 0.15 ft3 for 20 lb: ASTM C387 mixes."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A slab between two joints, whether the cut touches it, and whether it goes whole."""

    left_m: float
    right_m: float
    touched: bool
    removed: bool


@dataclass(frozen=True, slots=True)
class WalkCut:
    """What is cut in a walk, and what is taken out for it.

    Parameters
    ----------
    joints
        Of the walk.
    cut, removed
        What is cut along the walk, and what is taken out; of no length where nothing is.
    walk_width_m, across_m
        Width of the walk, and how much of it is taken out. [m]

    Examples
    --------
    >>> foot, joints = 0.3048, Joints(0.0, 5 * 0.3048)
    >>> cut = Span.about(5 * foot, 1.25 * foot)
    >>> part = WalkCut(joints, cut, cut, 5 * foot, 5 * foot)
    >>> [round(piece / foot, 2) for piece in part.pieces_m], round(part.area_m2 / foot**2, 1)
    ([3.75, 3.75], 12.5)
    """

    joints: Joints
    cut: Span
    removed: Span
    walk_width_m: float
    across_m: float

    @property
    def area_m2(self) -> float:
        """Area taken out, in m2."""
        return self.removed.length_m * self.across_m

    @property
    def pieces_m(self) -> tuple[float, float]:
        """What is left of the panels at both ends, left and right, in m; zero at a joint."""
        if not self.area_m2:
            return 0.0, 0.0
        left, right = self.removed.left_m, self.removed.right_m
        return left - self.joints.below(left), self.joints.above(right) - right

    @property
    def saw_m(self) -> float:
        """Length of saw cut, in m: across at both ends, and along where the walk stays in part.

        A joint is sawn as well, so that the panel beside it is not broken.
        """
        if not self.removed.length_m:
            return 0.0
        along = self.removed.length_m if self.across_m < self.walk_width_m - NOISE_M else 0.0
        return 2.0 * self.across_m + along

    @property
    def panels(self) -> tuple[Panel, ...]:
        """The panels from one beyond the cut on the left to one beyond it on the right."""
        around, apart = self.joints.around(self.cut), self.joints.apart_m
        first = around.left_m - apart
        count = round((around.length_m + 2.0 * apart) / apart)
        spans = (Span(first + n * apart, first + (n + 1) * apart) for n in range(count))
        return tuple(
            Panel(span.left_m, span.right_m, span.overlaps(self.cut), self.removed.holds(span))
            for span in spans
        )

    def volume_m3(self, thickness_m: float) -> float:
        """Return what fills the area taken out to a thickness, in m3, with nothing for waste."""
        return self.area_m2 * zero_or_more("thickness", thickness_m)


def to_joint_where_short(joints: Joints, cut: Span, least_piece_m: float) -> Span:
    """Return a cut taken on to the joint on each side where the piece left would be too short.

    Parameters
    ----------
    joints
        Of the walk.
    cut
        What is cut along it.
    least_piece_m
        Shortest piece that may stay. [m]

    Examples
    --------
    >>> to_joint_where_short(Joints(0.0, 1.5), Span(0.25, 0.75), 0.5)
    Span(left_m=0.0, right_m=0.75)
    """
    whole = joints.around(cut)
    least = zero_or_more("least piece", least_piece_m) - NOISE_M
    left = whole.left_m if cut.left_m - whole.left_m < least else cut.left_m
    right = whole.right_m if whole.right_m - cut.right_m < least else cut.right_m
    return Span(left, right)


def bag_yield_m3(pounds: float) -> float:
    """Return the concrete that one bag of dry mix makes, in m3.

    Parameters
    ----------
    pounds
        Weight of the bag, as it is sold. [lb]

    References
    ----------
    .. [1] ASTM C387, mixes as sold: 0.6 ft3 from a bag of 80 lb

    Examples
    --------
    >>> round(bag_yield_m3(80) / 0.3048**3, 3)
    0.6
    """
    return above_zero("bag", pounds) * BAG_YIELD_FT3_LB * FOOT3_M3


def bags_for(volume_m3: float, pounds: float) -> int:
    """Return how many bags of dry mix make a volume, rounded up.

    Parameters
    ----------
    volume_m3
        Concrete needed. [m3]
    pounds
        Weight of a bag. [lb]

    Examples
    --------
    >>> bags_for(27 * 0.3048**3, 80)
    45
    """
    bags = zero_or_more("volume", volume_m3) / bag_yield_m3(pounds)
    return ceil(bags - NOISE_M)
