"""The demo jobs as they stand, and the same with a few words changed."""

from __future__ import annotations

from pathlib import Path

from permitkit.errors import Fault, InputError
from permitkit.load.firm import find_firm
from permitkit.load.job_file import read_job

ROOT = Path(__file__).parents[1]
JOBS = ROOT / "demo" / "jobs"
NAMES = tuple(sorted(path.parent.name for path in JOBS.glob("*/job.toml")))

Change = tuple[str, str]

VARIANTS: dict[str, tuple[str, tuple[Change, ...]]] = {
    "notch-6-in": (
        "sorrel-flats-notch",
        (('\nwidth = "5 in"', '\nwidth = "6 in"'),),
    ),
    "trench-10-ft": (
        "sorrel-flats-notch",
        (('trench_length = "9 ft 6 in"', 'trench_length = "10 ft"'),),
    ),
    "trench-10-ft-1-in": (
        "sorrel-flats-notch",
        (('trench_length = "9 ft 6 in"', 'trench_length = "10 ft 1 in"'),),
    ),
}
"""The third demo job changed in one number, by name."""


def job_path(name: str) -> Path:
    """Return the file of a demo job."""
    return JOBS / name / "job.toml"


def changed(folder: Path, name: str, *changes: Change) -> Path:
    """Write a demo job with each old text, found once, replaced by the new; return the file."""
    text = job_path(name).read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        text = text.replace(old, new)
    firm = find_firm(job_path(name))
    assert firm is not None
    (folder / "firm.toml").write_bytes(firm.read_bytes())
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def variant(folder: Path, name: str) -> Path:
    """Write one of the variants; return the file."""
    of, changes = VARIANTS[name]
    return changed(folder, of, *changes)


def faults_of(path: Path, firm: Path | None = None) -> tuple[Fault, ...]:
    """Return every fault of a job file; none where it is sound."""
    try:
        read_job(path, firm)
    except InputError as error:
        return error.faults
    return ()


def told(path: Path, firm: Path | None = None) -> str:
    """Return the faults as a person reads them, with the files' folder left out."""
    lines = [line for fault in faults_of(path, firm) for line in fault.lines()]
    return "\n".join(lines).replace(f"{path.parent}/", "")
