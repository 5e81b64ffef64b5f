"""A notch sawn through a rolled curb: its floor, its depth, what it opens."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.geometry.shape import NEAR_M, ImpossibleShape, above_zero, finite, zero_or_more

if TYPE_CHECKING:
    from permitkit.geometry.curb import CurbProfile

__all__ = ["Notch", "breaks_face"]

SLICES = 200


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch with a sloping floor.

    Parameters
    ----------
    width_m
        Width of the floor. [m]
    toe_floor_m, floor_slope
        Floor above the flow line at the toe [m]; its rise toward the house over run. [-]
    roll_width_m, curb_height_m
        Run of the roll to the back of the curb, and height there. [m]
    taper
        Run over rise of each side; zero for upright cuts. [-]

    Raises
    ------
    ImpossibleShape
        If a size is zero or less, or the floor comes out over the back of the curb.

    Examples
    --------
    >>> inch = 0.0254
    >>> notch = Notch(5 * inch, 0.5 * inch, 0.02, 12 * inch, 4 * inch)
    >>> round(notch.back_floor_m / inch, 2), round(notch.back_depth_m / inch, 2)
    (0.74, 3.26)
    """

    width_m: float
    toe_floor_m: float
    floor_slope: float
    roll_width_m: float
    curb_height_m: float
    taper: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what opens nothing."""
        for name, value in (
            ("notch width", self.width_m),
            ("roll width", self.roll_width_m),
            ("curb height", self.curb_height_m),
        ):
            above_zero(name, value)
        finite("floor at the toe", self.toe_floor_m)
        finite("floor slope", self.floor_slope)
        zero_or_more("taper", self.taper)
        if self.back_depth_m <= 0.0:
            raise ImpossibleShape(
                f"the floor rises {-self.back_depth_m:.4g} m over the curb's back"
            )

    def floor_at(self, offset_m: float) -> float:
        """Return the height of the floor at an offset behind the toe, in m."""
        return self.toe_floor_m + self.floor_slope * offset_m

    @property
    def back_floor_m(self) -> float:
        """Height of the floor at the back, in m."""
        return self.floor_at(self.roll_width_m)

    @property
    def back_depth_m(self) -> float:
        """Depth of the notch at the back, its greatest, in m."""
        return self.curb_height_m - self.back_floor_m

    def depth_at(self, curb: CurbProfile, offset_m: float) -> float:
        """Return the depth under the curb's surface at an offset, in m; zero before it cuts in."""
        return max(curb.top_at(offset_m) - self.floor_at(offset_m), 0.0)

    def top_width(self, depth_m: float) -> float:
        """Return the width across the top where it is this deep, in m."""
        return self.width_m + 2.0 * self.taper * zero_or_more("depth", depth_m)

    def opening_m2(self, depth_m: float) -> float:
        """Return the area it opens where it is this deep, in m2.

        Examples
        --------
        >>> round(Notch(0.1, 0.0, 0.02, 0.3, 0.1, taper=0.5).opening_m2(0.08), 5)
        0.0112
        """
        return (self.width_m + self.taper * zero_or_more("depth", depth_m)) * depth_m

    @property
    def back_opening_m2(self) -> float:
        """Area it opens at the back, in m2."""
        return self.opening_m2(self.back_depth_m)

    def least_depth(self, curb: CurbProfile, near_m: float, far_m: float) -> float:
        """Return the least depth between two offsets, in m.

        Raises
        ------
        ImpossibleShape
            If the far offset does not lie beyond the near one.
        """
        if far_m <= near_m:
            raise ImpossibleShape(f"{far_m:.4g} m does not lie behind {near_m:.4g} m")
        step = (far_m - near_m) / SLICES
        return min(self.depth_at(curb, near_m + step * i) for i in range(SLICES + 1))

    def sawn_m3(self, curb: CurbProfile) -> float:
        """Return the volume of concrete it takes out, in m3, by 200 slices."""
        step = self.roll_width_m / SLICES
        middles = (step * (i + 0.5) for i in range(SLICES))
        return step * sum(self.opening_m2(self.depth_at(curb, x)) for x in middles)


def breaks_face(
    curb: CurbProfile, hole_bottom_m: float, bit_m: float, strip_m: float = 0.0
) -> bool:
    """Tell whether a core of this size would come out through the top of a curb.

    Parameters
    ----------
    curb
        The curb in section.
    hole_bottom_m, bit_m
        Lowest point of the hole, and its diameter. [m]
    strip_m
        Concrete that must be left over it. [m]

    Examples
    --------
    >>> from permitkit.geometry.curb import Pan
    >>> from permitkit.geometry.roll import rolled_curb
    >>> roll = rolled_curb(0.1, 0.3, 0.2, 0.2, Pan(0.3, 0.02, 0.15))
    >>> breaks_face(roll, 0.0, 0.1), breaks_face(roll, 0.01, 0.05, strip_m=0.03)
    (True, False)
    """
    top = hole_bottom_m + above_zero("bit", bit_m)
    strip = curb.reveal_m - top
    return strip <= NEAR_M or strip < zero_or_more("strip", strip_m) - NEAR_M
