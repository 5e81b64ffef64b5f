from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest
from demo_jobs import NAMES
from sheet_marks import (
    INFO,
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

from permitkit.drawing.curb_section import curb_section
from permitkit.drawing.curb_section.curb import curb_cut
from permitkit.drawing.dimensions import Along
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID, Paper, Scale
from permitkit.drawing.shapes import Box, Hatch, Line, Pattern, Role
from permitkit.errors import InputError
from permitkit.geometry.shape import polygon_area
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from permitkit.drawing.sheet import Sheet

PAPERS = (LETTER, TABLOID, A4, A3)
INCH_M = 0.0254
CORE = {
    "curb shape with its top width": "vertical curb, top 6 in",
    "batter, assumed": "face batter 1:12 *",
    "radius, assumed": "radius 1/2 in *",
    "reveal and the least of the readings": "reveal 6 in, the least of 3 readings",
    "flow line": "flow line 99.50 ft",
    "pan slope": "pan slope 1/2 in/ft",
    "bit": "4 in core",
    "which side the core starts": "starts behind the curb, breaks out at the face",
    "pipe kind, outside, bore": "3 in Sch 40 PVC, outside 3 1/2 in, bore 3 1/16 in",
    "hole bottom": "hole bottom 3/8 in above flow line",
    "invert": "invert 7/8 in above flow line",
    "setting-out number": "BIT CENTER 3 5/8 in below curb top",
    "strip": "strip 1 5/8 in",
    "grout gap and kind": "gap 1/4 in, non-shrink grout",
    "pipe end": "pipe end flush with the face",
    "allowed window": "allowed window of the hole bottom: 1/32 in to 1/2 in",
    "what sets the window": "(the strip over the hole top)",
    "running gutter": "gutter running 3 in deep",
    "soil behind": "verge, soil behind the curb",
    "front view: joints": "26 in",
    "front view: clear to the joint": "2 ft",
    "front view: side line": "left side line: 12 ft from the outlet",
    "front view: drive": "drive: 9 ft from the opening",
    "direction of view": "looking west",
    "the town's detail governs": "detail M-7 rev C, which governs",
    "scales": "3 in = 1 ft",
    "assumed facts": "* assumed, not measured",
}
NOTCH = {
    "width": "notch 5 in wide",
    "floor at the toe": "NOTCH FLOOR at the toe 1/2 in above flow line",
    "floor at the back": "NOTCH FLOOR at the back 3/4 in above flow line",
    "floor slope": "floor falls 2 %",
    "depth at the back": "depth at the back 3 1/4 in",
    "edge radius": "Round the edges of the notch to 1/4 in",
    "plate": "Cover plate",
    "roll": "rolled curb, width 12 in",
    "why no core": "would break out of the face",
    "pipe": "outside 5 in \N{MULTIPLICATION SIGN} 2 in",
}
EMITTER = {
    "rim": "RIM 100.35 ft",
    "invert": "invert 99.85 ft",
    "lid": "pop-up lid",
    "weep hole": "weep hole 3/8 in",
    "pit": "pit 2 ft long, washed stone, 40 % voids",
    "pit depth": "18 in",
    "water": "water at design flow 100.47 ft",
    "what it holds": "The line holds 12.9 gal",
    "plug": "filled full depth with non-shrink grout",
    "where the old hole is": "old 3 in hole at station 22 ft",
}


HOLLOW = {
    "no pipe": "No pipe is laid: 3 notches let out",
    "where the water gathers": "lowest ground in the verge 100.20 ft",
    "the water": "water at design flow 100.20 ft",
    "what is done to the soil": "soil dressed down to the floor of the notch",
    "how far apart": "10 ft",
}


@cache
def text(name: str) -> str:
    return text_of(curb_section(*demo(name), INFO))


@pytest.mark.parametrize("item", CORE)
def test_a_core_shows_every_item_a_reviewer_ticks(item: str) -> None:
    assert CORE[item] in text("millrace-clean")


@pytest.mark.parametrize("item", NOTCH)
def test_a_notch_shows_every_item_a_reviewer_ticks(item: str) -> None:
    assert NOTCH[item] in text("sorrel-flats-notch")


@pytest.mark.parametrize("item", HOLLOW)
def test_notches_without_a_pipe_show_the_verge_they_drain(item: str) -> None:
    assert HOLLOW[item] in text("sorrel-flats-verge")


@pytest.mark.parametrize("item", EMITTER)
def test_an_emitter_and_the_plug_stand_in_place_of_the_section(item: str) -> None:
    assert EMITTER[item] in text("harrow-heights-emitter")
    assert "Section A" not in text("harrow-heights-emitter")


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_no_demo_has_text_on_text_or_marks_cut_off_or_lengths_off_scale(
    name: str, paper: Paper
) -> None:
    sheets = curb_section(*demo(name), replace(INFO, paper=paper))

    assert sheets
    assert faults_of(sheets) == []


def section_scale(sheet: Sheet) -> Scale:
    return max(scales_of(sheet), key=lambda scale: scale.ratio)


def hatched(sheet: Sheet, pattern: Pattern) -> list[Box]:
    legend = 30.0
    return [
        Box.around(mark.region)
        for mark in sheet.primitives
        if isinstance(mark, Hatch) and mark.pattern is pattern
        if min(y for _, y in mark.region) > legend + 25.0
    ]


def test_the_hole_is_drawn_as_wide_as_the_bit() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = curb_section(job, study, INFO)

    (hole,) = hatched(sheet, Pattern.GROUT)

    assert study.curb is not None
    assert study.curb.hole is not None
    scale = section_scale(sheet)
    rise = scale.paper_mm(study.curb.width_m + INCH_M) * study.water.reaches[-1].slope
    assert hole.height == pytest.approx(scale.paper_mm(study.curb.hole.bit_m) + rise, abs=0.15)


def test_bottom_bit_and_strip_make_the_reveal() -> None:
    _, study = demo("millrace-clean")

    assert study.curb is not None
    assert study.curb.hole is not None
    hole = study.curb.hole
    assert hole.bottom_m + hole.bit_m + hole.strip_m == pytest.approx(study.curb.reveal_m)


def test_the_dimensions_at_the_face_are_hole_setting_out_and_reveal() -> None:
    (sheet,) = curb_section(*demo("millrace-clean"), INFO)

    upright = {r.text: r.value_m for r in dimensions_of(sheet) if r.along is Along.VERTICAL}

    assert upright == {
        "6 in": pytest.approx(6 * INCH_M),
        "4 in": pytest.approx(4 * INCH_M),
        "3 5/8 in": pytest.approx(3.625 * INCH_M),
    }


def test_the_bracket_beside_the_hole_is_as_tall_as_the_window() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = curb_section(job, study, INFO)

    upright = [
        abs(mark.end[1] - mark.start[1])
        for mark in marks_of(sheet, Role.PROPOSED)
        if isinstance(mark, Line) and mark.start[0] == mark.end[0]
    ]

    assert study.curb is not None
    assert study.curb.hole is not None
    window = study.curb.hole.window
    tall = section_scale(sheet).paper_mm(window.high.height_m - window.low.height_m)
    assert any(length == pytest.approx(tall) for length in upright)


def test_a_window_that_no_height_satisfies_is_told_with_both_limits() -> None:
    told = text("millrace-faulty")

    assert "no height of the hole bottom fits" in told
    assert "no higher than 1/4 in below the flow line (the strip over the hole top)" in told


def test_the_floor_of_the_notch_falls_from_the_back_to_the_toe() -> None:
    job, study = demo("sorrel-flats-notch")
    (sheet,) = curb_section(job, study, INFO)
    scale = section_scale(sheet)

    floors = [
        (mark.end[1] - mark.start[1]) / (mark.end[0] - mark.start[0])
        for mark in marks_of(sheet, Role.PROPOSED)
        if isinstance(mark, Line) and mark.end[0] - mark.start[0] > scale.paper_mm(4 * INCH_M)
    ]

    assert any(slope == pytest.approx(0.02) for slope in floors)


def test_a_second_least_reading_is_told_beside_the_one_at_the_hole() -> None:
    job, _ = demo("millrace-clean")
    uneven = with_table(job, "curb", reveal=(length("6 1/4 in"), length("6 in"), length("6 in")))

    told = text_of(curb_section(uneven, restudied(uneven), INFO))

    assert "reveal 6 1/4 in, least reading 6 in" in told


def test_a_core_from_the_street_says_so_and_where_the_barrel_clears() -> None:
    job, _ = demo("millrace-clean")
    street = with_table(job, "outlet", drill_from="street")

    told = text_of(curb_section(street, restudied(street), INFO))

    assert "starts at the street face, breaks out into the soil" in told
    assert "The barrel clears the pan" in told


SHAPES: dict[str, dict[str, object]] = {
    "vertical": {"shape": "vertical"},
    "combined curb and gutter": {"shape": "vertical", "base_depth": length("12 in")},
    "deep, beside its pan": {"shape": "vertical", "base_depth": length("18 in")},
    "granite": {"shape": "granite"},
    "sloping": {"shape": "sloping", "batter": read_measure("1:2", Kind.SLOPE)},
}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_curb_with_a_face_is_drawn_with_its_hole(shape: str) -> None:
    job, study = demo("millrace-clean")
    other = with_table(job, "curb", **SHAPES[shape])
    other = other.model_copy(
        update={"assumed": tuple(r for r in job.assumed if r.field != "curb.base_depth")}
    )

    sheets = curb_section(other, study, INFO)

    assert faults_of(sheets) == []
    assert "Section A" in text_of(sheets)


@pytest.mark.parametrize(
    ("shape", "radius"), [("rolled", None), ("rolled", "6 in"), ("half-round", None)]
)
def test_every_curb_that_rolls_is_drawn_with_its_notch(shape: str, radius: str | None) -> None:
    job, study = demo("sorrel-flats-notch")
    other = with_table(job, "curb", shape=shape, radius=length(radius) if radius else None)

    sheets = curb_section(other, study, INFO)

    assert faults_of(sheets) == []
    assert f"{shape} curb, width 12 in" in text_of(sheets)


def test_a_combined_curb_has_the_area_of_a_published_one() -> None:
    # Greendale IN code 94.01(A)(1): face 6 in, back 12 in, pan 18 by 6 in, lip 1 in up.
    job, _ = demo("millrace-clean")
    published = with_table(
        job,
        "curb",
        reveal=(length("6 in"),),
        top_width=length("6 in"),
        batter=None,
        radius=None,
        base_depth=length("12 in"),
    )
    published = with_table(published, "gutter", pan_slope=read_measure("1:18", Kind.SLOPE))
    published = published.model_copy(update={"assumed": ()})

    cut = curb_cut(published, 6 * INCH_M)

    assert polygon_area(cut.outline) / INCH_M**2 == pytest.approx(189.0)


def test_measurements_that_make_no_curb_are_told() -> None:
    job, study = demo("sorrel-flats-notch")
    flat = with_table(job, "curb", shape="half-round", roll_width=length("4 in"))

    with pytest.raises(InputError) as caught:
        curb_section(flat, study, INFO)

    assert "an arc" in str(caught.value)
    assert "measure the curb at the outlet again" in str(caught.value)


def test_nothing_is_drawn_where_nothing_is_done_at_the_curb() -> None:
    job, study = demo("harrow-heights-emitter")
    lateral = with_table(job, "outlet", kind="storm lateral", emitter=None)
    lateral = lateral.model_copy(update={"existing": ()})

    assert curb_section(lateral, study, INFO) == ()


def test_a_low_section_stands_lower_so_that_texts_lie_on_both_sides_of_it() -> None:
    (sheet,) = curb_section(*demo("sorrel-flats-notch"), INFO)

    texts = {label.text.split()[0]: label.box.centre[1] for label in sheet.labels}
    tube = next(label.box.centre[1] for label in sheet.labels if "steel tube" in label.text)
    floor = next(label.box.centre[1] for label in sheet.labels if "toe" in label.text)
    assert texts["rolled"] < floor < texts["verge,"]
    assert texts["notch"] < tube < texts["verge,"]


def test_large_paper_takes_the_section_at_half_of_full_size() -> None:
    (sheet,) = curb_section(*demo("millrace-clean"), replace(INFO, paper=TABLOID))

    assert section_scale(sheet).text == "6 in = 1 ft"
    assert faults_of([sheet]) == []


def test_the_words_of_a_plug_are_led_to_the_curb_itself() -> None:
    sheets = curb_section(*demo("harrow-heights-core"), INFO)

    plug = sheets[-1]
    top = next(label for label in plug.labels if label.text.startswith("curb top"))
    level = top.at[1]
    ends = [
        mark.start[0]
        for mark in marks_of(plug, Role.DIMENSION)
        if isinstance(mark, Line) and abs(mark.start[1] - level) < 0.05
    ]
    face = min(x for mark in marks_of(plug, Role.PROPOSED) for x, _ in getattr(mark, "points", ()))
    assert max(ends) > face - 1.0
