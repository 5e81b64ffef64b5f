"""What is there before the work: the lot, the street, the curb and gutter, the verge and walk."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from permitkit.model.frozen import Area, Day, Flow, Frozen, Length, Level, Name, Slope, Speed, Text
from permitkit.model.words import (
    CurbShape,
    FeatureKind,
    StreetClass,
    Surface,
    UtilityKind,
    YesNoUnknown,
)

__all__ = [
    "Curb",
    "ExistingHole",
    "Feature",
    "GroundPoint",
    "Gutter",
    "House",
    "LevelBook",
    "LevelSetup",
    "Locate",
    "Site",
    "Street",
    "Utility",
    "Verge",
    "Walk",
]


def _as_tuple(value: object) -> object:
    return value if isinstance(value, (list, tuple)) else (value,)


class House(Frozen):
    """The house outline on the plan.

    `front_offset` is the street wall's distance from the curb face; `left` and `right` are the
    stations of its two ends; `depth` goes away from the street.
    """

    front_offset: Length
    left: Length
    right: Length
    depth: Length | None = None


class Site(Frozen):
    """The lot.

    Stations run along the curb face from the left side line, seen from the street; offsets, the
    right-of-way line's among them, run from the curb face towards the house.
    """

    address: Name
    parcel: Name | None = None
    owner: Name
    owner_phone: Name | None = None
    frontage: Length
    row_line_offset: Length
    row_line_basis: Literal["survey", "plat", "scaled", "assumed"] = "assumed"
    north: Literal["up", "down", "left", "right"] = "up"
    cross_street: Name | None = None
    cross_street_distance: Length | None = None
    cross_street_side: Literal["left", "right"] | None = None
    house: House | None = None
    soil: Name | None = None
    soil_soak_rate: Annotated[Name | None, Field(description="inches an hour, as tested")] = None
    storm_main_distance: Length | None = None
    zone: Name | None = None
    building_use: (
        Literal["house", "multi-family", "commercial", "industrial", "detached garage"] | None
    ) = None
    paved_area: Area | None = None


class Street(Frozen):
    """The street in front, and whose it is.

    `between` names the cross streets at the two ends of the block.
    """

    name: Name
    between: Annotated[tuple[Name, ...], Field(max_length=2)] = ()
    street_class: StreetClass = "local"
    authority: Name = "town"
    speed: Speed
    width: Length
    lanes: int = Field(default=2, ge=1, le=8)
    parking: Literal["both sides", "this side", "far side", "none"]
    parking_width: Length | None = None
    last_paved: Day | None = None
    pavement_surface: (
        Literal["asphalt", "concrete", "brick", "gravel", "surface treated"] | None
    ) = None
    pavement_rating: int | None = Field(default=None, ge=0, le=100)
    grade: Slope | None = None
    gutter_flows: Literal["left", "right"] | None = None


class LevelSetup(Frozen):
    """One set-up of the level: the backsight that gives its height, and a closing shot.

    `on` and `closing_on` name the benchmark or a turning point of another set-up; the closing
    shot is taken on `on` again where it is not said. `foresight` is the reading on the turning
    point that the next set-up looks back to.
    """

    name: Name
    on: Name = "benchmark"
    backsight: Length
    closing: Length | None = None
    closing_on: Name | None = None
    foresight: Length | None = None
    turning_point: Name | None = None


class LevelBook(Frozen):
    """How the levels were taken."""

    benchmark: Name
    benchmark_level: Level
    error: Length | None = None
    setup: tuple[LevelSetup, ...] = ()


class Curb(Frozen):
    """The curb at the outlet.

    Reveal is curb top above the gutter flow line, one or three readings, the first at the outlet.
    A rolled curb's `roll_width` runs from flow line to back; one that rolls all the way has the
    same `top_width`.
    """

    shape: CurbShape
    reveal: Annotated[tuple[Length, ...], BeforeValidator(_as_tuple), Field(max_length=3)]
    top_width: Length
    roll_width: Length | None = None
    batter: Slope | None = None
    radius: Length | None = None
    base_depth: Length | None = None
    joint_left: Length | None = None
    joint_right: Length | None = None
    joint_spacing: Length | None = None
    condition: Literal["sound", "cracked", "spalled", "unknown"] = "unknown"
    bars_looked_for: YesNoUnknown = "unknown"


class Gutter(Frozen):
    """The gutter at the outlet; `flow_line` is the level of the gutter flow line there.

    `flow` is what already runs along it in the design storm, where somebody has worked that out;
    `cross_slope` is that of the pavement beyond the pan.
    """

    kind: Literal["catch", "spill", "none"]
    flow_line: Level
    pan_width: Length | None = None
    pan_slope: Slope | None = None
    overlay_lip: Length | None = None
    depth_running: Length | None = None
    flow: Flow | None = None
    cross_slope: Slope | None = None


class Verge(Frozen):
    """The strip between curb and walk; width 0 where the walk stands at the curb."""

    width: Length
    surface: Surface = "verge"
    level_curb_side: Level | None = None


class Walk(Frozen):
    """The public walk at the crossing.

    `joint_left_of_run` is the distance from the run's centre line to the nearest joint on its
    left, seen from the street; `thickness` is that of the slab there now.
    """

    width: Length
    panel_length: Length
    joint_left_of_run: Length
    surface: Literal["concrete", "asphalt", "brick", "stone"] = "concrete"
    thickness: Length | None = None
    use: Literal["plain", "driveway", "ramp"] = "plain"
    cross_slope: Slope
    cross_slope_left: Slope | None = None
    cross_slope_right: Slope | None = None
    running_slope: Slope | None = None
    level_curb_side: Level
    level_house_side: Level


class Feature(Frozen):
    """A lasting thing along the curb.

    `near` and `far` are the stations of its outer edges at the curb face (a point has one): for a
    drive or a ramp the ends of its flares, each `flare` wide. `offset` is from the curb face.
    """

    kind: FeatureKind
    name: Name | None = None
    near: Length
    far: Length | None = None
    offset: Length | None = None
    flare: Length | None = None
    trunk: Length | None = None
    drip_line: Length | None = None
    species: Name | None = None
    owner: Literal["town", "lot", "neighbour"] = "town"


class ExistingHole(Frozen):
    """A hole already in this frontage's curb."""

    station: Length
    size: Length
    plan: Literal["keep", "reuse", "plug"]
    in_use: bool = True


class Utility(Frozen):
    """A buried line the run crosses or nears; `at` is along the run from the curb face."""

    kind: UtilityKind
    at: Length
    depth: Length | None = None
    marked: YesNoUnknown = "unknown"
    along: Literal["street", "run"] = "street"
    note: Text | None = None


class Locate(Frozen):
    """The utility-locate ticket, and the day and hour of the call, such as "15:40"."""

    ticket: Name | None = None
    called: Day | None = None
    called_at: Name | None = None


class GroundPoint(Frozen):
    """Ground level at a distance along the run from the curb face.

    `surface` is what begins there, going towards the house.
    """

    at: Length
    level: Level
    surface: Surface | None = None
