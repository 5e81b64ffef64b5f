"""The changes that might make a failing line pass: each one job, changed in one respect."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, hypot
from typing import TYPE_CHECKING

from permitkit.checks.proposed import size
from permitkit.hydraulics.materials import PIPES, find_pipe
from permitkit.model.drain import OUTLET
from permitkit.model.job import Job
from permitkit.model.keys.outlet import CORE_APART
from permitkit.study.curb import curb_limits, round_about_m
from permitkit.study.ways import compare_ways
from permitkit.study.window import HoleSize
from permitkit.units import Kind, Measure, from_si, measure
from permitkit.units.table import unit_named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.hydraulics.materials import Pipe
    from permitkit.model.drain import Reach
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import HoleStudy, Study
    from permitkit.study.window import HoleLimits

__all__ = ["Change", "changes"]

SHORTER_M = 0.01
LEVEL_M = 1e-6
EVEN_M = 0.003


@dataclass(frozen=True, slots=True)
class Change:
    """One change.

    Parameters
    ----------
    mark
        What it changes and to what, such as `pipe 4-sch40`, whatever else is changed with it.
    words
        The change in words.
    job
        The job with it.
    effort
        How much is to be done: the lower, the sooner chosen.
    """

    mark: str
    words: str
    job: Job
    effort: int

    @property
    def group(self) -> str:
        """What it changes: height, bit, grade, route, pipe, split or way."""
        return self.mark.partition(" ")[0]


def changes(job: Job, rules: RulesInForce, study: Study) -> Iterator[Change]:
    """Yield every single change of a line that might cure it, the smallest first.

    Parameters
    ----------
    job, rules, study
        The job, its rules and what was computed of it.
    """
    yield from _lower(job, study)
    yield from _bits(job, study)
    yield from _even(job, study)
    yield from _straight(job)
    yield from _pipes(job, rules, study)
    yield from _split(job, rules)
    yield from _ways(job, rules)


def _lower(job: Job, study: Study) -> Iterator[Change]:
    """Yield the hole as low as its window lets it stand."""
    hole = study.curb.hole if study.curb else None
    if hole is None or hole.window.empty:
        return
    bottom = _in_window(job, hole)
    if abs(float(bottom) - hole.bottom_m) > LEVEL_M:
        words = f"set the hole bottom {bottom.shown()} above the flow line"
        yield Change("height", words, _with_hole(job, hole_bottom=bottom), 1)


def _in_window(job: Job, hole: HoleStudy) -> Measure:
    """Return the lowest height of the window that the crew's tape has, else the lowest."""
    return _on_tape(job, hole.window.low.height_m, hole.window.high.height_m)


def _on_tape(job: Job, low_m: float, high_m: float) -> Measure:
    unit = "mm" if job.units == "metric" else "in"
    step = unit_named(unit, Kind.LENGTH).step
    low, high = (from_si(end, Kind.LENGTH, unit).in_(unit) for end in (low_m, high_m))
    rounded = ceil(low / step) * step
    return measure(rounded if rounded <= high else low, unit, Kind.LENGTH)


def _with_hole(job: Job, **fields: object) -> Job:
    """Return the job with other sizes of its hole; a height given takes the place of any other."""
    heights = {"hole_bottom": None, "invert": None, "centre_below_top": None}
    update = {**heights, **fields} if "hole_bottom" in fields else fields
    return job.model_copy(update={"outlet": job.outlet.model_copy(update=update)})


def _bits(job: Job, study: Study) -> Iterator[Change]:
    """Yield the hole of every other bit that fits, as low as it may stand."""
    hole = study.curb.hole if study.curb else None
    if hole is None:
        return
    for bit in hole.fitting_bits_m:
        if abs(bit - hole.bit_m) > LEVEL_M:
            words = f"core with a {size(job, bit)} bit"
            yield Change(f"bit {size(job, bit)}", words, _with_hole(job, bit=_small(job, bit)), 1)


def _small(job: Job, metres: float) -> Measure:
    return from_si(metres, Kind.LENGTH, "mm" if job.units == "metric" else "in")


def _even(job: Job, study: Study) -> Iterator[Change]:
    """Yield the run on one even grade from its upper end to the outlet, if it is not so now."""
    nodes = {node.name: node for node in study.water.nodes}
    lower = {reach.upper: reach.lower for reach in study.water.reaches}
    if not lower:
        return
    far = max(nodes.values(), key=lambda node: (node.station_m, node.name))
    end = nodes[OUTLET]
    grade = (far.invert_m - end.invert_m) / (far.station_m - end.station_m)
    moved, name = {}, lower[far.name]
    while name != OUTLET:
        even = end.invert_m + grade * (nodes[name].station_m - end.station_m)
        if abs(even - nodes[name].invert_m) > EVEN_M:
            moved[name] = even
        name = lower[name]
    own = {node.name for node in job.drain.node} & moved.keys()
    if own:
        told = ", ".join(f"{name} at {_level(job, moved[name]).shown()}" for name in sorted(own))
        yield Change("grade", f"lay the run on one even grade: {told}", _regraded(job, moved), 2)


def _level(job: Job, metres: float) -> Measure:
    return from_si(metres, Kind.LEVEL, "m" if job.units == "metric" else "ft")


def _regraded(job: Job, moved: dict[str, float]) -> Job:
    """Return the job with other inverts at some nodes."""
    nodes = tuple(
        node.model_copy(update={"invert": _level(job, moved[node.name])})
        if node.name in moved
        else node
        for node in job.drain.node
    )
    return _with_drain(job, node=nodes)


def _with_drain(job: Job, **parts: object) -> Job:
    return job.model_copy(update={"drain": job.drain.model_copy(update=parts)})


def _straight(job: Job) -> Iterator[Change]:
    """Yield the run straight from node to node, if it is longer now or has bends."""
    at = {
        node.name: (float(node.station), float(node.offset))
        for node in job.drain.node
        if node.station is not None and node.offset is not None
    }
    at.setdefault(OUTLET, (float(job.outlet.station), 0.0))
    told, reaches = [], []
    for reach in job.drain.reach:
        straight = _straightened(job, reach, at)
        reaches.append(straight)
        if straight is not reach:
            told.append(f"{reach.upper} to {reach.lower} {straight.length.shown()} long, no bends")
    if told:
        yield Change(
            "route", f"run straight: {'; '.join(told)}", _with_drain(job, reach=tuple(reaches)), 2
        )


def _straightened(job: Job, reach: Reach, at: dict[str, tuple[float, float]]) -> Reach:
    """Return a reach as short as the plan lets it be, without bends; itself if it is so now."""
    length = reach.length
    if reach.upper in at and reach.lower in at:
        (x1, y1), (x2, y2) = at[reach.upper], at[reach.lower]
        way = hypot(x1 - x2, y1 - y2)
        if way < float(reach.length) - SHORTER_M:
            length = from_si(way, Kind.LENGTH, "m" if job.units == "metric" else "ft")
    if length is reach.length and not reach.bends:
        return reach
    return reach.model_copy(update={"length": length, "bends": ()})


def _pipes(job: Job, rules: RulesInForce, study: Study) -> Iterator[Change]:
    """Yield the whole line in every other round pipe, the next larger bore first."""
    if not job.drain.reach:
        return
    now = {find_pipe(reach.pipe).key for reach in job.drain.reach}
    least = min(find_pipe(reach.pipe).bore_height_m for reach in job.drain.reach)
    round_ones = (pipe for pipe in PIPES.values() if pipe.shape == "round" and {pipe.key} != now)
    for pipe in sorted(round_ones, key=lambda one: (one.bore_height_m < least, one.bore_height_m)):
        yield from _in_pipe(job, rules, study, pipe)


def _in_pipe(job: Job, rules: RulesInForce, study: Study, pipe: Pipe) -> Iterator[Change]:
    """Yield the line in one pipe; in a curb with the bit it needs, or by the old pipe as insert."""
    reaches = tuple(r.model_copy(update={"pipe": pipe.key}) for r in job.drain.reach)
    laid, words, mark = _with_drain(job, reach=reaches), f"lay {pipe.name}", f"pipe {pipe.key}"
    effort = 2 if pipe.wall == "thick" else 3
    hole = study.curb.hole if study.curb else None
    if hole is None or study.curb is None:
        yield Change(
            mark, words, _with_hole(laid, pipe=pipe.key) if job.outlet.pipe else laid, effort
        )
        return
    limits = curb_limits(job, rules)
    outside = round_about_m(pipe)
    bit = next(iter(limits.fitting_bits_m(outside, pipe.bore_height_m)), None)
    old = job.outlet.pipe or next(r.pipe for r in job.drain.reach if r.lower == OUTLET)
    if bit is not None:
        bottom = _lowest(job, limits, HoleSize(bit, outside, pipe.bore_height_m))
        bored = _with_hole(laid, pipe=pipe.key, bit=_small(job, bit), hole_bottom=bottom)
        told = f"{words}, core {size(job, bit)} with its bottom {bottom.shown()} up"
        yield Change(mark, told, bored, effort)
    elif find_pipe(old).bore_height_m < pipe.bore_height_m:
        told = f"{words}, with {find_pipe(old).name} through the curb"
        yield Change(mark, told, _with_hole(laid, pipe=old), effort + 1)


def _lowest(job: Job, limits: HoleLimits, bored: HoleSize) -> Measure:
    """Return the lowest height in the window of another hole."""
    window = limits.window(bored)
    return _on_tape(job, window.low.height_m, window.high.height_m)


def _split(job: Job, rules: RulesInForce) -> Iterator[Change]:
    """Yield two lines side by side through two holes, as near as the town lets them stand."""
    if job.outlet.kind != "core" or job.outlet.count > 1 or job.outlet.bit is None:
        return
    clear = rules[CORE_APART].least or job.outlet.bit
    apart = job.outlet.bit + clear
    reaches = tuple(reach.model_copy(update={"barrels": 2}) for reach in job.drain.reach)
    words = f"lay two lines side by side, through two holes {apart.shown()} apart"
    yield Change(
        "split", words, _with_hole(_with_drain(job, reach=reaches), count=2, spacing=apart), 4
    )


def _ways(job: Job, rules: RulesInForce) -> Iterator[Change]:
    """Yield the run let go in every other way that can be built and that the town does not bar."""
    for way in compare_ways(job, rules):
        if way.job is not None and not way.proposed and way.stance.word != "barred":
            yield Change(f"way {way.kind}", f"let the water go by {_a(way.name)}", way.job, 5)


def _a(name: str) -> str:
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
