"""Strings of dimensions on tracks, none on another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import on_tracks
from permitkit.drawing.placing import overlaps

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.dimensions import Dimension
    from permitkit.drawing.shapes import Box

__all__ = ["strung"]

_AIR_MM = 0.3


def strung(
    dimensions: Sequence[Dimension], line_at_mm: float, step_mm: float
) -> tuple[Dimension, ...]:
    """Return dimensions on parallel lines, short ones inside, no text on a text or on a line.

    Parameters
    ----------
    dimensions
        All horizontal, or all vertical.
    line_at_mm, step_mm
        As `on_tracks`. [mm]

    Notes
    -----
    Where the usual string has texts that meet, each dimension takes the first track on which
    nothing set before it is in its way, the shortest first.
    """
    usual = on_tracks(dimensions, line_at_mm, step_mm)
    texts = [box for dimension in usual for box in dimension.label.boxes]
    if not overlaps(texts):
        return usual
    taken: list[Box] = []
    placed: dict[int, Dimension] = {}
    for index in sorted(range(len(dimensions)), key=lambda i: dimensions[i].length_mm):
        for track in range(len(dimensions) + 1):
            (tried,) = on_tracks([dimensions[index]], line_at_mm + track * step_mm, step_mm)
            if not any(box.touches(other) for box in _boxes(tried) for other in taken):
                break
        placed[index] = tried
        taken.extend(_boxes(tried))
    return tuple(placed[index] for index in range(len(dimensions)))


def _boxes(dimension: Dimension) -> tuple[Box, ...]:
    """Return what a dimension covers: its text and its line, with a little air."""
    line = dimension.line_box
    return *(box.grown(_AIR_MM) for box in dimension.label.boxes), line.grown(_AIR_MM / 3)
