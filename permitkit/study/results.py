"""What the study computes: frozen results in SI floats, named for what they are.

Levels are metres above the job's datum; heights at the curb are metres above the gutter flow line.
Every consumer (checks, drawings, packet) reads these and computes nothing again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from permitkit.geometry.panels import Panel
from permitkit.geometry.section_walk import LaidPipe, SlabAt
from permitkit.hydraulics.materials import Pipe
from permitkit.study.dates_and_money import (
    CalendarStudy,
    DatedStep,
    FeeRow,
    FeesStudy,
    MoneyTotal,
)
from permitkit.study.water.hollow import VergeStudy
from permitkit.study.water.street import StreetStudy

__all__ = [
    "WATERS",
    "Bound",
    "CalendarStudy",
    "CoverPoint",
    "CurbStudy",
    "CutStudy",
    "DatedStep",
    "EmitterStudy",
    "FallBudget",
    "FeeRow",
    "FeesStudy",
    "HoleStudy",
    "InflowWater",
    "MoneyTotal",
    "NodeWater",
    "NotchStudy",
    "Panel",
    "RainBasis",
    "ReachWater",
    "SlabAt",
    "Standing",
    "StreetStudy",
    "Study",
    "TrafficStudy",
    "VergeStudy",
    "WaterStudy",
    "Window",
]

WATERS = ("free", "running", "curb-full")


@dataclass(frozen=True, slots=True)
class RainBasis:
    """The design rain, and where it comes from; `missing` names what the basis lacks."""

    intensity_ms: float | None
    period: str
    duration: str
    source: str
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class InflowWater:
    """One inflow's share: rain on its area, and its pump at full rate.

    `leader_m3s` is what its leaders take and `leader_m2` their inside area, where they are
    measured; `pump_roof_m2` the roof that would send as much as the pump in the design rain.
    """

    name: str
    node: str
    kind: str
    area_m2: float
    runoff: float
    storm_m3s: float
    pump_m3s: float
    runoff_source: str = ""
    leader_m3s: float | None = None
    leader_m2: float | None = None
    pump_roof_m2: float | None = None

    @property
    def flow_m3s(self) -> float:
        """Both together."""
        return self.storm_m3s + self.pump_m3s


@dataclass(frozen=True, slots=True)
class ReachWater:
    """One reach: geometry, capacity, and the design flow in it.

    Flows and capacities are of all barrels together. `normal_depth_m` is None, and `surcharged`
    true, where the flow is over the full-bore capacity or the reach does not fall; `pressurised`
    tells of a pipe full from end to end with the gutter running, for whatever reason.
    `fullness` is normal depth over bore height. Stations are along the run from the curb
    face (or the emitter) upstream: `station_low_m` is the lower end.
    """

    name: str
    upper: str
    lower: str
    pipe: Pipe
    barrels: int
    length_m: float
    station_low_m: float
    station_high_m: float
    upper_invert_m: float
    lower_invert_m: float
    slope: float
    flow_m3s: float
    full_flow_m3s: float
    full_velocity_ms: float
    normal_depth_m: float | None
    critical_depth_m: float
    velocity_ms: float
    fullness: float | None
    surcharged: bool
    places: tuple[str, ...]
    surfaces: tuple[str, ...]
    grade_low_m: float
    grade_high_m: float
    bends_deg: tuple[float, ...] = ()
    pressurised: bool = False

    @property
    def laid(self) -> LaidPipe:
        """Where its pipe lies, by station and level."""
        return LaidPipe(
            self.station_low_m,
            self.station_high_m,
            self.lower_invert_m,
            self.upper_invert_m,
            self.pipe.wall_m,
            self.pipe.outside_height_m,
        )


@dataclass(frozen=True, slots=True)
class NodeWater:
    """One node: its levels, and the water there for the three gutter waters, still and flowing.

    `opening_m` is None where the node is sealed or cannot spill.
    """

    name: str
    station_m: float
    ground_m: float
    invert_m: float
    opening_m: float | None
    opening_kind: str
    flow_m3s: float
    flowing_m: Mapping[str, float]
    still_m: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Standing:
    """Water left in the line after rain: where, how deep at most, over what length, how much."""

    where: str
    level_m: float
    depth_m: float
    length_m: float
    volume_m3: float
    station_low_m: float
    station_high_m: float


@dataclass(frozen=True, slots=True)
class FallBudget:
    """Where the fall goes: what there is, what each reach needs, what is spare (under 0: short)."""

    start_level_m: float
    outlet_level_m: float
    available_m: float
    needs_m: tuple[tuple[str, float], ...]
    spare_m: float


@dataclass(frozen=True, slots=True)
class EmitterStudy:
    """An outlet in the lawn: head over the rim, water held, time to empty, what the pit takes."""

    head_open_m: float
    head_lid_m: float
    water_level_m: float
    held_m3: float
    pit_holds_m3: float | None
    weep_empties_s: float | None


@dataclass(frozen=True, slots=True)
class WaterStudy:
    """The water side in full; grade levels in `reaches` are for the running gutter with flow."""

    rain: RainBasis
    inflows: tuple[InflowWater, ...]
    reaches: tuple[ReachWater, ...]
    nodes: tuple[NodeWater, ...]
    standing: tuple[Standing, ...]
    total_m3s: float
    outlet_flow_m3s: float
    gutter_levels_m: Mapping[str, float]
    fall: FallBudget
    emitter: EmitterStudy | None = None
    street: StreetStudy | None = None
    verge: VergeStudy | None = None


@dataclass(frozen=True, slots=True)
class Bound:
    """One limit on the height of the hole bottom above the flow line, and why."""

    height_m: float
    name: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class Window:
    """The hole-bottom heights that satisfy every rule and fact at once; empty when low > high.

    `advice_lows` and `advice_highs` are heights that good practice would keep; they bound nothing.
    """

    lows: tuple[Bound, ...]
    highs: tuple[Bound, ...]
    low: Bound
    high: Bound
    advice_lows: tuple[Bound, ...] = ()
    advice_highs: tuple[Bound, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether no height satisfies everything."""
        return self.low.height_m > self.high.height_m + 1e-9


@dataclass(frozen=True, slots=True)
class HoleStudy:
    """A core in the curb. Heights are above the flow line.

    `bit_barred` tells that the curb has room for the hole, and the town takes none of its width.
    """

    bit_m: float
    pipe_outside_m: float
    bore_m: float
    bottom_m: float
    invert_m: float
    crown_m: float
    top_m: float
    strip_m: float
    gap_m: float
    centre_below_top_m: float
    grout_m3: float
    count: int
    spacing_m: float | None
    clear_between_m: float | None
    barrel_least_bottom_m: float
    window: Window
    fitting_bits_m: tuple[float, ...]
    largest_bit_m: float | None
    bit_barred: bool


@dataclass(frozen=True, slots=True)
class NotchStudy:
    """A notch sawn in a rolled curb. Heights are above the flow line."""

    width_m: float
    floor_toe_m: float
    floor_back_m: float
    floor_slope: float
    depth_back_m: float
    taper_m: float
    core_would_break: bool


@dataclass(frozen=True, slots=True)
class CurbStudy:
    """The curb at the outlet, and the distances along it (from the outlet; None: not there).

    `near_m` maps a feature's kind to the clear distance from the hole or notch edge to it.
    `stations_m` and `joints_m` are where the openings and the curb's measured joints lie.
    `reveal_m` is the least reading; the setting-out number is from `reveal_at_hole_m`.
    """

    shape: str
    reveal_m: float
    flow_line_m: float
    curb_top_m: float
    width_m: float
    half_opening_m: float
    stations_m: tuple[float, ...]
    joints_m: tuple[float, ...]
    edge_to_joint_m: float | None
    edge_to_side_line_m: float
    near_m: Mapping[str, float]
    hole: HoleStudy | None = None
    notch: NotchStudy | None = None
    reveal_at_hole_m: float = 0.0


@dataclass(frozen=True, slots=True)
class CoverPoint:
    """Earth over the pipe at one station of the run."""

    where: str
    surface: str
    station_m: float
    ground_m: float
    pipe_top_m: float
    cover_m: float
    in_right_of_way: bool


@dataclass(frozen=True, slots=True)
class CutStudy:
    """The walk cut and the trench.

    `across_m` is how much of the walk's width is taken out. What is due, `due_left_m` to
    `due_right_m`, is what the town's rule and the job together take out; fees are counted on it.
    """

    panels: tuple[Panel, ...]
    removed_left_m: float
    removed_right_m: float
    remnant_left_m: float
    remnant_right_m: float
    panels_part_cut: int
    across_m: float
    walk_area_m2: float
    due_area_m2: float
    saw_length_m: float
    concrete_m3: float
    base_m3: float
    debris_kg: float
    trench_m: float
    trench_area_m2: float
    slab: tuple[SlabAt, ...]
    cover: tuple[CoverPoint, ...]
    thickness_m: float
    neighbour_slope_needed: float | None = None
    due_left_m: float = 0.0
    due_right_m: float = 0.0


@dataclass(frozen=True, slots=True)
class TrafficStudy:
    """What is left open and what the books ask for."""

    taper_need_m: float | None
    device_spacing_m: float | None
    buffer_m: float | None
    sign_spacing_m: float | None
    lane_left_m: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Study:
    """Everything computed from job and rules before anything is judged."""

    water: WaterStudy
    curb: CurbStudy | None
    cut: CutStudy
    traffic: TrafficStudy
    calendar: CalendarStudy
    fees: FeesStudy
