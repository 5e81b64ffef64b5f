"""How a field of a form looks: its size, its letters, its frame."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from pypdf.generic import DictionaryObject

from permitkit.drawing.lettering import CAP_HEIGHT
from permitkit.packet.forms.ink import Frame
from permitkit.packet.forms.layout import Cell
from permitkit.packet.forms.widgets import inherited, rect_of, turn_of
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from pypdf import PdfWriter

    from permitkit.packet.forms.opened import Field

__all__ = ["cell_of", "frame_of", "size_of"]

_SIZE = re.compile(r"([0-9.]+)\s+Tf")


def size_of(widget: DictionaryObject) -> tuple[float, float]:
    """Return the width and height of what a widget shows, in mm."""
    x0, y0, x1, y1 = rect_of(widget)
    width, height = (x1 - x0) / POINTS_PER_MM, (y1 - y0) / POINTS_PER_MM
    return (height, width) if turn_of(widget) % 180 else (width, height)


def cell_of(writer: PdfWriter, widget: DictionaryObject, of: Field) -> Cell:
    """Return a field to write in, with what the form says of its letters."""
    form: Any = writer.root_object.get("/AcroForm", DictionaryObject()).get_object()
    look = inherited(widget, "/DA") or form.get("/DA", "")
    size = _SIZE.search(str(look))
    set_at = inherited(widget, "/Q")
    width, height = size_of(widget)
    return Cell(
        width,
        height,
        capitals=float(size[1]) * CAP_HEIGHT / POINTS_PER_MM if size else 0.0,
        set_at=int(form.get("/Q", 0) if set_at is None else set_at) % 3,
        edge=frame_of(widget).edge,
        most=of.most,
        lines=of.lines,
        comb=of.comb,
    )


def frame_of(widget: DictionaryObject) -> Frame:
    """Return the ground and the frame of a field."""
    marks: Any = widget.get("/MK", DictionaryObject()).get_object()
    style: Any = widget.get("/BS", DictionaryObject()).get_object()
    line = tuple(float(part) for part in marks.get("/BC", ()))
    sort = style.get("/S", "/S")
    return Frame(
        edge=float(style.get("/W", 1)) / POINTS_PER_MM if line else 0.0,
        line=line,
        ground=tuple(float(part) for part in marks.get("/BG", ())),
        dashed=sort == "/D",
        under=sort == "/U",
    )
