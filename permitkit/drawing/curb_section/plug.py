"""An old hole in the curb that is plugged for good."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.curb_section.opening import Opening, reveal_words, tube
from permitkit.drawing.info import held
from permitkit.drawing.placing import Side
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.shapes import Hatch, Pattern, Polygon, Role

if TYPE_CHECKING:
    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.model.site import ExistingHole

__all__ = ["plug"]

_SIDES = (Side.E, Side.NE, Side.SE, Side.N, Side.S)
_EDGE_MM = 14.0


def plug(cut: CurbCut, hole: ExistingHole, pane: Pane, figures: Figures, detail: str) -> Opening:
    """Return an old hole filled through the whole curb; its height, not measured, is drawn midway.

    Parameters
    ----------
    cut
        The curb.
    hole
        The hole.
    pane
        The way to the paper.
    detail
        The town's detail that governs, if there is one.
    """
    size = float(hole.size)
    low = max((cut.reveal_m - size) / 2, 0.0)
    filled = tube(cut, (low, low + size), 0.0, cut.back_m)
    points = pane.view.points(filled)
    edge = pane.at(cut.face_x(0.0), 0.0)[0] - _EDGE_MM
    flow_line = float(cut.job.gutter.flow_line)
    rungs = (
        Rung(f"curb top, reveal {reveal_words(cut, figures)}", (edge, pane.at(0.0, cut.reveal_m)[1])),
        Rung(f"flow line {figures.at_level(flow_line)}", (edge, pane.at(0.0, 0.0)[1])),
    )
    return Opening(
        cut_away=(filled,),
        shapes=(Hatch(points, Pattern.GROUT, density=1.2), Polygon(points, Role.PROPOSED)),
        rungs=rungs,
        notes=_notes(cut, hole, pane, low, detail),
    )


def _notes(
    cut: CurbCut, hole: ExistingHole, pane: Pane, low_m: float, detail: str
) -> tuple[Note, ...]:
    """Return what is done to the hole."""
    size = float(hole.size)
    grout = cut.job.restoration.grout or "non-shrink grout"
    by = f", to {detail}" if detail else ""
    middle = low_m + size / 2
    rows = (
        (f"old {hole.size.shown()} hole at station {hole.station.shown()}, cut pipe back and fill "
         f"full depth with {grout}{by}", pane.at(cut.back_m * 0.7, middle)),
        ("face struck flush and finished as the curb", pane.at(cut.face_x(middle), middle)),
        ("height of the old hole not measured, drawn midway *", pane.at(cut.back_m * 0.5, low_m)),
    )
    return tuple(Note(held(text), tip, prefer=_SIDES, priority=4, wrap_mm=42.0) for text, tip in rows)
