"""Energy and critical flow in one barrel: least energy, Froude number, regime."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from permitkit.hydraulics.bounds import OutOfRange, above_zero, root_between, zero_or_more
from permitkit.hydraulics.section import Box

if TYPE_CHECKING:
    from permitkit.hydraulics.section import Section

__all__ = [
    "GRAVITY_MS2",
    "Regime",
    "critical_depth",
    "froude",
    "regime",
    "specific_energy",
    "velocity_at",
    "velocity_head",
]

GRAVITY_MS2 = 9.80665
NEAR_CRITICAL = 0.1

Regime = Literal["dry", "subcritical", "near critical", "supercritical", "full"]


def velocity_at(section: Section, flow_m3s: float, depth_m: float) -> float:
    """Return the mean velocity of a flow at a depth, in m/s; zero for no flow.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    depth_m
        Depth of water; above the height the pipe is full. [m]

    Raises
    ------
    OutOfRange
        If there is flow but no depth.

    References
    ----------
    .. [1] Continuity, V = Q / A

    Examples
    --------
    >>> from permitkit.hydraulics.section import Box
    >>> round(velocity_at(Box(0.12, 0.04), 0.0024, 0.02), 6)
    1.0
    """
    if zero_or_more("flow", flow_m3s) == 0.0:
        return 0.0
    return flow_m3s / above_zero("wetted area", section.wetted(depth_m).area_m2)


def velocity_head(velocity_ms: float) -> float:
    """Return V^2/2g, in m.

    Parameters
    ----------
    velocity_ms
        Mean velocity. [m/s]

    References
    ----------
    .. [1] Bernoulli; g = 9.80665 m/s2

    Examples
    --------
    >>> round(velocity_head(1.2192), 4)
    0.0758
    """
    return velocity_ms * velocity_ms / (2.0 * GRAVITY_MS2)


@lru_cache(maxsize=4096)
def critical_depth(section: Section, flow_m3s: float) -> float:
    """Return the depth of least specific energy, in m.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]

    Returns
    -------
    float
        Zero for no flow. A round pipe's is always below its crown; a box that would need more
        than its height gives its height.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, ch. 4: Q^2 T / (g A^3) = 1

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> flow = 0.24609 * GRAVITY_MS2**0.5 * 0.1**2.5
    >>> round(critical_depth(Round(0.1), flow), 5)
    0.05
    """
    flow = zero_or_more("flow", flow_m3s)
    if flow == 0.0:
        return 0.0
    if isinstance(section, Box):
        unit = (flow / section.width_m) ** 2 / GRAVITY_MS2
        return min(float(unit ** (1.0 / 3.0)), section.height_m)
    swift = math.sqrt(flow)

    def excess(depth: float) -> float:
        area, _, width = section.wetted(depth)
        heavy = (GRAVITY_MS2 * area**3) ** 0.25
        return heavy / (heavy + swift * width**0.25) - 0.5 if heavy else -0.5

    return root_between(excess, 0.0, section.height_m)


def specific_energy(section: Section, flow_m3s: float, depth_m: float) -> float:
    """Return depth plus velocity head above the invert, in m.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    depth_m
        Depth of water, or pressure head above the invert in a full pipe. [m]

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, ch. 3

    Examples
    --------
    >>> from permitkit.hydraulics.section import Box
    >>> round(specific_energy(Box(1.0, 1.0), 1.0, 0.4671) / 0.4671, 2)
    1.5
    """
    return depth_m + velocity_head(velocity_at(section, flow_m3s, depth_m))


def froude(section: Section, flow_m3s: float, depth_m: float) -> float:
    """Return the Froude number at a depth below the crown; zero for no flow.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    depth_m
        Depth of water, with a free surface. [m]

    Raises
    ------
    OutOfRange
        If the pipe is full there, so that there is no surface.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, ch. 4: V / sqrt(g A / T)

    Examples
    --------
    >>> from permitkit.hydraulics.section import Box
    >>> round(froude(Box(1.0, 1.0), 1.0, 0.4671), 2)
    1.0
    """
    velocity = velocity_at(section, flow_m3s, depth_m)
    if velocity == 0.0:
        return 0.0
    wetted = section.wetted(depth_m)
    if wetted.top_width_m <= 0.0:
        raise OutOfRange(f"no free surface at a depth of {depth_m!r}")
    return velocity / math.sqrt(GRAVITY_MS2 * wetted.area_m2 / wetted.top_width_m)


def regime(section: Section, flow_m3s: float, depth_m: float) -> Regime:
    """Return how the water moves at a depth; within a tenth of Froude 1 it is near critical.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    depth_m
        Depth of water. [m]

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, ch. 4

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> regime(Round(0.1), 0.002, 0.08), regime(Round(0.1), 0.002, 0.02)
    ('subcritical', 'supercritical')
    """
    if zero_or_more("flow", flow_m3s) == 0.0:
        return "dry"
    if section.wetted(depth_m).top_width_m <= 0.0:
        return "full"
    number = froude(section, flow_m3s, depth_m)
    if abs(number - 1.0) <= NEAR_CRITICAL:
        return "near critical"
    return "subcritical" if number < 1.0 else "supercritical"
