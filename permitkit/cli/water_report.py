"""The water of one job for people, fitting 80 columns, and for programs."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.checks.cures import Cure, find_cures, line_faults
from permitkit.checks.judge import Judged
from permitkit.cli.plain import beside
from permitkit.packet.say import Say, say_for
from permitkit.study.results import WATERS, Window
from permitkit.study.ways import (
    WAYS_HEADS,
    Way,
    compare_ways,
    ways_in_words,
    ways_set_aside,
)
from permitkit.study.window_map import whole_window

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.study.results import Bound, NodeWater, ReachWater, WaterStudy

__all__ = ["SCHEMA", "WaterFound", "as_json", "as_text", "of_job"]

SCHEMA = 1
ROOM = 14
NAME = 9
COLUMNS = (8, 9, 8, 9, 11, 8, 12)


@dataclass(frozen=True, slots=True)
class WaterFound:
    """A judged job, the whole window of its hole, the ways compared, and the cures."""

    judged: Judged
    window: Window | None
    ways: tuple[Way, ...]
    cures: tuple[Cure, ...]


def of_job(judged: Judged) -> WaterFound:
    """Return what is to be told of the water of one job."""
    job, rules, study = judged.job, judged.rules, judged.study
    hole = study.curb.hole if study.curb else None
    window = None if hole is None else whole_window(job, rules, study, hole)
    ways = compare_ways(job, rules)
    return WaterFound(judged, window, ways, find_cures(job, rules.sheets))


def as_text(found: WaterFound) -> str:
    """Return the report for people."""
    judged = found.judged
    say, water = say_for(judged.job), judged.study.water
    lines = [f"{judged.job.site.address}, {judged.rules.sheets[0].title}", ""]
    for head, part in (
        ("FLOWS", _flows(water, say)),
        ("PIPES", _pipes(water, say)),
        ("WATER LEVELS at the design flow, and still with the gutter full", _levels(water, say)),
        ("FALL", _fall(water, say)),
        ("STANDING WATER after rain", _standing(water, say)),
        ("STREET", _street(water, say)),
        ("VERGE", _verge(water, say)),
        ("WINDOW of the hole", _window(found, say)),
        ("WAYS of letting the water go", _ways(found)),
        ("CURES", _cures(found)),
    ):
        told = list(part)
        lines += [head, *told, ""] if told else []
    return "\n".join(lines).rstrip() + "\n"


def _flows(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield the rain with its basis, each inflow, and all together."""
    rain = water.rain
    basis = "not stated"
    if rain.intensity_ms is not None:
        parts = (say.intensity(rain.intensity_ms), rain.period, rain.duration, rain.source)
        basis = ", ".join(part for part in parts if part)
    yield from beside("rain", basis, 2, ROOM)
    for inflow in water.inflows:
        told = [say.flow(inflow.flow_m3s)]
        if inflow.area_m2:
            told.append(f"{say.area(inflow.area_m2)}, {inflow.runoff:.0%} of it runs off")
        if inflow.pump_roof_m2:
            told.append(f"the pump as much as {say.area(inflow.pump_roof_m2)} of roof")
        if inflow.leader_m3s is not None:
            told.append(f"its leaders take {say.flow(inflow.leader_m3s)}")
        yield from beside(inflow.name, "; ".join(told), 2, ROOM)
    yield from beside("together", say.flow(water.total_m3s), 2, ROOM)


def _pipes(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield each reach, the farthest first."""
    for reach in reversed(water.reaches):
        yield from beside(reach.name, _reach(reach, say), 2, ROOM)


def _reach(reach: ReachWater, say: Say) -> str:
    """Return one reach: pipe, slope, what it carries and how full it runs."""
    twin = "twin " if reach.barrels > 1 else ""
    depth = "overloaded" if reach.fullness is None else f"{reach.fullness:.0%} full"
    if reach.pressurised:
        depth = "drowned, full from end to end"
    return (
        f"{say.long(reach.length_m)} of {twin}{reach.pipe.name} at {say.slope(reach.slope)}; "
        f"{say.flow(reach.flow_m3s)} of {say.flow(reach.full_flow_m3s)}, {depth}, "
        f"{say.velocity(reach.full_velocity_ms)} running full"
    )


def _levels(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield a table of the levels at each node, the farthest first."""
    heads = ("", "invert", "opening", *WATERS, "still", "spare")
    yield _columns(heads)
    for node in reversed(water.nodes):
        yield from _node(node, say)
    gutter = (say.level(water.gutter_levels_m[name]) for name in WATERS)
    yield _columns(("gutter", "", "", *map(_bare, gutter), "", ""))


def _node(node: NodeWater, say: Say) -> Iterator[str]:
    """Yield one node; a long name stands on a line of its own."""
    flowing = [node.flowing_m[name] for name in WATERS]
    still = node.still_m[WATERS[-1]]
    spare = "-"
    if node.opening_m is not None:
        highest = max(*node.flowing_m.values(), *node.still_m.values())
        spare = say.small(abs(node.opening_m - highest))
        spare = spare if node.opening_m >= highest else f"-{spare}"
    opening = "sealed" if node.opening_m is None else _bare(say.level(node.opening_m))
    levels = [_bare(say.level(level)) for level in (*flowing, still)]
    name = node.name
    if len(name) > NAME:
        yield f"  {name}"
        name = ""
    yield _columns((name, _bare(say.level(node.invert_m)), opening, *levels, spare))


def _columns(cells: Sequence[str]) -> str:
    first, *rest = cells
    told = (f"{cell:>{room}}" for cell, room in zip(rest, COLUMNS, strict=True))
    return f"  {first:<{NAME}}{''.join(told)}".rstrip()


def _bare(level: str) -> str:
    """Return a level without its unit, which is told once below."""
    return level.partition(" ")[0]


def _fall(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield where the fall goes."""
    fall = water.fall
    ends = f"{say.level(fall.start_level_m)} to {say.level(fall.outlet_level_m)}"
    yield from beside("there is", f"{_signed(fall.available_m, say)}, from {ends}", 2, ROOM)
    for name, need in fall.needs_m:
        yield from beside("needs", f"{say.small(need)} in {name}", 2, ROOM)
    word = "spare" if fall.spare_m >= 0 else "SHORT by"
    yield from beside(word, say.small(abs(fall.spare_m)), 2, ROOM)


def _signed(metres: float, say: Say) -> str:
    return say.small(metres) if metres >= 0 else f"-{say.small(-metres)}"


def _standing(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield what stands after rain, and how an emitter's line empties."""
    emitter = water.emitter
    if emitter is not None:
        held = f"{say.held(emitter.held_m3)} up to the rim"
        yield from beside("the line holds", held, 2, ROOM + 2)
        if emitter.weep_empties_s is not None:
            yield from beside(
                "the weep", f"empties it in {emitter.weep_empties_s / 60:.0f} min", 2, ROOM + 2
            )
        return
    for pool in water.standing:
        told = f"{say.held(pool.volume_m3)}, {say.small(pool.depth_m)} deep at most"
        yield from beside(f"at {pool.where}", f"{told}, over {say.long(pool.length_m)}", 2, ROOM)
    if not water.standing:
        yield "  none"


def _street(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield the gutter's water with and without the job's."""
    street = water.street
    if street is not None:
        for name, flow in (("without it", street.before), ("with it", street.after)):
            told = f"{say.long(flow.spread_m)} wide, {say.small(flow.depth_m)} deep at the curb"
            yield from beside(name, f"{told}, {say.flow(flow.flow_m3s)}", 2, ROOM)


def _verge(water: WaterStudy, say: Say) -> Iterator[str]:
    """Yield what the notches of a job without a pipe pass, and how many would do."""
    verge = water.verge
    if verge is not None:
        passed = f"{verge.count} pass {say.flow(verge.passes_m3s)} with the hollow brim-full"
        need = "no number of them" if verge.needed is None else f"{verge.needed} of them"
        yield from beside("notches", passed, 2, ROOM)
        yield from beside("would do", f"{need}, for {say.flow(verge.flow_m3s)}", 2, ROOM)


def _window(found: WaterFound, say: Say) -> Iterator[str]:
    """Yield the limits on the height of the hole, those that bind, and the window between them."""
    window, curb = found.window, found.judged.study.curb
    if window is None or curb is None or curb.hole is None:
        return
    for word, bounds, binding in (
        ("at least", window.lows, window.low),
        ("at most", window.highs, window.high),
    ):
        for bound in bounds:
            mark = "  BINDS" if bound == binding else ""
            yield from beside(word, f"{_bound(bound, say)}{mark}", 2, ROOM)
    yield from beside("so", _so(window, say), 2, ROOM)
    hole = curb.hole
    proposed = f"hole bottom {_signed(hole.bottom_m, say)}, {say.small(hole.bit_m)} bit"
    marked = f"mark its center {say.small(hole.centre_below_top_m)} below the curb top"
    yield from beside("proposed", f"{proposed}; {marked}", 2, ROOM)


def _bound(bound: Bound, say: Say) -> str:
    source = f" ({bound.source})" if bound.source else ""
    return f"{_signed(bound.height_m, say)}: {bound.name}{source}"


def _so(window: Window, say: Say) -> str:
    """Return the window, or which two limits cross and by how much."""
    low, high = window.low, window.high
    if not window.empty:
        ends = f"{say.small(low.height_m)} and {say.small(high.height_m)}"
        return f"hole bottom between {ends} above the flow line"
    crossed = say.small(low.height_m - high.height_m)
    return f"no height: {low.name} and {high.name} cross by {crossed}"


def _ways(found: WaterFound) -> Iterator[str]:
    """Yield each way with what it does, and those that cannot be built here."""
    for name, *cells in ways_in_words(found.judged.job, found.ways):
        yield f"  {name}"
        for head, cell in zip(WAYS_HEADS[1:], cells, strict=True):
            yield from beside(head.lower(), cell, 4, 20)
    for name, reason in ways_set_aside(found.ways):
        yield from beside("", f"no {name}: {reason}", 2, 0)


def _cures(found: WaterFound) -> Iterator[str]:
    """Yield what would make the line pass; nothing where it passes."""
    if not line_faults(found.judged.verdicts):
        return
    if not found.cures:
        yield "  no change of pipe, height, grade or outlet that was tried helps"
    for number, cure in enumerate(found.cures, 1):
        yield from beside(f"{number}.", "; ".join(cure.changes), 2, 4)
        if cure.passes and not cure.leaves:
            yield from beside("", "passes", 2, 4)
        for verdict in cure.leaves:
            item = f" ({verdict.item})" if verdict.item else ""
            told = f"leaves: {verdict.title}{item}"
            cured = f"; {verdict.cure}" if verdict.cure else ""
            yield from beside("", told + cured, 2, 4)
        for verdict in cure.asks:
            yield from beside("", f"asks: {verdict.title}", 2, 4)


def as_json(found: WaterFound) -> str:
    """Return the report for programs: SI numbers, each with its unit in its name."""
    judged, water = found.judged, found.judged.study.water
    content = {
        "schema": SCHEMA,
        "job": {"address": judged.job.site.address, "filing": judged.job.filing.isoformat()},
        "rain": {
            "intensity_ms": water.rain.intensity_ms,
            "period": water.rain.period,
            "duration": water.rain.duration,
            "source": water.rain.source,
        },
        "inflows": [
            {"name": one.name, "node": one.node, "flow_m3s": one.flow_m3s} for one in water.inflows
        ],
        "reaches": [_reach_row(reach) for reach in water.reaches],
        "nodes": [_node_row(node) for node in water.nodes],
        "gutter_levels_m": dict(water.gutter_levels_m),
        "fall": {
            "available_m": water.fall.available_m,
            "needs_m": dict(water.fall.needs_m),
            "spare_m": water.fall.spare_m,
        },
        "standing": [
            {"where": pool.where, "depth_m": pool.depth_m, "volume_m3": pool.volume_m3}
            for pool in water.standing
        ],
        "window": _window_row(found.window),
        "ways": [_way_row(way) for way in found.ways],
        "cures": [_cure_row(cure) for cure in found.cures],
    }
    return json.dumps(content, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _reach_row(reach: ReachWater) -> dict[str, object]:
    return {
        "name": reach.name,
        "pipe": reach.pipe.key,
        "barrels": reach.barrels,
        "length_m": reach.length_m,
        "slope": reach.slope,
        "flow_m3s": reach.flow_m3s,
        "full_flow_m3s": reach.full_flow_m3s,
        "fullness": reach.fullness,
        "pressurised": reach.pressurised,
    }


def _node_row(node: NodeWater) -> dict[str, object]:
    return {
        "name": node.name,
        "invert_m": node.invert_m,
        "opening_m": node.opening_m,
        "flowing_m": dict(node.flowing_m),
        "still_m": dict(node.still_m),
    }


def _window_row(window: Window | None) -> dict[str, object] | None:
    if window is None:
        return None
    return {
        "low_m": window.low.height_m,
        "low_by": window.low.name,
        "high_m": window.high.height_m,
        "high_by": window.high.name,
        "empty": window.empty,
    }


def _way_row(way: Way) -> dict[str, object]:
    found = way.found
    return {
        "kind": way.kind,
        "proposed": way.proposed,
        "town": way.stance.word,
        "reason": way.reason,
        "fall_m": found.fall_m if found else None,
        "spare_m": found.spare_m if found else None,
        "freeboard_m": found.freeboard_m if found else None,
        "fullness": found.fullness if found else None,
        "standing_m3": found.standing_m3 if found else None,
    }


def _cure_row(cure: Cure) -> dict[str, object]:
    return {
        "changes": list(cure.changes),
        "passes": cure.passes,
        "leaves": [{"check": one.check, "item": one.item} for one in cure.leaves],
        "asks": [one.check for one in cure.asks],
    }
