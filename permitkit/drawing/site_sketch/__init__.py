"""The site sketch: a plan of the lot, the street and the drain, to scale."""

from __future__ import annotations

from permitkit.drawing.site_sketch.sketch import AT_OUTLET, site_sketch

__all__ = ["AT_OUTLET", "site_sketch"]
