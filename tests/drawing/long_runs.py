"""Runs of any length for the profile's tests, made from a demo job: chains, and with branches."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from sheet_marks import demo, restudied

from permitkit.units import Kind, Measure, measure

if TYPE_CHECKING:
    from permitkit.model.drain import Node, Reach
    from permitkit.model.job import Job
    from permitkit.study.results import Study

__all__ = ["branched", "chained"]

FIRST_FT, FALL = 12, Fraction(1, 100)


def _feet(number: Fraction, kind: Kind) -> Measure:
    return measure(number, "ft", kind)


def _node(like: Node, name: str, away_ft: int, index: int) -> Node:
    rise = FALL * away_ft
    opened = index % 3 == 0
    return like.model_copy(
        update={
            "name": name,
            "ground": _feet(Fraction("100.6") + rise, Kind.LEVEL),
            "invert": _feet(Fraction("99.57") + rise, Kind.LEVEL),
            "opening": _feet(101 + rise, Kind.LEVEL) if opened else None,
            "sealed": not opened,
            "cleanout": index % 5 == 0,
            "station": None,
            "offset": None,
        }
    )


def _job(nodes: list[Node], reaches: list[Reach]) -> tuple[Job, Study]:
    job, _ = demo("millrace-clean")
    places = (nodes[-1].name, nodes[0].name, nodes[0].name)
    inflows = tuple(
        inflow.model_copy(update={"node": place})
        for inflow, place in zip(job.drain.inflow, places, strict=True)
    )
    drain = job.drain.model_copy(
        update={"node": tuple(nodes), "reach": tuple(reaches), "inflow": inflows}
    )
    changed = job.model_copy(update={"drain": drain})
    return changed, restudied(changed)


def _chain(count: int, step_ft: int) -> tuple[list[Node], list[Reach]]:
    job, _ = demo("millrace-clean")
    like, pipe = job.drain.node[1], job.drain.reach[1]
    nodes, reaches, lower = [], [], "outlet"
    for index in range(count):
        name, away = f"N{index + 1}", FIRST_FT + step_ft * index
        nodes.append(_node(like, name, away, index))
        length = _feet(Fraction(step_ft if index else FIRST_FT), Kind.LENGTH)
        update = {"upper": name, "lower": lower, "length": length}
        reaches.append(pipe.model_copy(update=update))
        lower = name
    return nodes, reaches


@cache
def chained(count: int, step_ft: int = 10) -> tuple[Job, Study]:
    """Return a run of so many nodes one behind the other, with its study."""
    return _job(*_chain(count, step_ft))


@cache
def branched() -> tuple[Job, Study]:
    """Return a run of four nodes with three short laterals L1 to L3 at N1 and N2."""
    nodes, reaches = _chain(4, 15)
    by_name = {node.name: node for node in nodes}
    for index, lower in enumerate(("N1", "N2", "N2"), 1):
        below = by_name[lower]
        rise = _feet(Fraction(1, 4), Kind.LENGTH)
        update = {
            "name": f"L{index}",
            "invert": below.invert + rise,
            "ground": below.ground + rise,
            "opening": below.ground + 2 * rise,
            "sealed": False,
        }
        nodes.append(below.model_copy(update=update))
        length = _feet(Fraction(8 + index), Kind.LENGTH)
        update = {"upper": f"L{index}", "lower": lower, "length": length}
        reaches.append(reaches[1].model_copy(update=update))
    return _job(nodes, reaches)
