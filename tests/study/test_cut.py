"""The walk cut, the slab over the pipe, the cover, and the sizes that rules and fees count."""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import (
    CLEAN,
    CURED,
    EMITTER,
    FAULTY,
    FOOT,
    INCH,
    MM,
    NOTCH,
    demo,
    in_metric,
    rules_of,
    rules_saying,
    study_job_of,
    study_of,
    study_with,
)

from permitkit.load.rule_sheet import load_layers
from permitkit.study.study import studied, study_job
from permitkit.units import Kind, Measure, measure

if TYPE_CHECKING:
    from permitkit.study.results import CutStudy, Study

PART = 'walk.removal = { one_of = ["whole panels", "part panel"], cite = "pw 1" }\n'
PIECE = PART + 'walk.piece_left = { at_least = "1 m", cite = "pw 1" }'
WHOLE = 'walk.removal = { one_of = ["whole panels"], cite = "pw 1" }'


def slab_inches(study: Study, name: str) -> list[float]:
    return [round(getattr(edge, f"{name}_m") / INCH, 2) for edge in study.cut.slab]


def cover_inches(study: Study) -> dict[str, float]:
    return {point.where: round(point.cover_m / INCH, 1) for point in study.cut.cover}


def feet(cut: CutStudy, *names: str) -> list[float]:
    return [round(getattr(cut, f"{name}_m") / FOOT, 3) for name in names]


def cut_of(left_in: float, width_in: float, rules: str) -> CutStudy:
    """Return a part-panel cut in the clean job's walk, whose joints lie 30 in either side."""
    job = demo(CLEAN)
    sides = {
        "removal": "part panel",
        "width": measure(str(width_in), "in", Kind.LENGTH),
        "left_of_run": measure(str(left_in), "in", Kind.LENGTH),
    }
    job = job.model_copy(update={"cut": job.cut.model_copy(update=sides)})
    return study_job(job, rules_saying(rules)).cut


class TestSlab:
    """How far the pipe stands into the walk."""

    def test_the_clean_pipe_stands_in_the_slab_as_worked_by_hand(self) -> None:
        assert slab_inches(study_of(CLEAN), "into_slab") == [1.61, 1.03]
        assert slab_inches(study_of(CLEAN), "concrete_over") == [2.39, 2.97]

    def test_the_large_pipe_leaves_barely_two_inches(self) -> None:
        assert slab_inches(study_of(FAULTY), "concrete_over")[0] == 2.08

    def test_the_flat_tube_leaves_twice_the_fifty_millimetres(self) -> None:
        over = [edge.concrete_over_m / INCH for edge in study_of(NOTCH).cut.slab]

        assert over == pytest.approx([2.89, 3.37], abs=0.015)
        assert min(over) * INCH / MM > 50

    def test_a_round_pipe_in_its_place_would_not(self) -> None:
        job = demo(NOTCH)
        round_pipe = job.drain.reach[0].pipe
        reaches = tuple(r.model_copy(update={"pipe": round_pipe}) for r in job.drain.reach)
        drain = job.drain.model_copy(update={"reach": reaches})
        outlet = job.outlet.model_copy(update={"pipe": None})
        study = study_job_of(job.model_copy(update={"drain": drain, "outlet": outlet}))

        assert study.cut.slab[0].concrete_over_m / INCH == pytest.approx(1.4, abs=0.05)

    def test_both_edges_are_where_the_tape_found_them(self) -> None:
        edges = study_of(CLEAN).cut.slab

        assert [round(edge.station_m / FOOT, 3) for edge in edges] == [5.5, 10.5]
        assert [edge.edge for edge in edges] == ["curb side", "house side"]
        for edge in edges:
            assert edge.pipe_top_m - edge.pipe_bottom_m == pytest.approx(3.5 * INCH)

    def test_under_a_deep_pipe_the_whole_slab_lies_over_it(self) -> None:
        job = demo(CLEAN)
        lower = {"N1": "99.00 ft", "N2": "99.30 ft"}
        nodes = tuple(
            node.model_copy(update={"invert": measure(lower[node.name][:5], "ft", Kind.LEVEL)})
            for node in job.drain.node
        )
        drain = job.drain.model_copy(update={"node": nodes})
        (_, house_side) = study_job_of(job.model_copy(update={"drain": drain})).cut.slab

        assert house_side.into_slab_m < 0
        assert house_side.concrete_over_m / INCH == pytest.approx(4)

    def test_an_outlet_in_the_lawn_crosses_no_walk(self) -> None:
        assert study_of(EMITTER).cut.slab == ()


class TestCover:
    """Earth over the pipe."""

    def test_the_clean_cover_is_the_one_worked_by_hand(self) -> None:
        found = cover_inches(study_of(CLEAN))

        assert found["back of curb"] == 1.8
        assert found["right-of-way line"] == 3.1
        assert found["N1"] == 6.9
        assert found["N2"] == 5.6

    def test_the_patio_grate_stands_an_inch_over_the_pipe(self) -> None:
        assert cover_inches(study_of(FAULTY))["N1"] == pytest.approx(1, abs=0.1)

    def test_the_cured_line_is_covered_by_more_than_three_inches(self) -> None:
        assert cover_inches(study_of(CURED))["N1"] == pytest.approx(3.6, abs=0.15)

    def test_the_pipe_at_the_house_behind_the_notch(self) -> None:
        assert cover_inches(study_of(NOTCH))["house"] == 3.5

    def test_each_surface_is_looked_at_at_both_ends(self) -> None:
        found = [(point.where, point.surface) for point in study_of(CLEAN).cut.cover]

        assert found == [
            ("back of curb", "verge"),
            ("verge, house side", "verge"),
            ("walk, curb side", "walk"),
            ("walk, house side", "walk"),
            ("right-of-way line", "lawn"),
            ("N1", "lawn"),
            ("N2", "lawn"),
        ]

    def test_the_right_of_way_ends_at_its_line(self) -> None:
        inside = {point.where for point in study_of(CLEAN).cut.cover if point.in_right_of_way}

        assert inside == {
            "back of curb",
            "verge, house side",
            "walk, curb side",
            "walk, house side",
            "right-of-way line",
        }

    def test_a_low_spot_shot_between_nodes_is_looked_at(self) -> None:
        shot = '[[ground]]\nat = "20 ft"\nlevel = "100.10 ft"\n\n# ---- walk and verge'
        study = study_with(CLEAN, ("# ---- walk and verge", shot))
        (point,) = [p for p in study.cut.cover if p.where == "shot at 20 ft"]

        assert point.cover_m / INCH == pytest.approx(
            (100.10 - 99.571167 - 20 * 0.010333) * 12 - 3.271, abs=0.01
        )
        assert point.surface == "lawn"


class TestPanels:
    """What is cut, what is taken out, and what the town's rule would take out."""

    def test_one_whole_panel_is_twenty_five_square_feet(self) -> None:
        cut = study_of(CLEAN).cut

        assert cut.walk_area_m2 / FOOT**2 == pytest.approx(25)
        assert cut.due_area_m2 == pytest.approx(cut.walk_area_m2)
        assert feet(cut, "removed_left", "removed_right", "saw_length") == [-2.5, 2.5, 10.0]
        assert (cut.panels_part_cut, cut.remnant_left_m, cut.remnant_right_m) == (0, 0, 0)
        assert [panel.removed for panel in cut.panels] == [False, True, False]

    def test_a_cut_across_a_joint_touches_two_panels_and_both_are_due(self) -> None:
        cut = study_of(FAULTY).cut

        assert cut.walk_area_m2 / FOOT**2 == pytest.approx(12.5)
        assert cut.due_area_m2 / FOOT**2 == pytest.approx(50)
        assert cut.panels_part_cut == 2
        assert [panel.touched for panel in cut.panels] == [False, True, True, False]
        assert feet(cut, "remnant_left", "remnant_right") == [4.583, 2.917]
        assert feet(cut, "due_left", "due_right") == [-5.833, 4.167]

    def test_volumes_follow_from_the_area(self) -> None:
        cut = study_of(CLEAN).cut

        assert cut.concrete_m3 == pytest.approx(cut.walk_area_m2 * 4 * INCH)
        assert cut.base_m3 == pytest.approx(cut.walk_area_m2 * 4 * INCH)
        assert cut.debris_kg == pytest.approx(cut.concrete_m3 * 2400)

    def test_a_piece_long_enough_may_stay(self) -> None:
        cut = cut_of(20, 40, PIECE.replace("1 m", "10 in"))

        assert feet(cut, "due_left", "due_right") == [-1.667, 1.667]

    def test_a_piece_too_short_goes_to_the_joint(self) -> None:
        cut = cut_of(20, 40, PIECE.replace("1 m", "10 1/16 in"))

        assert feet(cut, "due_left", "due_right") == [-2.5, 2.5]
        assert feet(cut, "remnant_left", "remnant_right") == [0.833, 0.833]

    def test_a_cut_on_a_joint_leaves_no_piece(self) -> None:
        cut = cut_of(30, 40, PIECE)

        assert feet(cut, "remnant_left", "remnant_right", "due_left") == [0.0, 1.667, -2.5]

    def test_where_the_sheet_is_silent_what_is_due_is_what_is_taken(self) -> None:
        cut = cut_of(20, 40, "")

        assert cut.due_area_m2 == cut.walk_area_m2

    def test_whole_panels_taken_anyhow_are_due_as_well(self) -> None:
        cut = study_job(demo(CLEAN), rules_saying(PART)).cut

        assert cut.due_area_m2 / FOOT**2 == pytest.approx(25)

    def test_a_cut_that_is_not_the_walks_whole_width_is_sawn_along_as_well(self) -> None:
        half = study_with(
            FAULTY, ('\nlength = "5 ft"                     # along', '\nlength = "3 ft"  # along')
        ).cut

        assert half.walk_area_m2 / FOOT**2 == pytest.approx(7.5)
        assert feet(half, "saw_length") == [3 + 3 + 2.5]

    @pytest.mark.parametrize(
        ("removal", "left", "right"), [("whole panels", -2.5, 2.5), ("part panel", -0.5, 0.5)]
    )
    def test_a_width_not_given_is_that_of_trench_or_panel(
        self, removal: str, left: float, right: float
    ) -> None:
        job = demo(CLEAN)
        cut = job.cut.model_copy(update={"width": None, "left_of_run": None, "removal": removal})
        found = study_job(job.model_copy(update={"cut": cut}), rules_saying(""))

        assert feet(found.cut, "removed_left", "removed_right") == [left, right]

    def test_a_bored_crossing_takes_no_walk(self) -> None:
        cut = study_with(CLEAN, ('crossing = "cut"', 'crossing = "bored"')).cut

        assert (cut.walk_area_m2, cut.due_area_m2, cut.saw_length_m) == (0, 0, 0)
        assert not any(panel.touched for panel in cut.panels)
        assert len(cut.slab) == 2

    def test_the_steeper_neighbour_sets_the_slope_needed(self) -> None:
        assert study_of(CLEAN).cut.neighbour_slope_needed == pytest.approx(0.02)

    @given(st.floats(0.5, 200.0), st.floats(0.0, 1.0), st.floats(0.0, 60.0))
    def test_whole_panels_always_hold_the_cut_and_end_on_joints(
        self, width_in: float, share: float, joint_in: float
    ) -> None:
        job = demo(CLEAN)
        sides = {
            "width": measure(f"{width_in:.4f}", "in", Kind.LENGTH),
            "left_of_run": measure(f"{share * width_in:.4f}", "in", Kind.LENGTH),
        }
        walk = {"joint_left_of_run": measure(f"{joint_in:.4f}", "in", Kind.LENGTH)}
        job = job.model_copy(
            update={
                "cut": job.cut.model_copy(update=sides),
                "walk": job.walk.model_copy(update=walk),
            }
        )
        cut = study_job(job, rules_saying(WHOLE)).cut
        joints = (cut.removed_left_m + joint_in * INCH) / (60 * INCH)

        assert cut.removed_left_m <= -share * width_in * INCH + 1e-5
        assert cut.removed_right_m >= (1.0 - share) * width_in * INCH - 1e-5
        assert joints == pytest.approx(round(joints), abs=1e-4)
        assert cut.panels_part_cut == 0


class TestSizes:
    """The facts of the second stage, and the money that follows from them."""

    def test_size_facts_are_measures_in_the_authors_units(self) -> None:
        facts = rules_of(CLEAN).facts

        assert facts["walk_area"] == measure(25, "sq ft", Kind.AREA)
        assert facts["trench"] == measure(11, "ft", Kind.LENGTH)
        assert facts["depth"] == measure(12, "in", Kind.LENGTH)
        assert facts["area"] == measure(25 + 6, "sq ft", Kind.AREA)
        assert facts["curb_length"] == measure(0, "ft", Kind.LENGTH)
        assert (facts["holes"], facts["days"]) == (1, 4)

    def test_two_holes_count_two_and_a_notch_is_no_hole(self) -> None:
        assert rules_of(CURED).facts["holes"] == 2
        assert rules_of(NOTCH).facts["holes"] == 0

    def test_a_trench_not_measured_runs_from_the_curb_to_the_line(self) -> None:
        core = study_with(CLEAN, ('trench_length = "11 ft"\n', ""))
        notch = study_with(NOTCH, ('trench_length = "9 ft 6 in"', ""))

        assert feet(core.cut, "trench") == [11.0]
        assert feet(notch.cut, "trench") == [9.5]

    def test_pavement_is_cut_along_the_curb_taken_out(self) -> None:
        job = demo(CLEAN)
        more = {
            "curb_removed": measure(6, "ft", Kind.LENGTH),
            "pavement_cut": measure(2, "ft", Kind.LENGTH),
        }
        job = job.model_copy(update={"cut": job.cut.model_copy(update=more)})
        facts = studied(job, load_layers(job.town))[1].facts

        assert facts["pavement_area"] == measure(12, "sq ft", Kind.AREA)
        assert facts["curb_length"] == measure(6, "ft", Kind.LENGTH)

    def test_a_depth_not_stated_is_the_greatest_by_levels(self) -> None:
        job = demo(CLEAN)
        cut = job.cut.model_copy(update={"trench_depth": None})
        facts = studied(job.model_copy(update={"cut": cut}), load_layers(job.town))[1].facts
        deepest = 100.22 - (99.5 + (0.854 - 0.229) / 12 + 11.5 * 0.0103333)

        assert isinstance(facts["depth"], Measure)
        assert float(facts["depth"]) / FOOT == pytest.approx(deepest, abs=1e-5)

    @pytest.mark.parametrize(
        ("name", "fees", "deposit", "bond"),
        [
            (CLEAN, "250.00", "500.00", "0"),
            (FAULTY, "287.50", "600.00", "0"),
            (CURED, "327.50", "600.00", "0"),
            (NOTCH, "135.00", "0", "5000.00"),
            (EMITTER, "105.00", "0", "0"),
        ],
    )
    def test_money_comes_out_as_worked_by_hand(
        self, name: str, fees: str, deposit: str, bond: str
    ) -> None:
        money = study_of(name).fees

        assert [str(kind.total) for kind in (money.fees, money.deposit, money.bond)] == [
            fees,
            deposit,
            bond,
        ]


@pytest.mark.parametrize("name", [CLEAN, FAULTY, CURED, NOTCH, EMITTER])
def test_the_same_cut_in_millimetres_is_the_same_cut(name: str) -> None:
    metric = study_job_of(in_metric(demo(name))).cut
    plain = study_of(name).cut

    assert asdict(replace(metric, cover=())) == asdict(replace(plain, cover=()))
    assert [point.cover_m for point in metric.cover] == [point.cover_m for point in plain.cover]
