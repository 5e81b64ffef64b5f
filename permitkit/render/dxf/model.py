"""Marks drawn into the model space of a DXF document, and the layout that prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS

from permitkit.drawing.frame import drawing_room
from permitkit.drawing.lettering import LINE_PITCH, text_width_mm
from permitkit.drawing.scale import Paper, System
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
    circle_points,
    turned,
)
from permitkit.drawing.sheet import flatten, outline
from permitkit.render.dxf.layers import HATCHES, LAYERS, SHEET_LAYER, layer_of
from permitkit.render.pens import PENS, TONE

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from ezdxf.document import Drawing
    from ezdxf.entities import Hatch as DxfHatch

    from permitkit.drawing.scale import Scale
    from permitkit.drawing.shapes import Point, Primitive
    from permitkit.drawing.sheet import Sheet
    from permitkit.render.pens import Colour

__all__ = ["Model"]

_FOOT_MM = 304.8
_METRE_MM = 1000.0
_INCH_MM = 25.4
_FEET, _METRES = 2, 6
_FULL_TURN = 360.0
_BLACK_OR_WHITE = 7
_AS_ITS_LAYER = 256
_FACES = {False: ("letters", "arial.ttf"), True: ("letters bold", "arialbd.ttf")}
_BACKING_MM = 0.25
_EXTERNAL, _HOLE = 1, 16
_HEADINGS = ("Legend", "Notes")


def _plan_room(sheet: Sheet) -> Box:
    """Return the part of a sheet that the plan lies in: above a legend or notes set under it."""
    room = drawing_room(Paper("", sheet.width_mm, sheet.height_mm))
    heads = (
        label.box.top
        for label in sheet.labels
        if label.bold and label.text.startswith(_HEADINGS) and room.holds(label.box)
    )
    return room._replace(bottom=max(heads, default=room.bottom)).grown(1e-6)


def _true_colour(colour: Colour) -> tuple[int, int, int]:
    red, green, blue = (round(part * 255) for part in colour)
    return red, green, blue


def _lineweight(width_mm: float) -> int:
    """Return the width nearest to a pen's that the format knows, in hundredths of a mm."""
    return min(VALID_DXF_LINEWEIGHTS, key=lambda known: abs(known - width_mm * 100))


def _written(text: str) -> str:
    """Return a text without what the format reads as a command."""
    return text.replace("^", "^ ").replace("%%", "% %")


class Model:
    """Draws marks into model space, in units on the ground.

    Parameters
    ----------
    document
        An empty document.
    sheet, scale
        What is drawn, and how it was reduced.
    """

    def __init__(self, document: Drawing, sheet: Sheet, scale: Scale) -> None:
        metric = scale.system is System.METRIC
        self._document, self._sheet = document, sheet
        self._space: Any = document.modelspace()
        self._factor = float(1 / scale.ratio) / (_METRE_MM if metric else _FOOT_MM)
        self._pattern_mm = self._factor if metric else self._factor * _INCH_MM
        document.header["$INSUNITS"] = _METRES if metric else _FEET
        document.header["$MEASUREMENT"] = int(metric)
        document.header["$PSLTSCALE"] = 0
        self._draw: dict[type, Callable[[Any, dict[str, Any]], None]] = {
            Line: self._line,
            Polyline: self._polyline,
            Polygon: self._polygon,
            Circle: self._circle,
            Arc: self._arc,
            Hatch: self._hatch,
            Label: self._label,
        }

    def draw(self) -> None:
        """Draw the sheet and its layout."""
        for style, font in _FACES.values():
            self._document.styles.add(style, font=font)
        room = _plan_room(self._sheet)
        for shape in self._sheet.shapes:
            for mark in flatten((shape,)):
                if not isinstance(mark, Picture):
                    on_plan = room.holds(Box.around(outline(mark)))
                    name = layer_of(mark, shape) if on_plan else SHEET_LAYER
                    self._draw[type(mark)](mark, self._on(name, mark))
        self._lay_out()

    def _on(self, name: str, mark: Primitive) -> dict[str, Any]:
        """Return a mark's layer and own pen; make the layer if the mark is the first there."""
        role = Role.TEXT if isinstance(mark, Label) else mark.role
        layers = self._document.layers
        if name not in layers:
            layer = layers.add(name, color=_BLACK_OR_WHITE)
            if name != SHEET_LAYER:
                self._ink(layer, role)
        if name != SHEET_LAYER:
            return {"layer": name}
        pen = PENS[role]
        own = {"lineweight": _lineweight(pen.width_mm), "linetype": self._dashes(role)}
        if any(pen.colour):
            red, green, blue = _true_colour(pen.colour)
            own["true_color"] = red << 16 | green << 8 | blue
        return {"layer": name, **own}

    def _ink(self, layer: Any, role: Role) -> None:  # noqa: ANN401 -- the library's layer
        """Give a layer the pen of a role; black stays what shows on any background."""
        pen = PENS[role]
        layer.dxf.lineweight = _lineweight(pen.width_mm)
        layer.dxf.linetype = self._dashes(role)
        if any(pen.colour):
            layer.rgb = _true_colour(pen.colour)

    def _dashes(self, role: Role) -> str:
        """Return the name of a role's dashes, as long on the ground as they show on paper."""
        lengths = PENS[role].dashes_mm
        if not lengths:
            return "CONTINUOUS"
        name = LAYERS[role]
        if name not in self._document.linetypes:
            sizes = [length * self._factor for length in lengths]
            signed = [size if rank % 2 == 0 else -size for rank, size in enumerate(sizes)]
            self._document.linetypes.add(name, [sum(sizes), *signed], description=name)
        return name

    def _at(self, point: Point) -> Point:
        """Return a point of the sheet on the ground."""
        return point[0] * self._factor, point[1] * self._factor

    def _points(self, points: Iterable[Point]) -> list[Point]:
        return [self._at(point) for point in points]

    def _line(self, mark: Line, on: dict[str, Any]) -> None:
        self._space.add_line(self._at(mark.start), self._at(mark.end), dxfattribs=on)

    def _polyline(self, mark: Polyline, on: dict[str, Any]) -> None:
        self._space.add_lwpolyline(self._points(mark.points), close=mark.closed, dxfattribs=on)

    def _polygon(self, mark: Polygon, on: dict[str, Any]) -> None:
        self._cover(mark, mark.points, on)
        if mark.outlined:
            self._space.add_lwpolyline(self._points(mark.points), close=True, dxfattribs=on)

    def _circle(self, mark: Circle, on: dict[str, Any]) -> None:
        self._cover(mark, circle_points(mark.centre, mark.radius_mm, 36), on)
        if mark.outlined:
            radius = mark.radius_mm * self._factor
            self._space.add_circle(self._at(mark.centre), radius, dxfattribs=on)

    def _arc(self, mark: Arc, on: dict[str, Any]) -> None:
        if abs(mark.end_deg - mark.start_deg) >= _FULL_TURN:
            self._circle(Circle(mark.centre, mark.radius_mm, mark.role), on)
            return
        start, end = sorted((mark.start_deg, mark.end_deg))
        radius = mark.radius_mm * self._factor
        self._space.add_arc(self._at(mark.centre), radius, start, end, dxfattribs=on)

    def _cover(self, mark: Polygon | Circle, points: Sequence[Point], on: dict[str, Any]) -> None:
        """Cover the inside of a closed shape; white hides what lies under it on any background."""
        if mark.fill is Fill.WHITE:
            self._hide(points, on)
        elif mark.fill is not Fill.NONE:
            area = self._area(points, (), on)
            if mark.fill is Fill.TONE:
                area.rgb = _true_colour(TONE)

    def _hide(self, points: Iterable[Point], on: dict[str, Any]) -> None:
        """Hide what lies under an area; the library sets its layer back, so it is named last."""
        self._space.add_wipeout(self._points(points)).dxf.layer = on["layer"]

    def _area(
        self, region: Sequence[Point], holes: Sequence[Sequence[Point]], on: dict[str, Any]
    ) -> DxfHatch:
        """Return a filled area less its holes, in the colour of its layer."""
        area: DxfHatch = self._space.add_hatch(color=_AS_ITS_LAYER, dxfattribs=on)
        area.paths.add_polyline_path(self._points(region), is_closed=True, flags=_EXTERNAL)
        for hole in holes:
            area.paths.add_polyline_path(self._points(hole), is_closed=True, flags=_HOLE)
        return area

    def _hatch(self, mark: Hatch, on: dict[str, Any]) -> None:
        _, name, size = HATCHES[mark.pattern]
        scale = size * self._pattern_mm / mark.density
        self._area(mark.region, mark.holes, on).set_pattern_fill(
            name, color=_AS_ITS_LAYER, scale=scale
        )

    def _label(self, mark: Label, on: dict[str, Any]) -> None:
        """Write a text line by line, each stretched to the width it was measured at."""
        if mark.backing:
            corners = mark.upright.grown(_BACKING_MM).corners
            white = [turned(corner, mark.at, mark.angle_deg) for corner in corners]
            self._hide(white, on)
        own = {"style": _FACES[mark.bold][0], "rotation": mark.angle_deg, **on}
        for row, line in enumerate(mark.lines):
            if line.strip():
                start, end = (turned(foot, mark.at, mark.angle_deg) for foot in _feet(mark, row))
                written = self._space.add_text(
                    _written(line), height=mark.size_mm * self._factor, dxfattribs=own
                )
                written.set_placement(self._at(start), self._at(end), TextEntityAlignment.FIT)

    def _lay_out(self) -> None:
        """Lay the sheet out for printing at its scale, and open the drawing on it."""
        size = self._sheet.width_mm, self._sheet.height_mm
        middle = size[0] / 2, size[1] / 2
        height = size[1] * self._factor
        self._document.set_modelspace_vport(height, center=self._at(middle))
        self._document.layouts.rename("Layout1", "Sheet")
        layout: Any = self._document.paperspace("Sheet")
        layout.page_setup(size=size, margins=(0, 0, 0, 0), units="mm", name="sheet")
        layout.add_viewport(middle, size, self._at(middle), height)


def _feet(mark: Label, row: int) -> tuple[Point, Point]:
    """Return both ends of a line's foot, before the text is turned."""
    left = mark.upright.left
    level = mark.first_baseline - row * LINE_PITCH * mark.size_mm
    width = text_width_mm(mark.lines[row], mark.size_mm, bold=mark.bold)
    return (left, level), (left + width, level)
