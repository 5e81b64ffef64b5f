"""What is wrong with a sheet that reads well: cases never reached, cases that clash, holes."""

from __future__ import annotations

from permitkit.load.rule_lint.lint import lint, notes

__all__ = ["lint", "notes"]
