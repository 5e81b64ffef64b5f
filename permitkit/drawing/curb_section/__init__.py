"""The curb section at the outlet, with the front view; the emitter and the plug in its place."""

from __future__ import annotations

from permitkit.drawing.curb_section.sheet import curb_section

__all__ = ["curb_section"]
