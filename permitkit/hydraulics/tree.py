"""The run as a tree, flows added on the way, and the water that lies in it when none flows."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, Protocol, TypeVar

from permitkit.hydraulics.bounds import finite
from permitkit.hydraulics.section import Section

__all__ = [
    "BadTree",
    "Node",
    "Reach",
    "StillNode",
    "StillReach",
    "StillWater",
    "Tree",
    "TreeFault",
    "still_water",
]


@dataclass(frozen=True, slots=True)
class Node:
    """A point with ground and invert, where water may come in.

    Parameters
    ----------
    name, invert_m
        Its name, and the lowest inside: below the pipe's invert where it is a pit. [m]
    ground_m, inflow_m3s
        Ground over it [m] and the flow that enters here. [m3/s]
    plan_area_m2
        Water surface of a pit or box, for what it holds; zero for a plain fitting. [m2]
    """

    name: str
    invert_m: float
    ground_m: float
    inflow_m3s: float = 0.0
    plan_area_m2: float = 0.0


@dataclass(frozen=True, slots=True)
class Reach:
    """A length of pipe from the node `upper` down to the node `lower`.

    Parameters
    ----------
    name, upper, lower
        Its own name and those of its two nodes.
    length_m, section, n
        Length [m], inside of one barrel, Manning roughness. [s/m^(1/3)]
    upper_invert_m, lower_invert_m
        Inverts at its two ends; an adverse reach has the lower end higher. [m]
    barrels
        Equal pipes side by side.
    bend_degrees
        Each bend within it. [degrees]
    joins_degrees
        Angle at which it meets the pipe that leaves its lower node. [degrees]
    entrance_k
        Entrance loss over velocity head where it begins at a pool. [-]
    """

    name: str
    upper: str
    lower: str
    length_m: float
    section: Section
    n: float
    upper_invert_m: float
    lower_invert_m: float
    barrels: int = 1
    bend_degrees: tuple[float, ...] = ()
    joins_degrees: float = 0.0
    entrance_k: float = 0.5

    @property
    def slope(self) -> float:
        """Fall over length, downstream; below zero where it runs backward."""
        return (self.upper_invert_m - self.lower_invert_m) / self.length_m


FaultKind = Literal[
    "name twice", "unknown node", "two ways down", "outlet flows on", "loop", "no way out", "number"
]


@dataclass(frozen=True, slots=True)
class TreeFault:
    """One thing that keeps nodes and reaches from being a tree."""

    kind: FaultKind
    names: tuple[str, ...]
    message: str


class BadTree(ValueError):  # noqa: N818 - the faults are the point, not the word error
    """Nodes and reaches that make no tree; `faults` holds every one found."""

    def __init__(self, faults: Sequence[TreeFault]) -> None:
        """Keep the faults and join their messages."""
        self.faults = tuple(faults)
        super().__init__("; ".join(fault.message for fault in self.faults))


@dataclass(frozen=True, slots=True)
class Tree:
    """Nodes and reaches that all lead to one outlet, checked once.

    Parameters
    ----------
    nodes, reaches
        In any order.
    outlet
        The node at which the water is let go.

    Raises
    ------
    BadTree
        If a name stands twice or is unknown, a node has two ways down, water would go round
        in a loop or has no way to the outlet, or a number cannot be.

    Notes
    -----
    `upward` holds the reaches from the outlet up, `arrivals` those that end at each node,
    `flows_m3s` the flow of each reach, all barrels.

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> house, curb = Node("house", 100.1, 100.9, 0.002), Node("curb", 100.0, 100.0)
    >>> line = Reach("line", "house", "curb", 10.0, Round(0.1), 0.011, 100.1, 100.0)
    >>> Tree((house, curb), (line,), "curb").flows_m3s["line"]
    0.002
    """

    nodes: tuple[Node, ...]
    reaches: tuple[Reach, ...]
    outlet: str
    upward: tuple[Reach, ...] = field(init=False, repr=False, compare=False)
    arrivals: Mapping[str, tuple[Reach, ...]] = field(init=False, repr=False, compare=False)
    flows_m3s: Mapping[str, float] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Check all of it, then put the reaches in order and add the flows."""
        faults = (*_name_faults(self), *_number_faults(self))
        if not faults:
            faults = tuple(_way_faults(self))
        if faults:
            raise BadTree(faults)
        object.__setattr__(self, "arrivals", _arrivals(self))
        object.__setattr__(self, "upward", _upward(self))
        object.__setattr__(self, "flows_m3s", _flows(self))

    def node(self, name: str) -> Node:
        """Return the node of this name; KeyError if there is none."""
        return _named(self.nodes, name)

    def reach(self, name: str) -> Reach:
        """Return the reach of this name; KeyError if there is none."""
        return _named(self.reaches, name)


@dataclass(frozen=True, slots=True)
class StillNode:
    """Water at a node; a dry node's level is its invert."""

    name: str
    level_m: float
    depth_m: float
    volume_m3: float


@dataclass(frozen=True, slots=True)
class StillReach:
    """Water lying in a reach, and over what length."""

    name: str
    level_m: float
    depth_m: float
    wet_length_m: float
    volume_m3: float


@dataclass(frozen=True, slots=True)
class StillWater:
    """Water lying in the whole run, from the outlet up."""

    nodes: tuple[StillNode, ...]
    reaches: tuple[StillReach, ...]

    def _parts(self) -> tuple[StillNode | StillReach, ...]:
        return (*self.nodes, *self.reaches)

    @property
    def volume_m3(self) -> float:
        """All of it, in m3."""
        return math.fsum(part.volume_m3 for part in self._parts())

    @property
    def depth_m(self) -> float:
        """The deepest water anywhere, in m."""
        return max(part.depth_m for part in self._parts())

    def node(self, name: str) -> StillNode:
        """Return the water at this node; KeyError if there is none."""
        return _named(self.nodes, name)

    def reach(self, name: str) -> StillReach:
        """Return the water in this reach; KeyError if there is none."""
        return _named(self.reaches, name)


def still_water(
    tree: Tree, tailwater_m: float | None = None, outlet_sill_m: float | None = None
) -> StillWater:
    """Return the water that lies in a run when nothing flows.

    Parameters
    ----------
    tree
        The run.
    tailwater_m
        Level of still water at the outlet; none for what is left standing after rain. [m]
    outlet_sill_m
        Level over which water leaves, such as the rim of an emitter; else the invert. [m]

    Notes
    -----
    A node holds water up to the highest invert on its way to the outlet; the street stands in
    where its level is above every invert on the way. Volumes are exact, not stepped.

    References
    ----------
    .. [1] Hydrostatics; geometry of the circular segment

    Examples
    --------
    >>> from permitkit.hydraulics.section import Round
    >>> dip, curb = Node("dip", 99.98, 100.9), Node("curb", 100.0, 100.0)
    >>> line = Reach("line", "dip", "curb", 10.0, Round(0.1), 0.011, 99.98, 100.0)
    >>> round(still_water(Tree((dip, curb), (line,), "curb")).node("dip").depth_m, 3)
    0.02
    """
    outlet = tree.node(tree.outlet)
    sill = outlet.invert_m if outlet_sill_m is None else outlet_sill_m
    level = sill if tailwater_m is None else max(sill, finite("tailwater", tailwater_m))
    levels = {outlet.name: level}
    reaches: list[StillReach] = []
    for reach in tree.upward:
        level = max(levels[reach.lower], reach.lower_invert_m)
        levels[reach.upper] = max(level, reach.upper_invert_m)
        reaches.append(_still_reach(reach, level))
    nodes = {node.name: node for node in tree.nodes}
    still = tuple(_still_node(nodes[name], level) for name, level in levels.items())
    return StillWater(still, tuple(reaches))


def _still_node(node: Node, level_m: float) -> StillNode:
    """Return the water at a node under a level."""
    depth = max(level_m - node.invert_m, 0.0)
    return StillNode(node.name, max(level_m, node.invert_m), depth, depth * node.plan_area_m2)


def _still_reach(reach: Reach, level_m: float) -> StillReach:
    """Return the water in a sloping pipe under a level surface."""
    ends = (reach.upper_invert_m, reach.lower_invert_m)
    shallow, deep = (max(level_m - invert, 0.0) for invert in (max(ends), min(ends)))
    fall = max(ends) - min(ends)
    if fall == 0.0:
        volume = reach.section.wetted(deep).area_m2 * reach.length_m
        wet = float(deep > 0.0)
    else:
        integral = reach.section.area_integral_m3
        volume = (integral(deep) - integral(shallow)) * reach.length_m / fall
        wet = (deep - shallow) / fall
    return StillReach(reach.name, level_m, deep, wet * reach.length_m, volume * reach.barrels)


class _Named(Protocol):
    """Anything that carries a name."""

    @property
    def name(self) -> str: ...


_Part = TypeVar("_Part", bound=_Named)


def _named(parts: Iterable[_Part], name: str) -> _Part:
    """Return the part of this name; KeyError if there is none."""
    for part in parts:
        if part.name == name:
            return part
    raise KeyError(name)


def _name_faults(tree: Tree) -> Iterator[TreeFault]:
    """Yield names that stand twice and nodes that are spoken of but not there."""
    nodes = [node.name for node in tree.nodes]
    for names in (nodes, [reach.name for reach in tree.reaches]):
        for name in sorted(name for name, count in Counter(names).items() if count > 1):
            yield TreeFault("name twice", (name,), f"the name {name!r} stands twice")
    spoken = [tree.outlet, *(end for reach in tree.reaches for end in (reach.upper, reach.lower))]
    for name in sorted(set(spoken) - set(nodes)):
        yield TreeFault("unknown node", (name,), f"there is no node {name!r}")


def _number_faults(tree: Tree) -> Iterator[TreeFault]:
    """Yield numbers that cannot be."""
    for node in tree.nodes:
        levels = (node.invert_m, node.ground_m, node.inflow_m3s, node.plan_area_m2)
        if not all(map(math.isfinite, levels)) or min(levels[2:]) < 0.0:
            text = f"node {node.name!r} needs finite levels, and inflow and area not below zero"
            yield TreeFault("number", (node.name,), text)
    for reach in tree.reaches:
        ends = (reach.upper_invert_m, reach.lower_invert_m, reach.length_m, reach.n)
        turns = (0.0, reach.joins_degrees, *reach.bend_degrees)
        whole = all(map(math.isfinite, (*ends, reach.entrance_k)))
        fair = all(0.0 <= turn <= 180.0 for turn in turns) and reach.entrance_k >= 0.0  # noqa: PLR2004
        if not (whole and fair) or min(ends[2:]) <= 0.0 or reach.barrels < 1:
            text = f"reach {reach.name!r} needs finite inverts, and length, n and barrels over zero"
            yield TreeFault("number", (reach.name,), text)


def _way_faults(tree: Tree) -> Iterator[TreeFault]:
    """Yield nodes with two ways down, and those whose way never comes to the outlet."""
    down: dict[str, str] = {}
    for reach in tree.reaches:
        if reach.upper == tree.outlet:
            text = f"reach {reach.name!r} leads away from the outlet {tree.outlet!r}"
            yield TreeFault("outlet flows on", (reach.name,), text)
        elif reach.upper in down:
            text = f"node {reach.upper!r} has two ways down"
            yield TreeFault("two ways down", (reach.upper,), text)
        else:
            down[reach.upper] = reach.lower
    looped: set[str] = set()
    for node in tree.nodes:
        way = _way(node.name, down)
        if way[-1] == tree.outlet or node.name in looped:
            continue
        if way[-1] in way[:-1]:
            looped.update(way)
            ring = tuple(way[way.index(way[-1]) :])
            yield TreeFault("loop", ring, f"water goes round: {' to '.join(ring)}")
        else:
            text = f"node {node.name!r} has no way to the outlet {tree.outlet!r}"
            yield TreeFault("no way out", (node.name,), text)


def _way(name: str, down: Mapping[str, str]) -> list[str]:
    """Return the nodes from here down, until there is no way on or one comes again."""
    way = [name]
    while way[-1] in down and way[-1] not in way[:-1]:
        way.append(down[way[-1]])
    return way


def _arrivals(tree: Tree) -> Mapping[str, tuple[Reach, ...]]:
    """Return the reaches that arrive at each node, in the order given."""
    arriving: dict[str, list[Reach]] = {node.name: [] for node in tree.nodes}
    for reach in tree.reaches:
        arriving[reach.lower].append(reach)
    return MappingProxyType({name: tuple(reaches) for name, reaches in arriving.items()})


def _upward(tree: Tree) -> tuple[Reach, ...]:
    """Return the reaches breadth first from the outlet."""
    order = list(tree.arrivals[tree.outlet])
    for reach in order:
        order.extend(tree.arrivals[reach.upper])
    return tuple(order)


def _flows(tree: Tree) -> Mapping[str, float]:
    """Return the flow of each reach: what enters at its upper node and all that arrives there."""
    through = {node.name: node.inflow_m3s for node in tree.nodes}
    flows = {}
    for reach in reversed(tree.upward):
        flows[reach.name] = through[reach.upper]
        through[reach.lower] += through[reach.upper]
    return MappingProxyType(flows)
