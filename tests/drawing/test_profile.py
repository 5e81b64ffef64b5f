"""A profile as drawn: its scales, its waters, long runs on several sheets."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from long_runs import branched, chained
from random_jobs import random_job, random_study
from sheet_marks import HAND_DIG_M, INFO, demo, faults_of, length, marks_of, text_of, with_table

from permitkit.drawing.profile import profile
from permitkit.drawing.profile.course import clipped, course_of
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID
from permitkit.drawing.shapes import Hatch, Line, Pattern, Polyline, Role
from permitkit.drawing.sheet import flatten
from permitkit.errors import InputError
from permitkit.render.pdf import render_sheets
from permitkit.study.results import Standing

if TYPE_CHECKING:
    from permitkit.drawing.sheet import Sheet


HALF_MM = 0.05
SWATCH_MM = 11.0
DEMOS = (
    "harrow-heights-core",
    "harrow-heights-emitter",
    "millrace-clean",
    "millrace-cured",
    "millrace-faulty",
    "sorrel-flats-notch",
)


def ratios_of(sheet: Sheet) -> tuple[float, float]:
    """Return millimetres on paper to the metre on the ground, across and up."""
    found = re.findall(r"1 in = (\d+) ft|1:(\d+)", sheet.scale_text)
    across, up = (
        Fraction(1, 12 * int(feet)) if feet else Fraction(1, int(whole)) for feet, whole in found
    )
    return float(1000 * across), float(1000 * up)


def lines_of(sheet: Sheet, role: Role) -> list[Polyline]:
    return [mark for mark in marks_of(sheet, role) if isinstance(mark, Polyline)]


def test_a_plain_run_fits_on_one_sheet_with_its_table() -> None:
    sheets = profile(*demo("millrace-clean"), INFO)

    assert len(sheets) == 1
    assert not sheets[0].left_over
    assert not sheets[0].unexplained


@pytest.mark.parametrize(
    ("name", "paper"),
    [*((name, LETTER) for name in DEMOS), *(("millrace-clean", p) for p in (TABLOID, A4, A3))],
    ids=str,
)
def test_no_demo_profile_has_a_text_on_a_text_or_a_mark_cut_off(name: str, paper: object) -> None:
    sheets = profile(*demo(name), replace(INFO, paper=paper), HAND_DIG_M)

    assert faults_of(sheets) == []


def test_the_pipe_is_drawn_at_both_scales() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = profile(job, study, INFO)
    across, up = ratios_of(sheet)
    pipes = lines_of(sheet, Role.PIPE)

    for reach in study.water.reaches:
        run = across * (reach.station_high_m - reach.station_low_m)
        rise = up * (reach.upper_invert_m - reach.lower_invert_m)
        same = [
            line
            for line in pipes
            if abs(line.points[-1][0] - line.points[0][0] - run) < HALF_MM
            and abs(line.points[-1][1] - line.points[0][1] - rise) < HALF_MM
        ]
        assert len(same) == 2, f"invert and crown of {reach.name}"
        invert, crown = sorted(line.points[0][1] for line in same)
        assert crown - invert == pytest.approx(up * reach.pipe.bore_height_m, abs=HALF_MM)


def test_the_water_in_the_pipe_stands_at_its_normal_depth() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = profile(job, study, INFO)
    _, up = ratios_of(sheet)
    lowest = min(line.points[0][1] for line in lines_of(sheet, Role.PIPE))

    water = min(lines_of(sheet, Role.WATER), key=lambda line: line.points[0][0])

    depth = study.water.reaches[0].normal_depth_m
    assert depth is not None
    assert water.points[0][1] - lowest == pytest.approx(up * depth, abs=HALF_MM)


def test_the_water_line_joins_the_levels_the_study_found() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = profile(job, study, INFO)
    across, up = ratios_of(sheet)

    drawn = [(line.points[0], line.points[-1]) for line in lines_of(sheet, Role.GRADE_LINE)]

    for reach in study.water.reaches:
        run = across * (reach.station_high_m - reach.station_low_m)
        rise = up * (reach.grade_high_m - reach.grade_low_m)
        assert any(
            end[0] - start[0] == pytest.approx(run, abs=HALF_MM)
            and end[1] - start[1] == pytest.approx(rise, abs=HALF_MM)
            for start, end in drawn
        )


def test_the_arrow_of_the_spare_height_is_as_long_as_it_says() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = profile(job, study, INFO)
    _, up = ratios_of(sheet)
    node = next(node for node in study.water.nodes if node.name == "N1")
    assert node.opening_m is not None
    spare = node.opening_m - max(*node.flowing_m.values(), *node.still_m.values())

    uprights = [
        abs(mark.end[1] - mark.start[1])
        for mark in marks_of(sheet, Role.DIMENSION)
        if isinstance(mark, Line) and mark.start[0] == mark.end[0]
    ]

    assert any(height == pytest.approx(up * spare, abs=HALF_MM) for height in uprights)


def test_standing_water_is_hatched_between_invert_and_level_with_its_gallons() -> None:
    job, study = demo("millrace-faulty")
    sheets = profile(job, study, INFO)
    (pool,) = study.water.standing
    across, up = ratios_of(sheets[0])

    wet = [
        mark
        for mark in flatten(sheets[0].shapes)
        if isinstance(mark, Hatch) and mark.pattern is Pattern.WATER
    ]

    assert "standing water 4 gal, up to 1 5/16 in deep over 51 ft 10 in" in text_of(sheets)
    pools = [mark.region for mark in wet if _width(mark.region) != pytest.approx(SWATCH_MM)]
    area = sum(abs(_area(region)) for region in pools) / across / up
    assert area == pytest.approx(pool.depth_m * pool.length_m / 2, rel=0.02)


def _width(points: tuple[tuple[float, float], ...]) -> float:
    return max(x for x, _ in points) - min(x for x, _ in points)


def _area(points: tuple[tuple[float, float], ...]) -> float:
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def test_a_rolled_curb_and_a_box_pipe_are_drawn_from_the_back_of_the_curb() -> None:
    job, study = demo("sorrel-flats-notch")

    course = course_of(job, study)

    assert course.trunk[0].station_m == pytest.approx(0.3048)
    assert course.reaches[0].pipe.shape == "box"
    assert "5 x 2 x 3/16 in galvanized steel tube" in text_of(profile(job, study, INFO))


def test_a_run_of_one_node_is_drawn_large() -> None:
    sheets = profile(*chained(1), INFO, HAND_DIG_M)

    assert len(sheets) == 1
    assert "1 in = 5 ft" in sheets[0].scale_text
    assert faults_of(sheets) == []


def test_a_run_of_thirty_nodes_has_every_node_tagged_and_tabled() -> None:
    job, study = chained(30)
    sheets = profile(job, study, INFO, HAND_DIG_M)
    words = text_of(sheets)
    cells = {label.text for sheet in sheets for label in sheet.labels}

    assert faults_of(sheets) == []
    for node in study.water.nodes:
        assert re.search(rf"\b{node.name}, ", words)
        assert node.name in cells
    assert {f"{reach.upper} to {reach.lower}" for reach in study.water.reaches} <= cells
    assert [sheet.number for sheet in sheets] == [f"{3 + n} of 10" for n in range(len(sheets))]


def test_a_long_run_is_split_with_match_lines_that_name_the_other_sheet() -> None:
    sheets = profile(*chained(45, 30), INFO)
    drawn = [sheet for sheet in sheets if "exaggeration" in sheet.scale_text]

    assert len(drawn) > 1
    assert faults_of(sheets) == []
    for index, sheet in enumerate(drawn):
        words = text_of([sheet])
        assert (f"match line, see sheet {INFO.number + index - 1}" in words) is (index > 0)
        ahead = f"match line, see sheet {INFO.number + index + 1}" in words
        assert ahead is (index + 1 < len(drawn))


def test_laterals_are_marked_where_they_come_in_and_the_longest_way_is_drawn() -> None:
    job, study = branched()
    sheets = profile(job, study, INFO)
    words = text_of(sheets)

    assert [node.name for node in course_of(job, study).trunk] == ["outlet", "N1", "N2", "N3", "N4"]
    assert "lateral from L1: 9 ft of 3 in Sch 40 PVC" in words
    assert "L3 to N2" in words
    assert faults_of(sheets) == []


def test_a_metric_job_is_written_and_scaled_in_metres() -> None:
    seed = next(seed for seed in range(40) if random_job(seed).units == "metric")
    job = random_job(seed)

    sheets = profile(job, random_study(job), replace(INFO, paper=A4))

    assert "horizontal 1:" in sheets[0].scale_text
    assert "in m |" in text_of(sheets)


def test_a_run_without_pipe_has_no_profile() -> None:
    job, study = demo("millrace-clean")
    dry = replace(study, water=replace(study.water, reaches=()))

    assert profile(job, dry, INFO) == ()


def test_the_same_job_gives_the_same_bytes() -> None:
    sheets = [profile(*demo("millrace-faulty"), INFO, HAND_DIG_M) for _ in range(2)]

    assert sheets[0] == sheets[1]
    assert render_sheets(sheets[0]) == render_sheets(sheets[1])


def test_a_line_is_cut_at_stations_and_keeps_its_steps() -> None:
    line = [(0.0, 1.0), (2.0, 1.0), (2.0, 3.0), (4.0, 5.0)]

    assert clipped(line, 1.0, 3.0) == ((1.0, 1.0), (2.0, 1.0), (2.0, 3.0), (3.0, 4.0))
    assert clipped(line, 5.0, 6.0) == ()


def test_a_trench_length_does_not_move_the_profile() -> None:
    job, study = demo("millrace-clean")
    other = with_table(job, "cut", trench_length=length("3 ft"))

    assert profile(other, study, INFO) == profile(job, study, INFO)


def test_water_standing_in_a_branch_is_noted_and_not_drawn_in_the_trunk() -> None:
    job, study = branched()
    pool = Standing("L1", 30.9, 0.02, 2.0, 0.004, 4.0, 6.0)
    wet = replace(study, water=replace(study.water, standing=(pool,)))

    sheets = profile(job, wet, INFO)

    assert "Standing water at L1: 1.1 gal, up to 13/16 in deep over" in text_of(sheets)
    hatches = (mark for mark in flatten(sheets[0].shapes) if isinstance(mark, Hatch))
    assert Pattern.WATER not in {mark.pattern for mark in hatches}


def test_a_run_of_many_miles_is_refused_with_its_length() -> None:
    job, study = chained(1)
    far = replace(study.water.reaches[0], station_high_m=50_000.0)
    nodes = tuple(
        replace(node, station_m=50_000.0) if node.name == "N1" else node
        for node in study.water.nodes
    )
    long = replace(study, water=replace(study.water, reaches=(far,), nodes=nodes))

    with pytest.raises(InputError, match="a run whose profile takes fewer than 40 sheets"):
        profile(job, long, INFO)


def test_reaches_are_tabled_on_the_sheet_of_the_run_where_it_has_room() -> None:
    (sheet,) = profile(*branched(), replace(INFO, paper=A3))

    words = text_of([sheet])
    assert all(head in words for head in ("Lowest opening", "Normal depth", "L3 to N2"))
    assert faults_of([sheet]) == []


def test_what_waits_stands_below_the_tables_and_not_on_a_sheet_of_its_own() -> None:
    job = random_job(28)
    sheets = profile(job, random_study(job), INFO)

    waiting = [sheet for sheet in sheets if sheet.left_over]
    (tables,) = [sheet for sheet in sheets if "tables and notes" in sheet.title]
    assert waiting
    assert sheets[-1] is tables
    assert "Notes, continued" in text_of([tables])
    assert all(" ".join(text.split()) in text_of([tables]) for text in waiting[0].left_over)


def test_where_one_digs_by_hand_is_hatched_and_told_in_the_legend() -> None:
    (sheet,) = profile(*demo("millrace-clean"), INFO, HAND_DIG_M)
    (bare,) = profile(*demo("millrace-clean"), INFO)

    dug = [mark for mark in flatten(sheet.shapes) if isinstance(mark, Hatch)]
    assert sum(mark.pattern is Pattern.SAND for mark in dug) == 3
    assert "dug by hand at marks" in text_of([sheet])
    assert "dug by hand at marks" not in text_of([bare])
