"""The formulas give the numbers that books print."""

from __future__ import annotations

import ast
import math
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from published.rows import UNITS, Row, book, half_digit, rows

from permitkit import hydraulics
from permitkit.hydraulics.critical import GRAVITY_MS2, critical_depth, velocity_at
from permitkit.hydraulics.gutter import (
    Gutter,
    depth_from_spread,
    flow_from_spread,
    gutter_flow,
    pan_share,
    spread_from_flow,
)
from permitkit.hydraulics.losses import (
    ENTRANCE_K,
    bend_loss,
    contraction_k,
)
from permitkit.hydraulics.materials import find_pipe
from permitkit.hydraulics.opening import (
    notch_critical_depth,
    notch_flow,
    orifice_flow,
    riser_flow,
    riser_head,
)
from permitkit.hydraulics.pipe import (
    flow_at,
    full_flow,
    full_velocity,
    mean_velocity,
    normal_depth,
)
from permitkit.hydraulics.profile import outlet_start
from permitkit.hydraulics.rain import (
    IntensityTable,
    leader_flow,
    pump_roof_equivalent,
    roof_flow,
)
from permitkit.hydraulics.section import Box, Round, Section

if TYPE_CHECKING:
    from collections.abc import Callable

ROWS = rows("hydraulics")
Given = dict[str, Any]

PIPE = Round(0.1)
FULL = full_flow(PIPE, 0.01, 0.011)
HEAD_OF_ONE = math.sqrt(2.0 * GRAVITY_MS2)
FOOT = UNITS["ft"]


def section(g: Given) -> Section:
    return Round(g["bore"]) if "bore" in g else Box(g["width"], 2.0 * g["depth"])


def gutter(g: Given) -> Gutter:
    pan = g.get("pan_width", 0.0)
    steeper = g["cross_slope"] + g["depression"] / pan if pan else 0.0
    return Gutter(g["cross_slope"], g["n"], pan, steeper)


def gutter_velocity(g: Given) -> float:
    flow = flow_from_spread(gutter(g), g["spread"], g["grade"])
    return gutter_flow(gutter(g), flow, g["grade"]).velocity_ms


def beyond_the_pan(g: Given) -> float:
    flow = flow_from_spread(gutter(g), g["spread"], g["grade"])
    return flow * (1.0 - pan_share(gutter(g), g["spread"]))


def velocity_ratio(g: Given) -> float:
    depth = g["depth_ratio"] * PIPE.bore_m
    flow = flow_at(PIPE, depth, 0.01, 0.011)
    return velocity_at(PIPE, flow, depth) / full_velocity(PIPE, 0.01, 0.011)


def depth_ratio(g: Given, *, past_full: bool) -> float:
    depth = normal_depth(PIPE, g["flow_ratio"] * FULL, 0.01, 0.011, past_full=past_full)
    assert depth is not None
    return depth / PIPE.bore_m


def conveyance_in_radii(g: Given) -> float:
    return Round(2.0).wetted(2.0 * g["depth_ratio"]).conveyance


def radius_in_radii(g: Given) -> float:
    return Round(2.0).wetted(2.0 * g["depth_ratio"]).hydraulic_radius_m ** (2 / 3)


def slope_for_velocity(g: Given) -> float:
    """Return the slope at which the velocity is reached: it grows as the root of the slope."""
    return (g["velocity"] / full_velocity(section(g), 1.0, g["n"])) ** 2


def velocity_at_depth(g: Given) -> float:
    return velocity_at(section(g), flow_at(section(g), g["depth"], g["slope"], g["n"]), g["depth"])


def tabled_intensity(g: Given) -> float:
    table = book("hydraulics")["atlas14"]
    durations = tuple(float(t.split()[0]) * UNITS[t.split()[1]] for t in table["durations"])
    inch_an_hour = UNITS["in/hr"]
    lines = tuple(tuple(value * inch_an_hour for value in line) for line in table["rows"])
    periods = tuple(float(period) for period in table["periods"])
    return IntensityTable(periods, durations, lines).intensity_ms(g["period"], g["duration"])


def start_level(g: Given) -> float:
    pipe = Round(g["bore"])
    wet = pipe.wetted(g["critical"])
    flow = math.sqrt(GRAVITY_MS2 * wet.area_m2**3 / wet.top_width_m)
    return outlet_start(pipe, flow, 0.0, g["tailwater"])


def critical_ratio(g: Given) -> float:
    flow = g["flow_number"] * math.sqrt(GRAVITY_MS2) * PIPE.bore_m**2.5
    return critical_depth(PIPE, flow) / PIPE.bore_m


QUANTITIES: dict[str, Callable[[Given], float]] = {
    "gutter flow": lambda g: flow_from_spread(gutter(g), g["spread"], g["grade"]),
    "gutter spread": lambda g: spread_from_flow(gutter(g), g["flow"], g["grade"]),
    "gutter flow beyond the pan": beyond_the_pan,
    "gutter pan share": lambda g: pan_share(gutter(g), g["spread"]),
    "gutter depth": lambda g: depth_from_spread(gutter(g), g["spread"]),
    "gutter velocity": gutter_velocity,
    "full flow": lambda g: full_flow(section(g), g["slope"], g["n"]),
    "full velocity": lambda g: full_velocity(section(g), g["slope"], g["n"]),
    "area ratio": lambda g: PIPE.wetted(g["depth_ratio"] * 0.1).area_m2 / PIPE.full.area_m2,
    "velocity ratio": velocity_ratio,
    "flow ratio": lambda g: flow_at(PIPE, g["depth_ratio"] * 0.1, 0.01, 0.011) / FULL,
    "depth ratio": lambda g: depth_ratio(g, past_full=False),
    "depth ratio past full": lambda g: depth_ratio(g, past_full=True),
    "greatest flow ratio": lambda _: flow_at(PIPE, PIPE.brim_m, 0.01, 0.011) / FULL,
    "brim ratio": lambda _: PIPE.brim_m / PIPE.bore_m,
    "conveyance in radii": conveyance_in_radii,
    "radius in radii": radius_in_radii,
    "flow at depth": lambda g: flow_at(section(g), g["depth"], g["slope"], g["n"]),
    "velocity at depth": velocity_at_depth,
    "area at depth": lambda g: section(g).wetted(g["depth"]).area_m2,
    "radius at depth": lambda g: section(g).wetted(g["depth"]).hydraulic_radius_m,
    "mean velocity": lambda g: mean_velocity(g["radius"], g["slope"], g["n"]),
    "slope for velocity": slope_for_velocity,
    "roof flow": lambda g: roof_flow(g["area"], g["intensity"]),
    "one over roof flow": lambda g: 1.0 / roof_flow(g["area"], g["intensity"]),
    "leader flow": lambda g: leader_flow(g["bore"]),
    "leader roof": lambda g: pump_roof_equivalent(leader_flow(g["bore"]), g["intensity"]),
    "roof at another rain": lambda g: pump_roof_equivalent(
        roof_flow(g["area"], g["intensity"]), g["other"]
    ),
    "pump roof": lambda g: pump_roof_equivalent(g["flow"], g["intensity"]),
    "tabled intensity": tabled_intensity,
    "bend constant": lambda g: bend_loss(g["angle"], HEAD_OF_ONE),
    "bend loss": lambda g: bend_loss(g["angle"], g["velocity"]),
    "entrance constant": lambda g: ENTRANCE_K[g["kind"]],
    "contraction": lambda g: contraction_k(g["small"] ** 2, g["large"] ** 2),
    "outlet start": start_level,
    "critical ratio": critical_ratio,
    "critical depth ratio of flow": lambda g: critical_depth(section(g), g["flow"]) / g["bore"],
    "broad weir": lambda g: notch_flow(g["length"], 0.0, g["head"]),
    "notch flow": lambda g: notch_flow(g["floor"], g["taper"], g["head"]),
    "notch critical": lambda g: notch_critical_depth(g["floor"], g["taper"], g["flow"]),
    "riser": lambda g: riser_flow(g["bore"], g["head"]),
    "riser head": lambda g: riser_head(g["bore"], g["flow"]),
    "orifice of a bore": lambda g: orifice_flow(Round(g["bore"]).full.area_m2, g["head"]),
    "pipe outside": lambda g: find_pipe(g["pipe"]).outside_height_m,
    "pipe least wall": lambda g: (
        (find_pipe(g["pipe"]).outside_height_m - find_pipe(g["pipe"]).bore_by_least_wall_m) / 2
    ),
    "pipe bore by least wall": lambda g: find_pipe(g["pipe"]).bore_by_least_wall_m,
    "pipe bore": lambda g: find_pipe(g["pipe"]).bore_height_m,
    "pipe n": lambda g: find_pipe(g["pipe"]).n,
}

WITHOUT_A_ROW = {
    "critical.froude": "one at critical depth, which has rows; a property says so",
    "critical.regime": "a name for the Froude number",
    "critical.specific_energy": "1.5 times critical depth in a box; a property says so",
    "gradual.direct_step": "no solved pipe was found in print; held against the standard step",
    "losses.friction_slope": "the inverse of full_flow and flow_at, which have rows",
    "losses.junction_rise": "the book prints the equation and no number; tested by its limits",
    "opening.emptying_time": "tested against the orifice step by step, and by hand",
    "pipe.flow_each": "a division",
    "profile.grade_line": "no run this small is in print; held against gradual and worked jobs",
    "rain.catchment_area": "half the wall is the code's own rule, with no number to print",
    "rain.round_of_same_area": "geometry of the circle",
    "tree.still_water": "geometry; held against slices",
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_formula_gives_the_printed_number(row: Row) -> None:
    result = QUANTITIES[row.quantity](row.given)

    assert row.misses_by(result) <= 1e-9 * abs(float(row.printed)), result / UNITS[row.unit]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_result_well_off_the_row_is_caught(row: Row) -> None:
    result = QUANTITIES[row.quantity](row.given)

    off = 0.7 if row.compare == "at least" else 1.3

    assert row.misses_by(off * result) > 0.0


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_hydraulics_row_says_where_it_stands(row: Row) -> None:
    assert row.known in {"seen", "memory"}
    assert row.source
    assert row.edition
    assert row.place
    assert bool(row.why) != math.isclose(row.tolerance, half_digit(row.printed))


def test_there_are_at_least_sixty_printed_rows() -> None:
    assert sum(row.kind == "printed" for row in ROWS) >= 60


def formulas() -> set[str]:
    """Every public function of the folder that cites a reference, and what is held as data."""
    found = {"rain.IntensityTable", "materials.find_pipe", "losses.ENTRANCE_K", "section.Section"}
    for path in Path(hydraulics.__path__[0]).glob("*.py"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            cited = isinstance(node, ast.FunctionDef) and "References" in (
                ast.get_docstring(node) or ""
            )
            if cited and path.stem != "bounds" and not node.name.startswith("_"):
                found.add(f"{path.stem}.{node.name}")
    return found


def test_every_formula_has_a_published_row_or_says_why_not() -> None:
    covered = {name for row in ROWS for name in row.formulas}

    assert formulas() - covered - WITHOUT_A_ROW.keys() == set()
    assert covered - formulas() == set()
    assert WITHOUT_A_ROW.keys() & (covered - {"critical.froude"}) == set()
    assert WITHOUT_A_ROW.keys() - formulas() == set()


def test_every_public_function_cites_a_reference() -> None:
    missing = []
    for path in Path(hydraulics.__path__[0]).glob("*.py"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if not isinstance(node, ast.FunctionDef) or node.name.startswith("_"):
                continue
            text = ast.get_docstring(node) or ""
            guards = {"finite", "above_zero", "zero_or_more", "find_pipe"}
            if node.name not in guards and not ("References" in text and ">>>" in text):
                missing.append(f"{path.stem}.{node.name}")

    assert missing == []


def test_a_printed_intensity_is_near_the_line_between_its_neighbours() -> None:
    table = book("hydraulics")["atlas14"]
    periods = tuple(float(period) for period in table["periods"])
    minutes, lines = (5.0, 10.0, 15.0, 30.0, 60.0), [tuple(line) for line in table["rows"]]

    for skip in (1, 2, 3):
        kept = tuple(t for i, t in enumerate(minutes) if i != skip)
        rest = tuple(line for i, line in enumerate(lines[:5]) if i != skip)
        without = IntensityTable(periods, kept, rest)
        for column, period in enumerate(periods):
            guess = without.intensity_ms(period, minutes[skip])

            assert guess == pytest.approx(lines[skip][column], rel=0.06)
