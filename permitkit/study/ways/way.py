"""One way of letting the water go, as computed."""

from __future__ import annotations

from dataclasses import dataclass

from permitkit.model.job import Job
from permitkit.study.results import WaterStudy

__all__ = ["DryWell", "Found", "NotHere", "Stance", "Way"]


class NotHere(Exception):  # noqa: N818 - a reason, not an error
    """A way that cannot be built here; its text says why."""


@dataclass(frozen=True, slots=True)
class Stance:
    """What the town says of a way: allowed, barred, ask or not said; and where it says so."""

    word: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class DryWell:
    """What a pit on the lot would have to take.

    Parameters
    ----------
    floor_m2
        Floor of pit that keeps pace with the design flow. [m2]
    storm_m3
        What one design storm brings, its pumps running; None where its duration is not told. [m3]
    """

    floor_m2: float
    storm_m3: float | None


@dataclass(frozen=True, slots=True)
class Found:
    """What the run does when the water is let go one way.

    Parameters
    ----------
    fall_m, spare_m
        Fall from the farthest node to the outlet; what is left of it over the town's least slopes,
        below zero where it is short. [m]
    house, house_m
        The farthest node, and the water level there with the gutter running. [m]
    freeboard_m, freeboard_at
        The least height from any water to an opening, and where; None where no node is open. [m]
    fullness
        Of the fullest pipe, depth over height; 1 where one runs full. [-]
    standing_m3, standing_m
        Water left in the line after rain, and how deep it stands. [m3, m]
    overloaded
        Whether a reach does not carry its flow, or does not fall.
    drowned
        Whether water stands over the crown at the lower end of the line.
    rise_m
        How far the water must rise again to an emitter's rim; zero at a curb. [m]
    """

    fall_m: float
    spare_m: float
    house: str
    house_m: float
    freeboard_m: float | None
    freeboard_at: str
    fullness: float
    standing_m3: float
    standing_m: float
    overloaded: bool
    drowned: bool = False
    rise_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Way:
    """One way of letting the water go.

    Parameters
    ----------
    name, kind
        As it is called, and the kind of outlet it is in a job.
    proposed
        Whether it is what the job proposes.
    stance
        What the town says of it.
    reason
        Why it cannot be built here; empty where it can.
    goes, hazards
        Where the water goes then, and what ice or water may do there.
    job, water, found
        The job with this outlet in place of its own, and what was computed of it.
    pit
        Of a dry well, what it would have to take.
    """

    name: str
    kind: str
    proposed: bool
    stance: Stance
    reason: str = ""
    goes: str = ""
    hazards: tuple[str, ...] = ()
    job: Job | None = None
    water: WaterStudy | None = None
    found: Found | None = None
    pit: DryWell | None = None

    @property
    def applies(self) -> bool:
        """Whether it can be built here at all."""
        return not self.reason
