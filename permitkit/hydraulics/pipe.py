"""Uniform flow in one pipe, by Manning.

Flow is that of one barrel unless a function takes `barrels`.
"""

from __future__ import annotations

import math
from functools import lru_cache

from permitkit.hydraulics.bounds import OutOfRange, above_zero, root_between, zero_or_more
from permitkit.hydraulics.section import Round, Section

__all__ = [
    "bore_for_flow",
    "flow_at",
    "flow_each",
    "full_flow",
    "full_velocity",
    "greatest_flow",
    "mean_velocity",
    "normal_depth",
    "self_cleansing",
    "slope_for_flow",
    "slope_for_velocity",
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
    >>> round(full_flow(Round(1.0), slope=1.0, n=1.0), 3)
    0.312
    """
    return section.full.area_m2 * full_velocity(section, slope, n) * _barrels(barrels)


def greatest_flow(section: Section, slope: float, n: float, barrels: int = 1) -> float:
    """Return the most a pipe carries with a free surface, all barrels, in m3/s.

    Parameters
    ----------
    section
        The inside of one barrel.
    slope, n
        Fall over length [-] and Manning roughness. [s/m^(1/3)]
    barrels
        Equal pipes side by side.

    Notes
    -----
    A round pipe carries 1.076 of full at 0.938 of its bore. No steady state to build on: a
    ripple that wets the crown brings the flow back to full.

    References
    ----------
    .. [1] F. M. White, Fluid Mechanics, 4th ed., ch. 10, eq. 10.21

    Examples
    --------
    >>> pipe = Round(0.1)
    >>> round(greatest_flow(pipe, 0.01, 0.011) / full_flow(pipe, 0.01, 0.011), 3)
    1.076
    """
    return flow_at(section, section.brim_m, slope, n) * _barrels(barrels)


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
        Count the free surface above the just-full flow as well, up to `greatest_flow`.

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


def slope_for_flow(section: Section, flow_m3s: float, n: float) -> float:
    """Return the least slope at which the pipe carries a flow when just full.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    n
        Manning roughness. [s/m^(1/3)]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eq. 7-1 solved
       for the slope

    Examples
    --------
    >>> pipe = Round(0.1)
    >>> round(full_flow(pipe, slope_for_flow(pipe, 0.005, 0.011), 0.011), 9)
    0.005
    """
    return (above_zero("n", n) * zero_or_more("flow", flow_m3s) / section.full.conveyance) ** 2


def slope_for_velocity(section: Section, velocity_ms: float, n: float) -> float:
    """Return the least slope at which the full pipe moves at a velocity.

    Parameters
    ----------
    section
        The inside of the pipe.
    velocity_ms
        Velocity wanted. [m/s]
    n
        Manning roughness. [s/m^(1/3)]

    References
    ----------
    .. [1] Manning's formula, see `mean_velocity`, solved for the slope

    Examples
    --------
    >>> round(100 * slope_for_velocity(Round(0.2032), 0.6096, 0.013), 2)
    0.33
    """
    radius = section.full.hydraulic_radius_m
    wanted = zero_or_more("velocity", velocity_ms) * above_zero("n", n)
    return float((wanted / radius ** (2.0 / 3.0)) ** 2)


def bore_for_flow(flow_m3s: float, slope: float, n: float) -> float:
    """Return the round bore that a flow just fills, in m.

    Parameters
    ----------
    flow_m3s
        Flow of one barrel. [m3/s]
    slope, n
        Fall over length [-] and Manning roughness. [s/m^(1/3)]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eq. 7-1 solved
       for the diameter

    Examples
    --------
    >>> round(bore_for_flow(full_flow(Round(0.1), 0.01, 0.011), 0.01, 0.011), 9)
    0.1
    """
    unit = full_flow(Round(1.0), slope, n)
    return float((zero_or_more("flow", flow_m3s) / unit) ** 0.375)


def self_cleansing(section: Section, slope: float, n: float, least_velocity_ms: float) -> bool:
    """Tell whether the full pipe moves at least at a velocity that carries its grit.

    Parameters
    ----------
    section
        The inside of the pipe.
    slope, n
        Fall over length [-] and Manning roughness; a slope of zero or less never cleans.
    least_velocity_ms
        The velocity asked for, by a rule sheet. [m/s]

    References
    ----------
    .. [1] City of Purcell, Oklahoma, code sec. 12-488, minimum slopes table: slopes that give
       2 ft/s flowing full

    Examples
    --------
    >>> self_cleansing(Round(0.2032), 0.004, 0.013, 0.6096)
    True
    """
    return slope > 0.0 and full_velocity(section, slope, n) >= least_velocity_ms


def _barrels(barrels: int) -> int:
    """Return the number of barrels, or raise `OutOfRange` if there is none."""
    if barrels < 1:
        raise OutOfRange(f"barrels must be one or more, not {barrels!r}")
    return barrels
