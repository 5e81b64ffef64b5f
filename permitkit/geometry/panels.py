"""The cut through a walk: panels touched, pieces left, saw cut, area, concrete.

x runs along the walk; the run crosses it at a right angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.geometry.shape import ImpossibleShape, above_zero, finite, zero_or_more

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = [
    "BAG_YIELD_M3",
    "Panel",
    "WalkCut",
    "bags_for",
    "cut_across",
    "cut_between",
    "to_joint_where_short",
    "whole_panels",
]

NEAR_M = 1e-6
FOOT3_M3 = 0.3048**3

BAG_YIELD_M3: Mapping[int, float] = MappingProxyType(
    {
        pounds: cubic_feet * FOOT3_M3
        for pounds, cubic_feet in ((40, 0.3), (50, 0.375), (60, 0.45), (80, 0.6))
    }
)
"""Concrete from one bag by its weight in pounds: ASTM C387 mixes, 0.15 ft3 for 20 lb."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A slab between two joints."""

    start_m: float
    end_m: float

    @property
    def length_m(self) -> float:
        """Length along the walk, in m."""
        return self.end_m - self.start_m


@dataclass(frozen=True, slots=True)
class WalkCut:
    """A cut right across a walk.

    Parameters
    ----------
    start_m, end_m
        Its two edges along the walk. [m]
    walk_width_m
        Across the walk. [m]
    panels
        The panels it touches.
    """

    start_m: float
    end_m: float
    walk_width_m: float
    panels: tuple[Panel, ...]

    @property
    def length_m(self) -> float:
        """Length along the walk, in m."""
        return self.end_m - self.start_m

    @property
    def area_m2(self) -> float:
        """Area taken out, in m2."""
        return self.length_m * self.walk_width_m

    @property
    def panel_area_m2(self) -> float:
        """Area of all panels touched, whole, in m2."""
        return sum(panel.length_m for panel in self.panels) * self.walk_width_m

    @property
    def left_piece_m(self) -> float:
        """What is left of the first panel, in m; zero where the cut lies on its joint."""
        return _piece(self.start_m - self.panels[0].start_m)

    @property
    def right_piece_m(self) -> float:
        """What is left of the last panel, in m; zero where the cut lies on its joint."""
        return _piece(self.panels[-1].end_m - self.end_m)

    @property
    def pieces_m(self) -> tuple[float, ...]:
        """The pieces left, none where the cut lies on a joint, in m."""
        return tuple(piece for piece in (self.left_piece_m, self.right_piece_m) if piece)

    @property
    def takes_whole_panels(self) -> bool:
        """Whether both edges lie on joints."""
        return not self.pieces_m

    @property
    def saw_m(self) -> float:
        """Length of saw cut through slabs, in m; an edge on a joint needs none."""
        return len(self.pieces_m) * self.walk_width_m

    @property
    def joint_m(self) -> float:
        """Length of edge that lies on joints, in m."""
        return (2 - len(self.pieces_m)) * self.walk_width_m

    def volume_m3(self, thickness_m: float, waste: float = 0.0) -> float:
        """Return the concrete to put back, with a share for waste, in m3.

        Examples
        --------
        >>> foot = 0.3048
        >>> cut = cut_across(5 * foot, 2.5 * foot, 5 * foot, 5 * foot)
        >>> round(cut.volume_m3(foot / 3, waste=0.1) / foot**3, 4)
        9.1667
        """
        share = 1.0 + zero_or_more("waste", waste)
        return self.area_m2 * above_zero("thickness", thickness_m) * share


def cut_between(
    joints_m: Sequence[float], start_m: float, end_m: float, walk_width_m: float
) -> WalkCut:
    """Return a cut in a walk whose joints were measured one by one.

    Parameters
    ----------
    joints_m
        Joints along the walk, rising, reaching past the cut on both sides. [m]
    start_m, end_m
        Edges of the cut. [m]
    walk_width_m
        Across the walk. [m]

    Raises
    ------
    ImpossibleShape
        If the joints do not rise or do not reach past the cut, or it has no length.

    Examples
    --------
    >>> len(cut_between([0.0, 1.5, 3.0], 1.0, 2.0, 1.5).panels)
    2
    """
    above_zero("walk width", walk_width_m)
    if finite("end of the cut", end_m) - finite("start of the cut", start_m) <= NEAR_M:
        raise ImpossibleShape("a cut must have a length")
    panels = tuple(Panel(before, after) for before, after in pairwise(joints_m))
    if any(panel.length_m <= 0.0 for panel in panels):
        raise ImpossibleShape("joints must rise along the walk")
    if not panels or start_m < joints_m[0] - NEAR_M or end_m > joints_m[-1] + NEAR_M:
        raise ImpossibleShape("the joints must reach past the cut on both sides")
    touched = tuple(
        panel
        for panel in panels
        if panel.end_m > start_m + NEAR_M and panel.start_m < end_m - NEAR_M
    )
    return WalkCut(start_m, end_m, walk_width_m, touched)


def cut_across(
    joint_spacing_m: float, joint_to_run_m: float, cut_length_m: float, walk_width_m: float
) -> WalkCut:
    """Return the cut centred on a run, in a walk with even joints.

    Parameters
    ----------
    joint_spacing_m
        Joint to joint. [m]
    joint_to_run_m
        From a joint, which is x = 0, to the middle of the run. [m]
    cut_length_m, walk_width_m
        Along and across the walk. [m]

    Examples
    --------
    >>> cut = cut_across(1.524, 1.4, 0.762, 1.524)
    >>> len(cut.panels), round(cut.left_piece_m, 3)
    (2, 1.019)
    """
    spacing = above_zero("joint spacing", joint_spacing_m)
    half = above_zero("cut length", cut_length_m) / 2.0
    start, end = finite("joint to run", joint_to_run_m) - half, joint_to_run_m + half
    first = math.floor(start / spacing + NEAR_M)
    last = math.ceil(end / spacing - NEAR_M)
    joints = [spacing * number for number in range(first, last + 1)]
    return cut_between(joints, start, end, walk_width_m)


def whole_panels(cut: WalkCut) -> WalkCut:
    """Return the cut widened to every panel it touches.

    Examples
    --------
    >>> whole = whole_panels(cut_across(1.5, 1.5, 0.75, 1.5))
    >>> whole.start_m, whole.end_m, whole.saw_m
    (0.0, 3.0, 0.0)
    """
    return replace(cut, start_m=cut.panels[0].start_m, end_m=cut.panels[-1].end_m)


def to_joint_where_short(cut: WalkCut, least_piece_m: float) -> WalkCut:
    """Return the cut taken on to the joint on each side where less than a least piece is left.

    Parameters
    ----------
    cut
        The cut proposed.
    least_piece_m
        Shortest piece that may stay. [m]

    Examples
    --------
    >>> cut = to_joint_where_short(cut_across(1.5, 0.6, 0.6, 1.5), 0.5)
    >>> cut.start_m, round(cut.end_m, 3)
    (0.0, 0.9)
    """
    least = zero_or_more("least piece", least_piece_m) - NEAR_M
    start = cut.panels[0].start_m if cut.left_piece_m < least else cut.start_m
    end = cut.panels[-1].end_m if cut.right_piece_m < least else cut.end_m
    return replace(cut, start_m=start, end_m=end)


def bags_for(volume_m3: float, bag_yield_m3: float) -> int:
    """Return how many bags make a volume, rounded up.

    Examples
    --------
    >>> bags_for(27 * 0.3048**3, BAG_YIELD_M3[80])
    45
    """
    bags = zero_or_more("volume", volume_m3) / above_zero("bag yield", bag_yield_m3)
    return math.ceil(bags - NEAR_M)


def _piece(length_m: float) -> float:
    """Return a length, or zero where it is no more than float noise."""
    return length_m if length_m > NEAR_M else 0.0
