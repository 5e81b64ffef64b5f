"""The design rain with its basis, and the water each inflow brings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.hydraulics.rain import catchment_area, roof_flow
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
    """Return one inflow's water; what is not said runs off whole, as a roof does."""
    area = catchment_area(float(inflow.area or 0), float(inflow.wall_area or 0))
    runoff = 1.0 if inflow.runoff is None else float(inflow.runoff)
    return InflowWater(
        name=inflow.name,
        node=inflow.node,
        kind=inflow.kind,
        area_m2=area,
        runoff=runoff,
        storm_m3s=roof_flow(area, intensity_ms, runoff),
        pump_m3s=0.0 if inflow.pump is None else float(inflow.pump.rate),
    )
