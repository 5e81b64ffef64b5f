"""Curb profiles: heights, faces, areas, and sizes that make none."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.curb import (
    CurbProfile,
    Pan,
    Rounds,
    curb_and_gutter,
    vertical_curb,
)
from permitkit.geometry.roll import half_round_curb, roll_slope_rad, rolled_curb
from permitkit.geometry.shape import ImpossibleShape, piece_points, polygon_area

if TYPE_CHECKING:
    from collections.abc import Callable

INCH = 0.0254
PAN = Pan(0.45, 0.04, 0.15)
ROUNDS = Rounds(toe_m=0.02, top_m=0.0127, back_m=0.006)
PROFILES = [
    vertical_curb(0.15, 0.15, 0.3, 1 / 12, Rounds(top_m=0.0127)),
    curb_and_gutter(0.15, 0.15, PAN, 1 / 12, ROUNDS),
    curb_and_gutter(0.15, 0.15, Pan(0.45, 0.04, 0.15, level_base=False), 0.0, ROUNDS),
    curb_and_gutter(0.1, 0.1, PAN, 1.0, ROUNDS),
    rolled_curb(0.1016, 0.3048, 0.2, 0.25, PAN, back_width_m=0.05),
    half_round_curb(0.1, 0.25, 0.2),
]
NAMES = ["vertical", "combined", "parallel base", "sloping", "rolled", "half-round"]


@pytest.mark.parametrize("profile", PROFILES, ids=NAMES)
def test_the_outline_is_closed_and_its_area_exact(profile: CurbProfile) -> None:
    points = profile.outline_points(0.0005)

    assert math.dist(points[0], points[-1]) < 1e-9
    assert polygon_area(points) == pytest.approx(profile.area_m2, rel=1e-4)


@pytest.mark.parametrize("profile", PROFILES, ids=NAMES)
def test_the_top_is_as_high_as_the_reveal(profile: CurbProfile) -> None:
    top = max(y for _, y in piece_points(profile.surface))

    assert top == pytest.approx(profile.reveal_m, abs=1e-5)


@pytest.mark.parametrize("profile", PROFILES, ids=NAMES)
def test_a_point_of_the_surface_is_found_from_its_offset(profile: CurbProfile) -> None:
    for x, y in piece_points(profile.surface, 0.01):
        assert profile.top_at(x) >= y - 1e-9


@pytest.mark.parametrize("profile", PROFILES, ids=NAMES)
def test_the_face_is_found_from_its_height(profile: CurbProfile) -> None:
    height = 0.6 * profile.reveal_m
    offset = profile.face_at(height)

    assert profile.top_at(offset) >= height - 1e-9
    assert offset >= 0.0
    assert all(y < height for x, y in piece_points(profile.surface) if 0.0 < x < offset - 1e-9)


def test_a_battered_face_leans_back() -> None:
    profile = vertical_curb(0.15, 0.15, 0.3, 1 / 12)

    assert profile.face_at(0.12) == pytest.approx(0.01)
    assert profile.face_at(-0.12) == pytest.approx(-0.01)
    assert profile.back_m == pytest.approx(0.15 + 0.15 / 12)


def test_a_pan_falls_to_the_flow_line() -> None:
    profile = curb_and_gutter(0.15, 0.15, PAN)

    assert profile.top_at(-0.45) == pytest.approx(0.018)
    assert profile.top_at(-0.2) == pytest.approx(0.008)
    assert profile.face_at(0.008) == pytest.approx(0.0, abs=1e-9)
    assert profile.lip_m == -0.45


def test_a_parallel_base_takes_less_concrete_than_a_level_one() -> None:
    level, parallel = (curb_and_gutter(0.15, 0.15, Pan(0.45, 0.04, 0.15, flat)) for flat in (1, 0))

    assert level.area_m2 - parallel.area_m2 == pytest.approx(0.45 * 0.018 / 2.0)


def test_a_round_takes_off_the_corner() -> None:
    sharp, soft = (vertical_curb(0.15, 0.15, 0.3, 0.0, Rounds(top_m=r)) for r in (0.0, 0.05))

    assert sharp.area_m2 - soft.area_m2 == pytest.approx((1.0 - math.pi / 4.0) * 0.05**2)
    assert soft.top_at(0.0) == pytest.approx(0.10)
    assert soft.top_at(0.05) == pytest.approx(0.15)


def test_a_roll_of_two_equal_arcs_is_half_up_at_half_its_run() -> None:
    profile = rolled_curb(4 * INCH, 12 * INCH, 10 * INCH, 10 * INCH, PAN)

    assert profile.top_at(6 * INCH) == pytest.approx(2 * INCH)
    assert profile.top_at(0.0) == pytest.approx(0.0, abs=1e-9)
    assert profile.top_at(12 * INCH) == pytest.approx(4 * INCH)


@given(st.floats(0.05, 0.15), st.floats(0.2, 0.6), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_roll_starts_and_ends_level_at_its_run(
    height: float, width: float, whole: float, part: float
) -> None:
    most = (width**2 + height**2) / (2.0 * height)
    toe, crown = 0.999 * whole * part * most, 0.999 * whole * (1.0 - part) * most

    profile = rolled_curb(height, width, toe, crown, PAN)

    assert profile.back_m == pytest.approx(width)
    assert profile.top_at(width) == pytest.approx(height)
    heights = [profile.top_at(width * i / 20) for i in range(21)]
    assert heights == sorted(heights)


def test_without_radii_a_roll_is_a_straight_slope() -> None:
    assert math.tan(roll_slope_rad(0.1, 0.3, 0.0)) == pytest.approx(1.0 / 3.0)


def test_a_half_round_curb_may_be_a_half_circle() -> None:
    profile = half_round_curb(0.1, 0.2, 0.1)

    assert profile.top_at(0.1) == pytest.approx(0.1)
    assert profile.face_at(0.1 * math.sin(math.radians(30))) == pytest.approx(
        0.1 * (1.0 - math.cos(math.radians(30)))
    )


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: vertical_curb(0.0, 0.15, 0.3), "reveal must be more than zero, not 0.0"),
    (lambda: vertical_curb(0.15, 0.15, 0.3, -0.1), "batter must not be below zero, not -0.1"),
    (
        lambda: vertical_curb(0.15, 0.15, 0.3, 0.0, Rounds(top_m=0.1, back_m=0.1)),
        "rounds overlap by 0.05 m between corners 1 and 2",
    ),
    (lambda: Pan(0.0, 0.04, 0.15), "pan width must be more than zero, not 0.0"),
    (lambda: Pan(0.4, -0.04, 0.15), "pan slope must not be below zero, not -0.04"),
    (lambda: curb_and_gutter(0.1, 0.0, PAN), "top width must be more than zero, not 0.0"),
    (
        lambda: rolled_curb(0.1, 0.3, 0.3, 0.3, PAN),
        "the two radii make 0.6 m; at most 0.5 m fit the roll",
    ),
    (lambda: rolled_curb(0.1, 0.3, -0.1, 0.3, PAN), "toe radius must not be below zero, not -0.1"),
    (lambda: half_round_curb(0.2, 0.2, 0.1), "an arc 0.2 m wide rises at most 0.1 m"),
    (lambda: PROFILES[0].top_at(1.0), "no curb at 1 m behind the face"),
    (lambda: PROFILES[0].face_at(0.2), "the face does not reach 0.2 m"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_a_curb_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        call()

    assert str(caught.value) == message
