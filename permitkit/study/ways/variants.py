"""The job with another outlet in place of its own: every size from the job, a rule or the curb."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.hydraulics.materials import PIPES, find_pipe
from permitkit.hydraulics.pipe import full_flow
from permitkit.model.drain import OUTLET, Emitter, Node, Outlet
from permitkit.model.keys.outlet import (
    EMITTER_TO_HOUSE,
    EMITTER_TO_ROW,
    EMITTER_TO_WALK,
    NOTCH_FLOOR,
    NOTCH_SLOPE,
    NOTCH_WIDTH,
)
from permitkit.study.curb import curb_heights, curb_limits, round_about_m
from permitkit.study.ways.run import Run, length, level
from permitkit.study.ways.way import NotHere
from permitkit.study.window import HoleSize

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.hydraulics.materials import Pipe
    from permitkit.model.job import Job
    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import RulesInForce
    from permitkit.units import Measure

__all__ = ["VARIANTS", "with_core", "with_culvert", "with_emitter", "with_notch"]

ROLLS = {"rolled", "half-round"}
MIDDLE = "behind walk"
"""The node behind the walk at which a pipe goes over into a flat tube."""


def with_core(run: Run, rules: RulesInForce, flow_m3s: float) -> Job:
    """Return the job with a hole cored in its curb, as low as every rule lets it stand.

    Raises
    ------
    NotHere
        If the curb is rolled or there is none, or no hole that takes the pipe fits it.
    """
    del flow_m3s
    job = run.job
    if job.curb.shape == "none":
        raise NotHere("there is no curb")
    if job.curb.shape in ROLLS:
        raise NotHere(f"a core would break out of the {job.curb.shape} curb")
    ended = run.ended(0.0)
    pipe = _last_pipe(ended)
    outside = round_about_m(pipe)
    limits = curb_limits(job, rules)
    bits = limits.fitting_bits_m(outside, pipe.bore_height_m)
    if not bits:
        reveal = job.curb.reveal[0].shown()
        raise NotHere(f"no hole that takes {pipe.name} fits a {reveal} curb and the town's rules")
    window = limits.window(HoleSize(bits[0], outside, pipe.bore_height_m))
    return _let_go(
        ended,
        "core",
        bit=length(job, bits[0]),
        hole_bottom=length(job, window.low.height_m),
        drill_from=job.outlet.drill_from,
        barrel_out=job.outlet.barrel_out,
    )


def with_notch(run: Run, rules: RulesInForce, flow_m3s: float) -> Job:
    """Return the job with a notch sawn in its rolled curb, as wide as the pipe behind it.

    Raises
    ------
    NotHere
        If the curb does not roll, or the pipe stands over its back.
    """
    del flow_m3s
    job, heights = run.job, curb_heights(run.job)
    if job.curb.shape not in ROLLS:
        raise NotHere(f"a notch is sawn in a rolled curb; this one is {job.curb.shape}")
    ended = run.ended(heights.depth_m)
    pipe = _last_pipe(ended)
    toe, slope = _least(rules, NOTCH_FLOOR), _least(rules, NOTCH_SLOPE)
    if toe + slope * heights.depth_m - pipe.wall_m + pipe.outside_height_m > heights.reveal_m:
        raise NotHere(f"{pipe.name} stands over the back of a {job.curb.reveal[0].shown()} curb")
    width = max(pipe.outside_m[0], _least(rules, NOTCH_WIDTH))
    return _let_go(ended, "notch", **_opening(ended.job, rules, width))


def with_emitter(run: Run, rules: RulesInForce, flow_m3s: float) -> Job:
    """Return the job with an emitter in the lawn short of the walk, its rim level with the ground.

    The upright bend costs no more than it must: the line comes to it with its top at the ground.

    Raises
    ------
    NotHere
        If there is no room for it between the right-of-way line and the house.
    """
    del flow_m3s
    job = run.job
    row = float(job.site.row_line_offset)
    walk_m = curb_heights(job).depth_m + float(job.verge.width) + float(job.walk.width)
    at = _emitter_m(run, rules, row, walk_m)
    ended = run.ended(at)
    pipe = _last_pipe(ended)
    rim = run.ground_m(at)
    rise = pipe.outside_height_m - pipe.wall_m
    falls = rim > float(job.walk.level_house_side)
    house = job.site.house
    front = float(house.front_offset) if house else max(run.behind_m.values())
    station = float(job.outlet.station)
    emitter = Emitter(
        rim=level(job, rim),
        rise=length(job, rise),
        to_row=length(job, at - row),
        to_side_line=length(job, min(station, float(job.site.frontage) - station)),
        to_walk=length(job, at - walk_m),
        to_house=length(job, front - at),
        falls_to="street" if falls else "house",
        crosses_walk=falls,
    )
    last = Node(name=OUTLET, ground=level(job, rim), invert=level(job, rim - rise))
    drained = ended.with_drain(node=(*ended.nodes, last))
    outlet = Outlet(kind="emitter", station=job.outlet.station, emitter=emitter)
    return drained.model_copy(update={"outlet": outlet})


def with_culvert(run: Run, rules: RulesInForce, flow_m3s: float) -> Job:
    """Return the job with a flat tube under the walk, the smallest that carries the flow.

    Raises
    ------
    NotHere
        If there is no walk, or no tube that is sold carries the flow.
    """
    job, heights = run.job, curb_heights(run.job)
    if job.curb.shape == "none" or not job.walk.width.si:
        raise NotHere("there is no curb and walk to pass under")
    behind = heights.depth_m + float(job.verge.width) + float(job.walk.width)
    ended = run.ended(behind)
    end = heights.flow_line_m + _least(rules, NOTCH_FLOOR)
    end += _least(rules, NOTCH_SLOPE) * heights.depth_m
    slope = _slope(ended, end, heights.depth_m)
    tube = _tube(flow_m3s, slope)
    middle = end + slope * (behind - heights.depth_m)
    ground = job.walk.level_house_side
    node = Node(name=MIDDLE, ground=ground, invert=level(job, middle), sealed=True)
    joined = tuple(
        reach.model_copy(update={"lower": MIDDLE}) if reach.lower == OUTLET else reach
        for reach in ended.job.drain.reach
    )
    under = ended.lowest()[0].model_copy(
        update={
            "upper": MIDDLE,
            "lower": OUTLET,
            "length": length(job, behind - heights.depth_m),
            "pipe": tube.key,
            "bends": (),
            "surface": "walk",
            "barrels": 1,
        }
    )
    drained = ended.with_drain(node=(*ended.nodes, node), reach=(*joined, under))
    outlet = _opening(job, rules, tube.outside_m[0])
    new = Outlet(kind="culvert under walk", station=job.outlet.station, pipe=tube.key, **outlet)
    return drained.model_copy(update={"outlet": new})


VARIANTS: dict[str, Callable[[Run, RulesInForce, float], Job]] = {
    "core": with_core,
    "notch": with_notch,
    "emitter": with_emitter,
    "culvert under walk": with_culvert,
}
"""The ways that are computed, in the order they are told: by the kind of outlet."""


def _let_go(ended: Run, kind: str, **fields: object) -> Job:
    """Return the job let go at the curb by a kind of outlet with these sizes."""
    old = ended.job.outlet
    outlet = Outlet.model_validate({"kind": kind, "station": old.station, **fields})
    return ended.job.model_copy(update={"outlet": outlet})


def _opening(job: Job, rules: RulesInForce, width_m: float) -> dict[str, Measure]:
    """Return the opening in the curb for a notch or a tube: as low and as flat as may be."""
    least = rules[NOTCH_SLOPE].least
    found = {"width": length(job, width_m), "floor_toe": length(job, _least(rules, NOTCH_FLOOR))}
    return found | ({"floor_slope": least} if least is not None else {})


def _last_pipe(ended: Run) -> Pipe:
    """Return the pipe that comes to the outlet."""
    return find_pipe(ended.lowest()[0].pipe)


def _least(rules: RulesInForce, key: RuleKey) -> float:
    """Return the least a rule sets, in SI; zero where it sets none."""
    return float(rules[key].least or 0)


def _emitter_m(run: Run, rules: RulesInForce, row_m: float, walk_m: float) -> float:
    """Return how far behind the curb face an emitter may stand at the nearest.

    Raises
    ------
    NotHere
        If that is nearer to the house than the town lets it stand.
    """
    house = run.job.site.house
    near = max(row_m + _least(rules, EMITTER_TO_ROW), walk_m + _least(rules, EMITTER_TO_WALK))
    if house is None:
        return near
    front, most = float(house.front_offset), rules[EMITTER_TO_HOUSE].most
    near = near if most is None else max(near, front - float(most))
    if near >= front - _least(rules, EMITTER_TO_HOUSE):
        raise NotHere("no room for it between the right-of-way line and the house")
    return near


def _slope(ended: Run, end_m: float, depth_m: float) -> float:
    """Return the fall over length from the nearest node to a level at the back of the curb."""
    nearest = min(ended.nodes, key=lambda node: ended.behind_m[node.name])
    return (float(nearest.invert) - end_m) / (ended.behind_m[nearest.name] - depth_m)


def _tube(flow_m3s: float, slope: float) -> Pipe:
    """Return the smallest flat tube that carries a flow.

    Raises
    ------
    NotHere
        If none that is sold does.
    """
    tubes = sorted(
        (pipe for pipe in PIPES.values() if pipe.shape == "box"),
        key=lambda pipe: pipe.section.full.area_m2,
    )
    for tube in tubes:
        if slope > 0.0 and full_flow(tube.section, slope, tube.n) >= flow_m3s:
            return find_pipe(tube.key)
    raise NotHere("no flat tube that is sold carries the flow at this fall")
