"""The drain: nodes, reaches, inflows, the rain, and the outlet proposed."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from permitkit.model.frozen import (
    Angle,
    Area,
    Day,
    Flow,
    Frozen,
    Intensity,
    Length,
    Level,
    Name,
    Percent,
    Slope,
    Text,
)
from permitkit.model.words import InflowKind, OutletKind, RunoffSurface, Surface, YesNoUnknown

__all__ = [
    "OUTLET",
    "VERGE",
    "Drain",
    "Emitter",
    "Inflow",
    "Node",
    "Outlet",
    "PassedOver",
    "Pump",
    "Rain",
    "Reach",
    "VergePool",
]

OUTLET = "outlet"
VERGE = "verge"


def _as_tuple(value: object) -> object:
    return value if isinstance(value, (list, tuple)) else (value,)


class Node(Frozen):
    """A point of the drain. `opening` is the lowest place water can get out there."""

    name: Name
    ground: Level
    invert: Level
    opening: Level | None = None
    opening_kind: Name | None = None
    sealed: bool = False
    cleanout: bool = False
    station: Length | None = None
    offset: Length | None = None


class Reach(Frozen):
    """A length of pipe from an upper node to a lower one (`outlet` is the curb).

    `house_distance` is how near the building it comes.
    """

    upper: Name
    lower: Name
    length: Length
    pipe: Name
    barrels: int = Field(default=1, ge=1, le=2)
    bends: tuple[Angle, ...] = ()
    surface: Surface = "lawn"
    slope_stated: Slope | None = None
    joints: Literal["tight", "loose", "unknown"] = "tight"
    house_distance: Length | None = None


class Pump(Frozen):
    """A sump pump: its rate at the lift it works against is never assumed."""

    rate: Flow
    lift: Length
    air_gap: YesNoUnknown = "unknown"
    check_valve: YesNoUnknown = "unknown"
    months: tuple[Annotated[int, Field(ge=1, le=12)], ...] = tuple(range(1, 13))
    winter_route: Text | None = None


class Inflow(Frozen):
    """Water entering at a node: a roof or ground area in rain, or a pump.

    Of the rain a share runs off: `runoff`, or what a table gives for `surface`; all of it where
    neither is stated. `leader` is the bore of a round leader, or with `leader_depth` the width of
    a rectangular one; `leaders` share the area.
    """

    name: Name
    node: Name
    kind: InflowKind
    area: Area | None = None
    wall_area: Area | None = None
    runoff: Percent | None = None
    runoff_source: Text | None = None
    surface: RunoffSurface | None = None
    leader: Length | None = None
    leader_depth: Length | None = None
    leaders: int = Field(default=1, ge=1, le=12)
    pump: Pump | None = None


class Rain(Frozen):
    """The design rain and its basis; from the job only where the town's sheet is silent.

    `table` names a file of intensities beside the job, read at the period and the duration.
    """

    intensity: Intensity | None = None
    period: Name | None = None
    duration: Name | None = None
    source: Text | None = None
    table: Name | None = None


class PassedOver(Frozen):
    """An earlier choice in the town's order, and why it does not work here."""

    way: Name
    because: Text


class Emitter(Frozen):
    """An outlet in the lawn: its lid, weep hole and pit, and where it stands."""

    rim: Level
    lid_loss: Literal["open", "pop-up lid", "grate"] = "pop-up lid"
    rise: Length | None = None
    weep: Length | None = None
    pit_length: Length | None = None
    pit_width: Length | None = None
    pit_depth: Length | None = None
    pit_voids: Percent | None = None
    to_row: Length
    to_side_line: Length
    to_walk: Length
    to_house: Length
    falls_to: Literal["street", "house", "side", "rear"] = "street"
    ground_slope: Slope | None = None
    crosses_walk: bool = False
    yard: Literal["front", "side", "rear"] | None = None


class Outlet(Frozen):
    """How the water is let go. Heights are above the gutter flow line; give exactly one of them.

    `fittings` names those of the line in the town's words; left out, they are not known.
    `other_way` says whether the water has another acceptable outlet, `harm` whether it ices the
    walk or harms a neighbour; what is left out is not known.
    """

    kind: OutletKind
    station: Length
    count: int = Field(default=1, ge=1, le=6)
    spacing: Length | None = None
    pipe: Name | None = None
    bit: Length | None = None
    hole_bottom: Length | None = None
    invert: Length | None = None
    centre_below_top: Length | None = None
    drill_from: Literal["behind", "street"] = "behind"
    barrel_out: Length | None = None
    width: Length | None = None
    floor_toe: Length | None = None
    floor_slope: Slope | None = None
    taper: Length | None = None
    edge_radius: Length | None = None
    plate_gap: Length | None = None
    at_drive: bool = False
    emitter: Emitter | None = None
    tie_line: Length | None = None
    tie_line_from: Name | None = None
    tie_object: Length | None = None
    tie_object_from: Name | None = None
    passed_over: tuple[PassedOver, ...] = ()
    plate: Text | None = None
    maintained_by: Name | None = None
    fittings: tuple[Name, ...] | None = None
    built_before: Day | None = None
    other_way: bool | None = None
    harm: bool | None = None


class VergePool(Frozen):
    """Water trapped between walk and curb, let out by notches with no pipe.

    `length` is the stretch of verge along the curb whose water gathers, `low` the lowest ground in
    it, and `spill` where the water would go over: the walk's curb side where it is not given.
    """

    length: Length
    low: Level
    spill: Level | None = None


class Drain(Frozen):
    """The run as a tree of nodes and reaches, and the water that enters it.

    A job without a pipe has a `verge` in place of nodes and reaches.
    """

    node: Annotated[tuple[Node, ...], BeforeValidator(_as_tuple)] = ()
    reach: Annotated[tuple[Reach, ...], BeforeValidator(_as_tuple)] = ()
    inflow: Annotated[tuple[Inflow, ...], BeforeValidator(_as_tuple)] = ()
    verge: VergePool | None = None
