"""Random runs of many branches: always a finite line, held against small steps reach by reach."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from standard_step import backwater

from permitkit.hydraulics.critical import critical_depth
from permitkit.hydraulics.materials import PIPES
from permitkit.hydraulics.profile import GradeLine, ReachWater, grade_line
from permitkit.hydraulics.tree import Node, Reach, Tree, still_water

if TYPE_CHECKING:
    from random import Random

STEPS = 200
NEAR_M = 0.004


def random_tree(random: Random, size: int, steepest: float, flattest: float) -> Tree:
    """Return a run of some nodes, each draining to an earlier one, in any pipe."""
    nodes = [Node("n0", 0.0, 0.5)]
    reaches = []
    for i in range(1, size + 1):
        below = nodes[random.randrange(i)]
        length, slope = random.uniform(1.0, 25.0), random.uniform(flattest, steepest)
        invert = below.invert_m + slope * length
        inflow = random.choice([0.0, random.uniform(0.0, 0.002)])
        nodes.append(Node(f"n{i}", invert, invert + 0.6, inflow))
        pipe = random.choice(list(PIPES.values()))
        reaches.append(
            Reach(
                f"r{i}",
                f"n{i}",
                below.name,
                length,
                pipe.section,
                pipe.n,
                invert,
                below.invert_m,
                barrels=random.choice([1, 1, 2]),
                joins_degrees=random.choice([0.0, 45.0, 90.0]),
            )
        )
    return Tree(tuple(nodes), tuple(reaches), "n0")


def numbers(line: GradeLine) -> list[float]:
    levels = [value for node in line.nodes for value in (node.level_m, node.rise_m)]
    return levels + [
        value
        for reach in line.reaches
        for value in (reach.lower_grade_m, reach.upper_grade_m, reach.velocity_ms, reach.fullness)
    ]


def stepped(reach: Reach, water: ReachWater) -> float:
    """Return the upper end's level by small steps from the same level at the lower end."""
    each = water.flow_m3s / reach.barrels
    lower = water.lower_grade_m - reach.lower_invert_m
    depths = backwater(
        reach.section, each, reach.n, reach.slope, reach.length_m, lower, steps=STEPS
    )
    return reach.upper_invert_m + depths[-1]


TAILS = st.none() | st.floats(-0.5, 1.5)


@given(st.integers(1, 12), st.randoms(use_true_random=False), TAILS)
@settings(max_examples=60)
def test_any_run_has_a_finite_line_that_conserves_its_flow(
    size: int, random: Random, tail: float | None
) -> None:
    tree = random_tree(random, size, 0.05, -0.03)

    line = grade_line(tree, tail)

    assert all(map(math.isfinite, numbers(line)))
    assert line.node("n0").flow_m3s == pytest.approx(sum(node.inflow_m3s for node in tree.nodes))


@given(st.integers(1, 8), st.randoms(use_true_random=False), TAILS)
@settings(max_examples=60)
def test_no_reach_ends_below_what_small_steps_find(
    size: int, random: Random, tail: float | None
) -> None:
    tree = random_tree(random, size, 0.05, -0.02)
    line = grade_line(tree, tail)

    for water in line.reaches:
        reach = tree.reach(water.name)
        if water.flow_m3s > 1e-6:
            assert water.upper_grade_m >= stepped(reach, water) - NEAR_M


@given(st.integers(1, 8), st.randoms(use_true_random=False), TAILS)
@settings(max_examples=60)
def test_a_line_held_back_from_below_ends_where_small_steps_do(
    size: int, random: Random, tail: float | None
) -> None:
    """Where the depth at the lower end is over normal and critical depth all the way up."""
    tree = random_tree(random, size, 0.02, 0.002)
    line = grade_line(tree, tail)

    for water in line.reaches:
        reach = tree.reach(water.name)
        if water.flow_m3s <= 1e-6 or water.normal_depth_m is None:
            continue
        found = stepped(reach, water)
        settled = max(
            water.normal_depth_m, critical_depth(reach.section, water.flow_m3s / reach.barrels)
        )
        held_back = water.lower_grade_m - reach.lower_invert_m > settled
        if held_back and found - reach.upper_invert_m > settled:
            assert water.upper_grade_m == pytest.approx(found, abs=NEAR_M)


@given(st.integers(1, 12), st.randoms(use_true_random=False), TAILS)
@settings(max_examples=60)
def test_still_water_in_any_run_is_level_or_dry(
    size: int, random: Random, tail: float | None
) -> None:
    tree = random_tree(random, size, 0.05, -0.03)

    still = still_water(tree, tail)

    assert math.isfinite(still.volume_m3)
    assert still.volume_m3 >= 0.0
    for node in still.nodes:
        assert node.level_m >= tree.node(node.name).invert_m
