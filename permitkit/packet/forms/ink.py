"""Letters and crosses of a filled form in ink: pages that are laid over it, or into its fields."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from permitkit.drawing.lettering import font_size_mm
from permitkit.packet.forms.layout import Cross, Lettered
from permitkit.render.fonts import REGULAR
from permitkit.render.pdf import POINTS_PER_MM, new_canvas

if TYPE_CHECKING:
    from collections.abc import Sequence

    from reportlab.pdfgen.canvas import Canvas

__all__ = ["Frame", "Sheet", "inked"]

_CROSS_SHARE = 0.18
_CROSS_PEN_MM = 0.5


@dataclass(frozen=True, slots=True)
class Frame:
    """The ground and the frame of a field, as its form has them; colours are parts of one."""

    edge: float = 0.0
    line: tuple[float, ...] = ()
    ground: tuple[float, ...] = ()
    dashed: bool = False
    under: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is inked on one page of its own, in mm."""

    width: float
    height: float
    marks: tuple[Lettered | Cross, ...]
    frame: Frame = Frame()


def inked(sheets: Sequence[Sheet]) -> bytes:
    """Return a PDF with one page for each sheet; only the letters used are embedded, once."""
    target = BytesIO()
    canvas = new_canvas(target, (sheets[0].width, sheets[0].height), title="Filled in")
    for sheet in sheets:
        canvas.setPageSize((sheet.width * POINTS_PER_MM, sheet.height * POINTS_PER_MM))
        canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
        _frame(canvas, sheet)
        canvas.setFillGray(0)
        canvas.setStrokeGray(0)
        for mark in sheet.marks:
            _mark(canvas, mark)
        canvas.showPage()
    canvas.save()
    return target.getvalue()


def _mark(canvas: Canvas, mark: Lettered | Cross) -> None:
    if isinstance(mark, Lettered):
        canvas.setFont(REGULAR, font_size_mm(mark.capitals))
        canvas.drawString(mark.x, mark.y, mark.text)
        return
    left, right = mark.x + mark.width * _CROSS_SHARE, mark.x + mark.width * (1 - _CROSS_SHARE)
    low, high = mark.y + mark.height * _CROSS_SHARE, mark.y + mark.height * (1 - _CROSS_SHARE)
    canvas.setLineWidth(_CROSS_PEN_MM)
    canvas.line(left, low, right, high)
    canvas.line(left, high, right, low)


def _frame(canvas: Canvas, sheet: Sheet) -> None:
    frame, half = sheet.frame, sheet.frame.edge / 2
    if frame.ground:
        _colour(canvas, frame.ground, fill=True)
        canvas.rect(0, 0, sheet.width, sheet.height, stroke=0, fill=1)
    if not (frame.line and frame.edge):
        return
    _colour(canvas, frame.line, fill=False)
    canvas.setLineWidth(frame.edge)
    if frame.under:
        canvas.line(0, half, sheet.width, half)
        return
    canvas.saveState()
    if frame.dashed:
        canvas.setDash([1.0, 1.0])
    canvas.rect(half, half, sheet.width - frame.edge, sheet.height - frame.edge, stroke=1, fill=0)
    canvas.restoreState()


def _colour(canvas: Canvas, parts: tuple[float, ...], *, fill: bool) -> None:
    """Set a colour given in grey, in red, green and blue, or in the four inks of print."""
    if len(parts) == 1:
        parts = parts * 3
    if len(parts) == 3:  # noqa: PLR2004 - red, green, blue
        (canvas.setFillColorRGB if fill else canvas.setStrokeColorRGB)(*parts)
    else:
        (canvas.setFillColorCMYK if fill else canvas.setStrokeColorCMYK)(*parts)
