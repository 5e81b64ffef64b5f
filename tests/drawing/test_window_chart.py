from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from sheet_marks import collisions, demo

from permitkit.drawing.scale import LETTER
from permitkit.drawing.shapes import Box, Fill, Hatch, Line, Pattern, Polygon, Role
from permitkit.drawing.sheet import Sheet, flatten, labels_of
from permitkit.drawing.window_chart import window_chart
from permitkit.render.blocks import Drawing
from permitkit.render.flow import render_flow
from permitkit.study.results import Bound

if TYPE_CHECKING:
    from permitkit.drawing.window_chart import Chart
    from permitkit.model.job import Job
    from permitkit.study.results import Study, Window

INCH_M = 0.0254


def chart_of(job: Job, study: Study) -> Chart:
    chart = window_chart(job, study)
    assert chart is not None
    return chart


def words_of(chart: Chart) -> str:
    return " ".join(label.text.replace("\n", " ") for label in labels_of(chart.shapes))


def window_of(study: Study) -> Window:
    assert study.curb is not None
    assert study.curb.hole is not None
    return study.curb.hole.window


def with_window(study: Study, window: Window, bottom_m: float | None = None) -> Study:
    assert study.curb is not None
    assert study.curb.hole is not None
    hole = replace(study.curb.hole, window=window)
    if bottom_m is not None:
        hole = replace(hole, bottom_m=bottom_m)
    return replace(study, curb=replace(study.curb, hole=hole))


def uprights(chart: Chart, *roles: Role) -> list[float]:
    return [
        mark.start[0]
        for mark in flatten(chart.shapes)
        if isinstance(mark, Line) and mark.role in roles and mark.start[0] == mark.end[0]
    ]


def test_the_chart_tells_each_limit_what_binds_and_the_proposed_hole() -> None:
    words = words_of(chart_of(*demo("millrace-clean")))

    assert "invert over the flow line (Millrace" in words
    assert "the strip over the hole top (Millrace" in words
    assert "the curb top" in words
    assert "at most 1/2 in" in words
    assert "advice: the crown at the running gutter" in words
    assert "proposed 3/8 in" in words
    assert "to 1/2 in (the strip over the hole top binds)" in words
    assert "inside it; bit center 3 5/8 in below the curb top" in words


def test_limits_and_hole_stand_where_their_heights_are() -> None:
    job, study = demo("millrace-clean")
    chart, window = chart_of(job, study), window_of(study)
    assert study.curb is not None
    assert study.curb.hole is not None
    (hole,) = uprights(chart, Role.PIPE)
    low, high = sorted(uprights(chart, Role.PROPOSED))

    one = (high - low) / (window.high.height_m - window.low.height_m)

    assert (hole - low) / one == pytest.approx(study.curb.hole.bottom_m - window.low.height_m)
    drawn = {
        round((x - low) / one + window.low.height_m, 6) for x in uprights(chart, Role.EXISTING)
    }
    every = (*window.lows, *window.highs, *window.advice_lows, *window.advice_highs)
    others = {round(b.height_m, 6) for b in every if b not in {window.low, window.high}}
    assert others <= drawn


def test_what_a_limit_forbids_is_hatched_on_its_own_side() -> None:
    job, study = demo("millrace-clean")
    chart, window = chart_of(job, study), window_of(study)
    low, high = sorted(uprights(chart, Role.PROPOSED))

    barred = [
        Box.around(mark.region)
        for mark in flatten(chart.shapes)
        if isinstance(mark, Hatch) and mark.pattern is Pattern.REMOVED
    ]

    assert len(barred) == len(window.lows) + len(window.highs)
    assert any(box.right == pytest.approx(low) for box in barred)
    assert any(box.left == pytest.approx(high) for box in barred)


def test_the_window_is_a_grey_band_and_an_empty_one_is_not_drawn() -> None:
    whole, empty = chart_of(*demo("millrace-clean")), chart_of(*demo("millrace-faulty"))

    def bands(chart: Chart) -> list[Polygon]:
        return [
            mark
            for mark in flatten(chart.shapes)
            if isinstance(mark, Polygon) and mark.fill is Fill.TONE
        ]

    assert len(bands(whole)) == 1
    assert bands(empty) == []


def test_an_empty_window_says_which_two_limits_cross_and_by_how_much() -> None:
    words = words_of(chart_of(*demo("millrace-faulty")))

    assert "No height satisfies every limit: invert over the flow line asks for at least" in words
    assert "they miss each other by 1/2 in" in words


@pytest.mark.parametrize(
    ("bottom_in", "words"), [(0.0, "1/32 in too low"), (0.75, "1/4 in too high")]
)
def test_a_hole_outside_its_window_is_told_by_how_much(bottom_in: float, words: str) -> None:
    job, study = demo("millrace-clean")
    moved = with_window(study, window_of(study), bottom_in * INCH_M)

    assert words in words_of(chart_of(job, moved))


def test_limits_at_one_height_still_make_a_chart() -> None:
    job, study = demo("millrace-clean")
    bound = Bound(0.0, "the gutter flow line")
    window = replace(
        window_of(study), lows=(bound,), highs=(bound,), low=bound, high=bound,
        advice_lows=(), advice_highs=(),
    )  # fmt: skip

    chart = chart_of(job, with_window(study, window, 0.0))

    assert collisions(Sheet(chart.width_mm, chart.height_mm, "", chart.shapes)) == []


def test_where_no_hole_is_cored_there_is_no_chart() -> None:
    assert window_chart(*demo("sorrel-flats-notch")) is None
    assert window_chart(*demo("harrow-heights-emitter")) is None


def test_a_chart_is_set_on_a_page_of_text() -> None:
    chart = chart_of(*demo("millrace-clean"))

    pdf = render_flow([Drawing(*chart)], LETTER, header="Job", title="Window")

    assert pdf.startswith(b"%PDF")
