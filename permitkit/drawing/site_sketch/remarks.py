"""The sentences beside the site sketch: where it lies, what its lines rest on, what was assumed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.site_sketch.drain import work_words
from permitkit.drawing.site_sketch.lot import OUTLET

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot
    from permitkit.model.job import Job

__all__ = ["assumptions", "remarks"]

_TELLING_M = 0.03
_LENGTH_SHARE = 0.02
_LENGTH_M = 0.15
_SIDES = {"up": "north", "down": "south", "left": "east", "right": "west"}
_ROW = {
    "survey": "by survey",
    "plat": "from the plat",
    "scaled": "scaled from a map",
    "assumed": "assumed *: to be fixed by survey if in doubt",
}


def remarks(
    lot: Lot, figures: Figures, hand_dig_m: float | None, *, close: bool
) -> tuple[str, ...]:
    """Return the notes of a sheet, what matters most first."""
    job = lot.job
    rows = [
        *_beyond(lot, figures),
        *_where(lot),
        _row_line(lot, figures),
        *_old_holes(lot),
        *_utilities(lot, figures, hand_dig_m),
        *(() if close else _work(lot, figures)),
        *(() if close else _lengths(lot, figures)),
        *_ties(lot, figures),
        *_winter(lot),
    ]
    if job.nothing_else_within:
        rows.append(
            f"Nothing else that lasts stands within {job.nothing_else_within} of the outlet."
        )
    rows += assumptions(job, ("site", "street", "gutter.pan_width", "walk.panel", "walk.joint"))
    return tuple(rows)


def assumptions(job: Job, fields: tuple[str, ...]) -> list[str]:
    """Return what nobody measured, of the fields a view shows: one sentence for each basis."""
    told: dict[str, list[str]] = {}
    for row in job.assumed:
        if row.field.startswith(fields):
            name = row.field.replace(".", " ").replace("_", " ")
            told.setdefault(row.note, []).append(f"{name} {row.value.shown()}")
    return [f"* {', '.join(values)}: {note}." for note, values in told.items()]


def _row_line(lot: Lot, figures: Figures) -> str:
    """Return where the right-of-way line lies, and by what."""
    basis = _ROW[lot.job.site.row_line_basis]
    return f"Right-of-way line {figures.distance(lot.row_m)} behind the curb face, {basis}."


def _where(lot: Lot) -> Iterator[str]:
    """Return where the lot lies, in words, as a key plan would show."""
    site, street = lot.job.site, lot.job.street
    text = f"The lot lies on the {_SIDES[site.north]} side of {street.name}"
    if site.cross_street:
        away = (
            f", its left side line {site.cross_street_distance.shown()} from {site.cross_street}"
            if site.cross_street_distance
            else f", near {site.cross_street}"
        )
        text += away
    yield f"{text}; seen from the street, the house behind."


def _beyond(lot: Lot, figures: Figures) -> Iterator[str]:
    """Return a warning where the outlet does not lie in the lot's own frontage."""
    past = lot.outlet[0] - lot.frontage_m
    if past > 0:
        yield (
            f"The outlet lies {figures.distance(past)} beyond the right side line, "
            "outside this lot's frontage."
        )


def _old_holes(lot: Lot) -> Iterator[str]:
    """Return whether there are old holes in the curb."""
    if not lot.job.existing:
        yield "No old hole was found in the curb of this frontage."


def _utilities(lot: Lot, figures: Figures, hand_dig_m: float | None) -> Iterator[str]:
    """Return how buried lines are known, and how digging near them is done."""
    ticket = lot.job.locate.ticket
    known = f"as marked under ticket {ticket}" if ticket else "as known before marking"
    if not lot.job.utility:
        yield "No buried line is known here; marks are called for before digging."
    elif hand_dig_m is None:
        yield f"Buried lines {known}; dig by hand near each mark."
    else:
        yield f"Buried lines {known}; dig by hand within {figures.height(hand_dig_m)} of each mark."


def _work(lot: Lot, figures: Figures) -> Iterator[str]:
    """Return what is opened in the right-of-way, where the whole plan is too small to say it."""
    if lot.at_curb and lot.study.cut.trench_m > 0.0:
        words = work_words(lot, figures)
        yield f"{words[0].upper()}{words[1:]}."


def _winter(lot: Lot) -> Iterator[str]:
    """Return where a pump's water goes in the months in which it may not reach the street."""
    for inflow in lot.job.drain.inflow:
        if inflow.pump and inflow.pump.winter_route:
            yield f"In winter, {inflow.name}: {inflow.pump.winter_route}."


def _lengths(lot: Lot, figures: Figures) -> Iterator[str]:
    """Return what to know where the plan and the taped lengths of the run do not agree."""
    if not all(reached.taped for reached in lot.reaches):
        yield "* Nodes without a place of their own are drawn straight back from the outlet."
        return
    for reached in lot.reaches:
        taped, drawn = reached.reach.length_m, reached.drawn_m
        if abs(taped - drawn) > max(_LENGTH_SHARE * taped, _LENGTH_M):
            lower = "the outlet" if reached.reach.lower == OUTLET else reached.reach.lower
            yield (
                f"From {reached.reach.upper} to {lower}: {figures.distance(taped)} along the pipe "
                f"as taped, {figures.distance(drawn)} straight on the plan."
            )


def _ties(lot: Lot, figures: Figures) -> Iterator[str]:
    """Return the ties as taped, where they and the stations do not agree."""
    outlet = lot.job.outlet
    if outlet.tie_line is None or not lot.at_curb:
        return
    x = lot.outlet[0]
    taped = float(outlet.tie_line)
    near = min((x, lot.frontage_m - x), key=lambda drawn: abs(drawn - taped))
    if abs(near - taped) > _TELLING_M:
        line = outlet.tie_line_from or "the side line"
        yield (
            f"The tie to {line} was taped as {outlet.tie_line.shown()}; "
            f"the stations give {figures.distance(near)}."
        )
