"""Uniform flow in one pipe, by Manning.

Flow is that of one barrel unless a function takes `barrels`.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from permitkit.hydraulics.bounds import OutOfRange, above_zero, root_between, zero_or_more

if TYPE_CHECKING:
    from permitkit.hydraulics.section import Section

__all__ = [
    "flow_at",
    "flow_each",
    "full_flow",
    "full_velocity",
    "mean_velocity",
    "normal_depth",
]

TRACE = 1e-18


def mean_velocity(hydraulic_radius_m: float, slope: float, n: float) -> float:
    """Return the mean velocity of uniform flow, in m/s.

    Parameters
    ----------
    hydraulic_radius_m
        Flow area over wetted perimeter. [m]
    slope
        Friction slope, rise over run. [-]
    n
        Manning roughness. [s/m^(1/3)]

    Raises
    ------
    OutOfRange
        If slope or n is zero or less, or the radius is below zero.

    References
    ----------
    .. [1] R. Manning's formula as in Y. A. Cengel and J. M. Cimbala, Fluid Mechanics, 2006,
       open-channel flow

    Examples
    --------
    >>> round(mean_velocity(0.2859, slope=0.005236, n=0.03), 6)
    1.046778
    """
    radius = zero_or_more("hydraulic radius", hydraulic_radius_m)
    slope = above_zero("slope", slope)
    return float(radius ** (2.0 / 3.0)) * math.sqrt(slope) / above_zero("n", n)


def flow_at(section: Section, depth_m: float, slope: float, n: float) -> float:
    """Return the uniform flow of one barrel at a depth, in m3/s.

    Parameters
    ----------
    section
        The inside of the pipe.
    depth_m
        Depth of water; above the height the pipe is full. [m]
    slope, n
        Fall over length [-] and Manning roughness. [s/m^(1/3)]

    References
    ----------
    .. [1] Manning's formula, see `mean_velocity`

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> round(flow_at(Round(1.8288), 0.9144, slope=0.002, n=0.024), 3)
    1.452
    """
    wetted = section.wetted(depth_m)
    return wetted.area_m2 * mean_velocity(wetted.hydraulic_radius_m, slope, n)


def full_velocity(section: Section, slope: float, n: float) -> float:
    """Return the mean velocity of the pipe just full, in m/s.

    Parameters
    ----------
    section
        The inside of the pipe.
    slope, n
        Fall over length [-] and Manning roughness. [s/m^(1/3)]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eq. 7-1

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> round(full_velocity(Round(1.0), slope=1.0, n=1.0), 3)
    0.397
    """
    return mean_velocity(section.full.hydraulic_radius_m, slope, n)


def full_flow(section: Section, slope: float, n: float, barrels: int = 1) -> float:
    """Return the flow of the pipe just full, all barrels, in m3/s.

    Parameters
    ----------
    section
        The inside of one barrel.
    slope, n
        Fall over length [-] and Manning roughness. [s/m^(1/3)]
    barrels
        Equal pipes side by side.

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eq. 7-1

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> round(full_flow(Round(1.0), slope=1.0, n=1.0), 3)
    0.312
    """
    return section.full.area_m2 * full_velocity(section, slope, n) * _barrels(barrels)


def flow_each(flow_m3s: float, barrels: int) -> float:
    """Return the flow of one of several equal barrels, in m3/s.

    References
    ----------
    .. [1] Continuity; equal barrels at one invert share the flow equally

    Examples
    --------
    >>> flow_each(0.006, 2)
    0.003
    """
    return zero_or_more("flow", flow_m3s) / _barrels(barrels)


@lru_cache(maxsize=4096)
def normal_depth(
    section: Section, flow_m3s: float, slope: float, n: float, *, past_full: bool = False
) -> float | None:
    """Return the depth of uniform flow, in m, or None where the pipe is surcharged.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    slope, n
        Fall over length [-] and Manning roughness. [s/m^(1/3)]
    past_full
        Count the free surface above the just-full flow as well, up to the most it carries, which
        no steady state can be built on: a ripple that wets the crown brings it back to full.

    Returns
    -------
    float or None
        The lower of the two depths where there are two; zero for no flow or a trace; None when
        the flow is more than the full pipe carries (with `past_full`, more than at the brim).

    Raises
    ------
    OutOfRange
        If slope or n is zero or less or the flow is below zero.

    References
    ----------
    .. [1] Manning's formula, see `mean_velocity`; the two depths: V. T. Chow, Open-Channel
       Hydraulics, 1959, sec. 6-4

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> half = flow_at(Round(0.1), 0.05, slope=0.01, n=0.011)
    >>> round(normal_depth(Round(0.1), half, slope=0.01, n=0.011), 9)
    0.05
    """
    unit_flow = above_zero("n", n) * zero_or_more("flow", flow_m3s)
    needed = unit_flow / math.sqrt(above_zero("slope", slope))
    if needed <= TRACE * section.full.conveyance:
        return 0.0
    most = section.wetted(section.brim_m) if past_full else section.full
    if needed > most.conveyance:
        return None
    # conveyance grows as depth^(8/3): its root is nearly a straight line, and quick to solve
    wetted = section.wetted
    return root_between(
        lambda depth: (wetted(depth).conveyance / needed) ** 0.375 - 1.0, 0.0, section.brim_m
    )


def _barrels(barrels: int) -> int:
    """Return the number of barrels, or raise `OutOfRange` if there is none."""
    if barrels < 1:
        raise OutOfRange(f"barrels must be one or more, not {barrels!r}")
    return barrels
