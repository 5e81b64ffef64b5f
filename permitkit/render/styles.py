"""The faces, sizes and rules of text pages."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import getAscentDescent
from reportlab.platypus import Paragraph
from reportlab.platypus.paragraph import split  # type: ignore[attr-defined]  # not in the stubs

from permitkit.render.fonts import BOLD, REGULAR, text_units
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "BODY",
    "CELL",
    "DENSE",
    "GREY",
    "HAIR",
    "HAIR_GREY",
    "HEAD",
    "HEADINGS",
    "ITEM",
    "RULE",
    "SMALL",
    "Text",
    "points",
]

RULE, HAIR = 0.6, 0.3
GREY = colors.Color(0.93, 0.93, 0.93)
HAIR_GREY = colors.Color(0.45, 0.45, 0.45)


def _style(name: str, **changes: Any) -> ParagraphStyle:  # noqa: ANN401 -- what the library takes
    """Return a paragraph style in the embedded face."""
    settings = {
        "fontName": REGULAR,
        "bulletFontName": REGULAR,
        "fontSize": 9.2,
        "bulletFontSize": 9.2,
        "leading": 11.8,
        "spaceAfter": 4.0,
        "alignment": TA_LEFT,
        "allowWidows": 0,
        "allowOrphans": 0,
    }
    return ParagraphStyle(name, **{**settings, **changes})


BODY = _style("body")
ITEM = _style("item", leftIndent=15.0, bulletIndent=2.0, spaceAfter=1.2)
CELL = _style("cell", fontSize=9.0, leading=11.5, spaceAfter=0.0)
HEAD = _style("head", fontName=BOLD, fontSize=9.0, leading=11.5, spaceAfter=0.0)
DENSE = _style("dense", fontSize=7.2, leading=8.6, spaceAfter=0.0)
SMALL = _style("small", fontSize=8.5, leading=11.0, spaceAfter=0.0)
HEADINGS = (
    _style("h1", fontName=BOLD, fontSize=14.0, leading=18.0, spaceAfter=7.0),
    _style("h2", fontName=BOLD, fontSize=11.0, leading=14.0, spaceBefore=8.0, spaceAfter=4.0),
    _style("h3", fontName=BOLD, fontSize=9.5, leading=13.0, spaceBefore=5.0, spaceAfter=2.0),
)


_MARKED = re.compile("[<&]")
_SOFT_HYPHEN = "\N{SOFT HYPHEN}"


@lru_cache(maxsize=64)
def _sample(style: ParagraphStyle) -> Any:  # noqa: ANN401 -- what the library makes of a text
    """Return the one piece that the library makes of a text without markup."""
    (piece,) = Paragraph("x", style).frags
    return piece


class Text(Paragraph):
    """A paragraph that is read as markup only where it holds any, and broken once for a width."""

    _took: tuple[float, tuple[float, float]] | None = None
    _words: Sequence[str] = ()

    def __init__(
        self,
        text: str | None,
        style: ParagraphStyle,
        bulletText: str | None = None,  # noqa: N803 - the library's name
        frags: list[Any] | None = None,
    ) -> None:
        words = list(filter(None, split(text))) if text and not _MARKED.search(text) else []
        if frags is None and words:
            frags = [_sample(style).clone(text=" ".join(words))]
            self._words = () if _SOFT_HYPHEN in frags[0].text else words
        super().__init__(text or "", style, bulletText, frags)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return the size it takes in a width."""
        if self._took is None or self._took[0] != width or not hasattr(self, "blPara"):
            self._took = (width, super().wrap(width, height))
        return self._took[1]

    def wrapOn(self, _canvas: object, width: float, height: float) -> tuple[float, float]:  # noqa: N802 - the library's name
        """Return the size it takes in a width; no canvas is needed for that."""
        return self.wrap(width, height)

    def getSpaceBefore(self) -> float:  # noqa: N802 - the library's name
        """Return the room above it."""
        return float(self.style.spaceBefore)

    def getSpaceAfter(self) -> float:  # noqa: N802 - the library's name
        """Return the room below it."""
        return float(self.style.spaceAfter)

    def breakLines(self, width: Any) -> Any:  # noqa: ANN401, N802 - the library's own
        """Return its lines; words of one face are filled in without a look at each letter."""
        lines = _filled(self._words, self.style, width) if not self.bulletText else []
        if not lines:
            return super().breakLines(width)
        self._width_max, self._splitLongWordCount, self._hyphenations = 0.0, 0, 0
        piece = self.frags[0]
        ascent, descent = getAscentDescent(piece.fontName, piece.fontSize)
        return piece.clone(kind=0, lines=lines, ascent=ascent, descent=descent)

    def drawPara(self, debug: Any = 0) -> None:  # noqa: ANN401, N802 - the library's own
        """Write its lines; those of one face that nowhere run short of room without detours."""
        block: Any = self.blPara  # type: ignore[attr-defined]  # not in the stubs
        if block.kind or self.bulletText or any(free < 0.0 for free, _ in block.lines):
            super().drawPara(debug)
            return
        canvas = self.canv
        canvas.saveState()
        canvas.setFillColor(block.textColor)
        text = canvas.beginText(self.style.leftIndent, self.height - block.fontSize)
        text.setFont(block.fontName, block.fontSize, self.style.leading)
        for _, words in block.lines:
            text.textLine(" ".join(words))
        canvas.drawText(text)
        canvas.restoreState()


def _filled(
    words: Sequence[str], style: ParagraphStyle, widths: Sequence[float]
) -> list[tuple[float, list[str]]]:
    """Return words in lines, each behind what it leaves free; none where a word must be cut."""
    face, unit = style.fontName, 0.001 * style.fontSize
    space = unit * text_units(face, " ")
    squeezed = style.spaceShrinkage * space
    room, later = widths
    lines: list[tuple[float, list[str]]] = []
    line: list[str] = []
    taken = -space
    for word in words:
        across = unit * text_units(face, word)
        if across > later:
            return []
        if taken + space + across <= room + squeezed * len(line):
            line.append(word)
            taken += space + across
            continue
        if line:
            lines.append((room - taken, line))
            room = later
        line, taken = [word], across
    return [*lines, (room - taken, line)] if line else []


def points(mm: float) -> float:
    """Return a length in the PDF's points."""
    return mm * POINTS_PER_MM
