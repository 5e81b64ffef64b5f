"""The line of pipe as a check walks it: what lies where, and what comes next."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice, pairwise, takewhile
from typing import TYPE_CHECKING

from permitkit.checks.proposed import curb_to_emitter, emitters
from permitkit.geometry.section_walk import level_at
from permitkit.model.site import Utility
from permitkit.units import Kind, Measure, measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.hydraulics.materials import Pipe
    from permitkit.model.job import Job
    from permitkit.study.results import CoverPoint, NodeWater, ReachWater, Study

__all__ = [
    "Crossing",
    "beds",
    "bore_area",
    "cleanouts",
    "crossings",
    "house_near",
    "in_line",
    "longest_way",
    "openings",
    "size_sold",
    "sold_as",
    "thinnest",
    "walk_back",
]

STREET_SIDE = {"curb", "verge", "walk"}


@dataclass(frozen=True, slots=True)
class Crossing:
    """A buried line that the run crosses, and how far it lies clear of the pipe.

    `clear_m` is None where its depth is not known.
    """

    utility: Utility
    clear_m: float | None


def beds(reach: ReachWater) -> list[dict[str, str]]:
    """Return each place and surface a reach lies under, as facts; the street side is the town's."""
    return [
        {"place": place, "surface": surface}
        for place in reach.places
        for surface in reach.surfaces
        if place == "right-of-way" or surface not in STREET_SIDE
    ]


def house_near(job: Job, reach: ReachWater) -> dict[str, Measure]:
    """Return how near the building a reach comes, as a fact; nothing where nobody says."""
    own = next((each for each in job.drain.reach if each.upper == reach.upper), None)
    near = own.house_distance if own is not None else None
    return {} if near is None else {"house_distance": near}


def bore_area(reach: ReachWater) -> float:
    """Return the inside area of all barrels of a reach, in m2."""
    return float(reach.pipe.section.full.area_m2 * reach.barrels)


def sold_as(reach: ReachWater) -> Measure:
    """Return the size a reach's pipe is sold by: of a box the width."""
    return measure(size_sold(reach.pipe), "in", Kind.LENGTH)


def size_sold(pipe: Pipe) -> str:
    """Return the size a pipe is sold by, in inches: of a box the width."""
    return "".join(takewhile(str.isdigit, pipe.key.removeprefix("tube-")))


def in_line(study: Study) -> Iterator[tuple[ReachWater, ReachWater]]:
    """Yield each reach with the one below it."""
    by_upper = {reach.upper: reach for reach in study.water.reaches}
    for reach in study.water.reaches:
        if reach.lower in by_upper:
            yield reach, by_upper[reach.lower]


def cleanouts(job: Job, study: Study) -> list[float]:
    """Return the stations of the nodes that are cleanouts."""
    named = {node.name for node in job.drain.node if node.cleanout}
    return sorted(node.station_m for node in study.water.nodes if node.name in named)


def openings(study: Study) -> list[tuple[NodeWater, float]]:
    """Return each node that water can leave by, with the level of its opening."""
    return [(node, node.opening_m) for node in study.water.nodes if node.opening_m is not None]


def longest_way(stations: list[float], study: Study) -> float:
    """Return the longest way of pipe between two places it can be rodded from, the outlet one."""
    ends = [node.station_m for node in study.water.nodes]
    marks = sorted({min(ends), *stations, max(ends)})
    return max((high - low for low, high in pairwise(marks)), default=0.0)


def walk_back(study: Study) -> list[float]:
    """Return the station of the walk's house side, if the run crosses the walk."""
    return sorted(edge.station_m for edge in study.cut.slab)[-1:]


def thinnest(study: Study) -> Iterator[CoverPoint]:
    """Yield the point of least cover under each surface, in the right-of-way and behind it."""
    least: dict[tuple[str, bool], CoverPoint] = {}
    for point in study.cut.cover:
        bed = (point.surface, point.in_right_of_way)
        if bed not in least or point.cover_m < least[bed].cover_m:
            least[bed] = point
    yield from least.values()


def crossings(job: Job, study: Study) -> Iterator[Crossing]:
    """Yield every buried line the run crosses."""
    start = _start_m(job)
    for utility in job.utility:
        at = float(utility.at) - start
        reaches = (r for r in study.water.reaches if r.station_low_m <= at <= r.station_high_m)
        for reach in islice(reaches, 1):
            yield Crossing(utility, _clear_m(utility, at, reach, study))


def _start_m(job: Job) -> float:
    """Return how far behind the curb face the run's stations begin."""
    return sum(float(curb_to_emitter(job, emitter)) for emitter in emitters(job))


def _clear_m(utility: Utility, at: float, reach: ReachWater, study: Study) -> float | None:
    """Return the clear distance, up or down, from the pipe to a buried line's top."""
    if utility.depth is None:
        return None
    return reach.laid.clear_of(at, _ground_m(at, study) - float(utility.depth))


def _ground_m(at: float, study: Study) -> float:
    """Return the ground's level at a station, on a straight line between points of the run."""
    return level_at(sorted({(p.station_m, p.ground_m) for p in study.cut.cover}), at)
