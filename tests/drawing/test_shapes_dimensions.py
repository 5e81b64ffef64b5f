"""Dimensions measure what they say, and strings of them never run together."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.drawing.dimensions import (
    HEAD_MM,
    Along,
    Arrow,
    Dimension,
    Leader,
    arrowhead,
    on_tracks,
)
from permitkit.drawing.placing import overlaps
from permitkit.drawing.shapes import Anchor, Box, Circle, Fill, Label, Line, Polygon, Role
from permitkit.drawing.sheet import extent

coordinate = st.floats(0, 200)
point = st.tuples(coordinate, coordinate)


@given(point, point, st.floats(-30, 30), st.sampled_from(Along))
def test_a_dimension_line_is_as_long_as_what_it_measures(
    start: tuple[float, float], end: tuple[float, float], offset: float, along: Along
) -> None:
    dimension = Dimension(start, end, offset, "x", 1.0, along)

    dx, dy = abs(end[0] - start[0]), abs(end[1] - start[1])
    true = {Along.ALIGNED: math.hypot(dx, dy), Along.HORIZONTAL: dx, Along.VERTICAL: dy}[along]
    assert dimension.length_mm == pytest.approx(true, abs=1e-9)


@pytest.mark.parametrize("end", [(80.0, 50.0), (20.0, 50.0)])
def test_a_horizontal_dimension_stands_above_whichever_way_it_runs(
    end: tuple[float, float],
) -> None:
    dimension = Dimension((50.0, 40.0), end, 12.0, "98 ft 5 in", 30.0, Along.HORIZONTAL)

    assert [foot[1] for foot in dimension.feet] == pytest.approx([52.0, 52.0])


@pytest.mark.parametrize("end", [(55.0, 80.0), (55.0, 20.0)])
def test_a_vertical_dimension_stands_left_whichever_way_it_runs(end: tuple[float, float]) -> None:
    dimension = Dimension((50.0, 50.0), end, 12.0, "98 ft 5 in", 30.0, Along.VERTICAL)

    assert [foot[0] for foot in dimension.feet] == pytest.approx([38.0, 38.0])


def test_a_long_dimension_has_its_text_above_the_line_and_its_heads_inside() -> None:
    dimension = Dimension((0.0, 0.0), (60.0, 0.0), 10.0, "5 ft 6 in", 1.6764)

    assert dimension.heads_inside
    assert dimension.label.box.bottom > 10.0
    assert dimension.label.box.centre[0] == pytest.approx(30.0)


def test_a_short_dimension_has_its_text_beyond_its_end_and_its_heads_outside() -> None:
    dimension = Dimension((0.0, 0.0), (3.0, 0.0), 10.0, "3/8 in", 0.009525)

    assert not dimension.heads_inside
    assert dimension.label.box.left > 3.0 + 2 * HEAD_MM
    assert extent(dimension.parts()).left < 0.0 - HEAD_MM


def test_a_text_can_be_moved_further_out() -> None:
    near = Dimension((0.0, 0.0), (3.0, 0.0), 10.0, "3/8 in", 0.009525)
    far = Dimension((0.0, 0.0), (3.0, 0.0), 10.0, "3/8 in", 0.009525, outward_mm=8.0)

    assert far.label.box.left - near.label.box.left == pytest.approx(8.0)


def test_a_text_never_lies_on_its_own_line_or_arrowheads() -> None:
    for length in (1.0, 4.0, 7.0, 12.0, 16.0, 17.0, 25.0, 60.0):
        dimension = Dimension((0.0, 0.0), (length, 0.0), 10.0, "5 ft 6 1/2 in", 1.689)
        inked = [Box.around(mark.points) for mark in dimension.parts() if isinstance(mark, Polygon)]

        assert not any(dimension.label.box.touches(box) for box in inked)
        assert not dimension.label.box.touches(dimension.line_box.grown(0.05))


@given(st.floats(-179, 180))
def test_a_text_reads_from_the_bottom_or_the_right(angle: float) -> None:
    end = (50 * math.cos(math.radians(angle)), 50 * math.sin(math.radians(angle)))

    turn = Dimension((0.0, 0.0), end, 5.0, "16 ft", 5.0).label.angle_deg

    assert -90 < turn <= 90 + 1e-6


@given(
    st.lists(st.tuples(st.floats(0, 150), st.floats(0, 150)), min_size=1, max_size=8),
    st.sampled_from([Along.HORIZONTAL, Along.VERTICAL]),
    st.sampled_from([6.0, -6.0]),
)
def test_no_text_of_a_string_of_dimensions_lies_on_another(
    spans: list[tuple[float, float]], along: Along, step: float
) -> None:
    flat = along is Along.HORIZONTAL
    string = [
        Dimension(
            (low, 0.0) if flat else (0.0, low),
            (high, 3.0) if flat else (3.0, high),
            0.0,
            f"{abs(high - low):.1f} ft",
            1.0,
            along,
        )
        for low, high in spans
    ]

    stacked = on_tracks(string, 20.0, step)

    assert overlaps([dimension.label.box for dimension in stacked]) == []
    tracks = [(d.feet[0][1 if flat else 0] - 20.0) / step for d in stacked]
    assert tracks == pytest.approx([round(track) for track in tracks])
    assert min(tracks) == pytest.approx(0.0)


def test_a_chain_end_to_end_stays_on_one_line() -> None:
    chain = [
        Dimension((20.0 * i, 0.0), (20.0 * (i + 1), 0.0), 0.0, "5 ft", 1.524, Along.HORIZONTAL)
        for i in range(4)
    ]

    stacked = on_tracks(chain, -8.0, -6.0)

    assert {foot[1] for dimension in stacked for foot in dimension.feet} == {-8.0}


@pytest.mark.parametrize("other", [Along.ALIGNED, Along.VERTICAL])
def test_a_string_of_mixed_dimensions_is_refused(other: Along) -> None:
    string = [
        Dimension((0, 0), (9, 0), 0.0, "a", 1.0, Along.HORIZONTAL),
        Dimension((0, 0), (9, 9), 0.0, "b", 1.0, other),
    ]

    with pytest.raises(ValueError, match="all horizontal or all vertical"):
        on_tracks(string, 5.0, 5.0)


def test_an_arrowhead_is_three_long_to_one_wide() -> None:
    tip, left, right = arrowhead((10.0, 0.0), 0.0, Role.DIMENSION, 3.0).points

    assert tip == (10.0, 0.0)
    assert tip[0] - left[0] == pytest.approx(3.0)
    assert math.dist(left, right) == pytest.approx(1.0)


def test_an_arrow_ends_where_it_points() -> None:
    shaft, head = Arrow((0.0, 0.0), (0.0, 12.0), Role.WATER).parts()

    assert isinstance(shaft, Line)
    assert isinstance(head, Polygon)
    assert head.points[0] == (0.0, 12.0)
    assert shaft.end[1] < 12.0


@pytest.mark.parametrize(("dot", "kind"), [(True, Circle), (False, Polygon)])
def test_a_leader_ends_in_a_dot_on_a_surface_and_a_head_at_an_edge(
    dot: bool,  # noqa: FBT001
    kind: type,
) -> None:
    leader = Leader(((0, 0), (5, 5), (7, 5)), Label("curb", (8, 5), Anchor.W), dot=dot)

    _, end, label = leader.parts()

    assert isinstance(end, kind)
    assert end.fill is Fill.SOLID  # type: ignore[union-attr]
    assert label.text == "curb"  # type: ignore[union-attr]
