"""What the walk cut is drawn from: the pipe under the walk, what is taken out, what is laid."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.drawing.info import Figures, figures_of
from permitkit.drawing.sheet_parts.ground_line import GroundLine, ground_line, trunk_nodes
from permitkit.geometry.span import spaced_about
from permitkit.model.job import Job
from permitkit.study.results import ReachWater, SlabAt, Study

if TYPE_CHECKING:
    from permitkit.study.results import CutStudy

__all__ = ["Crossing", "crossing_of"]


@dataclass(frozen=True, slots=True)
class Crossing:
    """A run that crosses the walk. Stations run from the curb face, levels above the datum.

    Parameters
    ----------
    job, study, figures
        The job, what was computed, and how its numbers are written.
    ground
        The ground over the run.
    reach
        The reach under the walk.
    front, back
        The pipe and the slab at the walk's curb side and house side.
    """

    job: Job
    study: Study
    figures: Figures
    ground: GroundLine
    reach: ReachWater
    front: SlabAt
    back: SlabAt

    @property
    def cut(self) -> CutStudy:
        """Return the cut as computed."""
        return self.study.cut

    @property
    def opened(self) -> bool:
        """Return whether walk is taken out."""
        return self.cut.removed_right_m > self.cut.removed_left_m

    @property
    def width_m(self) -> float:
        """Return the width of the walk, in m."""
        return self.back.station_m - self.front.station_m

    @property
    def middle_m(self) -> float:
        """Return the station of the walk's middle, in m."""
        return (self.front.station_m + self.back.station_m) / 2

    @property
    def old_m(self) -> float:
        """Return the thickness of the walk there now, as far as it is known, in m."""
        old = self.job.walk.thickness
        return self.cut.thickness_m if old is None else float(old)

    @property
    def slab_m(self) -> float:
        """Return the thickness of the walk over the pipe when all is done, in m."""
        return self.front.surface_m - self.front.underside_m

    @property
    def base_m(self) -> float:
        """Return the depth of the base under the new walk, in m."""
        area = self.cut.walk_area_m2
        return self.cut.base_m3 / area if area else 0.0

    @property
    def curb_m(self) -> float:
        """Return the depth of the curb along the run, in m."""
        return self.study.curb.width_m if self.study.curb else 0.0

    @property
    def notch_m(self) -> float:
        """Return the width of the notch at its floor, in m; zero where a hole is cored."""
        notch = self.study.curb.notch if self.study.curb else None
        return notch.width_m if notch else 0.0

    @property
    def trench_half_m(self) -> float:
        """Return half the width of the trench, in m; zero where it is not given."""
        width = self.job.cut.trench_width
        return float(width) / 2 if width else 0.0

    @property
    def trench_m(self) -> tuple[float, float]:
        """Return the stations between which the trench is open in the right-of-way."""
        start = 0.0 if self.job.outlet.kind == "notch" else self.curb_m
        return start, start + self.cut.trench_m

    @property
    def encased(self) -> bool:
        """Return whether concrete is laid round the pipe below the slab."""
        return self.job.cut.slab_at_pipe in {"encased", "thickened"} and self.opened

    def pipe_m(self, station_m: float) -> tuple[float, float]:
        """Return the levels of the pipe's outside bottom and top at a station."""
        run = self.back.station_m - self.front.station_m
        share = (station_m - self.front.station_m) / run
        bottom = self.front.pipe_bottom_m + share * (
            self.back.pipe_bottom_m - self.front.pipe_bottom_m
        )
        top = self.front.pipe_top_m + share * (self.back.pipe_top_m - self.front.pipe_top_m)
        return bottom, top

    def surface_m(self, station_m: float) -> float:
        """Return the level of the surface at a station."""
        return self.ground.level_m(station_m)

    def trench_floor_m(self, station_m: float) -> float:
        """Return the level of the trench's floor: as given, but never over the pipe's bottom."""
        bottom = self.pipe_m(station_m)[0]
        depth = self.job.cut.trench_depth
        return bottom if depth is None else min(bottom, self.surface_m(station_m) - float(depth))

    def over_words(self, over_m: float) -> str:
        """Return how much of the slab lies over the pipe, or how far it stands out of its top."""
        write = self.figures.height
        return f"{write(over_m)} over" if over_m >= 0.0 else f"{write(-over_m)} out of its top"

    @property
    def barrels_m(self) -> tuple[float, ...]:
        """Return the places of the pipes across the run, from its centre line."""
        count, width = self.reach.barrels, self.reach.pipe.outside_m[0]
        given = self.job.outlet.spacing
        pitch = float(given) if given else 2 * width
        return spaced_about(0.0, count, pitch)


def crossing_of(job: Job, study: Study) -> Crossing | None:
    """Return the crossing of the walk, or None where the run does not cross it."""
    slab = study.cut.slab
    if study.curb is None or not study.water.reaches or len(slab) < 2:  # noqa: PLR2004 - a walk has two edges
        return None
    trunk = trunk_nodes(study)
    front, back = slab[0], slab[-1]
    middle = (front.station_m + back.station_m) / 2
    upper = {node.name for node in trunk}
    reach = next(
        r
        for r in study.water.reaches
        if r.upper in upper and r.station_low_m <= middle <= r.station_high_m
    )
    ground = ground_line(job, study, trunk)
    return Crossing(job, study, figures_of(job), ground, reach, front, back)
