"""A notch sawn through a rolled curb: its floor, its depth."""

from __future__ import annotations

from dataclasses import dataclass

from permitkit.geometry.shape import NEAR_M, above_zero, finite, zero_or_more

__all__ = ["Notch", "breaks_face"]


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

    Raises
    ------
    ImpossibleShape
        If its width is not positive, the roll's width or height negative, or a number not finite.

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

    def __post_init__(self) -> None:
        """Refuse what cannot be sawn."""
        above_zero("notch width", self.width_m)
        zero_or_more("roll width", self.roll_width_m)
        zero_or_more("curb height", self.curb_height_m)
        finite("floor at the toe", self.toe_floor_m)
        finite("floor slope", self.floor_slope)

    def floor_at(self, offset_m: float) -> float:
        """Return the height of the floor at an offset behind the toe, in m."""
        return self.toe_floor_m + self.floor_slope * offset_m

    @property
    def back_floor_m(self) -> float:
        """Height of the floor at the back, in m."""
        return self.floor_at(self.roll_width_m)

    @property
    def back_depth_m(self) -> float:
        """Depth of the notch at the back, in m; negative where it comes out on top."""
        return self.curb_height_m - self.back_floor_m


def breaks_face(reveal_m: float, hole_bottom_m: float, bit_m: float) -> bool:
    """Tell whether a core of this size would come out through the top of a curb.

    Parameters
    ----------
    reveal_m
        Curb top above the flow line. [m]
    hole_bottom_m, bit_m
        Lowest point of the hole above the flow line, and its diameter. [m]

    Examples
    --------
    >>> breaks_face(0.1, 0.0, 0.1), breaks_face(0.1, 0.01, 0.05)
    (True, False)
    """
    return above_zero("reveal", reveal_m) - hole_bottom_m - above_zero("bit", bit_m) <= NEAR_M
