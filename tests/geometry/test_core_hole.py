"""The hole in the curb, its window, and what is left over it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.core import (
    BITS_SOLD_M,
    CoreHole,
    Part,
    barrel_least_bottom,
)
from permitkit.geometry.shape import ImpossibleShape
from permitkit.geometry.window import (
    Limit,
    Window,
    hole_bottom_for,
    limit_on,
    outlet_window,
)

if TYPE_CHECKING:
    from collections.abc import Callable

IN = 0.0254
OUTSIDE, BORE = 3.5 * IN, 3.042 * IN


def hole(reveal: float = 6.0, bottom: float = 0.375, bit: float = 4.0) -> CoreHole:
    return CoreHole(reveal * IN, bottom * IN, bit * IN, OUTSIDE, BORE)


def limits(reveal: float, bit: float, most_invert: float = 1.25) -> list[Limit]:
    pipe = (bit * IN, OUTSIDE, BORE)
    return [
        Limit("flow line", "low", 0.0),
        limit_on("least invert", "invert", "low", 0.5 * IN, *pipe),
        limit_on("greatest invert", "invert", "high", most_invert * IN, *pipe),
        limit_on("strip", "hole top", "high", (reveal - 1.5) * IN, *pipe),
    ]


def window(reveal: float = 6.0, bit: float = 4.0, most_invert: float = 1.25) -> Window:
    return outlet_window(limits(reveal, bit, most_invert))


def test_a_three_inch_pipe_sits_in_a_four_inch_hole_as_worked_by_hand() -> None:
    one = hole()

    assert one.strip_m / IN == pytest.approx(1.625)
    assert one.gap_m / IN == pytest.approx(0.25)
    assert one.invert_m / IN == pytest.approx(0.854)
    assert one.crown_m / IN == pytest.approx(3.896)
    assert one.centre_below_top_m / IN == pytest.approx(3.625)


def test_its_window_is_as_worked_by_hand() -> None:
    one = window()

    assert one.low_m / IN == pytest.approx(0.021)
    assert one.high_m / IN == pytest.approx(0.5)
    assert one.low_by.name == "least invert"
    assert one.high_by.name == "strip"
    assert one.holds(0.375 * IN)


def test_a_lower_curb_has_a_smaller_window() -> None:
    one = window(reveal=5.75)

    assert (one.low_m / IN, one.high_m / IN) == pytest.approx((0.021, 0.25))


def test_on_the_edge_of_the_window_is_in_it() -> None:
    one = window()

    assert one.holds(one.low_m)
    assert one.holds(one.high_m)
    assert not one.holds(one.high_m + 1e-6)
    assert not one.holds(one.low_m - 1e-6)


def test_a_window_whose_limits_meet_is_open_at_one_height() -> None:
    one = outlet_window([Limit("a", "low", 0.01), Limit("b", "high", 0.01)])

    assert not one.is_empty
    assert one.crossing_m == 0.0
    assert one.holds(0.01)


def test_an_empty_window_says_which_limits_cross_and_by_how_much() -> None:
    one = window(reveal=5.25)

    assert one.is_empty
    assert (one.low_by.name, one.high_by.name) == ("least invert", "strip")
    assert one.crossing_m / IN == pytest.approx(0.271)
    assert not one.holds(0.0)


def test_a_hole_too_high_breaks_the_limits_above_it() -> None:
    assert [limit.name for limit in window(most_invert=0.9).broken_by(1.0 * IN)] == [
        "greatest invert",
        "strip",
    ]


@given(st.sampled_from(get_args(Part)), st.floats(-0.05, 0.2))
def test_any_part_can_be_put_at_a_height(part: Part, height: float) -> None:
    bottom = hole_bottom_for(part, height, 4 * IN, OUTSIDE, BORE)

    assert CoreHole(0.2, bottom, 4 * IN, OUTSIDE, BORE).height_of(part) == pytest.approx(height)


def test_parts_stand_in_their_order() -> None:
    heights = [hole().height_of(part) for part in get_args(Part)]

    assert hole().height_of("centre") == pytest.approx(2.375 * IN)
    assert min(heights) == hole().hole_bottom_m
    assert hole().height_of("pipe top") < hole().top_m


def test_a_pipe_wider_than_its_hole_has_a_gap_below_zero_and_no_grout() -> None:
    tight = CoreHole(0.15, 0.0, 3 * IN, OUTSIDE, BORE)

    assert tight.gap_m == pytest.approx(-0.25 * IN)
    assert tight.grout_m3(0.15) == 0.0


def test_bits_are_sold_in_sizes_that_rise() -> None:
    assert list(BITS_SOLD_M) == sorted(BITS_SOLD_M)


@pytest.mark.parametrize(("reveal", "fitting"), [(6.0, [4.0, 4.5]), (5.75, [4.0]), (5.25, [])])
def test_of_the_bits_that_take_a_pipe_a_lower_curb_has_room_for_fewer(
    reveal: float, fitting: list[float]
) -> None:
    takes = [bit for bit in BITS_SOLD_M if 0.249 * IN <= (bit - OUTSIDE) / 2 <= 0.501 * IN]

    roomy = [round(bit / IN, 2) for bit in takes if not window(reveal, bit / IN).is_empty]

    assert roomy == fitting


def test_a_barrel_held_at_the_pipes_slope_needs_its_hole_over_the_pan() -> None:
    assert barrel_least_bottom(14 * IN, 1 / 12, 1 / 96) / IN == pytest.approx(1.3125)
    assert barrel_least_bottom(14 * IN, 0.0, -0.02) == 0.0


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: hole(reveal=-1.0), "reveal must not be below zero, not -0.0254"),
    (lambda: hole(bit=-1.0), "bit must be more than zero, not -0.0254"),
    (lambda: hole(bottom=math.nan), "hole bottom must be a finite number, not nan"),
    (lambda: CoreHole(0.1, 0.0, 0.1, 0.08, 0.09), "a bore of 0.09 m is wider than its pipe"),
    (
        lambda: outlet_window([Limit("a", "low", 0.0)]),
        "a window needs a limit from below and one from above",
    ),
    (lambda: outlet_window([]), "a window needs a limit from below and one from above"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_a_hole_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        call()

    assert str(caught.value) == message
