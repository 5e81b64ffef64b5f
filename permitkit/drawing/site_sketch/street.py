"""Street, gutter, curb, verge and walk on the plan, with their names."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from permitkit.drawing.info import starred
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.placing import Side
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Anchor, Label, Point, Role, Shape
from permitkit.drawing.sheet import labels_of
from permitkit.drawing.site_sketch.window import Part, Window, joined
from permitkit.drawing.symbols import break_line, flow_arrow

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.job import Job

__all__ = ["bands", "fall_of_gutter", "names_of_bands", "street_name", "street_words"]

_NAME_MM = 4.0
_LEAST_JOINT_MM = 1.2


def bands(lot: Lot, window: Window) -> Part:
    """Return the edges of gutter, curb and walk, and the joints."""
    curb = _curb_lines(lot, window)
    walk = [
        mark
        for offset in (lot.walk_front_m, lot.walk_back_m)
        for mark in _across(window, offset, Role.EXISTING)
    ]
    return Part((*curb, *walk, *_walk_joints(lot, window), *_curb_joints(lot, window)))


def _across(window: Window, offset_m: float, role: Role) -> tuple[Shape, ...]:
    """Return a line along the street from edge to edge of the window."""
    return window.line((window.ground.left, offset_m), (window.ground.right, offset_m), role)


def _curb_lines(lot: Lot, window: Window) -> tuple[Shape, ...]:
    """Return the lip of the pan, the face of the curb and its back, open at the drives."""
    face = _across(window, 0.0, Role.EXISTING)
    lip = _across(window, -lot.pan_m, Role.EXISTING) if lot.pan_m else ()
    if not lot.curb_back_m:
        return (*lip, *face)
    back: list[Shape] = []
    for left, right in _between_drives(lot, window):
        back.extend(window.line((left, lot.curb_back_m), (right, lot.curb_back_m), Role.EXISTING))
    return (*lip, *face, *back)


def _between_drives(lot: Lot, window: Window) -> Iterator[tuple[float, float]]:
    """Return the stretches of the window that no drive or ramp opens."""
    left = window.ground.left
    openings = sorted(
        lot.edges_of(feature) for feature in lot.job.feature if feature.kind in {"drive", "ramp"}
    )
    for near, far in openings:
        if near > left:
            yield left, min(near, window.ground.right)
        left = max(left, far)
    if left < window.ground.right:
        yield left, window.ground.right


def _walk_joints(lot: Lot, window: Window) -> tuple[Shape, ...]:
    """Return the joints of the walk, counted from the one measured beside the run."""
    panel = float(lot.job.walk.panel_length)
    if window.mm(panel) < _LEAST_JOINT_MM:
        return ()
    run = lot.on_run((lot.walk_front_m + lot.walk_back_m) / 2)[0]
    first = run - float(lot.job.walk.joint_left_of_run)
    low = math.ceil((window.ground.left - first) / panel)
    high = math.floor((window.ground.right - first) / panel)
    stations = (first + panel * count for count in range(low, high + 1))
    return tuple(
        mark
        for x in stations
        for mark in window.line((x, lot.walk_front_m), (x, lot.walk_back_m), Role.EXISTING)
    )


def _curb_joints(lot: Lot, window: Window) -> tuple[Shape, ...]:
    """Return the curb joints on each side of the outlet."""
    curb = lot.job.curb
    sides = ((-1, curb.joint_left), (1, curb.joint_right))
    stations = (lot.outlet[0] + sign * float(gap) for sign, gap in sides if gap is not None)
    if not lot.at_curb:
        return ()
    return tuple(
        mark
        for x in stations
        for mark in window.line((x, -lot.pan_m), (x, lot.curb_back_m), Role.EXISTING)
    )


def names_of_bands(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return the names of gutter, curb, verge, walk and right-of-way line, at the left edge."""
    job = lot.job
    rows = [
        (lot.row_m, _row_words(job)),
        ((lot.walk_front_m + lot.walk_back_m) / 2, f"{job.walk.surface} walk"),
        (lot.curb_back_m / 2, _curb_words(lot, figures)),
    ]
    if lot.walk_front_m > lot.curb_back_m:
        rows.append(((lot.curb_back_m + lot.walk_front_m) / 2, _verge_words(job)))
    if lot.pan_m:
        rows.append((-lot.pan_m / 2, f"gutter pan {figures.height(lot.pan_m)}"))
    left = window.ground.left
    if not (window.close or window.alone):
        rows = [row for row in rows if row[0] == lot.row_m]
    notes = (
        note
        for offset, words in rows
        for note in window.note(words, (left, offset), prefer=(Side.W,), priority=3, clear_mm=1.0)
    )
    return Part(notes=tuple(notes))


def _row_words(job: Job) -> str:
    """Return what the right-of-way line is called, with its basis."""
    basis = job.site.row_line_basis
    if basis == "assumed":
        return "right-of-way line, assumed *"
    words = {"survey": "by survey", "plat": "from the plat", "scaled": "scaled from a map"}[basis]
    return starred(f"right-of-way line, {words}", job, "site.row_line_basis")


def _curb_words(lot: Lot, figures: Figures) -> str:
    """Return the curb in words."""
    job = lot.job
    if job.curb.shape == "none":
        return "edge of pavement, no curb"
    reveal = min(float(reading) for reading in job.curb.reveal)
    return f"{job.curb.shape} curb, reveal {figures.height(reveal)}"


def _verge_words(job: Job) -> str:
    """Return what the strip between curb and walk is called."""
    surface = job.verge.surface
    return "verge" if surface == "verge" else f"verge ({surface})"


def street_words(lot: Lot, figures: Figures, town: str) -> str:
    """Return the street in words: whose, how wide, how fast, where cars stand."""
    street = lot.job.street
    whose = town if street.authority == "town" else street.authority
    parking = "no parking" if street.parking == "none" else f"parking {street.parking}"
    width = figures.distance(float(street.width))
    return f"{whose}'s street: {width} wide, {street.lanes} lanes, {street.speed.shown()}, {parking}"


def street_name(lot: Lot, window: Window, words: str, top_mm: float) -> Part:
    """Return the street's name, what is known of it and the next street, below the dimensions.

    `top_mm` is how high on the sheet these may stand. [mm]
    """
    room, centre = window.room, window.room.centre[0]
    left, right = window.at(window.ground.left, 0.0)[0], window.at(window.ground.right, 0.0)[0]
    name = "\n".join(wrapped(lot.job.street.name, room.width - 10.0, _NAME_MM, bold=True))
    title = Label(name, (centre, top_mm - 1.0), Anchor.N, _NAME_MM, bold=True)
    lines = "\n".join(wrapped(words, room.width - 4.0, LEAST_LETTERING_MM))
    below = Label(lines, (centre, title.box.bottom - 0.3), Anchor.N)
    nearest = _next_street(lot, window, below.box.bottom - 1.0)
    foot = min((mark.box.bottom for mark in labels_of(nearest.shapes)), default=below.box.bottom) - 3.0
    edge = break_line((left, foot), (right, foot))
    return joined(Part((title, below, edge)), nearest)


def _next_street(lot: Lot, window: Window, top_mm: float) -> Part:
    """Return the nearest cross street with its distance, and an arrow that points to it."""
    site = lot.job.site
    if site.cross_street is None:
        return Part()
    to_left = site.cross_street_side == "left"
    away = f"{site.cross_street_distance.shown()} to " if site.cross_street_distance else "to "
    lines = "\n".join(wrapped(away + site.cross_street, window.room.width - 20.0, LEAST_LETTERING_MM))
    edge = window.room.left if to_left else window.room.right
    sign = 1.0 if to_left else -1.0
    label = Label(lines, (edge + sign * 12.0, top_mm), Anchor.NW if to_left else Anchor.NE)
    arrow = flow_arrow(
        (edge + sign * 6.0, label.box.centre[1]), 180.0 if to_left else 0.0, 9.0, Role.EXISTING
    )
    return Part((arrow, label))


def fall_of_gutter(lot: Lot, window: Window) -> Part:
    """Return the arrow of the gutter's fall and its slope."""
    street = lot.job.street
    if street.gutter_flows is None:
        return Part()
    to_right = street.gutter_flows == "right"
    ground = window.ground
    at: Point = (ground.left + (0.93 if to_right else 0.07) * ground.width, -lot.pan_m / 2)
    slope = f", {street.grade.shown()}" if street.grade else ""
    note = window.note(f"gutter falls {street.gutter_flows}{slope}", at, priority=3, clear_mm=3.0)
    arrow = window.symbol(at, lambda p: (flow_arrow(p, 0.0 if to_right else 180.0, 8.0),))
    return Part(arrow, note)
