"""Levels along the run, the pipe in the slab, and the site in plan."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.section_walk import (
    LevelLine,
    cover_at,
    least_cover,
    pipe_top_above_invert,
    slab_crossing,
)
from permitkit.geometry.shape import ImpossibleShape
from permitkit.geometry.site import (
    along,
    bounds,
    centroid,
    clear_between,
    edge_to_point,
    inside,
    joints_beside,
    path_length,
    rectangle,
    strip_along,
    to_path,
    to_segment,
)

if TYPE_CHECKING:
    from collections.abc import Callable

IN, FT = 0.0254, 0.3048
TOP = pipe_top_above_invert(3.5 * IN, 3.042 * IN)
OUTLET = 99.5 + 0.854 / 12.0


def levels(*points: tuple[float, float]) -> LevelLine:
    return LevelLine(tuple((x * FT, y * FT) for x, y in points))


GROUND = levels(
    (0.0, 100.0),
    (0.5, 100.0),
    (5.5, 100.1),
    (10.5, 100.2),
    (11.5, 100.22),
    (41.5, 100.85),
    (66.5, 101.0),
)
INVERT = levels((0.0, OUTLET), (41.5, 100.0), (66.5, 100.26))


def test_the_pipe_lies_in_the_slab_as_worked_by_hand() -> None:
    walk = levels((5.5, 100.1), (10.5, 100.2))

    crossing = slab_crossing(walk, 4 * IN, INVERT, TOP)

    assert round(crossing.curb_edge.into_slab_m / IN, 2) == 1.61
    assert round(crossing.house_edge.into_slab_m / IN, 2) == 1.03
    assert round(crossing.curb_edge.concrete_over_m / IN, 2) == 2.39
    assert round(crossing.house_edge.concrete_over_m / IN, 2) == 2.97
    assert crossing.into_slab_m == crossing.curb_edge.into_slab_m
    assert crossing.concrete_over_m == crossing.curb_edge.concrete_over_m
    assert crossing.below_slab_m == 0.0


@pytest.mark.parametrize(("station", "cover"), [(0.5, 1.8), (11.5, 3.1), (41.5, 6.9), (66.5, 5.6)])
def test_the_cover_is_as_worked_by_hand(station: float, cover: float) -> None:
    assert round(cover_at(GROUND, INVERT, TOP, station * FT).cover_m / IN, 1) == cover


def test_the_least_cover_is_behind_the_curb() -> None:
    least = least_cover(GROUND, INVERT, TOP, 0.5 * FT, 66.5 * FT)

    assert least.station_m == pytest.approx(0.5 * FT)
    assert round(least.cover_m / IN, 1) == 1.8


def test_a_tube_and_a_round_pipe_leave_the_concrete_worked_by_hand() -> None:
    walk = levels((4.0, 100.493), (8.0, 100.573))
    line = levels((0.0, 100.062), (9.0, 100.152))
    tube = pipe_top_above_invert(2 * IN, 1.625 * IN)

    flat, tall = (slab_crossing(walk, 100e-3, line, top) for top in (tube, TOP))

    assert round(flat.curb_edge.concrete_over_m / IN, 2) == pytest.approx(2.88, abs=0.01)
    assert round(flat.house_edge.concrete_over_m / IN, 2) == pytest.approx(3.36, abs=0.01)
    assert round(tall.concrete_over_m / IN, 1) == 1.4


def test_a_deep_pipe_lies_below_the_slab() -> None:
    walk, deep = levels((5.0, 100.0), (10.0, 100.1)), levels((0.0, 98.0), (20.0, 98.2))

    crossing = slab_crossing(walk, 4 * IN, deep, TOP)

    assert crossing.into_slab_m == 0.0
    assert crossing.below_slab_m > 0.0
    assert crossing.concrete_over_m == pytest.approx(4 * IN)


@given(st.floats(0.0, 66.5))
def test_no_cover_is_less_than_the_least(station: float) -> None:
    least = least_cover(GROUND, INVERT, TOP, 0.0, 66.5 * FT)

    assert cover_at(GROUND, INVERT, TOP, station * FT).cover_m >= least.cover_m - 1e-9


def test_a_level_line_is_straight_between_its_points() -> None:
    line = LevelLine(((0.0, 1.0), (2.0, 3.0), (4.0, 0.0)))

    assert [line.at(x) for x in (0.0, 1.0, 2.0, 3.0, 4.0)] == [1.0, 2.0, 3.0, 1.5, 0.0]
    assert (line.start_m, line.end_m) == (0.0, 4.0)
    assert line.stations_between(1.0, 3.0) == (1.0, 2.0, 3.0)


def test_a_hole_is_measured_from_its_edge() -> None:
    assert edge_to_point(3.0, 4 * IN, 3.0 + 26 * IN) / IN == pytest.approx(24.0)
    assert edge_to_point(3.0, 4 * IN, 3.0 - 26 * IN) / IN == pytest.approx(24.0)
    assert edge_to_point(3.0, 4 * IN, 3.0) < 0.0
    assert clear_between(3.0, 3.5, 4 * IN, 3 * IN) == pytest.approx(0.5 - 3.5 * IN)


def test_the_joints_beside_a_hole_are_found() -> None:
    assert joints_beside([6.0, 0.0, 3.0], 4.0) == (3.0, 6.0)
    assert joints_beside([0.0, 3.0], 3.0) == (3.0, None)
    assert joints_beside([1.0], 0.5) == (None, 1.0)
    assert joints_beside([], 1.0) == (None, None)


def test_a_distance_to_a_line_is_to_its_nearest_point() -> None:
    assert to_segment((1.0, 2.0), (0.0, 0.0), (4.0, 0.0)) == (2.0, (1.0, 0.0))
    assert to_segment((-3.0, 4.0), (0.0, 0.0), (4.0, 0.0)) == (5.0, (0.0, 0.0))
    assert to_segment((3.0, 4.0), (0.0, 0.0), (0.0, 0.0)) == (5.0, (0.0, 0.0))
    assert to_path((3.0, 2.0), [(0.0, 0.0), (2.0, 0.0), (2.0, 5.0)]) == 1.0


def test_a_point_is_found_along_a_path() -> None:
    path = [(0.0, 0.0), (3.0, 4.0), (3.0, 4.0), (3.0, 9.0)]

    assert path_length(path) == 10.0
    assert along(path, 0.0) == (0.0, 0.0)
    assert along(path, 7.5) == (3.0, 6.5)
    assert along(path, 99.0) == (3.0, 9.0)


def test_a_strip_lies_about_its_line() -> None:
    strip = strip_along((0.0, 0.0), (3.0, 4.0), 1.0)

    assert math.dist(strip[0], strip[3]) == pytest.approx(1.0)
    assert math.dist(strip[0], strip[1]) == pytest.approx(5.0)
    assert centroid(strip) == pytest.approx((1.5, 2.0))


def test_a_rectangle_runs_anticlockwise_from_its_near_left() -> None:
    assert rectangle(0.0, 2.0, 1.0, 4.0) == ((0.0, 1.0), (2.0, 1.0), (2.0, 4.0), (0.0, 4.0))


def test_a_polygon_has_bounds_and_a_centre() -> None:
    shape = [(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)]

    assert bounds(shape) == (0.0, 0.0, 4.0, 4.0)
    assert centroid(shape) == pytest.approx((5.0 / 3.0, 5.0 / 3.0))
    assert centroid(shape[::-1]) == pytest.approx((5.0 / 3.0, 5.0 / 3.0))
    assert inside((1.0, 3.0), shape)
    assert not inside((3.0, 3.0), shape)
    assert not inside((5.0, 1.0), shape)


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: LevelLine(((0.0, 1.0),)), "a level line needs two points or more"),
    (lambda: LevelLine(((0.0, 1.0), (0.0, 2.0))), "stations must rise along a level line"),
    (lambda: LevelLine(((0.0, math.nan), (1.0, 2.0))), "level must be a finite number, not nan"),
    (
        lambda: LevelLine(((0.0, 1.0), (1.0, 2.0))).at(2.0),
        "station 2 m lies beyond 0 to 1 m",
    ),
    (lambda: pipe_top_above_invert(0.1, 0.2), "a bore of 0.2 m is wider than its pipe"),
    (lambda: to_path((0.0, 0.0), [(1.0, 1.0)]), "a path needs two points or more"),
    (lambda: rectangle(1.0, 1.0, 0.0, 2.0), "width must be more than zero, not 0.0"),
    (lambda: strip_along((0.0, 0.0), (0.0, 0.0), 1.0), "length must be more than zero, not 0.0"),
    (lambda: bounds([]), "no points, no bounds"),
    (lambda: centroid([(0.0, 0.0), (1.0, 1.0)]), "a polygon without area has no centre"),
    (lambda: centroid([]), "a polygon without area has no centre"),
    (lambda: along([(0.0, 0.0), (1.0, 0.0)], -1.0), "distance must not be below zero, not -1.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=range(len(BAD)))
def test_a_plan_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        call()

    assert str(caught.value) == message
