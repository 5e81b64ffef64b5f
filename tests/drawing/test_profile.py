from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

import pytest
from long_runs import branched, chained
from random_jobs import random_job, random_study
from sheet_marks import INFO, demo, faults_of, length, marks_of, text_of, with_table

from permitkit.drawing.profile import profile
from permitkit.drawing.profile.course import clipped, course_of
from permitkit.drawing.profile.crossings import hand_dug_m
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID
from permitkit.drawing.shapes import Hatch, Line, Pattern, Polyline, Role
from permitkit.drawing.sheet import flatten
from permitkit.errors import InputError
from permitkit.render.pdf import render_sheets
from permitkit.study.results import Standing

if TYPE_CHECKING:
    from permitkit.drawing.sheet import Sheet

HAND_DIG_M = 0.4572
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


def ratios_of(sheet: Sheet) -> tuple[float, float]:
    """Return millimetres on paper to the metre on the ground, across and up."""
    found = re.findall(r"1 in = (\d+) ft|1:(\d+)", sheet.scale_text)
    across, up = (
        Fraction(1, 12 * int(feet)) if feet else Fraction(1, int(whole)) for feet, whole in found
    )
    return float(1000 * across), float(1000 * up)


def lines_of(sheet: Sheet, role: Role) -> list[Polyline]:
    return [mark for mark in marks_of(sheet, role) if isinstance(mark, Polyline)]


@cache
def ticked() -> str:
    return text_of(profile(*demo("millrace-clean"), INFO, HAND_DIG_M))


@pytest.mark.parametrize(("item", "words"), TICK_LIST.items())
def test_the_tick_list_of_a_profile_is_on_the_sheet(item: str, words: str) -> None:

    assert words in ticked(), item


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


def test_water_above_an_opening_is_told_as_such() -> None:
    sheets = profile(*demo("millrace-faulty"), INFO)

    assert "patio grate 99.92 ft, water 7 1/8 in above it" in text_of(sheets)
    assert "short 7 1/8 in" in text_of(sheets)


def test_an_emitter_ends_the_run_with_its_rim_pit_and_water() -> None:
    job, study = demo("harrow-heights-emitter")
    sheets = profile(job, study, INFO)
    words = text_of(sheets)

    assert "outlet: emitter" in words
    assert "emitter, rim 100.35 ft, pit 1 ft 6 in deep, water over it 100.47 ft" in words
    assert "curb-full" not in words
    assert course_of(job, study).ground.row_m == pytest.approx(-12 * 0.3048)


def test_a_rolled_curb_and_a_box_pipe_are_drawn_from_the_back_of_the_curb() -> None:
    job, study = demo("sorrel-flats-notch")

    course = course_of(job, study)

    assert course.trunk[0].station_m == pytest.approx(0.3048)
    assert course.reaches[0].pipe.shape == "box"
    assert "5 x 2 x 3/16 in galvanised steel tube" in text_of(profile(job, study, INFO))


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
    slab = tuple(replace(edge, concrete_over_m=-inch) for edge in study.cut.slab)

    words = text_of(profile(job, replace(study, cut=replace(study.cut, slab=slab)), INFO))

    assert "pipe up to 1 in out of its top" in words


def test_a_run_without_pipe_has_no_profile() -> None:
    job, study = demo("millrace-clean")
    dry = replace(study, water=replace(study.water, reaches=()))

    assert profile(job, dry, INFO) == ()


def test_letters_that_cannot_be_drawn_are_named() -> None:
    job, study = demo("millrace-clean")
    named = with_table(job, "site", address="14 Tern Lane \N{CJK UNIFIED IDEOGRAPH-6C34}")

    with pytest.raises(InputError, match="U\\+6C34"):
        profile(named, study, INFO)


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
    slab = tuple(replace(edge, into_slab_m=-0.0254) for edge in study.cut.slab)

    words = text_of(profile(job, replace(study, cut=replace(study.cut, slab=slab)), INFO))

    assert "pipe at least 1 in below it" in words


def test_another_outlet_on_the_lot_is_named() -> None:
    job, study = demo("harrow-heights-emitter")
    well = with_table(job, "outlet", kind="dry well", emitter=None)
    bare = replace(study, water=replace(study.water, emitter=None))

    sheets = profile(well, bare, INFO)

    assert "outlet: dry well" in text_of(sheets)
    assert faults_of(sheets) == []


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
