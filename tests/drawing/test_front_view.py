from __future__ import annotations

import pytest
from sheet_marks import (
    INFO,
    demo,
    dimensions_of,
    marks_of,
    scales_of,
    text_of,
)

from permitkit.drawing.front_view import front_view
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID
from permitkit.drawing.shapes import Circle, Role

PAPERS = (LETTER, TABLOID, A4, A3)
INCH_M = 0.0254


def test_the_hole_is_a_circle_of_the_bit_and_one_of_the_bore() -> None:
    job, study = demo("millrace-clean")
    (sheet,) = front_view(job, study, INFO)
    (scale,) = scales_of(sheet)

    radii = [m.radius_mm for m in marks_of(sheet, Role.PROPOSED) if isinstance(m, Circle)]

    assert study.curb is not None
    assert study.curb.hole is not None
    expected = [
        scale.paper_mm(study.curb.hole.bit_m / 2),
        scale.paper_mm(study.curb.hole.bore_m / 2),
    ]
    assert radii == pytest.approx(expected)


def test_the_joints_are_dimensioned_from_the_center_and_from_the_edge() -> None:
    (sheet,) = front_view(*demo("millrace-clean"), INFO)

    values = {row.text: row.value_m / INCH_M for row in dimensions_of(sheet)}

    assert values["26 in"] == pytest.approx(26)
    assert values["94 in"] == pytest.approx(94)
    assert values["2 ft"] == pytest.approx(24)
    assert values["7 ft 8 in"] == pytest.approx(92)


def test_what_lies_beyond_the_view_is_told_with_its_distance() -> None:
    told = text_of(front_view(*demo("millrace-clean"), INFO))

    assert "left side line: 12 ft from the outlet" in told
    assert "drive: 9 ft from the opening" in told
    assert "looking north" in told.lower()


def test_the_smallest_distance_the_checks_judge_is_drawn() -> None:
    job, study = demo("millrace-faulty")
    (sheet,) = front_view(job, study, INFO)

    values = [row.value_m for row in dimensions_of(sheet)]

    assert study.curb is not None
    assert study.curb.edge_to_joint_m is not None
    assert any(value == pytest.approx(study.curb.edge_to_joint_m) for value in values)
    assert any(value == pytest.approx(study.curb.near_m["drive"]) for value in values)


def test_two_holes_are_drawn_as_far_apart_as_stated() -> None:
    job, study = demo("millrace-cured")
    (sheet,) = front_view(job, study, INFO)
    (scale,) = scales_of(sheet)

    centers = sorted({m.centre[0] for m in marks_of(sheet, Role.PROPOSED) if isinstance(m, Circle)})

    assert centers[1] - centers[0] == pytest.approx(scale.paper_mm(24 * INCH_M))


def test_no_front_view_without_a_hole_in_the_curb() -> None:
    assert front_view(*demo("harrow-heights-emitter"), INFO) == ()


def test_each_distance_says_what_it_is_measured_from_where_it_has_room() -> None:
    (sheet,) = front_view(*demo("millrace-clean"), INFO)
    (pair,) = front_view(*demo("millrace-cured"), INFO)

    told = text_of([sheet, pair])
    assert "2 ft clear" in told
    assert "7 ft 8 in clear to joint" in told
    assert "94 in from center to curb joint" in told
    assert " 26 in |" in f" {told}"
