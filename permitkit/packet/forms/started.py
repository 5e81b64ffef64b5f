"""A form shown to whoever writes its map: its fields, and a map begun."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from permitkit.packet.forms.opened import BOX, BUTTON, LIST, ROUND, SIGNATURE, TEXT
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from permitkit.packet.forms.opened import Field, FormPdf

__all__ = ["field_list", "started_map"]

_DIGEST = 12
_ON_PAPER = """
# A form without fields: measure each place on paper, from the top left corner of the page.
# [[field]]
# label = "Name of applicant"
# page = 1
# across = "20 mm"             # from the left edge to where the text begins
# down = "52 mm"               # from the top to the line it stands on
# width = "90 mm"
# letters = "2.5 mm"           # height of capitals; smaller where it must be, down to 2 mm
# write = "applicant name"
"""


def field_list(pdf: FormPdf) -> Iterator[str]:
    """Yield the pages and the fields of a form, a line each."""
    for number, size in enumerate(pdf.sizes, 1):
        width, height = (part / POINTS_PER_MM for part in size)
        yield f"page {number}: {width:.0f} x {height:.0f} mm"
    yield ""
    if not pdf.fields:
        yield "no fields: map it by places on paper"
        return
    names = max(map(len, pdf.fields))
    for name, field in pdf.fields.items():
        yield f"{name:<{names}}  {_told(field)}".rstrip()


def _told(field: Field) -> str:
    """Return what a field is, where it stands, and what it takes."""
    first, *more = field.shown
    width, height = first.width / POINTS_PER_MM, first.height / POINTS_PER_MM
    across, down = first.across / POINTS_PER_MM, first.down / POINTS_PER_MM
    parts = [
        f"page {first.page}",
        field.kind,
        f"{width:.0f} x {height:.0f} mm at {across:.0f} across, {down:.0f} down",
    ]
    if more and field.kind != ROUND:
        parts.append(f"{len(more) + 1} places")
    if field.most:
        cells = ", a cell for each" if field.comb else ""
        parts.append(f"at most {field.most} letters{cells}")
    if field.lines:
        parts.append("several lines")
    if field.options:
        parts.append("choices " + ", ".join(shown for _, shown in field.options))
    if field.told:
        parts.append(f'"{field.told}"')
    return "; ".join(parts)


def started_map(pdf: FormPdf, number: str, day: date) -> str:
    """Return a map begun: every field is there, and is to be filled in by hand until it is told.

    Parameters
    ----------
    pdf
        The form.
    number
        Its number, by which a permit names it.
    day
        The day it is read.
    """
    digest = hashlib.sha256(pdf.content).hexdigest()[:_DIGEST]
    head = [
        "# What goes into each field: see jurisdictions/README.md, The town's own form.",
        "schema = 1",
        "",
        "[form]",
        f"number = {json.dumps(number)}",
        'title = "…"                    # as the form is headed',
        'edition = "…"                  # as it is printed on the form',
        'source = "…"                   # where you got it',
        f"read = {day.isoformat()}",
        f"digest = {json.dumps(digest)}      # tells when the PDF is another",
    ]
    fields = [line for field in pdf.fields.values() for line in _field(field)]
    return "\n".join([*head, *fields]) + "\n" + ("" if pdf.fields else _ON_PAPER)


def _field(field: Field) -> Iterator[str]:
    yield ""
    yield f"# {_told(field)}"
    yield "[[field]]"
    yield f"name = {json.dumps(field.name, ensure_ascii=False)}"
    yield {SIGNATURE: "sign = true", BUTTON: "theirs = true"}.get(field.kind, "ask = true")
    hint = {
        TEXT: '# write = "applicant name"',
        BOX: '# tick = "outlet"\n# is = ["core"]',
    }.get(field.kind)
    if field.kind in {LIST, ROUND}:
        shown = json.dumps(field.options[0][1] if field.options else "…", ensure_ascii=False)
        hint = f'# choose = "applicant"\n# options = {{ contractor = {shown} }}'
    if hint:
        yield hint
