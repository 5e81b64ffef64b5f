"""What the street needs while the work goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from study_cases import CLEAN, EMITTER, FOOT, demo, rules_saying, study_of

from permitkit.study.traffic import study_traffic
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    from permitkit.study.results import TrafficStudy


def traffic_of(
    rules: str = "", street: dict[str, object] | None = None, **traffic: object
) -> TrafficStudy:
    job = demo(CLEAN)
    given = {"width_taken": None, "lane_left": None, **traffic}
    job = job.model_copy(
        update={
            "traffic": job.traffic.model_copy(update=given),
            "street": job.street.model_copy(update=street or {}),
        }
    )
    return study_traffic(job, rules_saying(rules))


def feet(value: float | None) -> float:
    assert value is not None
    return round(value / FOOT, 2)


def test_a_parking_lane_at_25_mph_wants_a_shoulder_taper_of_28_ft() -> None:
    traffic = study_of(CLEAN).traffic

    assert round(feet(traffic.taper_need_m)) == 28
    assert feet(traffic.device_spacing_m) == 25
    assert feet(traffic.buffer_m) == 155
    assert feet(traffic.sign_spacing_m) == 100
    assert feet(traffic.lane_left_m) == 10
    assert "MUTCD" in traffic.source


def test_where_nothing_is_taken_nothing_is_asked_for_but_the_lane_is_told() -> None:
    traffic = study_of(EMITTER).traffic

    assert (traffic.taper_need_m, traffic.buffer_m, traffic.device_spacing_m) == (None, None, None)
    assert feet(traffic.lane_left_m) == 10


def test_without_a_share_in_the_sheet_the_taper_needed_is_not_known() -> None:
    traffic = traffic_of()

    assert traffic.taper_need_m is None
    assert feet(traffic.device_spacing_m) == 25


def test_the_sheets_share_of_the_merging_taper_is_what_is_needed() -> None:
    traffic = traffic_of('traffic.taper = { at_least = "50 %", cite = "pw 1" }')

    assert feet(traffic.taper_need_m) == 41.67


@pytest.mark.parametrize(
    ("taken", "width_ft", "lanes", "left"),
    [
        ("parking lane", None, 2, 10),
        ("parking lane", 10, 2, 8),
        ("travel lane", None, 2, 10),
        ("travel lane", 18, 2, 10),
        ("travel lane", 12, 2, 6),
        ("travel lane", None, 1, 0),
        ("none", None, 2, 10),
    ],
)
def test_the_lane_left_is_what_the_work_leaves_of_the_street(
    taken: str, width_ft: int | None, lanes: int, left: float
) -> None:
    width = None if width_ft is None else measure(width_ft, "ft", Kind.LENGTH)
    traffic = traffic_of(street={"lanes": lanes}, lane_taken=taken, width_taken=width)

    assert feet(traffic.lane_left_m) == left


@pytest.mark.parametrize(
    ("parking", "left"), [("both sides", 10), ("this side", 14), ("far side", 14), ("none", 18)]
)
def test_parking_leaves_the_lanes_what_it_does_not_take(parking: str, left: float) -> None:
    traffic = traffic_of(street={"parking": parking}, lane_taken="none")

    assert feet(traffic.lane_left_m) == left


def test_a_lane_left_that_was_measured_counts() -> None:
    traffic = traffic_of(lane_left=measure(9, "ft", Kind.LENGTH))

    assert feet(traffic.lane_left_m) == 9
