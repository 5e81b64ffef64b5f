"""Rules of thumb of the trade, put to the computation on a plain house; no source stands for them.

The house: curb top at 100.00 ft and 6 in high, verge and walk 5 ft each, nearly level ground, one
line of 60 ft from the front wall.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from study_cases import FOOT, GALLON, GPM, INCH
from town import job, sheet

from permitkit.hydraulics.materials import find_pipe
from permitkit.hydraulics.pipe import full_flow
from permitkit.hydraulics.tree import still_water
from permitkit.study.in_force import rules_in_force
from permitkit.study.study import study_job
from permitkit.study.water.line import INSERT
from permitkit.study.water.water import study_water
from permitkit.study.ways import Way, compare_ways

if TYPE_CHECKING:
    from permitkit.model.job import Job

THREE, FOUR = "3 in Sch 40 PVC", "4 in SDR 35 PVC"
LENGTH_FT = 60.0
RAIN = {"intensity": "4 in/hr", "period": "25-year", "duration": "15 min", "source": "custom"}
LEVEL_GROUND, GENTLE_GROUND = 0.010, 0.015
EIGHTH_OF_AN_INCH = 1.0 / 96.0


def house(
    line: str = THREE,
    roof: str = "300 sq ft",
    rise: float = LEVEL_GROUND,
    **outlet: str,
) -> Job:
    """Return the plain house with a hole in its curb."""

    def ground(at_ft: float) -> str:
        return f"{100 + rise * (at_ft - 0.5):.4f} ft"

    bit = "4 in" if line == THREE else "4 1/2 in"
    node = {"name": "N1", "ground": ground(60), "invert": "100.10 ft", "opening": "101.2 ft"}
    reach = {"upper": "N1", "lower": "outlet", "length": f"{LENGTH_FT} ft", "pipe": line}
    inflow = {"name": "roof", "node": "N1", "kind": "roof", "area": roof}
    return job(
        rain=RAIN,
        walk={"level_curb_side": ground(5.5), "level_house_side": ground(10.5)},
        drain={"node": [node], "reach": [reach], "inflow": [inflow]},
        outlet={"bit": bit, "hole_bottom": "1/2 in", "invert": None} | outlet,
    )


def ways_of(plain: Job) -> dict[str, Way]:
    rules = rules_in_force((sheet(""),), plain)
    return {way.kind: way for way in compare_ways(plain, rules) if way.found}


def found(way: Way, what: str) -> float:
    return float(getattr(way.found, what))


@pytest.mark.parametrize(("pipe", "inches"), [(THREE, 3.27), (FOUR, 4.10)])
def test_the_upright_bend_of_an_emitter_costs_about_four_inches(pipe: str, inches: float) -> None:
    emitter = ways_of(house(pipe))["emitter"]

    assert found(emitter, "rise_m") / INCH == pytest.approx(inches, abs=0.01)


@pytest.mark.parametrize("rise", [LEVEL_GROUND, GENTLE_GROUND])
def test_through_the_curb_the_pipe_gains_three_to_four_inches_of_fall(rise: float) -> None:
    ways = ways_of(house(THREE, rise=rise))

    gain = found(ways["core"], "fall_m") - found(ways["emitter"], "fall_m")

    assert 3.0 <= gain / INCH <= 4.0


def test_a_wider_pipe_gains_half_an_inch_less_of_pipe_and_more_of_water() -> None:
    ways = ways_of(house(FOUR))
    core, emitter = ways["core"], ways["emitter"]

    pipe = found(core, "fall_m") - found(emitter, "fall_m")
    water = pipe + found(emitter, "rise_m")

    assert pipe / INCH == pytest.approx(2.52, abs=0.01)
    assert water / INCH == pytest.approx(6.62, abs=0.01)


def test_the_invert_stands_about_an_inch_over_the_gutter_as_high_as_strip_and_curb_allow() -> None:
    text = '[rule]\ncore.strip = { at_least = "1 1/2 in", of = "hole top", cite = "code 1" }'
    plain = house(THREE)
    curb = study_job(plain, rules_in_force((sheet(text),), plain)).curb

    assert curb is not None
    assert curb.hole is not None
    highest = curb.hole.window.high.height_m - curb.hole.bottom_m + curb.hole.invert_m
    assert highest / INCH == pytest.approx(0.98, abs=0.01)


def test_an_inch_keeps_a_trickle_in_the_gutter_out_and_not_the_gutter_of_a_storm() -> None:
    """The inch alone does not do it: a gutter half a curb deep stands some way up the line.

    What keeps the street out of the house is that every opening stands over the curb top.
    """
    plain = house(THREE)
    rules = rules_in_force((sheet(""),), plain)
    water, line, _ = study_water(plain, rules)
    flow_line = water.gutter_levels_m["free"]

    trickle = still_water(line.tree, flow_line + 0.9 * INCH)
    storm = still_water(line.tree, flow_line + 3.0 * INCH)

    assert trickle.volume_m3 == 0.0
    assert storm.reaches[0].wet_length_m / FOOT == pytest.approx(19.5, abs=0.5)
    assert all(node.still_m["curb-full"] < (node.opening_m or 1e9) for node in water.nodes)


@pytest.mark.parametrize("roof", ["300 sq ft", "600 sq ft", "900 sq ft"])
def test_a_core_of_three_and_a_half_inches_takes_a_four_inch_line_with_little_effect(
    roof: str,
) -> None:
    """By an insert of thin wall, 3.25 in outside and 3.11 in inside, through the curb alone.

    From some 45 gpm on the insert is the narrowest place and runs full.
    """
    wide, narrow = house(FOUR, roof), house(FOUR, roof, bit="3 1/2 in", pipe="3 in D2729 PVC")
    free, fitted = (study_job(one, rules_in_force((sheet(""),), one)) for one in (wide, narrow))

    levels = [
        max(node.flowing_m["running"] for node in study.water.nodes if node.name == "N1")
        for study in (free, fitted)
    ]

    assert fitted.water.reaches[0].upper == INSERT
    assert not any(reach.surcharged for reach in fitted.water.reaches)
    assert (levels[1] - levels[0]) / INCH == pytest.approx(0.0, abs=0.05)


@pytest.mark.parametrize(("count", "each_sqft"), [(3, 397), (4, 297), (5, 238), (6, 198)])
def test_a_three_inch_line_serves_three_to_six_downspouts(count: int, each_sqft: int) -> None:
    """At 1/8 in to the foot and 4 in an hour; six of them only where each drains 200 sq ft."""
    pipe = find_pipe("3-sch40")
    carries = full_flow(pipe.section, EIGHTH_OF_AN_INCH, pipe.n)

    sent = count * each_sqft * 4.0 / 96.25 * GPM

    assert sent <= carries < sent * 1.01


def test_a_four_inch_line_carries_twice_as_much() -> None:
    three, four = (find_pipe(key) for key in ("3-sch40", "4-sdr35"))
    flows = [full_flow(pipe.section, EIGHTH_OF_AN_INCH, pipe.n) for pipe in (three, four)]

    assert flows[1] / flows[0] == pytest.approx(2.04, abs=0.01)


def test_a_line_that_stood_half_full_behind_an_emitter_runs_a_quarter_full_through_the_curb() -> (
    None
):
    ways = ways_of(house(FOUR))
    emitter, core = ways["emitter"], ways["core"]
    assert emitter.water is not None
    line = sum(reach.length_m * reach.pipe.section.full.area_m2 for reach in emitter.water.reaches)

    stood = found(emitter, "standing_m3") / line

    assert stood == pytest.approx(0.54, abs=0.01)
    assert found(emitter, "standing_m3") / GALLON == pytest.approx(16.6, abs=0.1)
    assert found(core, "fullness") < 0.25
    assert found(core, "standing_m3") == 0.0
