"""What a form may be told of the work: outlet, pipe, walk and trench, dates, sums."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.keys.run import WATER_DECLARATION
from permitkit.packet.forms.told.known import (
    NONE,
    UNKNOWN,
    Known,
    of_day,
    of_length,
    of_money,
    of_words,
    text,
)
from permitkit.packet.forms.told.people import yes
from permitkit.packet.say import joined, say_for, sentences
from permitkit.packet.values import outlet_in_words, panels_in_words, reaches_in_words
from permitkit.units import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.judge import Judged
    from permitkit.packet.say import Say
    from permitkit.study.results import MoneyTotal

__all__ = ["work_and_dates"]


def work_and_dates(judged: Judged) -> dict[str, Known]:
    """Return the values of the work, its days and its sums by name."""
    say = say_for(judged.job)
    return {
        **_kinds(judged, say),
        **_opening(judged, say),
        **_run(judged, say),
        **_cut(judged, say),
        **_time(judged),
        **_money(judged),
    }


def _kinds(judged: Judged, say: Say) -> dict[str, Known]:
    needed = [one.permit for one in judged.rules.permits() if one.certain]
    plugged = sum(hole.plan == "plug" for hole in judged.job.existing)
    return {
        "permits": of_words((one.id for one in needed), joined([one.title for one in needed])),
        "kind of work": text(outlet_in_words(judged, say)),
        "declaration": Known(" ".join(sentences(judged, WATER_DECLARATION))),
        "description of work": text(_described(judged, say)),
        "outlet": of_words((judged.job.outlet.kind,)),
        "curb shape": of_words((judged.job.curb.shape,)),
        "surfaces": of_words(list(_surfaces(judged)) or ("nothing",)),
        "holes plugged": text(plugged),
        "plugged": yes(plugged > 0),
        "begun": yes(judged.job.cut.begun),
    }


def _described(judged: Judged, say: Say) -> str:
    """Return the work in one sentence."""
    study, job = judged.study, judged.job
    area, panels = study.cut.walk_area_m2, sum(one.removed for one in study.cut.panels)
    plugged = [hole.size.shown() for hole in job.existing if hole.plan == "plug"]
    parts = [f"water let go through {outlet_in_words(judged, say)}"]
    if study.water.reaches:
        parts.append(reaches_in_words(study.water, say))
    if area > 0:
        parts.append(f"{say.area(area)} of walk ({panels_in_words(panels)}) taken out and put back")
    if plugged:
        parts.append(f"old {joined(plugged)} hole{'s' if len(plugged) > 1 else ''} plugged")
    told = "; ".join(parts)
    return f"{told[:1].upper()}{told[1:]}."


def _surfaces(judged: Judged) -> Iterator[str]:
    """Yield what is opened in the right-of-way."""
    cut, curb = judged.study.cut, judged.study.curb
    if cut.walk_area_m2 > 0:
        yield "walk"
    if cut.trench_m > 0 and float(judged.job.verge.width) > 0:
        yield "verge"
    plugged = any(hole.plan == "plug" for hole in judged.job.existing)
    if judged.job.cut.curb_removed or plugged or (curb and (curb.hole or curb.notch)):
        yield "curb"
    if judged.job.cut.pavement_cut:
        yield "pavement"


def _opening(judged: Judged, say: Say) -> dict[str, Known]:
    """Return what is made in the curb; each is `none` where the curb stays whole."""
    curb = judged.study.curb
    hole, notch = (curb.hole, curb.notch) if curb is not None else (None, None)

    def small(metres: float | None) -> Known:
        return NONE if metres is None else of_length(metres, Kind.LENGTH, say.small(metres))

    count = judged.job.outlet.count if hole or notch else 0
    line = curb.edge_to_side_line_m if curb else None
    return {
        "curb openings": text(count),
        "hole size": small(hole.bit_m if hole else None),
        "hole bottom": small(hole.bottom_m if hole else None),
        "pipe invert": small(hole.invert_m if hole else None),
        "concrete above hole": small(hole.strip_m if hole else None),
        "notch width": small(notch.width_m if notch else None),
        "curb height": UNKNOWN if curb is None else small(curb.reveal_m),
        "side line distance": UNKNOWN
        if line is None
        else of_length(line, Kind.LENGTH, say.long(line)),
    }


def _run(judged: Judged, say: Say) -> dict[str, Known]:
    water = judged.study.water
    length = sum(reach.length_m for reach in water.reaches)
    flattest = min((reach.slope for reach in water.reaches), default=None)
    pipes = list(dict.fromkeys(reach.pipe.name for reach in reversed(water.reaches)))
    flow = water.outlet_flow_m3s
    return {
        "pipe": Known(joined(pipes)) if pipes else NONE,
        "pipe length": _or_none(length, Kind.LENGTH, say.long(length)),
        "pipe slope": NONE
        if flattest is None
        else of_length(flattest, Kind.SLOPE, say.slope(flattest)),
        "design flow": of_length(flow, Kind.FLOW, say.flow(flow)),
        "water": of_words(sorted({inflow.kind for inflow in water.inflows})),
    }


def _or_none(amount: float, kind: Kind, told: str) -> Known:
    return of_length(amount, kind, told) if amount > 0 else NONE


def _cut(judged: Judged, say: Say) -> dict[str, Known]:
    cut, job = judged.study.cut, judged.job
    dug = cut.trench_m > 0
    panels = sum(panel.removed for panel in cut.panels)
    curb = job.cut.curb_removed
    return {
        "walk crossing": of_words((job.cut.crossing,)),
        "walk area": _or_none(cut.walk_area_m2, Kind.AREA, say.area(cut.walk_area_m2)),
        "walk panels": text(panels) if cut.walk_area_m2 > 0 else text(0),
        "trench length": _or_none(cut.trench_m, Kind.LENGTH, say.long(cut.trench_m)),
        "trench width": of_length(job.cut.trench_width, Kind.LENGTH) if dug else NONE,
        "trench depth": of_length(job.cut.trench_depth, Kind.LENGTH) if dug else NONE,
        "trench area": _or_none(cut.trench_area_m2, Kind.AREA, say.area(cut.trench_area_m2)),
        "curb removed": of_length(curb, Kind.LENGTH) if curb else NONE,
    }


def _time(judged: Judged) -> dict[str, Known]:
    job, traffic = judged.job, judged.job.traffic
    hours = (traffic.hours_from, traffic.hours_to)
    return {
        "filing date": of_day(job.filing),
        "proposed start": of_day(job.dates.start),
        "proposed finish": of_day(job.dates.finish),
        "days of work": text(len(judged.study.calendar.work_days)),
        "hours of work": Known(f"{hours[0]} to {hours[1]}") if all(hours) else UNKNOWN,
        "revision": text(job.revision),
        "walk closed": yes(traffic.walk_closed),
        "walk closed days": text(traffic.walk_closed_days if traffic.walk_closed else 0),
        "way round": yes(traffic.way_round is not None),
        "lane closed": of_words((traffic.lane_taken,)),
        "drive blocked": UNKNOWN
        if traffic.drive_blocked == "unknown"
        else of_words((traffic.drive_blocked,)),
    }


def _money(judged: Judged) -> dict[str, Known]:
    fees = judged.study.fees
    return {
        "cost": of_money(judged.job.cut.cost),
        "fee": of_money(fees.fees.total if fees.fees.known else None),
        "deposit": _due(fees.deposit),
        "bond": _due(fees.bond),
    }


def _due(total: MoneyTotal) -> Known:
    """Return a sum that may not be asked for at all, or not be known."""
    if not total.known or total.open:
        return UNKNOWN
    return of_money(total.total) if total.rows else NONE
