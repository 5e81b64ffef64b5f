"""Plain houses worked by hand: no source stands behind these numbers but arithmetic.

Levels in feet, sizes in inches, flows in gallons a minute, as a drainage contractor has them.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from permitkit.hydraulics.critical import velocity_head
from permitkit.hydraulics.materials import find_pipe
from permitkit.hydraulics.opening import emptying_time, riser_head
from permitkit.hydraulics.pipe import flow_at, full_flow, normal_depth
from permitkit.hydraulics.profile import GradeLine, grade_line
from permitkit.hydraulics.rain import roof_flow
from permitkit.hydraulics.section import Round
from permitkit.hydraulics.tree import Node, Reach, Tree, still_water

FT, IN = 0.3048, 0.0254
GPM = 231.0 * IN**3 / 60.0
INCH_HOUR = IN / 3600.0
THREE, FOUR = find_pipe("3-sch40"), find_pipe("4-sdr35")


def roof_gpm(area_ft2: float, rain_inhr: float) -> float:
    return roof_flow(area_ft2 * FT**2, rain_inhr * INCH_HOUR) / GPM


def run(*legs: tuple[float, float, float], outlet_ft: float, key: str = "3-sch40") -> Tree:
    """Legs from the outlet up: length, upper invert, inflow; in ft and gpm."""
    pipe, below = find_pipe(key), outlet_ft
    nodes, reaches = [Node("N0", outlet_ft * FT, outlet_ft * FT)], []
    for i, (length, invert, flow) in enumerate(legs, start=1):
        nodes.append(Node(f"N{i}", invert * FT, (invert + 1.0) * FT, flow * GPM))
        ends = invert * FT, below * FT
        reaches.append(
            Reach(f"R{i}", f"N{i}", f"N{i - 1}", length * FT, pipe.section, pipe.n, *ends)
        )
        below = invert
    return Tree(tuple(nodes), tuple(reaches), "N0")


def feet(line: GradeLine, node: str) -> float:
    return line.node(node).level_m / FT


FIRST_INVERT = 99.5 + (0.375 + (4.0 - 3.042) / 2.0) / 12.0


def first_house() -> Tree:
    return run((41.5, 100.0, 11.6 + 12.0), (25.0, 100.26, 15.8), outlet_ft=FIRST_INVERT)


def test_roofs_of_the_first_house_send_as_worked() -> None:
    assert round(roof_gpm(380.0, 4.0), 1) == 15.8
    assert round(roof_gpm(280.0, 4.0), 1) == 11.6


def test_the_first_house_has_the_slopes_and_capacity_worked() -> None:
    lower, upper = first_house().upward

    assert round(100.0 * lower.slope, 3) == 1.033
    assert round(100.0 * upper.slope, 3) == 1.040
    assert round(full_flow(lower.section, lower.slope, lower.n) / GPM, 1) == 49.4


def test_the_first_house_runs_two_thirds_full() -> None:
    line = grade_line(first_house()).reach("R1")

    assert round(line.flow_m3s / GPM, 1) == 39.4
    assert round(line.fullness, 2) == 0.67
    assert round((line.normal_depth_m or 0.0) / FT + 100.0, 2) == 100.17


@pytest.mark.parametrize("tailwater", [None, 99.75])
def test_the_first_house_starts_at_its_own_outlet_whether_the_gutter_runs_or_not(
    tailwater: float | None,
) -> None:
    line = grade_line(first_house(), tailwater and tailwater * FT)

    assert round(line.start_m / FT, 2) == 99.79


def test_an_inlet_asks_for_more_than_normal_depth() -> None:
    """The flow is near critical, so that the head of the entering water counts."""
    line = grade_line(first_house())

    assert line.reach("R1").regime == "near critical"
    assert line.reach("R1").upper_grade_m / FT == pytest.approx(100.18, abs=0.005)
    assert feet(line, "N1") == pytest.approx(100.32, abs=0.005)


def test_a_gutter_to_the_curb_top_lifts_the_first_house_but_not_to_its_opening() -> None:
    line = grade_line(first_house(), 100.0 * FT)

    assert feet(line, "N1") == pytest.approx(100.35, abs=0.005)
    assert line.reach("R2").upper_grade_m / FT == pytest.approx(100.37, abs=0.005)
    assert feet(line, "N2") == pytest.approx(100.43, abs=0.01)
    assert feet(line, "N2") < 101.20


def test_the_first_house_holds_no_water_and_the_still_street_stays_out_of_it() -> None:
    assert still_water(first_house()).volume_m3 == 0.0
    assert still_water(first_house(), 100.0 * FT).node("N2").depth_m == 0.0


SECOND_FLOW_LINE = 100.0 - 5.75 / 12.0
SECOND_INVERT = SECOND_FLOW_LINE + (0.25 + (4.5 - 3.975) / 2.0) / 12.0


def second_house(roof: float = 60.3, sump: float = 30.0) -> Tree:
    return run(
        (11.5, 99.61, 0.0),
        (33.5, 99.50, roof + sump),
        (30.0, 99.68, 0.0),
        outlet_ft=SECOND_INVERT,
        key="4-sdr35",
    )


def test_the_second_house_is_flat_backward_and_overloaded() -> None:
    line = grade_line(second_house())
    flat, adverse, upper = line.reaches

    assert round(roof_gpm(1450.0, 4.0), 1) == 60.3
    assert round(100.0 * flat.slope, 1) == 0.4
    assert round((flat.full_flow_m3s or 0.0) / GPM) == 63
    assert adverse.slope < 0.0
    assert round(100.0 * upper.slope, 1) == 0.6


def test_the_second_house_stands_at_its_grate() -> None:
    line = grade_line(second_house())

    assert line.reach("R2").upper_grade_m / FT == pytest.approx(100.23, abs=0.005)
    assert feet(line, "N2") > 99.92


def test_the_second_house_holds_an_inch_and_a_third_of_water() -> None:
    still = still_water(second_house())

    assert round(still.node("N2").depth_m / IN, 1) == 1.3
    assert still.volume_m3 > 0.0


def test_the_still_street_runs_back_to_the_second_house() -> None:
    level = still_water(second_house(), 100.0 * FT).node("N2").level_m / FT

    assert level == pytest.approx(100.0)
    assert round(12.0 * (level - 99.92)) == 1


def test_two_lines_cure_the_second_house() -> None:
    invert = SECOND_FLOW_LINE + (0.125 + (4.0 - 3.042) / 2.0) / 12.0
    line = grade_line(run((45.0, 100.02, 45.15), outlet_ft=invert)).reach("R1")

    assert round(100.0 * line.slope, 1) == 1.0
    assert round((line.full_flow_m3s or 0.0) / GPM, 1) == 48.6
    assert line.fullness < 0.8


def third_house() -> Tree:
    """A flat tube under the walk, then a round pipe from the box behind it."""
    tube = find_pipe("tube-5x2")
    nodes = (
        Node("N0", 100.062 * FT, 100.0 * FT),
        Node("B", 100.152 * FT, 100.6 * FT),
        Node("N1", 100.402 * FT, 100.963 * FT, 31.3 * GPM),
    )
    reaches = (
        Reach("tube", "B", "N0", 9 * FT, tube.section, tube.n, 100.152 * FT, 100.062 * FT),
        Reach("pvc", "N1", "B", 25 * FT, THREE.section, THREE.n, 100.402 * FT, 100.152 * FT),
    )
    return Tree(nodes, reaches, "N0")


def test_a_flat_tube_carries_less_full_than_nearly_full() -> None:
    tube = find_pipe("tube-5x2")

    assert round(full_flow(tube.section, 0.01, tube.n) / GPM, 1) == 36.4
    assert round(flow_at(tube.section, 1.5 * IN, 0.01, tube.n) / GPM) == 44
    assert flow_at(tube.section, tube.section.brim_m, 0.01, tube.n) / GPM > 49.0


def test_the_third_house_drains_through_its_tube() -> None:
    line = grade_line(third_house(), 100.333 * FT)

    assert round(roof_gpm(520.0, 3.2), 1) == 17.3
    assert line.reach("tube").pressurised
    depth = line.reach("pvc").normal_depth_m or 0.0
    assert 100.402 + depth / FT == pytest.approx(100.55, abs=0.005)
    assert feet(line, "N1") == pytest.approx(100.66, abs=0.01)
    assert feet(line, "N1") < 101.25


def fourth_house() -> Tree:
    return run((20.0, 100.05, 20.2), outlet_ft=99.85, key="4-sdr35")


def test_an_emitter_lets_go_over_its_rim() -> None:
    head = riser_head(FOUR.bore_height_m, 20.2 * GPM) / IN

    line = grade_line(fourth_house(), 100.35 * FT + 2.0 * head * IN)

    assert round(roof_gpm(540.0, 3.6), 1) == 20.2
    assert round(head, 2) == 0.70
    assert round(line.start_m / FT, 2) == 100.47
    assert line.reach("R1").friction_m / FT == pytest.approx(0.01, abs=0.005)


def test_an_emitters_line_stands_full_and_weeps_empty() -> None:
    still = still_water(fourth_house(), outlet_sill_m=100.35 * FT)
    weep = math.pi / 4.0 * (0.375 * IN) ** 2

    assert round(still.volume_m3 / FT**3, 2) == 1.72
    assert round(still.volume_m3 / (60.0 * GPM), 1) == 12.9
    assert round(emptying_time(still.volume_m3, 0.5 * FT, weep) / 60.0) == 22


# Common practice, with no source: the sums must bear it out on a plain house.


def plain_house(key: str, flow: float, fall_in: float, length_ft: float = 50.0) -> Tree:
    return run((length_ft, 100.0 + fall_in / 12.0, flow), outlet_ft=100.0, key=key)


def test_an_emitters_upright_bend_costs_about_four_inches_of_fall() -> None:
    """Its rim stands a pipe and the least of an elbow over the invert; so does the water."""
    rim = FOUR.outside_height_m

    still = still_water(plain_house("4-sdr35", 20.0, 4.0), outlet_sill_m=100.0 * FT + rim)

    assert 3.0 < still.node("N0").depth_m / IN < 5.0
    assert still.node("N1").depth_m < 0.3 * IN


def test_a_nearly_level_line_half_full_behind_an_emitter_runs_quarter_full_through_the_curb() -> (
    None
):
    """Fifty feet with half an inch of fall; the curb gains three to four inches."""
    flow = 6.0
    emitter = plain_house("4-sdr35", flow, 0.5)
    standing = still_water(emitter, outlet_sill_m=100.0 * FT + 2.5 * IN)
    assert standing.node("N1").depth_m > 0.45 * FOUR.bore_height_m

    curb = grade_line(plain_house("4-sdr35", flow, 0.5 + 3.5)).reach("R1")

    assert curb.fullness < 0.25
    assert still_water(plain_house("4-sdr35", flow, 4.0)).volume_m3 == 0.0


def test_an_invert_an_inch_over_the_gutter_keeps_its_running_water_out() -> None:
    tree = plain_house("3-sch40", 20.0, 6.0)

    still = still_water(tree, tailwater_m=(100.0 - 1.0 / 12.0 + 0.95 / 12.0) * FT)

    assert still.volume_m3 == 0.0


def test_a_three_and_a_half_inch_core_takes_a_four_inch_line_through_an_insert() -> None:
    """The insert is eight inches of 3 in pipe, which fits the hole; the line stays 4 in."""
    tree = plain_house("4-sdr35", 35.0, 6.0)
    whole = grade_line(tree)
    line = replace(tree.reaches[0], lower="I", lower_invert_m=100.007 * FT)
    insert = Reach("insert", "I", "N0", 8 * IN, THREE.section, THREE.n, 100.007 * FT, 100.0 * FT)
    nodes = (*tree.nodes, Node("I", 100.007 * FT, 101.0 * FT))

    reduced = grade_line(Tree(nodes, (line, insert), "N0"))

    assert reduced.node("I").rise_by == "reducer"
    assert reduced.node("N1").level_m - whole.node("N1").level_m < 0.25 * IN
    assert reduced.node("I").level_m < line.lower_invert_m + 1.3 * FOUR.bore_height_m


@pytest.mark.parametrize("spouts", [3, 4, 5, 6])
def test_a_three_inch_line_serves_the_downspouts_of_a_small_house(spouts: int) -> None:
    """150 ft2 of roof a spout in 4 in/hr, at a quarter of an inch to the foot."""
    flow = spouts * roof_gpm(150.0, 4.0) * GPM

    assert normal_depth(THREE.section, flow, 0.25 / 12.0, THREE.n) is not None


def test_four_inch_is_preferred_since_it_carries_twice_as_much() -> None:
    three, four = (full_flow(p.section, 0.01, p.n) for p in (THREE, find_pipe("4-sch40")))

    assert four > 2.0 * three


def test_the_head_of_a_plain_drain_is_a_small_part_of_an_inch() -> None:
    speed = 20.0 * GPM / Round(3.042 * IN).full.area_m2

    assert velocity_head(speed) < 0.25 * IN
