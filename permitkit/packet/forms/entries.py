"""What goes into each field of a form for one job, and what is left to a pen."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from permitkit.model.forms.form import Ask, Choose, Say, Sign, Spot, Tick, Write
from permitkit.packet.forms.opened import BUTTON, LIST, SIGNATURE, Field

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.model.forms.form import Fill, FormField, FormMap
    from permitkit.packet.forms.opened import FormPdf
    from permitkit.packet.forms.told.known import Known

__all__ = ["Entry", "entries"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One field for one job: a text, a tick, a choice, or what is still to be done by hand.

    `by_hand` names what somebody has to write there, `signs` whether somebody signs.
    """

    label: str
    where: str
    field: Field | None = None
    spot: Spot | None = None
    text: str = ""
    choice: str = ""
    tick: bool = False
    by_hand: str = ""
    signs: bool = False


def entries(form: FormMap, pdf: FormPdf, values: Mapping[str, Known]) -> tuple[Entry, ...]:
    """Return what goes into every field, those that the map does not name after the others.

    Parameters
    ----------
    form
        The map, which agrees with its PDF.
    pdf
        The form.
    values
        What the job says to each name.
    """
    mapped = tuple(_entry(one, pdf, values) for one in form.fields)
    return (*mapped, *_unmapped(form, pdf))


def _unmapped(form: FormMap, pdf: FormPdf) -> Iterator[Entry]:
    """Yield the fields of the PDF that the map is silent on: somebody fills them in by hand."""
    named = {one.name for one in form.fields}
    for name, field in pdf.fields.items():
        if name in named or field.kind == BUTTON:
            continue
        label = field.told or name
        signs = field.kind == SIGNATURE
        yield Entry(label, form.path, field, by_hand="" if signs else label, signs=signs)


def _entry(one: FormField, pdf: FormPdf, values: Mapping[str, Known]) -> Entry:
    """Return what goes into one field that the map names."""
    field = pdf.fields.get(one.name)
    label = one.label or (field.told if field else "") or one.name or _stand_in(one.fill)
    blank = Entry(label, one.where, field, one.spot)
    match one.fill:
        case Write() as fill:
            return _written(blank, fill, values)
        case Say(text):
            return replace(blank, text=text)
        case Tick(value, words):
            known = values[value].words
            on = bool(set(words) & set(known))
            return replace(blank, tick=on, by_hand="" if known else label)
        case Choose(value, options):
            fit = {option for word, option in options.items() if word in values[value].words}
            return replace(blank, choice=fit.pop()) if len(fit) == 1 else _left(blank)
    asked = one.fill.what or label if isinstance(one.fill, Ask) else ""
    return replace(blank, by_hand=asked, signs=isinstance(one.fill, Sign))


def _left(blank: Entry) -> Entry:
    return replace(blank, by_hand=blank.label)


def _stand_in(fill: Fill) -> str:
    """Return how a place on paper is spoken of that has no label."""
    match fill:
        case Write(values=values):
            return ", ".join(values)
        case Tick(value=value) | Choose(value=value):
            return value
        case Say(text) | Ask(text):
            return text or "a place without a label"
        case _:
            return "signature"


def _written(blank: Entry, fill: Write, values: Mapping[str, Known]) -> Entry:
    """Return the values one after the other; what is not known is left to be filled in by hand."""
    told = [(name, values[name].written(fill.unit, fill.days)) for name in fill.values]
    text = ", ".join(text for _, text in told if text)
    missing = ", ".join(name for name, text in told if not text)
    by_hand = f"{blank.label} ({missing})" if missing and text else blank.label if missing else ""
    if blank.field is None or blank.field.kind != LIST:
        return replace(blank, text=text, by_hand=by_hand)
    choice = _choice_shown(blank.field, text)
    return replace(blank, choice=choice, by_hand=by_hand) if choice else _left(blank)


def _choice_shown(field: Field, text: str) -> str:
    """Return the choice of a list that a text is, or the text where the list takes any."""
    for kept, shown in field.options:
        if text.casefold() in {kept.casefold(), shown.casefold()}:
            return kept
    return text if field.own_words else ""
