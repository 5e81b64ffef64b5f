"""The street as the traffic plan draws it, not to scale: strips across, zones along. All in mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from permitkit.drawing.info import Figures, figures_of
from permitkit.drawing.shapes import Box
from permitkit.model.job import Job
from permitkit.study.results import Study

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.study.results import TrafficStudy

__all__ = ["LANE", "LOT", "PARKING", "VERGE", "WALK", "Scene", "Way", "scene_of"]

LOT, WALK, VERGE, PARKING, LANE = "lot", "walk", "verge", "parking", "lane"
FAR_PARKING, FAR_WALK = "far parking", "far walk"

_TALL_MM: Mapping[str, float] = {
    LOT: 18.5,
    WALK: 13.0,
    VERGE: 9.0,
    PARKING: 14.0,
    FAR_PARKING: 9.0,
    FAR_WALK: 7.0,
}
_LANES_MM, _WIDEST_LANE_MM = 30.0, 14.0
_USUAL_MM, _MOST_GROWN = 186.0, 1.5
_WORK = (0.27, 0.46)
_TAPER = (0.59, 0.80)


class Way(NamedTuple):
    """How people on foot get past: along which strip."""

    strip: str
    words: str


@dataclass(frozen=True, slots=True)
class Scene:
    """What is drawn where.

    Parameters
    ----------
    job, study, figures
        The job, what was computed, and how its numbers are written.
    strips
        Lot, walk, verge, parking, lanes and so on, from the lot down. [mm]
    work
        The work space along the street, from left to right; cars beside it drive to the left. [mm]
    taper
        The taper before it. [mm]
    """

    job: Job
    study: Study
    figures: Figures
    strips: Mapping[str, Box]
    work: tuple[float, float]
    taper: tuple[float, float]

    @property
    def traffic(self) -> TrafficStudy:
        """Return the lengths the books ask for."""
        return self.study.traffic

    @property
    def whole(self) -> Box:
        """Return the box round all strips."""
        return Box.around(corner for box in self.strips.values() for corner in box.corners)

    @property
    def curb_mm(self) -> float:
        """Return the height of the curb line."""
        return min(self.strips[name].bottom for name in (WALK, VERGE) if name in self.strips)

    @property
    def lanes(self) -> tuple[Box, ...]:
        """Return the lanes, the nearest first."""
        return tuple(box for name, box in self.strips.items() if name.startswith(f"{LANE} "))

    @property
    def taken(self) -> tuple[Box, ...]:
        """Return the strips of the street that are taken."""
        kind = self.job.traffic.lane_taken
        if kind == "none":
            return ()
        near = [self.strips[PARKING]] if PARKING in self.strips else []
        if kind == "travel lane" or not near:
            near.append(self.lanes[0])
        return tuple(near)

    @property
    def open_lane(self) -> Box:
        """Return the lane that stays open beside what is taken."""
        return next((lane for lane in self.lanes if lane not in self.taken), self.lanes[0])

    @property
    def way(self) -> Way | None:
        """Return the strip that the way round lies in, if there is one."""
        given = self.job.traffic.way_round
        if given is None or not self.job.traffic.walk_closed:
            return None
        return Way(self._strip_of(given.where.lower()), given.where)

    def _strip_of(self, words: str) -> str:
        """Return the strip that a way round in words speaks of."""
        if any(word in words for word in ("other side", "opposite", "across the street")):
            return FAR_WALK
        if any(word in words for word in ("lawn", "on the lot", "behind the walk", "garden")):
            return LOT
        if "verge" in words and VERGE in self.strips:
            return VERGE
        return PARKING if PARKING in self.strips else self.lanes_name

    @property
    def lanes_name(self) -> str:
        """Return the name of the nearest lane."""
        return f"{LANE} 1"


def scene_of(job: Job, study: Study, room: Box) -> Scene:
    """Return the street laid out from the top of a room, its strips wider where paper is large."""
    strips: dict[str, Box] = {}
    top = room.top
    grown = min(max(room.height / _USUAL_MM, 1.0), _MOST_GROWN)
    for name, tall in _strips(job):
        strips[name] = Box(room.left, top - grown * tall, room.right, top)
        top = strips[name].bottom
    work, taper = (
        (room.left + low * room.width, room.left + high * room.width)
        for low, high in (_WORK, _TAPER)
    )
    return Scene(job, study, figures_of(job), strips, work, taper)


def _strips(job: Job) -> Iterator[tuple[str, float]]:
    """Yield the strips from the lot to the far side, with their heights."""
    parking = job.street.parking
    yield LOT, _TALL_MM[LOT]
    yield WALK, _TALL_MM[WALK]
    if job.verge.width.si > 0:
        yield VERGE, _TALL_MM[VERGE]
    if parking in {"both sides", "this side"} or job.traffic.lane_taken in {
        "parking lane",
        "shoulder",
    }:
        yield PARKING, _TALL_MM[PARKING]
    lane = min(_WIDEST_LANE_MM, _LANES_MM / job.street.lanes)
    for number in range(1, job.street.lanes + 1):
        yield f"{LANE} {number}", lane
    if parking in {"both sides", "far side"}:
        yield FAR_PARKING, _TALL_MM[FAR_PARKING]
    yield FAR_WALK, _TALL_MM[FAR_WALK]
