"""Water left in the line after rain: each pool with its depth, length and volume."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.study.results import Standing
from permitkit.units import same

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.hydraulics.tree import Reach, StillReach, StillWater
    from permitkit.study.water.line import Line

__all__ = ["standing_water"]

LEAST_DEPTH_M = 1e-6


def standing_water(line: Line, still: StillWater) -> tuple[Standing, ...]:
    """Return the pools left standing in the run, from the outlet up.

    Wet stretches that touch at one level are one pool, named for its lowest node.

    Parameters
    ----------
    line
        The run.
    still
        The water that lies in it with nothing at the outlet.
    """
    drawn = {reach.name: reach for reach in line.tree.reaches}
    wet = [(drawn[s.name], s) for s in still.reaches if s.depth_m > LEAST_DEPTH_M]
    pools = [_pool(line, group) for group in _groups(wet)]
    return tuple(sorted(pools, key=lambda pool: (pool.station_low_m, pool.where)))


def _groups(wet: list[tuple[Reach, StillReach]]) -> Iterator[list[tuple[Reach, StillReach]]]:
    """Yield the wet reaches that share water: one level and a chain of common nodes."""
    left = list(wet)
    while left:
        group = [left.pop(0)]
        for member in group:
            touching = [other for other in left if _touch(member, other)]
            group.extend(touching)
            left = [other for other in left if other not in touching]
        yield group


def _touch(one: tuple[Reach, StillReach], other: tuple[Reach, StillReach]) -> bool:
    """Tell whether two wet reaches share a node and a level."""
    ends = {one[0].upper, one[0].lower} & {other[0].upper, other[0].lower}
    return bool(ends) and same(one[1].level_m, other[1].level_m)


def _pool(line: Line, group: list[tuple[Reach, StillReach]]) -> Standing:
    """Return the pool that a group of wet reaches holds."""
    ends = [_wet_ends(line, reach, still) for reach, still in group]
    inverts = {
        name: level
        for reach, _ in group
        for name, level in (
            (reach.upper, reach.upper_invert_m),
            (reach.lower, reach.lower_invert_m),
        )
    }
    return Standing(
        where=min(inverts, key=lambda name: (inverts[name], name)),
        level_m=group[0][1].level_m,
        depth_m=max(still.depth_m for _, still in group),
        length_m=sum(still.wet_length_m for _, still in group),
        volume_m3=sum(still.volume_m3 for _, still in group),
        station_low_m=min(low for low, _ in ends),
        station_high_m=max(high for _, high in ends),
    )


def _wet_ends(line: Line, reach: Reach, still: StillReach) -> tuple[float, float]:
    """Return the stations between which a reach is wet: from its deep end on."""
    low, high = line.stations_m[reach.lower], line.stations_m[reach.upper]
    if reach.slope < 0.0:
        return high - still.wet_length_m, high
    return low, low + still.wet_length_m
