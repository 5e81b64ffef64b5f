"""Every way of letting the water go, computed on the run of one job."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from permitkit.errors import InputError
from permitkit.model.drain import OUTLET
from permitkit.model.keys.outlet import OUTLET_ALLOWED, OUTLET_ORDER
from permitkit.model.values import Order
from permitkit.model.vocabulary.outlets import way_of
from permitkit.study.in_force import rules_in_force
from permitkit.study.results import WATERS
from permitkit.study.water.water import study_water
from permitkit.study.ways.hazards import goes, hazards
from permitkit.study.ways.run import run_of
from permitkit.study.ways.variants import VARIANTS
from permitkit.study.ways.way import DryWell, Found, NotHere, Stance, Way
from permitkit.units import Kind, UnitError, read_measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import ReachWater, WaterStudy
    from permitkit.study.water.ground import Ground
    from permitkit.study.water.line import Line

__all__ = ["NAMES", "compare_ways", "stance_on"]

NAMES = {
    "core": "hole cored in the curb",
    "notch": "notch sawn in a rolled curb",
    "emitter": "emitter in the lawn, short of the walk",
    "culvert under walk": "tube or trough under the walk",
    "dry well": "dry well on the lot",
    "storm lateral": "lateral to the storm main",
    "existing hole": "hole already in the curb",
}
ALWAYS = ("core", "notch", "emitter", "culvert under walk", "dry well")
WORST = ("barred", "ask", "not said")
RUNNING = WATERS[1]
DURATION = re.compile(r"(\d+(?:\.\d+)?)[ -]*(min|h|d)\w*", re.IGNORECASE)
SECONDS = {"min": 60.0, "h": 3600.0, "d": 86400.0}


def compare_ways(job: Job, rules: RulesInForce) -> tuple[Way, ...]:
    """Return each way of letting the water go, computed on the same run.

    Parameters
    ----------
    job, rules
        The job and the rules in force for it.

    Returns
    -------
    tuple of Way
        What the job proposes as it stands; every other way with the outlet put in its place, or
        the reason why it cannot be built here.

    Raises
    ------
    InputError
        If the job itself cannot be computed.

    Notes
    -----
    Nothing is guessed: a hole stands as low and a notch is as narrow as rules and pipe allow, an
    emitter stands as near to the street as the town lets it with no more bend than it must have,
    a tube is the smallest that carries the flow, and the rest of the run stays where it is.
    """
    water, line, ground = study_water(job, rules)
    return tuple(_way(job, rules, kind, (water, line, ground)) for kind in _kinds(job, rules))


def stance_on(job: Job, rules: RulesInForce, kind: str) -> Stance:
    """Return what the town says of a way, for the kind of water it is least willing to take."""
    waters = dict.fromkeys(inflow.kind for inflow in job.drain.inflow) or {"roof": None}
    found = [rules.at(OUTLET_ALLOWED, outlet=kind, water=water) for water in waters]
    words = [
        rule.stance if rule.known else "ask" if rule.open and not rule.silent else "not said"
        for rule in found
    ]
    for worst in WORST:
        if worst in words:
            return Stance(worst, found[words.index(worst)].source)
    return Stance(words[0], found[0].source)


def _kinds(job: Job, rules: RulesInForce) -> Iterator[str]:
    """Yield the kinds of outlet that are compared: the usual, the town's own, and the job's."""
    order = rules[OUTLET_ORDER].value
    steps = order.steps if isinstance(order, Order) else ()
    ways = [way for step in steps if (way := way_of(step))]
    plain = [way.kinds[0] for way in ways if len(way.kinds) == 1]
    yield from dict.fromkeys((*ALWAYS, *(kind for kind in plain if kind in NAMES), job.outlet.kind))


def _way(job: Job, rules: RulesInForce, kind: str, studied: tuple[WaterStudy, Line, Ground]) -> Way:
    """Return one way, or the reason why it cannot be built."""
    water, line, ground = studied
    proposed = kind == job.outlet.kind
    name, stance = NAMES[kind], stance_on(job, rules, kind)
    try:
        if proposed:
            other, there = job, water
        elif kind in VARIANTS:
            other = VARIANTS[kind](run_of(job, line, ground), rules, water.total_m3s)
            there = study_water(other, rules_in_force(rules.sheets, other))[0]
        else:
            return _off_the_run(job, water, Way(name, kind, proposed, stance))
    except (NotHere, InputError) as no:
        return Way(name, kind, proposed, stance, reason=_told(no))
    found = found_in(there)
    said = goes(other), hazards(other, there, found)
    return Way(name, kind, proposed, stance, "", *said, other, there, found)


def _told(no: Exception) -> str:
    """Return why a way cannot be built, in one line."""
    if isinstance(no, InputError):
        return "; ".join(f"{fault.where}: {fault.found}" for fault in no.faults)
    return str(no)


def found_in(water: WaterStudy) -> Found:
    """Return what a run does, in the few numbers that ways are compared by."""
    house = max(water.nodes, key=lambda node: (node.station_m, node.name))
    spare = [
        (node.opening_m - max(*node.flowing_m.values(), *node.still_m.values()), node.name)
        for node in water.nodes
        if node.opening_m is not None
    ]
    freeboard, at = min(spare, default=(None, ""))
    return Found(
        fall_m=water.fall.available_m,
        spare_m=water.fall.spare_m,
        house=house.name,
        house_m=house.flowing_m[RUNNING],
        freeboard_m=freeboard,
        freeboard_at=at,
        fullness=max((_fullness(water, n) for n in range(len(water.reaches))), default=0.0),
        standing_m3=_standing_m3(water),
        standing_m=_standing_m(water),
        overloaded=any(reach.surcharged for reach in water.reaches),
        drowned=any(
            reach.lower == OUTLET and reach.grade_low_m >= _crown_m(reach)
            for reach in water.reaches
        ),
        rise_m=_rim_m(water) - water.fall.outlet_level_m if water.emitter else 0.0,
    )


def _fullness(water: WaterStudy, number: int) -> float:
    """Return how full a reach runs: 1 where it runs full from end to end."""
    reach = water.reaches[number]
    if reach.pressurised or reach.fullness is None:
        return 1.0
    return reach.fullness


def _crown_m(reach: ReachWater) -> float:
    """Return the level of a reach's crown at its lower end."""
    return reach.lower_invert_m + reach.pipe.bore_height_m


def _standing_m3(water: WaterStudy) -> float:
    """Return the water that stays after rain: behind an emitter, all that its line holds."""
    if water.emitter is not None:
        return water.emitter.held_m3
    return sum(pool.volume_m3 for pool in water.standing)


def _standing_m(water: WaterStudy) -> float:
    """Return how deep that stands: behind an emitter, from the line's lowest point to the rim."""
    if water.emitter is not None:
        return max(_rim_m(water) - min(node.invert_m for node in water.nodes), 0.0)
    return max((pool.depth_m for pool in water.standing), default=0.0)


def _rim_m(water: WaterStudy) -> float:
    """Return the level of an emitter's rim."""
    emitter = water.emitter
    return emitter.water_level_m - emitter.head_lid_m if emitter else 0.0


def _off_the_run(job: Job, water: WaterStudy, way: Way) -> Way:
    """Return a way that needs no run to the street: a pit on the lot, or a main."""
    if way.kind != "dry well":
        main = job.site.storm_main_distance
        far = f" ({main.shown()} away)" if main else ""
        reason = {
            "storm lateral": f"the level of the storm main{far} is not known",
            "existing hole": "no hole is there to be used again",
        }[way.kind]
        return Way(way.name, way.kind, way.proposed, way.stance, reason=reason)
    soak = _soak_ms(job)
    if soak is None:
        reason = "no soak rate was tested in a bored hole"
        return Way(way.name, way.kind, way.proposed, way.stance, reason=reason)
    seconds = _seconds(water.rain.duration)
    storm = None if seconds is None else water.total_m3s * seconds
    return Way(
        way.name,
        way.kind,
        way.proposed,
        way.stance,
        goes="into the soil of the lot",
        hazards=("what it cannot take rises at the house",),
        pit=DryWell(water.total_m3s / soak, storm),
    )


def _soak_ms(job: Job) -> float | None:
    """Return what the soil takes, if it was tested and told in a unit."""
    try:
        rate = read_measure(job.site.soil_soak_rate, Kind.INTENSITY)
    except UnitError:
        return None
    return float(rate) or None


def _seconds(duration: str) -> float | None:
    """Return a storm's duration in seconds, if it is told in a unit."""
    match = DURATION.fullmatch(duration.strip())
    return float(match[1]) * SECONDS[match[2].lower()] if match else None
