"""Sheets turned into a vector PDF, drawn in millimetres, the same bytes for the same shapes."""

from __future__ import annotations

import math
from functools import lru_cache
from io import BytesIO
from typing import TYPE_CHECKING, Any

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from permitkit.drawing.lettering import LINE_PITCH, font_size_mm
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
from permitkit.render.fonts import REGULAR, font_name, register
from permitkit.render.hatching import Tile, tile
from permitkit.render.pens import PENS, TONE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from permitkit.drawing.shapes import Point, Shape
    from permitkit.drawing.sheet import Sheet

__all__ = ["POINTS_PER_MM", "Ink", "draw_sheets", "new_canvas", "render_sheets"]

POINTS_PER_MM = 72 / 25.4

_WHITE = (1.0, 1.0, 1.0)
_BLACK = (0.0, 0.0, 0.0)
_BACKING_MM = 0.25
_ROUND, _BUTT = 1, 0
_EVEN_ODD = 0
_SPECK_MM = 0.005


def new_canvas(
    target: BytesIO,
    size_mm: tuple[float, float],
    *,
    title: str,
    author: str = "",
    language: str = "en-US",
) -> Canvas:
    """Return a canvas that writes no clock and no random number, with its title and language."""
    register()
    size = (size_mm[0] * POINTS_PER_MM, size_mm[1] * POINTS_PER_MM)
    canvas = Canvas(
        target,
        pagesize=size,
        invariant=1,
        pageCompression=1,
        lang=language,
        initialFontName=REGULAR,  # type: ignore[arg-type]  # the stub wants a float
    )
    canvas.setTitle(title)
    canvas.setAuthor(author)
    canvas.setSubject(title)
    canvas.setCreator("permitkit")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas


def render_sheets(
    sheets: Sequence[Sheet], title: str = "", author: str = "", language: str = "en-US"
) -> bytes:
    """Return a PDF with one page for each sheet.

    Parameters
    ----------
    sheets
        At least one.
    title, author, language
        Written into the document; the title is the first sheet's unless given.

    Raises
    ------
    ValueError
        If there is no sheet.
    """
    if not sheets:
        raise ValueError("there is no sheet to render")
    target = BytesIO()
    first = sheets[0]
    size = (first.width_mm, first.height_mm)
    canvas = new_canvas(target, size, title=title or first.title, author=author, language=language)
    draw_sheets(canvas, sheets)
    canvas.save()
    return target.getvalue()


def draw_sheets(
    canvas: Canvas, sheets: Iterable[Sheet], at_end: Callable[[], None] = lambda: None
) -> None:
    """Draw sheets on pages of a canvas; `at_end` is called when one is full, in points again."""
    for sheet in sheets:
        canvas.setPageSize((sheet.width_mm * POINTS_PER_MM, sheet.height_mm * POINTS_PER_MM))
        canvas.saveState()
        canvas.scale(POINTS_PER_MM, POINTS_PER_MM)
        Ink(canvas).draw(sheet.shapes)
        canvas.restoreState()
        at_end()
        canvas.showPage()


class Ink:
    """Draws shapes on a canvas whose unit is the millimetre.

    Parameters
    ----------
    canvas
        Scaled so that one unit is a millimetre. Pens are set only when they change.
    """

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._pen: Role | None = None
        self._paint: tuple[float, float, float] | None = None
        self._draw: dict[type, Callable[[Any], None]] = {
            Line: self._line,
            Polyline: self._polyline,
            Polygon: self._polygon,
            Circle: self._circle,
            Arc: self._arc,
            Hatch: self._hatch,
            Label: self._label,
            Picture: self._picture,
        }

    def draw(self, shapes: Iterable[Shape]) -> None:
        """Draw shapes in their order, texts last."""
        for mark in inked(shapes):
            self._draw[type(mark)](mark)

    def _take(self, role: Role) -> None:
        """Take the pen of a role."""
        if role is self._pen:
            return
        pen = PENS[role]
        self._pen = role
        self._canvas.setLineWidth(pen.width_mm)
        self._canvas.setDash(list(pen.dashes_mm))
        self._canvas.setStrokeColorRGB(*pen.colour)
        self._canvas.setLineCap(_ROUND if pen.round_ends else _BUTT)
        self._canvas.setLineJoin(_ROUND)

    def _fill_with(self, colour: tuple[float, float, float]) -> None:
        """Take a colour for filling and for text."""
        if colour != self._paint:
            self._paint = colour
            self._canvas.setFillColorRGB(*colour)

    def _prepare(self, mark: Polygon | Circle) -> dict[str, int]:
        """Take pen and colour for a closed shape; return what the canvas is to do with it."""
        if mark.outlined:
            self._take(mark.role)
        if mark.fill is not Fill.NONE:
            solid = PENS[mark.role].colour
            self._fill_with({Fill.WHITE: _WHITE, Fill.TONE: TONE, Fill.SOLID: solid}[mark.fill])
        return {"stroke": int(mark.outlined), "fill": int(mark.fill is not Fill.NONE)}

    def _line(self, mark: Line) -> None:
        self._take(mark.role)
        self._canvas.line(*mark.start, *mark.end)

    def _polyline(self, mark: Polyline) -> None:
        self._take(mark.role)
        self._canvas.drawPath(_path((mark.points,), closed=mark.closed), stroke=1, fill=0)

    def _polygon(self, mark: Polygon) -> None:
        self._canvas.drawPath(_path((mark.points,)), **self._prepare(mark))

    def _circle(self, mark: Circle) -> None:
        self._canvas.circle(*mark.centre, mark.radius_mm, **self._prepare(mark))

    def _arc(self, mark: Arc) -> None:
        self._take(mark.role)
        box = Box(*mark.centre, *mark.centre).grown(mark.radius_mm)
        self._canvas.arc(*box, startAng=mark.start_deg, extent=mark.end_deg - mark.start_deg)

    def _label(self, mark: Label) -> None:
        """Write a text, always in black: the letter of a utility has to survive a copier."""
        if mark.backing:
            self._fill_with(_WHITE)
            whole = mark.upright.grown(_BACKING_MM)
            white = [turned(corner, mark.at, mark.angle_deg) for corner in whole.corners]
            self._canvas.drawPath(_path((white,)), stroke=0, fill=1)
        self._fill_with(_BLACK)
        canvas = self._canvas
        left = mark.upright.left - mark.at[0]
        angle = math.radians(mark.angle_deg)
        cosine, sine = math.cos(angle), math.sin(angle)
        text = canvas.beginText()
        text.setFont(font_name(bold=mark.bold), font_size_mm(mark.size_mm))
        up = mark.first_baseline - mark.at[1]
        for line in mark.lines:
            x = mark.at[0] + left * cosine - up * sine
            y = mark.at[1] + left * sine + up * cosine
            text.setTextTransform(cosine, sine, -sine, cosine, x, y)
            text.textOut(line)
            up -= LINE_PITCH * mark.size_mm
        canvas.drawText(text)

    def _picture(self, mark: Picture) -> None:
        """Set a photograph; its bytes go into the document as they are."""
        left, bottom, _, _ = mark.box
        source = ImageReader(BytesIO(mark.jpeg))
        self._canvas.drawImage(source, left, bottom, mark.box.width, mark.box.height)

    def _hatch(self, mark: Hatch) -> None:
        """Cover a region with tiles, cut off at its edge and at its holes."""
        canvas = self._canvas
        marks = tile(mark.pattern, mark.density)
        form = f"hatch-{mark.pattern}-{mark.density:g}"
        if not canvas.hasForm(form):
            self._define(form, marks)
        canvas.saveState()
        path = _path((mark.region, *mark.holes))
        canvas.clipPath(path, stroke=0, fill=0, fillMode=_EVEN_ODD)
        self._lay(form, marks, Box.around(mark.region))
        canvas.restoreState()

    def _lay(self, form: str, marks: Tile, box: Box) -> None:
        """Lay tiles side by side over a box, the grid counted from the corner of the sheet."""
        size, reach = marks.size_mm, marks.reach_mm
        here = (0, 0)
        for row in range(_floor(box.bottom - reach, size), _floor(box.top + reach, size) + 1):
            for column in range(
                _floor(box.left - reach, size), _floor(box.right + reach, size) + 1
            ):
                self._canvas.translate((column - here[0]) * size, (row - here[1]) * size)
                self._canvas.doForm(form)
                here = (column, row)

    def _define(self, form: str, marks: Tile) -> None:
        """Write the marks of a tile once into the document."""
        canvas = self._canvas
        low, high = math.floor(-marks.reach_mm), math.ceil(marks.size_mm + marks.reach_mm)
        canvas.beginForm(form, low, low, high, high)
        pen = PENS[Role.HATCH]
        canvas.setLineWidth(pen.width_mm)
        canvas.setDash(list(pen.dashes_mm))
        canvas.setStrokeColorRGB(*pen.colour)
        canvas.setLineCap(_ROUND)
        strokes, specks = _tile_paths(marks)
        canvas.drawPath(strokes, stroke=1, fill=0)
        if marks.dots:
            canvas.setLineWidth(2 * marks.dot_radius_mm)
            canvas.drawPath(specks, stroke=1, fill=0)
        canvas.endForm()


@lru_cache(maxsize=64)
def _tile_paths(marks: Tile) -> tuple[PDFPathObject, PDFPathObject]:
    """Return the strokes and the dots of a tile, each as one path."""
    specks = (((x - _SPECK_MM, y), (x + _SPECK_MM, y)) for x, y in marks.dots)
    return _path(marks.strokes, closed=False), _path(specks, closed=False)


def _path(strokes: Iterable[Sequence[Point]], *, closed: bool = True) -> PDFPathObject:
    """Return straight lines from point to point as one path, to a tenth of a micrometre."""
    code = ["n"]
    for (x, y), *others in strokes:
        code.append(f"{x:.4f} {y:.4f} m")
        code += [f"{x:.4f} {y:.4f} l" for x, y in others]
        if closed:
            code.append("h")
    return PDFPathObject(code)


def _floor(length: float, size: float) -> int:
    """Return which tile a length falls into."""
    return math.floor(length / size)
