"""Openings: second opinions, inverses, and the time a hole takes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.critical import GRAVITY_MS2
from permitkit.hydraulics.opening import (
    emptying_time,
    notch_critical_depth,
    notch_flow,
    orifice_flow,
    riser_flow,
    riser_head,
)

if TYPE_CHECKING:
    from collections.abc import Callable

HEADS = st.floats(1e-4, 1.0)


@given(HEADS, st.floats(0.03, 0.3))
def test_riser_head_undoes_riser_flow(head: float, bore: float) -> None:
    assert riser_head(bore, riser_flow(bore, head)) == pytest.approx(head)


def test_a_riser_turns_from_weir_to_orifice_at_the_known_head() -> None:
    below, above = 0.38, 0.40

    assert riser_flow(1.0, below) / below**1.5 == pytest.approx(riser_flow(1.0, 0.1) / 0.1**1.5)
    assert riser_flow(1.0, above) / above**0.5 == pytest.approx(riser_flow(1.0, 0.9) / 0.9**0.5)


@given(st.floats(0.02, 0.3), st.floats(0.0, 1.0), st.floats(1e-3, 0.3))
def test_critical_depth_and_half_its_mean_depth_make_the_head_of_a_notch(
    floor: float, taper: float, head: float
) -> None:
    depth = notch_critical_depth(floor, taper, notch_flow(floor, taper, head))

    area, width = (floor + taper * depth) * depth, floor + 2.0 * taper * depth
    assert depth + area / (2.0 * width) == pytest.approx(head)


@given(st.floats(0.02, 0.3), st.floats(1e-3, 0.3))
def test_an_upright_notch_is_a_broad_weir(floor: float, head: float) -> None:
    by_length = 2.0 / 3.0 * math.sqrt(2.0 / 3.0 * GRAVITY_MS2) * head**1.5

    assert notch_flow(floor, 0.0, head) == pytest.approx(floor * by_length)


@given(st.floats(0.02, 0.3), st.floats(0.0, 1.0), st.floats(1e-3, 0.3), st.floats(1.01, 2.0))
def test_a_wider_notch_passes_more(floor: float, taper: float, head: float, wider: float) -> None:
    assert notch_flow(floor * wider, taper, head) > notch_flow(floor, taper, head)


def test_a_notch_may_need_more_than_a_metre() -> None:
    assert notch_critical_depth(0.1, 0.0, 5.0) == pytest.approx((50.0**2 / 9.80665) ** (1 / 3))


def test_nothing_flows_without_head() -> None:
    assert orifice_flow(0.01, 0.0) == 0.0
    assert notch_flow(0.1, 0.2, 0.0) == 0.0
    assert notch_critical_depth(0.1, 0.2, 0.0) == 0.0
    assert riser_flow(0.1, 0.0) == 0.0
    assert riser_head(0.1, 0.0) == 0.0
    assert emptying_time(0.0, 0.0, 1e-4) == 0.0


def drained(volume: float, head: float, hole: float, steps: int = 20000) -> float:
    """Empty a vessel of even plan step by step, as a second opinion."""
    area, time = volume / head, 0.0
    for step in range(steps):
        middle = head * (1.0 - (step + 0.5) / steps)
        time += area * head / steps / orifice_flow(hole, middle)
    return time


def test_emptying_agrees_with_small_steps() -> None:
    assert emptying_time(0.05, 0.2, 1e-4) == pytest.approx(drained(0.05, 0.2, 1e-4), rel=5e-3)


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: orifice_flow(0.1, -0.1), "head must not be below zero, not -0.1"),
    (lambda: notch_flow(0.0, 0.0, 0.1), "a notch needs a floor or tapered sides"),
    (lambda: notch_critical_depth(0.1, -1.0, 0.1), "taper must not be below zero, not -1.0"),
    (lambda: emptying_time(1.0, 1.0, 0.0), "hole must be more than zero, not 0.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_an_opening_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        call()

    assert str(caught.value) == message
