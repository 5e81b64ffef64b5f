"""The run as a tree: order, flows, and what is no tree."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.hydraulics.section import Round
from permitkit.hydraulics.tree import BadTree, Node, Reach, Tree

if TYPE_CHECKING:
    from random import Random

PIPE = Round(0.1)


def node(name: str, inflow: float = 0.0) -> Node:
    return Node(name, 0.0, 1.0, inflow)


def reach(name: str, upper: str, lower: str) -> Reach:
    return Reach(name, upper, lower, 5.0, PIPE, 0.011, 0.1, 0.0)


GOOD = reach("r", "a", "out")
PAIR = (node("a"), node("out"))


def faults(nodes: tuple[Node, ...], reaches: tuple[Reach, ...], outlet: str = "out") -> list[str]:
    with pytest.raises(BadTree) as caught:
        Tree(nodes, reaches, outlet)
    assert str(caught.value) == "; ".join(fault.message for fault in caught.value.faults)
    return [fault.message for fault in caught.value.faults]


def test_reaches_are_ordered_from_the_outlet_up() -> None:
    nodes = tuple(node(name) for name in ("a", "b", "c", "out"))
    reaches = (reach("r3", "c", "b"), reach("r2", "b", "a"), reach("r1", "a", "out"))

    tree = Tree(nodes, reaches, "out")

    assert [r.name for r in tree.upward] == ["r1", "r2", "r3"]
    assert [r.name for r in tree.arrivals["a"]] == ["r2"]


@given(
    st.lists(st.floats(0.0, 0.01), min_size=2, max_size=12),
    st.randoms(use_true_random=False),
)
def test_what_enters_comes_out(inflows: list[float], random: Random) -> None:
    nodes = tuple(node(f"n{i}", flow) for i, flow in enumerate(inflows))
    reaches = tuple(
        reach(f"r{i}", f"n{i}", f"n{random.randrange(i)}") for i in range(1, len(inflows))
    )

    tree = Tree(nodes, reaches, "n0")

    out = sum(tree.flows_m3s[r.name] for r in tree.arrivals["n0"])
    assert out == pytest.approx(sum(inflows[1:]), abs=1e-15)
    for r in reaches:
        above = sum(tree.flows_m3s[one.name] for one in tree.arrivals[r.upper])
        assert tree.flows_m3s[r.name] == pytest.approx(tree.node(r.upper).inflow_m3s + above)


def test_a_part_is_found_by_name() -> None:
    tree = Tree(PAIR, (GOOD,), "out")

    assert tree.node("a") is PAIR[0]
    assert tree.reach("r") is GOOD
    with pytest.raises(KeyError, match="b"):
        tree.node("b")


def test_slope_falls_downstream() -> None:
    assert GOOD.slope == pytest.approx(0.02)
    assert replace(GOOD, lower_invert_m=0.2).slope == pytest.approx(-0.02)


def test_a_loop_is_told_once() -> None:
    nodes = tuple(node(name) for name in ("a", "b", "c", "out"))
    reaches = (reach("r1", "a", "b"), reach("r2", "b", "c"), reach("r3", "c", "b"))

    assert faults(nodes, reaches) == ["water goes round: b to c to b"]


def test_a_node_with_no_way_out_is_told() -> None:
    assert faults((*PAIR, node("lost")), (GOOD,)) == ["node 'lost' has no way to the outlet 'out'"]


def test_every_node_on_a_dead_branch_is_told() -> None:
    nodes = (*PAIR, node("lost"), node("above"))

    assert faults(nodes, (GOOD, reach("r2", "above", "lost"))) == [
        "node 'lost' has no way to the outlet 'out'",
        "node 'above' has no way to the outlet 'out'",
    ]


def test_two_ways_down_are_told() -> None:
    assert faults((*PAIR, node("b")), (GOOD, reach("r2", "b", "out"), reach("r3", "a", "b"))) == [
        "node 'a' has two ways down"
    ]


def test_an_outlet_that_flows_on_is_told() -> None:
    assert faults(PAIR, (GOOD, reach("back", "out", "a"))) == [
        "reach 'back' leads away from the outlet 'out'"
    ]


def test_names_that_stand_twice_or_nowhere_are_told_together() -> None:
    nodes = (*PAIR, node("a"))
    reaches = (GOOD, reach("r", "b", "out"))

    assert faults(nodes, reaches, outlet="street") == [
        "the name 'a' stands twice",
        "the name 'r' stands twice",
        "there is no node 'b'",
        "there is no node 'street'",
    ]


BAD_NODE = "node 'a' needs finite levels, and inflow and area not below zero"
BAD_REACH = "reach 'r' needs finite inverts, and length, n and barrels over zero"


@pytest.mark.parametrize(
    "change",
    [
        {"invert_m": math.nan},
        {"ground_m": math.inf},
        {"inflow_m3s": -0.1},
        {"plan_area_m2": -1.0},
    ],
)
def test_a_node_with_a_number_that_cannot_be_is_told(change: dict[str, float]) -> None:
    assert faults((replace(PAIR[0], **change), PAIR[1]), (GOOD,)) == [BAD_NODE]


@pytest.mark.parametrize(
    "change",
    [
        {"length_m": 0.0},
        {"length_m": math.nan},
        {"n": -0.01},
        {"barrels": 0},
        {"entrance_k": -1.0},
        {"entrance_k": math.nan},
        {"bend_degrees": (200.0,)},
        {"joins_degrees": math.nan},
        {"upper_invert_m": math.inf},
    ],
)
def test_a_reach_with_a_number_that_cannot_be_is_told(change: dict[str, float]) -> None:
    assert faults(PAIR, (replace(GOOD, **change),)) == [BAD_REACH]


def test_an_outlet_alone_is_a_tree() -> None:
    tree = Tree((node("out"),), (), "out")

    assert tree.upward == ()
    assert dict(tree.flows_m3s) == {}
