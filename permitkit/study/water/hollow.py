"""The hollow between walk and curb that no pipe drains, and the notches that let its water out."""

from __future__ import annotations

from dataclasses import dataclass

from permitkit.hydraulics.bounds import root_between
from permitkit.hydraulics.critical import velocity_head
from permitkit.hydraulics.losses import ENTRANCE_K
from permitkit.hydraulics.opening import notch_critical_depth

__all__ = ["Hollow", "Sawn", "VergeStudy"]

ENTRANCE = ENTRANCE_K["square edge"]
EXIT = 1.0
LITTLE_M3S = 1e-3


@dataclass(frozen=True, slots=True)
class Sawn:
    """One notch as the water meets it: its floor where that is highest, at the curb's back.

    Parameters
    ----------
    width_m
        Of the floor. [m]
    taper
        Run over rise of each side. [-]
    floor_m
        Level of the floor at the back. [m]
    """

    width_m: float
    taper: float
    floor_m: float

    def level_m(self, flow_m3s: float, gutter_m: float | None = None) -> float:
        """Return the level that still water behind the curb needs to send a flow through.

        Parameters
        ----------
        flow_m3s
            Through this notch. [m3/s]
        gutter_m
            Level of the water in the gutter; None for none. [m]

        Notes
        -----
        Critical depth on the floor, or the gutter's water where that stands higher; over it the
        velocity head, half of it once more for the square entrance, and where the notch is drowned
        all of it for the exit. The roll is short, so friction in it is left out.
        """
        if flow_m3s <= 0.0:
            return max(self.floor_m, gutter_m or self.floor_m)
        depth = notch_critical_depth(self.width_m, self.taper, flow_m3s)
        free = self._speed_head(depth, flow_m3s) * (1.0 + ENTRANCE) + self.floor_m + depth
        if gutter_m is None or gutter_m <= self.floor_m + depth:
            return free
        drowned = self._speed_head(gutter_m - self.floor_m, flow_m3s) * (EXIT + ENTRANCE)
        return max(free, gutter_m + drowned)

    def passes_m3s(self, level_m: float, gutter_m: float | None = None) -> float:
        """Return what one notch passes under a level of still water behind the curb, in m3/s."""
        if level_m <= max(self.floor_m, gutter_m or self.floor_m):
            return 0.0
        most = LITTLE_M3S
        while self.level_m(most, gutter_m) < level_m:
            most *= 2.0
        return root_between(lambda flow: self.level_m(flow, gutter_m) - level_m, 0.0, most)

    def _speed_head(self, depth_m: float, flow_m3s: float) -> float:
        """Return the velocity head at a depth over the floor, in m."""
        area = (self.width_m + self.taper * depth_m) * depth_m
        return velocity_head(flow_m3s / area)


@dataclass(frozen=True, slots=True)
class Hollow:
    """The verge as a trough along the curb, lowest along its middle.

    Parameters
    ----------
    low_m, spill_m
        Lowest ground, and the level at which its water goes over the walk. [m]
    length_m, width_m
        Along the curb, and from curb to walk. [m]
    """

    low_m: float
    spill_m: float
    length_m: float
    width_m: float

    def held_m3(self, level_m: float) -> float:
        """Return the water that stands in it to a level, in m3.

        Its width grows evenly from nothing at the lowest ground to the whole verge where it spills.
        """
        depth = max(level_m - self.low_m, 0.0)
        wide = min(depth / (self.spill_m - self.low_m), 1.0) * self.width_m
        return depth * wide / 2.0 * self.length_m


@dataclass(frozen=True, slots=True)
class VergeStudy:
    """Water trapped in the verge, and the notches that let it out.

    Parameters
    ----------
    hollow, sawn
        Where it stands, and one notch.
    count
        Notches.
    needed
        The fewest of their kind that keep the design flow below the brim and, by the town's
        freeboard, below the walk, with the gutter running; None if no number does.
    brim_m
        The lower of the walk's edge and the curb top: over it water goes without any notch. [m]
    flow_m3s, passes_m3s
        The design flow, and what all notches pass with the water at the brim and nothing in the
        gutter. [m3/s]
    """

    hollow: Hollow
    sawn: Sawn
    count: int
    needed: int | None
    brim_m: float
    flow_m3s: float
    passes_m3s: float
