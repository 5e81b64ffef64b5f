"""A begun job file as its author would fill it in: examples taken, marks left on or off."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from permitkit.load.job_form.begun import NewJob, begun_job
from permitkit.load.job_form.question import EVERY
from permitkit.load.rule_sheet import load_layers
from permitkit.study.keeping.asked import asked_of_jobs

if TYPE_CHECKING:
    from permitkit.model.words import OutletKind

__all__ = ["DAY", "KINDS", "begun", "empty_fields", "filled_in", "only_asked", "taken"]

DAY = date(2026, 4, 6)
KINDS: tuple[OutletKind | None, ...] = (*EVERY, None)

_EMPTY = re.compile(r'(\w+) = ""  # (?:.*?)such as (.+)')
_MARKED = re.compile(r"#(?=[\w\[])")
_HEADING = re.compile(r"#?\[+([\w.]+)\]+")


def begun(outlet: OutletKind | None = None, units: str = "us", town: str = "millrace") -> str:
    """Return a begun job file for a town, with what that town asks marked."""
    sheets = load_layers(town)
    asked = asked_of_jobs(sheets, DAY)
    return begun_job(NewJob(town, sheets[0].title, DAY, outlet, units, asked))


def filled_in(text: str, outlet: str = "core") -> str:
    """Return the file with an example in every place that stands empty, and no mark taken off."""
    lines = [_EMPTY.sub(r"\1 = \2", line) for line in text.splitlines()]
    return "\n".join(lines).replace('kind = "core"', f'kind = "{outlet}"', 1) + "\n"


def taken(text: str) -> str:
    """Return the file with every example taken: filled in, and the marks taken off."""
    return "\n".join(_MARKED.sub("", line, 1) for line in filled_in(text).splitlines()) + "\n"


def only_asked(text: str) -> str:
    """Return the file with every example taken save what may be left out and the town asks not."""
    kept, remarks = [], ""
    for line in filled_in(text).splitlines():
        if line.startswith(("# ", "#   ")) or not line:
            remarks += line
            kept.append(line)
            continue
        free = "Left out:" in remarks and "This town asks" not in remarks
        heading = _HEADING.fullmatch(line) is not None
        kept.append(line if free and not heading else _MARKED.sub("", line, 1))
        remarks = ""
    return "\n".join(kept) + "\n"


def empty_fields(text: str) -> set[str]:
    """Return the fields that stand empty in a begun file, as faults name them."""
    counts: dict[str, int] = {}
    found, table = set(), ""
    for line in text.splitlines():
        heading = _HEADING.fullmatch(line)
        if heading and not line.startswith("#"):
            table = heading[1]
            if line.startswith("[["):
                counts[table] = counts.get(table, 0) + 1
                table = f"{table}[{counts[table]}]"
        elif ' = ""' in line and not line.startswith("#"):
            found.add(f"{table}.{line.partition(' ')[0]}")
    return found
