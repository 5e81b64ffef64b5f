"""Shapes say where they lie, and a label's box holds its ink."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheet_marks import collisions

from permitkit.drawing.dimensions import Arrow, Dimension, Leader
from permitkit.drawing.placing import overlaps
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Arc,
    Box,
    Circle,
    Fill,
    Hatch,
    Label,
    Line,
    Pattern,
    Polygon,
    Polyline,
    Role,
    arc_points,
    circle_points,
    turned,
)
from permitkit.drawing.sheet import (
    Sheet,
    extent,
    flatten,
    labels_of,
    outline,
    outside,
    segments_of,
)

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
EVERY = (
    Line((0, 0), (10, 2), Role.EXISTING),
    Polyline(((0, 0), (5, 5), (9, 1)), Role.PIPE),
    Polyline(SQUARE, Role.PIPE, closed=True),
    Polygon(SQUARE, Role.PROPOSED, Fill.TONE),
    Circle((5, 5), 2, Role.PLANT),
    Arc((5, 5), 2, 0, 90, Role.EXISTING),
    Hatch(SQUARE, Pattern.CONCRETE),
    Label("invert 99.57", (3, 3)),
    Arrow((0, 0), (9, 0), Role.WATER),
    Leader(((0, 0), (4, 4), (6, 4)), Label("core", (7, 4), Anchor.W)),
    Dimension((0, 0), (30, 0), 6.0, "9 ft 10 in", 3.0),
)


@pytest.mark.parametrize("shape", EVERY, ids=lambda shape: type(shape).__name__)
def test_a_shape_is_frozen_and_equal_to_its_twin(shape: object) -> None:
    with pytest.raises((AttributeError, TypeError)):
        shape.role = Role.EXISTING  # type: ignore[attr-defined]

    assert hash(shape) == hash(shape)


def test_no_role_shares_its_value_with_a_pattern() -> None:
    assert not {role.value for role in Role} & {pattern.value for pattern in Pattern}


@pytest.mark.parametrize("anchor", Anchor)
@pytest.mark.parametrize("lines", ["one", "one\ntwo\nthree"])
def test_a_label_hangs_from_the_point_its_anchor_names(anchor: Anchor, lines: str) -> None:
    box = Label(lines, (50.0, 60.0), anchor).box

    assert {"w": box.left, "e": box.right}.get(anchor.value[-1], 50.0) == pytest.approx(50.0)
    assert {"s": box.bottom, "n": box.top}.get(anchor.value[0], 60.0) == pytest.approx(60.0)
    assert box.grown(1e-9).holds(Box(50, 60, 50, 60))


def test_the_middle_of_a_label_is_the_middle_of_its_capitals() -> None:
    label = Label("E", (50.0, 60.0), Anchor.C, size_mm=3.0)

    assert label.first_baseline == pytest.approx(60.0 - 1.5)


def test_a_label_with_accents_is_taller_than_one_without() -> None:
    assert Label("Å", (0, 0)).box.height > Label("A", (0, 0)).box.height


def test_lettering_too_low_to_copy_is_refused() -> None:
    with pytest.raises(ValueError, match=r"2\.4 mm is under 2\.5 mm"):
        Label("small", (0, 0), size_mm=2.4)

    assert Label("small", (0, 0), size_mm=LEAST_LETTERING_MM).size_mm == 2.5


@given(st.floats(-360, 360), st.sampled_from(Anchor))
def test_the_boxes_of_a_slanted_label_cover_all_of_it(angle: float, anchor: Anchor) -> None:
    label = Label("66 ft 6 in of 3 in Sch 40", (100.0, 100.0), anchor, angle_deg=angle)

    corners = label.corners
    inside = [
        (
            corners[0][0]
            + u * (corners[1][0] - corners[0][0])
            + v * (corners[3][0] - corners[0][0]),
            corners[0][1]
            + u * (corners[1][1] - corners[0][1])
            + v * (corners[3][1] - corners[0][1]),
        )
        for u in (0.01, 0.2, 0.5, 0.83, 0.99)
        for v in (0.01, 0.5, 0.99)
    ]
    assert all(
        any(box.grown(1e-9).holds(Box(x, y, x, y)) for box in label.boxes) for x, y in inside
    )
    assert all(label.box.grown(1e-9).holds(box) for box in label.boxes)


def test_a_slanted_label_leaves_room_for_another_beside_it() -> None:
    slanted = Label("66 ft 6 in of 3 in Sch 40", (0.0, 0.0), angle_deg=45.0)
    beside = Label("curb", (25.0, 5.0))

    assert slanted.box.touches(beside.box)
    assert overlaps([*slanted.boxes, beside.box])[-1][1] < len(slanted.boxes)


def test_a_box_holds_what_lies_inside_and_touches_what_shares_more_than_an_edge() -> None:
    box = Box(0, 0, 10, 5)

    assert box.holds(Box(0, 0, 10, 5))
    assert not box.holds(Box(0, 0, 10.1, 5))
    assert not box.touches(Box(10, 0, 12, 5))
    assert box.touches(Box(9.9, 4.9, 12, 9))
    assert box.moved(1, 2) == Box(1, 2, 11, 7)
    assert (box.width, box.height, box.centre) == (10, 5, (5, 2.5))


def test_compound_shapes_are_drawn_with_primitives_only() -> None:
    marks = list(flatten(EVERY))

    assert {type(mark).__name__ for mark in marks} == {
        "Line",
        "Polyline",
        "Polygon",
        "Circle",
        "Arc",
        "Hatch",
        "Label",
    }
    assert [label.text for label in labels_of(EVERY)] == ["invert 99.57", "core", "9 ft 10 in"]


def test_the_extent_of_shapes_is_the_box_round_their_marks() -> None:
    assert extent(EVERY[:1]) == Box(0, 0, 10, 2)
    assert extent([Circle((5, 5), 2, Role.PLANT)]) == Box(3, 3, 7, 7)


@pytest.mark.parametrize("mark", list(flatten(EVERY)), ids=lambda mark: type(mark).__name__)
def test_a_mark_that_reaches_beyond_its_room_is_found(mark: Line) -> None:
    box = Box.around(outline(mark))

    assert outside([mark], box) == ()
    assert outside([mark], box._replace(right=box.right - 0.1)) == (mark,)


def test_strokes_of_closed_shapes_close_and_texts_have_none() -> None:
    square = list(segments_of([Polygon(SQUARE, Role.EXISTING)]))
    open_line = list(segments_of([Polyline(SQUARE, Role.EXISTING)]))

    assert len(square) == 4
    assert square[-1] == (SQUARE[-1], SQUARE[0])
    assert len(open_line) == 3
    assert list(segments_of([Label("x", (0, 0)), Hatch(SQUARE, Pattern.SAND)])) == []
    assert len(list(segments_of([Circle((0, 0), 1, Role.PLANT)]))) == 24


def test_points_along_an_arc_lie_on_it_and_include_both_ends() -> None:
    points = arc_points((1.0, 2.0), 3.0, 30.0, 300.0)

    assert all(math.dist(point, (1, 2)) == pytest.approx(3) for point in points)
    assert points[0] == pytest.approx(turned((4, 2), (1, 2), 30))
    assert points[-1] == pytest.approx(turned((4, 2), (1, 2), 300))


def test_points_round_a_circle_do_not_repeat_the_first() -> None:
    points = circle_points((0.0, 0.0), 1.0, 12)

    assert len(points) == 12
    assert math.dist(points[0], points[-1]) > 0.1


def test_a_sheet_finds_a_text_planted_on_another_and_no_text_on_itself() -> None:
    slanted = Label("66 ft 6 in of 3 in Sch 40", (50.0, 50.0), angle_deg=40.0)
    apart, planted = Label("curb", (20.0, 20.0)), Label("walk", (60.0, 58.0))

    clean = Sheet(200.0, 200.0, "plan", (slanted, apart))
    spoilt = Sheet(200.0, 200.0, "plan", (slanted, apart, planted))

    assert collisions(clean) == []
    assert set(collisions(spoilt)) == {(slanted.text, planted.text)}


def test_a_sheet_tells_its_texts() -> None:
    sheet = Sheet(279.4, 215.9, "Site sketch", EVERY, "1 in = 10 ft", "2 of 9")

    assert [label.text for label, _ in sheet.label_boxes] == ["invert 99.57", "core", "9 ft 10 in"]
    assert sheet.paper == Box(0, 0, 279.4, 215.9)
    assert len(sheet.primitives) > len(EVERY)
