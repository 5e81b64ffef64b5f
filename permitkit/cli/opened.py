"""Opening a job: its file, its town's sheets, and the judgement of one against the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from permitkit.checks.judge import Judged

__all__ = ["judged_job"]


def judged_job(path: Path, firm: Path | None = None) -> Judged:
    """Return the judged job of a job file, with every file it needs found and read."""
    from permitkit.checks.judge import judge
    from permitkit.load.find_sheet import SheetPlaces
    from permitkit.load.job_file import read_job
    from permitkit.load.rule_sheet import load_layers

    job = read_job(path, firm)
    places = SheetPlaces(job=path.parent, firm=firm.parent if firm else None)
    return judge(job, load_layers(job.town, places))
