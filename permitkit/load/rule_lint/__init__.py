"""What is wrong with a sheet that reads well: cases never reached, tables with holes."""

from __future__ import annotations

from permitkit.load.rule_lint.lint import lint, notes

__all__ = ["lint", "notes"]
