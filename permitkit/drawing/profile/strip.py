"""The stretch of the run on one sheet: stations and levels in, clipped shapes on paper out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.callouts import Note
from permitkit.drawing.info import held
from permitkit.drawing.placing import SIDES
from permitkit.drawing.profile.course import clipped
from permitkit.drawing.scale import View
from permitkit.drawing.shapes import Box, Fill, Polygon, Polyline

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.drawing.placing import Side
    from permitkit.drawing.shapes import Point, Role, Shape

__all__ = ["Strip"]

_TOUCH_M = 1e-6


@dataclass(frozen=True, slots=True)
class Strip:
    """The stations on one sheet, and the way from them to the paper.

    Parameters
    ----------
    view
        From station and level to the sheet.
    low_m, high_m
        The stations between which things are drawn.
    plot
        The paper of the profile itself. [mm]
    """

    view: View
    low_m: float
    high_m: float
    plot: Box

    def shows(self, station_m: float) -> bool:
        """Return whether a station lies on this sheet."""
        return self.low_m - _TOUCH_M <= station_m <= self.high_m + _TOUCH_M

    def at(self, station_m: float, level_m: float) -> Point:
        """Return where a station and level lie on the sheet, in mm."""
        return self.view.at(station_m, level_m)

    def x(self, station_m: float) -> float:
        """Return how far to the right a station lies, in mm."""
        return self.view.at(station_m, 0.0)[0]

    def high_mm(self, height_m: float) -> float:
        """Return how high a height is drawn, in mm."""
        return (self.view.vertical or self.view.scale).paper_mm(height_m)

    def path(self, points: Sequence[Point], role: Role) -> tuple[Shape, ...]:
        """Return the part of a line over stations that lies on this sheet."""
        seen = clipped(points, self.low_m, self.high_m)
        return (Polyline(self.view.points(seen), role),) if len(seen) > 1 else ()

    def between(self, upper: Sequence[Point], lower: Sequence[Point]) -> tuple[Point, ...]:
        """Return the region between two lines over the same stations, on paper; may be empty."""
        top = clipped(upper, self.low_m, self.high_m)
        foot = clipped(lower, self.low_m, self.high_m)
        if len(top) < 2 or len(foot) < 2:  # noqa: PLR2004 - a line has two ends
            return ()
        return self.view.points((*top, *reversed(foot)))

    def filled(
        self, upper: Sequence[Point], lower: Sequence[Point], role: Role, fill: Fill = Fill.WHITE
    ) -> tuple[Shape, ...]:
        """Return the region between two lines, covered and without an outline."""
        region = self.between(upper, lower)
        return (Polygon(region, role, fill, outlined=False),) if region else ()

    def note(
        self,
        text: str,
        at: Point,
        *,
        prefer: tuple[Side, ...] = SIDES,
        priority: int = 0,
        bold: bool = False,
        dot: bool = False,
        wrap_mm: float = 46.0,
    ) -> tuple[Note, ...]:
        """Return a text to be set by a station and level, where that lies on this sheet."""
        if not self.shows(at[0]):
            return ()
        tip = self.at(*at)
        note = Note(
            held(text), tip, bold=bold, prefer=prefer, priority=priority, dot=dot, wrap_mm=wrap_mm
        )
        return (note,)
