"""Uniform and critical flow: properties, a second opinion, and bad numbers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from fluids.open_flow import V_Manning
from hypothesis import assume, given
from hypothesis import strategies as st

from permitkit.hydraulics import bounds
from permitkit.hydraulics.bounds import OutOfRange, root_between
from permitkit.hydraulics.critical import (
    GRAVITY_MS2,
    critical_depth,
    froude,
    regime,
    specific_energy,
    velocity_at,
)
from permitkit.hydraulics.losses import friction_slope
from permitkit.hydraulics.pipe import (
    flow_at,
    flow_each,
    full_flow,
    full_velocity,
    mean_velocity,
    normal_depth,
)
from permitkit.hydraulics.section import Box, Round, Section

if TYPE_CHECKING:
    from collections.abc import Callable

BORES = st.floats(0.03, 0.6)
SLOPES = st.floats(1e-4, 0.2)
ROUGHNESS = st.floats(0.008, 0.03)
SECTIONS = st.one_of(
    st.builds(Round, BORES), st.builds(Box, st.floats(0.03, 0.5), st.floats(0.02, 0.3))
)
SHARES = st.floats(0.01, 0.999)
PIPE, TUBE = Round(0.1), Box(0.117475, 0.041275)


@given(BORES, SLOPES, ROUGHNESS)
def test_full_flow_agrees_with_an_independent_library(bore: float, slope: float, n: float) -> None:
    speed = V_Manning(Rh=bore / 4.0, S=slope, n=n)

    assert full_velocity(Round(bore), slope, n) == pytest.approx(speed, rel=1e-12)
    assert full_flow(Round(bore), slope, n) == pytest.approx(speed * math.pi * bore**2 / 4)


@given(SECTIONS, SHARES, SLOPES, ROUGHNESS)
def test_part_full_flow_agrees_with_an_independent_library(
    section: Section, share: float, slope: float, n: float
) -> None:
    depth = share * section.height_m
    wetted = section.wetted(depth)

    speed = V_Manning(Rh=section.wetted(depth).hydraulic_radius_m, S=slope, n=n)

    assert flow_at(section, depth, slope, n) == pytest.approx(speed * wetted.area_m2)


@given(BORES, st.floats(1.001, 3.0), SLOPES, ROUGHNESS)
def test_a_wider_pipe_carries_more(bore: float, wider: float, slope: float, n: float) -> None:
    assert full_flow(Round(bore * wider), slope, n) > full_flow(Round(bore), slope, n)


@given(SECTIONS, SLOPES, st.floats(1.001, 3.0), ROUGHNESS)
def test_a_steeper_pipe_carries_more(
    section: Section, slope: float, steeper: float, n: float
) -> None:
    assert full_flow(section, slope * steeper, n) > full_flow(section, slope, n)


@given(SECTIONS, st.floats(0.001, 0.999), SLOPES, ROUGHNESS)
def test_normal_depth_is_the_depth_that_carries_the_flow(
    section: Section, share: float, slope: float, n: float
) -> None:
    flow = share * full_flow(section, slope, n)

    depth = normal_depth(section, flow, slope, n)

    assert depth is not None
    assert flow_at(section, depth, slope, n) == pytest.approx(flow, rel=1e-6)


@given(SECTIONS, SLOPES, st.floats(1.01, 3.0), ROUGHNESS, st.floats(0.01, 0.99))
def test_a_steeper_pipe_never_runs_deeper(
    section: Section, slope: float, steeper: float, n: float, share: float
) -> None:
    flow = share * full_flow(section, slope, n)

    flat, steep = (normal_depth(section, flow, s, n) for s in (slope, slope * steeper))

    assert flat is not None
    assert steep is not None
    assert steep < flat + 1e-9


@given(SECTIONS, st.floats(1e-6, 0.1))
def test_at_critical_depth_the_froude_number_is_one(section: Section, flow: float) -> None:
    depth = critical_depth(section, flow)
    assume(1e-3 * section.height_m < depth < 0.999 * section.height_m)

    assert froude(section, flow, depth) == pytest.approx(1.0, rel=1e-5)


@given(SECTIONS, st.floats(1e-6, 0.1), st.floats(0.5, 2.0))
def test_critical_depth_has_the_least_energy(section: Section, flow: float, other: float) -> None:
    depth = critical_depth(section, flow)
    assume(1e-3 * section.height_m < depth)
    elsewhere = depth * other
    assume(elsewhere < section.height_m)

    least = specific_energy(section, flow, depth)

    assert specific_energy(section, flow, elsewhere) >= least * (1.0 - 1e-9)


def test_critical_energy_in_a_box_is_one_and_a_half_depths() -> None:
    depth = critical_depth(Box(1.0, 1.0), 1.0)

    assert specific_energy(Box(1.0, 1.0), 1.0, depth) == pytest.approx(1.5 * depth)


def test_a_box_too_low_for_its_critical_depth_gives_its_height() -> None:
    assert critical_depth(TUBE, 0.05) == TUBE.height_m


@given(SECTIONS, st.floats(0.01, 1.0), SLOPES, ROUGHNESS)
def test_friction_slope_undoes_the_flow(
    section: Section, share: float, slope: float, n: float
) -> None:
    depth = share * section.height_m
    flow = flow_at(section, depth, slope, n)

    assert friction_slope(section, flow, n, depth) == pytest.approx(slope)


@given(SECTIONS, SLOPES, ROUGHNESS)
def test_the_friction_slope_of_the_full_flow_is_the_slope(
    section: Section, slope: float, n: float
) -> None:
    flow = full_flow(section, slope, n)

    assert friction_slope(section, flow, n) == pytest.approx(slope)


@given(st.floats(0.05, 0.95), SLOPES)
def test_feet_and_metres_agree(share: float, slope: float) -> None:
    foot = 0.3048
    feet = 1.4859 * (math.pi * 0.25) * 0.25 ** (2 / 3) * math.sqrt(slope) / 0.011

    metres = full_flow(Round(foot), slope, 0.011)

    assert metres / foot**3 == pytest.approx(feet, rel=1e-4)
    depth = normal_depth(Round(foot), share * metres, slope, 0.011)
    small = normal_depth(PIPE, share * full_flow(PIPE, slope, 0.011), slope, 0.011)
    assert depth is not None
    assert small is not None
    assert depth / foot == pytest.approx(small / PIPE.bore_m, rel=1e-6)


def test_a_box_loses_capacity_when_its_roof_wets() -> None:
    brim, full = flow_at(TUBE, TUBE.brim_m, 0.01, 0.013), full_flow(TUBE, 0.01, 0.013)

    assert brim > 1.3 * full
    assert TUBE.wetted(TUBE.height_m).perimeter_m < TUBE.full.perimeter_m
    assert TUBE.wetted(TUBE.height_m * 1.01) == TUBE.full


def test_a_round_pipe_carries_most_below_its_crown() -> None:
    brim = PIPE.brim_m
    carried = [flow_at(PIPE, depth, 0.01, 0.011) for depth in (brim - 1e-3, brim, brim + 1e-3)]

    assert max(carried) == carried[1]


def test_more_than_the_full_pipe_carries_is_told_as_none() -> None:
    full = full_flow(PIPE, 0.01, 0.011)

    assert normal_depth(PIPE, 1.01 * full, 0.01, 0.011) is None
    past = normal_depth(PIPE, 1.07 * full, 0.01, 0.011, past_full=True)
    assert past is not None
    assert flow_at(PIPE, past, 0.01, 0.011) == pytest.approx(1.07 * full)
    assert normal_depth(PIPE, 1.08 * full, 0.01, 0.011, past_full=True) is None


def test_of_two_depths_the_lower_is_given() -> None:
    depth = normal_depth(PIPE, full_flow(PIPE, 0.01, 0.011), 0.01, 0.011)

    assert depth == pytest.approx(0.8196 * PIPE.bore_m, rel=1e-3)


def test_no_flow_has_no_depth_and_no_speed() -> None:
    assert normal_depth(PIPE, 0.0, 0.01, 0.011) == 0.0
    assert critical_depth(PIPE, 0.0) == 0.0
    assert velocity_at(PIPE, 0.0, 0.0) == 0.0
    assert froude(PIPE, 0.0, 0.0) == 0.0
    assert regime(PIPE, 0.0, 0.0) == "dry"
    assert TUBE.wetted(0.0).conveyance == 0.0
    assert PIPE.wetted(0.0).hydraulic_radius_m == 0.0
    assert flow_at(PIPE, 0.0, 0.01, 0.011) == 0.0


def test_a_trace_of_flow_has_no_depth_worth_telling() -> None:
    assert normal_depth(PIPE, 1e-300, 0.01, 0.011) == 0.0
    assert critical_depth(PIPE, 1e-300) == pytest.approx(0.0, abs=1e-10)


def test_the_regime_goes_by_the_froude_number() -> None:
    flow = 0.002
    critical = critical_depth(PIPE, flow)

    assert regime(PIPE, flow, critical) == "near critical"
    assert regime(PIPE, flow, 0.8 * critical) == "supercritical"
    assert regime(PIPE, flow, 1.3 * critical) == "subcritical"
    assert regime(PIPE, flow, PIPE.bore_m) == "full"


def test_twin_pipes_share_the_flow() -> None:
    assert full_flow(PIPE, 0.01, 0.011, barrels=2) == 2.0 * full_flow(PIPE, 0.01, 0.011)
    assert flow_each(0.006, 3) == 0.002


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: Round(0.0), "bore must be more than zero, not 0.0"),
    (lambda: Box(0.1, -0.1), "height must be more than zero, not -0.1"),
    (lambda: Box(math.nan, 0.1), "width must be a finite number, not nan"),
    (lambda: PIPE.wetted(-0.01), "depth must not be below zero, not -0.01"),
    (lambda: PIPE.wetted(math.nan), "depth must be a finite number, not nan"),
    (lambda: TUBE.wetted(-0.01), "depth must not be below zero, not -0.01"),
    (lambda: PIPE.area_integral_m3(-1.0), "depth must not be below zero, not -1.0"),
    (lambda: TUBE.area_integral_m3(-1.0), "depth must not be below zero, not -1.0"),
    (lambda: mean_velocity(0.1, 0.0, 0.011), "slope must be more than zero, not 0.0"),
    (lambda: mean_velocity(0.1, 0.01, 0.0), "n must be more than zero, not 0.0"),
    (lambda: mean_velocity(-0.1, 0.01, 0.011), "hydraulic radius must not be below zero, not -0.1"),
    (lambda: full_flow(PIPE, -0.01, 0.011), "slope must be more than zero, not -0.01"),
    (lambda: full_flow(PIPE, 0.01, 0.011, 0), "barrels must be one or more, not 0"),
    (lambda: flow_each(0.1, 0), "barrels must be one or more, not 0"),
    (lambda: normal_depth(PIPE, -1.0, 0.01, 0.011), "flow must not be below zero, not -1.0"),
    (lambda: normal_depth(PIPE, 0.0, 0.0, 0.011), "slope must be more than zero, not 0.0"),
    (lambda: normal_depth(PIPE, math.inf, 0.1, 0.011), "flow must be a finite number, not inf"),
    (lambda: normal_depth(PIPE, 1e200, 0.1, 0.011), "flow must be a finite number, not 1e+200"),
    (lambda: critical_depth(PIPE, math.nan), "flow must be a finite number, not nan"),
    (lambda: velocity_at(PIPE, 1.0, 0.0), "wetted area must be more than zero, not 0.0"),
    (lambda: froude(PIPE, 1.0, 0.1), "no free surface at a depth of 0.1"),
    (lambda: friction_slope(PIPE, 1.0, 0.011, 0.0), "depth must be more than zero, not 0.0"),
    (lambda: root_between(lambda x: x * x + 1.0, 0.0, 1.0), "no root between 0.0 and 1.0"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_a_number_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        call()

    assert str(caught.value) == message


def test_a_root_at_the_end_of_its_bracket_is_found() -> None:
    assert root_between(lambda x: x, 0.0, 1.0) == pytest.approx(0.0, abs=1e-10)
    assert root_between(lambda x: x - 1.0, 0.0, 1.0) == pytest.approx(1.0)


def test_a_function_flat_over_most_of_its_bracket_still_ends() -> None:
    root = root_between(lambda x: math.copysign(1.0, x - 0.3), 0.0, 1.0)

    assert root == pytest.approx(0.3, abs=1e-9)


@given(st.floats(1e-3, 10.0))
def test_a_root_search_ends_near_the_root(root: float) -> None:
    assert root_between(lambda x: x**3 - root**3, 0.0, 20.0) == pytest.approx(root, rel=1e-7)


def test_a_search_that_runs_out_of_steps_gives_its_best(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bounds, "MOST_STEPS", 2)

    root = root_between(lambda x: x**9 - 0.5, 0.0, 1.0)

    assert 0.0 < root < 1.0
    assert abs(root**9 - 0.5) > 1e-6


def test_gravity_is_the_standard_one() -> None:
    assert GRAVITY_MS2 == 9.80665
