from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest
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

from permitkit.drawing.dimensions import Along
from permitkit.drawing.frame.legend import SAMPLE_MM
from permitkit.drawing.info import figures_of
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID
from permitkit.drawing.shapes import Circle, Hatch, Line, Pattern, Polygon, Role
from permitkit.drawing.sheet import flatten
from permitkit.drawing.walk_cut import walk_cut
from permitkit.drawing.walk_cut.crossing import crossing_of
from permitkit.errors import InputError

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Point
    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job
    from permitkit.study.results import Study

FOOT_M = 0.3048
SWATCH_MM = 11.0
DEMOS = (
    "harrow-heights-core",
    "millrace-clean",
    "millrace-cured",
    "millrace-faulty",
    "sorrel-flats-notch",
)
PLAN = {
    "panel taken out, its size and area": "walk taken out and laid new, 5 ft x 5 ft, 25 sq ft",
    "where the run lies in it": "2 ft 6 in of it left of the run",
    "joints": "joint",
    "saw lines": "saw cut 4 in deep",
    "verge": "verge",
    "walk": "concrete walk",
    "curb": "vertical curb",
    "right-of-way line": "right-of-way line, from the plat",
    "cross slope beside it": "1.8 % now",
    "cross slope here and proposed": "here 2 % now, 1/4 in/ft new",
    "running slope": "running slope 0.6 % now, 0.6 % new",
    "trench": "trench 12 in wide, 11 ft long, 12 in deep",
    "pipe": "3 in Sch 40 PVC at 1.03 %",
    "outlet": "core, station 12 ft",
    "fee figures": "Walk counted for fees",
    "saw cut in all": "10 ft",
    "concrete": "8.33 cu ft",
    "sheet of sheets": "3 of 10",
    "who decides": "Local code, licensed practice and the town's detail decide",
}
SECTION = {
    "thickness": "concrete walk, new, 4 in",
    "base": "crushed stone, 4 in",
    "pipe": "3 in Sch 40 PVC, 3 1/2 in outside, at 1.03 %",
    "bedding": "bedding",
    "backfill": "backfill, compacted",
    "cross fall": "cross fall 1/4 in/ft",
    "edges": "edges flush: verge and lawn",
    "concrete over, curb side": "2 3/8 in",
    "concrete over, house side": "3 in",
    "joints, sealant": "tooled at the old joint lines, 1/2 in filler at both ends",
    "dowels": "no dowels",
    "neighbours": "walk that stays, 4 in",
    "strength": "3,500 psi at 28 days",
    "finish": "broom, across the walk",
    "bond break": "bond break to the town's detail",
    "pipe in slab": "curb side 1 5/8 in in, 2 3/8 in over",
    "lifts and density": "lifts of 6 in, 95 % density",
    "open again": "to feet after 24 hours; to wheels after 7 days",
    "the town's detail": "M-7 rev C",
}


@cache
def cut_of(name: str) -> tuple[Sheet, ...]:
    return walk_cut(*demo(name), INFO)


@pytest.mark.parametrize(("item", "words"), PLAN.items())
def test_the_tick_list_of_a_walk_cut_is_on_the_plan(item: str, words: str) -> None:
    plan = cut_of("millrace-clean")[0]

    assert words in text_of([plan]), item


@pytest.mark.parametrize(("item", "words"), SECTION.items())
def test_the_tick_list_of_a_walk_cut_is_on_the_sections(item: str, words: str) -> None:
    sheets = cut_of("millrace-clean")

    assert words in text_of(sheets[1:]), item


def test_a_plain_cut_takes_two_sheets_and_leaves_nothing_over() -> None:
    sheets = cut_of("millrace-clean")

    assert [sheet.number for sheet in sheets] == ["3 of 10", "4 of 10"]
    assert not any(sheet.left_over or sheet.unexplained for sheet in sheets)


@pytest.mark.parametrize(
    ("name", "paper"),
    [*((name, LETTER) for name in DEMOS), *(("millrace-clean", p) for p in (TABLOID, A4, A3))],
    ids=str,
)
def test_no_demo_cut_has_a_text_on_a_text_a_mark_cut_off_or_a_length_off_scale(
    name: str, paper: object
) -> None:
    sheets = walk_cut(*demo(name), replace(INFO, paper=paper))

    assert faults_of(sheets) == []


def test_every_dimension_says_the_geometrys_own_number() -> None:
    job, study = demo("millrace-clean")
    write = figures_of(job)

    rows = [row for sheet in walk_cut(job, study, INFO) for row in dimensions_of(sheet)]

    assert rows
    for row in rows:
        assert row.text in {write.distance(row.value_m), write.height(row.value_m)}


def test_the_dimensions_across_the_walk_are_the_tape_measures() -> None:
    plan = cut_of("millrace-clean")[0]

    across = [row.text for row in dimensions_of(plan) if row.along is Along.VERTICAL]

    assert across == ["6 in", "5 ft", "5 ft", "1 ft"]


def _area(points: tuple[Point, ...]) -> float:
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _hatched(sheet: Sheet, pattern: Pattern) -> list[tuple[Point, ...]]:
    regions = [
        mark.region
        for mark in flatten(sheet.shapes)
        if isinstance(mark, Hatch) and mark.pattern is pattern
    ]
    return [region for region in regions if abs(_across(region) - SWATCH_MM) > 1e-6]


def _across(points: tuple[Point, ...]) -> float:
    return max(x for x, _ in points) - min(x for x, _ in points)


@pytest.mark.parametrize("name", DEMOS)
def test_the_hatch_of_what_is_taken_out_is_the_area_the_fees_count(name: str) -> None:
    _, study = demo(name)
    plan = cut_of(name)[0]
    (scale,) = scales_of(plan)

    (region,) = _hatched(plan, Pattern.REMOVED)

    drawn = _area(region) / scale.paper_mm(1.0) ** 2
    assert drawn == pytest.approx(study.cut.walk_area_m2, rel=1e-6)


@pytest.mark.parametrize("name", DEMOS)
def test_the_saw_lines_are_as_long_as_the_saw_cut(name: str) -> None:
    _, study = demo(name)
    plan = cut_of(name)[0]
    (scale,) = scales_of(plan)

    lines = [mark for mark in marks_of(plan, Role.SAW_CUT) if isinstance(mark, Line)]
    cuts = [line for line in lines if line.start[0] == line.end[0]]

    drawn = sum(abs(line.end[1] - line.start[1]) for line in cuts)
    assert drawn == pytest.approx(scale.paper_mm(study.cut.saw_length_m))


def test_a_cut_that_stops_short_of_the_walks_width_is_sawn_along_as_well() -> None:
    job, _ = demo("millrace-faulty")
    short = with_table(job, "cut", length=length("3 ft"))
    study = restudied(short)
    plan = walk_cut(short, study, INFO)[0]
    (scale,) = scales_of(plan)

    lines = [mark for mark in marks_of(plan, Role.SAW_CUT) if isinstance(mark, Line)]
    drawn = [line for line in lines if _length(line) != pytest.approx(SAMPLE_MM)]

    assert sum(map(_length, drawn)) == pytest.approx(scale.paper_mm(study.cut.saw_length_m))
    assert faults_of([plan]) == []


def _length(line: Line) -> float:
    (x0, y0), (x1, y1) = line.start, line.end
    return float(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)


def test_pieces_left_of_a_part_panel_are_dimensioned() -> None:
    job, study = demo("millrace-faulty")
    plan = walk_cut(job, study, INFO)[0]

    texts = [row.text for row in dimensions_of(plan)]

    write = figures_of(job).distance
    assert write(study.cut.remnant_left_m) in texts
    assert write(study.cut.remnant_right_m) in texts


def _section(job: Job, study: Study) -> Sheet:
    return walk_cut(job, study, INFO)[1]


def test_the_slab_in_section_is_as_thick_and_as_wide_as_it_is_laid() -> None:
    job, study = demo("millrace-clean")
    sheet = _section(job, study)
    (scale,) = scales_of(sheet)

    slabs = _hatched(sheet, Pattern.CONCRETE)

    expected = scale.paper_mm(5 * FOOT_M) * scale.paper_mm(FOOT_M / 3)
    areas = [_area(region) for region in slabs]
    assert [area for area in areas if area == pytest.approx(expected, rel=1e-3)] != []
    assert sum(area == pytest.approx(expected, rel=1e-3) for area in areas) == 2


def test_the_pipe_in_section_lies_at_the_depth_the_study_found() -> None:
    job, study = demo("millrace-clean")
    sheet = _section(job, study)
    (scale,) = scales_of(sheet)
    pipes = [mark for mark in marks_of(sheet, Role.PIPE) if isinstance(mark, Line)]
    top = max(pipes, key=lambda line: line.start[1])
    crossing = crossing_of(job, study)
    assert crossing is not None

    slab = max(
        (m for m in marks_of(sheet, Role.PROPOSED) if isinstance(m, Polygon) and m.fill == "white"),
        key=lambda polygon: max(y for _, y in polygon.points),
    )

    left = min(x for x, _ in slab.points)
    surface_at_front = max(y for x, y in slab.points if x == left)
    share = (left - top.start[0]) / (top.end[0] - top.start[0])
    pipe_at_front = top.start[1] + share * (top.end[1] - top.start[1])
    over = scale.real_m(surface_at_front - pipe_at_front)
    assert over == pytest.approx(crossing.front.concrete_over_m, abs=1e-4)


def test_a_box_pipe_is_drawn_as_a_box_and_two_barrels_as_two_rings() -> None:
    notch = _section(*demo("sorrel-flats-notch"))
    twin = _section(*demo("millrace-cured"))

    rings = [mark for mark in marks_of(twin, Role.PIPE) if isinstance(mark, Circle)]

    assert len(rings) == 2
    assert not [mark for mark in marks_of(notch, Role.PIPE) if isinstance(mark, Circle)]


def test_a_bored_crossing_takes_out_no_walk() -> None:
    job, _ = demo("millrace-clean")
    bored = with_table(job, "cut", crossing="bored")
    sheets = walk_cut(bored, restudied(bored), INFO)
    words = text_of(sheets)

    assert "No walk is taken out." in words
    assert "walk, existing, kept, 4 in" in words
    assert _hatched(sheets[0], Pattern.REMOVED) == []
    assert faults_of(sheets) == []


@pytest.mark.parametrize("how", ["encased", "thickened"])
def test_concrete_round_the_pipe_is_drawn_where_the_slab_is(how: str) -> None:
    job, study = demo("millrace-clean")
    plain = _section(job, study)
    jacketed = with_table(job, "cut", slab_at_pipe=how)

    sheet = _section(jacketed, study)

    assert f"{how} at the pipe" in text_of([sheet])
    before = sum(map(_area, _hatched(plain, Pattern.CONCRETE)))
    after = sum(map(_area, _hatched(sheet, Pattern.CONCRETE)))
    (scale,), (was,) = scales_of(sheet), scales_of(plain)
    assert after / scale.paper_mm(1.0) ** 2 > before / was.paper_mm(1.0) ** 2
    assert faults_of([sheet]) == []


def test_dowels_are_drawn_across_both_joints() -> None:
    job, study = demo("millrace-clean")
    tied = with_table(job, "restoration", dowels=True)

    plain, sheet = _section(job, study), _section(tied, study)

    assert ", with dowels" in text_of([sheet])
    assert _levels(sheet) == _levels(plain) + 2


def _levels(sheet: Sheet) -> int:
    return sum(
        isinstance(mark, Line) and mark.start[1] == mark.end[1]
        for mark in marks_of(sheet, Role.PROPOSED)
    )


def test_a_walk_at_the_curb_has_joint_filler_at_its_edge() -> None:
    job, _ = demo("millrace-clean")
    none = length("0 in")
    close = with_table(job, "verge", width=none)
    sheets = walk_cut(close, restudied(close), INFO)

    assert "edges flush: curb, joint filler and lawn" in text_of(sheets)
    assert faults_of(sheets) == []


def test_a_step_at_the_edge_is_told_with_its_bevel() -> None:
    job, study = demo("millrace-clean")
    step = with_table(job, "restoration", lip=length("1/4 in"), lip_bevelled=True)

    words = text_of(walk_cut(step, study, INFO))

    assert "step of 1/4 in, beveled" in words


@pytest.mark.parametrize("name", ["harrow-heights-emitter", "sorrel-flats-verge"])
def test_a_run_that_crosses_no_walk_has_no_sheet(name: str) -> None:
    assert walk_cut(*demo(name), INFO) == ()


def test_a_long_restoration_goes_to_sheets_of_its_own() -> None:
    job, study = demo("millrace-clean")
    long = "Clean spoil without stones, laid by hand and compacted. " * 30
    wordy = with_table(job, "restoration", backfill=long, joint=long, finish=long)

    sheets = walk_cut(wordy, study, INFO)

    assert "Restoration" in {sheet.title for sheet in sheets}
    assert faults_of(sheets) == []


def test_letters_that_cannot_be_drawn_are_named() -> None:
    job, study = demo("millrace-clean")
    named = with_table(job, "restoration", grout="\N{CJK UNIFIED IDEOGRAPH-6C34}")

    with pytest.raises(InputError, match="U\\+6C34"):
        walk_cut(named, study, INFO)


def test_the_same_job_gives_the_same_shapes() -> None:
    assert walk_cut(*demo("millrace-cured"), INFO) == walk_cut(*demo("millrace-cured"), INFO)


def test_a_pipe_under_the_slab_is_told_by_how_much_it_clears_it() -> None:
    job, study = demo("millrace-clean")
    slab = tuple(replace(edge, pipe_top_m=edge.underside_m - 0.0254) for edge in study.cut.slab)

    words = text_of(walk_cut(job, replace(study, cut=replace(study.cut, slab=slab)), INFO))

    assert "not in it, 1 in or more below" in words


def test_a_trench_whose_width_is_not_given_is_not_drawn() -> None:
    job, _ = demo("millrace-clean")
    narrow = with_table(job, "cut", trench_width=None)

    sheets = walk_cut(narrow, restudied(narrow), INFO)

    assert "trench" not in text_of([sheets[0]]).lower().replace("trench in the", "").replace(
        "trench, area", ""
    )
    assert faults_of(sheets) == []
