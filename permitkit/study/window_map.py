"""The whole outlet window: heights and sizes of a hole that curb, town, gutter and run allow.

The window of a hole holds the limits of curb and town; here the run's own stand beside them: the
fall of its last reach, and the water at every opening.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from permitkit.hydraulics.tree import Tree
from permitkit.model.drain import OUTLET
from permitkit.model.keys.run import WATER_FREEBOARD
from permitkit.study.curb import curb_heights
from permitkit.study.results import WATERS, Bound, Window
from permitkit.study.water.levels import three_waters
from permitkit.study.water.line import INSERT
from permitkit.study.water.reaches import laid_at_outlet
from permitkit.study.water.water import study_water
from permitkit.study.window import HoleLimits, HoleSize

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.hydraulics.profile import GradeLine
    from permitkit.hydraulics.tree import StillWater
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import HoleStudy, Study
    from permitkit.study.water.line import Line

__all__ = ["RunLimits", "WindowMap", "run_limits", "whole_window", "window_map"]

HALVINGS = 24
SLACK_M = 1e-9


@dataclass(frozen=True, slots=True)
class RunLimits:
    """The highest the run lets the invert in the hole stand over the flow line, and why."""

    highs: tuple[Bound, ...]

    def joined(self, window: Window, size: HoleSize) -> Window:
        """Return a window of the hole's bottom with these limits as well."""
        highs = (*window.highs, *(_for_bottom(bound, size) for bound in self.highs))
        return replace(window, highs=highs, high=min(highs, key=lambda bound: bound.height_m))


@dataclass(frozen=True, slots=True)
class WindowMap:
    """Trial points of a hole: for every bit, which heights of its bottom satisfy everything.

    Parameters
    ----------
    bits_m, heights_m
        The trials; heights rise. [m]
    windows
        Of each bit the window, None where the pipe does not go in or the town bars the size.
    open
        A row for each bit, a place for each height.
    """

    bits_m: tuple[float, ...]
    heights_m: tuple[float, ...]
    windows: tuple[Window | None, ...]
    open: tuple[tuple[bool, ...], ...]


def run_limits(job: Job, rules: RulesInForce, study: Study) -> RunLimits:
    """Return what the run asks of the invert in the hole.

    Parameters
    ----------
    job, rules, study
        The job, its rules and what was computed of it.

    Notes
    -----
    The water bound is the highest invert at which no water, flowing or still, comes nearer to an
    opening than the town's freeboard, found by halving; where even an invert on the flow line is
    too high, it is told as that much below it.
    """
    _, line, _ = study_water(job, rules)
    flow_line = curb_heights(job).flow_line_m
    gutter = study.water.gutter_levels_m
    highs = (_fall_bound(study, flow_line), _water_bound(job, rules, line, gutter))
    return RunLimits(tuple(bound for bound in highs if bound is not None))


def whole_window(
    job: Job, rules: RulesInForce, study: Study, hole: HoleStudy, limits: RunLimits | None = None
) -> Window:
    """Return the window of the hole that is proposed, the run's limits in it.

    Parameters
    ----------
    job, rules, study
        The job, its rules and what was computed of it.
    hole
        The hole.
    limits
        What the run asks, if it is known already.
    """
    own = limits or run_limits(job, rules, study)
    return own.joined(hole.window, HoleSize(hole.bit_m, hole.pipe_outside_m, hole.bore_m))


def window_map(
    curb: HoleLimits,
    run: RunLimits,
    pipe_m: tuple[float, float],
    bits_m: Sequence[float],
    heights_m: Sequence[float],
) -> WindowMap:
    """Return which of many trial holes satisfy everything at once.

    Parameters
    ----------
    curb, run
        The limits of curb and town, and of the run.
    pipe_m
        Outside and inside diameter of the pipe. [m]
    bits_m, heights_m
        Trial diameters, and heights of the hole's lowest point over the flow line, rising. [m]

    Notes
    -----
    All limits of one bit are heights, so its row is one stretch of open heights.
    """
    heights = tuple(heights_m)
    windows = tuple(_window_of(curb, run, HoleSize(bit, *pipe_m)) for bit in bits_m)
    rows = tuple(_row(window, heights) for window in windows)
    return WindowMap(tuple(bits_m), heights, windows, rows)


def _window_of(curb: HoleLimits, run: RunLimits, size: HoleSize) -> Window | None:
    """Return the window of one bit, None where it takes no pipe or is barred."""
    goes_in = size.outside_m <= size.bit_m and curb.gap.allows(size.gap_m)
    if not goes_in or not curb.bit.allows(size.bit_m):
        return None
    return run.joined(curb.window(size), size)


def _row(window: Window | None, heights_m: tuple[float, ...]) -> tuple[bool, ...]:
    """Return which heights lie in a window."""
    count = len(heights_m)
    if window is None:
        return (False,) * count
    low = bisect_left(heights_m, window.low.height_m - SLACK_M)
    high = bisect_right(heights_m, window.high.height_m + SLACK_M)
    inside = max(high - low, 0)
    return (False,) * low + (True,) * inside + (False,) * (count - low - inside)


def _for_bottom(bound: Bound, size: HoleSize) -> Bound:
    """Return a bound on the invert as one on the hole's bottom."""
    return Bound(bound.height_m - size.invert_up_m, bound.name, bound.source)


def _fall_bound(study: Study, flow_line_m: float) -> Bound | None:
    """Return the highest invert that leaves the last reach the fall it needs, if it needs any."""
    laid = laid_at_outlet(study.water)
    if not laid.need_m:
        return None
    highest = laid.upper_invert_m - laid.need_m - flow_line_m
    return Bound(highest, "the least fall of the last reach")


def _water_bound(
    job: Job, rules: RulesInForce, line: Line, gutter_m: Mapping[str, float]
) -> Bound | None:
    """Return the highest invert at which all water stays below every opening, if there is one."""
    openings = {
        node.name: float(node.ground if node.opening is None else node.opening)
        for node in job.drain.node
        if not node.sealed
    }
    if not openings:
        return None
    flow_line, least = gutter_m[WATERS[0]], float(rules[WATER_FREEBOARD].least or 0)
    low, high = 0.0, curb_heights(job).reveal_m

    def spare(invert_m: float) -> float:
        waters = three_waters(_moved(line, flow_line + invert_m), gutter_m, None, None)
        levels: list[GradeLine | StillWater] = [*waters.flowing.values(), *waters.still.values()]
        return (
            min(
                openings[node.name] - node.level_m
                for water in levels
                for node in water.nodes
                if node.name in openings
            )
            - least
        )

    name, source = "the water at the lowest opening", rules[WATER_FREEBOARD].source
    if spare(high) >= 0.0:
        return None
    short = spare(low)
    if short < 0.0:
        return Bound(short, name, source)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if spare(middle) >= 0.0 else (low, middle)
    return Bound(low, name, source)


def _moved(line: Line, invert_m: float) -> Line:
    """Return a run whose pipe comes to the outlet at another level; an insert moves along."""
    by = invert_m - line.tree.node(OUTLET).invert_m
    moved = {OUTLET, INSERT}
    nodes = tuple(
        replace(node, invert_m=node.invert_m + by) if node.name in moved else node
        for node in line.tree.nodes
    )
    reaches = tuple(
        replace(
            reach,
            lower_invert_m=reach.lower_invert_m + (by if reach.lower in moved else 0.0),
            upper_invert_m=reach.upper_invert_m + (by if reach.upper in moved else 0.0),
        )
        for reach in line.tree.reaches
    )
    return replace(line, tree=Tree(nodes, reaches, OUTLET))
