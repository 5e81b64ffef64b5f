"""Flow along the gutter: spread, depth at the curb and velocity, plain or with a steeper pan."""

from __future__ import annotations

import math
from dataclasses import dataclass

from permitkit.hydraulics.bounds import OutOfRange, above_zero, root_between, zero_or_more

__all__ = [
    "Gutter",
    "GutterFlow",
    "depth_from_spread",
    "flow_from_spread",
    "gutter_flow",
    "pan_share",
    "spread_from_flow",
]

GUTTER_KU = 0.376
WIDEST_M = 200.0


@dataclass(frozen=True, slots=True)
class Gutter:
    """The cross section and roughness of a gutter.

    Parameters
    ----------
    cross_slope
        Of the pavement, rise over run. [-]
    n
        Manning roughness. [s/m^(1/3)]
    pan_width_m
        Width of the steeper pan next to the curb; zero for one slope throughout. [m]
    pan_slope
        Of that pan, at least the pavement's. [-]

    Raises
    ------
    OutOfRange
        If a slope or n is zero or less, or the pan is flatter than the pavement.
    """

    cross_slope: float
    n: float
    pan_width_m: float = 0.0
    pan_slope: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what has no water's edge."""
        above_zero("cross slope", self.cross_slope)
        above_zero("n", self.n)
        if zero_or_more("pan width", self.pan_width_m) > 0.0 and self.pan_slope < self.cross_slope:
            raise OutOfRange(f"the pan's slope {self.pan_slope!r} is flatter than the pavement's")


@dataclass(frozen=True, slots=True)
class GutterFlow:
    """Water along a gutter: flow, spread from the curb, depth at it, area, velocity, pan share."""

    flow_m3s: float
    spread_m: float
    depth_m: float
    area_m2: float
    velocity_ms: float
    pan_share: float


def depth_from_spread(gutter: Gutter, spread_m: float) -> float:
    """Return the depth of water at the curb, in m.

    Parameters
    ----------
    gutter
        Its section.
    spread_m
        Width of water from the curb. [m]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 4, d = T Sx,
       with the pan's own slope under the pan

    Examples
    --------
    >>> round(depth_from_spread(Gutter(0.02, 0.016, 0.6, 0.08), 2.5), 3)
    0.086
    """
    pan = min(zero_or_more("spread", spread_m), gutter.pan_width_m)
    return pan * gutter.pan_slope + (spread_m - pan) * gutter.cross_slope


def flow_from_spread(gutter: Gutter, spread_m: float, grade: float) -> float:
    """Return the flow along a gutter of this spread, in m3/s.

    Parameters
    ----------
    gutter
        Its section.
    spread_m
        Width of water from the curb. [m]
    grade
        Fall along the street over length, more than zero. [-]

    Notes
    -----
    Exact exponents 5/3 and 8/3, where the manual prints 1.67 and 2.67: the answers are within
    about one in a hundred and are the same in feet and in metres.

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eqs. 4-2, 4-4, 4-5

    Examples
    --------
    >>> round(flow_from_spread(Gutter(0.02, 0.016), 2.5, 0.01), 4)
    0.0399
    """
    pan, rest = _parts(gutter, zero_or_more("spread", spread_m))
    return GUTTER_KU / gutter.n * math.sqrt(above_zero("grade", grade)) * (pan + rest)


def pan_share(gutter: Gutter, spread_m: float) -> float:
    """Return the share of the flow that runs in the pan; 0 without a pan.

    Parameters
    ----------
    gutter
        Its section.
    spread_m
        Width of water from the curb, more than zero. [m]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eq. 4-4

    Examples
    --------
    >>> round(pan_share(Gutter(0.02, 0.016, 2.0, 0.02 + 2 / 24), 8.2), 2)
    0.71
    """
    pan, rest = _parts(gutter, above_zero("spread", spread_m))
    return pan / (pan + rest)


def spread_from_flow(gutter: Gutter, flow_m3s: float, grade: float) -> float:
    """Return the width of water from the curb that carries a flow, in m.

    Parameters
    ----------
    gutter
        Its section.
    flow_m3s
        Flow along the gutter. [m3/s]
    grade
        Fall along the street over length, more than zero. [-]

    Raises
    ------
    OutOfRange
        If 200 m of street would not carry it.

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, eqs. 4-2 to 4-5,
       solved for the spread

    Examples
    --------
    >>> round(spread_from_flow(Gutter(0.02, 0.016), 0.0398, 0.01), 2)
    2.5
    """
    flow = zero_or_more("flow", flow_m3s)
    if flow == 0.0:
        return 0.0
    if flow_from_spread(gutter, WIDEST_M, grade) < flow:
        raise OutOfRange(f"no street carries {flow!r} m3/s within {WIDEST_M:g} m")
    return root_between(
        lambda spread: (flow_from_spread(gutter, spread, grade) / flow) ** 0.375 - 1.0,
        0.0,
        WIDEST_M,
    )


def gutter_flow(gutter: Gutter, flow_m3s: float, grade: float) -> GutterFlow:
    """Return spread, depth, area and velocity of a flow along a gutter.

    Parameters
    ----------
    gutter
        Its section.
    flow_m3s
        Flow along the gutter. [m3/s]
    grade
        Fall along the street over length, more than zero. [-]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 4

    Examples
    --------
    >>> water = gutter_flow(Gutter(0.02, 0.016), 0.0398, 0.01)
    >>> round(water.depth_m, 3), round(water.velocity_ms, 2)
    (0.05, 0.64)
    """
    spread = spread_from_flow(gutter, flow_m3s, grade)
    if spread == 0.0:
        return GutterFlow(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    depth = depth_from_spread(gutter, spread)
    pan = min(spread, gutter.pan_width_m)
    edge = (spread - pan) * gutter.cross_slope
    area = pan * (depth + edge) / 2.0 + (spread - pan) * edge / 2.0
    return GutterFlow(flow_m3s, spread, depth, area, flow_m3s / area, pan_share(gutter, spread))


def _parts(gutter: Gutter, spread_m: float) -> tuple[float, float]:
    """Return what pan and pavement carry, per sqrt(grade) Ku/n.

    The pan is a triangle of its own slope less the tip of it that lies beyond the pan; this is
    the manual's ratio Eo without its division by zero at the pan's edge.
    """
    rest = max(spread_m - gutter.pan_width_m, 0.0)
    pavement = gutter.cross_slope ** (5.0 / 3.0) * rest ** (8.0 / 3.0)
    if gutter.pan_width_m == 0.0:
        return 0.0, float(pavement)
    whole = depth_from_spread(gutter, spread_m) / gutter.pan_slope
    tip = rest * gutter.cross_slope / gutter.pan_slope
    pan = gutter.pan_slope ** (5.0 / 3.0) * (whole ** (8.0 / 3.0) - tip ** (8.0 / 3.0))
    return float(pan), float(pavement)
