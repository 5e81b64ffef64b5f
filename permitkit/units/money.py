"""Amounts of money: read from what an office writes, and written back in dollars and cents."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal

from permitkit.units.kinds import UnitError

__all__ = ["read_money", "write_money"]

_EXPECTED = "an amount of money, such as $1,250.00"
_AMOUNT = re.compile(r"\$? ?([0-9]{1,12}|[1-9][0-9]{0,2}(?:,[0-9]{3}){1,3})(\.[0-9]{1,2})?")
_CENT = Decimal("0.01")


def read_money(value: object) -> Decimal:
    """Return an amount in dollars, from a text, a whole number or a decimal.

    Raises
    ------
    UnitError
        It is a float, runs past the cent, is less than nothing, or is no amount at all.
    """
    if isinstance(value, bool) or not isinstance(value, str | int | Decimal):
        raise UnitError(repr(value), _EXPECTED, 'write it in quotes, such as "43.75"')
    match = _AMOUNT.fullmatch(str(value).strip())
    if match is None:
        raise UnitError(repr(str(value)), _EXPECTED)
    return Decimal((match[1] + (match[2] or "")).replace(",", ""))


def write_money(d: Decimal) -> str:
    """Return an amount with its sign, commas and cents: `$1,250.00`; half a cent goes up."""
    cents = abs(d).quantize(_CENT, ROUND_HALF_UP)
    return f"{'-' if d < 0 and cents else ''}${cents:,}"
