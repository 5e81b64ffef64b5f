"""Gradually varied flow up one reach by the direct step, where water is held back or fills it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from permitkit.hydraulics.critical import velocity_head

if TYPE_CHECKING:
    from permitkit.hydraulics.section import Section

__all__ = ["direct_step"]

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
