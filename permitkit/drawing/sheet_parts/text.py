"""Lines of text hung from a corner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.lettering import LINE_PITCH
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Anchor, Label, Role

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.shapes import Point

__all__ = ["PITCH_MM", "hung"]

PITCH_MM = LINE_PITCH * LEAST_LETTERING_MM
"""From line to line of small text. [mm]"""


def hung(lines: Sequence[str], corner: Point, *, bold: bool = False) -> Label:
    """Return lines of text hung from their top left corner."""
    return Label("\n".join(lines), corner, Anchor.NW, bold=bold, role=Role.NOTE)
