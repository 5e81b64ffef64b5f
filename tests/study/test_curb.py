"""The curb of the demo jobs: hole, strip, gap, distances, notch."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from study_cases import (
    CLEAN,
    CORE_BARRED,
    CURED,
    EMITTER,
    FAULTY,
    FOOT,
    INCH,
    MM,
    NOTCH,
    demo,
    in_metric,
    rules_saying,
    study_job_of,
    study_of,
    study_with,
)

from permitkit.study.study import study_job
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    from permitkit.study.results import CurbStudy, HoleStudy, Study


def curb_of(study: Study) -> CurbStudy:
    assert study.curb is not None
    return study.curb


def hole_of(study: Study) -> HoleStudy:
    hole = curb_of(study).hole
    assert hole is not None
    return hole


def inches(hole: HoleStudy, *names: str) -> list[float]:
    return [round(getattr(hole, f"{name}_m") / INCH, 3) for name in names]


def test_the_clean_hole_is_the_one_worked_by_hand() -> None:
    hole = hole_of(study_of(CLEAN))

    assert inches(hole, "pipe_outside", "bore", "bottom", "invert") == [3.5, 3.042, 0.375, 0.854]
    assert inches(hole, "strip", "gap", "centre_below_top") == [1.625, 0.25, 3.625]
    assert inches(hole, "top", "crown") == [4.375, 3.896]


def test_the_clean_curb_and_what_stands_along_it() -> None:
    curb = curb_of(study_of(CLEAN))

    assert curb.curb_top_m / FOOT == pytest.approx(100.00)
    assert curb.flow_line_m / FOOT == pytest.approx(99.50)
    assert (curb.edge_to_joint_m or 0) / INCH == pytest.approx(24)
    assert curb.near_m["drive"] / FOOT == pytest.approx(9)
    assert curb.edge_to_side_line_m / FOOT == pytest.approx(12 - 2 / 12)


def test_the_faulty_hole_is_the_one_worked_by_hand() -> None:
    hole, curb = hole_of(study_of(FAULTY)), curb_of(study_of(FAULTY))

    assert [round(x, 2) for x in inches(hole, "invert", "strip", "gap")] == [0.51, 1.0, 0.14]
    assert (curb.edge_to_joint_m or 0) / INCH == pytest.approx(5)
    assert curb.near_m["drive"] / FOOT == pytest.approx(2)
    assert hole.window.empty
    assert hole.fitting_bits_m == ()


def test_the_least_reveal_counts_for_the_strip_and_that_at_the_hole_for_the_mark() -> None:
    readings = '["6 in", "6 in", "6 1/8 in"]'
    study = study_with(CLEAN, (readings, '["6 1/8 in", "6 in", "5 7/8 in"]'))
    hole, curb = hole_of(study), curb_of(study)

    assert inches(hole, "strip", "centre_below_top") == [1.5, 3.75]
    assert curb.reveal_at_hole_m / INCH == pytest.approx(6.125)
    assert curb.reveal_m / INCH == pytest.approx(5.875)


@pytest.mark.parametrize("height", ['invert = "0.854 in"', 'centre_below_top = "3 5/8 in"'])
def test_any_one_height_of_the_hole_gives_the_others(height: str) -> None:
    study = study_with(CLEAN, ('hole_bottom = "3/8 in"', height))

    assert inches(hole_of(study), "bottom", "invert", "centre_below_top") == [0.375, 0.854, 3.625]


def test_two_holes_keep_their_distance_and_reach_farther_along_the_curb() -> None:
    hole, curb = hole_of(study_of(CURED)), curb_of(study_of(CURED))

    assert inches(hole, "bottom", "invert", "strip") == [0.125, 0.604, 1.625]
    assert (hole.clear_between_m or 0) / INCH == pytest.approx(20)
    assert curb.half_opening_m / INCH == pytest.approx(14)
    assert (curb.edge_to_joint_m or 0) / INCH == pytest.approx(52.75 - 14)
    assert curb.near_m["drive"] / FOOT == pytest.approx(6, abs=0.03)


def test_grout_fills_the_ring_of_every_hole_through_the_curb() -> None:
    one, two = hole_of(study_of(CLEAN)), hole_of(study_of(CURED))

    assert one.grout_m3 / INCH**3 == pytest.approx(3.14159265 / 4 * (16 - 12.25) * 6)
    assert two.grout_m3 == pytest.approx(2 * one.grout_m3)


def test_a_barrel_held_at_the_pipes_slope_wants_a_higher_hole_to_clear_the_pan() -> None:
    behind = hole_of(study_of(CLEAN))
    street = study_with(
        CLEAN,
        ('drill_from = "behind"', 'drill_from = "street"\nbarrel_out = "14 in"'),
        ('pan_slope = "1/2 in/ft"', 'pan_slope = "1 in/ft"'),
    )
    hole = hole_of(street)

    assert behind.barrel_least_bottom_m == 0
    assert hole.barrel_least_bottom_m / INCH == pytest.approx(1.3, abs=0.02)
    assert "the drill's barrel over the pan" in [b.name for b in hole.window.advice_lows]
    assert hole.window.low == behind.window.low


def test_the_last_reachs_fall_and_the_running_gutter_advise_beside_the_window() -> None:
    clean, faulty = hole_of(study_of(CLEAN)).window, hole_of(study_of(FAULTY)).window
    (fall,) = clean.advice_highs
    (gutter,) = clean.advice_lows

    assert fall.height_m / INCH == pytest.approx((0.5 - 0.115 - 0.15) * 12 - 0.479)
    assert gutter.height_m / INCH == pytest.approx(3 - 0.479 - 3.042)
    assert faulty.advice_highs[0].height_m < 0


def test_without_a_least_slope_the_fall_advises_nothing() -> None:
    curb = study_job(demo(CLEAN), rules_saying("")).curb

    assert curb is not None
    assert curb.hole is not None
    assert curb.hole.window.advice_highs == ()


def test_a_feature_over_the_hole_is_no_distance_away() -> None:
    study = study_with(CLEAN, ('near = "21 ft 2 in"', 'near = "11 ft"'))

    assert curb_of(study).near_m["drive"] == 0


def test_a_kept_hole_is_a_thing_near_and_a_curb_joint_counts_as_one() -> None:
    more = '[[existing]]\nstation = "20 ft"\nsize = "3 in"\nplan = "keep"\n\n'
    more += '[[feature]]\nkind = "curb joint"\nnear = "13 ft"\n\n'
    study = study_with(CLEAN, ('[[feature]]\nkind = "pole"', more + '[[feature]]\nkind = "pole"'))
    curb = curb_of(study)

    assert curb.near_m["existing hole"] / FOOT == pytest.approx(8 - (2 + 1.5) / 12)
    assert (curb.edge_to_joint_m or 0) / INCH == pytest.approx(10)


def test_a_trees_distance_is_to_its_trunk() -> None:
    trunk_edge = 34 - 4.5 / 12

    assert curb_of(study_of(CLEAN)).near_m["tree"] / FOOT == pytest.approx(trunk_edge - 12 - 2 / 12)


def test_the_notch_is_the_one_worked_by_hand() -> None:
    notch, curb = curb_of(study_of(NOTCH)).notch, curb_of(study_of(NOTCH))

    assert notch is not None
    assert notch.width_m / MM == pytest.approx(127)
    assert notch.floor_toe_m / MM == pytest.approx(12.7)
    assert round(notch.floor_back_m / INCH, 2) == 0.74
    assert round((curb.flow_line_m + notch.floor_back_m) / FOOT, 3) == 100.062
    assert round(notch.depth_back_m / INCH, 2) == 3.26
    assert round(curb.curb_top_m / FOOT, 3) == 100.333
    assert notch.core_would_break


def test_a_small_core_in_a_high_roll_would_not_break_its_face() -> None:
    job = demo(NOTCH)
    high = job.curb.model_copy(update={"reveal": (measure(8, "in", Kind.LENGTH),)})
    notch = curb_of(study_job_of(job.model_copy(update={"curb": high}))).notch

    assert notch is not None
    assert not notch.core_would_break


def test_an_outlet_in_the_lawn_has_no_curb_and_a_barred_core_has() -> None:
    assert study_of(EMITTER).curb is None
    assert inches(hole_of(study_of(CORE_BARRED)), "bottom", "strip") == [0.375, 1.625]


def test_an_existing_hole_is_used_at_its_own_size() -> None:
    old = '[[existing]]\nstation = "12 ft"\nsize = "3 1/2 in"\nplan = "reuse"\n\n[outlet]\n'
    study = study_with(
        CLEAN,
        ('[outlet]\nkind = "core"', old + 'kind = "existing hole"'),
        ('bit = "4 in"\n', ""),
    )

    assert inches(hole_of(study), "bit", "gap") == [3.5, 0.0]


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH])
def test_the_same_curb_in_millimetres_is_the_same_curb(name: str) -> None:
    metric = curb_of(study_job_of(in_metric(demo(name))))

    assert replace(metric, near_m={}) == replace(curb_of(study_of(name)), near_m={})
    assert metric.near_m == pytest.approx(dict(curb_of(study_of(name)).near_m))
