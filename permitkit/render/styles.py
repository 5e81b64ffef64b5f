"""The faces, sizes and rules of text pages."""

from __future__ import annotations

import re
from copy import copy
from functools import lru_cache
from typing import Any

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, cleanBlockQuotedText

from permitkit.render.fonts import BOLD, REGULAR
from permitkit.render.pdf import POINTS_PER_MM

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


@lru_cache(maxsize=64)
def _sample(style: ParagraphStyle) -> Any:  # noqa: ANN401 -- what the library makes of a text
    """Return the one piece that the library makes of a text without markup."""
    (piece,) = Paragraph("x", style).frags
    return piece


class Text(Paragraph):
    """A paragraph that is read as markup only where it holds any, and broken once for a width."""

    _took: tuple[float, tuple[float, float]] | None = None

    def __init__(
        self,
        text: str | None,
        style: ParagraphStyle,
        bulletText: str | None = None,  # noqa: N803 - the library's name
        frags: list[Any] | None = None,
    ) -> None:
        plain = cleanBlockQuotedText(text) if text and not _MARKED.search(text) else ""
        if frags is None and plain:
            frags = [copy(_sample(style))]
            frags[0].text = plain
        super().__init__(text or "", style, bulletText, frags)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Return the size it takes in a width."""
        if self._took is None or self._took[0] != width or not hasattr(self, "blPara"):
            self._took = (width, super().wrap(width, height))
        return self._took[1]


def points(mm: float) -> float:
    """Return a length in the PDF's points."""
    return mm * POINTS_PER_MM
