"""The foot of every page of a finished packet, and the mark of a draft."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from permitkit.drawing.lettering import CAP_HEIGHT, text_width_mm
from permitkit.render.fonts import BOLD, REGULAR
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

__all__ = ["Footer", "page_footers", "write_foot"]

_FOOT_MM = 7.0
_SIDE_MM = 12.0
_APART_MM = 3.0
_FOOT_PT = 7.5
_DRAFT = "DRAFT"
_DRAFT_FOOT = "DRAFT, not for filing"
_DRAFT_SHARE = 0.55
_OUTLINED: Literal[1] = 1


@dataclass(frozen=True, slots=True)
class Footer:
    """What stands at the foot of one page, plain text."""

    left: str = ""
    middle: str = ""
    right: str = ""


def page_footers(count: int, title: str, digest: str = "") -> tuple[Footer, ...]:
    """Return the footers of a whole packet: title, digest, and page n of m.

    Examples
    --------
    >>> page_footers(2, "14 Tern Lane")[1].right
    'page 2 of 2'
    """
    return tuple(Footer(title, digest, f"page {page} of {count}") for page in range(1, count + 1))


def write_foot(canvas: Canvas, footer: Footer, size: tuple[float, float], *, draft: bool) -> None:
    """Write the foot of a page, and the mark of a draft.

    Parameters
    ----------
    canvas
        Scaled so that one unit is a millimetre.
    footer
        Its ends are cut where they would run into one another.
    size
        Width and height of the page. [mm]
    draft
        Whether the page says that it is a draft: in words at the foot, and in hollow letters
        across the page that hide nothing.
    """
    _foot(canvas, footer, size[0], draft=draft)
    if draft:
        _across(canvas, *size)


def _foot(canvas: Canvas, footer: Footer, width: float, *, draft: bool) -> None:
    """Write a footer, its ends cut where they would run into one another."""
    size = _FOOT_PT / POINTS_PER_MM
    canvas.setFont(REGULAR, size)
    middle = " · ".join(part for part in (footer.middle, _DRAFT_FOOT if draft else "") if part)
    whole = width - 2 * _SIDE_MM
    half = (whole - _text_mm(middle)) / 2 - _APART_MM
    right = _cut(footer.right, half)
    room = half if middle else whole - _text_mm(right) - _APART_MM
    canvas.drawString(_SIDE_MM, _FOOT_MM, _cut(footer.left, room))
    canvas.drawCentredString(width / 2, _FOOT_MM, middle)
    canvas.drawRightString(width - _SIDE_MM, _FOOT_MM, right)


def _text_mm(text: str) -> float:
    """Return the width of a footer text in mm."""
    return text_width_mm(text, _FOOT_PT / POINTS_PER_MM * CAP_HEIGHT)


def _cut(text: str, room: float) -> str:
    """Return a text shortened to a room with an ellipsis."""
    if _text_mm(text) <= room:
        return text
    while text and _text_mm(f"{text}\N{HORIZONTAL ELLIPSIS}") > room:
        text = text[:-1]
    return f"{text.rstrip()}\N{HORIZONTAL ELLIPSIS}"


def _across(canvas: Canvas, width: float, height: float) -> None:
    """Write the mark of a draft across a page in hollow grey letters."""
    diagonal = (width**2 + height**2) ** 0.5
    unit = text_width_mm(_DRAFT, CAP_HEIGHT, bold=True)
    size = diagonal * _DRAFT_SHARE / unit
    tilt = (width / diagonal, height / diagonal)
    start, drop = diagonal * _DRAFT_SHARE / 2, size * CAP_HEIGHT / 2
    text = canvas.beginText()
    text.setFont(BOLD, size)
    text.setTextRenderMode(_OUTLINED)
    text.setTextTransform(
        tilt[0],
        tilt[1],
        -tilt[1],
        tilt[0],
        width / 2 - start * tilt[0] + drop * tilt[1],
        height / 2 - start * tilt[1] - drop * tilt[0],
    )
    text.textOut(_DRAFT)
    canvas.setStrokeColorRGB(0.7, 0.7, 0.7)
    canvas.setLineWidth(0.35)
    canvas.drawText(text)
