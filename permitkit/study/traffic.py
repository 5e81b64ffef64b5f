"""The street during the work: the lane left open, and the lengths the books ask for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.geometry.taper import (
    buffer_m,
    merging_taper_m,
    sign_spacing_m,
    spacing_in_taper_m,
)
from permitkit.model.keys.walk import TRAFFIC_TAPER
from permitkit.study.results import TrafficStudy

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce

__all__ = ["study_traffic"]

SOURCE = (
    "MUTCD, 11th ed., tables 6B-1, 6B-2 and 6B-4, section 6K.01; "
    "urban sign distances split as California table 6H-3(CA)"
)


def study_traffic(job: Job, rules: RulesInForce) -> TrafficStudy:
    """Return the taper, spacing, buffer and signs for what the job takes, and the lane left.

    Lengths of the books are given only where part of the street is taken.
    """
    lane = _lane_left_m(job)
    if job.traffic.lane_taken == "none":
        return TrafficStudy(None, None, None, None, lane, SOURCE)
    speed = float(job.street.speed)
    share = rules[TRAFFIC_TAPER].least
    taper = None if share is None else float(share) * merging_taper_m(_width_taken_m(job), speed)
    return TrafficStudy(
        taper_need_m=taper,
        device_spacing_m=spacing_in_taper_m(speed),
        buffer_m=buffer_m(speed),
        sign_spacing_m=sign_spacing_m(speed)[0],
        lane_left_m=lane,
        source=SOURCE,
    )


def _parking_m(job: Job) -> tuple[float, float]:
    """Return the widths of the parking lanes on this side and the far side."""
    width = float(job.street.parking_width or 0)
    here = job.street.parking in {"both sides", "this side"}
    there = job.street.parking in {"both sides", "far side"}
    return width * here, width * there


def _lane_m(job: Job) -> float:
    """Return the width of one lane between the parking lanes."""
    return (float(job.street.width) - sum(_parking_m(job))) / job.street.lanes


def _width_taken_m(job: Job) -> float:
    """Return the width taken from the street; of a lane not measured, all of it."""
    traffic, parking = job.traffic, _parking_m(job)[0]
    if traffic.width_taken is not None:
        return float(traffic.width_taken)
    if traffic.lane_taken == "travel lane":
        return parking + _lane_m(job)
    return parking


def _lane_left_m(job: Job) -> float:
    """Return the width left of the lane beside the work, or of the next if that one is closed."""
    traffic, lane = job.traffic, _lane_m(job)
    if traffic.lane_left is not None:
        return float(traffic.lane_left)
    if traffic.lane_taken == "none":
        return lane
    left = lane - max(_width_taken_m(job) - _parking_m(job)[0], 0.0)
    if left > 0.0:
        return left
    return lane if job.street.lanes > 1 else 0.0
