"""Lines, arcs, rounded corners and what they enclose."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.shape import (
    Arc,
    ImpossibleShape,
    Line,
    above_zero,
    enclosed_area,
    finite,
    piece_points,
    polygon_area,
    rounded,
    zero_or_more,
)

if TYPE_CHECKING:
    from collections.abc import Callable

QUARTER = Arc((0.0, 0.0), 1.0, 0.0, math.pi / 2.0)


def test_an_arc_runs_from_start_to_end() -> None:
    assert QUARTER.start == pytest.approx((1.0, 0.0))
    assert QUARTER.end == pytest.approx((0.0, 1.0))


def test_an_arcs_points_lie_on_it_no_further_apart_than_a_chord() -> None:
    points = QUARTER.points(0.1)

    assert all(math.hypot(*point) == pytest.approx(1.0) for point in points)
    assert max(math.dist(a, b) for a, b in itertools.pairwise(points)) <= 0.1


def test_a_slanting_line_crosses_once() -> None:
    line = Line((0.0, 0.0), (2.0, 1.0))

    assert line.heights_at(1.0) == (0.5,)
    assert line.offsets_at(0.5) == (1.0,)
    assert line.heights_at(3.0) == ()


def test_an_upright_line_gives_both_its_ends() -> None:
    assert Line((1.0, 0.0), (1.0, 2.0)).heights_at(1.0) == (0.0, 2.0)
    assert Line((0.0, 1.0), (2.0, 1.0)).offsets_at(1.0) == (0.0, 2.0)


def test_an_arc_crosses_where_it_is_and_nowhere_else() -> None:
    half = Arc((0.0, 0.0), 1.0, 0.0, math.pi)

    assert QUARTER.heights_at(0.6) == pytest.approx((0.8,))
    assert QUARTER.heights_at(-0.6) == ()
    assert QUARTER.heights_at(2.0) == ()
    assert sorted(half.offsets_at(0.6)) == pytest.approx([-0.8, 0.8])


def test_an_arc_that_turns_clockwise_crosses_too() -> None:
    back = Arc((0.0, 0.0), 1.0, math.pi / 2.0, -math.pi / 2.0)

    assert back.heights_at(0.6) == pytest.approx((0.8,))
    assert back.heights_at(-0.6) == ()


@given(st.floats(0.0, 0.49))
def test_rounding_the_corners_of_a_square_takes_off_a_known_area(radius: float) -> None:
    corners = [(x, y, radius) for x, y in ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))]

    area = enclosed_area(rounded(corners, closed=True))

    assert area == pytest.approx(1.0 - (4.0 - math.pi) * radius**2)


@given(st.floats(0.05, 0.4))
def test_the_exact_area_agrees_with_a_fine_polygon(radius: float) -> None:
    shape = rounded(
        [(0.0, 0.0, radius), (1.0, 0.0, 0.0), (1.2, 1.0, radius), (0.0, 1.0, 0.1)], closed=True
    )

    assert polygon_area(piece_points(shape, 0.001)) == pytest.approx(enclosed_area(shape), abs=1e-5)


def test_pieces_join_end_to_start() -> None:
    shape = rounded([(0.0, 0.0, 0.3), (1.0, 0.0, 0.2), (1.0, 1.0, 0.0)], closed=True)

    for before, after in zip(shape, [*shape[1:], shape[0]], strict=True):
        assert math.dist(before.end, after.start) < 1e-9


def test_rounds_that_just_touch_leave_no_line_between() -> None:
    square = [(x, y, 0.5) for x, y in ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))]

    shape = rounded(square, closed=True)

    assert all(isinstance(piece, Arc) for piece in shape)
    assert enclosed_area(shape) == pytest.approx(math.pi / 4.0)


def test_a_corner_that_does_not_turn_has_no_round() -> None:
    shape = rounded([(0.0, 0.0, 0.0), (1.0, 0.0, 0.5), (2.0, 0.0, 0.0)], closed=False)

    assert [type(piece) for piece in shape] == [Line, Line]


BAD: list[tuple[Callable[[], object], str]] = [
    (
        lambda: rounded([(0, 0, 0.6), (1, 0, 0.6), (1, 1, 0), (0, 1, 0)], closed=True),
        "rounds overlap by 0.2 m between corners 0 and 1",
    ),
    (
        lambda: rounded([(0, 0, 0.0), (1, 0, -0.6), (1, 1, 0)], closed=True),
        "radius must not be below zero, not -0.6",
    ),
    (lambda: piece_points([], 0.0), "chord must be more than zero, not 0.0"),
    (lambda: finite("width", math.nan), "width must be a finite number, not nan"),
    (lambda: above_zero("width", 0.0), "width must be more than zero, not 0.0"),
    (lambda: zero_or_more("width", -1.0), "width must not be below zero, not -1.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_a_shape_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        call()

    assert str(caught.value) == message
