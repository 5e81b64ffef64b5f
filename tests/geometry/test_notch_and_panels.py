"""The notch in a rolled curb, and the cut through a walk."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.notch import Notch, breaks_face
from permitkit.geometry.panels import (
    bags_for,
    cut_across,
    cut_between,
    to_joint_where_short,
    whole_panels,
)
from permitkit.geometry.shape import ImpossibleShape

if TYPE_CHECKING:
    from collections.abc import Callable

IN, FT = 0.0254, 0.3048


def notch() -> Notch:
    return Notch(5 * IN, 0.5 * IN, 0.02, 12 * IN, 4 * IN)


def test_a_notch_is_as_deep_as_worked_by_hand() -> None:
    assert notch().floor_at(6 * IN) / IN == pytest.approx(0.62)
    assert notch().back_floor_m / IN == pytest.approx(0.74)
    assert notch().back_depth_m / IN == pytest.approx(3.26)


def test_no_four_inch_core_fits_a_four_inch_roll() -> None:
    assert breaks_face(4 * IN, 0.0, 4 * IN)
    assert not breaks_face(4 * IN, 0.5 * IN, 3 * IN)
    assert not breaks_face(6 * IN, 0.0, 4 * IN)


def test_one_panel_is_cut_whole_as_worked_by_hand() -> None:
    cut = cut_across(5 * FT, 2.5 * FT, 5 * FT, 5 * FT)

    assert len(cut.panels) == 1
    assert cut.takes_whole_panels
    assert cut.area_m2 / FT**2 == pytest.approx(25.0)
    assert cut.saw_m == 0.0
    assert cut.joint_m == pytest.approx(10 * FT)


def test_a_thirty_inch_cut_over_a_joint_touches_two_panels_as_worked_by_hand() -> None:
    cut = cut_across(5 * FT, 5 * FT, 30 * IN, 5 * FT)

    assert len(cut.panels) == 2
    assert cut.area_m2 / FT**2 == pytest.approx(12.5)
    assert cut.panel_area_m2 / FT**2 == pytest.approx(50.0)
    assert cut.pieces_m == pytest.approx((45 * IN, 45 * IN))
    assert cut.saw_m == pytest.approx(10 * FT)
    assert whole_panels(cut).area_m2 / FT**2 == pytest.approx(50.0)


def test_a_short_piece_is_taken_out_to_the_joint() -> None:
    cut = cut_across(5 * FT, 1.5 * FT, 1.0 * FT, 5 * FT)

    kept, taken = to_joint_where_short(cut, 1.0 * FT), to_joint_where_short(cut, 1.1 * FT)

    assert kept == cut
    assert taken.start_m == 0.0
    assert taken.end_m == cut.end_m
    assert taken.panels == cut.panels


def test_an_edge_on_a_joint_leaves_no_piece_and_needs_no_saw() -> None:
    cut = cut_across(1.5, 0.3, 0.6, 1.5)

    assert cut.left_piece_m == 0.0
    assert cut.right_piece_m == pytest.approx(0.9)
    assert cut.saw_m == 1.5
    assert cut.joint_m == 1.5
    assert to_joint_where_short(cut, 2.0).takes_whole_panels


def test_a_joint_to_run_may_be_more_than_a_panel() -> None:
    assert cut_across(1.5, 7.0, 0.5, 1.5).panels == cut_between([6.0, 7.5], 6.75, 7.25, 1.5).panels


@given(st.floats(0.5, 3.0), st.floats(0.0, 3.0), st.floats(0.1, 5.0))
def test_pieces_and_cut_make_whole_panels(spacing: float, joint: float, length: float) -> None:
    cut = cut_across(spacing, joint, length, 1.2)

    whole = whole_panels(cut)

    assert cut.length_m + sum(cut.pieces_m) == pytest.approx(whole.length_m, abs=3e-6)
    assert whole.area_m2 == pytest.approx(cut.panel_area_m2)
    assert whole.takes_whole_panels
    assert all(panel.length_m == pytest.approx(spacing) for panel in cut.panels)


@given(st.floats(0.1, 3.0), st.floats(0.1, 3.0))
def test_a_longer_cut_never_takes_less(length: float, more: float) -> None:
    short, long = (cut_across(1.5, 0.4, size, 1.5) for size in (length, length + more))

    assert long.area_m2 > short.area_m2
    assert len(long.panels) >= len(short.panels)


def test_uneven_joints_are_taken_as_measured() -> None:
    cut = cut_between([0.0, 1.2, 3.0], 1.0, 2.0, 1.5)

    assert [panel.length_m for panel in cut.panels] == pytest.approx([1.2, 1.8])
    assert cut.right_piece_m == pytest.approx(1.0)


def test_bags_are_rounded_up_but_not_for_float_noise() -> None:
    assert bags_for(0.3, 0.1) == 3
    assert bags_for(0.31, 0.1) == 4
    assert bags_for(0.0, 0.1) == 0


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: Notch(0.1, 0.1, 0.02, -0.3, 0.1), "roll width must not be below zero, not -0.3"),
    (lambda: Notch(0.0, 0.0, 0.02, 0.3, 0.1), "notch width must be more than zero, not 0.0"),
    (lambda: cut_between([0.0, 1.0], 0.5, 0.5, 1.5), "a cut must have a length"),
    (lambda: cut_between([0.0, 1.0, 1.0], 0.1, 0.5, 1.5), "joints must rise along the walk"),
    (
        lambda: cut_between([0.0, 1.0], 0.1, 1.5, 1.5),
        "the joints must reach past the cut on both sides",
    ),
    (
        lambda: cut_between([0.0], 0.1, 1.5, 1.5),
        "the joints must reach past the cut on both sides",
    ),
    (
        lambda: cut_between([0.2, 1.0], 0.1, 0.5, 1.5),
        "the joints must reach past the cut on both sides",
    ),
    (lambda: cut_across(0.0, 0.1, 0.5, 1.5), "joint spacing must be more than zero, not 0.0"),
    (
        lambda: cut_across(1.5, math.inf, 0.5, 1.5),
        "joint to run must be a finite number, not inf",
    ),
    (lambda: bags_for(1.0, 0.0), "bag yield must be more than zero, not 0.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=range(len(BAD)))
def test_a_cut_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        call()

    assert str(caught.value) == message
