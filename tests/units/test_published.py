"""The units are the size that published tables give them."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from permitkit.units import Kind, measure, read_measure

ROWS: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "units.toml").read_text(encoding="utf-8")
)["row"]


def half_digit(printed: str) -> Fraction:
    """Return half a unit of the last printed digit."""
    return Fraction(1, 2 * 10 ** len(printed.partition(".")[2]))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_a_unit_has_its_published_size(row: dict[str, Any]) -> None:
    number = read_measure(row["given"], Kind(row["kind"])).in_(row["unit"])

    allowed = 0 if row["exact"] else half_digit(row["printed"])
    assert abs(number - Fraction(row["printed"])) <= allowed


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_every_row_says_where_it_stands(row: dict[str, Any]) -> None:
    assert row["known"] in {"seen", "memory"}
    assert all(row[key] for key in ("source", "edition", "place"))


def test_an_acre_inch_an_hour_is_the_published_flow() -> None:
    acre, hour_depth = measure(1, "acre", Kind.AREA), measure(1, "in/hr", Kind.INTENSITY)

    cfs = acre.si * hour_depth.si / measure(1, "cfs", Kind.FLOW).si

    assert cfs == Fraction(121, 120)
    assert abs(cfs - Fraction("1.00833")) <= half_digit("1.00833")


def test_rain_on_a_square_foot_in_gallons_a_minute_is_the_published_divisor() -> None:
    roof, rain = measure(1, "sq ft", Kind.AREA), measure(1, "in/hr", Kind.INTENSITY)

    divisor = measure(1, "gpm", Kind.FLOW).si / (roof.si * rain.si)

    assert divisor == Fraction("96.25")
