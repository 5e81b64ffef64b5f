"""The water side of a job in full."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.hydraulics.tree import still_water
from permitkit.study.curb import at_the_curb, curb_heights
from permitkit.study.results import WATERS, WaterStudy
from permitkit.study.water.emitter import over_rim_m, study_emitter
from permitkit.study.water.ground import lay_ground
from permitkit.study.water.levels import gutter_levels, node_waters, three_waters
from permitkit.study.water.line import lay_line
from permitkit.study.water.rain import inflow_waters, rain_basis
from permitkit.study.water.reaches import fall_budget, reach_waters
from permitkit.study.water.standing import standing_water
from permitkit.study.water.street import study_street
from permitkit.study.water.verge_notches import study_verge

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.line import Line

__all__ = ["study_water"]

FREE, RUNNING = WATERS[:2]


def study_water(job: Job, rules: RulesInForce) -> tuple[WaterStudy, Line, Ground]:
    """Return the water side, with the run and the ground it was computed on.

    Parameters
    ----------
    job, rules
        The job and the rules in force.

    Raises
    ------
    InputError
        If the run makes no tree, or a pipe or the outlet's level is not known.
    """
    rain = rain_basis(job, rules)
    inflows = inflow_waters(job, rain)
    heights = curb_heights(job)
    total = sum(inflow.flow_m3s for inflow in inflows)
    street = study_street(job, total if at_the_curb(job) else 0.0)
    if job.drain.verge is not None:
        return study_verge(job, rules, job.drain.verge, rain, inflows, heights, street)
    line = lay_line(job, heights, inflows)
    ground = lay_ground(job, heights, line)
    emitter = None if at_the_curb(job) else job.outlet.emitter
    sill = float(emitter.rim) if emitter else None
    over = over_rim_m(emitter, line, total) if emitter else None
    gutter = gutter_levels(job, rules, heights, street)
    waters = three_waters(line, gutter, sill, over)
    running = waters.flowing[RUNNING]
    dry = waters.still[FREE] if sill is None else still_water(line.tree)
    study = WaterStudy(
        rain=rain,
        inflows=inflows,
        reaches=reach_waters(line, ground, running),
        nodes=node_waters(job, line, waters),
        standing=standing_water(line, dry),
        total_m3s=total,
        outlet_flow_m3s=running.node(line.tree.outlet).flow_m3s,
        gutter_levels_m=gutter,
        fall=fall_budget(line, ground, rules),
        emitter=study_emitter(emitter, line, total) if emitter else None,
        street=street,
    )
    return study, line, ground
