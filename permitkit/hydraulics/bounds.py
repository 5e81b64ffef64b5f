"""Where a formula is valid, and a root search that never leaves its bracket."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["OutOfRange", "above_zero", "finite", "root_between", "zero_or_more"]

MOST_STEPS = 200
GREATEST = 1e9  # beyond any drain, and its powers still fit a float
NEAR_ENOUGH = 1e-11


class OutOfRange(ValueError):  # noqa: N818 - the word says what is wrong with the number
    """A number outside what the formula is valid for; the message names it."""


def finite(name: str, value: float) -> float:
    """Return `value`, or raise `OutOfRange` if it is no number or beyond any drain."""
    if not abs(value) < GREATEST:
        raise OutOfRange(f"{name} must be a finite number, not {value!r}")
    return value


def above_zero(name: str, value: float) -> float:
    """Return `value`, or raise `OutOfRange` unless it is finite and more than zero."""
    if finite(name, value) <= 0.0:
        raise OutOfRange(f"{name} must be more than zero, not {value!r}")
    return value


def zero_or_more(name: str, value: float) -> float:
    """Return `value`, or raise `OutOfRange` if it is not finite or is below zero."""
    if finite(name, value) < 0.0:
        raise OutOfRange(f"{name} must not be below zero, not {value!r}")
    return value


def root_between(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where `function` crosses zero between two ends of unlike sign.

    Parameters
    ----------
    function
        A continuous function of one number.
    low, high
        The bracket; the function is below zero at one end and above at the other.

    Raises
    ------
    OutOfRange
        If both ends have the same sign.

    Notes
    -----
    Inverse quadratic steps inside a bracket that only shrinks, at most 200 of them; where a
    step would not help, the bracket is halved.

    References
    ----------
    .. [1] T. R. Chandrupatla, A new hybrid quadratic/bisection algorithm for finding the zero
       of a nonlinear function without using derivatives, Advances in Engineering Software 28,
       1997, p. 145

    Examples
    --------
    >>> round(root_between(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373
    """
    far, near, old = low, high, low
    f_far, f_near = function(far), function(near)
    if 0.0 in (f_far, f_near):
        return far if f_far == 0.0 else near
    if (f_far > 0.0) == (f_near > 0.0):
        raise OutOfRange(f"no root between {low!r} and {high!r}")
    f_old, share = f_far, min(max(f_near / (f_near - f_far), 0.05), 0.95)
    for _ in range(MOST_STEPS):
        trial = near + share * (far - near)
        f_trial = function(trial)
        if (f_trial > 0.0) == (f_near > 0.0):
            old, f_old = near, f_near
        else:
            old, f_old = far, f_far
            far, f_far = near, f_near
        near, f_near = trial, f_trial
        best = near if abs(f_near) < abs(f_far) else far
        least_share = NEAR_ENOUGH * (1.0 + abs(best)) / max(abs(far - near), NEAR_ENOUGH)
        if least_share > 0.5 or 0.0 in (f_near, f_far):  # noqa: PLR2004 - half the bracket
            break
        share = _next_share((near, f_near), (far, f_far), (old, f_old))
        share = min(max(share, least_share), 1.0 - least_share)
    return near if abs(f_near) < abs(f_far) else far


def _next_share(
    near: tuple[float, float], far: tuple[float, float], old: tuple[float, float]
) -> float:
    """Return the share of the bracket to step, by a parabola where one is safe."""
    (a, fa), (b, fb), (c, fc) = near, far, old
    if fc in (fa, fb):
        return 0.5
    xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
    if phi * phi < xi and (1.0 - phi) ** 2 < 1.0 - xi:
        return fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
    return 0.5
