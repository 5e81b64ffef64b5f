"""The tables of surfaces that the study reads are as printed."""

from __future__ import annotations

import pytest
from published.rows import book

from permitkit.hydraulics.rain import RUNOFF
from permitkit.study.water.street import PANNED, PLAIN

BOOK = book("surfaces")


def test_every_runoff_coefficient_is_as_printed() -> None:
    printed = {row["surface"]: tuple(row["range"]) for row in BOOK["runoff"]}

    assert {name: (row.low, row.high) for name, row in RUNOFF.items()} == printed


@pytest.mark.parametrize("row", BOOK["gutter"], ids=lambda row: str(row["surface"]))
def test_every_gutters_roughness_is_as_printed(row: dict[str, object]) -> None:
    kept = {source.rpartition(": ")[2]: n for n, source in (PANNED, PLAIN)}

    assert kept[str(row["surface"])] == row["n"]


@pytest.mark.parametrize("name", BOOK["source"])
def test_every_table_says_where_it_stands_and_how_it_is_known(name: str) -> None:
    source = BOOK["source"][name]

    assert source["known"] in {"seen", "memory"}
    assert source["source"]
    assert source["edition"]
    assert source["place"]
