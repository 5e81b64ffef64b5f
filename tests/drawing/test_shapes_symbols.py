"""Shared marks point where they say and measure what they say."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.drawing.dimensions import Arrow
from permitkit.drawing.placing import overlaps
from permitkit.drawing.scale import Kind, Scale, System, scales
from permitkit.drawing.shapes import Anchor, Box, Label, Line, Polygon, Polyline, Role
from permitkit.drawing.sheet import extent, labels_of
from permitkit.drawing.symbols import (
    UTILITY_LETTERS,
    break_line,
    flow_arrow,
    ground_marks,
    lettered_line,
    match_line,
    north_arrow,
    scale_bar,
    section_mark,
    view_title,
)

EVERY_SCALE = [scale for kind in Kind for system in System for scale in scales(kind, system)]


def length(points: tuple[tuple[float, float], ...]) -> float:
    return sum(math.dist(*leg) for leg in pairwise(points))


@pytest.mark.parametrize("north_deg", [90.0, 0.0, 37.5, -120.0])
def test_a_north_arrow_points_north_and_is_lettered_there(north_deg: float) -> None:
    marks = north_arrow((50.0, 50.0), north_deg)

    tip = next(mark for mark in marks if isinstance(mark, Polygon)).points[0]
    (letter,) = labels_of(marks)
    for point in (tip, letter.at):
        angle = math.degrees(math.atan2(point[1] - 50, point[0] - 50))
        assert math.cos(math.radians(angle - north_deg)) == pytest.approx(1.0)
    assert letter.angle_deg == 0


@pytest.mark.parametrize("scale", EVERY_SCALE, ids=lambda scale: scale.text)
def test_the_figures_of_a_scale_bar_stand_over_their_lengths(scale: Scale) -> None:
    marks = scale_bar((10.0, 10.0), scale, 55.0)

    labels = labels_of(marks)
    unit = {"ft": 0.3048, "in": 0.0254, "m": 1.0, "mm": 0.001}[labels[-1].text.split()[1]]
    steps = [mark for mark in marks if isinstance(mark, Polygon)]
    end = max(x for mark in steps for x, _ in mark.points)
    assert end - 10.0 == pytest.approx(scale.paper_mm(float(labels[-1].text.split()[0]) * unit))
    assert overlaps([label.box for label in labels]) == []
    assert extent(marks).width <= 55.0


@given(
    st.lists(st.tuples(st.floats(0, 200), st.floats(0, 200)), min_size=2, max_size=5),
    st.sampled_from(sorted(UTILITY_LETTERS)),
)
def test_a_lettered_line_keeps_its_length_but_for_the_gaps(
    points: list[tuple[float, float]], role: Role
) -> None:
    marks = lettered_line(points, role)

    letters = labels_of(marks)
    drawn = sum(length(mark.points) for mark in marks if isinstance(mark, Polyline))
    gap = Label(UTILITY_LETTERS[role], (0, 0)).width_mm + 1.4
    assert drawn == pytest.approx(length(tuple(points)) - gap * len(letters), abs=1e-6)
    assert {label.text for label in letters} <= {UTILITY_LETTERS[role]}


def test_a_long_line_has_its_letter_every_so_often_and_a_stub_has_none() -> None:
    long, stub = ((0.0, 0.0), (160.0, 0.0)), ((0.0, 0.0), (6.0, 0.0))

    assert len(labels_of(lettered_line(long, Role.UTILITY_GAS))) == 5
    assert labels_of(lettered_line(stub, Role.UTILITY_GAS)) == ()


def test_letters_move_along_their_line_clear_of_what_is_there() -> None:
    there = [Box(12.0, -3.0, 20.0, 3.0), Box(30.0, -2.0, 70.0, 2.0)]

    letters = labels_of(lettered_line([(0.0, 0.0), (96.0, 0.0)], Role.UTILITY_GAS, avoid=there))

    assert len(letters) == 2
    assert not any(letter.box.touches(box) for letter in letters for box in there)


def test_two_utilities_do_not_write_on_one_another_where_they_cross() -> None:
    first = lettered_line([(0.0, 20.0), (40.0, 20.0)], Role.UTILITY_GAS)
    taken = [label.box for label in labels_of(first)]

    second = lettered_line([(20.0, 0.0), (20.0, 40.0)], Role.UTILITY_WATER, avoid=taken)

    assert overlaps([*taken, *(label.box for label in labels_of(second))]) == []


def test_another_role_can_be_lettered_too() -> None:
    marks = lettered_line([(0.0, 0.0), (40.0, 0.0)], Role.EXISTING, letter="OHE")

    assert [label.text for label in labels_of(marks)] == ["OHE"]


@pytest.mark.parametrize("angle", [0.0, 90.0, 200.0])
def test_a_flow_arrow_points_with_the_flow(angle: float) -> None:
    arrow = flow_arrow((10.0, 10.0), angle, 6.0)

    dx, dy = arrow.end[0] - arrow.start[0], arrow.end[1] - arrow.start[1]
    assert math.degrees(math.atan2(dy, dx)) % 360 == pytest.approx(angle)
    assert math.hypot(dx, dy) == pytest.approx(6.0)


def test_a_view_has_its_title_over_a_rule_and_its_scale_below() -> None:
    title, rule, detail = view_title((20.0, 30.0), "Curb section", "1 1/2 in = 1 ft")

    assert isinstance(title, Label)
    assert isinstance(detail, Label)
    assert title.box.bottom > 30.0 > detail.box.top
    assert isinstance(rule, Line)
    assert rule.end[0] > title.box.right
    assert len(view_title((20.0, 30.0), "Plan")) == 2


def test_a_section_mark_looks_where_it_says() -> None:
    *_, arrow = section_mark((10.0, 10.0), "A", 90.0)

    assert isinstance(arrow, Arrow)
    assert arrow.end[1] > arrow.start[1] > 10.0


def test_a_break_line_keeps_its_ends() -> None:
    line = break_line((10.0, 10.0), (10.0, 60.0))

    assert line.points[0] == (10.0, 10.0)
    assert line.points[-1] == pytest.approx((10.0, 60.0))
    assert Box.around(line.points).width > 2.0


def test_ground_marks_hang_below_the_ground() -> None:
    ground = ((0.0, 10.0), (50.0, 12.0), (90.0, 12.0))

    marks = ground_marks(ground)

    assert len(marks) == 30
    assert all(mark.end[1] < mark.start[1] for mark in marks)
    assert all(10.0 <= mark.start[1] <= 12.0 for mark in marks)


def test_a_match_line_names_the_sheet_that_goes_on() -> None:
    line, label = match_line((50.0, 10.0), (50.0, 90.0), "sheet 4")

    assert isinstance(line, Line)
    assert isinstance(label, Label)
    assert label.anchor is Anchor.C
    assert label.text == "match line, see sheet 4"
    assert label.box.height > label.box.width
