"""The tags over a profile: each node's name, station and levels, led down to its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.profile.layout import TAG_PITCH_MM
from permitkit.drawing.shapes import Anchor, Label, Polyline, Role
from permitkit.drawing.sheet_parts.spread import spread
from permitkit.drawing.sheet_parts.text import PITCH_MM, shortened
from permitkit.model.drain import OUTLET

if TYPE_CHECKING:
    from permitkit.drawing.profile.course import Course
    from permitkit.drawing.profile.strip import Strip
    from permitkit.drawing.shapes import Shape
    from permitkit.study.results import NodeWater

__all__ = ["node_name", "station_text", "tags", "tags_height_mm"]

_AIR_MM = 3.0
_LEADER_MM = 5.0
_KNEE_MM = 2.0
_NAME_MM = 34.0


def node_name(course: Course, node: NodeWater) -> str:
    """Return what a node is called on the sheet."""
    if node.name != OUTLET:
        return shortened(node.name, _NAME_MM, bold=True)
    return "outlet at the curb" if course.curb else f"outlet: {course.job.outlet.kind}"


def station_text(course: Course, node: NodeWater) -> str:
    """Return the station of a node as printed."""
    return course.figures.distance(node.station_m) if node.station_m else "0"


def _lines(course: Course, node: NodeWater, *, full: bool) -> tuple[str, ...]:
    """Return a tag of two lines, or of four with the levels."""
    write = course.figures
    named = (node_name(course, node), f"station {station_text(course, node)}")
    if not full:
        return named
    levels = (f"ground {write.at_level(node.ground_m)}", f"invert {write.at_level(node.invert_m)}")
    return (*named, *levels)


def _line(course: Course, node: NodeWater) -> str:
    """Return a tag of one line."""
    return f"{shortened(node.name, _NAME_MM)}, {station_text(course, node)}"


def _level(course: Course, across_mm: float, *, full: bool) -> bool:
    """Return whether the tags of all nodes have room lying level, side by side."""
    widths = (_across_mm(_lines(course, node, full=full)) + _AIR_MM for node in course.trunk)
    return sum(widths) <= across_mm


def tags_height_mm(course: Course, across_mm: float, *, full: bool) -> float:
    """Return the height that the tags and their leaders take, in mm.

    Parameters
    ----------
    course
        What is drawn.
    across_mm
        The width of the paper they have. [mm]
    full
        Whether they give levels too, because the table of nodes stands on another sheet.
    """
    if _level(course, across_mm, full=full):
        return (4 if full else 2) * PITCH_MM + _LEADER_MM
    texts = (_line(course, node) for node in course.trunk)
    return max(Label(text, (0.0, 0.0)).width_mm for text in texts) + _LEADER_MM + 1.0


def tags(
    course: Course, strip: Strip, edges_mm: tuple[float, float], *, full: bool
) -> tuple[Shape, ...]:
    """Return the tags of the nodes on a sheet, side by side between two edges, in mm."""
    nodes = [node for node in course.trunk if strip.shows(node.station_m)]
    wanted = [strip.x(node.station_m) for node in nodes]
    if _level(course, edges_mm[1] - edges_mm[0], full=full):
        texts = [_lines(course, node, full=full) for node in nodes]
        widths = [_across_mm(lines) + _AIR_MM for lines in texts]
        middles = spread(wanted, widths, *edges_mm)
        return _set_level(strip, nodes, texts, middles or tuple(wanted))
    middles = spread(wanted, [TAG_PITCH_MM] * len(nodes), *edges_mm)
    return _set_upright(course, strip, nodes, middles or tuple(wanted))


def _across_mm(lines: tuple[str, ...]) -> float:
    """Return how wide a level tag is, in mm."""
    return Label("\n".join(lines), (0.0, 0.0), bold=True).width_mm


def _set_level(
    strip: Strip,
    nodes: list[NodeWater],
    texts: list[tuple[str, ...]],
    middles: tuple[float, ...],
) -> tuple[Shape, ...]:
    """Return level tags, the name of each bold, with their leaders."""
    shapes: list[Shape] = []
    for node, (name, *rest), middle in zip(nodes, texts, middles, strict=True):
        top = strip.plot.top + (1 + len(rest)) * PITCH_MM + _LEADER_MM
        left = middle - _across_mm((name, *rest)) / 2
        shapes.append(Label(name, (left, top), Anchor.NW, bold=True))
        shapes.append(Label("\n".join(rest), (left, top - PITCH_MM), Anchor.NW))
        shapes.append(_leader(strip, node, (middle, strip.plot.top + _LEADER_MM)))
    return tuple(shapes)


def _set_upright(
    course: Course, strip: Strip, nodes: list[NodeWater], middles: tuple[float, ...]
) -> tuple[Shape, ...]:
    """Return upright tags with their leaders."""
    foot = strip.plot.top + _LEADER_MM
    shapes: list[Shape] = []
    for node, middle in zip(nodes, middles, strict=True):
        text = _line(course, node)
        shapes.append(Label(text, (middle, foot + 0.5), Anchor.W, angle_deg=90.0))
        shapes.append(_leader(strip, node, (middle, foot)))
    return tuple(shapes)


def _leader(strip: Strip, node: NodeWater, start: tuple[float, float]) -> Polyline:
    """Return the line from a tag down to the plot over its node."""
    x, top = strip.x(node.station_m), strip.plot.top
    knees = ((start[0], start[1] - _KNEE_MM / 2), (x, top + _KNEE_MM / 2))
    return Polyline((start, *knees, (x, top)), Role.NOTE)
