"""The grade line of a run: limits, losses, and runs that are wrong."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from grade_lines import PIPE, chain, numbers, one_reach

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.critical import critical_depth, specific_energy, velocity_head
from permitkit.hydraulics.losses import bend_loss, contraction_k, friction_slope
from permitkit.hydraulics.pipe import full_flow, normal_depth
from permitkit.hydraulics.profile import grade_line, outlet_start
from permitkit.hydraulics.section import Round
from permitkit.hydraulics.tree import Node, Reach, Tree


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
    assert street.reach("r1").lower_grade_m > PIPE.height_m
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

    assert water.node("house").level_m == pytest.approx(5.0, abs=0.1)


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
