"""What the wording may speak of: printed strings, worked out once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from permitkit.model.verdict import Outcome
from permitkit.packet.say import day, joined, say_for

if TYPE_CHECKING:
    from permitkit.checks.judge import Judged
    from permitkit.packet.say import Say
    from permitkit.study.results import CurbStudy, ReachWater, WaterStudy

__all__ = ["outlet_in_words", "panels_in_words", "star", "values_of"]


def star(judged: Judged, field: str) -> str:
    """Return a star where the firm assumed this field, else nothing."""
    return "*" if any(assumed.field == field for assumed in judged.job.assumed) else ""


def _firm(judged: Judged) -> dict[str, str]:
    firm = judged.job.firm
    if firm is None:
        return dict.fromkeys(
            ("name", "address", "phone", "phone_24h", "email", "signer", "signer_title"),
            "not given",
        )
    return {
        "name": firm.name,
        "address": firm.address,
        "phone": firm.phone,
        "phone_24h": firm.phone_24h,
        "email": firm.email,
        "signer": firm.signer,
        "signer_title": firm.signer_title,
    }


def _site(judged: Judged) -> dict[str, str]:
    site = judged.job.site
    cross = "not given"
    if site.cross_street:
        away = f", {site.cross_street_distance.shown()}" if site.cross_street_distance else ""
        side = f" to the {site.cross_street_side}" if site.cross_street_side else ""
        cross = f"{site.cross_street}{away}{side}"
    return {
        "address": site.address,
        "parcel": site.parcel or "not given",
        "owner": site.owner,
        "owner_phone": site.owner_phone or "not given",
        "frontage": site.frontage.shown(),
        "cross_street": cross,
        "row_line": site.row_line_offset.shown(),
        "row_basis": "assumed, by survey if in doubt"
        if site.row_line_basis == "assumed"
        else f"from {site.row_line_basis}"
        if site.row_line_basis == "survey"
        else f"from the {site.row_line_basis}"
        if site.row_line_basis == "plat"
        else "scaled from a map",
    }


def _street(judged: Judged) -> dict[str, str]:
    street = judged.job.street
    return {
        "name": street.name,
        "street_class": street.street_class,
        "authority": judged.rules.sheets[0].title
        if street.authority == "town"
        else street.authority,
        "speed": street.speed.shown(),
        "width": street.width.shown(),
        "parking": street.parking,
        "paved": day(street.last_paved) if street.last_paved else "not known",
    }


_COUNTS = {1: "one", 2: "two", 3: "three", 4: "four"}


def outlet_in_words(judged: Judged, say: Say) -> str:
    """Return one phrase that names the outlet and its size."""
    job, curb = judged.job, judged.study.curb
    if curb is not None and curb.hole is not None:
        hole = curb.hole
        count = _COUNTS.get(hole.count, str(hole.count))
        plural = "" if hole.count == 1 else "s"
        return f"{count} {say.small(hole.bit_m)} hole{plural} through the {job.curb.shape} curb"
    if curb is not None and curb.notch is not None:
        width = say.small(curb.notch.width_m)
        if job.outlet.count == 1:
            return f"a notch {width} wide in the {job.curb.shape} curb"
        count = _COUNTS.get(job.outlet.count, str(job.outlet.count))
        return f"{count} notches {width} wide in the {job.curb.shape} curb"
    if job.outlet.kind == "emitter":
        return "an emitter in the lawn, with no opening in the curb"
    return f"a {job.outlet.kind}"


def _pipe_words(reach: ReachWater) -> str:
    return f"{'twin ' if reach.barrels > 1 else ''}{reach.pipe.name}"


def reaches_in_words(water: WaterStudy, say: Say) -> str:
    """Return the run from the house to the outlet, reach by reach."""
    said = [
        f"{say.long(reach.length_m)} of {_pipe_words(reach)} at {say.slope(reach.slope)}"
        f" from {reach.upper} to {'the outlet' if reach.lower == 'outlet' else reach.lower}"
        for reach in reversed(water.reaches)
    ]
    return joined(said)


def _inflows(water: WaterStudy, say: Say) -> list[dict[str, str]]:
    return [
        {
            "name": inflow.name,
            "kind": inflow.kind,
            "node": inflow.node,
            "area": say.area(inflow.area_m2) if inflow.area_m2 else "",
            "flow": say.flow(inflow.flow_m3s),
        }
        for inflow in water.inflows
    ]


def _water(judged: Judged, say: Say) -> dict[str, Any]:
    water = judged.study.water
    rain = water.rain
    basis = "not stated"
    if rain.intensity_ms is not None:
        basis = f"{say.intensity(rain.intensity_ms)}, {rain.period}, {rain.duration}, {rain.source}"
    kinds = sorted({inflow.kind for inflow in water.inflows})
    return {
        "total": say.flow(water.total_m3s),
        "rain": basis,
        "kinds": joined(kinds),
        "inflows": _inflows(water, say),
        "run": reaches_in_words(water, say),
        "spare_fall": say.small(abs(water.fall.spare_m)),
        "fall_short": water.fall.spare_m < 0,
        "available_fall": say.small(water.fall.available_m),
        "standing": [
            {"where": s.where, "volume": say.held(s.volume_m3), "depth": say.small(s.depth_m)}
            for s in water.standing
        ],
        "emitter": water.emitter is not None,
        "held": say.held(water.emitter.held_m3) if water.emitter else "",
    }


def _hole(curb: CurbStudy, say: Say) -> dict[str, str]:
    hole = curb.hole
    if hole is None:
        return {}
    window = hole.window
    return {
        "bit": say.small(hole.bit_m),
        "bottom": say.small(hole.bottom_m),
        "invert": say.small(hole.invert_m),
        "strip": say.small(hole.strip_m),
        "gap": say.small(hole.gap_m),
        "centre": say.small(hole.centre_below_top_m),
        "window": "no height satisfies every rule at once"
        if window.empty
        else f"{say.small(window.low.height_m)} to {say.small(window.high.height_m)}",
    }


def _curb(judged: Judged, say: Say) -> dict[str, Any]:
    curb = judged.study.curb
    if curb is None:
        return {"opened": False, "hole": {}, "notch": {}}
    notch = curb.notch
    return {
        "opened": curb.hole is not None or notch is not None,
        "reveal": say.small(curb.reveal_m),
        "shape": curb.shape,
        "hole": _hole(curb, say),
        "notch": {
            "width": say.small(notch.width_m),
            "toe": say.small(notch.floor_toe_m),
            "back": say.small(notch.floor_back_m),
            "slope": say.slope(notch.floor_slope),
        }
        if notch
        else {},
    }


def panels_in_words(count: int) -> str:
    """Return how many panels are taken out."""
    if count == 0:
        return "part of a panel"
    return f"{count} panel{'' if count == 1 else 's'}"


def _cut(judged: Judged, say: Say) -> dict[str, Any]:
    cut, job = judged.study.cut, judged.job
    return {
        "walk": cut.walk_area_m2 > 0,
        "crossing": job.cut.crossing,
        "area": say.area(cut.walk_area_m2),
        "panels": panels_in_words(sum(panel.removed for panel in cut.panels)),
        "saw": say.long(cut.saw_length_m),
        "saw_depth": job.cut.saw_depth.shown() if job.cut.saw_depth else "full depth",
        "trench": say.long(cut.trench_m),
        "concrete": say.volume(cut.concrete_m3),
        "thickness": say.small(cut.thickness_m),
    }


def _restoration(judged: Judged) -> dict[str, str]:
    put_back = judged.job.restoration
    words: dict[str, str] = {}
    for name, value in put_back:
        if value is None or isinstance(value, bool):
            continue
        words[name] = value.shown() if hasattr(value, "shown") else str(value)
    return words


def _dates(judged: Judged) -> dict[str, Any]:
    calendar = judged.study.calendar
    return {
        "filing": day(judged.job.filing),
        "start": day(judged.job.dates.start),
        "finish": day(judged.job.dates.finish),
        "days": len(calendar.work_days),
        "permit_until": day(calendar.permit_until),
        "guarantee_until": day(calendar.guarantee_until),
        "ticket": judged.job.locate.ticket or "not yet called",
        "called": day(judged.job.locate.called) if judged.job.locate.called else "not yet",
        "dig_from": day(calendar.locate_from) if calendar.locate_from else "not known",
        "ticket_until": day(calendar.locate_until) if calendar.locate_until else "not known",
    }


def _traffic(judged: Judged, say: Say) -> dict[str, Any]:
    traffic, study = judged.job.traffic, judged.study.traffic
    way = traffic.way_round
    return {
        "walk_closed": traffic.walk_closed,
        "days": traffic.walk_closed_days,
        "way": {
            "where": way.where,
            "width": way.width.shown(),
            "detectable": way.detectable,
            "signs": way.signs_ahead,
        }
        if way
        else {},
        "lane_taken": traffic.lane_taken,
        "width_taken": traffic.width_taken.shown() if traffic.width_taken else "",
        "lane_left": say.long(study.lane_left_m) if study.lane_left_m is not None else "",
        "taper": traffic.taper.shown() if traffic.taper else "",
        "taper_need": say.long(study.taper_need_m) if study.taper_need_m is not None else "",
        "spacing": say.long(study.device_spacing_m) if study.device_spacing_m else "",
        "buffer": say.long(study.buffer_m) if study.buffer_m else "",
        "sign_spacing": say.long(study.sign_spacing_m) if study.sign_spacing_m else "",
        "layout": traffic.layout or "",
        "set_by": traffic.set_by or "the firm",
        "hours": traffic.hours,
        "overnight": traffic.overnight or "",
        "neighbours_told": traffic.neighbours_told,
        "drive_blocked": traffic.drive_blocked == "yes",
        "bus_stop": traffic.bus_stop_in_zone,
        "bin_day": traffic.bin_day or "",
        "source": study.source,
    }


def _town(judged: Judged) -> dict[str, str]:
    sheet = judged.rules.sheets[0]
    return {
        "title": sheet.title,
        "office": sheet.office or "permit counter",
        "address": sheet.office_address,
        "standing": sheet.standing,
    }


def _asks(judged: Judged) -> list[dict[str, str]]:
    return [
        {"title": verdict.title, "why": verdict.why, "section": verdict.source}
        for verdict in judged.verdicts
        if verdict.outcome is Outcome.ASK
    ]


def values_of(judged: Judged) -> dict[str, Any]:
    """Return every name the wording may use, as text, lists, or yes and no."""
    say = say_for(judged.job)
    fees = judged.study.fees
    return {
        "town": _town(judged),
        "firm": _firm(judged),
        "site": _site(judged),
        "street": _street(judged),
        "outlet": {
            "words": outlet_in_words(judged, say),
            "kind": judged.job.outlet.kind,
            "passed_over": [
                {"way": passed.way, "because": passed.because}
                for passed in judged.job.outlet.passed_over
            ],
            "plugged": [hole.size.shown() for hole in judged.job.existing if hole.plan == "plug"],
        },
        "water": _water(judged, say),
        "curb": _curb(judged, say),
        "cut": _cut(judged, say),
        "restoration": _restoration(judged),
        "dates": _dates(judged),
        "traffic": _traffic(judged, say),
        "fee_total": fees.fees.shown,
        "deposit_total": fees.deposit.shown if fees.deposit.rows else "none",
        "asks": _asks(judged),
        "assumed": [{"note": a.note, "value": a.value.shown()} for a in judged.job.assumed],
        "revision": judged.job.revision,
    }
