"""The widgets of a PDF: the places on its pages where its fields stand, and what they inherit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject, StreamObject

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pypdf import PageObject

__all__ = [
    "field_of",
    "inherited",
    "name_of",
    "on_state",
    "rect_of",
    "top_of",
    "turn_of",
    "widgets_of",
]

_DEEPEST = 32


def widgets_of(pages: Sequence[PageObject]) -> Iterator[tuple[int, PageObject, DictionaryObject]]:
    """Yield every widget with its page, counted from 0, in the order they stand on the pages."""
    for number, page in enumerate(pages):
        held: Any = page.get("/Annots", ArrayObject()).get_object()
        for one in held if isinstance(held, ArrayObject) else ():
            widget = one.get_object()
            if isinstance(widget, DictionaryObject) and widget.get("/Subtype") == "/Widget":
                yield number, page, widget


def _line(widget: DictionaryObject) -> Iterator[DictionaryObject]:
    """Yield a widget and the fields above it."""
    held: Any = widget
    for _ in range(_DEEPEST):
        if not isinstance(held, DictionaryObject):
            return
        yield held
        held = held.get("/Parent")
        held = held.get_object() if isinstance(held, IndirectObject) else held


def inherited(widget: DictionaryObject, name: str) -> Any:  # noqa: ANN401 - any object of a PDF
    """Return what a widget says under a name, or else the fields above it; nothing if none does."""
    for held in _line(widget):
        if name in held:
            return held[name]
    return None


def name_of(widget: DictionaryObject) -> str:
    """Return the whole name of a widget's field."""
    return ".".join(str(held["/T"]) for held in reversed(list(_line(widget))) if "/T" in held)


def field_of(widget: DictionaryObject) -> DictionaryObject:
    """Return the field that a widget shows: the nearest above it that has a name."""
    return next((held for held in _line(widget) if "/T" in held), widget)


def top_of(widget: DictionaryObject) -> DictionaryObject:
    """Return the field above all others that a widget belongs to."""
    return list(_line(widget))[-1]


def rect_of(widget: DictionaryObject) -> tuple[float, float, float, float]:
    """Return the left, bottom, right and top of a widget on its page as it lies, in points."""
    held: Any = widget["/Rect"].get_object()
    x0, y0, x1, y1 = (float(at) for at in held)
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def turn_of(widget: DictionaryObject) -> int:
    """Return how far what a widget shows is turned against its page: 0, 90, 180 or 270."""
    marks: Any = widget.get("/MK", DictionaryObject()).get_object()
    return int(marks.get("/R", 0)) % 360


def on_state(widget: DictionaryObject) -> str:
    """Return the state in which a box or a round button is on; empty where it draws none."""
    drawn: Any = widget.get("/AP", DictionaryObject()).get_object()
    states: Any = drawn.get("/N", DictionaryObject()).get_object()
    if not isinstance(states, DictionaryObject) or isinstance(states, StreamObject):
        return ""
    return next((str(name)[1:] for name in states if name != "/Off"), "")
