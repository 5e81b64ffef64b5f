"""The street of the traffic plan as it is: strips, lanes, direction, drives and other features."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.info import held
from permitkit.drawing.placing import SIDES, Side
from permitkit.drawing.shapes import Anchor, Box, Fill, Label, Line, Polygon, Role
from permitkit.drawing.sheet_parts.pane import Part, joined
from permitkit.drawing.sheet_parts.text import shortened
from permitkit.drawing.symbols import flow_arrow
from permitkit.drawing.traffic_plan.scene import FAR_PARKING, FAR_WALK, LOT, PARKING, VERGE, WALK

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.shapes import Shape
    from permitkit.drawing.traffic_plan.scene import Scene
    from permitkit.model.site import Feature

__all__ = ["names", "street"]

_SHOWN = frozenset({"drive", "ramp", "crosswalk", "bus stop", "hydrant", "inlet"})
_SLOTS_LEFT, _SLOTS_RIGHT = (0.15,), (0.76, 0.66)
_HALF_MM = 6.0
_LOT_MM, _NAME_MM = 36.0, 80.0
_INDENT_MM = 2.0
_BESIDE_MM = 60.0


def street(scene: Scene) -> Part:
    """Return the street with its strips, directions and features; names go on top of all."""
    return joined(_strips(scene), _directions(scene), _features(scene))


def _strips(scene: Scene) -> Part:
    """Return the lines between strips: curbs heavy enough to see, lanes dashed between."""
    shapes: list[Shape] = []
    for name, box in scene.strips.items():
        if name == LOT:
            continue
        lane = name.startswith("lane") and box != scene.lanes[0]
        role = Role.CENTRE if lane else Role.EXISTING
        shapes.append(Line((box.left, box.top), (box.right, box.top), role))
    low = scene.whole
    shapes.append(Line((low.left, low.bottom), (low.right, low.bottom), Role.EXISTING))
    curb = scene.curb_mm
    shapes.append(Line((low.left, curb - 0.8), (low.right, curb - 0.8), Role.EXISTING))
    return Part(tuple(shapes))


def names(scene: Scene) -> Part:
    """Return what each strip is called, at its left end."""
    job, write = scene.job, scene.figures.distance
    words = {
        LOT: shortened(job.site.address.partition(",")[0], _LOT_MM),
        WALK: f"walk {write(float(job.walk.width))}",
        VERGE: f"verge {write(float(job.verge.width))}",
        PARKING: _parking(scene),
        FAR_PARKING: _parking(scene),
        FAR_WALK: "far side",
    }
    labels = [
        Label(text, (box.left + _INDENT_MM, box.centre[1]), Anchor.W, backing=True)
        for name, box in scene.strips.items()
        for text in [words.get(name)]
        if text
    ]
    far = scene.lanes[-1]
    left = scene.work[1] if scene.open_lane == far else far.left
    name = shortened(job.street.name, min(_NAME_MM, far.right - left - _BESIDE_MM), bold=True)
    street_words = f"{name}, {write(float(job.street.width))} wide, {job.street.speed.shown()}"
    at = (left + _INDENT_MM, far.centre[1])
    labels.append(Label(street_words, at, Anchor.W, bold=True, backing=True))
    return Part(tuple(labels))


def _parking(scene: Scene) -> str:
    """Return the parking lane in words."""
    width = scene.job.street.parking_width
    return f"parking {width.shown()}" if width else "parking or shoulder"


def _directions(scene: Scene) -> Part:
    """Return an arrow in each lane: cars keep right, so those by the lot drive to the left."""
    lanes = scene.lanes
    near = (len(lanes) + 1) // 2
    arrows = tuple(
        flow_arrow(
            (box.right - 9.0, box.centre[1]), 180.0 if index < near else 0.0, 9.0, Role.EXISTING
        )
        for index, box in enumerate(lanes)
    )
    return Part(arrows)


def _features(scene: Scene) -> Part:
    """Return the nearest features on each side, in their order, with their distances."""
    return joined(
        *(_feature(scene, feature, away, share) for feature, away, share in _placed(scene))
    )


def _placed(scene: Scene) -> Iterator[tuple[Feature, float, float]]:
    """Yield features with their distance from the outlet and their place along the street."""
    station = float(scene.job.outlet.station)
    left, right = [], []
    for feature in scene.job.feature:
        if feature.kind not in _SHOWN:
            continue
        low, high = sorted((float(feature.near), float(feature.far or feature.near)))
        if high <= station:
            left.append((station - high, feature))
        else:
            right.append((max(low - station, 0.0), feature))
    for found, slots, sign in ((left, _SLOTS_LEFT, -1.0), (right, _SLOTS_RIGHT, 1.0)):
        nearest = sorted(found, key=lambda pair: pair[0])
        for (away, feature), share in zip(nearest, slots, strict=False):
            yield feature, sign * away, share


def _feature(scene: Scene, feature: Feature, away: float, share: float) -> Part:
    """Return one feature: an opening in the curb, or a dot behind it."""
    whole, curb = scene.whole, scene.curb_mm
    x = whole.left + share * whole.width
    walk = scene.strips[WALK]
    side = "left" if away < 0 else "right"
    name = feature.name or feature.kind
    words = f"{name}, {scene.figures.distance(abs(away))} {side} of the outlet"
    if feature.kind == "drive":
        words += ", blocked" if scene.job.traffic.drive_blocked == "yes" else ", kept open"
    note = Note(held(words), (x, walk.top), prefer=_OVER, priority=5, wrap_mm=29.0)
    if feature.kind not in {"drive", "ramp", "crosswalk", "bus stop"}:
        dot = Box(x - 0.9, curb + 1.0, x + 0.9, curb + 2.8)
        led = replace(note, tip=(x, dot.top), prefer=SIDES)
        return Part((Polygon(dot.corners, Role.EXISTING, Fill.SOLID),), (led,))
    box = Box(x - _HALF_MM, curb, x + _HALF_MM, walk.top if feature.kind == "drive" else curb + 3.0)
    return Part((Polygon(box.corners, Role.EXISTING, Fill.TONE),), (note,))


_OVER = (Side.N, Side.NE, Side.NW)
