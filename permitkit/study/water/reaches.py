"""Each reach with its capacity and the design flow in it, and where the fall goes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.drain import OUTLET
from permitkit.model.keys.run import PIPE_SLOPE
from permitkit.study.curb import Laid
from permitkit.study.results import FallBudget, ReachWater
from permitkit.study.water.line import INSERT

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.hydraulics.profile import GradeLine
    from permitkit.hydraulics.profile import ReachWater as Computed
    from permitkit.hydraulics.tree import Reach
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import WaterStudy
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.line import Line

__all__ = ["fall_budget", "laid_at_outlet", "reach_waters"]


def reach_waters(line: Line, ground: Ground, running: GradeLine) -> tuple[ReachWater, ...]:
    """Return every reach, from the outlet up; grade levels are those of one grade line."""
    computed = {reach.name: reach for reach in running.reaches}
    found = (_reach_water(line, ground, reach, computed[reach.name]) for reach in line.tree.reaches)
    return tuple(sorted(found, key=lambda reach: (reach.station_low_m, reach.name)))


def _reach_water(line: Line, ground: Ground, reach: Reach, computed: Computed) -> ReachWater:
    """Return one reach."""
    drawn = line.drawn[reach.name]
    low, high = line.stations_m[reach.lower], line.stations_m[reach.upper]
    normal = computed.normal_depth_m
    return ReachWater(
        name=reach.name,
        upper=reach.upper,
        lower=reach.lower,
        pipe=line.pipes[reach.name],
        barrels=reach.barrels,
        length_m=reach.length_m,
        station_low_m=low,
        station_high_m=high,
        upper_invert_m=reach.upper_invert_m,
        lower_invert_m=reach.lower_invert_m,
        slope=reach.slope,
        flow_m3s=computed.flow_m3s,
        full_flow_m3s=computed.full_flow_m3s or 0.0,
        full_velocity_ms=computed.full_velocity_ms or 0.0,
        normal_depth_m=normal,
        critical_depth_m=computed.critical_depth_m,
        velocity_ms=computed.velocity_ms,
        fullness=None if normal is None else normal / reach.section.height_m,
        surcharged=normal is None,
        places=ground.places(low, high),
        surfaces=ground.surfaces(low, high, drawn.surface),
        grade_low_m=computed.lower_grade_m,
        grade_high_m=computed.upper_grade_m,
        bends_deg=reach.bend_degrees,
        pressurised=computed.pressurised,
    )


def fall_budget(line: Line, ground: Ground, rules: RulesInForce) -> FallBudget:
    """Return where the fall from the farthest node to the outlet goes.

    Each reach of the trunk needs the town's least slope over its length, in the right-of-way and
    behind it; a reach without a least slope needs none.
    """
    trunk = [reach for reach in reversed(line.tree.upward) if reach.upper in line.trunk]
    inverts = {node.name: node.invert_m for node in line.tree.nodes}
    start, end = inverts[line.trunk[-1]], inverts[OUTLET]
    needs = tuple((reach.name, _need_m(line, ground, rules, reach)) for reach in trunk)
    available = start - end
    return FallBudget(start, end, available, needs, available - sum(need for _, need in needs))


def _need_m(line: Line, ground: Ground, rules: RulesInForce, reach: Reach) -> float:
    """Return the fall that a reach needs at the town's least slopes."""
    low, high = line.stations_m[reach.lower], line.stations_m[reach.upper]
    return sum(
        length * _least_slope(rules, place) for place, length in _parts(ground.row_m, low, high)
    )


def _parts(row_m: float, low_m: float, high_m: float) -> Iterator[tuple[str, float]]:
    """Yield the lengths of a reach in the right-of-way and behind it."""
    inside = max(min(high_m, row_m) - low_m, 0.0)
    if inside > 0.0:
        yield "right-of-way", inside
    if high_m - low_m - inside > 0.0:
        yield "private", high_m - low_m - inside


def _least_slope(rules: RulesInForce, place: str) -> float:
    """Return the least slope of a pipe at a place; zero where none is known."""
    return float(rules.at(PIPE_SLOPE, place=place).least or 0)


def laid_at_outlet(water: WaterStudy) -> Laid:
    """Return how the reach that ends at the outlet lies, the pipe in the hole with it."""
    running = water.gutter_levels_m["running"] - water.gutter_levels_m["free"]
    if not water.reaches:
        return Laid(0.0, 0.0, 0.0, running)
    inserted = water.reaches[0].upper == INSERT
    own, needs = water.reaches[: 1 + inserted], dict(water.fall.needs_m)
    last, need = own[-1], sum(needs.get(reach.name, 0.0) for reach in own)
    return Laid(last.slope, last.upper_invert_m, need, running)
