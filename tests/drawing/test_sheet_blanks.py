from __future__ import annotations

from itertools import combinations, pairwise

from permitkit.drawing.shapes import Box, Hatch, Label, Line, Pattern, Polyline, Role
from permitkit.drawing.sheet_parts.blanks import blanks, poured
from permitkit.drawing.sheet_parts.ladder import Rung, ladder

ROOM = Box(10.0, 10.0, 190.0, 150.0)


def test_the_largest_blank_is_what_the_drawing_leaves() -> None:
    drawn = (Hatch(Box(10.0, 10.0, 190.0, 70.0).corners, Pattern.CONCRETE),)

    first, *_ = blanks(drawn, ROOM)

    assert first.bottom > 70.0
    assert first.height > 70.0
    assert first.width > 175.0


def test_no_blank_holds_a_stroke_or_a_text_and_none_lies_on_another() -> None:
    drawn = (
        Line((10.0, 80.0), (190.0, 80.0), Role.EXISTING),
        Line((100.0, 10.0), (100.0, 150.0), Role.EXISTING),
        Label("house", (50.0, 120.0)),
    )

    found = blanks(drawn, ROOM)

    assert len(found) > 1
    assert not any(box.touches(drawn[2].box) for box in found)
    assert not any(box.left < 100.0 < box.right or box.bottom < 80.0 < box.top for box in found)
    assert not any(one.touches(other) for one, other in combinations(found, 2))


def test_a_room_drawn_all_over_has_no_blank() -> None:
    drawn = tuple(
        Line((10.0, y), (190.0, y), Role.EXISTING)
        for y in (20.0, 30.0, *map(float, range(40, 150, 9)))
    )

    assert blanks(drawn, ROOM) == ()


def test_texts_are_poured_into_one_box_after_another() -> None:
    texts = [f"Sentence {number} stands somewhere." for number in range(14)]
    boxes = (Box(0.0, 0.0, 60.0, 30.0), Box(70.0, 0.0, 130.0, 60.0))

    said = poured("Notes", texts, boxes)

    labels = [mark for mark in said.shapes if isinstance(mark, Label)]
    assert said.left_over == ()
    assert all(any(box.grown(0.5).holds(label.box) for box in boxes) for label in labels)
    assert {label.box.left < 65.0 for label in labels} == {True, False}


def test_the_leaders_of_a_ladder_do_not_cross_where_another_order_keeps_them_apart() -> None:
    rungs = [
        Rung("back of the curb", (20.0, 50.0)),
        Rung("soil behind it, dressed down", (70.0, 49.0)),
        Rung("what lies in front", (5.0, 48.0)),
    ]

    drawn = ladder(rungs, 90.0, (0.0, 60.0), 40.0, at_right=True)

    assert drawn is not None
    leaders = [mark.points for mark in drawn if isinstance(mark, Polyline)]
    ends = sorted((points[0][1], points[-1]) for points in leaders)
    for (low, one), (high, other) in pairwise(ends):
        assert low < high
        assert not (one[0] < other[0] and one[1] > other[1] + 2.0)
