"""The run as the job draws it: nodes and reaches laid from the outlet up, with their stations."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import degrees
from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.hydraulics.materials import Pipe, UnknownPipe, find_pipe
from permitkit.hydraulics.tree import BadTree, Node, Reach, Tree, TreeFault
from permitkit.model.drain import OUTLET
from permitkit.model.drain import Reach as Drawn
from permitkit.study.curb import HOLES, CurbHeights, at_the_curb, hole_bottom_m, hole_size
from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.study.results import InflowWater

__all__ = ["INSERT", "Line", "lay_line", "outlet_pipe"]

INSERT = "insert"
"""The node behind the curb where the line goes over into the smaller pipe in the hole."""

WYE_DEG = 45.0
EXPECTED = {
    "name twice": ("drain.node", "each name once"),
    "unknown node": ("drain.reach", "the name of a node, or outlet"),
    "two ways down": ("drain.reach", "one way down from each node"),
    "outlet flows on": ("drain.reach", "a run that ends at the outlet"),
    "loop": ("drain.reach", "a run that comes to the outlet"),
    "no way out": ("drain.reach", "a way from every node to the outlet"),
    "number": ("drain", "lengths over zero and levels that are numbers"),
}


@dataclass(frozen=True, slots=True)
class Line:
    """The run, checked: its tree, and of each reach by name its pipe and what was drawn.

    `stations_m` holds each node's distance along the run from the curb face (or the emitter), and
    `trunk` the nodes from the outlet to the farthest one.
    """

    tree: Tree
    pipes: Mapping[str, Pipe]
    drawn: Mapping[str, Drawn]
    stations_m: Mapping[str, float]
    trunk: tuple[str, ...]


def outlet_pipe(job: Job) -> Pipe:
    """Return the pipe that ends at the outlet: the one named there, else the lowest reach's.

    Raises
    ------
    InputError
        If no reach comes to the outlet.
    """
    lowest = (reach.pipe for reach in job.drain.reach if reach.lower == OUTLET)
    name = job.outlet.pipe or next(lowest, None)
    if name is None:
        raise _no_way()
    return _pipe(name, "outlet.pipe" if job.outlet.pipe else "drain.reach.pipe")


def lay_line(job: Job, heights: CurbHeights, inflows: Sequence[InflowWater]) -> Line:
    """Return the run laid from the outlet up, with the flow that enters at each node.

    Raises
    ------
    InputError
        If nodes and reaches make no tree, a name or a pipe is unknown, or the outlet has no level.

    Notes
    -----
    Two like reaches between the same nodes are one with two barrels. Where the plan does not say
    at what angle pipes meet, the trunk runs straight on and laterals come in by a 45 degree wye.
    A hole whose pipe is not the line's is a reach of its own as long as the curb is deep, with the
    inverts in line: a reducer that is flush below.
    """
    if not job.drain.reach:
        raise _no_way()
    drawn = _merged(job.drain.reach)
    nodes = _nodes(job, heights, inflows)
    if _has_insert(job, drawn):
        drawn, nodes = _with_insert(job, heights, drawn, nodes)
    pipes = {name: _pipe(reach.pipe, "drain.reach.pipe") for name, reach in drawn.items()}
    stations = _stations(job, heights, drawn)
    trunk = _trunk(drawn, stations)
    inverts = {node.name: node.invert_m for node in nodes}
    _refuse_unknown(inverts, drawn)
    reaches = tuple(
        _reach(name, reach, pipes[name], inverts, trunk) for name, reach in drawn.items()
    )
    try:
        tree = Tree(nodes, reaches, OUTLET)
    except BadTree as bad:
        raise InputError.of(_told(fault) for fault in bad.faults) from None
    return Line(tree, pipes, drawn, stations, trunk)


def _no_way() -> InputError:
    expected = "a reach whose lower end is the outlet"
    return InputError((Fault("drain.reach", "no way to the outlet", expected),))


@lru_cache(maxsize=256)
def _pipe(name: str, where: str) -> Pipe:
    """Return the pipe of a trade name."""
    try:
        return find_pipe(name)
    except UnknownPipe as unknown:
        fix = f"such as {', '.join(unknown.near[:3])}"
        raise InputError.of([Fault(where, repr(name), "a pipe that is known", fix)]) from None


def _merged(reaches: Sequence[Drawn]) -> dict[str, Drawn]:
    """Return the reaches by name, like ones side by side made one with more barrels."""
    merged: dict[str, Drawn] = {}
    for reach in reaches:
        name = f"{reach.upper} to {reach.lower}"
        beside = merged.get(name)
        if beside is None:
            merged[name] = reach
        elif (beside.pipe, beside.length) == (reach.pipe, reach.length):
            barrels = beside.barrels + reach.barrels
            merged[name] = beside.model_copy(update={"barrels": barrels})
        else:
            found = f"two unlike pipes from {reach.upper} to {reach.lower}"
            raise InputError.of([Fault("drain.reach", found, "one way down from each node")])
    return merged


def _has_insert(job: Job, drawn: Mapping[str, Drawn]) -> bool:
    """Tell whether the pipe in the hole is another than the one that comes to it."""
    if job.outlet.kind not in HOLES or job.outlet.pipe is None:
        return False
    own = _pipe(job.outlet.pipe, "outlet.pipe")
    lowest = [reach.pipe for reach in drawn.values() if reach.lower == OUTLET]
    return any(_pipe(name, "drain.reach.pipe") != own for name in lowest)


def _with_insert(
    job: Job, heights: CurbHeights, drawn: Mapping[str, Drawn], nodes: Sequence[Node]
) -> tuple[dict[str, Drawn], tuple[Node, ...]]:
    """Return the run with a reach through the curb for the pipe in the hole.

    Raises
    ------
    InputError
        If a reach to the outlet is no longer than the curb is deep.
    """
    inverts = {node.name: node.invert_m for node in nodes}
    through = from_si(heights.depth_m, Kind.LENGTH, job.curb.top_width.unit or "ft")
    lowest = {name: reach for name, reach in drawn.items() if reach.lower == OUTLET}
    for reach in lowest.values():
        if reach.length <= through:
            expected = f"more than the curb's depth of {through.shown()}, for the pipe in the hole"
            raise InputError.of([Fault("drain.reach.length", reach.length.shown(), expected)])
    slopes = [
        (inverts.get(reach.upper, inverts[OUTLET]) - inverts[OUTLET]) / float(reach.length)
        for reach in lowest.values()
    ]
    level = inverts[OUTLET] + min(slopes) * heights.depth_m
    cut = {
        name: reach.model_copy(update={"lower": INSERT, "length": reach.length - through})
        for name, reach in lowest.items()
    }
    last = Drawn(
        upper=INSERT,
        lower=OUTLET,
        length=through,
        pipe=job.outlet.pipe or "",
        barrels=max(reach.barrels for reach in lowest.values()),
        surface="curb",
    )
    whole = {**drawn, **cut, f"{INSERT} to {OUTLET}": last}
    return whole, (*nodes, Node(INSERT, level, heights.top_m))


def _nodes(job: Job, heights: CurbHeights, inflows: Sequence[InflowWater]) -> tuple[Node, ...]:
    """Return the nodes with what enters at each; the curb outlet's own comes from the curb."""
    entering: dict[str, float] = {}
    for inflow in inflows:
        entering[inflow.node] = entering.get(inflow.node, 0.0) + inflow.flow_m3s
    curb = at_the_curb(job)
    nodes = [
        Node(node.name, float(node.invert), float(node.ground), entering.pop(node.name, 0.0))
        for node in job.drain.node
        if not (curb and node.name == OUTLET)
    ]
    if curb:
        invert = _curb_invert_m(job, heights)
        nodes.append(Node(OUTLET, invert, heights.top_m, entering.pop(OUTLET, 0.0)))
    if entering:
        wrong = (Fault("drain.inflow.node", repr(name), "the name of a node") for name in entering)
        raise InputError.of(wrong)
    return tuple(nodes)


def _curb_invert_m(job: Job, heights: CurbHeights) -> float:
    """Return the level of the pipe's invert in the curb: in the hole, or on the notch floor."""
    outlet = job.outlet
    if outlet.kind in {"core", "existing hole"}:
        size = hole_size(job, outlet_pipe(job))
        return heights.flow_line_m + hole_bottom_m(job, heights, size) + size.invert_up_m
    toe, slope = float(outlet.floor_toe or 0), float(outlet.floor_slope or 0)
    return heights.flow_line_m + toe + slope * heights.depth_m


def _reach(
    name: str, drawn: Drawn, pipe: Pipe, inverts: Mapping[str, float], trunk: Sequence[str]
) -> Reach:
    """Return a reach as the hydraulics take it."""
    return Reach(
        name=name,
        upper=drawn.upper,
        lower=drawn.lower,
        length_m=float(drawn.length),
        section=pipe.section,
        n=pipe.n,
        upper_invert_m=inverts[drawn.upper],
        lower_invert_m=inverts[drawn.lower],
        barrels=drawn.barrels,
        bend_degrees=tuple(degrees(float(bend)) for bend in drawn.bends),
        joins_degrees=0.0 if drawn.upper in trunk else WYE_DEG,
    )


def _refuse_unknown(inverts: Mapping[str, float], drawn: Mapping[str, Drawn]) -> None:
    """Raise for every end of a reach that is no node."""
    ends = {end for reach in drawn.values() for end in (reach.upper, reach.lower)}
    fix = "give the outlet's ground and invert as a node named outlet"
    unknown = [
        Fault("drain.reach", repr(end), "the name of a node", fix if end == OUTLET else "")
        for end in sorted(ends - inverts.keys())
    ]
    if unknown:
        raise InputError.of(unknown)


def _stations(job: Job, heights: CurbHeights, drawn: Mapping[str, Drawn]) -> dict[str, float]:
    """Return each node's distance along the run from the curb face, or from the emitter.

    The pipe to a core ends at the face, that to a notch at the back of the curb.
    """
    notched = job.outlet.kind in {"notch", "culvert under walk"}
    stations = {OUTLET: heights.depth_m if notched else 0.0}
    left = list(drawn.values())
    while met := [reach for reach in left if reach.lower in stations]:
        left = [reach for reach in left if reach.lower not in stations]
        for reach in met:
            stations[reach.upper] = stations[reach.lower] + float(reach.length)
    return stations


def _trunk(drawn: Mapping[str, Drawn], stations_m: Mapping[str, float]) -> tuple[str, ...]:
    """Return the nodes from the outlet up to the farthest one."""
    down = {reach.upper: reach.lower for reach in drawn.values()}
    way = [max(stations_m, key=lambda name: (stations_m[name], name))]
    while way[-1] in down and len(way) <= len(down):
        way.append(down[way[-1]])
    return tuple(reversed(way))


def _told(fault: TreeFault) -> Fault:
    """Return a fault of the tree as its author would look for it."""
    where, expected = EXPECTED[fault.kind]
    return Fault(where, fault.message, expected)
