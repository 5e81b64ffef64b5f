"""Numbers as people print them: mixed fractions, decimals, feet and inches."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

__all__ = ["decimal", "feet_inches", "finer", "is_binary", "mixed", "rounded"]

_FINEST_FRACTION = Fraction(1, 64)
_WORTH_A_DIGIT = 4
_INCHES_IN_A_FOOT = 12


def rounded(number: Fraction, step: Fraction) -> Fraction:
    """Return the number at the nearest whole step; a half goes away from zero."""
    above, below = number.numerator * step.denominator, number.denominator * step.numerator
    steps = (2 * abs(above) + below) // (2 * below)
    return Fraction(
        steps * step.numerator if above >= 0 else -steps * step.numerator, step.denominator
    )


def is_binary(step: Fraction) -> bool:
    """Return whether a tape is ruled in such steps: halves, quarters, eighths."""
    return step.denominator & (step.denominator - 1) == 0


def finer(step: Fraction, *, fractions: bool) -> Fraction:
    """Return the next finer step: a binary fraction down to 1/64, then powers of ten."""
    if fractions and is_binary(step) and step > _FINEST_FRACTION:
        return step / 2
    power = Fraction(1)
    while power * _WORTH_A_DIGIT > step:
        power /= 10
    return power


@cache
def places(step: Fraction) -> int:
    """Return how many decimals print every multiple of a step exactly."""
    count, rest = 0, step.denominator
    while rest % 2 == 0 or rest % 5 == 0:
        rest = (step * 10 ** (count := count + 1)).denominator
    if rest > 1:
        raise ValueError(f"no decimals print steps of {step}")
    return count


def decimal(
    number: Fraction, step: Fraction, *, padded: bool = False, grouped: bool = False
) -> str:
    """Return a rounded number in decimals, without idle zeros unless padded."""
    count = places(step)
    scaled = abs(number.numerator) * 10**count // number.denominator
    whole, part = divmod(scaled, 10**count)
    tail = f"{part:0{count}d}" if count else ""
    tail = tail if padded else tail.rstrip("0")
    head = f"{whole:,}" if grouped else str(whole)
    return ("-" if number < 0 else "") + head + (f".{tail}" if tail else "")


def mixed(number: Fraction) -> str:
    """Return a number as whole and fraction: `3 5/8`."""
    whole, part = divmod(abs(number), 1)
    words = [str(whole)] if whole or not part else []
    words += [str(part)] if part else []
    return ("-" if number < 0 else "") + " ".join(words)


def feet_inches(inches: Fraction, step: Fraction) -> str:
    """Return rounded inches as feet and inches: `5 ft 6 1/2 in`, or inches alone below a foot."""
    feet, rest = divmod(abs(inches), _INCHES_IN_A_FOOT)
    tail = (mixed(rest) if is_binary(step) else decimal(rest, step)) + " in"
    return ("-" if inches < 0 else "") + (f"{feet} ft {tail}" if feet else tail)
