"""The water at every node for the three gutter waters, flowing and still."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.hydraulics.profile import GradeLine, grade_line
from permitkit.hydraulics.tree import StillWater, still_water
from permitkit.model.drain import OUTLET
from permitkit.model.keys.run import GUTTER_DEPTH
from permitkit.study.curb import running_depth_m
from permitkit.study.results import WATERS, NodeWater

if TYPE_CHECKING:
    from permitkit.model.drain import Node
    from permitkit.model.job import Job
    from permitkit.study.curb import CurbHeights
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.water.line import Line
    from permitkit.study.water.street import StreetStudy

__all__ = ["ThreeWaters", "gutter_levels", "node_waters", "three_waters"]


@dataclass(frozen=True, slots=True)
class ThreeWaters:
    """The grade line and the still water for each of the three gutter waters, by name."""

    flowing: Mapping[str, GradeLine]
    still: Mapping[str, StillWater]


def gutter_levels(
    job: Job, rules: RulesInForce, heights: CurbHeights, street: StreetStudy | None = None
) -> dict[str, float]:
    """Return the level of each gutter water: none, running, full to the curb top.

    It runs as deep as the town takes it; else as the job measured, or as its flow was computed to
    run; else as high as half the curb.
    """
    rule = rules[GUTTER_DEPTH]
    depth = rule.least if rule.most is None else rule.most
    running = running_depth_m(job, heights)
    if depth is not None:
        running = float(depth)
    elif street is not None and job.gutter.depth_running is None:
        running = street.after.depth_m
    levels = (heights.flow_line_m, heights.flow_line_m + running, heights.top_m)
    return dict(zip(WATERS, levels, strict=True))


def three_waters(
    line: Line, gutter_m: Mapping[str, float], sill_m: float | None, over_sill_m: float | None
) -> ThreeWaters:
    """Return the water in the run for each gutter water, at design flow and without flow.

    Parameters
    ----------
    line
        The run.
    gutter_m
        Levels of the three gutter waters. [m]
    sill_m, over_sill_m
        Of an outlet in the lawn the rim, and the level that the design flow stands to over it;
        None for an outlet at the curb. [m]
    """
    flowing: dict[str, GradeLine] = {}
    still: dict[str, StillWater] = {}
    for name, level in gutter_m.items():
        tail = None if name == WATERS[0] else level
        known = [at for at in (tail, over_sill_m) if at is not None]
        flowing[name] = _grade_line(line, max(known, default=None), flowing)
        still[name] = still_water(line.tree, tail, sill_m)
    return ThreeWaters(flowing, still)


def _grade_line(line: Line, tail_m: float | None, before: Mapping[str, GradeLine]) -> GradeLine:
    """Return the grade line over a tailwater; one below the free outlet changes nothing."""
    free = before.get(WATERS[0])
    if free is not None and tail_m is not None and tail_m <= free.start_m:
        return free
    return grade_line(line.tree, tail_m)


def node_waters(job: Job, line: Line, waters: ThreeWaters) -> tuple[NodeWater, ...]:
    """Return the water at each node, from the outlet up."""
    given = {node.name: node for node in job.drain.node}
    flowing = {name: _levels(line) for name, line in waters.flowing.items()}
    still = {name: {n.name: n.level_m for n in at.nodes} for name, at in waters.still.items()}
    passing = {node.name: node.flow_m3s for node in waters.flowing[WATERS[0]].nodes}
    found = [
        NodeWater(
            name=node.name,
            station_m=line.stations_m[node.name],
            ground_m=node.ground_m,
            invert_m=node.invert_m,
            opening_m=_opening_m(given.get(node.name)),
            opening_kind=_opening_kind(given.get(node.name)),
            flow_m3s=passing[node.name],
            flowing_m={name: levels[node.name] for name, levels in flowing.items()},
            still_m={name: levels[node.name] for name, levels in still.items()},
        )
        for node in line.tree.nodes
    ]
    return tuple(sorted(found, key=lambda node: (node.station_m, node.name)))


def _levels(line: GradeLine) -> dict[str, float]:
    return {node.name: node.level_m for node in line.nodes}


def _opening_m(node: Node | None) -> float | None:
    """Return the lowest place water gets out at a node: as given, else the ground."""
    if node is None or node.name == OUTLET or node.sealed:
        return None
    return float(node.ground if node.opening is None else node.opening)


def _opening_kind(node: Node | None) -> str:
    if node is None or node.name == OUTLET or node.sealed:
        return ""
    return node.opening_kind or ("opening" if node.opening else "ground")
