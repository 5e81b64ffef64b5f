"""Water that lies in a run when nothing flows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.section import Box, Round, Section
from permitkit.hydraulics.tree import Node, Reach, Tree, still_water

PIPE = Round(0.1)


def line(*inverts: float, length: float = 10.0, section: Section = PIPE, **more: float) -> Tree:
    """Nodes from the outlet up, n0 to nk, each reach running from invert to invert."""
    names = [f"n{i}" for i in range(len(inverts))]
    nodes = tuple(Node(name, z, z + 1.0, **more) for name, z in zip(names, inverts, strict=True))
    reaches = tuple(
        Reach(f"r{i}", names[i], names[i - 1], length, section, 0.011, inverts[i], inverts[i - 1])
        for i in range(1, len(inverts))
    )
    return Tree(nodes, reaches, "n0")


def sliced(section: Section, length: float, low: float, high: float, level: float) -> float:
    """Volume in a sloping pipe by 2,000 slices, as a second opinion."""
    count = 2000
    depths = (level - low - (high - low) * (i + 0.5) / count for i in range(count))
    return length / count * sum(section.wetted(max(depth, 0.0)).area_m2 for depth in depths)


def test_a_line_that_falls_all_the_way_holds_nothing() -> None:
    still = still_water(line(0.0, 0.1, 0.2))

    assert still.volume_m3 == 0.0
    assert still.depth_m == 0.0
    assert [reach.wet_length_m for reach in still.reaches] == [0.0, 0.0]


def test_a_dip_holds_water_up_to_the_rise_below_it() -> None:
    still = still_water(line(0.0, 0.05, 0.02, 0.12))

    assert still.node("n2").depth_m == pytest.approx(0.03)
    assert still.node("n3").depth_m == 0.0
    assert still.reach("r2").level_m == pytest.approx(0.05)
    assert still.reach("r2").wet_length_m == pytest.approx(10.0)
    assert still.reach("r3").wet_length_m == pytest.approx(3.0)
    assert still.reach("r1").volume_m3 == 0.0


@given(st.floats(0.0, 0.4), st.floats(0.001, 0.3), st.sampled_from([PIPE, Box(0.12, 0.04)]))
def test_the_volume_agrees_with_slices(level: float, rise: float, section: Section) -> None:
    tree = line(0.0, rise, section=section)

    still = still_water(tree, tailwater_m=level)

    assert still.volume_m3 == pytest.approx(
        sliced(section, 10.0, 0.0, rise, level), rel=2e-3, abs=1e-7
    )


def test_a_level_pipe_holds_the_same_depth_throughout() -> None:
    half, over = (still_water(line(0.0, 0.0), level).reach("r1") for level in (0.05, 0.15))

    assert half.volume_m3 == pytest.approx(PIPE.full.area_m2 * 10.0 / 2.0)
    assert half.wet_length_m == 10.0
    assert over.volume_m3 == pytest.approx(PIPE.full.area_m2 * 10.0)


def test_the_wet_length_follows_the_slope() -> None:
    reach = still_water(line(0.0, 0.2), tailwater_m=0.15).reach("r1")

    assert reach.wet_length_m == pytest.approx(7.5)


def test_an_emitter_holds_the_line_full_to_its_rim() -> None:
    still = still_water(line(0.0, 0.06), outlet_sill_m=0.15)

    assert still.node("n1").depth_m == pytest.approx(0.09)


def test_the_street_stands_in_only_over_every_rise_on_the_way() -> None:
    tree = line(0.0, 0.3, 0.1)

    below, above = still_water(tree, 0.25), still_water(tree, 0.35)

    assert below.node("n0").level_m == 0.25
    assert below.node("n2").level_m == pytest.approx(0.3)
    assert above.node("n2").level_m == pytest.approx(0.35)


def test_a_gutter_below_the_outlet_leaves_the_line_dry() -> None:
    assert still_water(line(0.0, 0.1), tailwater_m=-0.2).volume_m3 == 0.0


def test_a_pit_counts_by_its_plan() -> None:
    pit = Node("pit", -0.3, 1.0, 0.0, plan_area_m2=0.25)
    curb = Node("curb", 0.0, 0.5)
    reach = Reach("r", "pit", "curb", 10.0, PIPE, 0.011, 0.1, 0.0)

    still = still_water(Tree((pit, curb), (reach,), "curb"))

    assert still.node("pit").volume_m3 == pytest.approx(0.4 * 0.25)
    assert still.volume_m3 == pytest.approx(0.1)


def test_twin_pipes_hold_twice_as_much() -> None:
    nodes = (Node("dip", 0.0, 1.0), Node("curb", 0.05, 1.0))
    one, two = (
        Tree(nodes, (Reach("r", "dip", "curb", 5.0, PIPE, 0.011, 0.0, 0.05, barrels=n),), "curb")
        for n in (1, 2)
    )

    assert still_water(two).volume_m3 == pytest.approx(2.0 * still_water(one).volume_m3)


def test_a_name_that_is_not_there_is_a_key_error() -> None:
    still = still_water(line(0.0, 0.1))

    with pytest.raises(KeyError, match="nowhere"):
        still.node("nowhere")
    with pytest.raises(KeyError, match="nowhere"):
        still.reach("nowhere")


def test_a_level_that_is_no_number_is_named() -> None:
    with pytest.raises(OutOfRange, match="tailwater must be a finite number, not nan"):
        still_water(line(0.0, 0.1), tailwater_m=float("nan"))
