"""The gutter at the outlet in the design storm, with and without the job's water."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from demo_jobs import job_path
from hypothesis import given
from hypothesis import strategies as st
from study_cases import (
    CLEAN,
    EMITTER,
    FOOT,
    INCH,
    altered,
    demo,
    faults_with,
    rules_saying,
    study_job_of,
    study_of,
)

from permitkit.errors import InputError
from permitkit.hydraulics.gutter import Gutter, gutter_flow
from permitkit.study.study import study_job
from permitkit.study.water.street import study_street
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from permitkit.study.results import StreetStudy

CFS = FOOT**3


def with_flow(flow: str = "0.6 cfs", **gutter: str) -> StreetStudy:
    """Return the street of the clean job with a flow in its gutter and other fields changed."""
    job = demo(CLEAN)
    kinds = {"flow": Kind.FLOW, "pan_width": Kind.LENGTH}
    texts = {"flow": flow, "cross_slope": "2 %"} | gutter
    fields = {name: read_measure(text, kinds.get(name, Kind.SLOPE)) for name, text in texts.items()}
    changed = job.gutter.model_copy(update=fields)
    street = study_street(job.model_copy(update={"gutter": changed}), 0.0025)
    assert street is not None
    return street


def test_without_a_flow_nothing_is_computed_of_the_street() -> None:
    assert study_of(CLEAN).water.street is None


def test_a_pan_steeper_than_the_pavement_makes_a_composite_section() -> None:
    street = with_flow()

    assert street.gutter == Gutter(0.02, 0.015, float(demo(CLEAN).gutter.pan_width or 0), 1 / 24)
    assert "table 4-3" in street.n_source


def test_water_is_that_of_the_manuals_equation_before_and_after() -> None:
    street = with_flow()

    for water, flow in ((street.before, 0.6 * CFS), (street.after, 0.6 * CFS + 0.0025)):
        by_book = gutter_flow(street.gutter, flow, street.grade)
        assert water.spread_m == pytest.approx(by_book.spread_m)
        assert water.depth_m == pytest.approx(by_book.depth_m)
    assert street.after.spread_m > street.before.spread_m


def test_a_pan_as_wide_as_nothing_leaves_a_uniform_section() -> None:
    street = with_flow(pan_width="0 in")

    assert street.gutter == Gutter(0.02, 0.016)


def test_a_pan_flatter_than_the_pavement_is_taken_as_one_flat_slope() -> None:
    assert with_flow(pan_slope="1 %").gutter == Gutter(0.01, 0.016)


@given(st.floats(0.01, 2.0), st.floats(1.01, 3.0))
def test_more_flow_spreads_farther_and_stands_deeper(flow: float, more: float) -> None:
    less, greater = (with_flow(f"{cfs:.6f} cfs") for cfs in (flow, flow * more))

    assert greater.before.spread_m >= less.before.spread_m
    assert greater.before.depth_m >= less.before.depth_m


FLOWING = ('kind = "catch"', 'kind = "catch"\nflow = "0.6 cfs"\ncross_slope = "2 %"')


def test_the_job_adds_all_that_leaves_at_the_curb() -> None:
    water = study_job_of(altered(CLEAN, FLOWING)).water

    assert water.street is not None
    assert water.street.own_m3s == pytest.approx(water.total_m3s)


def test_an_emitter_adds_nothing_to_the_gutter() -> None:
    water = study_job_of(altered(EMITTER, FLOWING)).water

    assert water.street is not None
    assert water.street.own_m3s == 0.0
    assert water.street.after == water.street.before


def test_the_gutter_runs_as_deep_as_its_flow_where_nobody_measured_it() -> None:
    depth = 'depth_running = "3 in"'
    text = next(line for line in _lines(CLEAN) if line.startswith(depth))
    study = study_job_of(altered(CLEAN, FLOWING, (text, "")))
    levels, street = study.water.gutter_levels_m, study.water.street

    assert street is not None
    assert levels["running"] - levels["free"] == pytest.approx(street.after.depth_m)


def test_a_depth_that_was_measured_or_set_goes_before_the_computed_one() -> None:
    job = altered(CLEAN, FLOWING)
    rules = rules_saying('gutter.depth = { at_most = "4 in", cite = "pw 1" }')

    measured = study_job_of(job).water.gutter_levels_m
    by_town = study_job(job, rules).water.gutter_levels_m

    assert (measured["running"] - measured["free"]) / INCH == pytest.approx(3.0)
    assert (by_town["running"] - by_town["free"]) / INCH == pytest.approx(4.0)


def test_a_cross_slope_that_nobody_levelled_is_assumed_and_told() -> None:
    job = altered(CLEAN, (FLOWING[0], FLOWING[0] + '\nflow = "0.6 cfs"'))

    assumed = {one.field: one for one in job.assumed}

    assert assumed["gutter.cross_slope"].value.shown() == "2 %"


def _lines(name: str) -> list[str]:
    return job_path(name).read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("grade", ['grade = "0 %"', ""])
def test_a_flow_needs_a_fall_along_the_gutter(grade: str) -> None:
    own = next(line for line in _lines(CLEAN) if line.startswith("grade ="))

    with pytest.raises(InputError) as caught:
        altered(CLEAN, FLOWING, (own, grade))

    assert [f.where.rpartition(": ")[2] for f in caught.value.faults] == ["street.grade"]


@pytest.mark.parametrize("grade", [None, read_measure("0 %", Kind.SLOPE)])
def test_the_study_itself_refuses_a_gutter_without_fall(grade: object) -> None:
    job = altered(CLEAN, FLOWING)
    flat = job.model_copy(update={"street": job.street.model_copy(update={"grade": grade})})

    with pytest.raises(InputError, match=r"street\.grade"):
        study_street(flat, 0.0)


@pytest.mark.parametrize("slope", [None, read_measure("0 %", Kind.SLOPE)])
def test_a_pavement_without_cross_slope_is_told(slope: object) -> None:
    job = altered(CLEAN, FLOWING)
    level = job.gutter.model_copy(update={"cross_slope": slope})

    with pytest.raises(InputError, match=r"gutter\.cross_slope"):
        study_street(job.model_copy(update={"gutter": level}), 0.0)


def test_a_flow_beyond_any_street_is_told() -> None:
    flood = (FLOWING[0], FLOWING[1].replace("0.6 cfs", "900000000 cfs"))

    assert [fault.where for fault in faults_with(CLEAN, flood)] == ["gutter.flow"]
