"""A form's PDF opened: its pages as they are read, and the fields that stand on them."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pypdf import PdfReader
from pypdf.errors import DependencyError, PyPdfError
from pypdf.generic import ArrayObject, DictionaryObject

from permitkit.errors import Fault, InputError
from permitkit.load.toml_text import shown_path
from permitkit.packet.forms.widgets import (
    inherited,
    name_of,
    on_state,
    rect_of,
    turn_of,
    widgets_of,
)
from permitkit.render.binding.overlay import page_turn, shown_size

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from pypdf import PageObject

__all__ = ["BOX", "BUTTON", "LIST", "ROUND", "SIGNATURE", "TEXT", "Field", "FormPdf", "open_form"]

LARGEST = 20_000_000
TEXT, BOX, ROUND, LIST = "text", "tick box", "round buttons", "list"
SIGNATURE, BUTTON = "signature", "button"
_MULTILINE, _PASSWORD, _RADIO, _PUSH = 1 << 12, 1 << 13, 1 << 15, 1 << 16
_COMBO, _EDIT, _COMB = 1 << 17, 1 << 18, 1 << 24
_HIDDEN = 1 << 1
_LOCKED = (
    "a PDF locked by a password",
    "a PDF that may be filled",
    "ask the town for one without, or print it to PDF and map it by places on paper",
)
_XFA = "print it to PDF and map it by places on paper, or ask the town for a plain PDF form"
_BROKEN = (PyPdfError, ValueError, LookupError, TypeError, AttributeError, RecursionError)


@dataclass(frozen=True, slots=True)
class Shown:
    """Where a field stands: its page from 1, its size and its top left corner as it is read.

    All in points. `on` is the state that a click gives a box or a round button.
    """

    page: int
    across: float
    down: float
    width: float
    height: float
    on: str


@dataclass(frozen=True, slots=True)
class Field:
    """One field by its whole name, with the places where it stands.

    `told` is what the form tells who points at it, `most` the letters it takes at most, `lines`
    whether it takes several lines, `comb` whether each letter has a cell. `options` are the choices
    of a list, what is kept and what is shown, or the states of round buttons; `own_words` tells of
    a list that takes other words as well.
    """

    name: str
    kind: str
    shown: tuple[Shown, ...]
    told: str = ""
    most: int = 0
    lines: bool = False
    comb: bool = False
    own_words: bool = False
    options: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class FormPdf:
    """A form: its bytes, the size of each page in points as it is read, its fields by name."""

    content: bytes
    sizes: tuple[tuple[float, float], ...]
    fields: dict[str, Field]


def open_form(path: Path) -> FormPdf:
    """Return a form that can be filled.

    Raises
    ------
    InputError
        The file is not there, too large, no PDF, broken, locked by a password, or made with XFA.
    """
    where = shown_path(path)
    content = _bytes(path, where)
    try:
        reader = PdfReader(io.BytesIO(content))
        reason = _cannot_be_filled(reader)
        if reason is None:
            pages = list(reader.pages)
            return FormPdf(content, tuple(map(shown_size, pages)), dict(_fields(pages)))
    except DependencyError as error:
        raise _wrong(where, *_LOCKED) from error
    except _BROKEN as error:
        found = f"a PDF that cannot be read: {' '.join(str(error).split())[:60] or 'broken'}"
        raise _wrong(where, found, "a whole PDF", "get it again, or print it to PDF") from error
    raise _wrong(where, *reason)


def _cannot_be_filled(reader: PdfReader) -> tuple[str, str, str] | None:
    """Return what stands against filling a form, in words; nothing where nothing does."""
    if reader.is_encrypted:
        return _LOCKED
    if not len(reader.pages):
        return "a PDF without a page", "a form", ""
    made = reader.root_object.get("/AcroForm", DictionaryObject()).get_object()
    if isinstance(made, DictionaryObject) and "/XFA" in made:
        return "an XFA form, which only its maker's program can fill", "a plain PDF", _XFA
    return None


def _wrong(where: str, found: str, expected: str, fix: str = "") -> InputError:
    return InputError((Fault(where, found, expected, fix),))


def _bytes(path: Path, where: str) -> bytes:
    """Return the bytes of a file that says it is a PDF."""
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST + 1)
    except FileNotFoundError:
        fix = "put the town's form there under this name"
        raise _wrong(where, "no file", "the form's PDF beside its map", fix) from None
    except OSError as error:
        found = (error.strerror or "a file that cannot be read").lower()
        raise _wrong(where, found, "a PDF that can be read") from error
    if len(content) > LARGEST:
        raise _wrong(where, "more than 20 MB", "a form of at most 20 MB")
    if b"%PDF-" not in content[:1024]:
        raise _wrong(where, "a file that is no PDF", "a PDF", "print the form to PDF")
    return content


def _fields(pages: Sequence[PageObject]) -> Iterator[tuple[str, Field]]:
    """Yield the fields by name, in the order their first places stand."""
    found: dict[str, list[tuple[Shown, DictionaryObject]]] = {}
    for number, page, widget in widgets_of(pages):
        name = name_of(widget)
        if name and "/Rect" in widget and not int(widget.get("/F", 0)) & _HIDDEN:
            found.setdefault(name, []).append((_shown(number, page, widget), widget))
    for name, places in found.items():
        yield name, _field(name, places)


def _shown(number: int, page: PageObject, widget: DictionaryObject) -> Shown:
    """Return where a widget stands and how large it is, as the page is read."""
    left, bottom = (float(at) for at in page.cropbox.lower_left)
    right, top = (float(at) for at in page.cropbox.upper_right)
    x0, y0, x1, y1 = rect_of(widget)
    across, down = {
        0: (x0 - left, top - y1),
        90: (y0 - bottom, x0 - left),
        180: (right - x1, y0 - bottom),
        270: (top - y1, right - x1),
    }[page_turn(page)]
    width, height = x1 - x0, y1 - y0
    if turn_of(widget) % 180:
        width, height = height, width
    return Shown(number + 1, across, down, width, height, on_state(widget))


def _field(name: str, places: Sequence[tuple[Shown, DictionaryObject]]) -> Field:
    shown = tuple(one for one, _ in places)
    first = places[0][1]
    flags = int(inherited(first, "/Ff") or 0)
    kind = _kind(str(inherited(first, "/FT")), flags)
    if kind == BOX and len({one.on for one in shown}) > 1:
        kind = ROUND
    text = kind == TEXT
    return Field(
        name,
        kind,
        shown,
        told=" ".join(str(inherited(first, "/TU") or "").split()),
        most=int(inherited(first, "/MaxLen") or 0) if text else 0,
        lines=text and bool(flags & _MULTILINE),
        comb=text and bool(flags & _COMB) and not flags & (_MULTILINE | _PASSWORD),
        own_words=kind == LIST and bool(flags & _COMBO) and bool(flags & _EDIT),
        options=_options(kind, shown, first),
    )


def _kind(sort: str, flags: int) -> str:
    """Return what a field is, by its type and its flags."""
    if sort == "/Btn" and flags & _PUSH:
        return BUTTON
    if sort == "/Btn":
        return ROUND if flags & _RADIO else BOX
    return {"/Tx": TEXT, "/Ch": LIST, "/Sig": SIGNATURE}.get(sort, BUTTON)


def _options(
    kind: str, shown: Sequence[Shown], first: DictionaryObject
) -> tuple[tuple[str, str], ...]:
    """Return the choices of a list, or the states of round buttons."""
    if kind == ROUND:
        return tuple((one.on, one.on) for one in shown if one.on)
    return tuple(_choices(inherited(first, "/Opt"))) if kind == LIST else ()


def _choices(held: object) -> Iterator[tuple[str, str]]:
    """Yield each choice of a list: what is kept, and what is shown."""
    for row in held if isinstance(held, ArrayObject) else ():
        one = row.get_object()
        pair = isinstance(one, ArrayObject) and len(one) > 1
        yield (str(one[0]), str(one[1])) if pair else (str(one), str(one))
