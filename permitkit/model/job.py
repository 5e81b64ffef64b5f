"""The job: what is proposed at one address, as measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from permitkit.model.drain import Drain, Outlet, Rain
from permitkit.model.frozen import Day, Frozen, Name
from permitkit.model.papers import Answer, Firm, Papers, Payment, Round, WaiverAsked
from permitkit.model.site import (
    Curb,
    ExistingHole,
    Feature,
    GroundPoint,
    Gutter,
    LevelBook,
    Locate,
    Site,
    Street,
    Utility,
    Verge,
    Walk,
)
from permitkit.model.words import DrawingPaper
from permitkit.model.work import Counts, Cut, Dates, Restoration, Traffic
from permitkit.units import Measure

__all__ = ["Assumption", "Job"]


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value nobody measured: the field it fills, its basis, and how low and high it might be."""

    field: str
    value: Measure
    low: Measure
    high: Measure
    note: str


class Job(Frozen):
    """One job file, with every default filled in and told in `assumed`."""

    schema_: Literal[1] = Field(alias="schema")
    town: Name
    filing: Day
    filed_at: Name | None = None
    revision: Name = "A"
    units: Literal["us", "metric"] = "us"
    paper: DrawingPaper | None = None
    site: Site
    street: Street
    level: LevelBook
    curb: Curb
    gutter: Gutter
    verge: Verge
    walk: Walk
    feature: tuple[Feature, ...] = ()
    nothing_else_within: Name | None = None
    existing: tuple[ExistingHole, ...] = ()
    utility: tuple[Utility, ...] = ()
    locate: Locate = Locate()
    ground: tuple[GroundPoint, ...] = ()
    drain: Drain
    rain: Rain = Rain()
    outlet: Outlet
    cut: Cut
    counts: Counts = Counts()
    restoration: Restoration
    traffic: Traffic
    dates: Dates
    papers: Papers = Papers()
    firm: Firm | None = None
    answer: tuple[Answer, ...] = ()
    waiver: tuple[WaiverAsked, ...] = ()
    payment: tuple[Payment, ...] = ()
    round: tuple[Round, ...] = ()
    assumed: tuple[Assumption, ...] = ()
