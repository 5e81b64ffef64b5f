"""Where the water goes once it is let go, and what it may do there to people on foot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.study.curb import at_the_curb
from permitkit.study.ways.run import length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.job import Job
    from permitkit.model.site import Feature
    from permitkit.study.results import WaterStudy
    from permitkit.study.ways.way import Found

__all__ = ["goes", "hazards"]

FOOT_TRAFFIC = {"ramp", "crosswalk", "bus stop"}
FROST = frozenset({11, 12, 1, 2, 3})


def goes(job: Job) -> str:
    """Return where the water goes once it is let go."""
    emitter = job.outlet.emitter
    if emitter is not None and job.outlet.kind == "emitter":
        over = ", over the walk" if emitter.crosses_walk else ""
        soil = f", on {job.site.soil}" if job.site.soil else ""
        return f"over the lawn toward the {emitter.falls_to}{over}{soil}"
    if not at_the_curb(job):
        return f"into the {job.outlet.kind}"
    way = f" to the {job.street.gutter_flows}" if job.street.gutter_flows else ""
    met = ", ".join(_met(job))
    return f"into the gutter, along it{way}{', ' if met else ''}{met}"


def hazards(job: Job, water: WaterStudy, found: Found) -> tuple[str, ...]:
    """Return what ice and water may do, by what the job says of the place."""
    return tuple(_hazards(job, water, found))


def _hazards(job: Job, water: WaterStudy, found: Found) -> Iterator[str]:
    """Yield each hazard."""
    emitter = job.outlet.emitter
    if emitter is not None:
        if emitter.crosses_walk:
            yield "wets the walk, which freezes"
        yield "the line stays full after rain, freezes and breeds"
    if job.outlet.kind == "culvert under walk":
        yield "a plate or a slab over it in the walk, to be kept level"
    if job.outlet.kind in {"notch", "culvert under walk"}:
        yield "an opening in the curb for wheels and bicycles"
    if at_the_curb(job):
        yield from (
            f"runs past the {ramp.kind} {length(job, far).shown()} down the gutter"
            for ramp, far in _down(job)
            if ramp.kind in FOOT_TRAFFIC and not _inlet_before(job, far)
        )
    if _pumps_in_frost(job):
        yield "pumped water in frost makes a sheet of ice"
    if not emitter and found.standing_m3 > 0.0:
        yield "water left in the line freezes"
    if water.verge is not None:
        yield "leaves stop a narrow notch"


def _down(job: Job) -> list[tuple[Feature, float]]:
    """Return the things along the curb down the gutter, the nearest first, with their distance."""
    sign = {"left": -1.0, "right": 1.0}.get(job.street.gutter_flows or "", 0.0)
    here = float(job.outlet.station)
    far = ((feature, (float(feature.near) - here) * sign) for feature in job.feature)
    return sorted((pair for pair in far if pair[1] > 0.0), key=lambda pair: pair[1])


def _met(job: Job) -> Iterator[str]:
    """Yield what the water meets first of inlets, ramps and crosswalks."""
    for feature, far in _down(job):
        if feature.kind == "inlet":
            yield f"to the inlet {length(job, far).shown()} on"
            return
        if feature.kind in FOOT_TRAFFIC:
            yield f"past the {feature.kind}"


def _inlet_before(job: Job, far_m: float) -> bool:
    """Tell whether an inlet takes the water before it comes so far."""
    return any(feature.kind == "inlet" and at < far_m for feature, at in _down(job))


def _pumps_in_frost(job: Job) -> bool:
    """Tell whether a pump lets go here in the months of frost, with no other route for them."""
    pumps = (inflow.pump for inflow in job.drain.inflow if inflow.pump)
    return any(FROST & set(pump.months) and not pump.winter_route for pump in pumps)
