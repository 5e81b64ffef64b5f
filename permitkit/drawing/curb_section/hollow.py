"""The verge behind a notch without a pipe: its ground, its water, the soil dressed to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.shapes import Pattern, Role, Shape
from permitkit.drawing.sheet_parts.ladder import Rung
from permitkit.drawing.sheet_parts.pane import Pane, Part
from permitkit.drawing.symbols import break_line

if TYPE_CHECKING:
    from permitkit.drawing.curb_section.curb import CurbCut
    from permitkit.drawing.info import Figures
    from permitkit.drawing.shapes import Point
    from permitkit.study.results import Study

__all__ = ["hollow", "hollow_behind_m", "hollow_remark", "hollow_rungs", "hollow_top_m"]

_PAST_M = 0.08
_VERGE = "verge"


def hollow_behind_m(cut: CurbCut, study: Study) -> float | None:
    """Return how far behind the curb the section goes to show the hollow; None without one."""
    if study.water.verge is None or study.curb is None or study.curb.notch is None:
        return None
    return float(cut.job.verge.width) / 2 + _PAST_M


def hollow_top_m(cut: CurbCut, study: Study) -> float:
    """Return how high over the flow line the section goes to show the hollow's ground and water."""
    if study.water.verge is None:
        return 0.0
    level = _level(study)
    water = 0.0 if level is None else level - float(cut.job.gutter.flow_line)
    return max(_lowest(cut, study)[1], water)


def _lowest(cut: CurbCut, study: Study) -> Point:
    """Return where the ground in the verge is lowest: along its middle."""
    verge = study.water.verge
    low = verge.hollow.low_m if verge else 0.0
    middle = cut.back_m + float(cut.job.verge.width) / 2
    return middle, low - float(cut.job.gutter.flow_line)


def hollow(cut: CurbCut, study: Study, pane: Pane) -> Part:
    """Return the verge cut across: ground as it is, dressed to the notch, and the design water."""
    curb = study.curb
    floor = curb.notch.floor_back_m if curb and curb.notch else 0.0
    right, bottom = pane.ground.right, pane.ground.bottom
    low = _lowest(cut, study)
    was = _ground_at_back(cut)
    dressed = ((cut.back_m, min(floor, was)), low, (right, low[1]))
    soil = ((cut.back_m, bottom), (right, bottom), *reversed(dressed))
    old = pane.line((cut.back_m, was), low, Role.REMOVED)
    surface = pane.path(dressed[:2], Role.PROPOSED)
    beyond = pane.line(low, (right, low[1]), Role.GROUND)
    edge = break_line(pane.at(right, bottom), pane.at(right, low[1]))
    hatch = pane.hatched(soil, Pattern.EARTH)
    return Part((*hatch, *old, *surface, *beyond, edge, *_water(cut, study, pane)))


def _ground_at_back(cut: CurbCut) -> float:
    """Return the height of the ground right behind the curb, as it is."""
    level = cut.job.verge.level_curb_side
    return float(level) - float(cut.job.gutter.flow_line) if level is not None else cut.reveal_m


def _level(study: Study) -> float | None:
    """Return the level of the design water in the verge with the gutter running, in m."""
    node = next((node for node in study.water.nodes if node.name == _VERGE), None)
    return node.flowing_m.get("running") if node else None


def _water(cut: CurbCut, study: Study, pane: Pane) -> tuple[Shape, ...]:
    """Return the line of the design water in the verge."""
    level = _level(study)
    if level is None:
        return ()
    height = level - float(cut.job.gutter.flow_line)
    return pane.line((cut.back_m, height), (pane.ground.right, height), Role.WATER)


def hollow_rungs(cut: CurbCut, study: Study, pane: Pane, figures: Figures) -> tuple[Rung, ...]:
    """Return what is told of the hollow, for the right of the section."""
    low = _lowest(cut, study)
    verge, level = study.water.verge, _level(study)
    rows = [
        ("soil dressed down to the floor of the notch", ((cut.back_m + low[0]) / 2, low[1] / 2))
    ]
    if verge:
        rows.append((f"lowest ground in the verge {figures.at_level(verge.hollow.low_m)}", low))
    if level is not None:
        at = (low[0], level - float(cut.job.gutter.flow_line))
        rows.append((f"water at design flow {figures.at_level(level)}", at))
    return tuple(Rung(words, pane.at(*tip)) for words, tip in rows)


def hollow_remark(study: Study, figures: Figures) -> str:
    """Return how many notches let out the verge's water, and how many would do."""
    verge = study.water.verge
    if verge is None:
        return ""
    enough = f"; {verge.needed} of their kind would do" if verge.needed is not None else ""
    flow = figures.flow(verge.flow_m3s)
    letting = "one notch lets" if verge.count == 1 else f"{verge.count} notches let"
    return f"No pipe is laid: {letting} out {flow} that gathers in the verge{enough}."
