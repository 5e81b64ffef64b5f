"""The grade line of a run: limits, a second opinion, and runs that are wrong."""

from __future__ import annotations

import math
import time
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.critical import critical_depth, specific_energy, velocity_head
from permitkit.hydraulics.gradual import backwater, direct_step, step_up
from permitkit.hydraulics.losses import bend_loss, contraction_k, friction_slope
from permitkit.hydraulics.pipe import full_flow, normal_depth
from permitkit.hydraulics.profile import GradeLine, grade_line, outlet_start
from permitkit.hydraulics.section import Box, Round, Section
from permitkit.hydraulics.tree import Node, Reach, Tree

if TYPE_CHECKING:
    from random import Random

PIPE, TUBE = Round(0.1), Box(0.117475, 0.041275)
SECTIONS = st.sampled_from([Round(0.0773), PIPE, Round(0.15), TUBE])


def one_reach(
    flow: float,
    slope: float,
    length: float = 20.0,
    section: Section = PIPE,
    n: float = 0.011,
    bends: tuple[float, ...] = (),
) -> Tree:
    top = slope * length
    nodes = (Node("house", top, top + 1.0, flow), Node("curb", 0.0, 0.2))
    reach = Reach("line", "house", "curb", length, section, n, top, 0.0, bend_degrees=bends)
    return Tree(nodes, (reach,), "curb")


def chain(flow: float, *sections: Section, slope: float = 0.01, extra: float = 0.0) -> Tree:
    """Reaches of 10 m from the outlet up; the flow enters at the top, the extra at each joint."""
    inverts = [10.0 * slope * i for i in range(len(sections) + 1)]
    nodes = [Node("n0", 0.0, 1.0)]
    reaches = []
    for i, section in enumerate(sections, start=1):
        top = i == len(sections)
        nodes.append(Node(f"n{i}", inverts[i], inverts[i] + 1.0, flow if top else extra))
        reaches.append(
            Reach(f"r{i}", f"n{i}", f"n{i - 1}", 10.0, section, 0.011, inverts[i], inverts[i - 1])
        )
    return Tree(tuple(nodes), tuple(reaches), "n0")


def numbers(line: GradeLine) -> list[float]:
    levels = [x for n in line.nodes for x in (n.level_m, n.depth_m, n.rise_m, n.below_ground_m)]
    return levels + [
        x
        for r in line.reaches
        for x in (r.lower_grade_m, r.upper_grade_m, r.velocity_ms, r.fullness, r.froude)
    ]


def test_a_line_starts_midway_between_critical_depth_and_crown() -> None:
    flow = 0.003

    start = outlet_start(PIPE, flow, 1.0)

    assert start == pytest.approx(1.0 + (critical_depth(PIPE, flow) + 0.1) / 2.0)
    assert outlet_start(PIPE, flow, 1.0, 0.5) == start
    assert outlet_start(PIPE, flow, 1.0, 1.5) == 1.5
    assert outlet_start(PIPE, 0.0, 1.0) == 1.0


def test_a_drowned_line_rises_by_its_friction_and_the_head_of_its_entrance() -> None:
    flow = 0.003
    water = grade_line(one_reach(flow, 0.003), tailwater_m=0.5)
    head = velocity_head(flow / PIPE.full.area_m2)
    friction = friction_slope(PIPE, flow, 0.011) * 20.0

    line = water.reach("line")

    assert line.pressurised
    assert line.regime == "full"
    assert line.fullness == 1.0
    assert line.friction_m == pytest.approx(friction)
    assert line.upper_grade_m == pytest.approx(0.5 + friction)
    assert water.node("house").level_m == pytest.approx(0.5 + friction + 1.5 * head)
    assert water.node("house").rise_by == "entrance"


def test_a_free_line_runs_at_normal_depth() -> None:
    flow = 0.002
    water = grade_line(one_reach(flow, 0.004))
    depth = normal_depth(PIPE, flow, 0.004, 0.011)

    line = water.reach("line")

    assert depth is not None
    assert line.normal_depth_m == depth
    assert line.regime == "subcritical"
    assert line.upper_grade_m == pytest.approx(0.08 + depth, abs=1e-4)
    assert not line.pressurised
    assert not line.submerged


def test_a_steep_line_begins_at_critical_depth() -> None:
    water = grade_line(one_reach(0.002, 0.03))

    line = water.reach("line")

    assert line.regime == "supercritical"
    assert line.upper_grade_m == pytest.approx(0.6 + line.critical_depth_m)


def test_an_overloaded_line_fills() -> None:
    flow = 1.5 * full_flow(PIPE, 0.01, 0.011)
    water = grade_line(one_reach(flow, 0.01))

    line = water.reach("line")

    assert line.normal_depth_m is None
    assert line.fullness == 1.0
    assert water.node("house").depth_m > 0.1 + 0.2


def test_a_short_overloaded_line_need_not_fill() -> None:
    flow = 1.2 * full_flow(PIPE, 0.004, 0.011)

    line = grade_line(one_reach(flow, 0.004, length=0.2)).reach("line")

    assert line.normal_depth_m is None
    assert not line.pressurised
    assert line.fullness < 1.0


@pytest.mark.parametrize("slope", [-0.005, 0.0])
@pytest.mark.parametrize("tailwater", [None, 0.05, 0.5])
def test_a_line_that_does_not_fall_flows_by_head(slope: float, tailwater: float | None) -> None:
    water = grade_line(one_reach(0.003, slope), tailwater_m=tailwater)

    line = water.reach("line")

    assert line.normal_depth_m is None
    assert line.full_flow_m3s is None
    assert line.full_velocity_ms is None
    assert line.upper_grade_m > line.lower_grade_m
    assert all(map(math.isfinite, numbers(water)))


def test_a_drowned_adverse_line_takes_the_friction_of_the_full_pipe() -> None:
    line = grade_line(one_reach(0.003, -0.005), tailwater_m=0.5).reach("line")

    assert line.upper_grade_m == pytest.approx(0.5 + friction_slope(PIPE, 0.003, 0.011) * 20.0)


def test_without_flow_the_water_stands_level() -> None:
    tree = chain(0.0, PIPE, PIPE)

    dry, street = grade_line(tree), grade_line(tree, tailwater_m=0.15)

    assert [reach.regime for reach in dry.reaches] == ["dry", "dry"]
    assert dry.node("n2").depth_m == 0.0
    assert dry.node("n2").rise_by == "no flow"
    assert street.node("n1").level_m == pytest.approx(0.15)
    assert street.node("n2").level_m == pytest.approx(0.2)
    assert street.reach("r1").submerged
    assert not street.reach("r1").pressurised


def test_a_trickle_counts_as_none() -> None:
    assert grade_line(one_reach(1e-15, 0.01)).reach("line").regime == "dry"


def test_an_outlet_alone_stands_at_its_tailwater() -> None:
    tree = Tree((Node("curb", 0.1, 0.5),), (), "curb")

    assert grade_line(tree).start_m == 0.1
    assert grade_line(tree, 0.3).node("curb").level_m == 0.3
    assert grade_line(tree, 0.0).start_m == 0.1


def test_tailwater_above_the_house_is_told_by_the_level() -> None:
    water = grade_line(one_reach(0.003, 0.01), tailwater_m=5.0)

    assert water.node("house").below_ground_m < 0.0


def test_a_tailwater_that_is_no_number_is_named() -> None:
    for tree in (one_reach(0.003, 0.01), Tree((Node("curb", 0.1, 0.5),), (), "curb")):
        with pytest.raises(OutOfRange, match="tailwater must be a finite number, not nan"):
            grade_line(tree, math.nan)


def test_bends_add_their_head_to_a_full_pipe() -> None:
    plain, bent = (
        grade_line(one_reach(0.004, 0.003, bends=bends), 0.5).reach("line")
        for bends in ((), (45.0, 45.0))
    )

    assert bent.bend_m == pytest.approx(2.0 * bend_loss(45.0, 0.004 / PIPE.full.area_m2))
    assert bent.upper_grade_m == pytest.approx(plain.upper_grade_m + bent.bend_m)


def test_a_bend_in_near_critical_water_raises_it_by_more_than_its_head() -> None:
    plain, bent = (
        grade_line(one_reach(0.002, 0.03, bends=bends)).reach("line") for bends in ((), (90.0,))
    )

    assert bent.upper_grade_m - plain.upper_grade_m > 2.0 * bent.bend_m
    above, below = (
        specific_energy(PIPE, 0.002, line.upper_grade_m - 0.6) for line in (bent, plain)
    )
    assert above == pytest.approx(below + bent.bend_m)


def test_bends_can_fill_a_pipe() -> None:
    flow = 0.98 * full_flow(PIPE, 0.02, 0.011)

    line = grade_line(one_reach(flow, 0.02, bends=(90.0,) * 4)).reach("line")

    assert line.upper_grade_m > 0.4 + 0.1


def test_a_cleanout_changes_nothing() -> None:
    whole = grade_line(one_reach(0.003, 0.01, length=20.0), 0.5).node("house")

    parted = grade_line(chain(0.003, PIPE, PIPE), 0.5)

    assert parted.node("n2").level_m == pytest.approx(whole.level_m)
    assert parted.node("n1").rise_by == "through"
    assert parted.node("n1").rise_m == 0.0


def test_a_turn_at_a_node_costs_a_bend() -> None:
    tree = chain(0.003, PIPE, PIPE)
    reaches = (tree.reaches[0], replace(tree.reaches[1], joins_degrees=45.0))

    turned = grade_line(Tree(tree.nodes, reaches, "n0"), 0.5).node("n1")

    assert turned.rise_m == pytest.approx(bend_loss(45.0, 0.003 / PIPE.full.area_m2))


def test_a_reducer_costs_the_speed_gained_and_the_narrowing() -> None:
    small, large = Round(0.0889), Round(0.1)
    rise = grade_line(chain(0.003, small, large), 0.5).node("n1")
    out_head, in_head = (velocity_head(0.003 / pipe.full.area_m2) for pipe in (small, large))
    k = contraction_k(small.full.area_m2, large.full.area_m2)

    assert rise.rise_by == "reducer"
    assert rise.rise_m == pytest.approx((1.0 + k) * out_head - in_head)


def test_a_wider_pipe_below_gains_nothing() -> None:
    assert grade_line(chain(0.003, Round(0.15), PIPE), 0.5).node("n1").rise_m == 0.0


def test_a_junction_costs_the_momentum_that_the_inflow_lacks() -> None:
    rise = grade_line(chain(0.002, PIPE, PIPE, extra=0.002), 0.5).node("n1")
    area = PIPE.full.area_m2

    assert rise.rise_by == "junction"
    assert rise.rise_m == pytest.approx((0.004**2 - 0.002**2) / (9.80665 * area**2))


def test_a_lateral_at_an_angle_costs_less_than_one_square_on() -> None:
    def rise(angle: float) -> float:
        nodes = (
            Node("out", 0.0, 1.0),
            Node("wye", 0.1, 1.0),
            Node("main", 0.2, 1.0, 0.002),
            Node("side", 0.2, 1.0, 0.002),
        )
        reaches = (
            Reach("r1", "wye", "out", 10.0, PIPE, 0.011, 0.1, 0.0),
            Reach("r2", "main", "wye", 10.0, PIPE, 0.011, 0.2, 0.1),
            Reach("r3", "side", "wye", 10.0, PIPE, 0.011, 0.2, 0.1, joins_degrees=angle),
        )
        return grade_line(Tree(nodes, reaches, "out"), 0.5).node("wye").rise_m

    assert 0.0 < rise(45.0) < rise(90.0)


def test_a_dry_lateral_does_not_make_a_junction() -> None:
    tree = chain(0.003, PIPE, PIPE)
    nodes = (*tree.nodes, Node("side", 0.3, 1.0))
    side = Reach("r3", "side", "n1", 10.0, PIPE, 0.011, 0.3, 0.1)

    assert grade_line(Tree(nodes, (*tree.reaches, side), "n0"), 0.5).node("n1").rise_m == 0.0


def test_a_box_takes_all_speed_out_of_the_water() -> None:
    tree = chain(0.003, PIPE, PIPE)
    nodes = tuple(replace(n, plan_area_m2=0.1) if n.name == "n1" else n for n in tree.nodes)

    boxed = grade_line(Tree(nodes, tree.reaches, "n0"), 0.5).node("n1")

    assert boxed.rise_by == "entrance"
    assert boxed.rise_m == pytest.approx(1.5 * velocity_head(0.003 / PIPE.full.area_m2))


def test_water_that_falls_in_from_above_brings_no_speed_along() -> None:
    tree = chain(0.002, PIPE, PIPE)
    high = replace(tree.reaches[1], lower_invert_m=0.3, upper_invert_m=0.4)

    fallen = grade_line(Tree(tree.nodes, (tree.reaches[0], high), "n0"))

    flat = fallen.reach("r1")
    head = velocity_head(0.002 / PIPE.wetted(flat.upper_grade_m - 0.1).area_m2)
    assert fallen.node("n1").rise_m == pytest.approx(1.5 * head)
    assert fallen.reach("r2").lower_grade_m > 0.3


def test_twin_pipes_run_as_one_with_half_the_flow() -> None:
    tree = one_reach(0.006, 0.004)
    twin = replace(tree.reaches[0], barrels=2)

    both = grade_line(Tree(tree.nodes, (twin,), "curb"))
    one = grade_line(one_reach(0.003, 0.004))

    assert both.node("house").level_m == pytest.approx(one.node("house").level_m)
    assert both.reach("line").flow_m3s == pytest.approx(0.006)


def test_two_lines_at_one_outlet_share_its_level() -> None:
    nodes = (Node("out", 0.0, 1.0), Node("a", 0.1, 1.0, 0.002), Node("b", 0.3, 1.0, 0.002))
    reaches = (
        Reach("ra", "a", "out", 10.0, PIPE, 0.011, 0.1, 0.0),
        Reach("rb", "b", "out", 10.0, PIPE, 0.011, 0.3, 0.2),
    )

    assert grade_line(Tree(nodes, reaches, "out")).start_m > 0.2


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


def test_thirty_nodes_take_no_time() -> None:
    inverts = [0.01 * i * 8 for i in range(31)]
    nodes = tuple(Node(f"n{i}", z, z + 1.0, 2e-4) for i, z in enumerate(inverts))
    reaches = tuple(
        Reach(f"r{i}", f"n{i}", f"n{i - 1 - i % 2}", 10.0, PIPE, 0.011, inverts[i], inverts[i - 1])
        for i in range(2, 31)
    )
    first = Reach("r1", "n1", "n0", 10.0, PIPE, 0.011, inverts[1], inverts[0])
    tree = Tree(nodes, (first, *reaches), "n0")

    def once() -> float:
        start = time.perf_counter()
        grade_line(tree, 0.05)
        return time.perf_counter() - start

    assert min(once() for _ in range(20)) < 0.02


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
