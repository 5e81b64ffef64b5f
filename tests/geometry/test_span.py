"""Stretches of curb and walk, the joints in them, and places spaced along them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.shape import ImpossibleShape
from permitkit.geometry.span import Joints, Span, spaced_about

IN = 0.0254
PLACE = st.floats(-50.0, 50.0)


def test_a_hole_is_measured_from_its_edge() -> None:
    hole = Span.about(3.0, 2 * IN)

    assert hole.clear_of(Span(3.0 + 26 * IN, 5.0)) / IN == pytest.approx(24.0)
    assert hole.clear_of(Span(1.0, 3.0 - 26 * IN)) / IN == pytest.approx(24.0)
    assert hole.clear_of(Span(3.0, 3.0)) == 0.0


def test_two_holes_leave_curb_between_them() -> None:
    one, other = Span.about(3.0, 2 * IN), Span.about(3.5, 1.5 * IN)

    assert one.clear_of(other) == pytest.approx(0.5 - 3.5 * IN)
    assert one.clear_of(other) == other.clear_of(one)


def test_spans_that_only_meet_do_not_overlap() -> None:
    assert not Span(0.0, 1.0).overlaps(Span(1.0, 2.0))
    assert Span(0.0, 1.0).overlaps(Span(0.9, 2.0))
    assert Span(0.0, 2.0).holds(Span(0.0, 1.0))
    assert not Span(0.0, 2.0).holds(Span(0.5, 2.1))


@given(PLACE, st.floats(0.0, 9.0), PLACE, st.floats(0.0, 9.0))
def test_joined_spans_hold_both(one: float, long: float, other: float, wide: float) -> None:
    first, second = Span(one, one + long), Span(other, other + wide)

    both = first.joined(second)

    assert both.holds(first)
    assert both.holds(second)
    assert both.length_m <= first.length_m + second.length_m + first.clear_of(second) + 1e-9


def test_the_joints_beside_a_place_are_found() -> None:
    joints = Joints(6.0, 3.0)

    assert (joints.below(4.0), joints.above(4.0)) == (3.0, 6.0)
    assert (joints.below(3.0), joints.above(3.0)) == (3.0, 3.0)
    assert (joints.below(-0.5), joints.above(-0.5)) == (-3.0, 0.0)


@given(PLACE, st.floats(0.3, 5.0), PLACE)
def test_a_place_lies_between_the_joints_beside_it(one: float, apart: float, at: float) -> None:
    joints = Joints(one, apart)

    assert joints.below(at) <= at + 1e-5
    assert joints.above(at) >= at - 1e-5
    assert joints.above(at) - joints.below(at) <= apart + 1e-9


@given(PLACE, st.floats(0.3, 5.0), PLACE, st.floats(0.0, 40.0))
def test_joints_within_a_span_are_all_that_lie_in_it(
    one: float, apart: float, left: float, long: float
) -> None:
    found = Joints(one, apart).within(Span(left, left + long))

    assert abs(len(found) - long / apart) <= 1.0 + 1e-5
    assert all(left - 1e-4 <= at <= left + long + 1e-4 for at in found)


@given(PLACE, st.integers(1, 9), st.floats(0.0, 3.0))
def test_places_are_spaced_evenly_about_their_middle(
    middle: float, count: int, apart: float
) -> None:
    places = spaced_about(middle, count, apart)

    assert len(places) == count
    assert sum(places) / count == pytest.approx(middle, abs=1e-9)
    assert places[-1] - places[0] == pytest.approx((count - 1) * apart, abs=1e-9)


@pytest.mark.parametrize(
    ("one", "apart", "message"),
    [
        (0.0, 0.0, "distance between joints must be more than zero, not 0.0"),
        (math.inf, 1.0, "joint must be a finite number, not inf"),
    ],
)
def test_joints_that_cannot_be_are_named(one: float, apart: float, message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        Joints(one, apart)

    assert str(caught.value) == message


def test_a_spacing_below_zero_is_named() -> None:
    with pytest.raises(ImpossibleShape, match="spacing must not be below zero"):
        spaced_about(0.0, 2, -1.0)
