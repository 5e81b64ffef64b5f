"""JSON Schemas by which an editor completes a rule sheet or a job file while it is typed."""

from __future__ import annotations

from permitkit.load.schema.job_file import job_file_schema
from permitkit.load.schema.rule_sheet import rule_sheet_schema

__all__ = ["job_file_schema", "rule_sheet_schema"]
