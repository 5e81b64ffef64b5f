"""Lines of text hung from a corner, and texts cut to the paper there is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.lettering import LINE_PITCH, text_width_mm
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Anchor, Label, Role

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.shapes import Point

__all__ = ["PITCH_MM", "hung", "shortened"]

PITCH_MM = LINE_PITCH * LEAST_LETTERING_MM
"""From line to line of small text. [mm]"""

_MORE = "\N{HORIZONTAL ELLIPSIS}"


def hung(lines: Sequence[str], corner: Point, *, bold: bool = False) -> Label:
    """Return lines of text hung from their top left corner."""
    return Label("\n".join(lines), corner, Anchor.NW, bold=bold, role=Role.NOTE)


def shortened(text: str, width_mm: float, *, bold: bool = False) -> str:
    """Return a text as long as a width takes, with an ellipsis where some of it is left out.

    Examples
    --------
    >>> shortened("Oak Street", 60.0)
    'Oak Street'
    >>> shortened("Oak Street", 12.0)
    'Oak…'
    """
    if text_width_mm(text, LEAST_LETTERING_MM, bold=bold) <= width_mm:
        return text
    kept = text
    while kept and text_width_mm(kept + _MORE, LEAST_LETTERING_MM, bold=bold) > width_mm:
        kept = kept[:-1]
    return kept.rstrip() + _MORE
