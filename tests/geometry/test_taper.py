"""Work in the street, against the printed tables."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.geometry.taper import (
    buffer_m,
    merging_taper_m,
    sign_spacing_m,
    spacing_in_taper_m,
    stopping_distance_m,
)

FOOT_M, MPH_MS = 0.3048, 0.44704
TABLE = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "traffic.toml").read_text(encoding="utf-8")
)
SPEEDS = st.floats(1.0, 40.0)


def computed_ft(row: dict[str, Any]) -> float:
    speed = row["speed_mph"] * MPH_MS
    found = {
        "merging taper": lambda: merging_taper_m(row["offset_ft"] * FOOT_M, speed),
        "spacing in taper": lambda: spacing_in_taper_m(speed),
        "stopping distance": lambda: stopping_distance_m(speed),
        "sign spacing": lambda: sign_spacing_m(speed, row["setting"])[0],
    }[row["formula"]]()
    return found / FOOT_M


@pytest.mark.parametrize(
    "row", TABLE["row"], ids=lambda row: f"{row['formula']} {row['speed_mph']}"
)
def test_a_printed_length_comes_out_to_its_last_digit(row: dict[str, Any]) -> None:
    places = len(row["printed"].partition(".")[2])

    assert abs(computed_ft(row) - float(row["printed"])) <= 0.5 * 10**-places


@pytest.mark.parametrize("speed", list(TABLE["buffer"][0]["printed"]))
def test_every_buffer_of_the_printed_table_comes_out(speed: str) -> None:
    printed = TABLE["buffer"][0]["printed"][speed]

    assert buffer_m(int(speed) * MPH_MS) / FOOT_M == pytest.approx(printed, abs=1e-9)


@given(SPEEDS, SPEEDS)
def test_a_faster_street_never_needs_a_shorter_taper(one: float, other: float) -> None:
    slow, fast = sorted((one, other))

    assert merging_taper_m(3.0, slow) <= merging_taper_m(3.0, fast)


@given(SPEEDS, st.floats(0.0, 10.0))
def test_twice_the_width_needs_twice_the_taper(speed: float, width: float) -> None:
    one, two = merging_taper_m(width, speed), merging_taper_m(2 * width, speed)

    assert math.isclose(2 * one, two, abs_tol=1e-12)


@given(SPEEDS)
def test_a_buffer_is_whole_steps_of_five_feet_and_no_shorter_than_stopping(speed: float) -> None:
    feet = buffer_m(speed) / FOOT_M

    assert math.isclose(feet / 5, round(feet / 5), abs_tol=1e-9)
    assert -1e-6 <= buffer_m(speed) - stopping_distance_m(speed) < 5 * FOOT_M


def test_signs_of_an_expressway_stand_ever_farther_apart() -> None:
    feet = [round(distance / FOOT_M) for distance in sign_spacing_m(65 * MPH_MS, "expressway")]

    assert feet == [1000, 1500, 2640]


@pytest.mark.parametrize("speed", [0.0, -1.0, math.nan, math.inf])
def test_a_speed_that_is_none_is_refused(speed: float) -> None:
    with pytest.raises(ValueError, match="a speed must be more than zero"):
        buffer_m(speed)


@pytest.mark.parametrize("width", [-0.1, math.nan])
def test_a_width_below_zero_is_refused(width: float) -> None:
    with pytest.raises(ValueError, match="a width taken must not be below zero"):
        merging_taper_m(width, 10.0)
