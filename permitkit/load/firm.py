"""The firm file: beside the job, in a folder above it, or named."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.load.faults import read_model
from permitkit.load.toml_text import read_toml, shown_path
from permitkit.model.papers import Firm
from permitkit.model.reading.written import quoted

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["FIRM_FILE", "find_firm", "read_firm"]

FIRM_FILE = "firm.toml"


def find_firm(job_path: Path) -> Path | None:
    """Return the firm file beside a job, or in the nearest folder above that has one."""
    for folder in job_path.resolve().parents:
        if (folder / FIRM_FILE).is_file():
            return folder / FIRM_FILE
    return None


def read_firm(path: Path) -> tuple[Firm | None, list[Fault]]:
    """Return the firm of a file, or nothing, with every fault in it.

    Raises
    ------
    InputError
        The file is missing or is not TOML.
    """
    table, where = read_toml(path), shown_path(path)
    faults: list[Fault] = []
    schema = table.pop("schema", None)
    if schema != 1:
        found = "nothing" if schema is None else quoted(schema)
        faults.append(Fault(f"{where}: schema", found, "schema = 1"))
    firm, found_in_it = read_model(Firm, table, where)
    return firm, faults + found_in_it
