"""The design rain with its basis, and the water each inflow brings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.hydraulics.rain import (
    RUNOFF,
    catchment_area,
    leader_flow,
    pump_roof_equivalent,
    roof_flow,
    round_of_same_area,
)
from permitkit.hydraulics.section import Round
from permitkit.model.keys.run import WATER_RAIN
from permitkit.model.values import RainRule
from permitkit.study.results import InflowWater, RainBasis

if TYPE_CHECKING:
    from permitkit.model.drain import Inflow
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce

__all__ = ["inflow_waters", "rain_basis"]


def rain_basis(job: Job, rules: RulesInForce) -> RainBasis:
    """Return the design rain: the town's, or the job's own where no sheet gives one."""
    found = rules[WATER_RAIN]
    if isinstance(found.value, RainRule):
        rain = found.value
        return _with_missing(float(rain.intensity), rain.period, rain.duration, found.source)
    own = job.rain
    intensity = None if own.intensity is None else float(own.intensity)
    return _with_missing(intensity, own.period or "", own.duration or "", own.source or "")


def _with_missing(intensity_ms: float | None, period: str, duration: str, source: str) -> RainBasis:
    """Return the basis, naming what it lacks."""
    parts = {
        "intensity": intensity_ms,
        "return period": period,
        "duration": duration,
        "source": source,
    }
    missing = tuple(name for name, part in parts.items() if not part)
    return RainBasis(intensity_ms, period, duration, source, missing)


def inflow_waters(job: Job, rain: RainBasis) -> tuple[InflowWater, ...]:
    """Return what each inflow brings: rain on its area, and its pump at full rate."""
    return tuple(_inflow_water(inflow, rain.intensity_ms or 0.0) for inflow in job.drain.inflow)


def _inflow_water(inflow: Inflow, intensity_ms: float) -> InflowWater:
    """Return one inflow's water."""
    area = catchment_area(float(inflow.area or 0), float(inflow.wall_area or 0))
    runoff, source = _runoff(inflow)
    pump = 0.0 if inflow.pump is None else float(inflow.pump.rate)
    bore = _leader_bore_m(inflow)
    return InflowWater(
        name=inflow.name,
        node=inflow.node,
        kind=inflow.kind,
        area_m2=area,
        runoff=runoff,
        storm_m3s=roof_flow(area, intensity_ms, runoff),
        pump_m3s=pump,
        runoff_source=source,
        leader_m3s=None if bore is None else leader_flow(bore) * inflow.leaders,
        leader_m2=None if bore is None else Round(bore).full.area_m2 * inflow.leaders,
        pump_roof_m2=pump_roof_equivalent(pump, intensity_ms) if pump and intensity_ms else None,
    )


def _runoff(inflow: Inflow) -> tuple[float, str]:
    """Return the share that runs off and where it is from.

    Of a table's range the upper end counts; what is not said runs off whole, as a roof does.
    """
    if inflow.runoff is not None:
        return float(inflow.runoff), inflow.runoff_source or ""
    if inflow.surface is not None:
        row = RUNOFF[inflow.surface]
        return row.high, f"{inflow.surface}: {row.source}"
    return 1.0, "all of it, as from a roof"


def _leader_bore_m(inflow: Inflow) -> float | None:
    """Return the bore of an inflow's leader if it is measured; of a rectangular one by its area."""
    if inflow.leader is None or inflow.leader_depth is None:
        return None if inflow.leader is None else float(inflow.leader)
    return round_of_same_area(float(inflow.leader), float(inflow.leader_depth))
