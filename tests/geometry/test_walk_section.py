"""Levels along the run, and the pipe in the slab of a walk."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.section_walk import LaidPipe, SlabAt, level_at
from permitkit.geometry.shape import ImpossibleShape

IN, FT = 0.0254, 0.3048
OUTLET = 99.5 + 0.854 / 12.0

Points = tuple[tuple[float, float], ...]


def levels(*points: tuple[float, float]) -> Points:
    return tuple((x * FT, y * FT) for x, y in points)


GROUND = levels(
    (0.0, 100.0),
    (0.5, 100.0),
    (5.5, 100.1),
    (10.5, 100.2),
    (11.5, 100.22),
    (41.5, 100.85),
    (66.5, 101.0),
)
ROUND = (3.5 * IN, 3.042 * IN)
TUBE = (2 * IN, 1.625 * IN)


def pipe(
    low: tuple[float, float], high: tuple[float, float], size: tuple[float, float]
) -> LaidPipe:
    outside, bore = size
    (x0, y0), (x1, y1) = levels(low, high)
    return LaidPipe(x0, x1, y0, y1, (outside - bore) / 2.0, outside)


LOWER = pipe((0.0, OUTLET), (41.5, 100.0), ROUND)
UPPER = pipe((41.5, 100.0), (66.5, 100.26), ROUND)


def slab(walk: Points, station: float, thickness: float, laid: LaidPipe) -> SlabAt:
    at = station * FT
    return SlabAt("", at, level_at(walk, at), thickness, laid.top_at(at), laid.bottom_at(at))


def test_the_pipe_lies_in_the_slab_as_worked_by_hand() -> None:
    walk = levels((5.5, 100.1), (10.5, 100.2))

    curb_side, house_side = (slab(walk, at, 4 * IN, LOWER) for at in (5.5, 10.5))

    assert round(curb_side.into_slab_m / IN, 2) == 1.61
    assert round(house_side.into_slab_m / IN, 2) == 1.03
    assert round(curb_side.concrete_over_m / IN, 2) == 2.39
    assert round(house_side.concrete_over_m / IN, 2) == 2.97


@pytest.mark.parametrize(
    ("laid", "station", "cover"),
    [
        (LOWER, 0.5, 1.8),
        (LOWER, 11.5, 3.1),
        (LOWER, 41.5, 6.9),
        (UPPER, 41.5, 6.9),
        (UPPER, 66.5, 5.6),
    ],
)
def test_the_cover_is_as_worked_by_hand(laid: LaidPipe, station: float, cover: float) -> None:
    at = station * FT

    assert round((level_at(GROUND, at) - laid.top_at(at)) / IN, 1) == cover


def test_a_tube_and_a_round_pipe_leave_the_concrete_worked_by_hand() -> None:
    walk = levels((4.0, 100.493), (8.0, 100.573))
    tube, tall = (pipe((0.0, 100.062), (9.0, 100.152), size) for size in (TUBE, ROUND))

    over = [slab(walk, at, 100e-3, tube).concrete_over_m / IN for at in (4.0, 8.0)]

    assert over == pytest.approx([2.88, 3.36], abs=0.015)
    assert round(slab(walk, 4.0, 100e-3, tall).concrete_over_m / IN, 1) == 1.4


def test_a_deep_pipe_lies_below_the_slab() -> None:
    deep = pipe((0.0, 98.0), (20.0, 98.2), ROUND)

    under = slab(levels((5.0, 100.0), (10.0, 100.1)), 5.0, 4 * IN, deep)

    assert under.into_slab_m < 0.0
    assert under.concrete_over_m == 4 * IN


def test_a_pipe_that_stands_out_of_the_slab_leaves_less_than_nothing() -> None:
    proud = SlabAt("curb side", 1.5, 30.0, 0.1, 30.02, 29.93)

    assert proud.underside_m == pytest.approx(29.9)
    assert proud.concrete_over_m == pytest.approx(-0.02)


@given(st.floats(0.0, 41.5))
def test_a_pipe_is_as_high_at_every_station(station: float) -> None:
    at = station * FT

    assert LOWER.top_at(at) - LOWER.bottom_at(at) == pytest.approx(3.5 * IN)
    assert LOWER.invert_at(at) - LOWER.bottom_at(at) == pytest.approx((3.5 - 3.042) / 2 * IN)


def test_what_crosses_a_pipe_lies_clear_under_it_or_over_it() -> None:
    laid = LaidPipe(0.0, 10.0, 1.0, 1.5, 0.05, 0.25)

    assert laid.clear_of(5.0, 0.9) == pytest.approx(0.3)
    assert laid.clear_of(5.0, 1.65) == pytest.approx(0.2)
    assert laid.clear_of(5.0, 1.3) < 0.0


def test_a_level_is_straight_between_points_and_stays_beyond_the_ends() -> None:
    line = ((0.0, 1.0), (2.0, 3.0), (4.0, 0.0))

    found = [level_at(line, x) for x in (-1.0, 0.0, 1.0, 2.0, 3.0, 4.0, 9.0)]

    assert found == [1.0, 1.0, 2.0, 3.0, 1.5, 0.0, 0.0]


def test_one_point_is_a_level_everywhere() -> None:
    assert [level_at([(2.0, 7.0)], x) for x in (0.0, 2.0, 3.0)] == [7.0, 7.0, 7.0]


def test_no_points_give_no_level() -> None:
    with pytest.raises(ImpossibleShape, match="a level line needs a point"):
        level_at([], 1.0)
