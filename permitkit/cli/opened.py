"""Opening a job: its file, its town's sheets, and the judgement of one against the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from permitkit.checks.judge import Judged
    from permitkit.load.find_sheet import SheetPlaces
    from permitkit.model.rules import Sheet

__all__ = ["files_read", "judged_job", "own_templates", "sheet_told", "town_sheets"]


def _places(path: Path, firm: Path | None) -> SheetPlaces:
    """Return where a job's sheets are looked for: beside it, then beside the firm file."""
    from permitkit.load.find_sheet import SheetPlaces
    from permitkit.load.firm import find_firm

    found = firm or find_firm(path)
    return SheetPlaces(job=path.parent, firm=found.parent if found else None)


def own_templates(path: Path, firm: Path | None = None) -> tuple[Path, ...]:
    """Return the folders in which the firm's own templates may lie: beside the job, then the firm.

    The town's, and those of the sheets it follows, stand in front of them.
    """
    places = _places(path, firm)
    return tuple(folder / "templates" for folder in (places.job, places.firm) if folder is not None)


def judged_job(path: Path, firm: Path | None = None) -> Judged:
    """Return the judged job of a job file, with every file it needs found and read."""
    from permitkit.checks.judge import judge
    from permitkit.load.job_file import read_job

    job = read_job(path, firm)
    return judge(job, town_sheets(job.town, path, firm))


def town_sheets(town: str, path: Path, firm: Path | None = None) -> tuple[Sheet, ...]:
    """Return the sheet of a job's town and those it follows, as found from the job's file."""
    from permitkit.load.rule_sheet import load_layers

    return load_layers(town, _places(path, firm))


def files_read(path: Path, firm: Path | None = None) -> tuple[Path, ...]:
    """Return the files a job is read from: its own, the firm's, and the firm's templates."""
    from permitkit.load.firm import find_firm

    found = firm or find_firm(path)
    folders = dict.fromkeys(own_templates(path, firm))
    wording = (one for folder in folders for one in sorted(folder.glob("*.txt")))
    return (path, *((found,) if found else ()), *wording)


def sheet_told(town: str, path: Path, firm: Path | None = None) -> str:
    """Return which file of the town's rules a job was held against."""
    from permitkit.load.find_sheet import find_sheet, shipped_folder

    found = find_sheet(town, _places(path, firm))
    if found.is_relative_to(shipped_folder()):
        return f"{found.relative_to(shipped_folder().parent).as_posix()}, as shipped"
    return str(found)
