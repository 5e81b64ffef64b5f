"""The gutter: the pan, inverses, and bad numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.gutter import (
    Gutter,
    flow_from_spread,
    gutter_flow,
    pan_share,
    spread_from_flow,
)

if TYPE_CHECKING:
    from collections.abc import Callable

PLAIN = Gutter(0.02, 0.016)
PAN = Gutter(0.02, 0.016, 0.6, 0.08)
GUTTERS = st.sampled_from([PLAIN, PAN, Gutter(0.03, 0.013, 0.3, 0.03)])
SPREADS = st.floats(0.01, 6.0)
GRADES = st.floats(0.001, 0.1)


def book_share(gutter: Gutter, spread: float) -> float:
    """The pan's share as the manual writes it."""
    steep = gutter.pan_slope / gutter.cross_slope
    inner = (1.0 + steep / (spread / gutter.pan_width_m - 1.0)) ** (8.0 / 3.0) - 1.0
    return 1.0 / (1.0 + steep / inner)


@given(st.floats(0.61, 6.0))
def test_the_pan_share_is_the_manuals_ratio(spread: float) -> None:
    assert pan_share(PAN, spread) == pytest.approx(book_share(PAN, spread))


@given(GUTTERS, SPREADS, GRADES)
def test_spread_from_flow_undoes_flow_from_spread(
    gutter: Gutter, spread: float, grade: float
) -> None:
    flow = flow_from_spread(gutter, spread, grade)

    assert spread_from_flow(gutter, flow, grade) == pytest.approx(spread, rel=1e-6)


@given(GUTTERS, SPREADS, GRADES, st.floats(1.01, 2.0))
def test_more_flow_spreads_wider_and_deeper(
    gutter: Gutter, spread: float, grade: float, more: float
) -> None:
    flow = flow_from_spread(gutter, spread, grade)

    less, greater = gutter_flow(gutter, flow, grade), gutter_flow(gutter, flow * more, grade)

    assert greater.spread_m > less.spread_m
    assert greater.depth_m > less.depth_m


@given(GUTTERS, SPREADS, GRADES)
def test_flow_is_area_times_velocity(gutter: Gutter, spread: float, grade: float) -> None:
    water = gutter_flow(gutter, flow_from_spread(gutter, spread, grade), grade)

    assert water.area_m2 * water.velocity_ms == pytest.approx(water.flow_m3s)
    assert 0.0 <= water.pan_share <= 1.0


def test_a_pan_as_flat_as_the_pavement_changes_nothing() -> None:
    flat = Gutter(0.02, 0.016, 0.6, 0.02)

    assert flow_from_spread(flat, 2.5, 0.01) == pytest.approx(flow_from_spread(PLAIN, 2.5, 0.01))


def test_water_within_the_pan_runs_on_the_pans_slope() -> None:
    steep = Gutter(0.08, 0.016)

    assert flow_from_spread(PAN, 0.4, 0.01) == pytest.approx(flow_from_spread(steep, 0.4, 0.01))
    assert pan_share(PAN, 0.4) == 1.0
    assert pan_share(PLAIN, 0.4) == 0.0


def test_the_flow_is_whole_at_the_pans_edge() -> None:
    before, after = (flow_from_spread(PAN, 0.6 + d, 0.01) for d in (-1e-9, 1e-9))

    assert before == pytest.approx(after, rel=1e-6)


def test_a_dry_gutter_is_dry() -> None:
    water = gutter_flow(PAN, 0.0, 0.01)

    assert (water.spread_m, water.depth_m, water.velocity_ms) == (0.0, 0.0, 0.0)


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: Gutter(0.0, 0.016), "cross slope must be more than zero, not 0.0"),
    (lambda: Gutter(0.02, 0.0), "n must be more than zero, not 0.0"),
    (lambda: Gutter(0.02, 0.016, 0.6, 0.01), "the pan's slope 0.01 is flatter than the pavement's"),
    (lambda: flow_from_spread(PLAIN, 1.0, 0.0), "grade must be more than zero, not 0.0"),
    (lambda: flow_from_spread(PLAIN, -1.0, 0.01), "spread must not be below zero, not -1.0"),
    (lambda: spread_from_flow(PLAIN, 1e6, 0.01), "no street carries 1000000.0 m3/s within 200 m"),
    (lambda: pan_share(PAN, 0.0), "spread must be more than zero, not 0.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_a_gutter_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        call()

    assert str(caught.value) == message
