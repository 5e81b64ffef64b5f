"""Whether a map and its PDF agree: every fault of the two, found before anything is filled."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from permitkit.drawing.info import read_by_faces
from permitkit.errors import Fault
from permitkit.load.toml_text import shown_path
from permitkit.model.forms.form import Ask, Choose, Say, Sign, Theirs, Tick, Write
from permitkit.model.reading import nearest
from permitkit.model.reading.spelling import listed
from permitkit.packet.forms.opened import BOX, BUTTON, LIST, ROUND, SIGNATURE, TEXT
from permitkit.packet.say import joined
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from permitkit.model.forms.form import Fill, FormField, FormMap, Spot
    from permitkit.packet.forms.opened import Field, FormPdf

__all__ = ["disagreements"]

_FITTING: dict[type, tuple[str, ...]] = {
    Write: (TEXT, LIST),
    Say: (TEXT,),
    Tick: (BOX,),
    Choose: (ROUND, LIST),
    Sign: (SIGNATURE, TEXT),
    Ask: (TEXT, BOX, ROUND, LIST),
    Theirs: (TEXT, BOX, ROUND, LIST, SIGNATURE, BUTTON),
}
_WAYS = {
    TEXT: "write, say, sign or ask",
    BOX: "tick or ask",
    ROUND: "choose or ask",
    LIST: "choose, write or ask",
    SIGNATURE: "sign",
    BUTTON: "theirs",
}
_SLACK_MM = 0.5
_PERMITS = "permits"


def disagreements(form: FormMap, pdf: FormPdf, permits: Collection[str]) -> Iterator[Fault]:
    """Yield every fault of a map against its PDF.

    Parameters
    ----------
    form
        The map.
    pdf
        The form beside it.
    permits
        The ids of the permits that the town's sheets list.
    """
    yield from _other_pdf(form, pdf)
    for one in form.fields:
        if one.spot is not None:
            yield from _off_paper(one, one.spot, pdf)
        elif one.name not in pdf.fields:
            yield _no_field(one, pdf)
        else:
            yield from _unfit(one, pdf.fields[one.name])
        yield from _wordless(one, permits)


def _other_pdf(form: FormMap, pdf: FormPdf) -> Iterator[Fault]:
    """Yield a fault where the PDF is not the one that the map was made for."""
    digest = hashlib.sha256(pdf.content).hexdigest()
    if form.digest and not digest.startswith(form.digest):
        where, found = f"{form.path}: form.digest", f"{form.digest!r}"
        expected = f"{digest[: max(len(form.digest), 12)]!r}, which is {shown_path(form.pdf)}'s"
        yield Fault(where, found, expected, "look through the map again: the form was changed")


def _no_field(one: FormField, pdf: FormPdf) -> Fault:
    if not pdf.fields:
        fix = "give page, across, down and width in place of the name"
        return Fault(one.where, f"{one.name!r}", "a form with fields: this PDF has none", fix)
    near = nearest(one.name, pdf.fields) or f"it has {listed(pdf.fields)}"
    return Fault(one.where, f"a field {one.name!r}", "a field of the PDF, by its whole name", near)


def _unfit(one: FormField, field: Field) -> Iterator[Fault]:
    """Yield what a field of this kind cannot take."""
    fill = one.fill
    if field.kind not in _FITTING[type(fill)]:
        yield Fault(
            one.where, f"{_word(fill)}, in a field that is a {field.kind}", _WAYS[field.kind]
        )
    elif isinstance(fill, Choose):
        known = {name for pair in field.options for name in pair}
        for word, option in fill.options.items():
            if option not in known:
                where = f"{one.where}.options.{word}"
                expected = f"a choice that the form has: {listed(sorted(known))}"
                yield Fault(where, repr(option), expected, nearest(option, known))
    if isinstance(fill, Say) and field.most and len(fill.text) > field.most:
        found = f"{len(fill.text)} letters"
        yield Fault(f"{one.where}.say", found, f"at most the {field.most} that the field takes")


def _word(fill: Fill) -> str:
    return type(fill).__name__.lower()


def _off_paper(one: FormField, spot: Spot, pdf: FormPdf) -> Iterator[Fault]:
    """Yield what of a place does not lie on the form's paper."""
    if spot.page > len(pdf.sizes):
        pages = f"{len(pdf.sizes)} page{'s' if len(pdf.sizes) > 1 else ''}"
        yield Fault(f"{one.where}.page", str(spot.page), f"a page of the form, which has {pages}")
        return
    if isinstance(one.fill, Choose):
        yield Fault(one.where, "choose, on paper", "tick, one box for each choice")
    width, height = (size / POINTS_PER_MM for size in pdf.sizes[spot.page - 1])
    right = (spot.across_m + spot.width_m) * 1000
    low = (spot.down_m + (spot.lines - 1) * spot.pitch_m) * 1000
    paper = f"within the page, {width:.0f} mm wide and {height:.0f} mm high"
    if spot.width_m <= 0 or right > width + _SLACK_MM:
        yield Fault(one.where, f"a place that ends {right:.0f} mm from the left", paper)
    top = low if isinstance(one.fill, Tick) else spot.down_m * 1000
    rise = (spot.width_m if isinstance(one.fill, Tick) else spot.letters_m) * 1000
    if low > height + _SLACK_MM or top - rise < -_SLACK_MM:
        yield Fault(one.where, f"a place {low:.0f} mm down", paper)


def _wordless(one: FormField, permits: Collection[str]) -> Iterator[Fault]:
    """Yield a permit that no sheet lists, and a sentence that cannot be lettered."""
    fill = one.fill
    if isinstance(fill, Tick | Choose) and fill.value == _PERMITS:
        for word in fill.words if isinstance(fill, Tick) else fill.options:
            if word not in permits:
                expected = (
                    f"the id of a permit: {joined(sorted(permits), 'or') or 'none is listed'}"
                )
                yield Fault(one.where, repr(word), expected, nearest(word, permits))
    for text, letters in read_by_faces([fill.text] if isinstance(fill, Say) else []):
        expected = "letters of the Latin, Greek or Cyrillic alphabets"
        yield Fault(f"{one.where}.say", f"{text[:40]!r} with {letters}", expected)
