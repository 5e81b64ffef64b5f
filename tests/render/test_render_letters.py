"""A letter that the faces do not have is told with its text, and never printed as nothing."""

from __future__ import annotations

import pytest

from permitkit.drawing.scale import LETTER
from permitkit.errors import InputError
from permitkit.render.blocks import (
    Block,
    Bullets,
    CheckList,
    Heading,
    KeyValues,
    NumberedList,
    Paragraph,
    SignatureLine,
    Table,
)
from permitkit.render.flow import render_flow

NAME = "\u5c71\u7530 Ito"
BLOCKS = [
    Heading(NAME, 2),
    Paragraph(NAME),
    Bullets(("first", NAME)),
    NumberedList((NAME,)),
    CheckList((NAME,)),
    KeyValues((("Owner", NAME),)),
    KeyValues((("Owner", "Ito"),), title=NAME),
    Table(("Line", NAME), (("a", "b"),)),
    Table(("Line", "Sum"), (("a", NAME),)),
    SignatureLine(NAME),
]


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: type(block).__name__)
def test_a_letter_that_cannot_be_printed_is_told_in_every_kind_of_block(block: Block) -> None:
    with pytest.raises(InputError) as raised:
        render_flow([Heading("Application"), block], LETTER, "14 Tern Lane", "revision A")

    (fault,) = raised.value.faults
    assert fault.where == "page 'Application'"
    assert fault.found == f"{NAME!r} with \u5c71 (U+5C71) \u7530 (U+7530)"


def test_the_same_letters_are_told_once() -> None:
    with pytest.raises(InputError) as raised:
        render_flow([Paragraph(NAME), Paragraph(NAME)], LETTER, "14 Tern Lane", "revision A")

    assert [fault.where for fault in raised.value.faults] == ["a page of text"]


def test_letters_of_other_alphabets_that_the_faces_have_are_printed() -> None:
    pdf = render_flow([Paragraph("Σ Жуков é ½ 4°")], LETTER, "14 Tern Lane", "revision A")

    assert pdf.startswith(b"%PDF")
