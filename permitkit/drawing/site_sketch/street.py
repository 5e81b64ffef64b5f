"""Street, gutter, curb, verge and walk on the plan, with their names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.lettering import wrapped
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Anchor, Label, Role, Shape
from permitkit.drawing.sheet import labels_of
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.site_sketch.window import Part, Window, joined
from permitkit.drawing.symbols import break_line, flow_arrow
from permitkit.geometry.span import Joints, Span

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.info import Figures
    from permitkit.drawing.shapes import Box
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.job import Job

__all__ = ["bands", "fall_of_gutter", "names_of_bands", "street_name", "street_words"]

_NAME_MM = 4.0
_BREAK_MM = 2.0
_LEAST_JOINT_MM = 1.2
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)


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
    seen = Span(window.ground.left, window.ground.right)
    return tuple(
        mark
        for x in Joints(first, panel).within(seen)
        for mark in window.line((x, lot.walk_front_m), (x, lot.walk_back_m), Role.EXISTING)
    )


def _curb_joints(lot: Lot, window: Window) -> tuple[Shape, ...]:
    """Return the curb joints known."""
    if not lot.at_curb:
        return ()
    return tuple(
        mark
        for x in lot.curb_joints_m
        for mark in window.line((x, -lot.pan_m), (x, lot.curb_back_m), Role.EXISTING)
    )


def names_of_bands(lot: Lot, window: Window, figures: Figures) -> tuple[Rung, ...]:
    """Return the names of gutter, curb, verge, walk and right-of-way line, for the left edge."""
    job = lot.job
    rows = [(lot.row_m, _row_words(job)), (_flow_offset(lot, window), _fall_words(job))]
    if window.told:
        rows.append((lot.curb_back_m / 2, _curb_words(lot, figures)))
        walk = _clear_of_utilities(lot, lot.walk_front_m, lot.walk_back_m)
        rows.append((walk, f"{job.walk.surface} walk"))
    if window.told and lot.walk_front_m > lot.curb_back_m:
        verge = _clear_of_utilities(lot, lot.curb_back_m, lot.walk_front_m)
        rows.append((verge, _verge_words(job)))
    left = window.ground.left
    seen = (row for row in rows if window.shows(left, row[0]))
    return tuple(Rung(words, window.at(left, offset)) for offset, words in seen)


def _clear_of_utilities(lot: Lot, low: float, high: float) -> float:
    """Return the offset in a band that lies farthest from every buried line."""
    lines = [float(line.at) for line in lot.job.utility]
    offsets = (low + (high - low) * share for share in _SHARES)
    return max(offsets, key=lambda at: min((abs(at - line) for line in lines), default=0.0))


def _row_words(job: Job) -> str:
    """Return what the right-of-way line is called, with its basis."""
    basis = job.site.row_line_basis
    return f"right-of-way line ({basis}{' *' if basis == 'assumed' else ''})"


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
    lanes = f"{street.lanes} lanes" if street.lanes > 1 else "one lane"
    return f"{whose}'s street: {width} wide, {lanes}, {street.speed.shown()}, {parking}"


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
    nearest = _next_street(lot, window, title.box, below.box.bottom - 0.5)
    foot = min(label.box.bottom for label in labels_of((below, *nearest.shapes))) - 3.0
    edge = break_line((left, foot), (right, foot))
    room_left = foot - _BREAK_MM >= room.bottom
    return joined(Part((title, below, edge) if room_left else (title, below)), nearest)


def _next_street(lot: Lot, window: Window, title: Box, below_mm: float) -> Part:
    """Return the nearest cross street with its distance, and an arrow that points to it.

    It stands beside the street's own name where there is room, else below what is told of it.
    """
    site, room = lot.job.site, window.room
    if site.cross_street is None:
        return Part()
    to_left = site.cross_street_side == "left"
    away = f"{site.cross_street_distance.shown()} to " if site.cross_street_distance else "to "
    lines = "\n".join(wrapped(away + site.cross_street, room.width - 20.0, LEAST_LETTERING_MM))
    sign = 1.0 if to_left else -1.0
    edge = (room.left if to_left else room.right) + sign * 12.0
    beside = Label(lines, (edge, title.centre[1]), Anchor.W if to_left else Anchor.E)
    fits = not beside.box.grown(4.0).touches(title) and beside.box.height <= title.height
    label = beside if fits else Label(lines, (edge, below_mm), Anchor.NW if to_left else Anchor.NE)
    middle = edge - sign * 6.0, label.box.centre[1]
    return Part((flow_arrow(middle, 180.0 if to_left else 0.0, 9.0, Role.EXISTING), label))


def _flow_offset(lot: Lot, window: Window) -> float:
    """Return where the arrow of the gutter's fall is drawn: in the pan, else just off the curb."""
    return -max(lot.pan_m / 2, window.metres(1.5))


def _fall_words(job: Job) -> str:
    """Return which way the gutter falls and how steeply, as far as that is known."""
    street = job.street
    name = "gutter" if job.gutter.kind != "none" else "edge of pavement"
    if street.gutter_flows is None:
        return f"{name}, fall not measured"
    slope = f" {street.grade.shown()}" if street.grade else ""
    return f"{name}, falls {street.gutter_flows}{slope}"


def fall_of_gutter(lot: Lot, window: Window) -> Part:
    """Return arrows in the direction of the gutter's fall, one toward each end."""
    flows = lot.job.street.gutter_flows
    if flows is None:
        return Part()
    ground, offset = window.ground, _flow_offset(lot, window)
    angle = 0.0 if flows == "right" else 180.0
    stations = (ground.left + share * ground.width for share in (0.06, 0.94))
    arrows = (
        mark
        for x in stations
        for mark in window.symbol((x, offset), lambda p: (flow_arrow(p, angle, 8.0),))
    )
    return Part(tuple(arrows))
