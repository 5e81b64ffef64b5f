"""Every question a rule sheet can answer, declared once."""

from __future__ import annotations

from permitkit.model.keys import outlet, papers, run, walk

__all__ = ["KEYS"]

KEYS = {key.name: key for module in (outlet, run, walk, papers) for key in module.KEYS}
