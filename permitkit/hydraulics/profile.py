"""The hydraulic grade line of a run, from the outlet up.

The HEC-22 procedure: start at the outlet with the tailwater or midway between critical depth and
the crown; up each reach add Manning friction where the pipe is full, else take normal depth; add
the losses of bends, reducers, junctions and entrances. A drowned outlet loses its velocity head:
the line inside its end stands at the tailwater, and the head is found again above an entrance.
Where that alone gives too low a line it is lifted: no upper end lies below critical depth, water
held back from below is followed by the direct step, and a loss on near-critical water is turned
into depth by its energy.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from permitkit.hydraulics.bounds import finite, root_between
from permitkit.hydraulics.critical import (
    Regime,
    critical_depth,
    froude,
    regime,
    velocity_at,
    velocity_head,
)
from permitkit.hydraulics.gradual import direct_step
from permitkit.hydraulics.losses import (
    bend_loss,
    contraction_k,
    friction_slope,
    junction_rise,
)
from permitkit.hydraulics.pipe import flow_each, full_flow, full_velocity, normal_depth

if TYPE_CHECKING:
    from permitkit.hydraulics.section import Section
    from permitkit.hydraulics.tree import Node, Reach, Tree

__all__ = ["GradeLine", "NodeWater", "ReachWater", "RiseBy", "grade_line", "outlet_start"]

NEAR_M = 1e-9
TRICKLE_M3S = 1e-12

RiseBy = Literal["start", "no flow", "entrance", "through", "reducer", "junction"]
Rise = tuple[float, RiseBy]


@dataclass(frozen=True, slots=True)
class ReachWater:
    """The water in one reach; flows are of all barrels, depths above the invert.

    Parameters
    ----------
    name, flow_m3s, slope
        The reach, its flow and its fall over length (below zero where it runs backward).
    full_flow_m3s, full_velocity_ms
        Just full; None where the slope is zero or less.
    normal_depth_m
        None where the flow is more than the full pipe carries, or there is no fall.
    critical_depth_m
        Depth of least energy. [m]
    velocity_ms, fullness, froude, regime
        At normal depth, else at the greater end depth; fullness is depth over height, 1 if full.
    lower_grade_m, upper_grade_m
        Grade line inside its two ends. [m]
    friction_m, bend_m
        Head taken by friction (the rise of the line less that of the bends) and bends. [m]
    pressurised
        Full from end to end.
    """

    name: str
    flow_m3s: float
    slope: float
    full_flow_m3s: float | None
    full_velocity_ms: float | None
    normal_depth_m: float | None
    critical_depth_m: float
    velocity_ms: float
    fullness: float
    froude: float
    regime: Regime
    lower_grade_m: float
    upper_grade_m: float
    friction_m: float
    bend_m: float
    pressurised: bool


@dataclass(frozen=True, slots=True)
class NodeWater:
    """The water at one node.

    Parameters
    ----------
    name, flow_m3s
        The node and all that passes. [m3/s]
    level_m, depth_m
        Water level, and how far it stands above the node's invert. [m]
    rise_m, rise_by
        How far it stands above the grade line just inside the pipe that leaves, and why.
    """

    name: str
    flow_m3s: float
    level_m: float
    depth_m: float
    rise_m: float
    rise_by: RiseBy


@dataclass(frozen=True, slots=True)
class GradeLine:
    """The grade line of a whole run, from its start at the outlet up."""

    start_m: float
    tailwater_m: float | None
    nodes: tuple[NodeWater, ...]
    reaches: tuple[ReachWater, ...]

    def node(self, name: str) -> NodeWater:
        """Return the water at this node; KeyError if there is none."""
        return {node.name: node for node in self.nodes}[name]

    def reach(self, name: str) -> ReachWater:
        """Return the water in this reach; KeyError if there is none."""
        return {reach.name: reach for reach in self.reaches}[name]


def outlet_start(
    section: Section, flow_m3s: float, invert_m: float, tailwater_m: float | None = None
) -> float:
    """Return the level at which the grade line starts at the outlet, in m.

    Parameters
    ----------
    section
        The inside of the pipe.
    flow_m3s
        Flow of one barrel; with none the line starts at the tailwater or the invert. [m3/s]
    invert_m
        Invert at the outlet. [m]
    tailwater_m
        Level of the water it runs into; none for a free fall. [m]

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 7, outfall:
       the greater of the tailwater and (critical depth + diameter) / 2

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> round(outlet_start(Round(0.1), 0.003, 0.0), 3), outlet_start(Round(0.1), 0.003, 0.0, 0.5)
    (0.078, 0.5)
    """
    if flow_m3s == 0.0:
        own = invert_m
    else:
        own = invert_m + (critical_depth(section, flow_m3s) + section.height_m) / 2.0
    return own if tailwater_m is None else max(own, finite("tailwater", tailwater_m))


def grade_line(tree: Tree, tailwater_m: float | None = None) -> GradeLine:
    """Return the water in every reach and at every node of a run at its design flow.

    Parameters
    ----------
    tree
        The run with its inflows.
    tailwater_m
        Level of the water at the outlet; none for a free outlet. [m]

    Notes
    -----
    A reach that runs backward or level flows by head from above. All flow is taken to stay in
    the run: a level above an opening means that water leaves there. Always finite.

    References
    ----------
    .. [1] FHWA, HEC-22 Urban Drainage Design Manual, 3rd ed., 2009 rev. 2013, ch. 7, energy
       grade line procedure
    .. [2] V. T. Chow, Open-Channel Hydraulics, 1959, sec. 10-3, the direct step method

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> from permitkit.hydraulics.tree import Node, Reach, Tree
    >>> house, curb = Node("house", 100.1, 100.9, 0.002), Node("curb", 100.0, 100.0)
    >>> line = Reach("line", "house", "curb", 10.0, Round(0.1), 0.011, 100.1, 100.0)
    >>> water = grade_line(Tree((house, curb), (line,), "curb"), tailwater_m=100.2)
    >>> water.reach("line").pressurised, round(water.node("house").level_m, 3)
    (True, 100.216)
    """
    flows = {reach.name: _one_barrel(reach, tree.flows_m3s[reach.name]) for reach in tree.upward}
    start = _start(tree, flows, tailwater_m)
    levels = {tree.outlet: start}
    rises: dict[str, Rise] = {tree.outlet: (0.0, "start")}
    reaches: list[ReachWater] = []
    for reach in tree.upward:
        reaches.append(_reach_water(reach, flows[reach.name], levels[reach.lower]))
        grade = reaches[-1].upper_grade_m
        rises[reach.upper] = _node_rise(tree, reach, flows, grade)
        levels[reach.upper] = grade + rises[reach.upper][0]
    nodes = {node.name: node for node in tree.nodes}
    water = tuple(_node_water(tree, nodes[name], levels[name], rises[name]) for name in levels)
    return GradeLine(start, tailwater_m, water, tuple(reaches))


class _Flow(NamedTuple):
    """Flow of one barrel and its two depths."""

    each_m3s: float
    critical_m: float
    normal_m: float | None

    @property
    def free_m(self) -> float:
        """The lower of the two depths: what a free fall at the lower end leaves."""
        return self.critical_m if self.normal_m is None else min(self.critical_m, self.normal_m)

    @property
    def least_m(self) -> float:
        """The greater of the two depths: no upper end lies below it."""
        return max(self.critical_m, self.normal_m or 0.0)


def _one_barrel(reach: Reach, flow_m3s: float) -> _Flow:
    """Return the flow of one barrel with its critical and normal depth."""
    each = flow_each(flow_m3s, reach.barrels)
    each = each if each > TRICKLE_M3S else 0.0
    normal = normal_depth(reach.section, each, reach.slope, reach.n) if reach.slope > 0.0 else None
    return _Flow(each, critical_depth(reach.section, each), normal)


def _start(tree: Tree, flows: dict[str, _Flow], tailwater_m: float | None) -> float:
    """Return the level at the outlet: the highest start of the reaches that end there."""
    starts = [
        outlet_start(reach.section, flows[reach.name].each_m3s, reach.lower_invert_m, tailwater_m)
        for reach in tree.upward
        if reach.lower == tree.outlet
    ]
    outlet = tree.node(tree.outlet).invert_m
    own = outlet if tailwater_m is None else max(outlet, finite("tailwater", tailwater_m))
    return max(starts, default=own)


def _reach_water(reach: Reach, flow: _Flow, level_m: float) -> ReachWater:
    """Return the water in a reach above a level at its lower node."""
    lower = max(level_m - reach.lower_invert_m, flow.free_m)
    if flow.each_m3s == 0.0:
        upper = max(lower - reach.slope * reach.length_m, 0.0)
        bends = 0.0
    else:
        upper, bends = _with_bends(reach, flow, _climb(reach, flow, lower))
    height = reach.section.height_m
    pressed = flow.each_m3s > 0.0 and min(lower, upper) >= height
    typical = max(lower, upper) if flow.normal_m is None or pressed else flow.normal_m
    kind = "full" if pressed else regime(reach.section, flow.each_m3s, typical)
    shape, falls = (reach.section, reach.slope, reach.n), reach.slope > 0.0
    return ReachWater(
        name=reach.name,
        flow_m3s=flow.each_m3s * reach.barrels,
        slope=reach.slope,
        full_flow_m3s=full_flow(*shape, reach.barrels) if falls else None,
        full_velocity_ms=full_velocity(*shape) if falls else None,
        normal_depth_m=flow.normal_m,
        critical_depth_m=flow.critical_m,
        velocity_ms=velocity_at(reach.section, flow.each_m3s, typical),
        fullness=0.0 if kind == "dry" else min(typical / height, 1.0),
        froude=0.0 if kind == "full" else froude(reach.section, flow.each_m3s, typical),
        regime=kind,
        lower_grade_m=reach.lower_invert_m + lower,
        upper_grade_m=reach.upper_invert_m + upper,
        friction_m=pressed * friction_slope(reach.section, flow.each_m3s, reach.n) * reach.length_m,
        bend_m=bends,
        pressurised=pressed,
    )


def _climb(reach: Reach, flow: _Flow, lower_m: float) -> float:
    """Return the depth at the upper end, or the pressure head if it is full there."""
    start, left, height = max(lower_m, flow.critical_m), reach.length_m, reach.section.height_m
    gain = friction_slope(reach.section, flow.each_m3s, reach.n) - reach.slope
    full = start + gain * left
    if start >= height:
        if full >= height:
            return max(full, flow.least_m)
        left -= (start - height) / -gain
        start = height
    target = height if flow.normal_m is None else flow.least_m
    if flow.normal_m is not None and start <= target:
        return target
    depth, over = direct_step(
        reach.section, flow.each_m3s, reach.n, reach.slope, left, start, target
    )
    if flow.normal_m is not None:
        return depth
    return max(depth + max(gain, 0.0) * over, full)


def _with_bends(reach: Reach, flow: _Flow, depth_m: float) -> tuple[float, float]:
    """Return the depth above the bends and the head they take."""
    if not reach.bend_degrees:
        return depth_m, 0.0
    section, each = reach.section, flow.each_m3s
    speed = each / section.wetted(depth_m).area_m2
    loss = sum(bend_loss(angle, speed) for angle in reach.bend_degrees)
    energy = depth_m + velocity_head(speed) + loss
    pressed = energy - velocity_head(each / section.full.area_m2)
    if pressed >= section.height_m:
        return max(pressed, depth_m), loss
    lifted = root_between(
        lambda depth: depth + velocity_head(each / section.wetted(depth).area_m2) - energy,
        depth_m,
        section.height_m,
    )
    return lifted, loss


def _node_rise(tree: Tree, leaving: Reach, flows: dict[str, _Flow], grade_m: float) -> Rise:
    """Return how far a node stands above the line in the pipe that leaves it, and why."""
    flow = flows[leaving.name].each_m3s * leaving.barrels
    if flow == 0.0:
        return 0.0, "no flow"
    area = _area(leaving, grade_m - leaving.upper_invert_m)
    head = velocity_head(flow / area)
    reaches = tree.arrivals[leaving.upper]
    arrivals = [_arrival(reach, flows[reach.name], grade_m) for reach in reaches]
    flowing = [arrival for arrival in arrivals if arrival.flow_m3s > 0.0]
    if not flowing or tree.node(leaving.upper).plan_area_m2 > 0.0:
        return (1.0 + leaving.entrance_k) * head, "entrance"
    main = max(flowing, key=lambda arrival: arrival.flow_m3s)
    change = _change(leaving, main, head)
    if main.flow_m3s >= flow * (1.0 - NEAR_M):
        turn = bend_loss(main.turn_degrees, flow / area)
        narrower = _area(leaving, leaving.section.height_m) < main.full_area_m2
        return change + turn, "reducer" if narrower else "through"
    bring = [(one.flow_m3s, one.brings_ms, one.turn_degrees) for one in flowing]
    return max(junction_rise(flow, area, bring, main.area_m2), change), "junction"


class _Arrival(NamedTuple):
    """A reach that arrives at a node, as its water stands under the grade line there.

    Of its speed it brings a share along: all where its water runs on at a depth, none where it
    falls in from above.
    """

    flow_m3s: float
    area_m2: float
    full_area_m2: float
    brings_ms: float
    share: float
    turn_degrees: float


def _arrival(reach: Reach, flow: _Flow, grade_m: float) -> _Arrival:
    """Return what a reach brings to its lower node under a grade line."""
    depth = grade_m - reach.lower_invert_m
    total = flow.each_m3s * reach.barrels
    area = _area(reach, max(depth, flow.free_m))
    share = min(max(depth / flow.free_m, 0.0), 1.0) if total else 0.0
    speed = share * total / area if total else 0.0
    full = _area(reach, reach.section.height_m)
    return _Arrival(total, area, full, speed, share, reach.joins_degrees)


def _area(reach: Reach, depth_m: float) -> float:
    """Return the wetted area of all barrels."""
    return reach.section.wetted(depth_m).area_m2 * reach.barrels


def _change(leaving: Reach, main: _Arrival, head_m: float) -> float:
    """Return the rise where one pipe goes over into another: speed gained and what is lost."""
    full = _area(leaving, leaving.section.height_m)
    narrowing = contraction_k(full, main.full_area_m2) if full < main.full_area_m2 else 0.0
    loss = main.share * narrowing + (1.0 - main.share) * leaving.entrance_k
    return max((1.0 + loss) * head_m - velocity_head(main.brings_ms), 0.0)


def _node_water(tree: Tree, node: Node, level_m: float, rise: Rise) -> NodeWater:
    """Return the water at a node."""
    arriving = (tree.flows_m3s[reach.name] for reach in tree.arrivals[node.name])
    return NodeWater(
        node.name,
        node.inflow_m3s + sum(arriving),
        level_m,
        level_m - node.invert_m,
        *rise,
    )
