"""Text pages as lines of a terminal."""

from __future__ import annotations

import pytest

from permitkit.cli.plain import beside, plain_text
from permitkit.render.blocks import (
    Bullets,
    CheckList,
    Heading,
    KeyValues,
    NumberedList,
    Paragraph,
    SignatureLine,
    Table,
    bold,
    escape,
)


@pytest.mark.parametrize(
    ("block", "lines"),
    [
        (Heading("Rules"), ["RULES"]),
        (Heading("Rules", level=2), ["Rules"]),
        (Paragraph(escape("B&B <b>\nnext")), ["B&B <b>", "next"]),
        (Paragraph(f"{bold('now')} or never"), ["now or never"]),
        (Bullets(("one", "two")), ["- one", "- two"]),
        (NumberedList(("one", "two"), start=9), ["9.  one", "10. two"]),
        (KeyValues((("Name", "Ford"), ("Day", "today"))), ["Name  Ford", "Day   today"]),
        (
            Table(
                ("Question", "Rule", "Where"), (("How wide?", "4 in", "code 1"), ("Then?", "", "x"))
            ),
            ["  How wide?", "    Rule   4 in", "    Where  code 1", "  Then?", "    Where  x"],
        ),
        (Table(("Question", "Rule"), (("Water",),)), ["  Water"]),
        (
            SignatureLine("the owner"),
            ["", f"{'_' * 40}  Date {'_' * 20}", "the owner"],
        ),
    ],
)
def test_each_block_is_told_in_plain_letters(block: Paragraph, lines: list[str]) -> None:
    assert plain_text([block]).split("\n") == [*lines, ""]


def test_a_text_wraps_beside_its_label() -> None:
    lines = beside("Rule", "word " * 30, 2, 8)

    assert lines[0].startswith("  Rule    word word")
    assert all(line.startswith(" " * 10 + "word") for line in lines[1:])
    assert max(map(len, lines)) <= 80


def test_a_label_too_long_for_its_room_stands_alone() -> None:
    assert beside("a long label", "text", 0, 6) == ["a long label", "      text"]


def test_an_empty_text_leaves_its_label() -> None:
    assert beside("Rule", "", 0, 8) == ["Rule"]


def test_a_block_that_a_terminal_cannot_show_is_our_own_fault() -> None:
    with pytest.raises(TypeError, match="not a block a terminal can show"):
        plain_text([CheckList(("a",))])
