"""The notch in a rolled curb, and the cut through a walk."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.notch import Notch, breaks_face
from permitkit.geometry.panels import WalkCut, bags_for, to_joint_where_short
from permitkit.geometry.shape import ImpossibleShape
from permitkit.geometry.span import Joints, Span

if TYPE_CHECKING:
    from collections.abc import Callable

IN, FT = 0.0254, 0.3048
NO_CUT = Span(0.0, 0.0)


def notch() -> Notch:
    return Notch(5 * IN, 0.5 * IN, 0.02, 12 * IN, 4 * IN)


def cut_at(middle: float, length: float, *, whole: bool = False) -> WalkCut:
    """Return a cut of a length right across a walk of panels of 5 ft, joints from zero on."""
    joints, cut = Joints(0.0, 5 * FT), Span.about(middle, length / 2.0)
    return WalkCut(joints, cut, joints.around(cut) if whole else cut, 5 * FT, 5 * FT)


def test_a_notch_is_as_deep_as_worked_by_hand() -> None:
    assert notch().floor_at(6 * IN) / IN == pytest.approx(0.62)
    assert notch().back_floor_m / IN == pytest.approx(0.74)
    assert notch().back_depth_m / IN == pytest.approx(3.26)


def test_no_four_inch_core_fits_a_four_inch_roll() -> None:
    assert breaks_face(4 * IN, 0.0, 4 * IN)
    assert not breaks_face(4 * IN, 0.5 * IN, 3 * IN)
    assert not breaks_face(6 * IN, 0.0, 4 * IN)


def test_one_panel_is_cut_whole_as_worked_by_hand() -> None:
    cut = cut_at(2.5 * FT, 5 * FT)

    assert [panel.touched for panel in cut.panels] == [False, True, False]
    assert [panel.removed for panel in cut.panels] == [False, True, False]
    assert cut.area_m2 / FT**2 == pytest.approx(25.0)
    assert cut.pieces_m == pytest.approx((0.0, 0.0))
    assert cut.saw_m == pytest.approx(10 * FT)


def test_a_thirty_inch_cut_over_a_joint_touches_two_panels_as_worked_by_hand() -> None:
    cut, whole = cut_at(5 * FT, 30 * IN), cut_at(5 * FT, 30 * IN, whole=True)

    assert [panel.touched for panel in cut.panels] == [False, True, True, False]
    assert not any(panel.removed for panel in cut.panels)
    assert cut.area_m2 / FT**2 == pytest.approx(12.5)
    assert cut.pieces_m == pytest.approx((45 * IN, 45 * IN))
    assert cut.saw_m == pytest.approx(10 * FT)
    assert whole.area_m2 / FT**2 == pytest.approx(50.0)
    assert sum(panel.removed for panel in whole.panels) == 2


def test_a_short_piece_is_taken_out_to_the_joint() -> None:
    joints, cut = Joints(0.0, 5 * FT), Span.about(1.5 * FT, 0.5 * FT)

    kept, taken = (to_joint_where_short(joints, cut, least * FT) for least in (1.0, 1.1))

    assert kept == cut
    assert taken == Span(0.0, cut.right_m)


def test_pieces_too_short_on_both_sides_take_the_panel() -> None:
    joints = Joints(-0.3, 1.5)

    assert to_joint_where_short(joints, Span(0.0, 0.6), 2.0) == joints.around(Span(0.0, 0.6))


def test_an_edge_on_a_joint_leaves_no_piece() -> None:
    cut = WalkCut(Joints(0.0, 1.5), Span(0.0, 0.6), Span(0.0, 0.6), 1.5, 1.5)

    assert cut.pieces_m == pytest.approx((0.0, 0.9))
    assert cut.saw_m == 3.0


def test_a_cut_across_a_part_of_the_walk_is_sawn_along_as_well() -> None:
    cut = WalkCut(Joints(0.0, 1.5), Span(0.2, 0.8), Span(0.2, 0.8), 1.5, 1.0)

    assert cut.saw_m == pytest.approx(2.6)
    assert cut.area_m2 == pytest.approx(0.6)
    assert cut.volume_m3(0.1) == pytest.approx(0.06)


def test_where_nothing_is_cut_nothing_is_taken_out() -> None:
    cut = WalkCut(Joints(-0.5, 1.5), NO_CUT, NO_CUT, 1.5, 1.5)

    assert (cut.area_m2, cut.saw_m, cut.pieces_m) == (0.0, 0.0, (0.0, 0.0))
    assert not any(panel.touched or panel.removed for panel in cut.panels)


@given(st.floats(-5.0, 5.0), st.floats(0.1, 5.0))
def test_pieces_and_cut_make_whole_panels(middle: float, length: float) -> None:
    part, whole = cut_at(middle, length), cut_at(middle, length, whole=True)

    assert part.cut.length_m + sum(part.pieces_m) == pytest.approx(whole.removed.length_m, abs=1e-5)
    assert whole.pieces_m == pytest.approx((0.0, 0.0), abs=1e-5)
    assert whole.panels[1:-1] == tuple(panel for panel in whole.panels if panel.removed)
    assert all(p.right_m - p.left_m == pytest.approx(5 * FT) for p in whole.panels)


@given(st.floats(0.1, 3.0), st.floats(0.1, 3.0))
def test_a_longer_cut_never_takes_less(length: float, more: float) -> None:
    short, long = (cut_at(0.4, size) for size in (length, length + more))

    assert long.area_m2 > short.area_m2
    assert sum(p.touched for p in long.panels) >= sum(p.touched for p in short.panels)


def test_bags_are_rounded_up_but_not_for_float_noise() -> None:
    bag = 0.6 * FT**3

    assert bags_for(3 * bag, 80) == 3
    assert bags_for(3.1 * bag, 80) == 4
    assert bags_for(0.0, 80) == 0


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: Notch(0.1, 0.1, 0.02, -0.3, 0.1), "roll width must not be below zero, not -0.3"),
    (lambda: Notch(0.0, 0.0, 0.02, 0.3, 0.1), "notch width must be more than zero, not 0.0"),
    (lambda: cut_at(0.0, 1.0).volume_m3(-0.1), "thickness must not be below zero, not -0.1"),
    (
        lambda: to_joint_where_short(Joints(0.0, 1.5), NO_CUT, -1.0),
        "least piece must not be below zero, not -1.0",
    ),
    (lambda: bags_for(1.0, 0.0), "bag must be more than zero, not 0.0"),
    (lambda: bags_for(-1.0, 80.0), "volume must not be below zero, not -1.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=range(len(BAD)))
def test_a_cut_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(ImpossibleShape) as caught:
        call()

    assert str(caught.value) == message
