"""Gradually varied flow up one reach by the standard step: a second opinion on the direct step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.hydraulics.bounds import OutOfRange, above_zero, finite, root_between
from permitkit.hydraulics.critical import critical_depth, specific_energy
from permitkit.hydraulics.losses import friction_slope

if TYPE_CHECKING:
    from permitkit.hydraulics.section import Section


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
