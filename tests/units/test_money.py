"""Money is read to the cent and never from a float."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from permitkit.units import UnitError, read_money, write_money


@pytest.mark.parametrize(
    ("value", "amount"),
    [
        ("$1,250.00", "1250.00"),
        ("1250", "1250"),
        ("$ 85", "85"),
        (" 43.75 ", "43.75"),
        ("1,000,000.5", "1000000.5"),
        (85, "85"),
        (Decimal("43.75"), "43.75"),
        (0, "0"),
    ],
)
def test_money_is_read(value: str | int | Decimal, amount: str) -> None:
    assert read_money(value) == Decimal(amount)


@pytest.mark.parametrize(
    "value", ["", "-5", "1.234", "1,25", "12,50", "five", "$", "1e3", -5, Decimal("NaN")]
)
def test_what_is_no_amount_is_refused(value: str | int | Decimal) -> None:
    with pytest.raises(UnitError) as caught:
        read_money(value)

    assert caught.value.found == repr(str(value))
    assert caught.value.expected == "an amount of money, such as $1,250.00"


@pytest.mark.parametrize("value", [43.75, True, None, [85]])
def test_what_is_no_text_or_whole_number_is_to_be_quoted(value: object) -> None:
    with pytest.raises(UnitError) as caught:
        read_money(value)

    assert caught.value.fix == 'write it in quotes, such as "43.75"'


@pytest.mark.parametrize(
    ("amount", "written"),
    [
        ("1250", "$1,250.00"),
        ("85", "$85.00"),
        ("0", "$0.00"),
        ("0.005", "$0.01"),
        ("-0.001", "$0.00"),
        ("-12.5", "-$12.50"),
    ],
)
def test_money_is_written_in_dollars_and_cents(amount: str, written: str) -> None:
    assert write_money(Decimal(amount)) == written


@settings(deadline=None)
@given(st.integers(0, 10**11))
def test_what_is_written_reads_back_to_the_cent(cents: int) -> None:
    amount = Decimal(cents) / 100

    assert read_money(write_money(amount)) == amount
