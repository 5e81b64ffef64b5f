"""What people write on site is read exactly, and what is doubtful is refused with a way out."""

from __future__ import annotations

import subprocess
import sys
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from permitkit.units import Kind, UnitError, measure, read_measure

INCH = Fraction(254, 10000)

WRITTEN = [
    ("3 1/2 in", Kind.LENGTH, "7/2", "in"),
    ('3-1/2"', Kind.LENGTH, "7/2", "in"),
    ("3\u00bd in", Kind.LENGTH, "7/2", "in"),
    ("3 \u00bd\u2033", Kind.LENGTH, "7/2", "in"),
    ("\u215d in", Kind.LENGTH, "5/8", "in"),
    ("7\u20448 in", Kind.LENGTH, "7/8", "in"),
    ("18 in", Kind.LENGTH, "18", "in"),
    ('18"', Kind.LENGTH, "18", "in"),
    ("18''", Kind.LENGTH, "18", "in"),
    ("18 in.", Kind.LENGTH, "18", "in"),
    ("18 INCHES", Kind.LENGTH, "18", "in"),
    (".5 in", Kind.LENGTH, "1/2", "in"),
    ("+3 in", Kind.LENGTH, "3", "in"),
    ("  3\u00a01/2   in ", Kind.LENGTH, "7/2", "in"),
    ("5 ft 6 1/2 in", Kind.LENGTH, "133/2", "ft-in"),
    ("5'-6 1/2\"", Kind.LENGTH, "133/2", "ft-in"),
    ("5'-6-1/2\"", Kind.LENGTH, "133/2", "ft-in"),
    ("5' 6\"", Kind.LENGTH, "66", "ft-in"),
    ("5'6", Kind.LENGTH, "66", "ft-in"),
    ("5 ft. 6 in.", Kind.LENGTH, "66", "ft-in"),
    ("5 ft, 6 in", Kind.LENGTH, "66", "ft-in"),
    ("5ft6in", Kind.LENGTH, "66", "ft-in"),
    ("5-6 1/2", Kind.LENGTH, "133/2", "ft-in"),
    ("5-6", Kind.LENGTH, "66", "ft-in"),
    ("5\u2019 6\u201d", Kind.LENGTH, "66", "ft-in"),
    ("5\u2032\u20136\u00bd\u2033", Kind.LENGTH, "133/2", "ft-in"),
    ("0 ft 6 in", Kind.LENGTH, "6", "ft-in"),
    ("1,200 ft 6.5 in", Kind.LENGTH, "14406.5", "ft-in"),
    ("100.26 ft", Kind.LEVEL, "100.26", "ft"),
    ("-0.5 ft", Kind.LEVEL, "-0.5", "ft"),
    ("\u2212 3 1/2 in", Kind.LEVEL, "-7/2", "in"),
    ("-5 ft 6 in", Kind.LEVEL, "-66", "ft-in"),
    ("5'", Kind.LENGTH, "5", "ft"),
    ("90 mm", Kind.LENGTH, "90", "mm"),
    ("1.5 metres", Kind.LENGTH, "1.5", "m"),
    ("66 lf", Kind.LENGTH, "66", "ft"),
    ("450 sq ft", Kind.AREA, "450", "sq ft"),
    ("450 sq. ft.", Kind.AREA, "450", "sq ft"),
    ("450 ft2", Kind.AREA, "450", "sq ft"),
    ("450 ft^2", Kind.AREA, "450", "sq ft"),
    ("450 ft\u00b2", Kind.AREA, "450", "sq ft"),
    ("1,450 square feet", Kind.AREA, "1450", "sq ft"),
    ("42 m\u00b2", Kind.AREA, "42", "m2"),
    ("2.5 cu yd", Kind.VOLUME, "2.5", "cu yd"),
    ("12 gal", Kind.VOLUME, "12", "gal"),
    ("0.5 %", Kind.SLOPE, "0.5", "%"),
    ("-1%", Kind.SLOPE, "-1", "%"),
    ("\u00bd %", Kind.SLOPE, "1/2", "%"),
    ("1/4 in/ft", Kind.SLOPE, "1/4", "in/ft"),
    ('1/4"/ft', Kind.SLOPE, "1/4", "in/ft"),
    ("1/4 in. per ft.", Kind.SLOPE, "1/4", "in/ft"),
    ("1 1/4 in / ft", Kind.SLOPE, "5/4", "in/ft"),
    ("1:48", Kind.SLOPE, "48", "1:n"),
    ("1 : 12.5", Kind.SLOPE, "12.5", "1:n"),
    ("1 in 48", Kind.SLOPE, "48", "1:n"),
    ("1 on 2", Kind.SLOPE, "2", "1:n"),
    ("-1:48", Kind.SLOPE, "-48", "1:n"),
    ("2 ft/100 ft", Kind.SLOPE, "2", "%"),
    ("2.00522 ft/100.261 ft", Kind.SLOPE, "2", "%"),
    ("1 in per 15 ft", Kind.SLOPE, "5/9", "%"),
    ("1/8 in in 10 in", Kind.SLOPE, "5/4", "%"),
    ("20 mm/m", Kind.SLOPE, "20", "mm/m"),
    ("35 gpm", Kind.FLOW, "35", "gpm"),
    ("35 gallons per minute", Kind.FLOW, "35", "gpm"),
    ("0.8 cfs", Kind.FLOW, "0.8", "cfs"),
    ("2.2 L/s", Kind.FLOW, "2.2", "L/s"),
    ("8 m\u00b3/h", Kind.FLOW, "8", "m3/h"),
    ("2 ft/s", Kind.VELOCITY, "2", "ft/s"),
    ("25 mph", Kind.SPEED, "25", "mph"),
    ("40 km/h", Kind.SPEED, "40", "km/h"),
    ("4.2 in/hr", Kind.INTENSITY, "4.2", "in/hr"),
    ("4.2 in/h", Kind.INTENSITY, "4.2", "in/hr"),
    ("100 mm per hour", Kind.INTENSITY, "100", "mm/h"),
    ("3500 psi", Kind.STRENGTH, "3500", "psi"),
    ("3,500 psi", Kind.STRENGTH, "3500", "psi"),
    ("24 MPa", Kind.STRENGTH, "24", "MPa"),
    ("45\u00b0", Kind.ANGLE, "45", "deg"),
    ("22 1/2 deg", Kind.ANGLE, "22.5", "deg"),
    ("40 \u00b0F", Kind.TEMPERATURE, "40", "degF"),
    ("-5 deg. C", Kind.TEMPERATURE, "-5", "degC"),
    ("80 lb", Kind.MASS, "80", "lb"),
    ("95 %", Kind.RATIO, "95", "%"),
    ("0.95", Kind.RATIO, "0.95", ""),
    ("1/2", Kind.RATIO, "1/2", ""),
]


@pytest.mark.parametrize(("text", "kind", "number", "unit"), WRITTEN)
def test_what_is_written_on_site_is_read(text: str, kind: Kind, number: str, unit: str) -> None:
    read = read_measure(text, kind)

    assert read.in_(unit) == Fraction(number)
    assert (read.kind, read.unit, read.text) == (kind, unit, text)


REFUSED = [
    ("12", Kind.LENGTH, "write the unit, such as 12 ft or 12 in"),
    ("3-1/2", Kind.LENGTH, "write the unit, such as 3-1/2 ft or 3-1/2 in"),
    ("35", Kind.FLOW, "write the unit, such as 35 gpm or 35 cfs"),
    ("45", Kind.ANGLE, "write the unit, such as 45 deg"),
    ("", Kind.LENGTH, "write one number with one unit"),
    ("  ", Kind.LENGTH, "write one number with one unit"),
    ("1" * 61, Kind.LENGTH, "write one number with one unit"),
    ("nan ft", Kind.LENGTH, "begin with a number, such as 3 1/2, 0.5 or 1,450"),
    ("inf", Kind.LENGTH, "begin with a number, such as 3 1/2, 0.5 or 1,450"),
    ("ft 3", Kind.LENGTH, "begin with a number, such as 3 1/2, 0.5 or 1,450"),
    ("--3 ft", Kind.LEVEL, "begin with a number, such as 3 1/2, 0.5 or 1,450"),
    ("\u0663 ft", Kind.LENGTH, "begin with a number, such as 3 1/2, 0.5 or 1,450"),
    ("1e3 ft", Kind.LENGTH, "write the number out, without a power of ten"),
    ("-3 in", Kind.LENGTH, "a length is never less than zero"),
    ("-450 sq ft", Kind.AREA, "an area is never less than zero"),
    ("35 gpm", Kind.LENGTH, "gpm measures a flow"),
    ("450 ft", Kind.AREA, "ft measures a length"),
    ("5 %", Kind.LENGTH, "% measures a slope or a ratio"),
    ("2 m/s", Kind.SPEED, "m/s measures a velocity"),
    ("12 feets", Kind.LENGTH, "'feets' is no unit known here; did you mean ft"),
    ("450 sqr ft", Kind.AREA, "'sqr ft' is no unit known here; did you mean sq ft"),
    ("12 cubits", Kind.LENGTH, "'cubits' is no unit known here"),
    ("12. ft", Kind.LENGTH, "'. ft' is no unit known here; did you mean ft"),
    ("3 % %", Kind.SLOPE, "'% %' is no unit known here"),
    ("3 4 in", Kind.LENGTH, "write one number with one unit"),
    ("3 in x 4 in", Kind.LENGTH, "write one number with one unit"),
    ("3/4/5 in", Kind.LENGTH, "write one number with one unit"),
    ("3..5 in", Kind.LENGTH, "write one number with one unit"),
    ("5.5 ft 6 in", Kind.LENGTH, "write one number with one unit"),
    ("5 ft 6", Kind.LENGTH, "write one number with one unit"),
    ("6 in 5 ft", Kind.LENGTH, "write one number with one unit"),
    ("1 m 20 cm", Kind.LENGTH, "write one number with one unit"),
    ("5-6 in", Kind.LENGTH, "write feet and inches as 5 ft 6 in, a range as two values"),
    ("100-101", Kind.LEVEL, "write feet and inches as 5 ft 6 in, a range as two values"),
    ("3,5 m", Kind.LENGTH, "write decimals with a point, and a comma before three digits"),
    ("5 ft 14 in", Kind.LENGTH, "inches after feet stay below 12; write 6 ft 2 in"),
    ("5-12", Kind.LENGTH, "inches after feet stay below 12; write 6 ft 0 in"),
    ("3 5/0 in", Kind.LENGTH, "the lower number of a fraction is never 0"),
    ("3 5/4 in", Kind.LENGTH, "a fraction after a whole number is less than one, not 5/4"),
    ("2:1", Kind.SLOPE, "write a slope as one in so many, such as 1:48"),
    ("1:0", Kind.SLOPE, "the run is never 0"),
    ("2 ft/0 ft", Kind.SLOPE, "the run is never 0"),
    ("2 gpm/100 ft", Kind.SLOPE, "gpm measures a flow"),
    ("2 ft/100 gpm", Kind.SLOPE, "gpm measures a flow"),
    (12, Kind.LENGTH, 'write it in quotes with its unit, such as "12 ft"'),
    (12.5, Kind.SLOPE, 'write it in quotes with its unit, such as "12.5 %"'),
    (Decimal("0.95"), Kind.RATIO, 'write it in quotes with its unit, such as "0.95 %"'),
    (True, Kind.LENGTH, "write one quantity, in quotes"),
    (["3 in", "4 in"], Kind.LENGTH, "write one quantity, in quotes"),
    ({"is": "3 in"}, Kind.LENGTH, "write one quantity, in quotes"),
]


@pytest.mark.parametrize(("text", "kind", "fix"), REFUSED)
def test_what_is_doubtful_is_refused_with_a_way_out(text: object, kind: Kind, fix: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_measure(text, kind)

    assert caught.value.fix == fix


def test_a_bare_number_is_told_in_the_designed_form() -> None:
    with pytest.raises(UnitError) as caught:
        read_measure("12", Kind.LENGTH)

    assert caught.value.found == "'12'"
    assert caught.value.expected == "a length with its unit, such as 12 ft or 3 1/2 in"
    assert str(caught.value) == (
        "found '12', expected a length with its unit, such as 12 ft or 3 1/2 in; "
        "write the unit, such as 12 ft or 12 in"
    )


def test_a_fault_without_a_fix_is_told_in_two_parts() -> None:
    fault = UnitError("'x'", "a length")

    assert str(fault) == "found 'x', expected a length"


@pytest.mark.parametrize(
    ("value", "found"), [(True, "true"), (12, "12"), (["a"], "['a']"), ("x" * 70, f"'{'x' * 60}…'")]
)
def test_what_was_found_is_shown_as_its_file_shows_it(value: object, found: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_measure(value, Kind.LENGTH)

    assert caught.value.found == found


@pytest.mark.parametrize("kind", list(Kind))
def test_every_kind_says_what_it_expects_with_an_example_that_reads(kind: Kind) -> None:
    with pytest.raises(UnitError) as caught:
        read_measure("?", kind)

    examples = caught.value.expected.partition("such as ")[2].replace(", ", " or ").split(" or ")
    assert [read_measure(example, kind).kind for example in examples] == [kind] * len(examples)


def test_eighteen_inches_are_not_a_bare_eighteen() -> None:
    read = read_measure('18"', Kind.LENGTH)

    assert read.si == 18 * INCH


def test_no_error_ends_in_a_full_stop_or_begins_with_a_capital() -> None:
    for text, kind, _ in REFUSED:
        with pytest.raises(UnitError) as caught:
            read_measure(text, kind)

        for told in (caught.value.expected, caught.value.fix):
            assert told[0] == told[0].lower()
            assert not told.endswith(".")


def test_the_unit_library_is_loaded_only_when_a_unit_is_met() -> None:
    code = (
        "import sys, permitkit.units as u; assert 'pint' not in sys.modules;"
        "u.read_measure('1 in', u.Kind.LENGTH); assert 'pint' in sys.modules"
    )

    done = subprocess.run([sys.executable, "-c", code], check=False, capture_output=True, text=True)

    assert done.returncode == 0, done.stderr


def test_reading_keeps_the_authors_text_out_of_comparison() -> None:
    read = read_measure("1 ft", Kind.LENGTH)

    assert read == measure(12, "in", Kind.LENGTH)
    assert hash(read) == hash(measure(12, "in", Kind.LENGTH))


PIECES = ("3", "1/2", "12", ".", ",", "-", "/", ":", "'", '"', " ", "ft", "in", "%", "e", "\u00bd")
LATIN = st.binary(max_size=80).map(lambda octets: octets.decode("latin-1"))


@settings(deadline=None)
@given(
    st.one_of(LATIN, st.lists(st.sampled_from(PIECES), max_size=9).map("".join)),
    st.sampled_from(Kind),
)
def test_any_text_is_read_or_refused_and_never_crashes(text: str, kind: Kind) -> None:
    with suppress(UnitError):
        read = read_measure(text, kind)

        assert read_measure(read.shown(), kind).kind is kind
