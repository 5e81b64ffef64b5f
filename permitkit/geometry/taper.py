"""Work in the street: tapers, channelizers, buffer and advance signs by width and speed.

The formulas are printed for feet and miles an hour; here they take and give SI.
"""

from __future__ import annotations

from functools import cache
from math import ceil, isfinite
from typing import Literal

from permitkit.units import Kind, measure

__all__ = [
    "Setting",
    "buffer_m",
    "merging_taper_m",
    "sign_spacing_m",
    "spacing_in_taper_m",
    "stopping_distance_m",
]

Setting = Literal["urban", "rural", "expressway"]

SLOW_UP_TO_MPH, FAST_FROM_MPH = 40.0, 45.0
SLOW_DIVISOR = 60.0
FEET_A_SECOND, REACTION_S, BRAKING, DECELERATION_FTS2 = 1.47, 2.5, 1.075, 11.2
BUFFER_STEP_FT = 5.0
SIGNS_FT: dict[str, tuple[float, float, float]] = {
    "rural": (500.0, 500.0, 500.0),
    "expressway": (1000.0, 1500.0, 2640.0),
}
URBAN_SIGNS_FT = ((25.0, 100.0), (40.0, 250.0), (float("inf"), 350.0))


@cache
def _foot_m() -> float:
    return float(measure(1, "ft", Kind.LENGTH).si)


@cache
def _mph_ms() -> float:
    return float(measure(1, "mph", Kind.SPEED).si)


def _mph(speed_ms: float) -> float:
    """Return a speed in miles an hour, without the noise of converting it."""
    if not (isfinite(speed_ms) and speed_ms > 0.0):
        raise ValueError(f"a speed must be more than zero, not {speed_ms!r}")
    return round(speed_ms / _mph_ms(), 9)


def merging_taper_m(offset_m: float, speed_ms: float) -> float:
    """Return the length L of a merging taper, in m.

    Parameters
    ----------
    offset_m
        Width taken from traffic, W. [m]
    speed_ms
        Posted speed, S. [m/s]

    Raises
    ------
    ValueError
        If the width is below zero or the speed is not above zero.

    Notes
    -----
    L = W S^2 / 60 up to 40 mph and L = W S from 45 mph. The table gives nothing between; a
    speed there is taken as 45 mph, the longer of the two.

    References
    ----------
    .. [1] MUTCD, 11th ed., December 2023, table 6B-4 (2009 ed.: table 6C-4)

    Examples
    --------
    >>> round(merging_taper_m(8 * 0.3048, 25 * 0.44704) / 0.3048, 1)
    83.3
    """
    if not (isfinite(offset_m) and offset_m >= 0.0):
        raise ValueError(f"a width taken must not be below zero, not {offset_m!r}")
    mph = _mph(speed_ms)
    if mph <= SLOW_UP_TO_MPH:
        return offset_m * mph**2 / SLOW_DIVISOR
    return offset_m * max(mph, FAST_FROM_MPH)


def spacing_in_taper_m(speed_ms: float) -> float:
    """Return the widest spacing of channelizers in a taper, in m: a foot a mile an hour.

    Parameters
    ----------
    speed_ms
        Posted speed. [m/s]

    References
    ----------
    .. [1] MUTCD, 11th ed., December 2023, section 6K.01

    Examples
    --------
    >>> round(spacing_in_taper_m(25 * 0.44704) / 0.3048, 6)
    25.0
    """
    return _mph(speed_ms) * _foot_m()


def stopping_distance_m(speed_ms: float) -> float:
    """Return the stopping sight distance on the level, in m.

    Parameters
    ----------
    speed_ms
        Speed, V. [m/s]

    Notes
    -----
    1.47 V t + 1.075 V^2 / a in feet, with t = 2.5 s and a = 11.2 ft/s2.

    References
    ----------
    .. [1] TxDOT Roadway Design Manual, section 4.11.1, after the AASHTO Green Book

    Examples
    --------
    >>> round(stopping_distance_m(25 * 0.44704) / 0.3048, 1)
    151.9
    """
    mph = _mph(speed_ms)
    feet = FEET_A_SECOND * mph * REACTION_S + BRAKING * mph**2 / DECELERATION_FTS2
    return feet * _foot_m()


def buffer_m(speed_ms: float) -> float:
    """Return the length of a longitudinal buffer, in m: stopping distance up to the next 5 ft.

    Parameters
    ----------
    speed_ms
        Posted speed. [m/s]

    References
    ----------
    .. [1] MUTCD, 11th ed., December 2023, table 6B-2

    Examples
    --------
    >>> round(buffer_m(25 * 0.44704) / 0.3048, 6)
    155.0
    """
    steps = round(stopping_distance_m(speed_ms) / _foot_m() / BUFFER_STEP_FT, 9)
    return ceil(steps) * BUFFER_STEP_FT * _foot_m()


def sign_spacing_m(speed_ms: float, setting: Setting = "urban") -> tuple[float, float, float]:
    """Return the distances A, B and C between the work and its advance signs, in m.

    Parameters
    ----------
    speed_ms
        Posted speed. [m/s]
    setting
        The kind of road.

    Notes
    -----
    The federal table gives urban streets 100 ft at low and 350 ft at high speed and leaves the
    split to the agency; the split and the middle step here are California's.

    References
    ----------
    .. [1] MUTCD, 11th ed., December 2023, table 6B-1
    .. [2] California MUTCD, 2014, table 6H-3(CA)

    Examples
    --------
    >>> [round(d / 0.3048) for d in sign_spacing_m(25 * 0.44704)]
    [100, 100, 100]
    """
    mph = _mph(speed_ms)
    feet = SIGNS_FT.get(setting) or _urban_signs_ft(mph)
    a, b, c = (distance * _foot_m() for distance in feet)
    return a, b, c


def _urban_signs_ft(mph: float) -> tuple[float, float, float]:
    each = next(feet for up_to, feet in URBAN_SIGNS_FT if mph <= up_to)
    return each, each, each
