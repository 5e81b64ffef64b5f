"""Measures compare and add exactly, and kinds that do not mix are refused."""

from __future__ import annotations

import operator
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from permitkit.units import Kind, Measure, UnitError, from_si, measure, read_measure, same

if TYPE_CHECKING:
    from collections.abc import Callable


def feet(value: str) -> Measure:
    return measure(value, "ft", Kind.LENGTH)


def level(value: str) -> Measure:
    return measure(value, "ft", Kind.LEVEL)


def test_a_quarter_inch_to_the_foot_is_one_in_forty_eight() -> None:
    slope = read_measure("1/4 in/ft", Kind.SLOPE)

    assert slope == read_measure("1:48", Kind.SLOPE)
    assert slope >= read_measure("1:48", Kind.SLOPE)


def test_an_inch_to_the_foot_is_one_in_twelve() -> None:
    slope = read_measure("1 in/ft", Kind.SLOPE)

    assert slope == read_measure("1:12", Kind.SLOPE)


def test_every_sixteenth_to_the_foot_meets_the_same_ratio() -> None:
    for count in range(1, 400):
        slope = read_measure(f"{count}/16 in/ft", Kind.SLOPE)
        ratio = measure(Fraction(12 * 16, count), "1:n", Kind.SLOPE)

        assert slope == ratio, count
        assert slope == measure(Fraction(100 * count, 12 * 16), "%", Kind.SLOPE), count


def test_every_sixteenth_to_twelve_feet_goes_to_millimetres_and_back() -> None:
    for count in range(12 * 12 * 16 + 1):
        inches = measure(Fraction(count, 16), "in", Kind.LENGTH)
        metric = measure(inches.in_("mm"), "mm", Kind.LENGTH)

        assert metric == inches, count
        assert metric.in_("in") == Fraction(count, 16), count


def test_lengths_are_ordered_whatever_their_units() -> None:
    texts = ("1 in", "90 mm", "4 in", "1 ft", "13 in", "5 ft 6 1/2 in", "2 m", "3 yd")

    lengths = [read_measure(text, Kind.LENGTH) for text in texts]

    assert sorted(set(lengths)) == lengths


def test_the_four_orders_agree() -> None:
    one, two = feet("1"), feet("2")

    assert one < two
    assert one <= two
    assert two > one
    assert two >= one
    assert one <= feet("1")
    assert one >= feet("1")
    assert not one < feet("1")
    assert not one > feet("1")


def test_a_length_and_a_level_compare() -> None:
    assert feet("3") == level("3")
    assert hash(feet("3")) == hash(level("3"))
    assert feet("3") < level("4")


def test_different_kinds_are_never_equal() -> None:
    flow = Measure(Fraction(1), Kind.FLOW, "m3/s")

    assert flow != Measure(Fraction(1), Kind.LENGTH, "m")
    assert flow != 1


@pytest.mark.parametrize("order", [operator.lt, operator.le, operator.gt, operator.ge])
def test_different_kinds_have_no_order(order: Callable[[Measure, Measure], bool]) -> None:
    with pytest.raises(TypeError, match="a length cannot be compared with a flow"):
        order(feet("1"), measure(1, "gpm", Kind.FLOW))


def test_a_measure_has_no_order_with_a_number() -> None:
    with pytest.raises(TypeError, match="a length cannot be compared with int"):
        assert feet("1") < 2  # type: ignore[operator]


def test_two_levels_lie_a_length_apart() -> None:
    fall = level("100.26") - level("99.57")

    assert fall == feet("0.69")
    assert fall.kind is Kind.LENGTH


def test_a_level_and_a_length_make_a_level() -> None:
    raised, raised_too = level("99.5") + feet("0.5"), feet("0.5") + level("99.5")
    lowered = level("100") - feet("0.5")

    assert (raised, raised.kind) == (level("100"), Kind.LEVEL)
    assert (raised_too, raised_too.kind) == (level("100"), Kind.LEVEL)
    assert (lowered, lowered.kind) == (level("99.5"), Kind.LEVEL)


def test_lengths_add_in_the_first_ones_unit() -> None:
    total = feet("1") + measure(6, "in", Kind.LENGTH)

    assert total.shown() == "1.5 ft"
    assert (feet("1") - measure(6, "in", Kind.LENGTH)).shown() == "0.5 ft"


def test_a_measure_without_a_unit_takes_the_others() -> None:
    total = Measure(Fraction(0), Kind.LENGTH) + measure(6, "in", Kind.LENGTH)

    assert total.unit == "in"
    assert (Measure(Fraction(0), Kind.LENGTH) - total).unit == "in"


@pytest.mark.parametrize(
    ("act", "told"),
    [
        (lambda: level("1") + level("1"), "a level cannot be added to a level"),
        (lambda: feet("1") - level("1"), "a length cannot be lessened by a level"),
        (lambda: feet("1") + measure(1, "gpm", Kind.FLOW), "a length cannot be added to a flow"),
        (lambda: feet("1") - measure(1, "gpm", Kind.FLOW), "a length cannot be lessened by a flow"),
        (lambda: feet("1") + 1, "a length cannot be added to int"),  # type: ignore[operator]
        (lambda: 2 * measure(40, "degF", Kind.TEMPERATURE), "a temperature cannot be multiplied"),
        (lambda: feet("1") * 1.5, "unsupported operand"),  # type: ignore[operator]
        (lambda: feet("1") / 1.5, "unsupported operand"),  # type: ignore[operator]
    ],
)
def test_what_makes_no_sense_is_refused(act: Callable[[], object], told: str) -> None:
    with pytest.raises(TypeError, match=told):
        act()


def test_temperatures_are_neither_added_nor_taken_away() -> None:
    cold = measure(40, "degF", Kind.TEMPERATURE)

    with pytest.raises(TypeError, match="cannot be added"):
        cold + cold
    with pytest.raises(TypeError, match="cannot be lessened"):
        cold - cold


def test_a_measure_is_multiplied_and_divided_exactly() -> None:
    third = feet("1") / 3

    assert third * 3 == feet("1")
    assert Fraction(1, 2) * feet("3") == feet("3/2")
    assert feet("3") / Fraction(1, 2) == feet("6")
    assert -level("0.5") == level("-0.5")


def test_a_measure_is_a_float_in_si() -> None:
    assert float(measure(1, "in", Kind.LENGTH)) == 0.0254


def test_forty_fahrenheit_is_over_four_celsius() -> None:
    forty = measure(40, "degF", Kind.TEMPERATURE)

    assert forty.in_("degC") == Fraction(40, 9)
    assert forty > measure(4, "degC", Kind.TEMPERATURE)


def test_an_unknown_unit_names_the_known_ones() -> None:
    with pytest.raises(UnitError) as caught:
        feet("1").in_("gpm")

    assert caught.value.found == "'gpm'"
    assert caught.value.expected == "a unit of length"
    assert caught.value.fix == "write one of ft, in, ft-in, mm, cm, m, yd, mi, km"


def test_a_computed_value_loses_its_noise() -> None:
    noisy = 0.1 + 0.2

    assert from_si(noisy, Kind.LENGTH, "m") == measure("0.3", "m", Kind.LENGTH)
    assert from_si(Fraction(1, 3), Kind.LENGTH, "m").si == Fraction(1, 3)
    assert from_si(0.0889, Kind.LENGTH, "in").shown() == "3 1/2 in"


def test_a_slope_computed_in_floats_is_the_same_as_the_exact_one() -> None:
    computed = from_si(1 / 48, Kind.SLOPE, "%")

    assert same(computed.si, Fraction(1, 48))
    assert not same(computed.si, Fraction(1, 47))


def test_sameness_is_relative_and_knows_nothing_from_little() -> None:
    assert same(1e9, 1e9 + 0.5)
    assert not same(1e9, 1e9 + 5)
    assert same(30.48 - 30.48, 1e-15)
    assert not same(0, 1e-6)
    assert not same(float("nan"), float("nan"))


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_a_computed_value_that_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(UnitError, match="a number that is finite"):
        from_si(value, Kind.LENGTH, "m")
