"""Text pages for a terminal: the same blocks that are set in ink, as lines of plain letters."""

from __future__ import annotations

import re
from functools import singledispatch
from html import unescape
from textwrap import wrap
from typing import TYPE_CHECKING

from permitkit.render.blocks import (
    Bullets,
    Heading,
    KeyValues,
    NumberedList,
    Paragraph,
    SignatureLine,
    Table,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from permitkit.render.blocks import Block

__all__ = ["WIDTH", "beside", "plain_text"]

WIDTH = 80
_TAG = re.compile(r"<[^>]*>")
_LONGEST_LABEL = 24


def plain_text(blocks: Iterable[Block]) -> str:
    """Return blocks as text of at most 80 columns, an empty line after each."""
    lines: list[str] = []
    for block in blocks:
        lines += [*_lines(block), ""]
    return "\n".join(lines)


def beside(label: str, text: str, indent: int = 0, room: int = 12) -> list[str]:
    """Return a label with a text beside it, line by line, wrapped within the width.

    A label too long for its room stands on a line of its own.
    """
    head = " " * indent + label.ljust(room)
    body = " " * (indent + room)
    lines = []
    if len(label) >= room > 0:
        lines, head = [" " * indent + label], body
    for part in text.split("\n"):
        lines += _wrapped(part, head, body)
        head = body
    return lines


def _wrapped(text: str, head: str, body: str) -> list[str]:
    told = wrap(
        text,
        WIDTH,
        initial_indent=head,
        subsequent_indent=body,
        break_on_hyphens=False,
    )
    return told or [head.rstrip()]


def _read(markup: str) -> str:
    """Return what a piece of markup says."""
    return unescape(_TAG.sub("", markup.replace("<br/>", "\n")))


@singledispatch
def _lines(block: object) -> list[str]:
    """Return the lines of one block."""
    raise TypeError(f"not a block a terminal can show: {block!r}")


@_lines.register
def _(block: Heading) -> list[str]:
    text = _read(block.text)
    return _wrapped(text.upper() if block.level == 1 else text, "", "")


@_lines.register
def _(block: Paragraph) -> list[str]:
    return beside("", _read(block.markup), room=0)


def _listed(items: Sequence[str], marks: Sequence[str]) -> list[str]:
    room = max(len(mark) for mark in marks) + 1
    return [
        line
        for mark, item in zip(marks, items, strict=True)
        for line in beside(mark, _read(item), room=room)
    ]


@_lines.register
def _(block: Bullets) -> list[str]:
    return _listed(block.items, ["-"] * len(block.items))


@_lines.register
def _(block: NumberedList) -> list[str]:
    return _listed(block.items, [f"{n}." for n, _ in enumerate(block.items, block.start)])


@_lines.register
def _(block: KeyValues) -> list[str]:
    rows = [(_read(name), _read(text)) for name, text in block.rows]
    room = min(max(len(name) for name, _ in rows), _LONGEST_LABEL) + 2
    return [line for name, text in rows for line in beside(name, text, room=room)]


@_lines.register
def _(block: Table) -> list[str]:
    heads = [_read(column) for column in block.columns[1:]]
    room = min(max(len(head) for head in heads), _LONGEST_LABEL) + 2
    lines: list[str] = []
    for first, *others in block.rows:
        lines += _wrapped(_read(first), "  ", "  ")
        for head, cell in zip(heads, others, strict=False):
            lines += beside(head, _read(cell), 4, room) if cell else []
    return lines


@_lines.register
def _(block: SignatureLine) -> list[str]:
    line = "_" * 40
    return ["", f"{line}  Date {'_' * 20}", *_wrapped(_read(block.who), "", "")]
