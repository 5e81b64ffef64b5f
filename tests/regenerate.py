"""Write every file that is made from the code: `python tests/regenerate.py`.

A test holds each against the code, so that none can fall behind.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from key_uses import key_uses

from permitkit.load.guide.key_table import fact_table, key_table
from permitkit.load.guide.word_table import word_table
from permitkit.load.job_form.guide import field_tables
from permitkit.load.schema import job_file_schema, rule_sheet_schema
from permitkit.model.forms.values import FORM_VALUES
from permitkit.model.money import PER_UNITS
from permitkit.packet.wording.names import NAMES, told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

ROOT = Path(__file__).resolve().parent.parent
GUIDE = ROOT / "jurisdictions" / "README.md"
SCHEMA = ROOT / "jurisdictions" / "schema.json"
JOB_SCHEMA = ROOT / "jurisdictions" / "job.schema.json"
JOB_GUIDE = ROOT / "demo" / "README.md"
CONTRIBUTORS = ROOT / "DEVELOPERS.md"
KINDS = ROOT / "tests" / "load" / "kinds.toml"


def unit_list() -> str:
    """Return every unit that money is counted by, as a line of Markdown."""
    return ", ".join(f"`{name}`" for name in PER_UNITS) + "\n"


def value_table() -> str:
    """Return every value that a form may be told, as a Markdown table."""
    lines = ["| value | what it tells | what it is |", "| --- | --- | --- |"]
    for value in FORM_VALUES.values():
        words = ", ".join(f"`{word}`" for word in value.words)
        sort = f"words: {words}" if words else str(value.quantity or value.sort)
        lines.append(f"| `{value.name}` | {value.tells} | {sort} |")
    return "\n".join(lines) + "\n"


def name_lists() -> str:
    """Return every name that a template may use, as Markdown lists."""
    packet = NAMES["need"]
    parts = [("In the packet", packet)]
    parts += [
        (f"In `{name}` also", {key: of for key, of in NAMES[name].items() if key not in packet})
        for name in ("application", "restoration")
    ]
    parts += [("In `town-page`", NAMES["town-page"])]
    parts += [("In `call-script` and `letter`", NAMES["letter"])]
    lists = [
        "\n".join((f"{title}:\n", *(f"- {line}" for line in told(tree)))) for title, tree in parts
    ]
    return "\n\n".join(lists) + "\n"


def kind_table() -> str:
    """Return every kind of rule and how it is written, as a Markdown table."""
    lines = ["| kind | how it is written |", "| --- | --- |"]
    for part in tomllib.loads(KINDS.read_text(encoding="utf-8"))["part"]:
        lines.append(f"| **{part['title']}** | |")
        lines += [f"| {kind} | {_code(ways)} |" for kind, *ways in part["kind"]]
    return "\n".join(lines) + "\n"


def _code(ways: list[str]) -> str:
    return "<br>".join(f"`{way}`" for way in ways)


TABLES = {
    "keys": lambda: key_table(key_uses()),
    "facts": fact_table,
    "form values": value_table,
    "template names": name_lists,
    "words": word_table,
    "units of money": unit_list,
}
KIND_TABLE = {"kinds": kind_table}
FIELD_TABLES = {"job fields": field_tables}


def filled(text: str, tables: Mapping[str, Callable[[], str]]) -> str:
    """Return a guide with its tables as the code has them, each between its two marks.

    Raises
    ------
    ValueError
        A mark is missing.
    """
    for name, table in tables.items():
        begin, end = f"<!-- {name} -->\n", f"<!-- end of {name} -->\n"
        before, _, rest = text.partition(begin)
        _, found, after = rest.partition(end)
        if not found:
            raise ValueError(f"the guide has no marks {begin.strip()} and {end.strip()}")
        text = f"{before}{begin}\n{table()}\n{end}{after}"
    return text


def as_json(schema: Mapping[str, Any]) -> str:
    """Return a schema as its file holds it."""
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def generated() -> dict[Path, str]:
    """Return what each generated file should hold."""
    made = {
        GUIDE: filled(GUIDE.read_text(encoding="utf-8"), TABLES),
        SCHEMA: as_json(rule_sheet_schema()),
        JOB_SCHEMA: as_json(job_file_schema()),
        JOB_GUIDE: filled(JOB_GUIDE.read_text(encoding="utf-8"), FIELD_TABLES),
    }
    contributors = CONTRIBUTORS.read_text(encoding="utf-8")
    if "<!-- kinds -->" in contributors:
        made[CONTRIBUTORS] = filled(contributors, KIND_TABLE)
    return made


def main() -> None:
    """Write the files, and say which changed."""
    for path, text in generated().items():
        old = path.read_text(encoding="utf-8") if path.is_file() else ""
        path.write_text(text, encoding="utf-8")
        print(f"{path.relative_to(ROOT)}  {'as it was' if text == old else 'rewritten'}")


if __name__ == "__main__":
    main()
