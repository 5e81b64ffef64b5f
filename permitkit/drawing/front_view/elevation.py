"""The curb seen from the street along the frontage: outlet, joints, drives, side lines."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.dimensions import Along, Arrow, Dimension, on_tracks
from permitkit.drawing.scale import Kind, Scale, View, scales
from permitkit.drawing.shapes import (
    LEAST_LETTERING_MM,
    Anchor,
    Box,
    Circle,
    Fill,
    Label,
    Line,
    Polygon,
    Role,
    Shape,
)
from permitkit.drawing.sheet_parts.pane import Pane, Part, joined
from permitkit.drawing.site_sketch.strings import Span, spans_along

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.callouts import Note
    from permitkit.drawing.info import Figures
    from permitkit.drawing.shapes import Point
    from permitkit.drawing.site_sketch.lot import Lot

__all__ = ["Elevation", "elevation"]

_SIDE_MM = 16.0
_FIRST_MM = 9.0
_TRACK_MM = 6.4
_ABOVE_MM = 16.0
_BELOW_MM = 4.0
_LINE_MM = 5.0
_DROPPED = 0.15
_EDGE_SHARE = 0.04
_LEAST_M = 0.4
_NEAR_JOINT_M = 6.0
_NEAR_M = 2.5
_FAR_ROW_MM = 4.6


class Elevation(NamedTuple):
    """The view, its scale, and the paper it takes."""

    part: Part
    scale: Scale
    box: Box


def elevation(lot: Lot, figures: Figures, room: Box) -> Elevation | None:
    """Return the front view standing on the bottom of a room, or None where no curb is opened.

    Parameters
    ----------
    lot
        Stations along the curb.
    room
        The most it may take. [mm]
    """
    curb = lot.study.curb
    if curb is None or not lot.at_curb:
        return None
    scale, left, right = _stretch(lot, figures, room)
    middle = room.centre[0] - scale.paper_mm((right - left) / 2)
    trial = _pane(scale, (left, right), (middle, 0.0), room, curb.reveal_m)
    low = min(mark.box.bottom for mark in _lowest(_told(lot, trial, figures)))
    foot = room.bottom - low + 1.0
    pane = _pane(scale, (left, right), (middle, foot), room, curb.reveal_m)
    top = foot + scale.paper_mm(curb.reveal_m) + _ABOVE_MM
    parts = joined(_curb(lot, pane), _openings(lot, pane, figures), _told(lot, pane, figures))
    return Elevation(parts, scale, Box(room.left, room.bottom, room.right, top))


def _lowest(part: Part) -> Iterator[Label]:
    """Return the texts of dimensions and arrows."""
    for shape in part.shapes:
        if isinstance(shape, Dimension):
            yield shape.label
        elif isinstance(shape, Label):
            yield shape


def _pane(scale: Scale, span: tuple[float, float], at: Point, room: Box, reveal_m: float) -> Pane:
    """Return the way to the paper: stations right, heights over the flow line up."""
    ground = Box(span[0], -scale.real_m(_BELOW_MM), span[1], reveal_m + scale.real_m(_LINE_MM))
    return Pane(View(scale, (span[0], 0.0), at), ground, room)


def _stretch(lot: Lot, figures: Figures, room: Box) -> tuple[Scale, float, float]:
    """Return the finest scale that shows the outlet between its joints, and the stretch shown."""
    allowed = (*scales(Kind.DETAIL, figures.system), *scales(Kind.PLAN, figures.system))
    x = lot.outlet[0]
    near = [
        span.end_m
        for span in spans_along(lot)
        if span.to and abs(span.end_m - x) < (_NEAR_JOINT_M if span.joint else _NEAR_M)
    ]
    half = min(lot.half_opening_m, _NEAR_M) + _LEAST_M
    need = min(*near, x - half, x + half), max(*near, x - half, x + half)
    for scale in allowed[2:]:
        width = scale.real_m(room.width - 2 * _SIDE_MM)
        if need[1] - need[0] <= width * (1 - 2 * _EDGE_SHARE):
            return (scale, *_widened(lot, need, width))
    scale = allowed[-1]
    width = scale.real_m(room.width - 2 * _SIDE_MM)
    return scale, x - width / 2, x + width / 2


def _widened(lot: Lot, need: tuple[float, float], width: float) -> tuple[float, float]:
    """Return a stretch with what else is dimensioned, nearest first, as far as it has room."""
    low, high = need
    most = width * (1 - 2 * _EDGE_SHARE)
    for span in sorted(spans_along(lot), key=lambda span: span.length_m):
        for station in span[:2]:
            if max(high, station) - min(low, station) <= most:
                low, high = min(low, station), max(high, station)
    spare = min((width - (high - low)) / 2, 0.06 * width)
    return low - spare, high + spare


def _curb(lot: Lot, pane: Pane) -> Part:
    """Return flow line, curb top with its drops at drives and ramps, joints and side lines."""
    curb = lot.study.curb
    reveal = curb.reveal_at_hole_m or curb.reveal_m if curb else 0.0
    ground = pane.ground
    shapes: list[Shape] = [*pane.line((ground.left, 0.0), (ground.right, 0.0), Role.EXISTING)]
    shapes += pane.path(tuple(_top(lot, pane, reveal)), Role.EXISTING)
    for x in lot.curb_joints_m:
        shapes += pane.line((x, 0.0), (x, reveal), Role.EXISTING)
    notes: list[Note] = []
    for x, side in ((0.0, "left"), (lot.frontage_m, "right")):
        shapes += pane.line((x, -1.0), (x, reveal + 1.0), Role.CENTRE)
        notes += pane.note(f"{side} side line extended", (x, ground.top), clear_mm=0.8)
    for feature in lot.job.feature:
        near, far = lot.edges_of(feature)
        seen = max(near, ground.left), min(far, ground.right)
        if feature.kind in {"drive", "ramp", "inlet"} and seen[0] < seen[1]:
            middle = (seen[0] + seen[1]) / 2
            notes += pane.note(feature.name or feature.kind, (middle, reveal * _DROPPED))
    ends = (
        ((ground.left, 0.0), (ground.left, reveal)),
        ((ground.right, 0.0), (ground.right, reveal)),
    )
    shapes += [Line(pane.at(*low), pane.at(*high), Role.DIMENSION) for low, high in ends]
    return Part(tuple(shapes), tuple(notes))


def _top(lot: Lot, pane: Pane, reveal: float) -> Iterator[Point]:
    """Return the line of the curb top from left to right."""
    yield pane.ground.left, reveal
    opened = [feature for feature in lot.job.feature if feature.kind in {"drive", "ramp"}]
    for feature in sorted(opened, key=lot.edges_of):
        near, far = lot.edges_of(feature)
        if far < pane.ground.left or near > pane.ground.right:
            continue
        flare = float(feature.flare) if feature.flare else 0.0
        low = reveal * _DROPPED
        yield from ((near, reveal), (near + flare, low), (far - flare, low), (far, reveal))
    yield pane.ground.right, reveal


def _openings(lot: Lot, pane: Pane, figures: Figures) -> Part:
    """Return holes or notches, the old holes, and what they are."""
    shapes: list[Shape] = []
    for x in lot.holes_m:
        shapes += _opening(lot, pane, x)
    notes = [*pane.note(_opening_words(lot, figures), _opening_tip(lot), priority=6, bold=True)]
    fate = {"keep": "stays", "reuse": "used again", "plug": "plugged"}
    for hole in lot.job.existing:
        x, radius = float(hole.station), float(hole.size) / 2
        at = (x, radius * 1.2)
        if pane.shows(*at) and hole.plan != "reuse":
            shapes.append(Circle(pane.at(*at), pane.mm(radius), Role.EXISTING))
            notes += pane.note(f"old hole, {fate[hole.plan]}", at, priority=3)
    return Part(tuple(shapes), tuple(notes))


def _opening(lot: Lot, pane: Pane, x: float) -> tuple[Shape, ...]:
    """Return one hole with its pipe, or one notch."""
    curb = lot.study.curb
    if curb is None or not pane.spans_x(x):
        return ()
    if curb.hole:
        hole = curb.hole
        centre = pane.at(x, hole.bottom_m + hole.bit_m / 2)
        return (
            Circle(centre, pane.mm(hole.bit_m / 2), Role.PROPOSED, Fill.WHITE),
            Circle(centre, pane.mm(hole.bore_m / 2), Role.PROPOSED),
        )
    if curb.notch is None:
        return ()
    notch, top = curb.notch, curb.reveal_at_hole_m or curb.reveal_m
    low, high = notch.width_m / 2, notch.width_m / 2 + notch.taper_m
    floor = notch.floor_back_m
    corners = ((x - low, floor), (x + low, floor), (x + high, top), (x - high, top))
    return (Polygon(pane.view.points(corners), Role.PROPOSED, Fill.WHITE),)


def _opening_tip(lot: Lot) -> Point:
    """Return the point at the top of the first opening."""
    curb = lot.study.curb
    top = curb.hole.top_m if curb and curb.hole else (curb.reveal_m if curb else 0.0)
    return lot.holes_m[0], top


def _opening_words(lot: Lot, figures: Figures) -> str:
    """Return the opening in words."""
    curb, outlet = lot.study.curb, lot.job.outlet
    count = f"{outlet.count} \N{MULTIPLICATION SIGN} " if outlet.count > 1 else ""
    if curb and curb.hole:
        return f"{count}{figures.height(curb.hole.bit_m)} hole"
    width = figures.height(curb.notch.width_m) if curb and curb.notch else ""
    return f"{count}notch {width} wide"


def _told(lot: Lot, pane: Pane, figures: Figures) -> Part:
    """Return the dimensions below the flow line, and what lies beyond the view."""
    spans = [*spans_along(lot), *_edge_spans(lot)]
    seen = [s for s in spans if pane.spans_x(s.start_m) and pane.spans_x(s.end_m) and s.to]
    base = pane.at(0.0, 0.0)[1]
    rows = [
        Dimension(
            pane.at(span.start_m, 0.0),
            pane.at(span.end_m, 0.0),
            0.0,
            span.text or figures.distance(span.length_m),
            span.length_m,
            Along.HORIZONTAL,
            said=span.said,
        )
        for span in seen
    ]
    tracked = on_tracks(rows, base - _FIRST_MM, -_TRACK_MM) if rows else ()
    ordered = tuple(sorted(tracked, key=lambda row: row.feet[0][1]))
    below = min((row.line_box.bottom for row in ordered), default=base - _FIRST_MM) - _TRACK_MM
    return Part((*ordered, *_beyond(spans, pane, figures, below)))


def _edge_spans(lot: Lot) -> Iterator[Span]:
    """Return the clear distances from the opening's edges to the joints beside it."""
    x, half = lot.outlet[0], lot.half_opening_m
    for span in spans_along(lot):
        edge = x + half if span.end_m > x else x - half
        if span.joint and abs(span.end_m - edge) > 0.0:
            yield Span(edge, span.end_m, to="joint", of="opening")


def _beyond(spans: list[Span], pane: Pane, figures: Figures, top_mm: float) -> Iterator[Shape]:
    """Return a text with an arrow for each distance whose end lies outside the view."""
    rows = {True: 0, False: 0}
    for span in spans:
        if pane.spans_x(span.end_m) or not pane.spans_x(span.start_m) or not span.to:
            continue
        left = span.end_m < span.start_m
        y = top_mm - rows[left] * _FAR_ROW_MM
        rows[left] += 1
        edge = pane.room.left + 1.0 if left else pane.room.right - 1.0
        sign = 1.0 if left else -1.0
        words = f"{span.to}: {span.text or figures.distance(span.length_m)} from the {span.of}"
        yield Arrow((edge + sign * 7.0, y), (edge, y), Role.DIMENSION, 2.4)
        anchor = Anchor.W if left else Anchor.E
        yield Label(words, (edge + sign * 8.0, y), anchor, LEAST_LETTERING_MM)
