"""Write every file that is made from the code: `python tests/regenerate.py`.

A test holds each against the code, so that none can fall behind.
"""

from __future__ import annotations

import json
from pathlib import Path

from permitkit.load.key_table import fact_table, key_table
from permitkit.load.schema import rule_sheet_schema
from permitkit.model.money import PER_UNITS

ROOT = Path(__file__).resolve().parent.parent
GUIDE = ROOT / "jurisdictions" / "README.md"
SCHEMA = ROOT / "jurisdictions" / "schema.json"


def unit_list() -> str:
    """Return every unit that money is counted by, as a line of Markdown."""
    return ", ".join(f"`{name}`" for name in PER_UNITS) + "\n"


TABLES = {"keys": key_table, "facts": fact_table, "units of money": unit_list}


def filled(text: str) -> str:
    """Return a guide with its tables as the code has them, each between its two marks.

    Raises
    ------
    ValueError
        A mark is missing.
    """
    for name, table in TABLES.items():
        begin, end = f"<!-- {name} -->\n", f"<!-- end of {name} -->\n"
        before, _, rest = text.partition(begin)
        _, found, after = rest.partition(end)
        if not found:
            raise ValueError(f"the guide has no marks {begin.strip()} and {end.strip()}")
        text = f"{before}{begin}\n{table()}\n{end}{after}"
    return text


def generated() -> dict[Path, str]:
    """Return what each generated file should hold."""
    return {
        GUIDE: filled(GUIDE.read_text(encoding="utf-8")),
        SCHEMA: json.dumps(rule_sheet_schema(), indent=1, ensure_ascii=False) + "\n",
    }


def main() -> None:
    """Write the files, and say which changed."""
    for path, text in generated().items():
        old = path.read_text(encoding="utf-8") if path.is_file() else ""
        path.write_text(text, encoding="utf-8")
        print(f"{path.relative_to(ROOT)}  {'as it was' if text == old else 'rewritten'}")


if __name__ == "__main__":
    main()
