"""The sizes of the work: the facts that rules of the second stage ask for, and what fees count."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.model.money import PER_UNITS, spelt
from permitkit.study.curb import at_the_curb
from permitkit.units import Kind, Measure, from_si

if TYPE_CHECKING:
    from collections.abc import Mapping
    from decimal import Decimal

    from permitkit.model.job import Job
    from permitkit.study.results import CutStudy, WaterStudy

__all__ = ["ground_unit", "quantities", "size_facts"]

UNITS = {
    "us": {Kind.LENGTH: "ft", Kind.AREA: "sq ft", Kind.FLOW: "gpm", Kind.VOLUME: "cu yd"},
    "metric": {Kind.LENGTH: "m", Kind.AREA: "m2", Kind.FLOW: "L/s", Kind.VOLUME: "m3"},
}
NOTHING = Fraction(0)
NEW_HOLES, NEW_NOTCHES = ("core",), ("notch",)


def ground_unit(job: Job) -> str:
    """Return the unit a job's author tapes distances on the ground in.

    Tenths of a foot only where some are so written; else feet and inches.
    """
    if job.units == "metric":
        return "m"
    own = (job.site.frontage, job.site.row_line_offset, job.outlet.station, job.verge.width)
    taped = (reach.length for reach in job.drain.reach)
    written = [measure for measure in (*own, *taped) if measure is not None]
    tenths = any(measure.unit == "ft" and measure.in_("ft").denominator > 1 for measure in written)
    inches = any(measure.unit in {"ft-in", "in"} for measure in written)
    return "ft" if tenths and not inches else "ft-in"


def size_facts(
    job: Job, water: WaterStudy, cut: CutStudy, depth_m: float, days: int
) -> Mapping[str, object]:
    """Return the size facts by name, in the units the job's author reads.

    Parameters
    ----------
    job, water, cut
        The job and what was computed of it.
    depth_m
        Depth of the trench by levels, where the job does not state it. [m]
    days
        Days of work.
    """
    walk_m = float(job.walk.width) if cut.slab else 0.0
    width_m = float(job.cut.trench_width or 0)
    beside_m2 = max(cut.trench_m - walk_m, 0.0) * width_m
    paved_m2 = _paved_m2(job)
    return {
        "walk_area": _told(job, cut.due_area_m2, Kind.AREA),
        "area": _told(job, cut.due_area_m2 + beside_m2 + paved_m2, Kind.AREA),
        "trench": job.cut.trench_length or _told(job, cut.trench_m, Kind.LENGTH),
        "curb_length": job.cut.curb_removed or _told(job, 0.0, Kind.LENGTH),
        "pavement_area": _told(job, paved_m2, Kind.AREA),
        "depth": job.cut.trench_depth or _told(job, depth_m, Kind.LENGTH),
        "holes": job.outlet.count if job.outlet.kind in NEW_HOLES else 0,
        "flow": _told(job, water.outlet_flow_m3s, Kind.FLOW),
        "days": days,
    }


def quantities(job: Job, cut: CutStudy, depth_m: float) -> Mapping[str, Measure | int | Decimal]:
    """Return what else fees may count, by the names the fee table gives it.

    Parameters
    ----------
    job, cut
        The job and what was computed of its cut.
    depth_m
        Depth of the trench by levels, where the job does not state it. [m]
    """
    stated = {per.nouns if per.kind is None else per.thing: per for per in PER_UNITS.values()}
    given = {stated[name].thing: value for name, value in job.counts.given.items()}
    own = {spelt(each.per): each.number for each in job.counts.other}
    return {**_counted(job, cut), **_measured(job, cut, depth_m), **given, **own}


def _counted(job: Job, cut: CutStudy) -> Mapping[str, int]:
    """Return what is counted, as far as the job tells it."""
    count = job.outlet.count
    surfaces = (cut.due_area_m2, _verge_m2(job, cut), _paved_m2(job), job.cut.curb_removed)
    opened = sum(bool(surface) for surface in surfaces)
    crossed = job.cut.pavement_cut is not None and job.cut.pavement_cut >= job.street.width
    dates = job.dates
    days = (dates.finish - dates.start).days
    months = (dates.finish.year - dates.start.year) * 12 + dates.finish.month - dates.start.month
    return {
        "notch": count if job.outlet.kind in NEW_NOTCHES else 0,
        "outlet": count if at_the_curb(job) else 1,
        "panel": sum(panel.touched or panel.removed for panel in cut.panels),
        "inspection": len(job.dates.inspections),
        "lane": int(job.traffic.lane_taken == "travel lane"),
        "street crossing": int(crossed),
        "location": 1,
        "surface opened": opened,
        "opening": int(opened > 0 or cut.trench_m > 0),
        "week": days // 7 + 1,
        "month": months + (dates.finish.day >= dates.start.day),
    }


def _measured(job: Job, cut: CutStudy, depth_m: float) -> Mapping[str, Measure]:
    """Return what is measured, as far as the job tells it."""
    due_m = cut.due_right_m - cut.due_left_m
    sides = sorted((float(job.cut.pavement_cut or 0), _along_m(job)))
    depth = float(job.cut.trench_depth or depth_m)
    paved = bool(job.cut.pavement_cut)
    return {
        "area of verge": _told(job, _verge_m2(job, cut), Kind.AREA),
        "area of street": _told(job, _paved_m2(job), Kind.AREA),
        "volume of trench": _told(job, cut.trench_area_m2 * depth, Kind.VOLUME),
        "length of opening": job.cut.trench_length or _told(job, cut.trench_m, Kind.LENGTH),
        "length of pavement": _told(job, sides[1] if paved else 0.0, Kind.LENGTH),
        "width of pavement": _told(job, sides[0] if paved else 0.0, Kind.LENGTH),
        "length of street": _told(job, _along_m(job) if paved else 0.0, Kind.LENGTH),
        "area of trench": _told(job, cut.trench_area_m2, Kind.AREA),
        "length of walk": _told(job, due_m, Kind.LENGTH),
        "width of walk": _told(job, cut.due_area_m2 / due_m if due_m else 0.0, Kind.LENGTH),
        "width of street": job.street.width,
    }


def _paved_m2(job: Job) -> float:
    """Return the area of pavement cut: along the curb taken out, else over the trench."""
    return float(job.cut.pavement_cut or 0) * _along_m(job)


def _along_m(job: Job) -> float:
    """Return how far the pavement is cut along the curb."""
    return float(job.cut.curb_removed or 0) or float(job.cut.trench_width or 0)


def _verge_m2(job: Job, cut: CutStudy) -> float:
    """Return the area of verge opened."""
    return float(job.verge.width) * float(job.cut.trench_width or 0) if cut.slab else 0.0


def _told(job: Job, value: float, kind: Kind) -> Measure:
    """Return a computed value in the unit the job's author reads."""
    unit = UNITS[job.units][kind]
    return from_si(value, kind, unit) if value else Measure(NOTHING, kind, unit)
