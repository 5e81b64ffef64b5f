"""The tables of a profile: its nodes with levels and spare height, and its reaches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.profile.course import spare_m
from permitkit.drawing.profile.tags import station_text
from permitkit.drawing.sheet_parts.written import speed_text
from permitkit.model.drain import OUTLET
from permitkit.study.results import WATERS

if TYPE_CHECKING:
    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.sheet_parts.table import Row
    from permitkit.study.results import NodeWater, ReachWater

__all__ = ["node_table", "reach_table"]


def node_table(course: Course) -> tuple[Row, list[Row]]:
    """Return heads and rows of the table of nodes, the farthest first, branches after the trunk."""
    waters = WATERS if course.curb else WATERS[:1]
    names = ("free", "running", "curb-full") if course.curb else ("flowing",)
    heads = (
        "Node",
        "Station",
        "Ground",
        "Invert",
        "Lowest opening",
        *(f"Water, {name}" for name in names),
        "Least spare",
    )
    return heads, [_node_row(course, node, waters) for node in _nodes(course)]


def _nodes(course: Course) -> list[NodeWater]:
    """Return the trunk from the far end to the outlet, then the branches."""
    names = {node.name for node in course.trunk}
    off = [node for node in course.study.water.nodes if node.name not in names]
    return [*reversed(course.trunk), *off]


def _node_row(course: Course, node: NodeWater, waters: tuple[str, ...]) -> Row:
    """Return one node; water levels are those at design flow."""
    write = course.figures
    return (
        node.name,
        station_text(course, node),
        write.at_level(node.ground_m),
        write.at_level(node.invert_m),
        _opening(course, node),
        *(write.at_level(node.flowing_m[name]) for name in waters),
        _spare(course, node),
    )


def _opening(course: Course, node: NodeWater) -> str:
    """Return the opening of a node, or that there is none."""
    if node.opening_m is None:
        return "outlet" if node.name == OUTLET else "sealed"
    return f"{course.figures.at_level(node.opening_m)} {node.opening_kind}".strip()


def _spare(course: Course, node: NodeWater) -> str:
    """Return the height to spare at a node over the highest water, still or flowing."""
    spare = spare_m(node)
    if spare is None:
        return "-"
    write = course.figures.height
    return write(spare) if spare >= 0.0 else f"short {write(-spare)}"


def reach_table(course: Course) -> tuple[Row, list[Row]]:
    """Return heads and rows of the table of reaches, the farthest first."""
    heads = (
        "Reach",
        "Length",
        "Pipe",
        "Slope",
        "Bends",
        "Flow",
        "Full flow",
        "Normal depth",
        "Velocity",
    )
    reaches = sorted(course.study.water.reaches, key=lambda reach: -reach.station_high_m)
    return heads, [_reach_row(course, reach) for reach in reaches]


def _reach_row(course: Course, reach: ReachWater) -> Row:
    """Return one reach."""
    write = course.figures
    twin = f"{reach.barrels} x " if reach.barrels > 1 else ""
    bends = ", ".join(f"{bend:g}" for bend in reach.bends_deg)
    return (
        reach.name,
        write.distance(reach.length_m),
        f"{twin}{reach.pipe.name}",
        write.slope(reach.slope),
        f"{bends} deg" if bends else "-",
        write.flow(reach.flow_m3s),
        write.flow(reach.full_flow_m3s),
        _depth(course, reach),
        speed_text(write, reach.velocity_ms),
    )


def _depth(course: Course, reach: ReachWater) -> str:
    """Return the normal depth, or that the pipe is over its full flow."""
    if reach.normal_depth_m is None:
        return "runs full"
    return course.figures.height(reach.normal_depth_m)
