"""Every question of a job file, in the order one walks: the house first, the street last."""

from __future__ import annotations

from functools import cache

from permitkit.load.job_form.parts import closing, counts, line, lot, outlet, papers, street, work
from permitkit.load.job_form.question import Part, Question

__all__ = ["PARTS", "questions"]

PARTS: tuple[Part, ...] = (
    *lot.PARTS,
    *line.PARTS,
    *street.PARTS,
    *outlet.PARTS,
    *work.PARTS,
    *counts.PARTS,
    *closing.PARTS,
    *papers.PARTS,
)


@cache
def questions() -> dict[str, Question]:
    """Return every question by the dotted path of its field."""
    steps = (step for part in PARTS for step in part.steps)
    return {step.path: step for step in steps if isinstance(step, Question)}
