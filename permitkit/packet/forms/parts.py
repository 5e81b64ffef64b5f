"""The filled forms as parts of the packet, and what the other sheets have to say of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.forms.form import Write
from permitkit.model.keys.run import WATER_DECLARATION
from permitkit.packet.parts import Part, table
from permitkit.render.blocks import CheckList, Heading, escape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.checks.judge import Judged
    from permitkit.packet.forms.asked import FilledForm
    from permitkit.render.blocks import Block

__all__ = ["continued", "form_parts", "left_to_a_pen", "plain_page_needed"]

_DECLARATION = "declaration"


def form_parts(forms: Sequence[FilledForm]) -> tuple[Part, ...]:
    """Return the filled forms, each a part of its own, where the application stands."""
    return tuple(Part("application", f"Form {one.form.number}", file=one.pdf) for one in forms)


def plain_page_needed(judged: Judged, forms: Sequence[FilledForm]) -> bool:
    """Tell whether the plain application page goes in beside the forms.

    It does where a permit has no form of its own, where a text found no room in one, and where the
    town wants a declaration that no form has.
    """
    needed = [one.permit.id for one in judged.rules.permits()]
    covered = {permit for one in forms for permit in one.permits}
    declared = any(one.form.declares or _writes_declaration(one) for one in forms)
    wanted = any(getattr(rule.value, "texts", ()) for rule in judged.rules[WATER_DECLARATION].all)
    whole = bool(needed) and covered.issuperset(needed)
    return not whole or any(one.too_long for one in forms) or (wanted and not declared)


def _writes_declaration(filled: FilledForm) -> bool:
    fills = (one.fill for one in filled.form.fields)
    return any(isinstance(fill, Write) and _DECLARATION in fill.values for fill in fills)


def continued(forms: Sequence[FilledForm]) -> list[Block]:
    """Return the table of the texts that found no room in a form; nothing if all did."""
    rows = [(one.form.number, entry.label, entry.text) for one in forms for entry in one.too_long]
    if not rows:
        return []
    return [
        Heading("Continued from the forms", level=2),
        table(("Form", "Field", "What belongs there"), rows, (20, 44, 116)),
    ]


def left_to_a_pen(forms: Sequence[FilledForm]) -> list[Block]:
    """Return the list of what is to be signed and filled in by hand; nothing if nothing is."""
    items = [
        f"Form {one.form.number}, {what}: {', '.join(of)}"
        for one in forms
        for what, of in (("to be filled by hand", one.by_hand), ("to be signed", one.to_sign))
        if of
    ]
    if not items:
        return []
    heading = Heading("Before the forms go in", level=2)
    return [heading, CheckList(tuple(escape(item) for item in items))]
