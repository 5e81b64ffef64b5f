"""The outlet window: every way a rule may speak of a height comes to the hole's lowest point."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import CLEAN, CURED, INCH, rules_of, rules_saying

from permitkit.geometry.core import BITS_SOLD_M
from permitkit.study.window import HoleSize, hole_limits

REVEAL = 6 * INCH
SIZE = HoleSize(4 * INCH, 3.5 * INCH, 3.042 * INCH)


def height(of: str, origin: str) -> str:
    return (
        'core.height = { at_least = "1 in", at_most = "2 in", '
        f'of = "{of}", from = "{origin}", cite = "pw 1" }}'
    )


def test_the_clean_window_is_the_one_worked_by_hand() -> None:
    window = hole_limits(rules_of(CLEAN), REVEAL).window(SIZE)

    assert round(window.low.height_m / INCH, 3) == 0.021
    assert round(window.high.height_m / INCH, 3) == 0.500
    assert (window.low.name, window.high.name) == (
        "invert over the flow line",
        "the strip over the hole top",
    )
    assert "section 4.3" in window.low.source


def test_the_cured_window_is_the_one_worked_by_hand() -> None:
    window = hole_limits(rules_of(CURED), 5.75 * INCH).window(SIZE)

    assert round(window.low.height_m / INCH, 3) == 0.021
    assert round(window.high.height_m / INCH, 3) == 0.250
    assert not window.empty


@pytest.mark.parametrize(
    ("of", "up"),
    [
        ("hole bottom", 0.0),
        ("invert", 0.479),
        ("hole centre", 2.0),
        ("hole top", 4.0),
        ("pipe outside", 0.25),
    ],
)
def test_a_height_of_any_part_is_turned_into_that_of_the_holes_bottom(of: str, up: float) -> None:
    window = hole_limits(rules_saying(height(of, "flow line")), 20 * INCH).window(SIZE)
    low, high = window.lows[1], window.highs[0]

    assert low.height_m / INCH == pytest.approx(1 - up)
    assert high.height_m / INCH == pytest.approx(2 - up)
    assert low.name == f"{of} over the flow line"


def test_a_height_from_the_pavement_counts_the_overlay() -> None:
    rules = rules_saying(height("hole bottom", "pavement"))
    window = hole_limits(rules, REVEAL, pavement_m=0.5 * INCH).window(SIZE)

    assert window.low.height_m / INCH == pytest.approx(1.5)


def test_a_depth_below_the_curb_top_bounds_the_other_way_round() -> None:
    rules = rules_saying(height("hole top", "curb top"))
    window = hole_limits(rules, REVEAL).window(SIZE)

    assert window.highs[0].height_m / INCH == pytest.approx(6 - 1 - 4)
    assert window.lows[1].height_m / INCH == pytest.approx(6 - 2 - 4)
    assert window.highs[0].name == "hole top below the curb top"


@pytest.mark.parametrize(("of", "high"), [("hole top", 0.5), ("pipe outside", 0.75)])
def test_a_strip_over_the_pipe_leaves_the_grout_out(of: str, high: float) -> None:
    rules = rules_saying(f'core.strip = {{ at_least = "1 1/2 in", of = "{of}", cite = "pw 1" }}')
    window = hole_limits(rules, REVEAL).window(SIZE)

    assert window.high.height_m / INCH == pytest.approx(high)


def test_without_any_rule_the_curb_itself_bounds_the_hole() -> None:
    window = hole_limits(rules_saying(""), REVEAL).window(SIZE)

    assert (window.low.name, window.high.name) == ("the gutter flow line", "the curb top")
    assert window.high.height_m / INCH == pytest.approx(2)


def test_a_window_of_one_height_is_not_empty() -> None:
    rules = rules_saying('core.strip = { at_least = "2 in", of = "hole top", cite = "pw 1" }')

    assert not hole_limits(rules, REVEAL).window(SIZE).empty
    assert hole_limits(rules, REVEAL - INCH / 100).window(SIZE).empty


def test_bits_that_fit_are_those_that_pipe_gap_and_curb_allow_at_once() -> None:
    fitting = hole_limits(rules_of(CLEAN), REVEAL).fitting_bits_m(SIZE.outside_m, SIZE.bore_m)

    assert [bit / INCH for bit in fitting] == pytest.approx([4.0])


def test_a_set_of_sizes_allows_no_other() -> None:
    rules = rules_saying('core.bit = { sizes = ["3 in", "4 1/2 in"], cite = "pw 1" }')
    limits = hole_limits(rules, 8 * INCH)

    assert limits.fits(HoleSize(4.5 * INCH, 3.5 * INCH, 3 * INCH))
    assert not limits.fits(HoleSize(4 * INCH, 3.5 * INCH, 3 * INCH))


def test_a_pipe_wider_than_the_hole_never_fits() -> None:
    limits = hole_limits(rules_saying(""), 8 * INCH)

    assert not limits.fits(HoleSize(3 * INCH, 3.5 * INCH, 3 * INCH))


def test_the_largest_hole_is_what_the_curb_has_room_for() -> None:
    rules = rules_saying('core.strip = { at_least = "1 1/2 in", of = "hole top", cite = "pw 1" }')
    largest = [hole_limits(rules, reveal * INCH).largest_bit_m() for reveal in (6, 5.25, 3)]

    assert [bit and round(bit / INCH, 3) for bit in largest] == [4.5, 3.5, None]


def test_the_pipe_has_no_say_in_the_largest_hole() -> None:
    assert hole_limits(rules_of(CLEAN), 5.75 * INCH).largest_bit_m() == pytest.approx(4 * INCH)


@given(st.sampled_from(BITS_SOLD_M), st.floats(0.1, 0.3), st.floats(0.0, 0.05))
def test_more_reveal_never_closes_a_window(bit: float, reveal: float, more: float) -> None:
    size = HoleSize(bit, 0.9 * bit, 0.8 * bit)
    rules = rules_of(CLEAN)
    one, other = (hole_limits(rules, high).window(size) for high in (reveal, reveal + more))

    assert other.high.height_m >= one.high.height_m - 1e-12
    assert other.low.height_m == one.low.height_m


@given(st.floats(0.0, 1.0))
def test_every_height_in_the_window_meets_every_bound(share: float) -> None:
    window = hole_limits(rules_of(CLEAN), REVEAL).window(SIZE)
    at = window.low.height_m + share * (window.high.height_m - window.low.height_m)

    assert all(at >= bound.height_m - 1e-12 for bound in window.lows)
    assert all(at <= bound.height_m + 1e-12 for bound in window.highs)
