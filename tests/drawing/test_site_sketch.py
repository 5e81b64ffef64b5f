from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest
from demo_jobs import NAMES
from random_jobs import random_job, random_study
from sheet_marks import (
    INFO,
    collisions,
    demo,
    dimensions_of,
    faults_of,
    length,
    marks_of,
    restudied,
    scales_of,
    text_of,
    with_table,
)

from permitkit.drawing.scale import A3, A4, LETTER, TABLOID, Paper
from permitkit.drawing.shapes import Anchor, Hatch, Label, Line, Pattern, Polyline, Role
from permitkit.drawing.site_sketch import site_sketch
from permitkit.drawing.site_sketch.lot import lot_of
from permitkit.errors import InputError
from permitkit.render.pens import PENS

PAPERS = (LETTER, TABLOID, A4, A3)
TICKS = {
    "street name": "Tern Lane",
    "nearest cross street with distance": "180 ft to Heron Street",
    "where it lies, in words": "on the north side of Tern Lane",
    "whose street": "Town of Millrace's street",
    "left side line": "left side line",
    "right side line": "right side line",
    "right-of-way line and its basis": "right-of-way line (plat)",
    "frontage": "64 ft",
    "house": "house",
    "downspout with its roof area": "front downspout: roof, 280 sq ft",
    "sump and how it discharges": "sump: 12 gpm, air gap",
    "where the sump goes in winter": "In winter, sump: bubbler",
    "cleanout": "N2, cleanout",
    "run: length, size, kind, slope": "25 ft of 3 in Sch 40 PVC, falls 1.04 %",
    "curb": "vertical curb, reveal 6 in",
    "pan": "1 ft 6 in",
    "verge": "verge",
    "walk": "concrete walk",
    "drive": "drive",
    "pole": "light pole 4417",
    "tree with drip line": "hornbeam, trunk 9 in, drip line 8 ft out",
    "gas as marked": "gas, 36 in deep, marked",
    "ticket": "ticket 26-110417",
    "dug by hand": "dig by hand within 18 in",
    "hole": "OUTLET: 4 in hole in the curb",
    "tie to the side line": "12 ft",
    "tie to a lasting thing": "18 ft",
    "distance to the left joint": "26 in",
    "distance to the right joint": "94 in",
    "distance to the flare": "9 ft",
    "gutter's fall": "falls right 0.6 %",
    "old holes": "No old hole",
    "nothing else near": "within 25 ft of the outlet",
    "limit of work: length": "trench 11 ft long",
    "limit of work: area of walk": "walk taken out 25 sq ft",
    "address": "14 Tern Lane, Millrace",
    "parcel": "07-114-22",
    "sheet n of m": "3 of 10",
    "revision": "revision A",
    "date": "2026-04-06",
    "prepared by": "R. Vane",
    "scale": "1 in = 20 ft",
    "datum": "curb top at the hole: 100.00 ft",
    "town's detail": "M-7 rev C",
    "room for the permit number": "Permit no.",
    "legend": "Legend",
    "not a survey": "Not a survey",
    "north": "N",
}


@cache
def clean_text() -> str:
    job, study = demo("millrace-clean")
    return text_of(site_sketch(job, study, INFO, hand_dig_m=0.4572))


@pytest.mark.parametrize("item", TICKS)
def test_the_clean_demo_shows_every_item_a_reviewer_ticks(item: str) -> None:
    assert TICKS[item] in clean_text()


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_no_demo_has_text_on_text_or_marks_cut_off_or_lengths_off_scale(
    name: str, paper: Paper
) -> None:
    job, study = demo(name)

    sheets = site_sketch(job, study, replace(INFO, paper=paper), hand_dig_m=0.4572)

    assert faults_of(sheets) == []


@pytest.mark.parametrize("name", NAMES)
def test_no_demo_needs_a_sheet_of_notes(name: str) -> None:
    job, study = demo(name)

    sheets = site_sketch(job, study, INFO, hand_dig_m=0.4572)

    assert [sheet.title for sheet in sheets] == ["Site sketch", "Plan at the outlet"]


def test_the_last_pipe_ends_behind_a_notch_and_is_as_long_as_taped() -> None:
    job, study = demo("sorrel-flats-notch")

    last = next(one for one in lot_of(job, study).reaches if one.reach.lower == "outlet")

    assert last.drawn_m == pytest.approx(last.reach.length_m)
    assert "straight on the plan" not in text_of(site_sketch(job, study, INFO))


def test_the_walk_taken_out_is_told_as_it_is_drawn_not_as_fees_are_counted() -> None:
    job, study = demo("millrace-faulty")

    told = text_of(site_sketch(job, study, INFO))

    assert "walk taken out 12.5 sq ft" in " ".join(told.split())


def test_a_planted_text_on_a_text_is_found() -> None:
    sheet = site_sketch(*demo("millrace-clean"), INFO)[0]
    victim = sheet.labels[0]
    planted = Label("planted", victim.box.centre, Anchor.C)

    found = collisions(replace(sheet, shapes=(*sheet.shapes, planted)))

    assert collisions(sheet) == []
    assert any(victim.text in pair and "planted" in pair for pair in found)


def test_a_planted_length_off_scale_and_a_mark_off_the_sheet_are_found() -> None:
    sheet = site_sketch(*demo("millrace-clean"), INFO)[0]
    tie = dimensions_of(sheet)[0]
    wrong = replace(tie, value_m=tie.value_m + 0.1)
    stray = Line((100.0, 100.0), (400.0, 100.0), Role.EXISTING)

    faults = faults_of([replace(sheet, shapes=(*sheet.shapes, wrong, stray))])

    assert any("mm for" in fault for fault in faults)
    assert any("leaves its room" in fault for fault in faults)


def test_the_run_is_drawn_as_long_as_it_was_taped() -> None:
    job, study = demo("millrace-clean")
    sheet = site_sketch(job, study, INFO)[0]
    (scale,) = scales_of(sheet)

    drawn = [
        scale.real_m(math.dist(mark.points[0], mark.points[-1]))
        for mark in marks_of(sheet, Role.PIPE)
        if isinstance(mark, Polyline)
    ]

    assert sorted(drawn) == pytest.approx([float(length("25 ft")), float(length("41 ft 6 in"))])


def test_the_distance_to_the_flare_is_the_one_the_checks_judge() -> None:
    job, study = demo("millrace-clean")
    plan = site_sketch(job, study, INFO)[1]

    values = [row.value_m for row in dimensions_of(plan)]

    assert study.curb is not None
    assert any(value == pytest.approx(study.curb.near_m["drive"]) for value in values)


def test_the_outlet_is_tied_to_two_lasting_things() -> None:
    job, study = demo("millrace-clean")
    sheet = site_sketch(job, study, INFO)[0]

    texts = [row.text for row in dimensions_of(sheet)]

    assert {"12 ft", "18 ft"} <= set(texts)


def test_digging_by_hand_reaches_as_far_from_a_mark_as_the_rule_says() -> None:
    job, study = demo("millrace-clean")
    reach = 0.4572

    plan = site_sketch(job, study, INFO, hand_dig_m=reach)[1]

    (scale,) = scales_of(plan)
    bands = [m for m in plan.primitives if isinstance(m, Hatch) and m.pattern is Pattern.SAND]
    heights = [max(y for _, y in b.region) - min(y for _, y in b.region) for b in bands]
    assert max(heights) == pytest.approx(scale.paper_mm(2 * reach))


def test_what_is_there_is_thin_and_what_is_proposed_is_heavy() -> None:
    sheet = site_sketch(*demo("millrace-clean"), INFO)[0]

    widths = {
        role: PENS[role].width_mm
        for role in (Role.EXISTING, Role.PROPOSED, Role.PIPE)
        if marks_of(sheet, role)
    }

    assert widths[Role.EXISTING] < widths[Role.PROPOSED] <= widths[Role.PIPE]


def test_the_same_job_gives_the_same_sheets() -> None:
    job, study = demo("millrace-cured")

    assert site_sketch(job, study, INFO) == site_sketch(job, study, INFO)


def test_a_frontage_of_five_feet_is_drawn() -> None:
    job, _ = demo("millrace-clean")
    narrow = with_table(job, "site", frontage=length("5 ft"), house=None)
    narrow = with_table(narrow, "outlet", station=length("2 ft 6 in"), tie_line=length("2 ft 6 in"))

    sheets = site_sketch(narrow, restudied(narrow), INFO)

    assert faults_of(sheets) == []
    assert "5 ft" in text_of(sheets)


def test_a_frontage_of_nine_hundred_feet_is_split_with_match_lines() -> None:
    job, _ = demo("millrace-clean")
    wide = with_table(job, "site", frontage=length("900 ft"))

    sheets = site_sketch(wide, restudied(wide), INFO)

    plans = [sheet for sheet in sheets if sheet.title == "Site sketch"]
    assert len(plans) > 1
    assert faults_of(sheets) == []
    assert "match line, see sheet 4" in text_of(plans[:1])
    assert "match line, see sheet 3" in text_of(plans[1:2])


def test_an_outlet_outside_the_frontage_is_drawn_and_told() -> None:
    job, _ = demo("millrace-clean")
    outside = with_table(job, "outlet", station=length("68 ft"))

    sheets = site_sketch(outside, restudied(outside), INFO)

    assert faults_of(sheets) == []
    assert "The outlet lies 4 ft beyond the right side line" in text_of(sheets)


def test_names_of_two_hundred_letters_are_broken_and_stay_whole() -> None:
    job, study = demo("millrace-clean")
    name = "Long Name " * 20
    long = with_table(job, "street", name=name.strip())
    long = with_table(long, "site", cross_street=name.strip(), address=name.strip())

    sheets = site_sketch(long, study, INFO)

    assert faults_of(sheets) == []
    assert text_of(sheets).count("Long Name") >= 40


def test_letters_that_cannot_be_drawn_are_named() -> None:
    job, study = demo("millrace-clean")
    strange = with_table(job, "street", name="\u6c34 Street")

    with pytest.raises(InputError) as caught:
        site_sketch(strange, study, INFO)

    assert "\u6c34 (U+6C34)" in str(caught.value)
    assert "expected" in str(caught.value)


def test_an_assumed_line_is_starred_and_explained() -> None:
    job, study = demo("millrace-clean")
    assumed = with_table(job, "site", row_line_basis="assumed")

    sheets = site_sketch(assumed, study, INFO)

    assert "right-of-way line (assumed *)" in text_of(sheets)
    assert "* assumed, not measured" in text_of(sheets)
    assert any(marks_of(sheet, Role.ASSUMED) for sheet in sheets)


def test_nodes_without_a_place_are_drawn_straight_back_and_that_is_told() -> None:
    job, study = demo("millrace-clean")
    bare = tuple(
        node.model_copy(update={"station": None, "offset": None}) for node in job.drain.node
    )
    unplaced = with_table(job, "drain", node=bare)

    sheets = site_sketch(unplaced, study, INFO)

    assert "drawn straight back from the outlet" in text_of(sheets)


def test_an_emitter_is_dimensioned_to_line_walk_and_house() -> None:
    job, study = demo("harrow-heights-emitter")

    sheets = site_sketch(job, study, INFO)

    texts = {row.text for sheet in sheets for row in dimensions_of(sheet)}
    assert {"8 ft", "12 ft", "13 ft", "20 ft"} <= texts
    assert "old 3 in hole, to be plugged" in text_of(sheets)


def test_water_that_gathers_in_the_verge_is_told_with_what_feeds_it() -> None:
    sheets = site_sketch(*demo("sorrel-flats-verge"), INFO)

    told = text_of(sheets)
    assert "water gathers in the verge, lowest ground 100.20 ft" in told
    assert "front downspouts: roof, 620 sq ft" in told
    assert any(row.text == "10 ft" for row in dimensions_of(sheets[1]))


def test_metric_jobs_are_told_in_metres() -> None:
    seed = next(seed for seed in range(60) if random_job(seed).units == "metric")
    job = random_job(seed)

    sheets = site_sketch(job, random_study(job), INFO)

    assert sheets[0].scale_text.startswith("1:")
    assert all(" ft" not in row.text for sheet in sheets for row in dimensions_of(sheet))


def test_a_street_of_one_lane_and_a_trench_of_no_width_are_told_as_they_are() -> None:
    job, study = demo("millrace-clean")
    narrow = with_table(job, "street", lanes=1)
    unmeasured = replace(study, cut=replace(study.cut, trench_area_m2=0.0))

    words = text_of(site_sketch(narrow, unmeasured, INFO, hand_dig_m=0.5))

    assert "wide, one lane, " in words
    assert "1 lanes" not in words
    assert " 0 sq ft" not in words
