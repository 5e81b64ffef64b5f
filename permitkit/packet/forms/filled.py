"""A form filled in: texts with their own letters, boxes with the form's own ticks, still fillable.

Each text is drawn into its field in the packet's embedded face, so that every reader shows the same
and none has to draw it anew. The value is kept as well, and can be changed. A place on paper is
inked onto the page. Signatures are left as they are.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    NullObject,
    TextStringObject,
)

from permitkit.packet.forms.entries import Entry
from permitkit.packet.forms.ink import Sheet, inked
from permitkit.packet.forms.layout import Cross, Lettered, in_cell, on_paper, ticked
from permitkit.packet.forms.look import cell_of, frame_of, size_of
from permitkit.packet.forms.opened import BOX, LIST, ROUND
from permitkit.packet.forms.widgets import (
    field_of,
    name_of,
    on_state,
    top_of,
    turn_of,
    widgets_of,
)
from permitkit.render.binding.overlay import form_of, lay_over, shown_size
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pypdf import PageObject
    from pypdf.generic import PdfObject

    from permitkit.packet.forms.opened import Field, FormPdf

__all__ = ["NOTES", "fill_in"]

NOTES = ("see application page", "see appl. page", "see page", "*")
"""What stands in a field whose text does not fit, the longest that does."""

_DRAWN = "Yes"


@dataclass
class _Filling:
    """A form while it is filled in: what is inked, and for which widget or page."""

    writer: PdfWriter
    widgets: dict[str, list[DictionaryObject]]
    sheets: list[Sheet] = field(default_factory=list)
    targets: list[tuple[DictionaryObject, str]] = field(default_factory=list)
    on_pages: dict[int, list[Lettered | Cross]] = field(default_factory=dict)
    too_long: list[Entry] = field(default_factory=list)


def fill_in(pdf: FormPdf, entries: Sequence[Entry], number: str) -> tuple[bytes, tuple[Entry, ...]]:
    """Return a form with its entries, and those whose text found no room.

    Parameters
    ----------
    pdf
        The form as the town gave it.
    entries
        What goes in.
    number
        The form's number: its fields are gathered under it, so that two forms in one packet may
        call a field alike.
    """
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pdf.content)))
    widgets: dict[str, list[DictionaryObject]] = {}
    for _, _, widget in widgets_of(list(writer.pages)):
        widgets.setdefault(name_of(widget), []).append(widget)
    filling = _Filling(writer, widgets)
    for entry in entries:
        _enter(filling, entry)
    _ink(filling)
    _gather(filling, number)
    target = io.BytesIO()
    writer.write(target)
    return target.getvalue(), tuple(filling.too_long)


def _enter(filling: _Filling, entry: Entry) -> None:
    """Put one entry where it belongs."""
    if entry.spot is not None:
        _on_page(filling, entry)
    elif entry.field is None:
        return
    elif entry.field.kind == ROUND:
        _press(filling, entry.field, entry.choice)
    elif entry.field.kind == BOX:
        _tick(filling, entry)
    elif entry.field.kind == LIST:
        shown = dict(entry.field.options).get(entry.choice, entry.choice)
        _write(filling, entry, shown, entry.choice)
    else:
        _write(filling, entry, entry.text, entry.text)


def _on_page(filling: _Filling, entry: Entry) -> None:
    """Ink a text or a cross onto the page."""
    spot = entry.spot
    if spot is None or not (entry.text or entry.tick):
        return
    marks = filling.on_pages.setdefault(spot.page - 1, [])
    height = shown_size(filling.writer.pages[spot.page - 1])[1] / POINTS_PER_MM
    if entry.tick:
        marks.append(ticked(spot, height))
        return
    lines = on_paper(entry.text, spot, height)
    if not lines:
        filling.too_long.append(entry)
        lines = next(filter(None, (on_paper(note, spot, height) for note in NOTES)), ())
    marks.extend(lines)


def _write(filling: _Filling, entry: Entry, shown: str, value: str) -> None:
    """Write a text into every place where its field stands, or the note where it has no room."""
    if entry.field is None or not shown:
        return
    widgets = filling.widgets[entry.field.name]
    cells = [cell_of(filling.writer, widget, entry.field) for widget in widgets]
    said = shown
    if not all(in_cell(shown, cell) for cell in cells):
        filling.too_long.append(entry)
        fit = (note for note in NOTES if all(in_cell(note, cell) for cell in cells))
        said = value = next(fit, "")
    if not said:
        return
    _hold(widgets, TextStringObject(value))
    for widget, cell in zip(widgets, cells, strict=True):
        marks = in_cell(said, cell)
        filling.sheets.append(Sheet(cell.width, cell.height, marks, frame_of(widget)))
        filling.targets.append((widget, ""))


def _hold(widgets: Sequence[DictionaryObject], value: PdfObject) -> None:
    """Let a field hold a value, wherever it stands."""
    for holder in map(field_of, widgets):
        holder[NameObject("/V")] = value
        for name in ("/RV", "/I"):
            holder.pop(name, None)


def _tick(filling: _Filling, entry: Entry) -> None:
    """Turn a box on, with the form's own tick or, where it draws none, with a cross."""
    if entry.field is None or not entry.tick:
        return
    widgets = filling.widgets[entry.field.name]
    state = next(filter(None, map(on_state, widgets)), _DRAWN)
    _hold(widgets, NameObject(f"/{state}"))
    for widget in widgets:
        widget[NameObject("/AS")] = NameObject(f"/{state}")
        if not on_state(widget):
            width, height = size_of(widget)
            cross = Cross(0.0, 0.0, width, height)
            filling.sheets.append(Sheet(width, height, (cross,), frame_of(widget)))
            filling.targets.append((widget, state))


def _press(filling: _Filling, of: Field, state: str) -> None:
    """Press one of a row of round buttons."""
    if not state:
        return
    widgets = filling.widgets[of.name]
    _hold(widgets, NameObject(f"/{state}"))
    for widget in widgets:
        on = on_state(widget)
        widget[NameObject("/AS")] = NameObject(f"/{state}" if on == state else "/Off")


def _ink(filling: _Filling) -> None:
    """Draw all letters and crosses at once, and put them in their places."""
    pages: list[PageObject] = []
    for number, marks in filling.on_pages.items():
        page = filling.writer.pages[number]
        width, height = shown_size(page)
        filling.sheets.append(Sheet(width / POINTS_PER_MM, height / POINTS_PER_MM, tuple(marks)))
        pages.append(page)
    if not filling.sheets:
        return
    drawn = list(PdfReader(io.BytesIO(inked(filling.sheets))).pages)
    for (widget, state), mark in zip(filling.targets, drawn, strict=False):
        _show(filling.writer, widget, mark, state)
    lay_over(filling.writer, pages, drawn[len(filling.targets) :])


def _show(writer: PdfWriter, widget: DictionaryObject, mark: PageObject, state: str) -> None:
    """Let a widget show a page of marks, in one state or always."""
    reference = form_of(writer, mark)
    form: Any = reference.get_object()
    if not state:
        form.set_data(b"/Tx BMC q " + form.get_data() + b" Q EMC")
    turn = turn_of(widget)
    if turn:
        width, height = (float(form["/BBox"][at]) for at in (2, 3))
        turned = {
            90: (0, 1, -1, 0, height, 0),
            180: (-1, 0, 0, -1, width, height),
            270: (0, -1, 1, 0, 0, width),
        }[turn]
        form[NameObject("/Matrix")] = ArrayObject(FloatObject(part) for part in turned)
    shown: Any = reference
    if state:
        shown = DictionaryObject({NameObject(f"/{state}"): reference})
    widget[NameObject("/AP")] = DictionaryObject({NameObject("/N"): shown})


def _gather(filling: _Filling, number: str) -> None:
    """Gather the fields under the form's number, and let no reader draw them anew."""
    if not filling.widgets:
        return
    root = filling.writer.root_object
    held: Any = root.get("/AcroForm", NullObject()).get_object()
    if not isinstance(held, DictionaryObject):
        held = root[NameObject("/AcroForm")] = DictionaryObject()
    for name in ("/NeedAppearances", "/CO"):
        held.pop(name, None)
    above = DictionaryObject({NameObject("/T"): TextStringObject(number.replace(".", "-"))})
    for name in ("/DA", "/Q"):
        if name in held:
            above[NameObject(name)] = held.raw_get(name)
    reference = filling.writer._add_object(above)  # noqa: SLF001 - the library's own way to add one
    tops = dict.fromkeys(
        top.indirect_reference
        for widgets in filling.widgets.values()
        for top in map(top_of, widgets)
        if top.indirect_reference is not None and "/T" in top
    )
    above[NameObject("/Kids")] = ArrayObject(tops)
    for top in tops:
        top_field: Any = top.get_object()
        top_field[NameObject("/Parent")] = reference
    held[NameObject("/Fields")] = ArrayObject([reference])
