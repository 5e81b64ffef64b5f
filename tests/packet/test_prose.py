"""The wording: a sandbox, nothing undefined, every value through one door."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from permitkit.errors import InputError
from permitkit.packet.prose import blocks_of, prose
from permitkit.render.blocks import (
    Bullets,
    Heading,
    NumberedList,
    Paragraph,
    SignatureLine,
)

if TYPE_CHECKING:
    from pathlib import Path


def written(folder: Path, text: str) -> Path:
    (folder / "own.txt").write_text(text, encoding="utf-8")
    return folder


def test_each_kind_of_line_becomes_its_block() -> None:
    text = "# One\n\nA line\nand its end.\n\n- a\n- b\n  more\n\n1. x\n1. y\n\nsign: A. Person"

    assert tuple(blocks_of(text)) == (
        Heading("One", 1),
        Paragraph("A line and its end."),
        Bullets(("a", "b more")),
        NumberedList(("x", "y")),
        SignatureLine("A. Person"),
    )


def test_a_value_is_escaped_and_cannot_make_a_block_of_its_own(tmp_path: Path) -> None:
    own = written(tmp_path, "Hello {{ name }}")

    (block,) = prose("own", {"name": "B&B\n# <b>"}, (own,))

    assert block == Paragraph("Hello B&amp;B # &lt;b&gt;")


@pytest.mark.parametrize(
    "text",
    ["{{ missing }}", "{{ name.__class__.__mro__ }}", "{% if %}", "{{ name.upper( }}"],
)
def test_wording_that_cannot_be_used_is_an_input_fault(tmp_path: Path, text: str) -> None:
    own = written(tmp_path, text)

    with pytest.raises(InputError) as caught:
        prose("own", {"name": "x"}, (own,))

    assert caught.value.faults[0].where == f"{own / 'own.txt'}: line 1"


def test_an_unknown_value_never_prints_as_none(tmp_path: Path) -> None:
    own = written(tmp_path, "{{ name }}")

    with pytest.raises(InputError):
        prose("own", {"name": None}, (own,))
