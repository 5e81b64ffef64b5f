from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from demo_jobs import changed, job_path

from permitkit.load.job_file import read_job

if TYPE_CHECKING:
    from pathlib import Path

    from permitkit.model.job import Job

THICKNESS = ('thickness = "4 in"                  # probed at the joint\n', "")
ERROR = ('error = "1/8 in"\n', "")


def assumed(job: Job) -> dict[str, tuple[str, str, str, str]]:
    return {
        one.field: (one.value.shown(), one.low.shown(), one.high.shown(), one.note)
        for one in job.assumed
    }


def test_what_nobody_measured_is_assumed_and_told(tmp_path: Path) -> None:
    depth = '\ndepth_running = "3 in"              # water mark on the curb after the March storm'
    path = changed(
        tmp_path,
        "millrace-clean",
        THICKNESS,
        ERROR,
        (f'pan_width = "18 in"\npan_slope = "1/2 in/ft"{depth}', ""),
    )

    job = read_job(path)

    assert assumed(job) == {
        "walk.thickness": ("4 in", "3 1/2 in", "6 in", "to be confirmed at saw cut"),
        "gutter.pan_width": ("18 in", "18 in", "18 in", "drawn as typical"),
        "gutter.pan_slope": (
            "1/2 in/ft",
            "1/4 in/ft",
            "1 in/ft",
            "usual for a gutter pan, to be leveled at the hole",
        ),
        "curb.batter": ("1:12", "1:12", "1:12", "drawn as typical"),
        "curb.radius": ("1/2 in", "1/2 in", "1/2 in", "drawn as typical"),
        "curb.base_depth": ("18 in", "18 in", "18 in", "drawn as typical"),
        "level.error": (
            "1/8 in",
            "1/8 in",
            "1/8 in",
            "usual for a builder's level over a front yard",
        ),
        "outlet.barrel_out": ("9 in", "9 in", "9 in", "usual barrel past the face"),
        "gutter.depth_running": ("3 in", "1 1/2 in", "4 1/2 in", "half the reveal"),
    }


def test_every_assumption_fills_its_field(tmp_path: Path) -> None:
    job = read_job(changed(tmp_path, "millrace-clean", THICKNESS, ERROR))

    for one in job.assumed:
        table, _, field = one.field.partition(".")
        assert getattr(getattr(job, table), field) == one.value
        assert one.low <= one.value <= one.high


def test_what_was_measured_is_not_assumed() -> None:
    job = read_job(job_path("millrace-clean"))

    assert set(assumed(job)) == {
        "curb.batter",
        "curb.radius",
        "curb.base_depth",
        "outlet.barrel_out",
    }


def test_the_gutter_runs_at_half_the_least_reveal(tmp_path: Path) -> None:
    depth = 'depth_running = "2 7/8 in"          # half the reveal\n'
    job = read_job(changed(tmp_path, "millrace-faulty", (depth, "")))

    assert assumed(job)["gutter.depth_running"][0] == "2 7/8 in"


@pytest.mark.parametrize(
    ("name", "field"),
    [
        ("sorrel-flats-notch", "curb.batter"),
        ("sorrel-flats-notch", "outlet.barrel_out"),
        ("harrow-heights-emitter", "outlet.barrel_out"),
    ],
)
def test_what_has_no_bearing_is_not_assumed(name: str, field: str) -> None:
    assert field not in assumed(read_job(job_path(name)))


def test_a_street_without_curb_or_gutter_is_given_neither(tmp_path: Path) -> None:
    path = changed(
        tmp_path,
        "harrow-heights-emitter",
        ('shape = "vertical"', 'shape = "none"'),
        ('kind = "catch"', 'kind = "none"'),
        ('pan_width = "18 in"\npan_slope = "1/2 in/ft"\ndepth_running = "3 in"\n', ""),
    )

    assert assumed(read_job(path)) == {}


def test_a_metric_job_is_given_round_metric_values(tmp_path: Path) -> None:
    metric = ('revision = "A"\n', 'revision = "A"\nunits = "metric"\n')

    job = read_job(changed(tmp_path, "millrace-clean", metric, THICKNESS, ERROR))

    told = assumed(job)
    assert told["walk.thickness"][:3] == ("100 mm", "90 mm", "150 mm")
    assert told["level.error"][0] == "3 mm"
    assert told["outlet.barrel_out"][0] == "230 mm"
