"""How wide and how tall text stands on paper, read from the metrics of the embedded fonts.

The advance widths, the character maps and the ink heights come straight from the TrueType tables,
so a label measured here is the label that is later drawn, and drawing needs no rendering library.
"""

from __future__ import annotations

import re
import struct
from functools import lru_cache
from importlib.resources import files

__all__ = [
    "CAP_HEIGHT",
    "DESCENT",
    "LINE_PITCH",
    "Face",
    "face",
    "font_size_mm",
    "ink_span_mm",
    "missing_glyphs",
    "text_width_mm",
    "wrapped",
]

CAP_HEIGHT = 1493 / 2048
"""Height of capitals over the size of the font; a test reads it from both faces."""

DESCENT = 0.24
"""Depth below the baseline kept for every line of text, over the size of the font."""

ASCENT = 0.76
"""Height above the baseline kept for every line of text, over the size of the font."""

LINE_PITCH = 1.65
"""Distance between baselines over the height of capitals."""

_FILES = {False: "DejaVuSansCondensed.ttf", True: "DejaVuSansCondensed-Bold.ttf"}
_NO_BREAK = "\N{NO-BREAK SPACE}"
_HELD_SPACE = re.compile(r"(?<=\d) (?=\d+/\d)")


class Face:
    """The metrics of one TrueType face.

    Parameters
    ----------
    data
        The bytes of a TrueType file with a format 4 character map and long glyph offsets.
    """

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._tables = _tables(data)
        self.units = int(self._short("head", 18))
        self._widths = int(self._short("hhea", 34))
        self._glyphs = _character_map(self._table("cmap"))

    def _table(self, tag: str) -> bytes:
        offset, length = self._tables[tag]
        return self._data[offset : offset + length]

    def _short(self, tag: str, at: int) -> int:
        (value,) = struct.unpack_from(">H", self._data, self._tables[tag][0] + at)
        return int(value)

    def has(self, letter: str) -> bool:
        """Return whether the face has a glyph for this letter."""
        return ord(letter) in self._glyphs

    def advance(self, letter: str) -> float:
        """Return the width of a letter over the font's size; a missing one is drawn as a box."""
        glyph = min(self._glyphs.get(ord(letter), 0), self._widths - 1)
        return self._short("hmtx", 4 * glyph) / self.units

    def ink(self, letter: str) -> tuple[float, float]:
        """Return the lowest and highest ink of a letter from the baseline, over the font's size."""
        glyph = self._glyphs.get(ord(letter), 0)
        start, end = struct.unpack_from(">II", self._data, self._tables["loca"][0] + 4 * glyph)
        if start == end:
            return 0.0, 0.0
        header = struct.unpack_from(">5h", self._data, self._tables["glyf"][0] + start)
        return header[2] / self.units, header[4] / self.units


def _tables(data: bytes) -> dict[str, tuple[int, int]]:
    """Return the offset and length of every table, by tag."""
    (count,) = struct.unpack_from(">H", data, 4)
    rows = (struct.unpack_from(">4s4xII", data, 12 + 16 * row) for row in range(count))
    return {tag.decode("ascii"): (offset, length) for tag, offset, length in rows}


def _character_map(cmap: bytes) -> dict[int, int]:
    """Return glyph numbers by character code, from the format 4 subtable."""
    (count,) = struct.unpack_from(">H", cmap, 2)
    records = [struct.unpack_from(">HHI", cmap, 4 + 8 * row) for row in range(count)]
    offset = next(at for platform, encoding, at in records if (platform, encoding) == (3, 1))
    return {code: glyph for code, glyph in _segments(cmap[offset:]) if glyph}


def _segments(table: bytes) -> list[tuple[int, int]]:
    """Return every code and glyph of a format 4 subtable."""
    (double,) = struct.unpack_from(">H", table, 6)
    count = double // 2
    ends = struct.unpack_from(f">{count}H", table, 14)
    starts = struct.unpack_from(f">{count}H", table, 16 + double)
    deltas = struct.unpack_from(f">{count}h", table, 16 + 2 * double)
    base = 16 + 3 * double
    shifts = struct.unpack_from(f">{count}H", table, base)
    pairs: list[tuple[int, int]] = []
    for row, (start, end, delta, shift) in enumerate(
        zip(starts, ends, deltas, shifts, strict=True)
    ):
        for code in range(start, end + 1):
            if shift == 0:
                pairs.append((code, (code + delta) & 0xFFFF))
                continue
            (glyph,) = struct.unpack_from(">H", table, base + 2 * row + shift + 2 * (code - start))
            pairs.append((code, (glyph + delta) & 0xFFFF if glyph else 0))
    return pairs


@lru_cache(maxsize=2)
def face(*, bold: bool = False) -> Face:
    """Return the metrics of the regular or the bold face, read once."""
    path = files("permitkit").joinpath("render", "fonts", _FILES[bold])
    return Face(path.read_bytes())


def font_size_mm(capitals_mm: float) -> float:
    """Return the size of the font, in mm, whose capitals stand this high.

    Examples
    --------
    >>> round(font_size_mm(2.5), 3)
    3.429
    """
    return capitals_mm / CAP_HEIGHT


@lru_cache(maxsize=4096)
def _width(text: str, bold: bool) -> float:  # noqa: FBT001 -- a cache key, called only from here
    """Return the width of one line over the size of the font."""
    metrics = face(bold=bold)
    return sum(map(metrics.advance, text))


def text_width_mm(text: str, size_mm: float, *, bold: bool = False) -> float:
    """Return how wide the widest line of a text stands, in mm.

    Parameters
    ----------
    text
        One or more lines, parted by line feeds.
    size_mm
        Height of capitals. [mm]
    bold
        Whether the bold face is used.

    Examples
    --------
    >>> text_width_mm("", 2.5)
    0.0
    """
    return _widest(text, bold) * font_size_mm(size_mm)


@lru_cache(maxsize=8192)
def _widest(text: str, bold: bool) -> float:  # noqa: FBT001 -- as above
    """Return the width of the widest line of a text over the size of the font."""
    return max(_width(line, bold) for line in text.split("\n"))


@lru_cache(maxsize=4096)
def _ink(text: str, bold: bool) -> tuple[float, float]:  # noqa: FBT001 -- as above
    """Return the lowest and highest ink of one line over the size of the font."""
    spans = [face(bold=bold).ink(letter) for letter in text] or [(0.0, 0.0)]
    return min(low for low, _ in spans), max(high for _, high in spans)


@lru_cache(maxsize=4096)
def ink_span_mm(line: str, size_mm: float, *, bold: bool = False) -> tuple[float, float]:
    """Return the room one line needs below and above its baseline, in mm.

    Never less than an ordinary line keeps, so that lines of one size stand alike; more where an
    accent reaches further.
    """
    low, high = _ink(line, bold)
    font_mm = font_size_mm(size_mm)
    return min(low, -DESCENT) * font_mm, max(high, ASCENT) * font_mm


@lru_cache(maxsize=2048)
def wrapped(text: str, width_mm: float, size_mm: float, *, bold: bool = False) -> tuple[str, ...]:
    """Return the text broken into lines no wider than `width_mm`.

    Lines break at spaces, never inside a mixed number such as 3 1/2; a word wider than the line is
    broken between letters. An empty text gives no lines.
    """
    lines: list[str] = []
    for paragraph in text.split("\n"):
        lines.extend(_filled(paragraph, width_mm, size_mm, bold=bold))
    return tuple(line.replace(_NO_BREAK, " ") for line in lines)


def _filled(paragraph: str, width_mm: float, size_mm: float, *, bold: bool) -> list[str]:
    """Return one paragraph's lines."""
    lines: list[str] = []
    line = ""
    for word in _HELD_SPACE.sub(_NO_BREAK, paragraph).split(" "):
        longer = f"{line} {word}" if line else word
        if text_width_mm(longer, size_mm, bold=bold) <= width_mm:
            line = longer
            continue
        if line:
            lines.append(line)
        *full, line = _pieces(word, width_mm, size_mm, bold=bold)
        lines.extend(full)
    return [*lines, line] if line else lines


def _pieces(word: str, width_mm: float, size_mm: float, *, bold: bool) -> list[str]:
    """Return a word cut between letters where it would pass the width."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width_mm(pieces[-1] + letter, size_mm, bold=bold) > width_mm:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def missing_glyphs(text: str) -> tuple[str, ...]:
    """Return the letters that the faces cannot show, each once, in order; line feeds pass.

    Examples
    --------
    >>> missing_glyphs("3 1/2″ ≥ ½ 4·5° ok")
    ()
    >>> missing_glyphs("a\u6c34b")
    ('水',)
    """
    faces = (face(), face(bold=True))
    unknown = (
        letter
        for letter in text
        if letter != "\n" and not all(known.has(letter) for known in faces)
    )
    return tuple(dict.fromkeys(unknown))
