"""What is to be done: the cut, the restoration, people and traffic, the dates."""

from __future__ import annotations

from datetime import time
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from permitkit.model.frozen import (
    Area,
    Day,
    Frozen,
    Length,
    Money,
    Name,
    Number,
    Percent,
    Slope,
    Strength,
    Text,
)
from permitkit.model.words import Crossing, SlabAtPipe, YesNoUnknown

if TYPE_CHECKING:
    from collections.abc import Mapping
    from decimal import Decimal

    from permitkit.units import Measure

__all__ = ["Counted", "Counts", "Cut", "Dates", "Restoration", "Traffic", "WayRound"]


class Cut(Frozen):
    """The opening in the walk, its panels and the trench in the right-of-way.

    `curb_by` says who cuts or cores the curb, where it is not the permit holder.

    `length` lies along the run, `width` along the walk, of which `left_of_run` is left of the
    run's centre line; `trench_length` is what is opened in the right-of-way, a sawn curb with it.
    """

    crossing: Crossing = "cut"
    length: Length | None = None
    width: Length | None = None
    left_of_run: Length | None = None
    removal: Literal["whole panels", "part panel"] = "whole panels"
    saw_depth: Length | None = None
    trench_length: Length | None = None
    trench_width: Length | None = None
    trench_depth: Length | None = None
    curb_removed: Length | None = None
    pavement_cut: Length | None = None
    touches_ramp: bool = False
    slab_at_pipe: SlabAtPipe = "plain"
    cost: Money | None = None
    begun: bool = False
    curb_by: Literal["contractor", "licensed plumber", "owner", "town"] | None = None
    trench_runs: Literal["across the walk", "along the walk", "diagonally"] | None = None


class Counted(Frozen):
    """How many there are of what a town counts its money by in words of its own."""

    per: Name
    number: Number


class Counts(Frozen):
    """What a town counts its money by and no other field of the job tells.

    What can be told from the cut, the street and the dates is told from them where it is left out.
    """

    blocks: Number | None = None
    locations: Number | None = None
    openings: Number | None = None
    surfaces_opened: Number | None = None
    street_crossings: Number | None = None
    sheets: Number | None = None
    copies: Number | None = None
    weeks: Number | None = None
    months: Number | None = None
    hours: Number | None = None
    hours_of_review: Number | None = None
    hours_of_inspection: Number | None = None
    hours_of_work: Number | None = None
    length_of_pavement: Length | None = None
    length_of_opening: Length | None = None
    area_of_street: Area | None = None
    other: tuple[Counted, ...] = ()

    @property
    def given(self) -> Mapping[str, Measure | Decimal]:
        """What is stated, by the plural that money calls it by."""
        named = (name for name in type(self).model_fields if name != "other")
        stated = ((name.replace("_", " "), getattr(self, name)) for name in named)
        return {name: value for name, value in stated if value is not None}


class Restoration(Frozen):
    """How everything is put back, and by whom."""

    by: Literal["applicant", "town"] = "applicant"
    thickness: Length | None = None
    base: Length | None = None
    base_material: Name | None = None
    strength: Strength | None = None
    strength_days: int | None = Field(default=None, ge=1, le=90)
    finish: Text | None = None
    matches: bool = True
    score_pattern: Text | None = None
    cross_slope: Slope | None = None
    running_slope: Slope | None = None
    lip: Length | None = None
    lip_bevelled: bool = False
    joint: Text | None = None
    dowels: bool = False
    grout: Name | None = None
    backfill: Text | None = None
    lift: Length | None = None
    density: Percent | None = None
    soil: Text | None = None
    seed: Text | None = None
    hours_to_feet: int | None = Field(default=None, ge=0)
    days_to_wheels: int | None = Field(default=None, ge=0)


class WayRound(Frozen):
    """The temporary way for people on foot."""

    where: Text
    width: Length
    detectable: bool
    ramps: bool = True
    signs_ahead: bool = True


class Traffic(Frozen):
    """What is closed, for how long, and what is left open.

    `pause` is when nobody works between `hours_from` and `hours_to`, such as "11:00-13:00".
    """

    walk_closed: bool
    walk_closed_days: int = Field(default=0, ge=0, le=90)
    way_round: WayRound | None = None
    lane_taken: Literal["none", "parking lane", "travel lane", "shoulder"] = "none"
    width_taken: Length | None = None
    lane_left: Length | None = None
    taper: Length | None = None
    layout: Name | None = None
    set_by: Name | None = None
    hours_from: Name | None = None
    hours_to: Name | None = None
    pause: Name | None = None
    overnight: Text | None = None
    drive_blocked: YesNoUnknown = "no"
    neighbours_told: bool = False
    bus_stop_in_zone: bool = False
    bin_day: Name | None = None

    @property
    def spells(self) -> tuple[tuple[time, time], ...]:
        """From when to when there is work on each day; nothing where the job does not say."""
        if not self.hours_from or not self.hours_to:
            return ()
        begin, end = time.fromisoformat(self.hours_from), time.fromisoformat(self.hours_to)
        if self.pause is None:
            return ((begin, end),)
        rest = [time.fromisoformat(hour) for hour in self.pause.split("-")]
        return ((begin, rest[0]), (rest[1], end))

    @property
    def hours(self) -> str:
        """The hours of work as printed; empty where the job does not say."""
        return " and ".join(f"{first:%H:%M} to {last:%H:%M}" for first, last in self.spells)


class Dates(Frozen):
    """The dates of the work, and the day on which a building permit it belongs to runs out.

    `emergency` is the day an emergency began, where the work is one; `restored` the day on which
    walk, curb and pavement are back for good, where that is not the finish.
    """

    start: Day
    finish: Day
    building_permit_until: Day | None = None
    emergency: Day | None = None
    restored: Day | None = None
    issue_expected: Day | None = None
    concrete: Day | None = None
    inspections: tuple[Name, ...] = ()
