"""An outlet in the lawn: the head over its rim, the water it holds back, and how that drains."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from permitkit.hydraulics.opening import emptying_time, riser_head
from permitkit.hydraulics.tree import still_water
from permitkit.model.drain import OUTLET
from permitkit.study.results import EmitterStudy

if TYPE_CHECKING:
    from permitkit.model.drain import Emitter
    from permitkit.study.water.line import Line

__all__ = ["over_rim_m", "study_emitter"]

LID_TIMES = {"open": 1.0, "pop-up lid": 2.0, "grate": 2.0 ** (2.0 / 3.0)}
"""Head under a lid over that of the open rim: a lid doubles it by our own rule of thumb, and a
grate is taken half clogged, so that its rim is a weir of half the length."""


def over_rim_m(emitter: Emitter, line: Line, flow_m3s: float) -> float:
    """Return the level to which a flow stands over the rim under the lid, in m."""
    return float(emitter.rim) + _heads_m(emitter, line, flow_m3s)[1]


def study_emitter(emitter: Emitter, line: Line, flow_m3s: float) -> EmitterStudy:
    """Return the head over the rim, the water the line holds, what weep and pit do with that."""
    rim = float(emitter.rim)
    head_open, head_lid = _heads_m(emitter, line, flow_m3s)
    still = still_water(line.tree, outlet_sill_m=rim)
    riser = line.tree.node(OUTLET)
    held = still.volume_m3
    return EmitterStudy(
        head_open_m=head_open,
        head_lid_m=head_lid,
        water_level_m=rim + head_lid,
        held_m3=held,
        pit_holds_m3=_pit_m3(emitter),
        weep_empties_s=_weep_s(emitter, held, rim - riser.invert_m),
    )


def _bore_m(line: Line) -> float:
    """Return the bore of the riser: that of the pipe that comes to it."""
    return next(reach.section.height_m for reach in line.tree.upward if reach.lower == OUTLET)


def _heads_m(emitter: Emitter, line: Line, flow_m3s: float) -> tuple[float, float]:
    """Return the head over the open rim, and under the lid."""
    head = riser_head(_bore_m(line), flow_m3s)
    return head, head * LID_TIMES[emitter.lid_loss]


def _pit_m3(emitter: Emitter) -> float | None:
    """Return the water the pit's voids hold, if its size is known."""
    sides = (emitter.pit_length, emitter.pit_width, emitter.pit_depth, emitter.pit_voids)
    length, width, depth, voids = (None if side is None else float(side) for side in sides)
    if length is None or width is None or depth is None or voids is None:
        return None
    return length * width * depth * voids


def _weep_s(emitter: Emitter, held_m3: float, head_m: float) -> float | None:
    """Return the time in which the weep hole empties what is held."""
    if emitter.weep is None or head_m <= 0.0:
        return None
    hole = pi / 4.0 * float(emitter.weep) ** 2
    return emptying_time(held_m3, head_m, hole) if hole > 0.0 else None
