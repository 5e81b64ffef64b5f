"""Job files: one job's text read into the model, every fault of it told at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault, InputError
from permitkit.load.agreement import disagreements
from permitkit.load.assumptions import with_assumptions
from permitkit.load.atlas14 import rain_from_table
from permitkit.load.faults import read_model
from permitkit.load.firm import find_firm, read_firm
from permitkit.load.levels import with_levels
from permitkit.load.toml_text import read_toml, shown_path
from permitkit.model.drain import Rain
from permitkit.model.job import Job

if TYPE_CHECKING:
    from pathlib import Path

    from permitkit.model.papers import Firm

__all__ = ["NOT_HERE", "read_job"]

NOT_HERE = {
    "firm": ("the firm's particulars in firm.toml, beside the job or in a folder above it"),
    "assumed": "nothing: what is assumed is worked out, never written",
}


def read_job(path: Path, firm_path: Path | None = None) -> Job:
    """Return one job, with rod readings turned into levels and every default filled in.

    A rain that names a table is looked up in that file, which lies beside the job.

    Parameters
    ----------
    path
        The job file.
    firm_path
        The firm file; where none is named, the nearest `firm.toml` beside the job or above it,
        and without one the job has no firm.

    Raises
    ------
    InputError
        Everything that is wrong with the job file, the firm file and the rain table, at once.
    """
    table, where = read_toml(path), shown_path(path)
    if not table:
        raise InputError((Fault(where, "an empty file", "a job", "begin with schema = 1"),))
    faults = _strays(table, where)
    turned, in_levels = with_levels(table, where)
    job, in_fields = read_model(Job, turned, where)
    faults += in_fields + in_levels + list(disagreements(turned, where))
    firm, in_firm = _firm(firm_path or find_firm(path))
    faults += in_firm
    rain, in_rain = _rain(job, path, where)
    faults += in_rain
    if faults or job is None:
        raise InputError(tuple(faults))
    return with_assumptions(job.model_copy(update={"firm": firm, "rain": rain}))


def _strays(table: dict[str, Any], where: str) -> list[Fault]:
    """Take out what a job file must not state, and return the faults."""
    found = [name for name in NOT_HERE if table.pop(name, None) is not None]
    return [Fault(f"{where}: {name}", f"a field {name!r}", NOT_HERE[name]) for name in found]


def _rain(job: Job | None, path: Path, where: str) -> tuple[Rain, list[Fault]]:
    """Return a job's rain, from the table beside the job where it names one, with its faults."""
    rain = Rain() if job is None else job.rain
    if rain.table is None:
        return rain, []
    try:
        return rain_from_table(rain, path.parent / rain.table, where), []
    except InputError as error:
        return rain, list(error.faults)


def _firm(path: Path | None) -> tuple[Firm | None, list[Fault]]:
    """Return the firm of a file, where there is one, with its faults."""
    if path is None:
        return None, []
    try:
        return read_firm(path)
    except InputError as error:
        return None, list(error.faults)
