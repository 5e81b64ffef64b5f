"""The packet's wording: templates rendered in a sandbox, every value escaped at one door.

A template is plain text. A line `# …` or `## …` is a heading, `- …` a bullet, `1. …` a numbered
line, `sign: …` a place to sign; other lines join into paragraphs at blank lines.
"""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import ChoiceLoader, FileSystemLoader, StrictUndefined
from jinja2.exceptions import TemplateError
from jinja2.sandbox import SandboxedEnvironment
from markupsafe import Markup

from permitkit.errors import Fault, InputError
from permitkit.render.blocks import (
    Bullets,
    Heading,
    NumberedList,
    Paragraph,
    SignatureLine,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.render.blocks import Block

__all__ = ["blocks_of", "prose", "template_folders"]

_NUMBERED = re.compile(r"\d+\.\s+")


def _as_text(value: object) -> object:
    if value is None:
        message = "a value that is not known reached the wording"
        raise TemplateError(message)
    return value if isinstance(value, Markup) else " ".join(str(value).split())


def template_folders(own: Path | None = None) -> tuple[Path, ...]:
    """Return where wording is looked for: the town's own folder, then what ships."""
    shipped = Path(str(files("permitkit"))) / "shipped" / "templates"
    checkout = Path(str(files("permitkit"))).parent / "templates"
    return tuple(folder for folder in (own, shipped, checkout) if folder and folder.is_dir())


@cache
def _environment(folders: tuple[Path, ...]) -> SandboxedEnvironment:
    return SandboxedEnvironment(
        loader=ChoiceLoader([FileSystemLoader(folder) for folder in folders]),
        undefined=StrictUndefined,
        autoescape=True,
        finalize=_as_text,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def prose(name: str, values: Mapping[str, object], own: Path | None = None) -> tuple[Block, ...]:
    """Return the blocks of one template filled with values.

    Raises
    ------
    InputError
        The template is broken, or uses a name that is not there.
    """
    try:
        text = _environment(template_folders(own)).get_template(f"{name}.txt").render(values)
    except TemplateError as error:
        line = getattr(error, "lineno", None)
        fault = Fault(
            where=f"templates/{name}.txt" + (f": line {line}" if line else ""),
            found=str(error),
            expected="wording that uses only the names the packet gives",
            fix="correct the template, or take the shipped one",
        )
        raise InputError((fault,)) from error
    return tuple(blocks_of(text))


def blocks_of(text: str) -> Iterator[Block]:
    """Yield the blocks of rendered, already escaped text."""
    for chunk in re.split(r"\n\s*\n", text.strip()):
        lines = [line.strip() for line in chunk.splitlines() if line.strip()]
        yield from _chunk(lines)


def _kind(line: str) -> str:
    if line.startswith("#"):
        return "heading"
    if line.startswith("- "):
        return "bullet"
    if line.startswith("sign: "):
        return "sign"
    return "number" if _NUMBERED.match(line) else "text"


def _chunk(lines: list[str]) -> Iterator[Block]:
    while lines:
        kind = _kind(lines[0])
        if kind == "heading":
            marks, _, title = lines.pop(0).partition(" ")
            yield Heading(title, level=len(marks))
        elif kind == "sign":
            yield SignatureLine(lines.pop(0).removeprefix("sign: "))
        else:
            yield _gathered(kind, lines)


def _gathered(kind: str, lines: list[str]) -> Block:
    items: list[str] = []
    while lines and _kind(lines[0]) in (kind, "text"):
        line = lines.pop(0)
        if _kind(line) == "text" and items:
            items[-1] += f" {line}"
        else:
            items.append(_NUMBERED.sub("", line, count=1) if kind == "number" else line)
    if kind == "bullet":
        return Bullets(tuple(item.removeprefix("- ") for item in items))
    if kind == "number":
        return NumberedList(tuple(items))
    return Paragraph(" ".join(items))
