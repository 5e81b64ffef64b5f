"""Quantities are printed as their author writes, and told apart from a limit when they differ."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from permitkit.units import Kind, Measure, apart, both_ways, measure, read_measure, write_measure
from permitkit.units.table import UNITS, Form, Unit, unit_named

SHOWN = [
    ("3 10/16 in", Kind.LENGTH, "3 5/8 in"),
    ('1/2"', Kind.LENGTH, "1/2 in"),
    ("0 in", Kind.LENGTH, "0 in"),
    ("18 in", Kind.LENGTH, "18 in"),
    ("5'-6 1/2\"", Kind.LENGTH, "5 ft 6 1/2 in"),
    ("5'-0\"", Kind.LENGTH, "5 ft 0 in"),
    ("0'-6\"", Kind.LENGTH, "6 in"),
    ("12 ft", Kind.LENGTH, "12 ft"),
    ("66.50 ft", Kind.LENGTH, "66.5 ft"),
    ("100 ft", Kind.LEVEL, "100.00 ft"),
    ("100.265 ft", Kind.LEVEL, "100.265 ft"),
    ("30.48 m", Kind.LEVEL, "30.480 m"),
    ("-3 1/2 in", Kind.LEVEL, "-3 1/2 in"),
    ("-5 ft 6 in", Kind.LEVEL, "-5 ft 6 in"),
    ("152.4 mm", Kind.LENGTH, "152.4 mm"),
    ("1.03 %", Kind.SLOPE, "1.03 %"),
    ("1/4 in/ft", Kind.SLOPE, "1/4 in/ft"),
    ("1:48", Kind.SLOPE, "1:48"),
    ("-1:48", Kind.SLOPE, "-1:48"),
    ("35 gpm", Kind.FLOW, "35 gpm"),
    ("1450 sq ft", Kind.AREA, "1,450 sq ft"),
    ("3500 psi", Kind.STRENGTH, "3,500 psi"),
    ("40 F", Kind.TEMPERATURE, "40 deg F"),
    ("0.95", Kind.RATIO, "0.95"),
    ("95 %", Kind.RATIO, "95 %"),
    ("3 5/32 in", Kind.LENGTH, "3 5/32 in"),
    ("0.375 in", Kind.LENGTH, "3/8 in"),
    ("0.854 in", Kind.LENGTH, "0.854 in"),
    ("3 1/3 in", Kind.LENGTH, "3 5/16 in"),
]


@pytest.mark.parametrize(("text", "kind", "shown"), SHOWN)
def test_a_measure_is_shown_as_its_author_writes(text: str, kind: Kind, shown: str) -> None:
    assert read_measure(text, kind).shown() == shown


@pytest.mark.parametrize(
    ("measured", "shown"),
    [
        (measure("66.4999", "in", Kind.LENGTH), "66 1/2 in"),
        (measure("0.854", "in", Kind.LENGTH), "7/8 in"),
        (measure("0.021", "in", Kind.LENGTH), "1/32 in"),
        (measure("0.0000001", "in", Kind.LENGTH), "0 in"),
        (measure("-0.0000001", "in", Kind.LEVEL), "0 in"),
        (measure("71.99", "ft-in", Kind.LENGTH), "6 ft 0 in"),
        (measure("5.54166", "ft", Kind.LENGTH), "5.54 ft"),
        (measure("39.416", "gpm", Kind.FLOW), "39.4 gpm"),
        (measure("1.0333", "%", Kind.SLOPE), "1.03 %"),
        (measure(0, "%", Kind.SLOPE), "0 %"),
        (Measure(Fraction(0), Kind.SLOPE, "1:n"), "0 %"),
        (Measure(Fraction(1), Kind.LENGTH), "3.28 ft"),
        (Measure(Fraction(1, 2), Kind.RATIO), "0.5"),
    ],
)
def test_a_computed_measure_is_shown_to_its_units_step(measured: Measure, shown: str) -> None:
    assert measured.shown() == shown


@pytest.mark.parametrize(
    ("text", "kind", "step", "shown"),
    [
        ("3 5/8 in", Kind.LENGTH, Fraction(1, 4), "3 3/4 in"),
        ("3 5/8 in", Kind.LENGTH, Fraction(1), "4 in"),
        ("3 5/8 in", Kind.LENGTH, Fraction(1, 100), "3.63 in"),
        ("5 ft 6 1/2 in", Kind.LENGTH, Fraction(1, 10), "5 ft 6.5 in"),
        ("5.549 ft", Kind.LENGTH, Fraction(1, 2), "5.5 ft"),
        ("1,463 sq ft", Kind.AREA, Fraction(5), "1,465 sq ft"),
        ("1:48.7", Kind.SLOPE, Fraction(1), "1:49"),
    ],
)
def test_a_stated_step_is_kept(text: str, kind: Kind, step: Fraction, shown: str) -> None:
    assert read_measure(text, kind).shown(step) == shown


def test_a_half_step_goes_away_from_nothing() -> None:
    up, down = measure("0.5", "mm", Kind.LEVEL), measure("-0.5", "mm", Kind.LEVEL)

    assert up.shown(Fraction(1)) == "1 mm"
    assert down.shown(Fraction(1)) == "-1 mm"


def test_a_step_that_no_decimals_print_is_refused() -> None:
    with pytest.raises(ValueError, match="no decimals print steps of 1/3"):
        measure(1, "ft", Kind.LENGTH).shown(Fraction(1, 3))


def test_a_measure_is_written_in_another_unit() -> None:
    length = read_measure("5.54 ft", Kind.LENGTH)

    assert write_measure(length) == "5.54 ft"
    assert write_measure(length, "ft-in") == "5 ft 6 1/2 in"
    assert write_measure(length, "mm", Fraction(5)) == "1690 mm"


@pytest.mark.parametrize(
    ("text", "kind", "both"),
    [
        ("5.54 ft", Kind.LENGTH, "5.54 ft (5 ft 6 1/2 in)"),
        ("5 ft 6 1/2 in", Kind.LENGTH, "5 ft 6 1/2 in (5.54 ft)"),
        ("90 mm", Kind.LENGTH, "90 mm (3 9/16 in)"),
        ("1:48", Kind.SLOPE, "1:48 (2.08 %)"),
        ("95 %", Kind.RATIO, "95 %"),
        ("45 deg", Kind.ANGLE, "45 deg"),
        ("1:50", Kind.SLOPE, "1:50 (2 %)"),
        ("0.001 %", Kind.SLOPE, "0.001 % (1:100000)"),
        ("0 %", Kind.SLOPE, "0 %"),
        ("0 ft", Kind.LENGTH, "0 ft"),
        ("32 degF", Kind.TEMPERATURE, "32 deg F (0 deg C)"),
    ],
)
def test_a_measure_is_told_both_ways(text: str, kind: Kind, both: str) -> None:
    assert both_ways(read_measure(text, kind)) == both


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.name or "plain")
def test_every_unit_tells_both_ways_and_reads_back_what_it_prints(unit: Unit) -> None:
    for kind in unit.kinds:
        told = measure(7, unit.name, kind)
        first, _, second = both_ways(told).removesuffix(")").partition(" (")

        assert read_measure(first, kind) == told
        assert not second or read_measure(second, kind).kind is kind


@st.composite
def printed_numbers(draw: st.DrawFn) -> tuple[Measure, Fraction]:
    unit = draw(st.sampled_from(UNITS))
    kind = draw(st.sampled_from(unit.kinds))
    step = draw(st.sampled_from([unit.step, Fraction(1, 10), Fraction(1, 1000), Fraction(1)]))
    least = 1 if unit.form is Form.RISE_RUN else 0
    signed = kind in {Kind.LEVEL, Kind.SLOPE, Kind.TEMPERATURE}
    steps = draw(st.integers(least, 10**6)) * (draw(st.sampled_from([1, -1])) if signed else 1)
    return measure(steps * step, unit.name, kind), step


@settings(deadline=None)
@given(printed_numbers())
def test_what_is_written_reads_back_as_it_was(drawn: tuple[Measure, Fraction]) -> None:
    measured, step = drawn

    assert read_measure(measured.shown(step), measured.kind) == measured


@settings(deadline=None)
@given(st.fractions(Fraction(-1000), Fraction(1000), max_denominator=10**6))
def test_what_is_printed_lies_within_half_a_step(inches: Fraction) -> None:
    exact = measure(inches, "in", Kind.LEVEL)

    printed = read_measure(exact.shown(Fraction(1, 16)), Kind.LEVEL)

    assert abs(printed.in_("in") - inches) <= Fraction(1, 32)


@settings(deadline=None, max_examples=40)
@given(st.fractions(0, 100, max_denominator=10**8))
def test_no_decimal_print_runs_to_six_places(number: Fraction) -> None:
    for unit in UNITS:
        value = number + 1 if unit.form is Form.RISE_RUN else number
        shown = measure(value, unit.name, unit.kinds[0]).shown()

        assert len(shown.partition(".")[2].partition(" ")[0]) < 6, (unit.name, shown)


def story(one: Fraction, two: Fraction) -> int:
    return (one > two) - (one < two)


STEPS = {"in": Fraction(1, 16), "ft-in": Fraction(1, 8), "ft": Fraction(1, 100), "mm": Fraction(1)}


@settings(deadline=None)
@given(
    st.sampled_from(sorted(STEPS)),
    st.fractions(-50, 50, max_denominator=10**4),
    st.fractions(Fraction(-1, 10), Fraction(1, 10), max_denominator=10**6),
)
def test_two_lengths_print_the_same_story_as_their_values(
    unit: str, number: Fraction, gap: Fraction
) -> None:
    one, two = measure(number, unit, Kind.LEVEL), measure(number + gap, unit, Kind.LEVEL)

    printed = apart(one, two, unit, STEPS[unit])

    read = [read_measure(text, Kind.LEVEL).si for text in printed]
    assert story(*read) == story(one.si, two.si)


@settings(deadline=None)
@given(st.fractions(Fraction(-1, 4), Fraction(1, 4), max_denominator=10**4), st.integers(-9, 9))
def test_two_slopes_print_the_same_story_as_their_values(slope: Fraction, hair: int) -> None:
    one = Measure(slope, Kind.SLOPE, "1:n")
    two = Measure(slope + Fraction(hair, 10**7), Kind.SLOPE, "%")

    for unit in ("1:n", "%", "in/ft"):
        read = [read_measure(text, Kind.SLOPE).si for text in apart(one, two, unit, Fraction(1, 4))]

        assert story(*read) == story(one.si, two.si)


@pytest.mark.parametrize(
    ("a", "b", "unit", "step", "printed"),
    [
        ("1/2 in", "3/4 in", "in", Fraction(1, 16), ("1/2 in", "3/4 in")),
        ("1/2 in", "1/2 in", "in", Fraction(1, 16), ("1/2 in", "1/2 in")),
        ("12.7 mm", "1/2 in", "in", Fraction(1, 16), ("1/2 in", "1/2 in")),
        ("12.4 mm", "1/2 in", "in", Fraction(1, 16), ("31/64 in", "1/2 in")),
        ("12.6 mm", "1/2 in", "in", Fraction(1, 16), ("0.496 in", "0.5 in")),
        ("3/16 in", "5/32 in", "in", Fraction(1, 16), ("3/16 in", "5/32 in")),
        ("1/4 in", "5/32 in", "in", Fraction(1, 16), ("1/4 in", "5/32 in")),
        ("152.4 mm", "150 mm", "mm", Fraction(1), ("152.4 mm", "150 mm")),
        ("1.501 ft", "1.5 ft", "ft", Fraction(1, 10), ("1.501 ft", "1.5 ft")),
        ("5 ft 6 1/64 in", "5 ft 6 in", "ft-in", Fraction(1, 8), ("5 ft 6 1/64 in", "5 ft 6 in")),
    ],
)
def test_a_value_and_its_limit_are_printed_finely_enough(
    a: str, b: str, unit: str, step: Fraction, printed: tuple[str, str]
) -> None:
    one, two = read_measure(a, Kind.LENGTH), read_measure(b, Kind.LENGTH)

    assert apart(one, two, unit, step) == printed


def test_values_that_differ_by_noise_print_alike() -> None:
    limit = measure("0.5", "in", Kind.LENGTH)
    computed = Measure(limit.si - Fraction(1, 10**15), Kind.LENGTH, "in")

    assert apart(computed, limit, "in", Fraction(1)) == ("1 in", "1 in")


def test_a_level_walk_is_told_from_a_ratio_in_percent() -> None:
    flat, limit = Measure(Fraction(0), Kind.SLOPE, "1:n"), measure(48, "1:n", Kind.SLOPE)

    assert apart(flat, limit, "1:n", Fraction(1)) == ("0 %", "2 %")


def test_the_first_unit_of_a_kind_stands_for_none() -> None:
    assert unit_named("", Kind.LENGTH).name == "ft"
    assert unit_named("", Kind.RATIO).name == ""
