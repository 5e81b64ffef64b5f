"""Strings of dimensions on the plan: along the curb below, across the street at the right."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.dimensions import Along, Dimension, on_tracks
from permitkit.drawing.site_sketch.things import called

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from permitkit.drawing.info import Figures
    from permitkit.drawing.shapes import Box, Point
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.drawing.site_sketch.window import Window
    from permitkit.model.job import Job
    from permitkit.model.site import Feature

__all__ = ["TRACK_MM", "Span", "across_street", "along_curb", "emitter_ties", "spans_along"]

TRACK_MM = 6.2
"""From one dimension line to the next. [mm]"""

_FIRST_MM = 9.0
_SECTION_MM = 4.5
_CLEARED = ("drive", "ramp", "inlet", "crosswalk", "bus stop")
_LASTING = ("hydrant", "pole", "inlet", "curb joint", "drive", "cabinet")
_NEAR_M = 30.5
_LEAST_M = 0.005
_NEXT = "next opening"
_TIE_OFFSETS_MM = (5.0, 11.0, 17.0, -5.0, -11.0)


class Span(NamedTuple):
    """A length along the curb that is dimensioned.

    Parameters
    ----------
    start_m, end_m
        From the outlet to what it is measured to. [m]
    tie
        Whether a far plan shows it too.
    text
        What is printed, where the author measured just that.
    to, of
        What it is measured to, and from which part of the outlet; nothing for the frontage.
    joint
        Whether it is measured to a curb joint.
    """

    start_m: float
    end_m: float
    tie: bool = False
    text: str = ""
    to: str = ""
    of: str = "outlet"
    joint: bool = False

    @property
    def length_m(self) -> float:
        """Return the length."""
        return abs(self.end_m - self.start_m)

    @property
    def said(self) -> tuple[str, ...]:
        """Return what is measured in words, the longest first."""
        if not self.to:
            return ("frontage",)
        if self.to == _NEXT:
            return ("center to center",)
        if self.of == "opening":
            return f"clear to {self.to}", "clear"
        return f"from center to {self.to}", "from center"


def spans_along(lot: Lot) -> tuple[Span, ...]:
    """Return the lengths along the curb that a reviewer looks for, ties first."""
    if not lot.at_curb:
        return (Span(0.0, lot.frontage_m, tie=True, text=lot.job.site.frontage.shown()),)
    x, half = lot.outlet[0], lot.half_opening_m
    rows = [*_ties(lot), *_apart(lot), *_joints(lot.job, x), *_clear(lot, x, half)]
    rows.append(Span(0.0, lot.frontage_m, tie=True, text=lot.job.site.frontage.shown()))
    return tuple(_distinct(row for row in rows if row.length_m > _LEAST_M))


def _distinct(spans: Iterable[Span]) -> Iterator[Span]:
    """Return spans without those that measure the same again."""
    seen: set[tuple[float, float]] = set()
    for span in spans:
        key = round(min(span[:2]), 3), round(max(span[:2]), 3)
        if key not in seen:
            seen.add(key)
            yield span


def _ties(lot: Lot) -> Iterator[Span]:
    """Return the two ties: to a side line extended, and to a lasting thing."""
    x = lot.outlet[0]
    said = (lot.job.outlet.tie_line_from or "").lower()
    right = "right" in said or (not said and lot.frontage_m - x < x)
    side = "right" if right else "left"
    yield Span(x, lot.frontage_m if right else 0.0, tie=True, to=f"{side} side line")
    thing = _lasting(lot)
    if thing is not None:
        near, far = lot.edges_of(thing)
        end = near if abs(near - x) <= abs(far - x) else far
        yield Span(x, end, tie=True, to=called(thing))


def _apart(lot: Lot) -> Iterator[Span]:
    """Return how far apart the holes or notches stand."""
    spacing = lot.job.outlet.spacing
    for start, end in pairwise(lot.holes_m):
        yield Span(start, end, text=spacing.shown() if spacing else "", to=_NEXT)


def _lasting(lot: Lot) -> Feature | None:
    """Return the thing the outlet is tied to: the one named, else the nearest that lasts."""
    said = (lot.job.outlet.tie_object_from or "").lower()
    named = [
        f
        for f in lot.job.feature
        if said and (called(f).lower() in said or said in called(f).lower())
    ]
    lasting = named or [f for f in lot.job.feature if f.kind in _LASTING]
    return min(lasting, key=lambda f: (f.kind == "drive", _away(lot, f)), default=None)


def _away(lot: Lot, feature: Feature) -> float:
    """Return how far a feature stands from the outlet, along the curb."""
    near, far = lot.edges_of(feature)
    return min(abs(near - lot.outlet[0]), abs(far - lot.outlet[0]))


def _joints(job: Job, x: float) -> Iterator[Span]:
    """Return the distances from the outlet to the curb joints beside it."""
    for sign, gap in ((-1, job.curb.joint_left), (1, job.curb.joint_right)):
        if gap is not None:
            end = x + sign * float(gap)
            yield Span(x, end, text=gap.shown(), to="curb joint", joint=True)


def _clear(lot: Lot, x: float, half: float) -> Iterator[Span]:
    """Return the clear distances from the opening to the nearest of each kind on each side."""
    for kind in _CLEARED:
        edges = [lot.edges_of(feature) for feature in lot.job.feature if feature.kind == kind]
        left = max((far for _, far in edges if far < x - half), default=None)
        right = min((near for near, _ in edges if near > x + half), default=None)
        if left is not None and x - left < _NEAR_M:
            yield Span(x - half, left, to=kind, of="opening")
        if right is not None and right - x < _NEAR_M:
            yield Span(x + half, right, to=kind, of="opening")


def along_curb(lot: Lot, window: Window, figures: Figures) -> tuple[Dimension, ...]:
    """Return the string below the curb, the longest outermost and first drawn."""
    spans = [
        span
        for span in spans_along(lot)
        if (window.told or span.tie) and window.spans_x(span.start_m) and window.spans_x(span.end_m)
    ]
    below = _FIRST_MM + (_SECTION_MM if window.told else 0.0)
    line = window.at(0.0, -lot.pan_m)[1] - below
    found = (_horizontal(window, span, figures) for span in spans)
    rows = [row for row in found if row is not None]
    tracked = on_tracks(rows, line, -TRACK_MM) if rows else ()
    return tuple(sorted(tracked, key=lambda row: row.feet[0][1]))


def _horizontal(window: Window, span: Span, figures: Figures) -> Dimension | None:
    """Return a dimension along the curb face, its text let out on the side that has room."""
    for start, end in ((span.start_m, span.end_m), (span.end_m, span.start_m)):
        row = Dimension(
            window.at(start, 0.0),
            window.at(end, 0.0),
            -_FIRST_MM,
            span.text or figures.distance(span.length_m),
            span.length_m,
            Along.HORIZONTAL,
            said=() if span.to else span.said,
        )
        box = row.label.box
        if window.room.left <= box.left and box.right <= window.room.right:
            return row
    return None


def across_street(
    lot: Lot, window: Window, figures: Figures, taken: Sequence[Box] = ()
) -> tuple[Dimension, ...]:
    """Return the string at the right edge: verge, walk, right-of-way line, house.

    Parameters
    ----------
    taken
        Texts that none of theirs may touch; one that would is left out. [mm]
    """
    marks = [lot.curb_back_m, lot.walk_front_m, lot.walk_back_m]
    rows = [(0.0, lot.row_m), *pairwise(marks)]
    if window.told:
        rows.append((-lot.pan_m, 0.0))
    if lot.house and lot.house.bottom > lot.row_m:
        rows.append((lot.row_m, lot.house.bottom))
    right = window.ground.right
    line = window.at(right, 0.0)[0] + _FIRST_MM - 2.0
    dimensions = [
        _vertical(window, low, high, figures)
        for low, high in rows
        if high - low > _LEAST_M and window.shows(right, low) and window.shows(right, high)
    ]
    tracked = on_tracks(dimensions, line, TRACK_MM) if dimensions else ()
    return tuple(row for row in reversed(tracked) if _free(row, window.room, taken))


def _free(dimension: Dimension, room: Box, taken: Sequence[Box]) -> bool:
    """Return whether a dimension's text lies in a room and on no other text."""
    box = dimension.label.box
    return room.holds(box) and not any(box.touches(other) for other in taken)


def _vertical(window: Window, low: float, high: float, figures: Figures) -> Dimension:
    """Return a dimension across the street, measured at the right edge.

    One that begins at the curb face or below it lets its text out at the bottom.
    """
    x = window.ground.right
    value = high - low
    ends = window.at(x, low), window.at(x, high)
    start, end = ends[::-1] if low <= 0.0 else ends
    return Dimension(start, end, 0.0, figures.distance(value), value, Along.VERTICAL)


def emitter_ties(
    lot: Lot, window: Window, figures: Figures, taken: Sequence[Box]
) -> tuple[Dimension, ...]:
    """Return how far an outlet in the lawn lies from side line, right-of-way, walk and house.

    Parameters
    ----------
    taken
        Texts that none of theirs may touch. [mm]
    """
    if lot.at_curb or not window.shows(*lot.outlet):
        return ()
    x, y = lot.outlet
    side = 0.0 if x <= lot.frontage_m - x else lot.frontage_m
    away = 1.0 if side > 0.0 else -1.0
    ends = [((side, y), Along.HORIZONTAL), ((x, lot.row_m), Along.VERTICAL)]
    if abs(lot.walk_back_m - lot.row_m) > _LEAST_M:
        ends.append(((x, lot.walk_back_m), Along.VERTICAL))
    if lot.house:
        ends.append(((x, lot.house.bottom), Along.VERTICAL))
    boxes = list(taken)
    rows: list[Dimension] = []
    for end, along in ends:
        tie = _tie(lot.outlet, end, along, away, window, figures, boxes)
        if tie is not None:
            rows.append(tie)
            boxes.append(tie.label.box)
    return tuple(rows)


def _tie(
    start: Point,
    end: Point,
    along: Along,
    away: float,
    window: Window,
    figures: Figures,
    taken: Sequence[Box],
) -> Dimension | None:
    """Return one tie on the nearest line where its text touches no other; None if there is none."""
    value = abs(end[0] - start[0]) + abs(end[1] - start[1])
    if value <= _LEAST_M or not window.shows(*end):
        return None
    offsets = (0.0, 6.0, -6.0, 12.0) if along is Along.HORIZONTAL else _TIE_OFFSETS_MM
    for offset in offsets:
        row = Dimension(
            window.at(*start),
            window.at(*end),
            offset if along is Along.HORIZONTAL else away * offset,
            figures.distance(value),
            value,
            along,
        )
        if _free(row, window.room, taken):
            return row
    return None
