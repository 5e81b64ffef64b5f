"""What a profile says in words: its tick list, buried lines, the pipe in the walk, the outlet."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest
from sheet_marks import HAND_DIG_M, INFO, demo, faults_of, length, text_of, with_table

from permitkit.drawing.profile import profile
from permitkit.drawing.profile.course import course_of
from permitkit.drawing.profile.crossings import hand_dug_m
from permitkit.errors import InputError
from permitkit.model.site import GroundPoint

FOOT = 0.3048
TICK_LIST = {
    "node names": "N1",
    "stations": "station 41 ft 6 in",
    "ground": "100.85 ft",
    "invert": "100.26 ft",
    "reach length, size, slope": "41 ft 6 in of 3 in Sch 40 PVC at 1.03 %",
    "cover least, and where": "least cover 1 13/16 in, back of curb",
    "walk slab to thickness, pipe in it": "concrete walk 4 in thick, pipe up to 1 5/8 in into it",
    "concrete over it": "at least 2 3/8 in over the pipe",
    "free gutter": "gutter flow line 99.50 ft",
    "running gutter": "running gutter 99.75 ft",
    "curb-full gutter": "curb-full 100.00 ft",
    "water line": "water line, design flow",
    "design flow and rain": "39.4 gpm, rain 4 in/hr (25-year, 15 min)",
    "opening with its spare height": "leaf screen 101.20 ft, spare 10 3/16 in",
    "crossings": "G gas at 7 ft, 36 in deep, 2 ft 6 in under the pipe",
    "hand-dig band": "Dig by hand within 18 in of a mark",
    "ticket": "locate ticket 26-110417",
    "air gap and check valve": "air gap, check valve",
    "cleanout": "cleanout",
    "inflow": "rear downspout 380 sq ft, 15.8 gpm",
    "fall budget": "Fall budget: N2 100.26 ft less outlet 99.57 ft leaves 8 1/4 in",
    "spare of the fall": "spare 3 9/16 in",
    "right-of-way line and its basis": "right-of-way line, from the plat",
    "exaggeration": "vertical exaggeration 10",
    "surfaces": "verge",
    "whose land": "right-of-way",
    "sheet of sheets": "3 of 10",
    "datum": "curb top at the hole: 100.00 ft",
    "the town's detail": "M-7 rev C",
    "stamp space": "Town's stamp",
    "who decides": "Local code and licensed practice decide",
}


@cache
def ticked() -> str:
    return text_of(profile(*demo("millrace-clean"), INFO, HAND_DIG_M))


@pytest.mark.parametrize(("item", "words"), TICK_LIST.items())
def test_the_tick_list_of_a_profile_is_on_the_sheet(item: str, words: str) -> None:

    assert words in ticked(), item


def test_water_above_an_opening_is_told_as_such() -> None:
    sheets = profile(*demo("millrace-faulty"), INFO)

    assert "patio grate 99.92 ft, water 7 1/8 in above it" in text_of(sheets)
    assert "short 7 1/8 in" in text_of(sheets)


def test_ground_shot_in_front_of_an_emitter_is_drawn_and_not_dropped() -> None:
    job, study = demo("harrow-heights-emitter")
    shot = GroundPoint.model_validate({"at": "20 ft", "level": "100.05 ft", "surface": "lawn"})
    seen = job.model_copy(update={"ground": (*job.ground, shot)})

    before, after = (set(course_of(one, study).surface) for one in (job, seen))

    assert len(after) == len(before) + 1
    assert any(
        point == pytest.approx(((20 - 24.5) * FOOT, 100.05 * FOOT)) for point in after - before
    )


def test_an_emitter_ends_the_run_with_its_rim_pit_and_water() -> None:
    job, study = demo("harrow-heights-emitter")
    sheets = profile(job, study, INFO)
    words = text_of(sheets)

    assert "outlet: emitter" in words
    assert "emitter, rim 100.35 ft, pit 1 ft 6 in deep, water over it 100.47 ft" in words
    assert "curb-full" not in words
    assert course_of(job, study).ground.row_m == pytest.approx(-12 * 0.3048)


def test_bands_of_digging_by_hand_that_meet_are_one() -> None:
    course = course_of(*demo("millrace-clean"))
    foot = 0.3048

    apart = hand_dug_m(course, 0.5 * foot)
    joined = hand_dug_m(course, 1.5 * foot)

    assert [round(end / foot, 6) for band in apart for end in band] == [
        2.5,
        3.5,
        6.5,
        7.5,
        8.5,
        9.5,
    ]
    assert [round(end / foot, 6) for band in joined for end in band] == [1.5, 4.5, 5.5, 10.5]


def test_a_line_whose_depth_is_not_known_is_told_as_such() -> None:
    job, study = demo("millrace-clean")
    unknown = job.utility[0].model_copy(update={"depth": None, "marked": "no"})
    changed = job.model_copy(update={"utility": (unknown,)})

    words = text_of(profile(changed, study, INFO))

    assert "C communication at 3 ft, depth not known, not marked" in words


def test_a_pump_without_an_air_gap_is_told_as_such() -> None:
    words = text_of(profile(*demo("millrace-faulty"), INFO))

    assert "no air gap" in words


def test_an_assumed_right_of_way_line_is_starred() -> None:
    job, study = demo("millrace-clean")
    assumed = with_table(job, "site", row_line_basis="assumed")

    words = text_of(profile(assumed, study, INFO))

    assert "right-of-way line, assumed *" in words
    assert "* assumed, not measured" in words


def test_a_pipe_that_stands_out_of_the_walk_is_told_as_such() -> None:
    job, study = demo("millrace-clean")
    inch = 0.0254
    slab = tuple(replace(edge, pipe_top_m=edge.surface_m + inch) for edge in study.cut.slab)

    words = text_of(profile(job, replace(study, cut=replace(study.cut, slab=slab)), INFO))

    assert "pipe up to 1 in out of its top" in words


def test_letters_that_cannot_be_drawn_are_named() -> None:
    job, study = demo("millrace-clean")
    named = with_table(job, "site", address="14 Tern Lane \N{CJK UNIFIED IDEOGRAPH-6C34}")

    with pytest.raises(InputError, match="U\\+6C34"):
        profile(named, study, INFO)


def _with_utility(**fields: object) -> str:
    job, study = demo("millrace-clean")
    gas = job.utility[1].model_copy(update=fields)
    changed = job.model_copy(update={"utility": (gas,)})
    return text_of(profile(changed, study, INFO))


def test_a_line_over_the_pipe_or_at_its_height_is_told_as_such() -> None:
    shallow = _with_utility(at=length("30 ft"), depth=length("1 in"))

    assert re.search(r"G gas at 30 ft, 1 in deep, \d.* in over the pipe", shallow)
    assert "at the height of the pipe" in _with_utility(depth=length("5 in"))


def test_a_line_beside_the_pipe_is_noted_and_not_crossed() -> None:
    words = _with_utility(along="run")

    assert "gas runs beside the pipe, 36 in deep." in words
    assert "Crossings:" not in words


def test_a_run_that_crosses_nothing_still_says_to_call() -> None:
    job, study = demo("millrace-clean")

    words = text_of(profile(job.model_copy(update={"utility": ()}), study, INFO))

    assert "No buried lines are known to cross the run; call before you dig." in words


def test_a_pipe_under_the_slab_is_told_by_how_much_it_clears_it() -> None:
    job, study = demo("millrace-clean")
    slab = tuple(replace(edge, pipe_top_m=edge.underside_m - 0.0254) for edge in study.cut.slab)

    words = text_of(profile(job, replace(study, cut=replace(study.cut, slab=slab)), INFO))

    assert "pipe at least 1 in below it" in words


def test_another_outlet_on_the_lot_is_named() -> None:
    job, study = demo("harrow-heights-emitter")
    well = with_table(job, "outlet", kind="dry well", emitter=None)
    bare = replace(study, water=replace(study.water, emitter=None))

    sheets = profile(well, bare, INFO)

    assert "outlet: dry well" in text_of(sheets)
    assert faults_of(sheets) == []
