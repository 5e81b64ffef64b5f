"""The water of the demo jobs, to the digits their designers worked out by hand."""

from __future__ import annotations

import math
from dataclasses import asdict

import pytest
from study_cases import (
    CLEAN,
    CUBIC_FOOT,
    CURED,
    EMITTER,
    FAULTY,
    FOOT,
    GALLON,
    GPM,
    INCH,
    NOTCH,
    demo,
    in_metric,
    near,
    node_at,
    reach,
    study_job_of,
    study_of,
    study_with,
)

from permitkit.study.results import WATERS


class TestClean:
    """Roof and sump water to a core in a barrier curb."""

    def test_rain_on_each_roof_and_the_pump_make_the_design_flow(self) -> None:
        water = study_of(CLEAN).water

        assert [round(inflow.flow_m3s / GPM, 1) for inflow in water.inflows] == [15.8, 11.6, 12.0]
        assert near(water.total_m3s / GPM, "39.4")
        assert water.outlet_flow_m3s == pytest.approx(water.total_m3s)

    def test_the_rain_is_the_towns_with_its_whole_basis(self) -> None:
        rain = study_of(CLEAN).water.rain

        assert rain.intensity_ms == pytest.approx(4.0 * INCH / 3600)
        assert (rain.period, rain.duration, rain.missing) == ("25-year", "15 min", ())
        assert "Millrace" in rain.source

    def test_slopes_and_capacity_are_those_worked_by_hand(self) -> None:
        lower, upper = study_of(CLEAN).water.reaches

        assert near(lower.slope * 100, "1.033")
        assert near(upper.slope * 100, "1.040")
        assert near(lower.full_flow_m3s / GPM, "49.4")
        assert near(lower.fullness or 0, "0.67")

    def test_the_line_starts_above_the_running_gutter(self) -> None:
        water = study_of(CLEAN).water

        assert near(water.gutter_levels_m["running"] / FOOT, "99.75")
        assert near(water.reaches[0].grade_low_m / FOOT, "99.79")

    def test_normal_depth_at_the_house_corner_is_as_worked_by_hand(self) -> None:
        lower = reach(study_of(CLEAN), "N1 to outlet")

        assert near((lower.upper_invert_m + (lower.normal_depth_m or 0)) / FOOT, "100.17")

    def test_curb_full_water_backs_up_by_friction_and_stays_below_every_opening(self) -> None:
        corner, end = node_at(study_of(CLEAN), "N1"), node_at(study_of(CLEAN), "N2")

        assert corner.flowing_m["curb-full"] / FOOT == pytest.approx(100.37, abs=0.03)
        assert end.flowing_m["curb-full"] / FOOT == pytest.approx(100.40, abs=0.04)
        assert (corner.opening_m or 0) / FOOT == pytest.approx(101.20)
        assert end.opening_m is None

    def test_no_water_stands(self) -> None:
        assert study_of(CLEAN).water.standing == ()

    def test_a_reach_over_the_line_lies_in_both_places_under_every_surface_it_meets(self) -> None:
        lower, upper = study_of(CLEAN).water.reaches

        assert lower.places == ("right-of-way", "private")
        assert lower.surfaces == ("curb", "verge", "walk", "lawn")
        assert (upper.places, upper.surfaces) == (("private",), ("lawn",))

    def test_the_fall_is_what_the_two_reaches_need_and_the_rest_is_spare(self) -> None:
        fall = study_of(CLEAN).water.fall
        needs = dict(fall.needs_m)

        assert fall.available_m / INCH == pytest.approx((100.26 - 99.5) * 12 - 0.854, abs=1e-9)
        assert needs["N2 to N1"] / FOOT == pytest.approx(25 * 0.005)
        assert needs["N1 to outlet"] / FOOT == pytest.approx(11.5 * 0.01 + 30 * 0.005)
        assert fall.spare_m == pytest.approx(fall.available_m - sum(needs.values()))


class TestFaulty:
    """A line too large, too flat, and backward by the patio."""

    def test_the_flow_is_half_as_much_again_as_the_first_reach_carries(self) -> None:
        first = reach(study_of(FAULTY), "R to outlet")

        assert near(first.flow_m3s / GPM, "90.3")
        assert first.full_flow_m3s / GPM == pytest.approx(63.66, abs=0.01)
        assert first.surcharged
        assert first.normal_depth_m is None
        assert first.fullness is None

    def test_slopes_come_from_the_levels(self) -> None:
        slopes = [round(r.slope * 100, 2) for r in study_of(FAULTY).water.reaches]

        assert slopes == [0.41, -0.33, 0.6]

    def test_a_reach_that_ends_on_the_right_of_way_line_is_all_in_it(self) -> None:
        first, second, _ = study_of(FAULTY).water.reaches

        assert (first.places, second.places) == (("right-of-way",), ("private",))

    def test_an_inch_and_a_third_of_water_stands_about_the_patio(self) -> None:
        (pool,) = study_of(FAULTY).water.standing

        assert pool.where == "N1"
        assert near(pool.depth_m / INCH, "1.3")
        assert pool.station_low_m / FOOT == pytest.approx(11.5)
        assert pool.station_high_m / FOOT == pytest.approx(45 + 0.11 / 0.006)
        assert pool.length_m / FOOT == pytest.approx(33.5 + 0.11 / 0.006)
        assert near(pool.volume_m3 / GALLON, "4.0")

    def test_design_flow_rises_over_the_patio_grate(self) -> None:
        patio, line = node_at(study_of(FAULTY), "N1"), reach(study_of(FAULTY), "N1 to R")

        assert near(line.grade_high_m / FOOT, "100.23")
        assert patio.flowing_m["free"] > (patio.opening_m or math.inf)

    def test_the_curb_full_street_stands_an_inch_over_the_grate_without_any_flow(self) -> None:
        patio = node_at(study_of(FAULTY), "N1")

        assert near(patio.still_m["curb-full"] / FOOT, "100.00")
        assert near((patio.still_m["curb-full"] - (patio.opening_m or 0)) / INCH, "1")

    def test_the_fall_budget_is_short(self) -> None:
        assert study_of(FAULTY).water.fall.spare_m < 0


class TestCured:
    """Two small lines side by side."""

    def test_two_barrels_share_the_flow(self) -> None:
        (line,) = study_of(CURED).water.reaches

        assert line.barrels == 2
        assert near(line.flow_m3s / 2 / GPM, "45.1")
        assert line.full_flow_m3s / 2 / GPM == pytest.approx(48.6, abs=0.6)
        assert not line.surcharged

    def test_two_like_reaches_are_one_with_two_barrels(self) -> None:
        job = demo(CURED)
        single = job.drain.reach[0].model_copy(update={"barrels": 1})
        drain = job.drain.model_copy(update={"reach": (single, single)})

        twice = study_job_of(job.model_copy(update={"drain": drain}))

        assert twice.water.reaches == study_of(CURED).water.reaches
        assert twice.water.nodes == study_of(CURED).water.nodes


class TestNotch:
    """A flat steel tube to a notch in a rolled curb."""

    def test_flows_and_capacities(self) -> None:
        tube, pipe = study_of(NOTCH).water.reaches

        assert near(tube.flow_m3s / GPM, "31.3")
        assert tube.full_flow_m3s / GPM == pytest.approx(36.4, abs=0.4)
        assert near(pipe.full_flow_m3s / GPM, "48.6")

    def test_the_pipe_ends_at_the_back_of_the_curb_on_the_notch_floor(self) -> None:
        tube = study_of(NOTCH).water.reaches[0]

        assert tube.station_low_m / FOOT == pytest.approx(1.0)
        assert near(tube.lower_invert_m / FOOT, "100.062")

    def test_the_gutter_waters_and_the_line_at_the_house(self) -> None:
        water = study_of(NOTCH).water

        assert near(water.gutter_levels_m["running"] / FOOT, "100.167")
        assert near(water.gutter_levels_m["curb-full"] / FOOT, "100.333")
        assert water.reaches[1].grade_high_m / FOOT == pytest.approx(100.55, abs=0.01)
        assert node_at(study_of(NOTCH), "house").opening_m == pytest.approx(101.25 * FOOT)


class TestEmitter:
    """An outlet in the lawn, with its weep and pit."""

    def test_head_over_the_rim_doubles_under_the_lid(self) -> None:
        emitter = study_of(EMITTER).water.emitter

        assert emitter is not None
        assert near(emitter.head_open_m / INCH, "0.70")
        assert emitter.head_lid_m == pytest.approx(2 * emitter.head_open_m)
        assert near(emitter.water_level_m / FOOT, "100.47")

    def test_friction_adds_a_hundredth_of_a_foot(self) -> None:
        line = study_of(EMITTER).water.reaches[0]

        assert near((line.grade_high_m - line.grade_low_m) / FOOT, "0.01")

    def test_the_line_holds_what_the_weep_empties_and_the_pit_takes(self) -> None:
        emitter = study_of(EMITTER).water.emitter

        assert emitter is not None
        assert near(emitter.held_m3 / CUBIC_FOOT, "1.72")
        assert near(emitter.held_m3 / GALLON, "12.9")
        assert near((emitter.weep_empties_s or 0) / 60, "22")
        assert near((emitter.pit_holds_m3 or 0) / CUBIC_FOOT, "2.4")

    def test_without_a_weep_or_a_whole_pit_neither_is_told(self) -> None:
        job = demo(EMITTER)
        assert job.outlet.emitter is not None
        bare = job.outlet.emitter.model_copy(update={"weep": None, "pit_voids": None})
        outlet = job.outlet.model_copy(update={"emitter": bare})
        emitter = study_job_of(job.model_copy(update={"outlet": outlet})).water.emitter

        assert emitter is not None
        assert (emitter.weep_empties_s, emitter.pit_holds_m3) == (None, None)

    def test_water_held_to_the_rim_is_no_belly(self) -> None:
        assert study_of(EMITTER).water.standing == ()

    def test_the_whole_run_lies_on_the_lot(self) -> None:
        assert [r.places for r in study_of(EMITTER).water.reaches] == [("private",)]

    @pytest.mark.parametrize(("lid", "times"), [("open", 1.0), ("grate", 2 ** (2 / 3))])
    def test_another_lid_takes_another_head(self, lid: str, times: float) -> None:
        study = study_with(EMITTER, ('lid_loss = "pop-up lid"', f'lid_loss = "{lid}"'))
        emitter = study.water.emitter

        assert emitter is not None
        assert emitter.head_lid_m == pytest.approx(times * emitter.head_open_m)


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_the_same_job_in_metres_gives_the_same_water(name: str) -> None:
    metric = in_metric(demo(name))

    assert asdict(study_job_of(metric).water) == asdict(study_of(name).water)


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_every_number_of_the_water_is_finite(name: str) -> None:
    water = study_of(name).water
    levels = [
        level
        for node in water.nodes
        for found in (node.flowing_m, node.still_m)
        for level in found.values()
    ]

    assert all(map(math.isfinite, levels))
    assert all(set(node.flowing_m) == set(WATERS) for node in water.nodes)


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_a_higher_gutter_never_lowers_the_water(name: str) -> None:
    for node in study_of(name).water.nodes:
        for levels in (node.flowing_m, node.still_m):
            free, running, full = (levels[water] for water in WATERS)
            assert free <= running <= full
