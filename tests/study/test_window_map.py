"""The whole outlet window: what the run asks beside curb and town, and a map of trial holes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import (
    CLEAN,
    CORE_BARRED,
    FAULTY,
    FOOT,
    INCH,
    altered,
    demo,
    node_at,
    rules_of,
    rules_saying,
    study_job_of,
    study_of,
)

from permitkit.geometry.core import BITS_SOLD_M
from permitkit.load.rule_sheet import load_layers
from permitkit.study.curb import curb_limits
from permitkit.study.in_force import rules_in_force
from permitkit.study.results import Bound, Window
from permitkit.study.study import study_job
from permitkit.study.window import HoleSize
from permitkit.study.window_map import (
    RunLimits,
    run_limits,
    whole_window,
    window_map,
)
from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from permitkit.model.job import Job

PIPE = (3.5 * INCH, 3.042 * INCH)
HEIGHTS = tuple(n * INCH / 100 for n in range(400))
FREE = 'core.gap = { at_least = "0 in", cite = "pw 1" }\n'
LOW_OPENING = ('opening = "101.20 ft"', 'opening = "100.62 ft"')


def window_of(job: Job) -> Window:
    rules = rules_in_force(load_layers(job.town), job)
    study = study_job(job, rules)
    assert study.curb is not None
    assert study.curb.hole is not None
    return whole_window(job, rules, study, study.curb.hole)


def limits_by_name(job: Job) -> dict[str, float]:
    rules = rules_in_force(load_layers(job.town), job)
    found = run_limits(job, rules, study_job(job, rules))
    return {bound.name: bound.height_m for bound in found.highs}


def test_the_least_fall_of_the_last_reach_bounds_from_above() -> None:
    need = 11.5 * FOOT * 0.01 + 30 * FOOT * 0.005

    heights = limits_by_name(demo(CLEAN))

    assert heights == pytest.approx({"the least fall of the last reach": 0.5 * FOOT - need})


def test_the_pipe_in_the_hole_needs_its_fall_with_the_reach_above() -> None:
    line = 'length = "41 ft 6 in"\npipe = "3 in Sch 40 PVC"'
    job = altered(CLEAN, (line, line.replace("3 in Sch 40", "4 in SDR 35")))

    name = "the least fall of the last reach"

    assert limits_by_name(job)[name] == pytest.approx(limits_by_name(demo(CLEAN))[name])


def test_without_a_least_slope_the_fall_bounds_nothing() -> None:
    job, rules = demo(CLEAN), rules_saying("")

    assert run_limits(job, rules, study_job(job, rules)).highs == ()


def test_water_at_the_lowest_opening_bounds_just_where_the_freeboard_is_met() -> None:
    job = altered(CLEAN, LOW_OPENING)
    height = limits_by_name(job)["the water at the lowest opening"]
    at = job.outlet.model_copy(
        update={"hole_bottom": None, "invert": from_si(height, Kind.LENGTH, "in")}
    )

    node = node_at(study_job_of(job.model_copy(update={"outlet": at})), "N1")
    highest = max(*node.flowing_m.values(), *node.still_m.values())

    freeboard = rules_of(CLEAN)["water.freeboard"].limit.at_least
    assert (node.opening_m or 0) - highest == pytest.approx(float(freeboard or 0), abs=1e-4)


def test_an_opening_below_the_curb_top_leaves_no_height_and_tells_by_how_much() -> None:
    window = window_of(demo(FAULTY))

    assert window.empty
    assert window.high.name == "the water at the lowest opening"
    assert window.high.height_m < 0.0


def test_a_line_with_no_opening_is_bound_by_no_water() -> None:
    opening = 'opening = "101.20 ft"\nopening_kind = "leaf screen"\n'
    job = altered(CLEAN, (opening, "sealed = true\n"))

    assert "the water at the lowest opening" not in limits_by_name(job)


def test_a_town_without_a_freeboard_wants_the_water_below_the_opening() -> None:
    """The pump alone flows then: no rain is known without a rule."""
    job = altered(CLEAN, ('opening = "101.20 ft"', 'opening = "100.12 ft"'))
    rules = rules_saying("")

    (bound,) = run_limits(job, rules, study_job(job, rules)).highs

    assert bound.name == "the water at the lowest opening"
    assert bound.source == ""


def test_the_whole_window_holds_the_limits_of_curb_and_town_too() -> None:
    curb = study_of(CLEAN).curb
    assert curb is not None
    assert curb.hole is not None

    whole = window_of(demo(CLEAN))

    assert whole.lows == curb.hole.window.lows
    assert whole.highs[: len(curb.hole.window.highs)] == curb.hole.window.highs
    assert (whole.low, whole.high) == (curb.hole.window.low, curb.hole.window.high)


class TestMap:
    """Many trial holes at once."""

    def test_a_point_is_open_just_where_its_window_holds_it(self) -> None:
        limits = curb_limits(demo(CLEAN), rules_of(CLEAN))
        found = window_map(limits, RunLimits(()), PIPE, BITS_SOLD_M, HEIGHTS)

        for window, row in zip(found.windows, found.open, strict=True):
            for height, is_open in zip(HEIGHTS, row, strict=True):
                inside = window is not None and (
                    window.low.height_m - 1e-9 <= height <= window.high.height_m + 1e-9
                )
                assert is_open is inside

    def test_only_the_bit_that_leaves_its_gap_has_a_window(self) -> None:
        limits = curb_limits(demo(CLEAN), rules_of(CLEAN))
        found = window_map(limits, RunLimits(()), PIPE, BITS_SOLD_M, HEIGHTS)

        with_one = [bit / INCH for bit, w in zip(found.bits_m, found.windows, strict=True) if w]
        assert with_one == pytest.approx([4.0])

    def test_the_town_bars_a_bit_whatever_goes_in(self) -> None:
        rules = rules_saying(FREE + 'core.bit = { at_most = "4 in", cite = "pw 1" }')
        limits = curb_limits(demo(CLEAN), rules)
        found = window_map(limits, RunLimits(()), PIPE, (4.5 * INCH,), HEIGHTS)

        assert found.windows == (None,)
        assert not any(found.open[0])

    @given(st.floats(0.0, 0.05), st.floats(0.0, 0.05))
    def test_a_run_that_asks_for_more_opens_no_more_points(self, one: float, less: float) -> None:
        limits = curb_limits(demo(CORE_BARRED), rules_of(CORE_BARRED))
        counts = [
            sum(
                map(
                    sum,
                    window_map(
                        limits, RunLimits((Bound(high, "run"),)), PIPE, BITS_SOLD_M, HEIGHTS
                    ).open,
                )
            )
            for high in (one, one - less)
        ]

        assert counts[1] <= counts[0]

    def test_a_limit_on_the_invert_is_one_on_the_bottom_less_what_lies_between(self) -> None:
        size = HoleSize(4 * INCH, *PIPE)
        limits = curb_limits(demo(CLEAN), rules_of(CLEAN))
        joined = RunLimits((Bound(0.5 * INCH, "run", "why"),)).joined(limits.window(size), size)

        assert joined.high.height_m / INCH == pytest.approx(0.5 - 0.479)
        assert (joined.high.name, joined.high.source) == ("run", "why")
