"""Small lines of pipe, and the numbers of their water, for tests of the grade line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import strategies as st

from permitkit.hydraulics.section import Box, Round, Section
from permitkit.hydraulics.tree import Node, Reach, Tree

if TYPE_CHECKING:
    from permitkit.hydraulics.profile import GradeLine

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
    levels = [x for n in line.nodes for x in (n.level_m, n.depth_m, n.rise_m)]
    return levels + [
        x
        for r in line.reaches
        for x in (r.lower_grade_m, r.upper_grade_m, r.velocity_ms, r.fullness, r.froude)
    ]
