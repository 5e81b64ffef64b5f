"""Checks of an emitter in the lawn."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare import at_least, present, stance, within
from permitkit.checks.proposed import curb_to_emitter, emitters, volume
from permitkit.checks.registry import check
from permitkit.checks.scale import above
from permitkit.model.keys import craft
from permitkit.model.keys import outlet as keys

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "emitter_near_house",
    "emitter_near_line",
    "emitter_near_street",
    "emitter_without_weep",
    "water_crosses_walk",
]

NO_EMITTER = "no emitter is proposed"


@check(
    "emitter-near-street",
    "The emitter is too near the street or the walk",
    reads=(keys.EMITTER_TO_ROW, keys.EMITTER_TO_WALK, craft.EMITTER_TO_CURB),
    idle=NO_EMITTER,
    beyond="The emitter is too far from the street or the walk",
)
def emitter_near_street(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an emitter nearer to the right-of-way line or to the walk than the least.

    Why: water let go close to the walk runs over it, and freezes.
    """
    for emitter in emitters(job):
        for key, distance, what in (
            (keys.EMITTER_TO_ROW, emitter.to_row, "the right-of-way line"),
            (keys.EMITTER_TO_WALK, emitter.to_walk, "the walk"),
            (craft.EMITTER_TO_CURB, curb_to_emitter(job, emitter), "the curb"),
        ):
            cure = f"move the emitter {{short}} back from {what}"
            nearer = f"move the emitter {{short}} nearer to {what}"
            yield at_least(rules[key], distance, item=f"to {what}", cure=cure, other=nearer)


@check(
    "emitter-near-line",
    "The emitter is too near a side line",
    reads=(keys.EMITTER_TO_LINE,),
    idle=NO_EMITTER,
    beyond="The emitter is too far from a side line",
)
def emitter_near_line(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an emitter nearer to a side line than the least.

    Why: water may not be gathered and let go on a neighbour.
    """
    for emitter in emitters(job):
        yield at_least(
            rules[keys.EMITTER_TO_LINE],
            emitter.to_side_line,
            cure="move the emitter {short} away from the side line",
            other="move the emitter {short} nearer to the side line",
        )


@check(
    "emitter-near-house",
    "The emitter stands wrong to the house",
    reads=(keys.EMITTER_TO_HOUSE,),
    idle=NO_EMITTER,
)
def emitter_near_house(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an emitter nearer to the house than the least, or farther than the greatest.

    Why: water let go at the wall comes back to the cellar it was pumped from.
    """
    for emitter in emitters(job):
        yield within(
            rules[keys.EMITTER_TO_HOUSE],
            emitter.to_house,
            item=f"ground falls to the {emitter.falls_to}",
            cure="move the emitter {short} farther from the house",
            other="move the emitter {short} nearer to the house",
        )


@check(
    "water-crosses-walk",
    "Water let go in the yard flows over the walk",
    reads=(keys.EMITTER_OVER_WALK,),
    idle="no water let go in the yard flows over the walk",
)
def water_crosses_walk(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag water let go in the yard that flows over the public walk, where that is barred.

    Why: a wet walk grows slime in summer and ice in winter.
    """
    if any(emitter.crosses_walk for emitter in emitters(job)):
        rule = rules[keys.EMITTER_OVER_WALK]
        cure = "turn the flow to ground that soaks it up, or carry it under the walk"
        yield stance(rule, "flows over the walk", cure=cure)


@check(
    "emitter-without-weep",
    "The emitter has no weep hole, or no pit that takes what the line holds",
    reads=(keys.EMITTER_WEEP,),
    idle=NO_EMITTER,
)
def emitter_without_weep(job: Job, rules: RulesInForce, study: Study) -> Iterator[Finding]:
    """Flag an emitter that cannot empty its line between rains, where the town asks for it.

    Why: a line that stays full freezes and breeds; it must drain to a pit that takes it all.
    """
    rule = rules[keys.EMITTER_WEEP]
    for emitter in emitters(job):
        yield present(
            rule,
            there=emitter.weep is not None,
            what="a weep hole in the elbow",
            item="weep hole",
            cure="drill a weep hole in the elbow, over the pit",
        )
        yield present(
            rule,
            there=pit_takes_all(study),
            what=partial(_pit, job, study),
            item="pit",
            cure=partial(_larger_pit, job, study),
        )


def pit_takes_all(study: Study) -> bool:
    """Tell whether the pit's voids take what the line holds."""
    water = study.water.emitter
    if water is None or water.pit_holds_m3 is None:
        return False
    return not above(water.held_m3, water.pit_holds_m3)


def held(job: Job, study: Study) -> str:
    """Return the water the line holds to the rim, in print."""
    return volume(job, study.water.emitter.held_m3 if study.water.emitter else 0.0)


def _pit(job: Job, study: Study) -> str:
    return f"a pit that takes the {held(job, study)} the line holds"


def _larger_pit(job: Job, study: Study) -> str:
    return f"dig the pit large enough that its voids take {held(job, study)}"
