"""The packet's wording: templates rendered in a sandbox, every value escaped at one door.

A template is plain text. A line `# …` or `## …` is a heading, `- …` a bullet, `1. …` a numbered
line, `sign: …` a place to sign; other lines join into paragraphs at blank lines.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import ChoiceLoader, FileSystemLoader, StrictUndefined
from jinja2.exceptions import TemplateError, TemplateNotFound, TemplateSyntaxError
from jinja2.sandbox import SandboxedEnvironment
from markupsafe import Markup

from permitkit.errors import Fault, InputError
from permitkit.load.toml_text import shown_path
from permitkit.packet.wording.folders import shipped_templates
from permitkit.render.blocks import (
    Bullets,
    Heading,
    NumberedList,
    Paragraph,
    SignatureLine,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from permitkit.render.blocks import Block

__all__ = ["blocks_of", "environment", "prose", "template_fault"]

_NUMBERED = re.compile(r"\d+\.\s+")
_UTF_8 = "utf-8-sig"
_FAULTY = (
    TemplateError,
    ArithmeticError,
    AttributeError,
    LookupError,
    MemoryError,
    OSError,
    RecursionError,
    TypeError,
    ValueError,
)
"""Whatever a template can raise that somebody wrote wrongly."""


def _as_text(value: object) -> object:
    if value is None:
        message = "a value that is not known"
        raise TemplateError(message)
    return value if isinstance(value, Markup) else " ".join(str(value).split())


@cache
def environment(folders: tuple[Path, ...]) -> SandboxedEnvironment:
    """Return the sandbox in which the templates of some folders are filled, the nearest first.

    It reads no other file, knows no name that it is not given, and escapes every value.
    """
    return SandboxedEnvironment(
        loader=ChoiceLoader([FileSystemLoader(folder, encoding=_UTF_8) for folder in folders]),
        undefined=StrictUndefined,
        autoescape=True,
        finalize=_as_text,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def prose(
    name: str, values: Mapping[str, object], folders: Sequence[Path] = ()
) -> tuple[Block, ...]:
    """Return the blocks of one template filled with values.

    Parameters
    ----------
    name
        The template, without its ending.
    values
        Every name that it may use.
    folders
        Where it is looked for, the nearest first; the shipped ones come last in any case.

    Raises
    ------
    InputError
        The template is broken, or uses a name that is not there.
    """
    looked = tuple(dict.fromkeys((*folders, shipped_templates())))
    try:
        text = environment(looked).get_template(f"{name}.txt").render(values)
    except _FAULTY as error:
        raise InputError((template_fault(error, name, looked),)) from error
    return tuple(blocks_of(text))


def template_fault(error: Exception, name: str, folders: Sequence[Path]) -> Fault:
    """Return what is wrong with a template as a fault, with its file and its line."""
    path, line = _place(error, folders)
    there = (folder / f"{name}.txt" for folder in folders)
    path = path or next((one for one in there if one.is_file()), None)
    where = shown_path(path) if path else f"templates/{name}.txt"
    return Fault(
        where=f"{where}: line {line}" if line else where,
        found=_told(error),
        expected="wording that uses only the names the packet gives",
        fix="correct the template, or take it away: then the next one is used, or the shipped one",
    )


def _told(error: Exception) -> str:
    """Return a library's complaint in one line."""
    if isinstance(error, TemplateNotFound):
        return f"a template {error.name!r}, which is in none of the folders"
    if isinstance(error, UnicodeDecodeError):
        return "a text that is not UTF-8"
    return " ".join(str(error).split()) or type(error).__name__


def _place(error: Exception, folders: Sequence[Path]) -> tuple[Path | None, int | None]:
    """Return the file of a template and its line, as near as the error tells."""
    if isinstance(error, TemplateSyntaxError):
        return (Path(error.filename) if error.filename else None), error.lineno
    held, path, line = error.__traceback__, None, None
    while held is not None:
        file = Path(held.tb_frame.f_code.co_filename)
        if file.parent in folders:
            path, line = file, held.tb_lineno
        held = held.tb_next
    return path, line


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
