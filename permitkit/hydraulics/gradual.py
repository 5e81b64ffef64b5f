"""Gradually varied flow up one reach.

By the direct step, which the grade line uses where water is held back or a pipe fills; and by the
standard step in many small lengths, a second opinion on it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from permitkit.hydraulics.bounds import OutOfRange, above_zero, finite, root_between
from permitkit.hydraulics.critical import critical_depth, specific_energy, velocity_head
from permitkit.hydraulics.losses import friction_slope

if TYPE_CHECKING:
    from permitkit.hydraulics.section import Section

__all__ = ["backwater", "direct_step", "step_up"]

STEPS = 10
EVEN = tuple(step / STEPS for step in range(1, STEPS + 1))
HALVING = tuple(1.0 - 0.5**step for step in range(1, STEPS + 1))


def direct_step(
    section: Section,
    flow_m3s: float,
    n: float,
    slope: float,
    length_m: float,
    depth_m: float,
    toward_m: float,
) -> tuple[float, float]:
    """Return the depth up a reach on the way to a target, and the length left past the target.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel, more than zero. [m3/s]
    n
        Manning roughness. [s/m^(1/3)]
    slope, length_m
        Fall over length, zero or adverse too [-], and length. [m]
    depth_m
        Depth at the lower end, at least critical and not over the height. [m]
    toward_m
        Depth it goes to upstream: normal or critical where water is held back, the height where
        a pipe fills. [m]

    Returns
    -------
    tuple of float
        The depth at the upper end and zero, or the target and the length left. Where the slope
        no longer gives way to the friction the water settles at that depth.

    Notes
    -----
    Ten steps of depth, halving toward a lower target and even toward a higher one; each step's
    length is the energy between its ends over the mean friction slope less the slope.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, sec. 10-3, the direct step method

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> depth, left = direct_step(Round(0.1), 0.003, 0.011, 0.006, 1.0, 0.09, 0.07)
    >>> round(depth, 3), left
    (0.086, 0.0)
    """
    left = length_m
    here, (energy, friction) = depth_m, _energy_and_friction(section, flow_m3s, n, depth_m)
    for share in HALVING if toward_m < depth_m else EVEN:
        above = depth_m + (toward_m - depth_m) * share
        energy_above, friction_above = _energy_and_friction(section, flow_m3s, n, above)
        drive = (friction + friction_above) / 2.0 - slope
        step = (energy_above - energy) / drive if drive else math.inf
        if step <= 0.0:
            return here, 0.0
        if step >= left:
            return here + (above - here) * left / step, 0.0
        left -= step
        here, energy, friction = above, energy_above, friction_above
    return toward_m, left


def _energy_and_friction(
    section: Section, flow_m3s: float, n: float, depth_m: float
) -> tuple[float, float]:
    """Return specific energy and friction slope at a depth."""
    wetted = section.wetted(depth_m)
    energy = depth_m + velocity_head(flow_m3s / wetted.area_m2)
    return energy, (n * flow_m3s / wetted.conveyance) ** 2


def step_up(
    section: Section, flow_m3s: float, n: float, rise_m: float, length_m: float, depth_m: float
) -> float | None:
    """Return the depth one step upstream, in m, or None where the water there runs supercritical.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel. [m3/s]
    n
        Manning roughness. [s/m^(1/3)]
    rise_m
        How far the invert rises over the step; below zero where it falls upstream. [m]
    length_m
        Length of the step. [m]
    depth_m
        Depth below the step, at least critical; above the height it is a pressure head. [m]

    Notes
    -----
    Energy above equals energy below plus the mean friction slope times the length. Depths of
    less than critical belong to another branch and are not sought.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, sec. 10-4, the standard step method

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> round(step_up(Round(0.1), 0.002, 0.011, 0.0, 1.0, 0.12), 4)
    0.1211
    """
    half = above_zero("length", length_m) / 2.0
    below = half * friction_slope(section, flow_m3s, n, depth_m) - finite("rise", rise_m)
    energy = specific_energy(section, flow_m3s, depth_m) + below
    height = section.height_m
    head = specific_energy(section, flow_m3s, 2.0 * height) - 2.0 * height
    pressed = energy + half * friction_slope(section, flow_m3s, n) - head
    if pressed >= height:
        return pressed

    def short(depth: float) -> float:
        taken = half * friction_slope(section, flow_m3s, n, depth)
        return specific_energy(section, flow_m3s, depth) - taken - energy

    least = critical_depth(section, flow_m3s)
    if short(least) > 0.0:
        return None
    return root_between(short, least, height)


def backwater(
    section: Section,
    flow_m3s: float,
    n: float,
    slope: float,
    length_m: float,
    lower_depth_m: float,
    steps: int = 200,
) -> tuple[float, ...]:
    """Return the depths up a reach, from its lower end, in m.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel, more than zero. [m3/s]
    n
        Manning roughness. [s/m^(1/3)]
    slope, length_m
        Fall over length, zero or adverse too [-], and length. [m]
    lower_depth_m
        Depth at the lower end; critical is taken if it is less. [m]
    steps
        Equal steps.

    Returns
    -------
    tuple of float
        `steps` + 1 depths; more than the height is a pressure head. Where the water from below
        no longer holds the flow back, critical depth stands for the faster water above it.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, sec. 10-4, the standard step method

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> line = backwater(Round(0.1), 0.003, 0.011, 0.004, 30.0, 0.2)
    >>> round(line[-1], 3)
    0.152
    """
    if steps < 1:
        raise OutOfRange(f"steps must be one or more, not {steps!r}")
    length = above_zero("length", length_m) / steps
    least = critical_depth(section, above_zero("flow", flow_m3s))
    depths = [max(lower_depth_m, least)]
    for _ in range(steps):
        above = step_up(section, flow_m3s, n, slope * length, length, depths[-1])
        depths.append(least if above is None else max(above, least))
    return tuple(depths)
