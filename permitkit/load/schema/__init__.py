"""JSON Schemas by which an editor completes a rule sheet or a job file while it is typed."""

from __future__ import annotations

from permitkit.load.schema.rule_sheet import rule_sheet_schema

__all__ = ["rule_sheet_schema"]
