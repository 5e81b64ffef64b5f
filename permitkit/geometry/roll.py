"""Curbs that wheels may climb on an arc: rolled and half-round."""

from __future__ import annotations

import math

from permitkit.geometry.curb import CurbProfile, Pan, profile_of
from permitkit.geometry.shape import (
    NEAR_M,
    Arc,
    ImpossibleShape,
    Line,
    above_zero,
    zero_or_more,
)

__all__ = ["half_round_curb", "roll_slope_rad", "rolled_curb"]


def roll_slope_rad(height_m: float, roll_width_m: float, radii_sum_m: float) -> float:
    """Return the steepest slope of a roll made of two arcs and the line that touches both, in rad.

    Parameters
    ----------
    height_m, roll_width_m
        Rise and run of the roll, level at both ends. [m]
    radii_sum_m
        Toe radius and crown radius together. [m]

    Raises
    ------
    ImpossibleShape
        If the radii are too great to meet within the roll.

    References
    ----------
    .. [1] Geometry: the inner tangent of two circles

    Examples
    --------
    >>> import math
    >>> round(math.degrees(roll_slope_rad(4.0, 12.0, 20.0)), 2)
    36.87
    """
    rise, run = above_zero("height", height_m), above_zero("roll width", roll_width_m)
    radii = zero_or_more("radii", radii_sum_m)
    straight = run**2 + rise**2 - 2.0 * rise * radii
    if straight < -NEAR_M:
        most = (run**2 + rise**2) / (2.0 * rise)
        raise ImpossibleShape(
            f"the two radii make {radii:.4g} m; at most {most:.4g} m fit the roll"
        )
    away = math.hypot(run, rise - radii)
    return math.atan2(rise - radii, run) + math.asin(min(radii / away, 1.0))


def rolled_curb(
    height_m: float,
    roll_width_m: float,
    toe_radius_m: float,
    crown_radius_m: float,
    pan: Pan,
    back_width_m: float = 0.0,
) -> CurbProfile:
    """Return a curb that rolls from the flow line up to its back in two arcs, with its pan.

    Parameters
    ----------
    height_m, roll_width_m
        Rise and run of the roll, level at both ends. [m]
    toe_radius_m, crown_radius_m
        Of the hollow and of the round above it; a straight line that touches both lies between. [m]
    pan
        The gutter pan.
    back_width_m
        Level top behind the roll. [m]

    Raises
    ------
    ImpossibleShape
        If a size is zero or less, or the radii are too great to meet within the roll.

    Examples
    --------
    >>> inch = 0.0254
    >>> roll = rolled_curb(4 * inch, 12 * inch, 10 * inch, 10 * inch, Pan(0.3, 0.02, 0.15))
    >>> round(roll.top_at(6 * inch) / inch, 6)
    2.0
    """
    radii = zero_or_more("toe radius", toe_radius_m) + zero_or_more("crown radius", crown_radius_m)
    half = math.tan(roll_slope_rad(height_m, roll_width_m, radii) / 2.0)
    foot, brow = toe_radius_m * half, roll_width_m - crown_radius_m * half
    end = roll_width_m + zero_or_more("back width", back_width_m)
    surface = [
        (-pan.width_m, pan.lip_height_m, 0.0),
        (0.0, 0.0, 0.0),
        (foot, 0.0, toe_radius_m),
        (brow, height_m, crown_radius_m),
        (end, height_m, 0.0),
    ]
    return profile_of(height_m, surface, pan.base(end), lip_m=-pan.width_m)


def half_round_curb(height_m: float, width_m: float, base_depth_m: float) -> CurbProfile:
    """Return a curb whose top is one arc across its width, on a block below the flow line.

    Parameters
    ----------
    height_m, width_m, base_depth_m
        Rise of the arc, at most half its width; width; flow line down to the base. [m]

    Raises
    ------
    ImpossibleShape
        If a size is zero or less, or the arc rises more than a half circle.

    Examples
    --------
    >>> curb = half_round_curb(0.1, 0.2, 0.1)
    >>> round(curb.area_m2, 6), round(curb.top_at(0.1), 6)
    (0.035708, 0.1)
    """
    rise, width = above_zero("height", height_m), above_zero("width", width_m)
    base = above_zero("base depth", base_depth_m)
    if rise > width / 2.0 + NEAR_M:
        raise ImpossibleShape(f"an arc {width:.4g} m wide rises at most {width / 2:.4g} m")
    radius = (width**2 / 4.0 + rise**2) / (2.0 * rise)
    centre = (width / 2.0, rise - radius)
    start = math.atan2(-centre[1], -centre[0])
    arc = Arc(centre, radius, start, -2.0 * (start - math.pi / 2.0))
    face = Line((0.0, -base), (0.0, 0.0))
    rest = (Line((width, 0.0), (width, -base)), Line((width, -base), (0.0, -base)))
    return CurbProfile(rise, width, 0.0, (face, arc), (face, arc, *rest))
