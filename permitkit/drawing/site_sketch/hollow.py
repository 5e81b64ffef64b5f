"""Water trapped in the verge, on the plan: where it gathers and which way it leaves."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Role, Shape
from permitkit.drawing.site_sketch.drain import inflow_words
from permitkit.drawing.site_sketch.window import Part, Window
from permitkit.drawing.symbols import flow_arrow

if TYPE_CHECKING:
    from permitkit.drawing.info import Figures
    from permitkit.drawing.site_sketch.lot import Lot

__all__ = ["hollow"]

_ARROW_MM = 7.0


def hollow(lot: Lot, window: Window, figures: Figures) -> Part:
    """Return arrows along the middle of the verge to the notches, and what gathers there."""
    verge = lot.study.water.verge
    if verge is None:
        return Part()
    middle = (lot.curb_back_m + lot.walk_front_m) / 2
    half = verge.hollow.length_m / 2
    ends = (lot.outlet[0] - half, *lot.holes_m, lot.outlet[0] + half)
    shapes: list[Shape] = []
    for rank, (start, end) in enumerate(pairwise(ends)):
        angle = 180.0 if rank == len(ends) - 2 else 0.0
        shapes += window.symbol(
            ((start + end) / 2, middle),
            lambda p, angle=angle: (flow_arrow(p, angle, _ARROW_MM, Role.WATER),),  # type: ignore[misc]
        )
    words = "\n".join(
        (
            f"water gathers in the verge, lowest ground {figures.at_level(verge.hollow.low_m)}",
            *inflow_words(lot, lot.job.drain.inflow, figures),
        )
    )
    clear = [
        (start + share * (end - start), middle)
        for start, end in pairwise(ends)
        for share in (0.2, 0.8)
    ]
    nearest = sorted(clear, key=lambda at: abs(at[0] - lot.outlet[0]))
    at, *also = [at for at in nearest if window.shows(*at)] or [(lot.outlet[0], middle)]
    note = window.note(words, at, priority=5, clear_mm=3.0, dot=True)
    return Part(tuple(shapes), window.or_by(note, also))
