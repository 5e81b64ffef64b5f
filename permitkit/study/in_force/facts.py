"""The facts of a job that conditions may ask for."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from permitkit.units import Measure, measure

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.model.job import Job
    from permitkit.model.site import Feature

__all__ = ["NONE_NEAR", "UNKNOWN", "Gap", "facts_of"]


class Gap(Enum):
    """What stands for a fact that has no value."""

    UNKNOWN = "not known"
    NONE_NEAR = "none near"


UNKNOWN = Gap.UNKNOWN
"""Nobody has said what the fact is."""

NONE_NEAR = Gap.NONE_NEAR
"""There is no such thing near, so it lies beyond any distance."""


def facts_of(job: Job) -> Mapping[str, object]:
    """Return the site facts of a job by name, UNKNOWN where the job does not say.

    A fact holds a word, a name, a bool, a Measure, a whole number, a sum or a day. `water` holds
    every kind that enters, and `season` the first and last day of work.
    """
    return {
        **_outlet_facts(job),
        **_street_facts(job),
        **_lot_facts(job),
        **_work_facts(job),
    }


def _outlet_facts(job: Job) -> dict[str, object]:
    outlet = job.outlet
    return {
        "outlet": outlet.kind,
        "new_outlet": outlet.kind != "existing hole",
        "existing_in_use": any(hole.in_use and hole.plan != "plug" for hole in job.existing),
        "built": _known(outlet.built_before),
        "falls_to": outlet.emitter.falls_to if outlet.emitter else UNKNOWN,
        "storm_main": _known(job.site.storm_main_distance),
        "other_outlet": _known(outlet.other_way),
        "harm": _known(outlet.harm),
        "yard": _known(outlet.emitter.yard if outlet.emitter else None),
        "water": tuple(sorted({inflow.kind for inflow in job.drain.inflow})) or UNKNOWN,
    }


def _street_facts(job: Job) -> dict[str, object]:
    street = job.street
    return {
        "curb": job.curb.shape,
        "street_class": street.street_class,
        "street": street.name,
        "authority": street.authority,
        "lanes": street.lanes,
        "speed": street.speed,
        "street_paved": _known(street.last_paved),
        "pavement_surface": _known(street.pavement_surface),
        "pavement_rating": _known(street.pavement_rating),
    }


def _lot_facts(job: Job) -> dict[str, object]:
    return {
        "soil": _known(job.site.soil),
        "tree_near": _tree_near(job),
        "zone": _known(job.site.zone),
        "paved_area": _known(job.site.paved_area),
        "building_use": _known(job.site.building_use),
    }


def _work_facts(job: Job) -> dict[str, object]:
    cut, traffic = job.cut, job.traffic
    return {
        "applicant": job.papers.applicant,
        "walk_surface": job.walk.surface,
        "walk_use": job.walk.use,
        "walk_width": job.walk.width,
        "crossing": cut.crossing,
        "begun": cut.begun,
        "dowels": job.restoration.dowels,
        "bevelled": job.restoration.lip_bevelled,
        "strength": _known(job.restoration.strength),
        "walk_closed": traffic.walk_closed,
        "closed_part": traffic.lane_taken,
        "pavement_cut": cut.pavement_cut is not None and cut.pavement_cut.si > 0,
        "cost": _known(cut.cost),
        "owner_occupier": _known(job.papers.owner_occupier),
        "trench_runs": _known(cut.trench_runs),
        "restored_by": job.restoration.by,
        "emergency": job.dates.emergency is not None,
        "extension": job.papers.more_time,
        "hurry": job.papers.hurry,
        "season": (job.dates.start, job.dates.finish),
    }


def _known(value: object | None) -> object:
    return UNKNOWN if value is None else value


def _tree_near(job: Job) -> Measure | Gap:
    """Return the distance along the curb from the outlet to the nearest town tree's trunk."""
    trees = [tree for tree in job.feature if tree.kind == "tree" and tree.owner == "town"]
    ways = [way for tree in trees for way in _ways(tree, job.outlet.station)]
    return min(ways, default=NONE_NEAR)


def _ways(tree: Feature, station: Measure) -> Iterator[Measure]:
    """Yield how far a station is from the edges of a feature; nothing if it lies within."""
    far = tree.far if tree.far is not None else tree.near
    if tree.near <= station <= far:
        yield measure(0, tree.near.unit or "ft", tree.near.kind)
    for edge in (tree.near, far):
        yield station - edge if station > edge else edge - station
