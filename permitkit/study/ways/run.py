"""The run of a job measured from the curb face, cut off or carried on to another outlet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from permitkit.model.drain import OUTLET, Drain
from permitkit.model.job import Job
from permitkit.study.curb import at_the_curb
from permitkit.study.water.ground import Ground
from permitkit.study.ways.way import NotHere
from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from permitkit.model.drain import Node, Reach
    from permitkit.study.water.line import Line
    from permitkit.units import Measure

__all__ = ["Run", "length", "level", "run_of"]

NEAR_M = 1e-6


def length(job: Job, metres: float) -> Measure:
    """Return a computed length in the unit of the job's author."""
    return from_si(metres, Kind.LENGTH, "m" if job.units == "metric" else "ft")


def level(job: Job, metres: float) -> Measure:
    """Return a computed level in the unit of the job's author."""
    return from_si(metres, Kind.LEVEL, "m" if job.units == "metric" else "ft")


@dataclass(frozen=True, slots=True)
class Run:
    """A run, with the distance of each node behind the curb face.

    Parameters
    ----------
    job, ground
        The job, and the ground along its run.
    shift_m
        How far behind the curb face the ground's own stations begin. [m]
    behind_m
        Of each node but the outlet, the distance behind the curb face along the run. [m]
    """

    job: Job
    ground: Ground
    shift_m: float
    behind_m: Mapping[str, float]

    @property
    def nodes(self) -> tuple[Node, ...]:
        """The nodes above the outlet."""
        return tuple(node for node in self.job.drain.node if node.name != OUTLET)

    def ground_m(self, behind_m: float) -> float:
        """Return the ground's level at a distance behind the curb face."""
        return self.ground.level_m(behind_m - self.shift_m)

    def ended(self, end_m: float) -> Run:
        """Return the run ended at a distance behind the curb face.

        Raises
        ------
        NotHere
            If water enters it nearer to the street than that, or all of it lies nearer.
        """
        kept = {name: at for name, at in self.behind_m.items() if at > end_m + NEAR_M}
        lost = [inflow.name for inflow in self.job.drain.inflow if inflow.node not in kept]
        if lost:
            raise NotHere(f"{lost[0]} enters nearer to the street than that")
        reaches = tuple(
            self._to_end(reach, kept, end_m)
            for reach in self.job.drain.reach
            if reach.upper in kept
        )
        nodes = tuple(node for node in self.nodes if node.name in kept)
        drain = self.job.drain.model_copy(update={"node": nodes, "reach": reaches})
        return replace(self, job=self.job.model_copy(update={"drain": drain}), behind_m=kept)

    def _to_end(self, reach: Reach, kept: Mapping[str, float], end_m: float) -> Reach:
        """Return a reach as it is, or the last one drawn to the end."""
        if reach.lower in kept:
            return reach
        last = length(self.job, kept[reach.upper] - end_m)
        return reach.model_copy(update={"lower": OUTLET, "length": last})

    def lowest(self) -> tuple[Reach, ...]:
        """Return the reaches that come to the outlet."""
        return tuple(reach for reach in self.job.drain.reach if reach.lower == OUTLET)

    def with_drain(self, **parts: object) -> Job:
        """Return the job with parts of its drain replaced."""
        drain: Drain = self.job.drain.model_copy(update=parts)
        return self.job.model_copy(update={"drain": drain})


def run_of(job: Job, line: Line, ground: Ground) -> Run:
    """Return the run of a job as it was laid.

    Raises
    ------
    NotHere
        If the job has no pipe.
    """
    if not job.drain.reach:
        raise NotHere("no pipe is laid that could lead it there")
    emitter = job.outlet.emitter
    shift = 0.0
    if not at_the_curb(job):
        shift = float(job.site.row_line_offset) + float(emitter.to_row if emitter else 0)
    known = {node.name for node in job.drain.node} - {OUTLET}
    behind = {name: at + shift for name, at in line.stations_m.items() if name in known}
    return Run(job, ground, shift, behind)
