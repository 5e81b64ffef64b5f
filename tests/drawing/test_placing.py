"""Texts are placed clear of each other, whatever the sheet looks like."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.drawing.occupancy import Segment, TakenPaper
from permitkit.drawing.placing import SIDES, Mode, Place, Side, Want, overlaps, place, stack
from permitkit.drawing.shapes import Box

if TYPE_CHECKING:
    from collections.abc import Sequence

ROOM = Box(12.0, 14.0, 195.0, 200.0)
across, upward = st.floats(12, 195), st.floats(14, 200)
points = st.tuples(across, upward)
segments = st.tuples(points, points)


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    x, y = draw(points)
    return Box(x, y, x + draw(st.floats(1, 60)), y + draw(st.floats(1, 12)))


wants = st.builds(
    Want, st.floats(4, 70), st.sampled_from([3.4, 7.6, 11.7]), points, priority=st.integers(0, 2)
)


def crossed(first: tuple[float, float], second: tuple[float, float], box: Box) -> bool:
    """Return whether a stroke passes through the inside of a box."""
    low, high = 0.0, 1.0
    for axis, (near, far) in enumerate(((box.left, box.right), (box.bottom, box.top))):
        start, run = first[axis], second[axis] - first[axis]
        if run == 0:
            if not near < start < far:
                return False
            continue
        enter, leave = sorted(((near - start) / run, (far - start) / run))
        low, high = max(low, enter), min(high, leave)
    return low < high


def placed(places: Sequence[Place]) -> list[Box]:
    return [spot.box for spot in places if spot.mode is not Mode.UNPLACED]


@given(
    st.lists(wants, max_size=40), st.lists(boxes(), max_size=10), st.lists(segments, max_size=12)
)
def test_no_text_lies_on_another_or_on_one_already_there(
    asked: list[Want], there: list[Box], strokes: list[Segment]
) -> None:
    places = place(asked, ROOM, there, strokes)

    found = placed(places)
    assert overlaps(found) == []
    assert not any(mine.touches(theirs) for mine in found for theirs in there)
    assert all(ROOM.holds(box) for box in found)


@given(st.lists(wants, max_size=25), st.lists(segments, max_size=10))
def test_texts_keep_off_strokes_and_leaders_off_texts(
    asked: list[Want], strokes: list[Segment]
) -> None:
    places = place(asked, ROOM, (), strokes)

    beside = [spot for spot in places if spot.mode in {Mode.BESIDE, Mode.LED}]
    assert not any(crossed(*stroke, spot.box) for spot in beside for stroke in strokes)
    for spot in places:
        for leg in pairwise(spot.leader):
            others = [other.box for other in places if other is not spot]
            assert not any(crossed(*leg, box) for box in others if not spot_begins_in(spot, box))


def spot_begins_in(spot: Place, box: Box) -> bool:
    """Return whether a leader starts inside a text that covers its point."""
    return box.grown(2.0).holds(Box(*spot.leader[0], *spot.leader[0]))


@given(st.lists(wants, max_size=30))
def test_texts_that_find_no_room_are_numbered_in_their_order(asked: list[Want]) -> None:
    there = [Box(ROOM.left + 10 * i, ROOM.bottom, ROOM.left + 10 * i + 9, 150) for i in range(18)]

    places = place(asked, ROOM, there)

    numbers = [spot.number for spot in places if spot.mode in {Mode.KEYED, Mode.UNPLACED}]
    assert numbers == list(range(1, len(numbers) + 1))
    assert len(places) == len(asked)


@given(st.lists(wants, max_size=20))
def test_the_same_texts_are_placed_the_same_way_twice(asked: list[Want]) -> None:
    assert place(asked, ROOM) == place(asked, ROOM)


@given(st.lists(boxes(), max_size=25))
def test_the_collision_test_agrees_with_trying_every_pair(many: list[Box]) -> None:
    every = [
        (i, j)
        for i in range(len(many))
        for j in range(i + 1, len(many))
        if many[i].touches(many[j])
    ]

    assert overlaps(many) == every


def test_the_collision_test_finds_a_planted_overlap() -> None:
    places = place([Want(30, 3.4, (20 + 12 * i, 40 + 9 * i)) for i in range(12)], ROOM)
    found = placed(places)
    clean = overlaps(found)

    planted = [*found, found[5].moved(found[5].width - 0.1, 0.1)]

    assert clean == []
    assert (5, 12) in overlaps(planted)


def test_boxes_that_share_an_edge_do_not_overlap() -> None:
    assert overlaps([Box(0, 0, 5, 5), Box(5, 0, 9, 5), Box(0, 5, 5, 9)]) == []


def test_a_text_with_room_stands_beside_its_point_on_the_side_it_prefers() -> None:
    (spot,) = place([Want(20, 3.4, (100, 100), prefer=(Side.W,))], ROOM)

    assert spot.mode is Mode.BESIDE
    assert spot.box.right == pytest.approx(98.5)
    assert spot.box.centre[1] == pytest.approx(100)


@pytest.mark.parametrize("side", SIDES)
def test_each_side_is_clear_of_the_point(side: Side) -> None:
    (spot,) = place([Want(20, 3.4, (100, 100), prefer=(side,))], ROOM)

    assert spot.mode is Mode.BESIDE
    assert not spot.box.grown(0.9).touches(Box(100, 100, 100, 100).grown(1e-9))


def test_a_text_without_room_beside_its_point_is_led_to_it() -> None:
    there = [Box(90, 96, 110, 104)]

    (spot,) = place([Want(30, 3.4, (111.0, 100))], ROOM, (), walls(there[0].grown(4)))

    assert spot.mode is Mode.LED
    assert spot.leader[0] == (111.0, 100)


def walls(box: Box) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Return strokes so close together that nothing fits between them."""
    return [((box.left, y), (box.right + 8, y)) for y in range(int(box.bottom), int(box.top), 2)]


def test_a_text_too_wide_for_the_room_goes_to_the_key() -> None:
    (spot,) = place([Want(400, 3.4, (100, 100))], ROOM)

    assert spot.mode is Mode.KEYED
    assert spot.number == 1


def test_a_room_that_is_full_leaves_a_text_unplaced_rather_than_covered() -> None:
    (spot,) = place([Want(10, 3.4, (100, 100))], ROOM, [ROOM])

    assert spot.mode is Mode.UNPLACED
    assert spot.box.width == 0


def test_a_text_with_priority_takes_the_better_place() -> None:
    plain, first = Want(20, 3.4, (100, 100)), Want(20, 3.4, (100, 100), priority=1)

    places = place([plain, first], ROOM)

    assert places[1].box.left == pytest.approx(101.5)
    assert places[0].box.left != places[1].box.left


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), max_size=15))
def test_dimensions_on_one_track_never_share_more_than_an_end(
    spans: list[tuple[float, float]],
) -> None:
    tracks = stack(spans)

    for i, (track, span) in enumerate(zip(tracks, spans, strict=True)):
        for other_track, other in list(zip(tracks, spans, strict=True))[i + 1 :]:
            shared = min(max(span), max(other)) - max(min(span), min(other))
            if shared > 1e-3:
                assert track != other_track
                longer_is_outside = (max(span) - min(span) >= max(other) - min(other)) == (
                    track > other_track
                )
                same_length = max(span) - min(span) == max(other) - min(other)
                assert longer_is_outside or same_length


@given(segments, boxes())
def test_what_the_rows_call_free_is_free(
    stroke: tuple[tuple[float, float], tuple[float, float]], box: Box
) -> None:
    paper = TakenPaper(ROOM)
    paper.draw([stroke])

    if paper.free(box):
        assert not crossed(*stroke, box)


@given(boxes(), segments)
def test_a_stroke_through_a_taken_box_is_noticed(
    box: Box, stroke: tuple[tuple[float, float], tuple[float, float]]
) -> None:
    paper = TakenPaper(ROOM)
    paper.take(box)

    assert paper.meets([stroke]) == (paper.crossed([stroke]) > 0)
    if crossed(*stroke, box) and ROOM.holds(Box.around(stroke)):
        assert paper.meets([stroke])


@given(boxes(), boxes())
def test_a_taken_box_is_not_free(first: Box, second: Box) -> None:
    paper = TakenPaper(ROOM)
    paper.take(first)

    if first.touches(second) and ROOM.holds(first) and ROOM.holds(second):
        assert not paper.free(second)


def test_a_text_keeps_a_millimetre_from_another_where_that_can_be_had() -> None:
    room, beside = Box(0, 0, 80, 40), Box(41.5, 18, 60, 22)
    want = Want(10.0, 4.0, (30.0, 20.0), clear_mm=1.0)

    (found,) = place([want], room, [beside])

    assert found.mode is Mode.BESIDE
    assert not found.box.grown(0.98).touches(beside)


def test_no_bubble_covers_the_point_that_another_text_speaks_of() -> None:
    tips = [(20.0 + 2.0 * index, 20.0) for index in range(6)]
    wants = [Want(30.0, 4.0, tip) for tip in tips]
    strokes = [((0.0, y), (60.0, y)) for y in (4.0, 8.0, 12.0, 16.0, 24.0, 28.0, 32.0, 36.0)]

    found = place(wants, Box(0, 0, 60, 40), (), strokes)

    assert all(spot.mode is not Mode.UNPLACED for spot in found)
    assert not any(spot.box.touches(Box(*tip, *tip).grown(0.01)) for spot in found for tip in tips)


def test_a_leader_goes_round_a_pipe_where_it_can_and_over_it_where_it_must() -> None:
    room = Box(0.0, 0.0, 100.0, 60.0)
    pipe = ((0.0, 32.0), (100.0, 32.0))
    barrier = [((0.0, y), (100.0, y)) for y in (27.0, 28.0)]
    strokes = [pipe, *barrier]
    want = Want(20.0, 3.4, (50.0, 30.0))

    (free,) = place([want], room, (), strokes)
    (kept,) = place([want], room, (), strokes, [pipe])
    (forced,) = place([want], room._replace(bottom=25.0), (), strokes, [pipe])

    assert free.mode is kept.mode is forced.mode is Mode.LED
    assert free.box.bottom > 32.0
    assert kept.box.top < 27.0
    assert forced.box.bottom > 32.0


def test_a_bubble_stands_in_place_of_a_text_that_would_be_led_over_a_pipe() -> None:
    room = Box(0.0, 22.0, 100.0, 100.0)
    pipe = ((0.0, 40.0), (100.0, 40.0))
    want = Want(20.0, 30.0, (50.0, 30.0))

    (free,) = place([want], room, (), [pipe])
    (kept,) = place([want], room, (), [pipe], [pipe])

    assert free.mode is Mode.LED
    assert kept.mode is Mode.KEYED
    assert kept.box.top < 40.0


def test_a_text_is_led_to_another_of_its_points_where_the_first_is_walled_in() -> None:
    wall = [((20.0, 0.0), (20.0, 60.0)), ((21.0, 0.0), (21.0, 60.0))]
    there = [Box(0.0, 0.0, 19.5, 60.0)]
    want = Want(30.0, 3.4, (18.0, 30.0), also=((60.0, 30.0),))

    (alone,) = place([replace(want, also=())], Box(0, 0, 100, 60), there, wall)
    (found,) = place([want], Box(0, 0, 100, 60), there, wall)

    assert alone.mode is not Mode.BESIDE
    assert found.mode is Mode.BESIDE
    assert found.box.left > 60.0
