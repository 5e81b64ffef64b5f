"""Flow through and over openings: orifice, weirs, riser, notch; and the time a hole empties in."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.hydraulics.bounds import OutOfRange, above_zero, root_between, zero_or_more
from permitkit.hydraulics.critical import GRAVITY_MS2

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "ORIFICE_C",
    "broad_weir_flow",
    "emptying_time",
    "notch_critical_depth",
    "notch_flow",
    "notch_head",
    "orifice_flow",
    "orifice_head",
    "riser_flow",
    "riser_head",
    "sharp_weir_flow",
    "staged_emptying_time",
    "vnotch_flow",
]

ORIFICE_C = 0.6
ROOT_FOOT = math.sqrt(0.3048)  # turns a coefficient of ft^0.5/s into one of m^0.5/s
SHARP_BASE = 3.27 * ROOT_FOOT
SHARP_BY_CREST = 0.40 * ROOT_FOOT
CONTRACTION_EACH = 0.1
VNOTCH_K = 1.38
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


def orifice_head(area_m2: float, flow_m3s: float, coefficient: float = ORIFICE_C) -> float:
    """Return the head that drives a flow through a drowned hole, in m.

    Parameters
    ----------
    area_m2, flow_m3s
        Of the hole [m2] and through it. [m3/s]
    coefficient
        Of discharge, 0.6 for a sharp edge. [-]

    References
    ----------
    .. [1] As `orifice_flow`, solved for the head

    Examples
    --------
    >>> round(orifice_head(0.01, orifice_flow(0.01, 0.2)), 9)
    0.2
    """
    hole = above_zero("area", area_m2) * above_zero("coefficient", coefficient)
    return (zero_or_more("flow", flow_m3s) / hole) ** 2 / (2.0 * GRAVITY_MS2)


def sharp_weir_flow(length_m: float, head_m: float, crest_m: float, contractions: int = 2) -> float:
    """Return the flow over a sharp-crested weir, in m3/s.

    Parameters
    ----------
    length_m, head_m, crest_m
        Of the crest, of water above it, and its height above the floor before it. [m]
    contractions
        Ends at which the water must turn in.

    Raises
    ------
    OutOfRange
        If the ends, a tenth of the head each, leave no length.

    References
    ----------
    .. [1] City of Everett, Washington, Stormwater Management Manual, vol. III, 2014, fig. 3.2.13,
       equation 6

    Examples
    --------
    >>> foot = 0.3048
    >>> round(sharp_weir_flow(1.0 * foot, 0.2 * foot, 1.0 * foot) / foot**3, 4)
    0.2876
    """
    head = zero_or_more("head", head_m)
    if contractions not in (0, 1, 2):
        raise OutOfRange(f"a weir has 0, 1 or 2 end contractions, not {contractions!r}")
    length = above_zero("length", length_m) - CONTRACTION_EACH * contractions * head
    coefficient = SHARP_BASE + SHARP_BY_CREST * head / above_zero("crest height", crest_m)
    return float(coefficient * zero_or_more("length less contractions", length) * head**1.5)


def broad_weir_flow(length_m: float, head_m: float) -> float:
    """Return the flow over a broad level crest by critical depth, in m3/s.

    Parameters
    ----------
    length_m, head_m
        Of the crest across the flow, and of still water above it. [m]

    References
    ----------
    .. [1] San Diego State University, CIVE 530 midterm solution, 2005: C = 2/3 sqrt(2/3 g)

    Examples
    --------
    >>> round(broad_weir_flow(1.0, 1.0), 4)
    1.7046
    """
    head = zero_or_more("head", head_m)
    constant = (2.0 / 3.0) * math.sqrt(2.0 / 3.0 * GRAVITY_MS2)
    return float(constant * above_zero("length", length_m) * head**1.5)


def vnotch_flow(angle_degrees: float, head_m: float) -> float:
    """Return the flow over a sharp V-notch, in m3/s.

    Parameters
    ----------
    angle_degrees, head_m
        Whole angle, between 0 and 180 [degrees], and water level above its point. [m]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 8, V-notch

    Examples
    --------
    >>> round(vnotch_flow(90.0, 0.1) * 1000, 2)
    4.36
    """
    if not 0.0 < angle_degrees < 180.0:  # noqa: PLR2004 - a straight line
        raise OutOfRange(f"a notch's angle lies between 0 and 180 degrees, not {angle_degrees!r}")
    half = math.radians(angle_degrees) / 2.0
    return float(VNOTCH_K * math.tan(half) * zero_or_more("head", head_m) ** 2.5)


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
    >>> round(notch_flow(0.127, 0.0, 0.08), 5) == round(broad_weir_flow(0.127, 0.08), 5)
    True
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


def notch_head(floor_m: float, taper: float, flow_m3s: float) -> float:
    """Return the head of still water over a notch's floor at a flow, in m.

    Parameters
    ----------
    floor_m, taper
        Width of its floor, zero for a V [m]; run over rise of each side, zero if upright. [-]
    flow_m3s
        Through it. [m3/s]

    References
    ----------
    .. [1] As `notch_flow`, solved for the head

    Examples
    --------
    >>> foot = 0.3048
    >>> round(notch_head(0.0, 1.0, 0.1 * foot**3) / foot, 4)
    0.2855
    """
    depth = notch_critical_depth(floor_m, taper, flow_m3s)
    if depth == 0.0:
        return 0.0
    area, width = _channel(floor_m, taper, depth)
    return depth + area / (2.0 * width)


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
    pipe on a slope, empties a little sooner: `staged_emptying_time`.

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


def staged_emptying_time(
    stages: Sequence[tuple[float, float]], hole_m2: float, coefficient: float = ORIFICE_C
) -> float:
    """Return the time in which a hole empties a vessel known by its stages, in s.

    Parameters
    ----------
    stages
        Head over the hole [m] and volume held below it [m3], from (0, 0) up, both rising.
    hole_m2, coefficient
        Area of the hole [m2] and its coefficient of discharge. [-]

    Raises
    ------
    OutOfRange
        If the stages do not begin at (0, 0) and rise.

    References
    ----------
    .. [1] F. M. White, Fluid Mechanics, 4th ed., ch. 3, tank draining by gravity, stage by stage

    Examples
    --------
    >>> whole = emptying_time(0.05, 0.2, 1e-4)
    >>> parts = staged_emptying_time([(0.0, 0.0), (0.1, 0.025), (0.2, 0.05)], 1e-4)
    >>> round(whole - parts, 9)
    0.0
    """
    if not stages or tuple(stages[0]) != (0.0, 0.0):
        raise OutOfRange("stages must begin at no head and no volume")
    unit = orifice_flow(above_zero("hole", hole_m2), 1.0, coefficient)
    total = 0.0
    for (low, less), (high, more) in pairwise(stages):
        if high <= low or more < less:
            raise OutOfRange(f"stages must rise, not from {(low, less)!r} to {(high, more)!r}")
        roots = math.sqrt(high) - math.sqrt(low)
        total += (more - less) / (high - low) * 2.0 * roots / unit
    return total


def _channel(floor_m: float, taper: float, depth_m: float) -> tuple[float, float]:
    """Return area and top width of a notch filled to a depth."""
    return (floor_m + taper * depth_m) * depth_m, floor_m + 2.0 * taper * depth_m


def _opens(floor_m: float, taper: float) -> None:
    if zero_or_more("floor width", floor_m) + zero_or_more("taper", taper) == 0.0:
        raise OutOfRange("a notch needs a floor or tapered sides")
