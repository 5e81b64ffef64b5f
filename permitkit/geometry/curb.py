"""Curb profiles as lines and arcs, and those with a straight face.

x runs from the foot of the curb face toward the house, y up from the gutter flow line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from permitkit.geometry.shape import (
    NEAR_M,
    ImpossibleShape,
    Piece,
    Point,
    above_zero,
    enclosed_area,
    piece_points,
    rounded,
    zero_or_more,
)

__all__ = [
    "SHARP",
    "CurbProfile",
    "Pan",
    "Rounds",
    "curb_and_gutter",
    "profile_of",
    "vertical_curb",
]

Corner = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Rounds:
    """Radii of the toe, the front of the top and the back of the top; zero for a sharp edge."""

    toe_m: float = 0.0
    top_m: float = 0.0
    back_m: float = 0.0


SHARP = Rounds()


@dataclass(frozen=True, slots=True)
class Pan:
    """A gutter pan that falls toward the curb.

    Parameters
    ----------
    width_m, slope, thickness_m
        From lip to curb face [m]; rise toward the lip over run [-]; at the flow line. [m]
    level_base
        The base is level, so that the lip is thicker; else it runs parallel to the pan.

    Raises
    ------
    ImpossibleShape
        If width or thickness is zero or less, or the slope is below zero.
    """

    width_m: float
    slope: float
    thickness_m: float
    level_base: bool = True

    def __post_init__(self) -> None:
        """Refuse what is no pan."""
        above_zero("pan width", self.width_m)
        above_zero("pan thickness", self.thickness_m)
        zero_or_more("pan slope", self.slope)

    @property
    def lip_height_m(self) -> float:
        """Height of the lip above the flow line, in m."""
        return self.width_m * self.slope

    def base(self, back_m: float) -> list[Corner]:
        """Return the corners of the base, from the back of the curb to the lip."""
        below = -self.thickness_m
        lip = below if self.level_base else below + self.lip_height_m
        return [(back_m, below, 0.0), (0.0, below, 0.0), (-self.width_m, lip, 0.0)]


@dataclass(frozen=True, slots=True)
class CurbProfile:
    """A curb in section.

    Parameters
    ----------
    reveal_m
        Height of its top above the flow line. [m]
    back_m, lip_m
        x of its back; x of the gutter pan's lip, zero without a pan. [m]
    surface
        Its upper surface from the pan's lip, or from the base of the face, to the back of the top.
    outline
        All of it, closed.
    """

    reveal_m: float
    back_m: float
    lip_m: float
    surface: tuple[Piece, ...]
    outline: tuple[Piece, ...]

    @property
    def area_m2(self) -> float:
        """Area of concrete, in m2; over one metre of curb it is the volume in m3."""
        return enclosed_area(self.outline)

    def outline_points(self, chord_m: float = 0.002) -> tuple[Point, ...]:
        """Return the outline as points, the first again at the end."""
        return piece_points(self.outline, chord_m)

    def top_at(self, offset_m: float) -> float:
        """Return the height of the upper surface at an offset behind the face, in m.

        Raises
        ------
        ImpossibleShape
            If there is no concrete at that offset.
        """
        heights = [y for piece in self.surface for y in piece.heights_at(offset_m)]
        if not heights:
            raise ImpossibleShape(f"no curb at {offset_m:.4g} m behind the face")
        return max(heights)

    def face_at(self, height_m: float) -> float:
        """Return the offset of the face at a height above the flow line, in m.

        Raises
        ------
        ImpossibleShape
            If the face does not reach that height.
        """
        foot = -NEAR_M if self.lip_m < 0.0 else -math.inf
        offsets = [x for piece in self.surface for x in piece.offsets_at(height_m) if x >= foot]
        if not offsets:
            raise ImpossibleShape(f"the face does not reach {height_m:.4g} m")
        return min(offsets)


def vertical_curb(
    reveal_m: float,
    top_width_m: float,
    base_depth_m: float,
    batter: float = 0.0,
    rounds: Rounds = SHARP,
) -> CurbProfile:
    """Return a curb without a pan, its face battered from top to base.

    Parameters
    ----------
    reveal_m, top_width_m
        Height above the flow line; width across the top, rounds ignored. [m]
    base_depth_m
        From the flow line down to the base. [m]
    batter
        Run over rise of the face. [-]
    rounds
        Radii of the top's edges.

    Raises
    ------
    ImpossibleShape
        If a size is zero or less, or the radii do not fit.

    Examples
    --------
    >>> inch = 0.0254
    >>> curb = vertical_curb(7 * inch, 6 * inch, 11 * inch, batter=2 / 18)
    >>> round(curb.area_m2 / inch**2, 3)
    126.0
    """
    top, base = above_zero("reveal", reveal_m), above_zero("base depth", base_depth_m)
    lean = zero_or_more("batter", batter)
    back = lean * top + above_zero("top width", top_width_m)
    surface = [
        (-lean * base, -base, 0.0),
        (lean * top, top, rounds.top_m),
        (back, top, rounds.back_m),
    ]
    return profile_of(top, surface, [(back, -base, 0.0)])


def curb_and_gutter(
    reveal_m: float,
    top_width_m: float,
    pan: Pan,
    batter: float = 0.0,
    rounds: Rounds = SHARP,
) -> CurbProfile:
    """Return a curb in one piece with its gutter pan.

    Parameters
    ----------
    reveal_m, top_width_m
        Height above the flow line; width across the top, rounds ignored. [m]
    pan
        The gutter pan, whose base runs on under the curb.
    batter
        Run over rise of the face. [-]
    rounds
        Radii of toe and top.

    Raises
    ------
    ImpossibleShape
        If a size is zero or less, or the radii do not fit.

    Examples
    --------
    >>> inch = 0.0254
    >>> pan = Pan(18 * inch, 1 / 18, 6 * inch)
    >>> round(curb_and_gutter(6 * inch, 6 * inch, pan).area_m2 / inch**2, 3)
    189.0
    """
    top, lean = above_zero("reveal", reveal_m), zero_or_more("batter", batter)
    back = lean * top + above_zero("top width", top_width_m)
    surface = [
        (-pan.width_m, pan.lip_height_m, 0.0),
        (0.0, 0.0, rounds.toe_m),
        (lean * top, top, rounds.top_m),
        (back, top, rounds.back_m),
    ]
    return profile_of(top, surface, pan.base(back), lip_m=-pan.width_m)


def profile_of(
    reveal_m: float, surface: list[Corner], base: list[Corner], lip_m: float = 0.0
) -> CurbProfile:
    """Return the profile of an upper surface and the base corners, from the back to the start."""
    upper = rounded([*surface, base[0]], closed=False)[:-1]
    outline = rounded([*surface, *base], closed=True)
    return CurbProfile(reveal_m, surface[-1][0], lip_m, upper, outline)
