"""Lasting things along the street: drives, ramps, inlets, hydrants, poles, trees, old holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.placing import SIDES, Side
from permitkit.drawing.shapes import (
    Box,
    Circle,
    Fill,
    Line,
    Point,
    Polygon,
    Role,
    Shape,
)
from permitkit.drawing.site_sketch.window import Part, Window, joined

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.site import Feature

__all__ = ["called", "features", "old_holes"]

_LEAST_RADIUS_MM = 0.9
_TACTILE_M = 0.6


def called(feature: Feature) -> str:
    """Return what a feature is called: its own name, else its kind."""
    return feature.name or feature.kind


def features(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return every feature in the window, drawn to scale where its size is known."""
    return joined(*(_drawn(lot, window, feature, figures) for feature in lot.job.feature))


def _drawn(lot: Lot, window: Window, feature: Feature, figures: Figures) -> Part:
    """Return one feature and its name."""
    shapes = _SHAPES[feature.kind](lot, window, feature)
    at = _place(lot, feature)
    words = _words(feature, figures)
    prefer = (Side.S, Side.SE, Side.SW) if feature.kind == "inlet" else SIDES
    clear = _CLEAR_MM.get(feature.kind, 1.5)
    note = window.note(words, at, prefer=prefer, clear_mm=clear, dot=feature.far is not None)
    return Part(shapes, note if shapes else ())


_CLEAR_MM = {
    "hydrant": 2.2,
    "pole": 1.8,
    "tree": 1.8,
    "cabinet": 2.4,
    "bus stop": 3.0,
    "meter box": 1.8,
}


def _place(lot: Lot, feature: Feature) -> Point:
    """Return the middle of a feature, at its own offset or where its kind stands."""
    near, far = lot.edges_of(feature)
    if feature.offset is not None:
        offset = float(feature.offset)
    elif feature.kind == "inlet":
        offset = -lot.pan_m / 2
    elif feature.kind == "crosswalk":
        offset = -lot.pan_m
    elif feature.kind == "curb joint":
        offset = lot.curb_back_m / 2
    elif feature.kind == "drive":
        offset = (lot.walk_back_m + lot.row_m) / 2
    else:
        offset = (lot.curb_back_m + max(lot.walk_front_m, lot.curb_back_m + 0.6)) / 2
    return (near + far) / 2, offset


def _words(feature: Feature, figures: Figures) -> str:
    """Return the name of a feature with what is known of it."""
    words = [called(feature)]
    if feature.species:
        words.append(feature.species)
    if feature.kind == "tree" and feature.trunk:
        words.append(f"trunk {figures.height(float(feature.trunk))}")
    if feature.drip_line:
        words.append(f"drip line {figures.distance(float(feature.drip_line))} out")
    if feature.owner == "neighbour":
        words.append("the neighbor's")
    return ", ".join(words)


def _drive(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a drive from the curb to the house side, with its flares."""
    near, far = lot.edges_of(feature)
    flare = float(feature.flare) if feature.flare else 0.0
    neck = lot.walk_front_m if lot.walk_front_m > lot.curb_back_m else lot.walk_back_m
    left, right = near + flare, far - flare
    back = (
        lot.house.bottom
        if lot.house and left < lot.house.right and right > lot.house.left
        else None
    )
    end = back or window.ground.top
    edges = (((near, 0.0), (left, neck), (left, end)), ((far, 0.0), (right, neck), (right, end)))
    return tuple(mark for edge in edges for mark in window.path(edge, Role.EXISTING))


def _ramp(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a curb ramp with its flares and the tactile strip at its foot."""
    near, far = lot.edges_of(feature)
    flare = float(feature.flare) if feature.flare else 0.0
    top = lot.walk_front_m if lot.walk_front_m > lot.curb_back_m else lot.walk_back_m
    left, right = near + flare, far - flare
    sides = (
        *window.path(((near, 0.0), (left, top)), Role.EXISTING),
        *window.path(((far, 0.0), (right, top)), Role.EXISTING),
        *window.path(((left, top), (left, 0.0)), Role.EXISTING),
        *window.path(((right, top), (right, 0.0)), Role.EXISTING),
    )
    strip = ((left, 0.1), (right, 0.1), (right, 0.1 + _TACTILE_M), (left, 0.1 + _TACTILE_M))
    return (*sides, *window.area(strip, Role.EXISTING, Fill.TONE))


def _inlet(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a street inlet in the pan, with its bars."""
    near, far = lot.edges_of(feature)
    if far == near:
        near, far = near - 0.45, far + 0.45
    deep = lot.pan_m or 0.45
    frame = ((near, -deep), (far, -deep), (far, 0.0), (near, 0.0))
    bars = (near + (far - near) * share / 5 for share in range(1, 5))
    drawn = (mark for x in bars for mark in window.line((x, -deep), (x, 0.0), Role.EXISTING))
    return (*window.area(frame, Role.EXISTING), *drawn)


def _tree(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a tree's trunk, and its drip line where measured."""
    at = _place(lot, feature)
    radius = max(window.mm(float(feature.trunk or 0) / 2), _LEAST_RADIUS_MM)
    trunk = window.symbol(at, lambda p: (Circle(p, radius, Role.PLANT, Fill.TONE),))
    if feature.drip_line is None:
        return trunk
    return (*trunk, *window.ring(at, float(feature.drip_line), Role.PLANT))


def _hydrant(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a hydrant: a ring with a cross through it."""

    def draw(at: Point) -> tuple[Shape, ...]:
        x, y = at
        return (
            Circle(at, 1.3, Role.EXISTING, Fill.WHITE),
            Line((x - 2.0, y), (x + 2.0, y), Role.EXISTING),
            Line((x, y - 1.3), (x, y + 1.3), Role.EXISTING),
        )

    return window.symbol(_place(lot, feature), draw)


def _pole(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a pole: a small black disc."""
    return window.symbol(
        _place(lot, feature), lambda p: (Circle(p, 1.0, Role.EXISTING, Fill.SOLID),)
    )


def _box(
    side_mm: float, fill: Fill = Fill.WHITE
) -> Callable[[Lot, Window, Feature], tuple[Shape, ...]]:
    """Return the way to draw a small box."""

    def draw(at: Point) -> tuple[Shape, ...]:
        return (Polygon(Box(*at, *at).grown(side_mm / 2).corners, Role.EXISTING, fill),)

    return lambda lot, window, feature: window.symbol(_place(lot, feature), draw)


def _crosswalk(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return the two lines of a crosswalk, as far into the street as the drawing goes."""
    return tuple(
        mark
        for x in lot.edges_of(feature)
        for mark in window.line((x, -lot.pan_m), (x, window.ground.bottom), Role.EXISTING)
    )


def _curb_joint(lot: Lot, window: Window, feature: Feature) -> tuple[Shape, ...]:
    """Return a joint across curb and pan."""
    x = float(feature.near)
    return window.line((x, -lot.pan_m), (x, lot.curb_back_m), Role.EXISTING)


_SHAPES: Mapping[str, Callable[[Lot, Window, Feature], tuple[Shape, ...]]] = {
    "drive": _drive,
    "ramp": _ramp,
    "inlet": _inlet,
    "hydrant": _hydrant,
    "pole": _pole,
    "tree": _tree,
    "crosswalk": _crosswalk,
    "bus stop": _box(3.0, Fill.SOLID),
    "cabinet": _box(3.6),
    "meter box": _box(2.4),
    "curb joint": _curb_joint,
}


def old_holes(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return the holes already in the curb, with what becomes of each."""
    fate = {"keep": "stays in use", "reuse": "to be used again", "plug": "to be plugged"}
    parts: list[Part] = []
    for hole in lot.job.existing:
        at = (float(hole.station), lot.curb_back_m / 2)
        words = f"old {figures.height(float(hole.size))} hole, {fate[hole.plan]}"
        shapes = window.symbol(at, lambda p, plug=hole.plan == "plug": _hole_mark(p, plug=plug))  # type: ignore[misc]
        note = window.note(words, at, prefer=(Side.S, Side.SE, Side.SW), priority=4)
        parts.append(Part(shapes, note))
    return joined(*parts)


def _hole_mark(at: Point, *, plug: bool) -> tuple[Shape, ...]:
    """Return the mark of an old hole: a ring, crossed out where it is plugged."""
    x, y = at
    ring = Circle(at, 1.1, Role.EXISTING, Fill.WHITE)
    if not plug:
        return (ring,)
    return (
        ring,
        Line((x - 1.4, y - 1.4), (x + 1.4, y + 1.4), Role.REMOVED),
        Line((x - 1.4, y + 1.4), (x + 1.4, y - 1.4), Role.REMOVED),
    )
