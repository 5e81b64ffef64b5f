"""Head taken by friction, bends, ends, changes of size and junctions."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.hydraulics.bounds import OutOfRange, above_zero, zero_or_more
from permitkit.hydraulics.critical import GRAVITY_MS2, velocity_head

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.hydraulics.section import Section

__all__ = [
    "ENTRANCE_K",
    "bend_loss",
    "contraction_k",
    "friction_slope",
    "junction_rise",
]

BEND_K_PER_DEGREE = 0.0033

ENTRANCE_K: Mapping[str, float] = MappingProxyType(
    {
        "socket end, projecting": 0.2,
        "square edge": 0.5,
        "thin wall, projecting": 0.9,
        "mitred to slope": 0.7,
        "bevelled": 0.2,
    }
)
"""Entrance loss over velocity head: FHWA HDS-5, 3rd ed. 2012, table C.2 (from memory)."""


def friction_slope(
    section: Section, flow_m3s: float, n: float, depth_m: float | None = None
) -> float:
    """Return the fall that friction takes over length; without a depth, of the full pipe.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    n
        Manning roughness. [s/m^(1/3)]
    depth_m
        Depth of water. [m]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 7, friction
       loss

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> round(friction_slope(Round(1.0), 0.3117, 1.0), 3)
    1.0
    """
    zero_or_more("flow", flow_m3s)
    wetted = section.full if depth_m is None else section.wetted(above_zero("depth", depth_m))
    return (above_zero("n", n) * flow_m3s / wetted.conveyance) ** 2


def bend_loss(angle_degrees: float, velocity_ms: float) -> float:
    """Return the head a bend takes, in m.

    Parameters
    ----------
    angle_degrees
        Change of direction, 0 to 180. [degrees]
    velocity_ms
        Mean velocity. [m/s]

    Raises
    ------
    OutOfRange
        If the angle lies outside 0 to 180.

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 7, bend loss

    Examples
    --------
    >>> round(bend_loss(45.0, 4.0 * 0.3048) / 0.3048, 4)
    0.0369
    """
    if zero_or_more("bend angle", angle_degrees) > 180.0:  # noqa: PLR2004 - half a turn
        raise OutOfRange(f"bend angle must not be over 180 degrees, not {angle_degrees!r}")
    return BEND_K_PER_DEGREE * angle_degrees * velocity_head(velocity_ms)


def contraction_k(small_area_m2: float, large_area_m2: float) -> float:
    """Return the loss of a sudden narrowing over the velocity head of the narrow pipe.

    Parameters
    ----------
    small_area_m2, large_area_m2
        Flow areas after and before. [m2]

    Raises
    ------
    OutOfRange
        If the pipe does not narrow.

    Notes
    -----
    Serves a reducer or an insert in a core; a tapered one takes less, so this errs high.

    References
    ----------
    .. [1] Crane Co., Flow of Fluids, Technical Paper 410, sudden contraction: 0.5 (1 - a/A)

    Examples
    --------
    >>> round(contraction_k(2.0**2, 3.0**2), 4)
    0.2778
    """
    return 0.5 * (1.0 - _area_ratio(small_area_m2, large_area_m2))


def junction_rise(
    out_flow_m3s: float,
    out_area_m2: float,
    arrivals: Sequence[tuple[float, float, float]],
    main_area_m2: float,
) -> float:
    """Return how far the pressure line rises, going upstream, over a pipe junction, in m.

    Parameters
    ----------
    out_flow_m3s, out_area_m2
        Flow and wetted area of the pipe that leaves. [m3/s], [m2]
    arrivals
        Of each pipe that arrives: flow [m3/s], velocity [m/s] and the angle its direction makes
        with that of the pipe that leaves [degrees]. What falls in from above brings no
        momentum along the pipe and is left out.
    main_area_m2
        Wetted area of the arriving pipe that carries on straight. [m2]

    Returns
    -------
    float
        Never below zero.

    Notes
    -----
    The book's loss is of energy, Hj = (momentum out - in) / (g mean area) + hi - ho; the
    pressure line rises by Hj + ho - hi, so that only the momentum term is left.

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eq. 7-10

    Examples
    --------
    >>> round(junction_rise(0.002, 0.004, [(0.001, 0.25, 0.0)], 0.004), 5)
    0.01912
    """
    leaving = above_zero("flow", out_flow_m3s) ** 2 / above_zero("area", out_area_m2)
    arriving = sum(
        flow * speed * max(math.cos(math.radians(angle)), 0.0) for flow, speed, angle in arrivals
    )
    mean_area = 0.5 * (out_area_m2 + above_zero("area", main_area_m2))
    return max((leaving - arriving) / (GRAVITY_MS2 * mean_area), 0.0)


def _area_ratio(small_area_m2: float, large_area_m2: float) -> float:
    """Return small over large, or raise `OutOfRange` if the order is the other way."""
    ratio = above_zero("area", small_area_m2) / above_zero("area", large_area_m2)
    if ratio > 1.0:
        raise OutOfRange(f"an area of {small_area_m2!r} does not fit in {large_area_m2!r}")
    return ratio
