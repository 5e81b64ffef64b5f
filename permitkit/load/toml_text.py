"""TOML files as tables of plain values, with what is wrong told as a fault."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault, InputError

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["LARGEST_BYTES", "read_bytes", "read_toml", "shown_path", "toml_table"]

LARGEST_BYTES = 1_000_000
DEEPEST = 12

_LONGEST_SHOWN = 60
_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_SIXTEEN_BITS = (b"\xff\xfe", b"\xfe\xff")
_FOOT_MARKS = re.compile(r"""\d ?'.*\d ?\\?"|\d ?\\?""|\d''""")
_LONG_KEY = re.compile(r"""(?:[\w"'-]+[ \t]*\.[ \t]*){12}""")
_AT = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)

_REWORDED: tuple[tuple[str, str, str], ...] = (
    ("Cannot overwrite", "each name once", "join the two places that give this name a value"),
    ("Duplicate inline table key", "each name once", "leave one of the two out"),
    ("Cannot declare", "each table once", "join the two tables of this name"),
    ("Cannot mutate", "each table in one piece", "put all its fields in one place"),
    ("Cannot redefine", "each table in one piece", "put all its fields in one place"),
    ("Expected '='", "name = value", "put = between a name and its value"),
    ("Expected ']", "a heading closed where it ends, such as [sheet]", "add the missing ]"),
    ("Expected newline", "one field to a line", "begin the next field on a line of its own"),
    ("Unclosed", "a list or table closed where it ends", "add the missing ] or }"),
    ("Unterminated string", "a text closed by the same quote mark", 'add the missing "'),
    ("Illegal character", "a text that ends on its own line", "close the quotes on this line"),
    ("Unescaped", "a plain text", r'write \\ for one \ within "…"'),
    ("Invalid hex", "a plain text", r'write \\ for one \ within "…"'),
    ("Invalid value", "a text in quotes, a number, a date, true or false", "put quotes round it"),
    ("Invalid date", "a day of the calendar, such as 2026-04-06", ""),
    ("Invalid initial character", "a name", "names are letters, digits, - and _"),
    ("Invalid statement", "name = value, or a heading such as [sheet]", ""),
)


def shown_path(path: Path) -> str:
    """Return a path as its reader knows it: from a `jurisdictions` folder on, if it is in one."""
    parts = path.parts
    if "jurisdictions" in parts:
        return "/".join(parts[len(parts) - 1 - parts[::-1].index("jurisdictions") :])
    return str(path)


def read_toml(path: Path) -> dict[str, Any]:
    """Return a TOML file as a table; numbers with a point are Decimal.

    Raises
    ------
    InputError
        The file is missing, too large, not UTF-8, not TOML, or nested too deep.
    """
    return toml_table(read_bytes(path), shown_path(path))


def read_bytes(path: Path) -> bytes:
    """Return a file's bytes, if there are not too many."""
    where = shown_path(path)
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise _wrong(where, "no file", "a file that is there", "check its name") from None
    except IsADirectoryError:
        raise _wrong(where, "a folder", "a file", "name the file within it") from None
    except OSError as error:
        found = (error.strerror or "an error").lower()
        raise _wrong(where, f"a file that cannot be read: {found}", "a file to read") from None
    if len(data) > LARGEST_BYTES:
        raise _wrong(where, "more than 1 MB", "a text file of at most 1 MB")
    return data


def toml_table(data: bytes, where: str) -> dict[str, Any]:
    """Return a TOML text as a table.

    Parameters
    ----------
    data
        The file's bytes; a byte-order mark is passed over.
    where
        The file, as faults name it.
    """
    text = _decoded(data, where)
    if any(line.count(".") >= DEEPEST and _LONG_KEY.search(line) for line in text.split("\n")):
        raise _too_deep(where)
    try:
        table = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise InputError((_reworded(str(error), text, where),)) from None
    except RecursionError:
        raise _too_deep(where) from None
    if _depth(table) > DEEPEST:
        raise _too_deep(where)
    return table


def _decoded(data: bytes, where: str) -> str:
    """Return the text, which has to be UTF-8."""
    if data.startswith(_SIXTEEN_BITS):
        raise _wrong(where, "UTF-16 text", "UTF-8 text", "save the file as UTF-8")
    try:
        return data.removeprefix(_BYTE_ORDER_MARK).decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        found = f"the byte 0x{error.object[error.start]:02x}"
        fix = "save the file as UTF-8"
        raise _wrong(f"{where}: line {line}", found, "UTF-8 text", fix) from None


def _depth(table: dict[str, Any]) -> int:
    """Return how many tables and lists stand in one another."""
    depth = 0
    layer: list[dict[str, Any] | list[Any]] = [table]
    while layer:
        depth += 1
        values = [v for row in layer for v in (row.values() if isinstance(row, dict) else row)]
        layer = [value for value in values if isinstance(value, dict | list)]
    return depth


def _reworded(message: str, text: str, where: str) -> Fault:
    """Return the parser's complaint in plain words, with the line it means."""
    match = _AT.fullmatch(message)
    cause = match[1] if match else message
    lines = text.splitlines() or [""]
    number = int(match[2]) if match and match[2] else len(lines)
    line = lines[min(number, len(lines)) - 1].strip()
    place, found = f"{where}: line {number}", repr(_cut(line)) if line else "the end of the file"
    for start, expected, fix in _REWORDED:
        if cause.startswith(start):
            return Fault(place, found, expected, _feet_inches(line) or fix)
    return Fault(place, found, f"TOML; {cause[:1].lower()}{cause[1:]}")


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST_SHOWN else text[:_LONGEST_SHOWN] + "…"


def _feet_inches(line: str) -> str:
    """Return how to write feet and inches where the marks for them broke the text."""
    broken = _FOOT_MARKS.search(line)
    return 'write feet and inches as "5 ft 6 in" or "5-6", inches as "4 in"' if broken else ""


def _too_deep(where: str) -> InputError:
    return _wrong(where, "tables nested too deep", f"at most {DEEPEST} within one another")


def _wrong(where: str, found: str, expected: str, fix: str = "") -> InputError:
    return InputError((Fault(where, found, expected, fix),))
