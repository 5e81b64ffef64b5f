"""The right-of-way line in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.info import starred

if TYPE_CHECKING:
    from permitkit.model.job import Job

__all__ = ["row_words"]

_BASIS = {"survey": "by survey", "plat": "from the plat", "scaled": "scaled from a map"}


def row_words(job: Job) -> str:
    """Return what the right-of-way line is called, with its basis."""
    basis = job.site.row_line_basis
    if basis == "assumed":
        return "right-of-way line, assumed *"
    return starred(f"right-of-way line, {_BASIS[basis]}", job, "site.row_line_basis")
