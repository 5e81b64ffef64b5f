"""What is told of each way: the town's word on it, where its water goes, a row for a page."""

from __future__ import annotations

import pytest
from study_cases import CLEAN, CORE_BARRED, EMITTER, FAULTY, NOTCH, altered, demo, rules_saying
from town import edition
from ways_cases import VERGE, hole_already_there, lines_of, of, of_job

from permitkit.study.in_force import rules_in_force
from permitkit.study.ways import WAYS_HEADS, compare_ways, ways_in_words, ways_set_aside
from permitkit.study.ways.hazards import goes


class TestTown:
    """What the town says of each way."""

    def test_a_barred_way_is_told_with_its_section(self) -> None:
        stance = of(CORE_BARRED)["core"].stance

        assert stance.word == "barred"
        assert "9.30" in stance.source

    def test_a_way_the_town_wants_to_be_asked_of_is_told(self) -> None:
        assert of(CLEAN)["emitter"].stance.word == "ask"

    def test_silence_is_told_as_such(self) -> None:
        job = demo(CLEAN)
        (core, *_) = compare_ways(job, rules_in_force((), job))

        assert core.stance.word == "not said"

    def test_the_kind_of_water_that_is_least_wanted_counts(self) -> None:
        rule = edition(
            "outlet.allowed", 'when = { water = "roof" }\nstance = "allowed"\ncite = "pw 1"'
        )
        job = demo(CLEAN)
        (core, *_) = compare_ways(job, rules_saying(rule))

        assert core.stance.word != "allowed"

    def test_the_towns_own_order_adds_its_ways(self) -> None:
        assert set(of(EMITTER)) == {*of(CLEAN), "storm lateral"}

    def test_a_hole_already_there_is_a_way_only_where_it_is_proposed(self) -> None:
        assert "existing hole" not in of(CLEAN)
        assert of(CLEAN, hole_already_there())["existing hole"].proposed


RAMP = '[[feature]]\nkind = "ramp"\nnear = "18 ft"\nfar = "23 ft"\n\n[[feature]]\nkind = "drive"'
INLET = RAMP.replace(
    'kind = "ramp"\nnear = "18 ft"\nfar = "23 ft"', 'kind = "inlet"\nnear = "16 ft"'
)
DRIVE = '[[feature]]\nkind = "drive"'


class TestHazards:
    """Where the water goes then, and what it does there."""

    def test_water_that_runs_past_a_ramp_is_told(self) -> None:
        core = of(CLEAN, (DRIVE, RAMP))["core"]

        assert "past the ramp" in core.goes
        assert any(
            "ramp 6.00 ft down the gutter" in hazard or "ramp 6 ft down" in hazard
            for hazard in core.hazards
        )

    def test_an_inlet_before_the_ramp_takes_it(self) -> None:
        both = RAMP.replace(DRIVE, INLET)
        core = of(CLEAN, (DRIVE, both))["core"]

        assert "to the inlet 4 ft on" in core.goes
        assert core.hazards == ()

    def test_a_gutter_of_unknown_direction_is_told_as_that(self) -> None:
        flows = next(line for line in lines_of(CLEAN) if line.startswith("gutter_flows"))
        job = altered(CLEAN, (flows, ""))

        assert goes(job) == "into the gutter, along it"

    def test_a_pump_in_frost_makes_ice_unless_it_has_a_winter_route(self) -> None:
        ice = "pumped water in frost makes a sheet of ice"

        assert ice in of(FAULTY)["core"].hazards
        assert ice not in of(CLEAN)["core"].hazards

    def test_an_emitter_whose_water_crosses_the_walk_wets_it(self) -> None:
        assert "wets the walk, which freezes" in of(CLEAN)["emitter"].hazards
        assert "wets the walk, which freezes" not in of(EMITTER)["emitter"].hazards

    def test_ground_that_falls_to_the_house_is_told(self) -> None:
        ground = ('at = "11 ft 6 in"\nlevel = "100.22 ft"', 'at = "11 ft 6 in"\nlevel = "99.9 ft"')
        emitter = of(CLEAN, ground)["emitter"]

        assert "toward the house" in emitter.goes
        assert "over the walk" not in emitter.goes

    def test_a_lawn_of_unknown_soil_goes_without(self) -> None:
        soil = next(line for line in lines_of(CLEAN) if line.startswith("soil ="))

        assert of(CLEAN, (soil, ""))["emitter"].goes.endswith("over the walk")

    def test_a_notch_and_its_narrow_kin_catch_wheels_and_leaves(self) -> None:
        assert "leaves stop a narrow notch" in of(VERGE)["notch"].hazards
        assert any("wheels" in hazard for hazard in of(NOTCH)["notch"].hazards)

    def test_water_left_at_a_curb_freezes(self) -> None:
        assert "water left in the line freezes" in of(FAULTY)["core"].hazards


class TestWords:
    """The comparison as rows for a page."""

    @pytest.mark.parametrize("name", [CLEAN, NOTCH, EMITTER, VERGE, FAULTY])
    def test_a_row_has_a_text_for_every_column(self, name: str) -> None:
        ways = tuple(of(name).values())
        rows = ways_in_words(demo(name), ways)

        assert all(len(row) == len(WAYS_HEADS) and all(row) for row in rows)
        assert len(rows) + len(ways_set_aside(ways)) == len(ways)
        assert sum("(proposed)" in row[0] for row in rows) == 1

    def test_the_row_of_what_is_proposed_reads_as_worked(self) -> None:
        row = ways_in_words(demo(CLEAN), tuple(of(CLEAN).values()))[0]

        assert row == (
            "hole cored in the curb (proposed)",
            "8.3 in, 3.6 in spare",
            "100.43 ft at N2; 10.2 in below the opening at N1",
            "67%",
            "none",
            "into the gutter, along it to the right",
            "none seen",
            "allowed (Millrace Town Code, chapter 12, section 12.08)",
        )

    def test_short_fall_overload_and_flooding_are_told_in_words(self) -> None:
        row = ways_in_words(demo(FAULTY), (of(FAULTY)["core"],))[0]

        assert row[1].endswith("3.8 in short")
        assert "above the opening at N1" in row[2]
        assert row[3] == "overloaded"

    def test_a_metric_author_reads_millimetres(self) -> None:
        job = demo(CLEAN).model_copy(update={"units": "metric"})
        row = ways_in_words(job, (of_job(job)["core"],))[0]

        assert row[1] == "210 mm, 91 mm spare"

    def test_a_line_with_no_opening_has_no_freeboard(self) -> None:
        opening = 'opening = "101.20 ft"\nopening_kind = "leaf screen"\n'
        way = of(CLEAN, (opening, "sealed = true\n"))["core"]

        assert way.found is not None
        assert way.found.freeboard_m is None
        assert ways_in_words(demo(CLEAN), (way,))[0][2] == "100.43 ft at N2"

    def test_a_drowned_end_is_told(self) -> None:
        deep = ('depth_running = "3 in"', 'depth_running = "5 in"')
        way = of(CLEAN, deep)["core"]

        assert ways_in_words(demo(CLEAN), (way,))[0][3] == "67%, drowned at its end"
