"""Flow through and over openings: orifice, riser, notch; and the time a hole empties in."""

from __future__ import annotations

import math

from permitkit.hydraulics.bounds import OutOfRange, above_zero, root_between, zero_or_more
from permitkit.hydraulics.critical import GRAVITY_MS2

__all__ = [
    "ORIFICE_C",
    "emptying_time",
    "notch_critical_depth",
    "notch_flow",
    "orifice_flow",
    "riser_flow",
    "riser_head",
]

ORIFICE_C = 0.6
ROOT_FOOT = math.sqrt(0.3048)  # turns a coefficient of ft^0.5/s into one of m^0.5/s
RISER_WEIR = 9.739 * ROOT_FOOT
RISER_ORIFICE = 3.782 * ROOT_FOOT


def orifice_flow(area_m2: float, head_m: float, coefficient: float = ORIFICE_C) -> float:
    """Return the flow through a drowned hole, in m3/s.

    Parameters
    ----------
    area_m2, head_m
        Of the hole [m2]; water level above its centre, or above the level beyond it. [m]
    coefficient
        Of discharge, 0.6 for a sharp edge. [-]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 8, orifice

    Examples
    --------
    >>> round(orifice_flow(0.01, 0.2), 5)
    0.01188
    """
    head = zero_or_more("head", head_m)
    hole = zero_or_more("area", area_m2) * above_zero("coefficient", coefficient)
    return hole * math.sqrt(2.0 * GRAVITY_MS2 * head)


def riser_flow(bore_m: float, head_m: float) -> float:
    """Return the flow over an emitter's open rim, the lesser of weir and orifice, in m3/s.

    Parameters
    ----------
    bore_m, head_m
        Inside diameter, and water level above the rim. [m]

    References
    ----------
    .. [1] King County, Washington, Surface Water Design Manual, 1998 and later, riser inflow
       curves: 9.739 D H^1.5 and 3.782 D^2 H^0.5 in feet

    Examples
    --------
    >>> round(riser_flow(0.1, 0.02) * 1000, 2)
    1.52
    """
    head = zero_or_more("head", head_m)
    bore = above_zero("bore", bore_m)
    return min(float(RISER_WEIR * bore * head**1.5), RISER_ORIFICE * bore**2 * math.sqrt(head))


def riser_head(bore_m: float, flow_m3s: float) -> float:
    """Return the head over an open round top at a flow, in m.

    Parameters
    ----------
    bore_m, flow_m3s
        Inside diameter [m] and flow through it. [m3/s]

    References
    ----------
    .. [1] As `riser_flow`, solved for the head

    Examples
    --------
    >>> round(riser_head(0.1, riser_flow(0.1, 0.02)), 9)
    0.02
    """
    bore, flow = above_zero("bore", bore_m), zero_or_more("flow", flow_m3s)
    weir = float((flow / (RISER_WEIR * bore)) ** (2.0 / 3.0))
    return max(weir, (flow / (RISER_ORIFICE * bore**2)) ** 2)


def notch_critical_depth(floor_m: float, taper: float, flow_m3s: float) -> float:
    """Return the critical depth of a flow in a notch with sloping sides, in m.

    Parameters
    ----------
    floor_m, taper
        Width of its floor, zero for a V [m]; run over rise of each side, zero if upright. [-]
    flow_m3s
        Through it. [m3/s]

    Raises
    ------
    OutOfRange
        If floor and taper are both zero.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, ch. 4: Q^2 T / (g A^3) = 1

    Examples
    --------
    >>> foot = 0.3048
    >>> round(notch_critical_depth(0.0, 1.0, 0.1 * foot**3) / foot, 4)
    0.2284
    """
    _opens(floor_m, taper)
    flow = zero_or_more("flow", flow_m3s)
    if flow == 0.0:
        return 0.0

    def excess(depth: float) -> float:
        area, width = _channel(floor_m, taper, depth)
        heavy = (GRAVITY_MS2 * area**3) ** 0.25
        return heavy / (heavy + math.sqrt(flow) * width**0.25) - 0.5 if heavy else -0.5

    high = 1.0
    while excess(high) < 0.0:
        high *= 2.0
    return root_between(excess, 0.0, high)


def notch_flow(floor_m: float, taper: float, head_m: float) -> float:
    """Return the flow a notch passes under a head of still water, in m3/s.

    Parameters
    ----------
    floor_m, taper
        Width of its floor, zero for a V [m]; run over rise of each side, zero if upright. [-]
    head_m
        Still water level above its floor. [m]

    Notes
    -----
    Critical depth stands at the lip where the water falls free, with no loss before it; water
    over the lip from below (the gutter) is not counted.

    References
    ----------
    .. [1] V. T. Chow, Open-Channel Hydraulics, 1959, ch. 4: head = y + A / 2T at critical depth

    Examples
    --------
    >>> round(notch_flow(0.127, 0.0, 0.08), 6)
    0.004898
    """
    _opens(floor_m, taper)
    head = zero_or_more("head", head_m)
    if head == 0.0:
        return 0.0

    def short(depth: float) -> float:
        area, width = _channel(floor_m, taper, depth)
        return depth + (area / (2.0 * width) if width else 0.0) - head

    depth = root_between(short, 0.0, head)
    area, width = _channel(floor_m, taper, depth)
    return math.sqrt(GRAVITY_MS2 * area**3 / width)


def emptying_time(
    volume_m3: float, head_m: float, hole_m2: float, coefficient: float = ORIFICE_C
) -> float:
    """Return the time in which a hole at the bottom empties a volume of even plan, in s.

    Parameters
    ----------
    volume_m3
        Water held. [m3]
    head_m
        Depth of that water over the hole at the start. [m]
    hole_m2, coefficient
        Area of the hole [m2] and its coefficient of discharge. [-]

    Notes
    -----
    Twice the time that the first flow would take. Water that lies deep for its volume, as in a
    pipe on a slope, empties a little sooner.

    References
    ----------
    .. [1] F. M. White, Fluid Mechanics, 4th ed., ch. 3, tank draining by gravity

    Examples
    --------
    >>> round(emptying_time(0.0487, 0.1524, 7.126e-5) / 60)
    22
    """
    volume = zero_or_more("volume", volume_m3)
    if volume == 0.0:
        return 0.0
    first = orifice_flow(above_zero("hole", hole_m2), above_zero("head", head_m), coefficient)
    return 2.0 * volume / first


def _channel(floor_m: float, taper: float, depth_m: float) -> tuple[float, float]:
    """Return area and top width of a notch filled to a depth."""
    return (floor_m + taper * depth_m) * depth_m, floor_m + 2.0 * taper * depth_m


def _opens(floor_m: float, taper: float) -> None:
    if zero_or_more("floor width", floor_m) + zero_or_more("taper", taper) == 0.0:
        raise OutOfRange("a notch needs a floor or tapered sides")
