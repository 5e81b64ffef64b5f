"""The grade line of a run: what it must always do, and a second opinion."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from grade_lines import PIPE, SECTIONS, TUBE, numbers, one_reach
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from standard_step import backwater, step_up

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.critical import critical_depth, specific_energy
from permitkit.hydraulics.gradual import direct_step
from permitkit.hydraulics.losses import friction_slope
from permitkit.hydraulics.pipe import full_flow, normal_depth
from permitkit.hydraulics.profile import grade_line
from permitkit.hydraulics.section import Round, Section
from permitkit.hydraulics.tree import Node, Reach, Tree

if TYPE_CHECKING:
    from random import Random


@settings(max_examples=80)
@given(
    SECTIONS,
    st.floats(-0.01, 0.04),
    st.floats(0.5, 30.0),
    st.sampled_from([0.010, 0.011, 0.013, 0.024]),
    st.floats(0.05, 1.4),
    st.floats(0.0, 2.5),
)
def test_the_line_is_never_lower_than_gradually_varied_flow(
    section: Section, slope: float, length: float, n: float, share: float, drowned: float
) -> None:
    flow = share * full_flow(section, max(abs(slope), 0.002), n)
    tree = one_reach(flow, slope, length, section, n)

    line = grade_line(tree, drowned * section.height_m).reach("line")

    lower = max(line.lower_grade_m, line.critical_depth_m)
    upper = backwater(section, flow, n, slope, length, lower, steps=120)[-1]
    own = line.upper_grade_m - slope * length
    assert own > upper - 0.01 * section.height_m
    if slope <= 0.0:
        assert own == pytest.approx(upper, abs=0.02 * section.height_m, rel=0.02)


@given(SECTIONS, st.floats(0.002, 0.03), st.floats(1.05, 3.0), st.floats(0.05, 1.2))
def test_a_steeper_line_never_stands_higher_over_its_invert(
    section: Section, slope: float, steeper: float, share: float
) -> None:
    flow = share * full_flow(section, slope, 0.011)

    flat, steep = (
        grade_line(one_reach(flow, s, section=section), 0.0).reach("line").upper_grade_m - s * 20.0
        for s in (slope, slope * steeper)
    )

    assert steep <= flat + 1e-3 * section.height_m


@given(st.floats(0.0005, 0.006), st.floats(1.02, 2.0))
def test_a_wider_line_never_stands_higher(flow: float, wider: float) -> None:
    narrow, wide = (
        grade_line(one_reach(flow, 0.008, section=Round(bore)), 0.5).node("house").level_m
        for bore in (0.09, 0.09 * wider)
    )

    assert wide <= narrow + 1e-9


@given(st.floats(0.0005, 0.008), st.floats(1.05, 3.0), st.floats(-0.01, 0.03))
def test_more_flow_never_lowers_the_line(flow: float, more: float, slope: float) -> None:
    less, greater = (grade_line(one_reach(q, slope)).node("house") for q in (flow, flow * more))

    assert greater.level_m > less.level_m - 1e-4


@settings(max_examples=60)
@given(
    st.integers(2, 12),
    st.randoms(use_true_random=False),
    st.one_of(st.none(), st.floats(-1.0, 3.0)),
)
def test_any_tree_has_finite_water(size: int, random: Random, tailwater: float | None) -> None:
    inverts = [random.uniform(-0.2, 0.5) for _ in range(size)]
    nodes = tuple(
        Node(f"n{i}", z, z - random.uniform(-1, 1), random.choice([0.0, 1e-9, 1e-4, 0.01]))
        for i, z in enumerate(inverts)
    )
    reaches = []
    for i in range(1, size):
        below = random.randrange(i)
        section = random.choice([PIPE, TUBE, Round(0.0773)])
        bends = random.choice([(), (90.0,), (45.0, 45.0)])
        ends = inverts[i] + random.uniform(0, 0.1), inverts[below]
        length = random.uniform(0.1, 30.0)
        reaches.append(
            Reach(f"r{i}", f"n{i}", f"n{below}", length, section, 0.011, *ends, bend_degrees=bends)
        )

    water = grade_line(Tree(nodes, tuple(reaches), "n0"), tailwater)

    assert all(map(math.isfinite, numbers(water)))
    for reach in reaches:
        low, high = water.node(reach.lower), water.node(reach.upper)
        assert high.level_m >= reach.upper_invert_m - 1e-9
        assert water.reach(reach.name).lower_grade_m >= low.level_m - 1e-9


def test_the_direct_step_agrees_with_small_standard_steps() -> None:
    held, _ = direct_step(PIPE, 0.003, 0.011, 0.006, 4.0, 0.095, 0.07)

    fine = backwater(PIPE, 0.003, 0.011, 0.006, 4.0, 0.095, steps=2000)[-1]

    assert held == pytest.approx(fine, abs=5e-4)


def test_the_direct_step_settles_where_the_friction_gives_out() -> None:
    """Toward the crown of a pipe whose free surface still has a depth to settle at."""
    flow = 1.03 * full_flow(PIPE, 0.01, 0.011)
    settled = normal_depth(PIPE, flow, 0.01, 0.011, past_full=True)

    depth, left = direct_step(PIPE, flow, 0.011, 0.01, 50.0, 0.082, 0.1)

    assert settled is not None
    assert depth == pytest.approx(settled, abs=2e-3)
    assert left == 0.0


def test_the_direct_step_at_its_own_depth_stays_there() -> None:
    slope = friction_slope(PIPE, 0.003, 0.011, 0.07)

    assert direct_step(PIPE, 0.003, 0.011, slope, 5.0, 0.07, 0.07) == (0.07, 0.0)


def test_a_standard_step_keeps_the_balance_of_energy() -> None:
    above = step_up(PIPE, 0.003, 0.011, 0.01, 2.0, 0.085)

    assert above is not None
    mean = (
        friction_slope(PIPE, 0.003, 0.011, 0.085) + friction_slope(PIPE, 0.003, 0.011, above)
    ) / 2
    gained = specific_energy(PIPE, 0.003, above) + 0.01 - specific_energy(PIPE, 0.003, 0.085)
    assert gained == pytest.approx(2.0 * mean)


def test_water_held_back_settles_to_normal_depth_far_up() -> None:
    depth = normal_depth(PIPE, 0.002, 0.004, 0.011)

    line = backwater(PIPE, 0.002, 0.011, 0.004, 200.0, 0.15)

    assert depth is not None
    assert line[-1] == pytest.approx(depth, rel=1e-3)
    assert line[0] == 0.15


def test_above_a_jump_the_water_is_told_as_critical() -> None:
    assert step_up(PIPE, 0.002, 0.011, 0.5, 10.0, 0.1) is None
    assert backwater(PIPE, 0.002, 0.011, 0.05, 20.0, 0.1)[-1] == critical_depth(PIPE, 0.002)


def test_a_second_opinion_needs_steps_and_flow() -> None:
    with pytest.raises(OutOfRange, match="steps must be one or more, not 0"):
        backwater(PIPE, 0.002, 0.011, 0.01, 10.0, 0.1, steps=0)
    with pytest.raises(OutOfRange, match="flow must be more than zero"):
        backwater(PIPE, 0.0, 0.011, 0.01, 10.0, 0.1)


def test_flow_and_level_are_found_by_name() -> None:
    water = grade_line(one_reach(0.003, 0.01))

    assert water.node("house").flow_m3s == 0.003
    assert water.node("curb").rise_by == "start"
    with pytest.raises(KeyError):
        water.node("nowhere")
    with pytest.raises(KeyError):
        water.reach("nowhere")


def test_a_flow_beyond_any_drain_is_refused() -> None:
    with pytest.raises(OutOfRange, match="flow must be a finite number"):
        grade_line(one_reach(1e12, 0.01))


@given(st.floats(0.5, 3.0))
def test_a_very_great_flow_still_has_a_line(flow: float) -> None:
    assume(flow > 0.0)

    assert all(map(math.isfinite, numbers(grade_line(one_reach(flow, 0.01)))))
