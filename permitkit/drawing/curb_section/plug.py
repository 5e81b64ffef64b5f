"""An old hole in the curb that is plugged for good."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.curb_section.opening import Opening, height_lines, reveal_words, tube
from permitkit.drawing.shapes import Hatch, Pattern, Polygon, Role
from permitkit.drawing.sheet_parts.ladder import Rung

if TYPE_CHECKING:
    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures
    from permitkit.drawing.sheet_parts.pane import Pane
    from permitkit.model.site import ExistingHole

__all__ = ["plug"]


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
    lines, edge = height_lines(cut, pane, (cut.reveal_m, 0.0), ())
    flow_line = float(cut.job.gutter.flow_line)
    rungs = (
        Rung(
            f"curb top, reveal {reveal_words(cut, figures)}", (edge, pane.at(0.0, cut.reveal_m)[1])
        ),
        Rung(f"flow line {figures.at_level(flow_line)}", (edge, pane.at(0.0, 0.0)[1])),
    )
    return Opening(
        cut_away=(filled,),
        shapes=(Hatch(points, Pattern.GROUT, density=1.2), Polygon(points, Role.PROPOSED), *lines),
        rungs=rungs,
        right=_beside(cut, hole, pane, low, detail),
    )


def _beside(
    cut: CurbCut, hole: ExistingHole, pane: Pane, low_m: float, detail: str
) -> tuple[Rung, ...]:
    """Return what is done to the hole, for the right of the section."""
    size = float(hole.size)
    grout = cut.job.restoration.grout or "non-shrink grout"
    by = f", to {detail}" if detail else ""
    middle = low_m + size / 2
    what = f"old {hole.size.shown()} hole at station {hole.station.shown()}"
    rows = (
        (f"{what}: filled full depth with {grout}{by}", (cut.back_m * 0.8, middle)),
        ("pipe cut back, face struck flush", (cut.face_x(middle), low_m + size * 0.8)),
        ("height not measured, drawn midway *", (cut.back_m * 0.6, low_m)),
    )
    return tuple(Rung(text, pane.at(*tip)) for text, tip in rows)
