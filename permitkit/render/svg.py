"""A sheet as SVG, for screens and e-mail: the marks of the PDF with its pens, dashes and hatches.

Texts stay text. Each line is set to the width it was measured at, so that nothing moves where the
reader's machine has another face.
"""

from __future__ import annotations

import math
import re
from base64 import b64encode
from itertools import groupby, product
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape, quoteattr

from permitkit.drawing.lettering import LINE_PITCH, font_size_mm, text_width_mm
from permitkit.drawing.shapes import (
    Arc,
    Box,
    Circle,
    Fill,
    Hatch,
    Label,
    Line,
    Picture,
    Polygon,
    Polyline,
    Role,
    turned,
)
from permitkit.drawing.sheet import inked
from permitkit.render.hatching import Tile, tile
from permitkit.render.pens import PENS, TONE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from permitkit.drawing.shapes import Point, Primitive
    from permitkit.drawing.sheet import Sheet
    from permitkit.render.pens import Colour

__all__ = ["render_svg"]

_FACES = "'DejaVu Sans Condensed', 'DejaVu Sans', Verdana, Arial, sans-serif"
_BACKING_MM = 0.25
_SPECK_MM = 0.005
_FULL_TURN = 360.0
_HALF_TURN = 180.0
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def render_svg(sheet: Sheet, language: str = "en-US") -> bytes:
    """Return a sheet as an SVG document in millimetres, the same bytes for the same shapes.

    Parameters
    ----------
    sheet
        What is drawn, on white paper.
    language
        Written into the document.
    """
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            f"<svg{_root(sheet, language)}>",
            f"<title>{_text(sheet.title)}</title>",
            f"<desc>{_text(f'{sheet.number} {sheet.scale_text}'.strip())}</desc>",
            '<rect width="100%" height="100%" fill="#fff"/>',
            *_Page(sheet).elements(inked(sheet.shapes)),
            "</svg>\n",
        )
    ).encode()


def _root(sheet: Sheet, language: str) -> str:
    """Return the attributes of the whole drawing: its size, and a unit that is the millimetre."""
    width, height = _number(sheet.width_mm), _number(sheet.height_mm)
    spaces = (
        ' xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
        ' xml:space="preserve"'
    )
    return spaces + _attributes(
        width=f"{width}mm",
        height=f"{height}mm",
        viewBox=f"0 0 {width} {height}",
        lang=language,
        role="img",
        font_family=_FACES,
        fill="none",
    )


def _number(value: float) -> str:
    """Return a number to a thousandth, as short as it goes."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _text(text: str) -> str:
    """Return a text as XML; what XML cannot carry becomes a space."""
    return escape(_NOT_XML.sub(" ", text))


def _attributes(**values: str | float) -> str:
    """Return attributes, numbers to a thousandth; an underscore in a name stands for a hyphen."""
    pairs = (
        (name.replace("_", "-"), value if isinstance(value, str) else _number(value))
        for name, value in values.items()
    )
    return "".join(f" {name}={quoteattr(_NOT_XML.sub(' ', value))}" for name, value in pairs)


def _colour(colour: Colour) -> str:
    """Return a colour as a browser reads it."""
    return "#" + "".join(f"{round(part * 255):02x}" for part in colour)


def _pen(role: Role) -> str:
    """Return the attributes of a role's pen."""
    pen = PENS[role]
    values: dict[str, str | float] = {
        "stroke": _colour(pen.colour),
        "stroke_width": pen.width_mm,
        "stroke_linecap": "round" if pen.round_ends else "butt",
        "stroke_linejoin": "round",
    }
    if pen.dashes_mm:
        values["stroke_dasharray"] = " ".join(map(_number, pen.dashes_mm))
    return _attributes(**values)


def _group(mark: Primitive) -> tuple[str, str]:
    """Return what neighbouring marks share: the class of their group, and its attributes."""
    match mark:
        case Label():
            return mark.role.value, ' fill="#000"'
        case Hatch() | Picture():
            return mark.role.value, ""
        case _:
            return mark.role.value, _pen(mark.role)


class _Page:
    """Writes marks as elements: y runs down from the top of the sheet.

    Parameters
    ----------
    sheet
        Its height turns heights over; its title and number keep names apart where several
        drawings stand in one web page.
    """

    def __init__(self, sheet: Sheet) -> None:
        self._height = sheet.height_mm
        words = re.findall(r"[a-z0-9]+", f"{sheet.title} {sheet.number}".lower())
        self._name = "-".join(["sheet", *words])
        self._clips = 0
        self._tiles: set[str] = set()
        self._write: dict[type, Callable[[Any], Iterator[str]]] = {
            Line: self._line,
            Polyline: self._polyline,
            Polygon: self._polygon,
            Circle: self._circle,
            Arc: self._arc,
            Hatch: self._hatch,
            Label: self._label,
            Picture: self._picture,
        }

    def elements(self, marks: Iterable[Primitive]) -> Iterator[str]:
        """Return the marks in their order, neighbours with one pen in one group."""
        for (role, attributes), some in groupby(marks, key=_group):
            yield f'<g class="{role}"{attributes}>'
            for mark in some:
                yield from self._write[type(mark)](mark)
            yield "</g>"

    def _place(self, point: Point) -> str:
        """Return a point with its height turned over."""
        return f"{_number(point[0])},{_number(self._height - point[1])}"

    def _run(self, points: Iterable[Point]) -> str:
        return " ".join(map(self._place, points))

    def _line(self, mark: Line) -> Iterator[str]:
        (x1, y1), (x2, y2) = mark.start, mark.end
        yield f"<line{_attributes(x1=x1, y1=self._height - y1, x2=x2, y2=self._height - y2)}/>"

    def _polyline(self, mark: Polyline) -> Iterator[str]:
        name = "polygon" if mark.closed else "polyline"
        yield f'<{name} points="{self._run(mark.points)}"/>'

    def _polygon(self, mark: Polygon) -> Iterator[str]:
        yield f'<polygon points="{self._run(mark.points)}"{_covering(mark)}/>'

    def _circle(self, mark: Circle) -> Iterator[str]:
        x, y = mark.centre
        ring = _attributes(cx=x, cy=self._height - y, r=mark.radius_mm)
        yield f"<circle{ring}{_covering(mark)}/>"

    def _arc(self, mark: Arc) -> Iterator[str]:
        sweep = mark.end_deg - mark.start_deg
        if abs(sweep) >= _FULL_TURN:
            yield from self._circle(Circle(mark.centre, mark.radius_mm, mark.role))
            return
        x, y = mark.centre
        first, last = (
            self._place(turned((x + mark.radius_mm, y), mark.centre, angle))
            for angle in (mark.start_deg, mark.end_deg)
        )
        radius = _number(mark.radius_mm)
        flags = f"{int(abs(sweep) > _HALF_TURN)} {int(sweep < 0)}"
        yield f'<path d="M{first} A{radius} {radius} 0 {flags} {last}"/>'

    def _label(self, mark: Label) -> Iterator[str]:
        """Write a text, always in black: the letter of a utility has to survive a copier."""
        if mark.backing:
            corners = mark.upright.grown(_BACKING_MM).corners
            white = self._run(turned(corner, mark.at, mark.angle_deg) for corner in corners)
            yield f'<polygon points="{white}" fill="#fff"/>'
        face = _attributes(font_size=font_size_mm(mark.size_mm))
        if mark.bold:
            face += ' font-weight="bold"'
        for row, line in enumerate(mark.lines):
            if line.strip():
                yield self._words(mark, line, row, face)

    def _words(self, mark: Label, line: str, row: int, face: str) -> str:
        """Return one line of a text, set to its measured width."""
        level = mark.first_baseline - row * LINE_PITCH * mark.size_mm
        x, y = turned((mark.upright.left, level), mark.at, mark.angle_deg)
        place = _attributes(x=x, y=self._height - y)
        if mark.angle_deg:
            about = f"{_number(x)} {_number(self._height - y)}"
            place += f' transform="rotate({_number(-mark.angle_deg)} {about})"'
        width = _number(text_width_mm(line, mark.size_mm, bold=mark.bold))
        fit = f' textLength="{width}" lengthAdjust="spacingAndGlyphs"'
        return f"<text{place}{face}{fit}>{_text(line)}</text>"

    def _picture(self, mark: Picture) -> Iterator[str]:
        box = mark.box
        place = _attributes(
            x=box.left, y=self._height - box.top, width=box.width, height=box.height
        )
        data = b64encode(mark.jpeg).decode("ascii")
        yield (
            f'<image{place} preserveAspectRatio="none" xlink:href="data:image/jpeg;base64,{data}"/>'
        )

    def _hatch(self, mark: Hatch) -> Iterator[str]:
        """Cover a region with tiles, cut off at its edge and at its holes."""
        marks = tile(mark.pattern, mark.density)
        name = f"{self._name}-{mark.pattern}-{_number(mark.density).replace('.', '_')}"
        if name not in self._tiles:
            self._tiles.add(name)
            yield f'<defs><g id="{name}"{_pen(Role.HATCH)}>{"".join(_tile(marks))}</g></defs>'
        self._clips += 1
        clip = f"{self._name}-clip-{self._clips}"
        rings = " ".join(f"M{self._run(ring)}Z" for ring in (mark.region, *mark.holes))
        yield f'<clipPath id="{clip}"><path clip-rule="evenodd" d="{rings}"/></clipPath>'
        yield f'<g clip-path="url(#{clip})">'
        for x, y in _grid(marks, Box.around(mark.region)):
            yield f'<use{_attributes(x=x, y=self._height - y)} xlink:href="#{name}"/>'
        yield "</g>"


def _covering(mark: Polygon | Circle) -> str:
    """Return how a closed shape is covered, and that it has no outline."""
    outline = "" if mark.outlined else ' stroke="none"'
    if mark.fill is Fill.NONE:
        return outline
    solid = PENS[mark.role].colour
    inside = {Fill.WHITE: (1.0, 1.0, 1.0), Fill.TONE: TONE, Fill.SOLID: solid}[mark.fill]
    return f' fill="{_colour(inside)}"{outline}'


def _tile(marks: Tile) -> Iterator[str]:
    """Return the marks of a tile, from its bottom left corner."""
    if marks.strokes:
        yield f'<path d="{_strokes(marks.strokes)}"/>'
    if marks.dots:
        specks = [((x - _SPECK_MM, y), (x + _SPECK_MM, y)) for x, y in marks.dots]
        width = _number(2 * marks.dot_radius_mm)
        yield f'<path stroke-width="{width}" d="{_strokes(specks)}"/>'


def _strokes(strokes: Iterable[Sequence[Point]]) -> str:
    """Return many strokes as one path."""
    return "".join(
        "M" + " ".join(f"{_number(x)},{_number(-y)}" for x, y in stroke) for stroke in strokes
    )


def _grid(marks: Tile, box: Box) -> Iterator[Point]:
    """Return the corners of the tiles that cover a box, counted from the corner of the sheet."""
    size, reach = marks.size_mm, marks.reach_mm
    spans = ((box.bottom - reach, box.top + reach), (box.left - reach, box.right + reach))
    rows, columns = (
        range(math.floor(low / size), math.floor(high / size) + 1) for low, high in spans
    )
    yield from ((column * size, row * size) for row, column in product(rows, columns))
