"""Whether the faces have every letter that pages of text print."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.info import read_by_faces
from permitkit.errors import Fault, InputError
from permitkit.render.blocks import Block, Drawing, Heading

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

__all__ = ["check_printable"]

_LONGEST_SHOWN = 40


def check_printable(runs: Iterable[Sequence[Block]]) -> None:
    """Raise an error that names every letter of some runs of text which cannot be printed.

    Raises
    ------
    InputError
        With a fault for each set of letters, on the first text that has it.
    """
    faults: dict[str, Fault] = {}
    for blocks in runs:
        for text, letters in read_by_faces(_texts(blocks)):
            faults.setdefault(letters, _fault(blocks, text, letters))
    if faults:
        raise InputError(tuple(faults.values()))


def _texts(held: Iterable[object]) -> Iterator[str]:
    """Yield every text within blocks; what is drawn was read when it was drawn."""
    for one in held:
        if isinstance(one, str):
            yield one
        elif isinstance(one, tuple | list):
            yield from _texts(one)
        elif is_dataclass(one) and not isinstance(one, Drawing):
            yield from _texts(getattr(one, field.name) for field in fields(one))


def _fault(blocks: Sequence[Block], text: str, letters: str) -> Fault:
    first = blocks[0]
    line = text if len(text) <= _LONGEST_SHOWN else f"{text[: _LONGEST_SHOWN - 1]}…"
    return Fault(
        f"page {first.text!r}" if isinstance(first, Heading) else "a page of text",
        f"{line!r} with {letters}",
        "letters of the Latin, Greek or Cyrillic alphabets",
        "write it in these, as it stands on the permit form",
    )
