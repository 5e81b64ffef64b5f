"""The front view: the curb seen from the street."""

from __future__ import annotations

from permitkit.drawing.front_view.sheet import front_view

__all__ = ["front_view"]
