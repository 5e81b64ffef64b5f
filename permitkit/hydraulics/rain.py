"""From rain to flow: roofs, pumps, leaders, and an intensity table by duration."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.hydraulics.bounds import OutOfRange, above_zero, zero_or_more

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = [
    "RUNOFF",
    "IntensityTable",
    "Runoff",
    "catchment_area",
    "leader_flow",
    "pump_roof_equivalent",
    "roof_flow",
    "round_of_same_area",
]

LEADER_K = 27.8 * 231.0 / 60.0 * 0.0254 ** (1.0 / 3.0)  # 27.8 is of gpm and inches
LEADER_SHARE = 7.0 / 24.0


@dataclass(frozen=True, slots=True)
class Runoff:
    """The share of rain that runs off a surface: the range of a table, and where that stands.

    Parameters
    ----------
    low, high
        Ends of the range. [-]
    source
        The table.
    """

    low: float
    high: float
    source: str


_ASCE = "ASCE rational coefficients, as in University of Illinois ABE TSM352, table"

RUNOFF: Mapping[str, Runoff] = MappingProxyType(
    {
        surface: Runoff(low, high, _ASCE)
        for surface, low, high in (
            ("asphalt", 0.70, 0.95),
            ("concrete", 0.80, 0.95),
            ("brick", 0.70, 0.85),
            ("lawn, sandy soil, flat", 0.05, 0.10),
            ("lawn, sandy soil, average", 0.10, 0.15),
            ("lawn, sandy soil, steep", 0.15, 0.20),
            ("lawn, heavy soil, flat", 0.13, 0.17),
            ("lawn, heavy soil, average", 0.18, 0.22),
            ("lawn, heavy soil, steep", 0.25, 0.35),
        )
    }
)
"""Runoff coefficients of the surfaces of a house lot, by name; a roof has 1 in a plumbing code."""


def roof_flow(area_m2: float, intensity_ms: float, c: float = 1.0) -> float:
    """Return the flow from a surface in steady rain, in m3/s.

    Parameters
    ----------
    area_m2
        Area in plan. [m2]
    intensity_ms
        Rainfall intensity. [m/s]
    c
        Runoff coefficient, 1 for a roof, 0 to 1. [-]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 3, rational
       method; in trade units gpm = in/hr x ft2 / 96.25

    Examples
    --------
    >>> inch_an_hour = 0.0254 / 3600
    >>> round(roof_flow(2000 * 0.3048**2, 4 * inch_an_hour) / 6.30902e-5, 1)
    83.1
    """
    if zero_or_more("runoff coefficient", c) > 1.0:
        raise OutOfRange(f"runoff coefficient must not be over 1, not {c!r}")
    return c * zero_or_more("intensity", intensity_ms) * zero_or_more("area", area_m2)


def catchment_area(plan_m2: float, wall_m2: float = 0.0) -> float:
    """Return a roof's area with half of a wall that drains on to it, in m2.

    Parameters
    ----------
    plan_m2
        Roof area in plan. [m2]
    wall_m2
        Face of the one wall above it. [m2]

    References
    ----------
    .. [1] International Plumbing Code, 2018, sec. 1106.4, vertical walls: half the wall's area

    Examples
    --------
    >>> catchment_area(40.0, 12.0)
    46.0
    """
    return zero_or_more("roof area", plan_m2) + zero_or_more("wall area", wall_m2) / 2.0


def pump_roof_equivalent(flow_m3s: float, intensity_ms: float) -> float:
    """Return the roof area that would send as much as a pump, in m2.

    Parameters
    ----------
    flow_m3s
        Pump's full rate at its lift. [m3/s]
    intensity_ms
        Rainfall intensity. [m/s]

    References
    ----------
    .. [1] Louisiana Administrative Code 51:XIV.1115, continuous flow: 24 ft2 for each gpm at
       4 in/hr

    Examples
    --------
    >>> round(pump_roof_equivalent(6.30902e-5, 4 * 0.0254 / 3600), 2)
    2.24
    """
    return zero_or_more("flow", flow_m3s) / above_zero("intensity", intensity_ms)


def leader_flow(bore_m: float, share: float = LEADER_SHARE) -> float:
    """Return the flow a vertical leader takes, in m3/s.

    Parameters
    ----------
    bore_m
        Inside diameter. [m]
    share
        Part of the bore that the falling ring of water fills, 7/24 by custom. [-]

    References
    ----------
    .. [1] R. S. Wyly and H. N. Eaton, NBS Monograph 31, 1961: gpm = 27.8 r^(5/3) d^(8/3), d in
       inches; the basis of National Standard Plumbing Code, 2006, table 13.6.1

    Examples
    --------
    >>> round(leader_flow(3 * 0.0254) / 6.30902e-5)
    67
    """
    if above_zero("share", share) > 1.0:
        raise OutOfRange(f"share must not be over 1, not {share!r}")
    return float(LEADER_K * share ** (5.0 / 3.0) * above_zero("bore", bore_m) ** (8.0 / 3.0))


def round_of_same_area(width_m: float, depth_m: float) -> float:
    """Return the bore of the round leader with the area of a rectangular one, in m.

    Parameters
    ----------
    width_m, depth_m
        Inside of the leader. [m]

    References
    ----------
    .. [1] Geometry; codes size a rectangular leader by its area

    Examples
    --------
    >>> round(round_of_same_area(0.0508, 0.0762), 4)
    0.0702
    """
    return math.sqrt(4.0 * above_zero("width", width_m) * above_zero("depth", depth_m) / math.pi)


@dataclass(frozen=True, slots=True)
class IntensityTable:
    """Rainfall intensity by duration and return period at one place.

    Parameters
    ----------
    periods_years
        Return periods, one a column.
    durations_s
        Durations, one a row, rising. [s]
    intensities_ms
        A row for each duration, a number for each period. [m/s]

    Raises
    ------
    OutOfRange
        If the shape does not fit, durations do not rise, or a number is not more than zero.

    References
    ----------
    .. [1] NOAA Atlas 14, point precipitation frequency estimates

    Examples
    --------
    >>> table = IntensityTable((25.0,), (300.0, 900.0), ((4e-5,), (2e-5,)))
    >>> table.intensity_ms(25.0, 300.0)
    4e-05
    """

    periods_years: tuple[float, ...]
    durations_s: tuple[float, ...]
    intensities_ms: tuple[tuple[float, ...], ...]

    def __post_init__(self) -> None:
        """Check the shape and the numbers."""
        if not self.durations_s or len(self.intensities_ms) != len(self.durations_s):
            raise OutOfRange("an intensity table needs one row for each duration")
        if any(len(row) != len(self.periods_years) for row in self.intensities_ms):
            raise OutOfRange("an intensity table needs one number for each return period")
        if any(after <= before for before, after in pairwise(self.durations_s)):
            raise OutOfRange("an intensity table's durations must rise")
        for value in (*self.durations_s, *(one for row in self.intensities_ms for one in row)):
            above_zero("intensity table entry", value)

    def intensity_ms(self, period_years: float, duration_s: float) -> float:
        """Return the intensity, in m/s, straight on logarithms between two durations.

        Raises
        ------
        OutOfRange
            If the period is not one of the table's, or the duration lies beyond its ends.
        """
        if period_years not in self.periods_years:
            listed = ", ".join(f"{period:g}" for period in self.periods_years)
            raise OutOfRange(f"no return period of {period_years:g} years; there are {listed}")
        column = self.periods_years.index(period_years)
        points = [
            (seconds, row[column])
            for seconds, row in zip(self.durations_s, self.intensities_ms, strict=True)
        ]
        for (short, heavy), (long, light) in pairwise([points[0], *points]):
            if short <= duration_s <= long:
                share = math.log(duration_s / short) / math.log(long / short) if long > short else 0
                return float(heavy * (light / heavy) ** share)
        raise OutOfRange(f"no duration of {duration_s:g} s between {points[0][0]:g} and {long:g} s")
