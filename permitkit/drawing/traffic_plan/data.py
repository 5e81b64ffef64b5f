"""The traffic plan in words: what is closed, for how long, what is set, by whom."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.info import day_text
from permitkit.drawing.traffic_plan.on_foot import closed_stations_m

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from permitkit.drawing.traffic_plan.scene import Scene

__all__ = ["traffic_rows"]

_DECIDES = "local code and licensed practice decide"


def traffic_rows(scene: Scene) -> list[tuple[str, str]]:
    """Return the plan as names and statements; what does not apply is left out."""
    return [row for row in (*_street(scene), *_walk(scene), *_setting(scene)) if row[1]]


def _listed(*parts: str) -> str:
    """Return what is said of several things, one after the other."""
    return "; ".join(part for part in parts if part)


def _street(scene: Scene) -> Iterator[tuple[str, str]]:
    """Yield the street, what is taken of it, and the lengths."""
    street, traffic, books = scene.job.street, scene.job.traffic, scene.traffic
    write = scene.figures.distance
    parking = "no parking" if street.parking == "none" else f"parking {street.parking}"
    lanes = f"{street.lanes} lanes" if street.lanes > 1 else "one lane"
    size = f"{street.street_class}, {write(float(street.width))} wide, {lanes}"
    yield "Street", f"{street.name}, {size}, {parking}, {street.speed.shown()}"
    if traffic.lane_taken == "none":
        yield "Taken", "nothing; no lane or parking is closed"
        return
    width = f", {traffic.width_taken.shown()} wide" if traffic.width_taken else ""
    left = "" if books.lane_left_m is None else f"lane left open {write(books.lane_left_m)}"
    yield "Taken", _listed(f"{traffic.lane_taken}{width}", left)
    yield "Taper", _taper(scene)
    yield "Devices", _devices(scene)


def _devices(scene: Scene) -> str:
    """Return how far apart the devices stand, and the space left free before the work."""
    books, write = scene.traffic, scene.figures.distance
    spacing, buffer = books.device_spacing_m, books.buffer_m
    return _listed(
        "" if spacing is None else f"cones or drums, at most {write(spacing)} apart",
        "" if buffer is None else f"buffer {write(buffer)}, where it can be had",
    )


def _taper(scene: Scene) -> str:
    """Return the taper given and the least asked for."""
    given, books, write = scene.job.traffic.taper, scene.traffic, scene.figures.distance
    parts = [f"{given.shown()} given"] if given else []
    parts.extend([] if books.taper_need_m is None else [f"least {write(books.taper_need_m)}"])
    return ", ".join(parts)


def _walk(scene: Scene) -> Iterator[tuple[str, str]]:
    """Yield what is closed to people on foot, and the way round."""
    traffic = scene.job.traffic
    if not traffic.walk_closed:
        yield "Walk", "stays open"
        return
    stations, write = closed_stations_m(scene), scene.figures.distance
    days = f"closed {traffic.walk_closed_days} days" if traffic.walk_closed_days else "closed"
    span = f"from station {write(stations[0])} to {write(stations[1])}" if stations else ""
    yield "Walk", _listed(days, span)
    way = traffic.way_round
    if way is None:
        yield "Way round", "none proposed"
        return
    lacks = (
        "" if way.detectable else "edges not detectable",
        "" if way.ramps else "no ramps",
        "" if way.signs_ahead else "no signs ahead",
    )
    yield "Way round", _listed(way.where, f"{way.width.shown()} clear", *lacks)


def _setting(scene: Scene) -> Iterator[tuple[str, str]]:
    """Yield hours, nights, neighbours, who sets it and whom to call."""
    job, traffic = scene.job, scene.job.traffic
    yield "When", _listed(_days(job.dates.start, job.dates.finish), traffic.hours)
    yield "Overnight", traffic.overnight or ""
    yield "Neighbors", _neighbours(scene)
    yield "Corner", _corner(scene)
    layout = f"layout {traffic.layout}" if traffic.layout else ""
    yield "Layout", _listed(layout, f"set by {traffic.set_by}" if traffic.set_by else "", _DECIDES)
    yield "At any hour", _call(scene)
    yield "Lengths", scene.traffic.source if traffic.lane_taken != "none" else ""


def _days(start: date, finish: date) -> str:
    """Return from when to when, a single day once."""
    last = day_text(finish)
    return last if start == finish else f"{day_text(start)} to {last}"


def _neighbours(scene: Scene) -> str:
    """Return what neighbours meet: drives, notice, bus stop, bins."""
    traffic = scene.job.traffic
    blocked = {"yes": "a drive is blocked", "no": "drives stay open"}.get(
        traffic.drive_blocked, "not known whether a drive is blocked"
    )
    return _listed(
        blocked,
        "neighbors told" if traffic.neighbours_told else "neighbors not yet told",
        "bus stop in the zone" if traffic.bus_stop_in_zone else "no bus stop in the zone",
        f"bins go out {traffic.bin_day}" if traffic.bin_day else "",
    )


def _corner(scene: Scene) -> str:
    """Return the nearest corner, whose sight the devices leave free."""
    site = scene.job.site
    if site.cross_street is None:
        return ""
    away = f", {site.cross_street_distance.shown()}" if site.cross_street_distance else ""
    side = f" to the {site.cross_street_side}" if site.cross_street_side else ""
    return f"{site.cross_street}{away}{side}; keep its corner sight free"


def _call(scene: Scene) -> str:
    """Return whom to call at any hour; a number is never broken between lines."""
    firm = scene.job.firm
    return f"{firm.name}, {firm.phone_24h.replace(' ', chr(0xA0))}" if firm else ""
