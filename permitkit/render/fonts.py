"""The two embedded faces, made known to the PDF library, and how it writes its streams."""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import as_file, files
from typing import cast

from reportlab import rl_config
from reportlab.lib.fonts import addMapping
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

__all__ = ["BOLD", "REGULAR", "font_name", "register", "text_units"]

REGULAR = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"


class _Face(TTFont):
    """A face that adds up the letters of a text once: setting asks for each word many times."""

    def stringWidth(self, text: str | bytes, size: float, encoding: str = "utf8") -> float:  # noqa: N802 - the library's name
        """Return the width of a text at a size."""
        words = text if isinstance(text, str) else text.decode(encoding)
        return 0.001 * size * text_units(self.fontName, words)


@lru_cache(maxsize=1 << 14)
def text_units(name: str, text: str) -> float:
    """Return the width of a text in thousandths of its size."""
    face = cast("TTFont", pdfmetrics.getFont(name)).face
    width, other = face.charWidths.get, face.defaultWidth
    return float(sum(width(ord(letter), other) for letter in text))


@lru_cache(maxsize=1)
def register() -> None:
    """Make both faces known, once; only the letters used are embedded.

    Streams are written as they are, not as text: a quarter smaller, and twice as fast.
    """
    rl_config.useA85 = 0
    for name in (REGULAR, BOLD):
        with as_file(files("permitkit.render").joinpath("fonts", f"{name}.ttf")) as path:
            pdfmetrics.registerFont(_Face(name, str(path)))
    for bold in (0, 1):
        for italic in (0, 1):
            addMapping(REGULAR, bold, italic, BOLD if bold else REGULAR)


def font_name(*, bold: bool) -> str:
    """Return the name of a face."""
    return BOLD if bold else REGULAR
