"""What is closed: the work space, the lane taken with its taper and devices, the signs ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.callouts import Note
from permitkit.drawing.dimensions import arrowhead
from permitkit.drawing.info import held
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import (
    Anchor,
    Box,
    Circle,
    Fill,
    Hatch,
    Label,
    Line,
    Pattern,
    Polygon,
    Role,
)
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.traffic_plan.on_foot import closed_stations_m
from permitkit.drawing.traffic_plan.scene import WALK

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.traffic_plan.scene import Scene

__all__ = ["closure", "signs_ahead", "span"]

_DEVICE_MM = 0.9
_IN_TAPER, _BESIDE = 6, 8
_BEYOND_MM = 20.0
_SIGN_MM = 2.2
_SIGN_SHARE, _SIGN_STEP = 0.92, 0.055
_SPAN_MM = 5.6
_ONE_EACH_WAY = 2


class Sign(NamedTuple):
    """A sign ahead of the work: its text, and how far it stands before the next thing, in m."""

    text: str
    before_m: float | None


def closure(scene: Scene) -> Part:
    """Return the work space, the strips taken, devices, tapers and signs."""
    return joined(_work(scene), _devices(scene), _lengths(scene), _signs(scene))


def _work(scene: Scene) -> Part:
    """Return the work space over verge, what is taken of the street, and a walk that is closed."""
    left, right = scene.work
    walk = scene.strips[WALK]
    top = walk.top if _works_in_walk(scene) else walk.bottom
    foot = scene.taken[-1].bottom if _works_in_street(scene) else scene.curb_mm
    box = Box(left, foot, right, top)
    shapes = (Hatch(box.corners, Pattern.REMOVED, density=0.7), Polygon(box.corners, Role.EXISTING))
    tip = (left + 0.2 * box.width, top - 0.2 * box.height)
    note = Note("work space", tip, bold=True, priority=5, dot=True, prefer=(Side.N, Side.NW))
    return Part(shapes, (note,))


def _works_in_walk(scene: Scene) -> bool:
    """Return whether the walk is closed, or taken out in part."""
    return scene.job.traffic.walk_closed or closed_stations_m(scene) is not None


def _works_in_street(scene: Scene) -> bool:
    """Return whether the work itself stands in what is taken, rather than the way round."""
    return bool(scene.taken) and (scene.way is None or scene.way.strip not in {"parking", "lane 1"})


def _devices(scene: Scene) -> Part:
    """Return the devices: down the taper, along the work, and back at its end."""
    if not scene.taken:
        return Part()
    curb, edge = scene.curb_mm - 1.6, scene.taken[-1].bottom
    left = scene.work[0]
    start, far = scene.taper
    points = [
        (start + share * (far - start), edge + share * (curb - edge))
        for share in (index / (_IN_TAPER - 1) for index in range(_IN_TAPER))
    ]
    end = left - _BEYOND_MM
    points.extend((end + (start - end) * index / _BESIDE, edge) for index in range(_BESIDE))
    points.extend([(end - 3.0, (edge + curb) / 2), (end - 6.0, curb)])
    shapes = tuple(Circle(point, _DEVICE_MM, Role.PROPOSED, Fill.SOLID) for point in points)
    line = Line(points[0], points[_IN_TAPER - 1], Role.HIDDEN)
    return Part((*shapes, line))


def _lengths(scene: Scene) -> Part:
    """Return the lengths along the taper and before the work, and the lane left open."""
    if not scene.taken:
        return Part()
    write, traffic = scene.figures.distance, scene.traffic
    start, end = scene.taper
    level = scene.taken[-1].bottom - _SPAN_MM
    given = scene.job.traffic.taper
    words = f"taper {given.shown()}" if given else "taper"
    if given is None and traffic.taper_need_m is not None:
        words = f"taper, least {write(traffic.taper_need_m)}"
    shapes = list(span((start, level), (end, level), words))
    notes = []
    if traffic.buffer_m is not None:
        ends = ((scene.work[1], level), (start, level))
        shapes.extend(span(*ends, f"buffer {write(traffic.buffer_m)}"))
    if traffic.device_spacing_m is not None:
        middle = ((start + end) / 2, (scene.curb_mm + scene.taken[-1].bottom) / 2 - 0.5)
        spaced = f"devices at most {write(traffic.device_spacing_m)} apart"
        notes.append(Note(held(spaced), middle, priority=4, prefer=(Side.SE, Side.S)))
    return joined(Part(tuple(shapes), tuple(notes)), _lane_left(scene))


def _lane_left(scene: Scene) -> Part:
    """Return an arrow across the lane that stays open beside the work, with its width."""
    width = scene.traffic.lane_left_m
    if width is None:
        return Part()
    lane = scene.open_lane
    x = scene.work[0] + 0.3 * (scene.work[1] - scene.work[0])
    heads = (
        arrowhead((x, lane.top), 90.0, Role.DIMENSION),
        arrowhead((x, lane.bottom), 270.0, Role.DIMENSION),
    )
    shaft = Line((x, lane.bottom), (x, lane.top), Role.DIMENSION)
    words = f"lane left open {scene.figures.distance(width)}"
    tip = (x, lane.bottom + 0.3 * lane.height)
    note = Note(held(words), tip, bold=True, priority=8, clear_mm=1.0, prefer=(Side.E, Side.W))
    return Part((shaft, *heads), (note,))


def span(start: Point, end: Point, words: str) -> tuple[Shape, ...]:
    """Return a length that is not drawn to scale: a line with heads at both ends and its words."""
    middle = ((start[0] + end[0]) / 2, start[1] + 0.5)
    return (
        Line(start, end, Role.DIMENSION),
        arrowhead(start, 180.0, Role.DIMENSION),
        arrowhead(end, 0.0, Role.DIMENSION),
        Label(words, middle, Anchor.S, backing=True),
    )


def signs_ahead(scene: Scene) -> tuple[Sign, ...]:
    """Return the signs before the taper, the one nearest to it first."""
    taken, apart = scene.job.traffic.lane_taken, scene.traffic.sign_spacing_m
    if taken == "none":
        return ()
    if taken != "travel lane":
        return (Sign("ROAD WORK AHEAD", apart),)
    several = len(scene.lanes) > _ONE_EACH_WAY
    middle = "RIGHT LANE CLOSED AHEAD" if several else "ONE LANE ROAD AHEAD"
    last = "lane ends (symbol)" if several else "FLAGGER AHEAD (symbol)"
    return Sign(last, apart), Sign(middle, apart), Sign("ROAD WORK AHEAD", apart)


def _signs(scene: Scene) -> Part:
    """Return the signs as diamonds behind the curb, each with its text and distance."""
    shapes: list[Shape] = []
    notes: list[Note] = []
    whole = scene.whole
    signs = signs_ahead(scene)
    for index, sign in enumerate(reversed(signs)):
        share = _SIGN_SHARE - index * _SIGN_STEP
        centre = (whole.left + share * whole.width, scene.curb_mm + 3.6)
        shapes.append(_diamond(centre))
        after = "the taper" if index == len(signs) - 1 else "the next"
        words = f"\u201c{sign.text}\u201d"
        if sign.before_m is not None:
            words += f", {scene.figures.distance(sign.before_m)} before {after}"
        tip = (centre[0], centre[1] + _SIGN_MM)
        notes.append(Note(held(words), tip, priority=6, wrap_mm=29.0, prefer=_SIGN_SIDES))
    return Part(tuple(shapes), tuple(notes))


_SIGN_SIDES = (Side.N, Side.NW, Side.NE, Side.S)


def _diamond(centre: Point) -> Polygon:
    """Return the outline of a warning sign."""
    x, y = centre
    corners = ((x, y - _SIGN_MM), (x + _SIGN_MM, y), (x, y + _SIGN_MM), (x - _SIGN_MM, y))
    return Polygon(corners, Role.PROPOSED, Fill.WHITE)
