"""A job with no pipe: water trapped in the verge, let out by notches at the joints of the curb."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from permitkit.hydraulics.tree import Node, Tree
from permitkit.model.drain import OUTLET, VERGE
from permitkit.model.keys.run import WATER_FREEBOARD
from permitkit.study.results import WATERS, FallBudget, NodeWater, Standing, WaterStudy
from permitkit.study.water.ground import lay_ground
from permitkit.study.water.hollow import Hollow, Sawn, VergeStudy
from permitkit.study.water.levels import gutter_levels
from permitkit.study.water.line import Line

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.drain import VergePool
    from permitkit.model.job import Job
    from permitkit.study.curb import CurbHeights
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import InflowWater, RainBasis
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.street import StreetStudy

__all__ = ["study_verge"]

FREE, RUNNING = WATERS[:2]
MOST_NOTCHES = 60
SHALLOW_M = 1e-6


def study_verge(
    job: Job,
    rules: RulesInForce,
    pool: VergePool,
    rain: RainBasis,
    inflows: tuple[InflowWater, ...],
    heights: CurbHeights,
    street: StreetStudy | None,
) -> tuple[WaterStudy, Line, Ground]:
    """Return the water side of a verge that notches drain, with a line of no pipe and its ground.

    Parameters
    ----------
    job, rules
        The job and the rules in force.
    pool
        The hollow as the job measures it.
    rain, inflows, heights, street
        What was computed before of rain, inflows, curb and gutter.

    Notes
    -----
    The hollow is one node, named `verge`: its opening is where water would go over the walk. It
    empties through every notch alike; what stands below the notch floors stays.
    """
    sawn, hollow = _sawn(job, heights), _hollow(job, pool)
    flow = sum(inflow.flow_m3s for inflow in inflows)
    gutter = gutter_levels(job, rules, heights, street)
    line = _bare_line(sawn, heights)
    brim = min(hollow.spill_m, heights.top_m)
    most = min(brim, hollow.spill_m - float(rules[WATER_FREEBOARD].least or 0))
    count, toe = job.outlet.count, heights.flow_line_m + float(job.outlet.floor_toe or 0)
    study = WaterStudy(
        rain=rain,
        inflows=inflows,
        reaches=(),
        nodes=(
            _outlet(sawn, heights, flow, gutter),
            _node(hollow, sawn, heights, flow, count, gutter),
        ),
        standing=_standing(hollow, sawn, heights),
        total_m3s=flow,
        outlet_flow_m3s=flow,
        gutter_levels_m=gutter,
        fall=FallBudget(hollow.low_m, toe, hollow.low_m - toe, (), hollow.low_m - sawn.floor_m),
        street=street,
        verge=VergeStudy(
            hollow=hollow,
            sawn=sawn,
            count=count,
            needed=_needed(sawn, flow, most, gutter[RUNNING]),
            brim_m=brim,
            flow_m3s=flow,
            passes_m3s=count * sawn.passes_m3s(brim),
        ),
    )
    return study, line, lay_ground(job, heights, line)


def _sawn(job: Job, heights: CurbHeights) -> Sawn:
    """Return one notch as the water meets it."""
    outlet = job.outlet
    back = float(outlet.floor_toe or 0) + float(outlet.floor_slope or 0) * heights.depth_m
    depth = max(heights.reveal_m - back, SHALLOW_M)
    floor = heights.flow_line_m + back
    return Sawn(float(outlet.width or 0), float(outlet.taper or 0) / depth, floor)


def _hollow(job: Job, pool: VergePool) -> Hollow:
    """Return the hollow; where nobody measured it, it spills over the walk's curb side."""
    spill = job.walk.level_curb_side if pool.spill is None else pool.spill
    return Hollow(float(pool.low), float(spill), float(pool.length), float(job.verge.width))


def _bare_line(sawn: Sawn, heights: CurbHeights) -> Line:
    """Return a run of nothing but its outlet, at the back of the curb."""
    tree = Tree((Node(OUTLET, sawn.floor_m, heights.top_m),), (), OUTLET)
    return Line(tree, {}, {}, {OUTLET: heights.depth_m}, (OUTLET,))


def _outlet(
    sawn: Sawn, heights: CurbHeights, flow_m3s: float, gutter_m: Mapping[str, float]
) -> NodeWater:
    """Return the notch floor as the node that water leaves by."""
    levels = {name: max(sawn.floor_m, level) for name, level in gutter_m.items()}
    ground, station = heights.top_m, heights.depth_m
    return NodeWater(OUTLET, station, ground, sawn.floor_m, None, "", flow_m3s, levels, levels)


def _node(
    hollow: Hollow,
    sawn: Sawn,
    heights: CurbHeights,
    flow_m3s: float,
    count: int,
    gutter_m: Mapping[str, float],
) -> NodeWater:
    """Return the hollow as a node: how high water stands in it, with the storm and after."""
    gutters = {name: None if name == FREE else level for name, level in gutter_m.items()}
    flowing = {name: sawn.level_m(flow_m3s / count, at) for name, at in gutters.items()}
    still = {name: sawn.level_m(0.0, at) for name, at in gutters.items()}
    return NodeWater(
        name=VERGE,
        station_m=heights.depth_m + hollow.width_m / 2.0,
        ground_m=hollow.low_m,
        invert_m=hollow.low_m,
        opening_m=hollow.spill_m,
        opening_kind="walk's edge",
        flow_m3s=flow_m3s,
        flowing_m={name: max(level, hollow.low_m) for name, level in flowing.items()},
        still_m={name: max(level, hollow.low_m) for name, level in still.items()},
    )


def _standing(hollow: Hollow, sawn: Sawn, heights: CurbHeights) -> tuple[Standing, ...]:
    """Return the water that stays below the notch floors, if any does."""
    depth = sawn.floor_m - hollow.low_m
    if depth <= SHALLOW_M:
        return ()
    back = heights.depth_m
    held = hollow.held_m3(sawn.floor_m)
    ends = (back, back + hollow.width_m)
    return (Standing(VERGE, sawn.floor_m, depth, hollow.length_m, held, *ends),)


def _needed(sawn: Sawn, flow_m3s: float, most_m: float, gutter_m: float) -> int | None:
    """Return the fewest notches that keep the flow under a level; None if no number does."""
    each = sawn.passes_m3s(most_m, gutter_m)
    if each <= 0.0:
        return None
    fewest = max(ceil(flow_m3s / each - SHALLOW_M), 1)
    return fewest if fewest <= MOST_NOTCHES else None
