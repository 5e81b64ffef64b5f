"""The questions a job file answers, asked once: for a new file, the guide and the schema."""

from __future__ import annotations

from permitkit.load.job_form.questions import PARTS, questions

__all__ = ["PARTS", "questions"]
