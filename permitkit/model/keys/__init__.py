"""Every question a rule sheet can answer, declared once."""

from __future__ import annotations

from permitkit.model.keys import craft, deadlines, duties, outlet, papers, run, walk

__all__ = ["KEYS"]

KEYS = {
    key.name: key
    for module in (outlet, run, walk, craft, duties, papers, deadlines)
    for key in module.KEYS
}
