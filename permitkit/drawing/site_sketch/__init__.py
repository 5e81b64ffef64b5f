"""The site sketch: a plan of the lot, the street and the drain, to scale."""

from __future__ import annotations

from permitkit.drawing.site_sketch.sketch import site_sketch

__all__ = ["site_sketch"]
