from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from demo_jobs import changed, job_path, told
from hypothesis import given
from hypothesis import strategies as st

from permitkit.load.job_file import read_job
from permitkit.load.levels import closing_error, instrument, level_fields, with_levels
from permitkit.model.drain import Node
from permitkit.model.job import Job
from permitkit.model.site import LevelBook
from permitkit.units import Kind, measure, read_measure

if TYPE_CHECKING:
    from pathlib import Path

TWO_SETUPS = {
    "benchmark": "curb top",
    "benchmark_level": "100.00 ft",
    "setup": [
        {"name": "1", "backsight": "4.20 ft", "turning_point": "TP", "foresight": "3.20 ft"},
        {
            "name": "2",
            "on": "TP",
            "backsight": "5.00 ft",
            "closing": "6.02 ft",
            "closing_on": "benchmark",
        },
    ],
}


def level(text: str) -> object:
    return read_measure(text, Kind.LEVEL)


def book(**changes: object) -> LevelBook:
    return LevelBook.model_validate(TWO_SETUPS | changes)


def test_a_reading_is_a_level_under_the_instrument() -> None:
    job = read_job(job_path("millrace-clean"))

    assert job.gutter.flow_line == level("99.50 ft")
    assert [node.invert for node in job.drain.node] == [level("100.26 ft"), level("100.00 ft")]
    assert (job.walk.level_curb_side, job.walk.level_house_side) == (
        level("100.10 ft"),
        level("100.20 ft"),
    )


def test_a_level_from_a_reading_prints_as_a_level_and_keeps_what_was_written() -> None:
    flow_line = read_job(job_path("millrace-clean")).gutter.flow_line

    assert flow_line.shown() == "99.50 ft"
    assert flow_line.text == "rod 4.70 ft"


def test_a_turning_point_carries_the_level_on() -> None:
    heights = instrument(book()).heights

    assert heights == {"1": level("104.20 ft"), "2": level("106.00 ft")}


def test_a_closing_shot_tells_by_how_much_a_setup_misses() -> None:
    assert closing_error(book()) == {"2": measure(Fraction(-2, 100), "ft", Kind.LENGTH)}


def test_a_closing_shot_is_on_the_backsight_where_nothing_is_said() -> None:
    setup = [{"name": "1", "backsight": "4.20 ft", "closing": "4.18 ft"}]

    assert closing_error(book(setup=setup)) == {"1": measure(Fraction(2, 100), "ft", Kind.LENGTH)}


def test_a_setup_without_a_closing_shot_closes_on_nothing() -> None:
    assert closing_error(book(setup=[{"name": "1", "backsight": "4.20 ft"}])) == {}


def test_the_benchmark_goes_by_its_own_name_too() -> None:
    setup = [{"name": "1", "on": "curb top", "backsight": "4.20 ft"}]

    assert instrument(book(setup=setup)).heights == {"1": level("104.20 ft")}


@given(
    st.fractions(0, 20, max_denominator=100),
    st.fractions(0, 20, max_denominator=100),
    st.fractions(-50, 500, max_denominator=100),
)
def test_a_larger_reading_is_lower_ground(sight: Fraction, rod: Fraction, base: Fraction) -> None:
    table = {
        "level": {
            "benchmark": "pin",
            "benchmark_level": measure(base, "ft", Kind.LEVEL),
            "setup": [{"name": "1", "backsight": measure(sight, "ft", Kind.LENGTH)}],
        },
        "gutter": {"flow_line": f"rod {float(rod):.2f} ft"},
    }

    turned, faults = with_levels(table, "job.toml")

    read = Fraction(f"{float(rod):.2f}")
    assert faults == []
    assert turned["gutter"]["flow_line"] == measure(base + sight - read, "ft", Kind.LEVEL)


def test_the_reading_names_its_setup_where_there_are_several() -> None:
    table = {"level": TWO_SETUPS, "outlet": {"emitter": {"rim": "Rod 5.65 ft at 2"}}}

    turned, faults = with_levels(table, "job.toml")

    assert faults == []
    assert turned["outlet"]["emitter"]["rim"] == level("100.35 ft")


def test_what_is_no_reading_stays_as_it_is() -> None:
    table = {
        "level": TWO_SETUPS,
        "gutter": {"flow_line": "99.50 ft", "kind": "rod 4 ft"},
        "ground": [{"at": "rod 4 ft", "level": 3}, "rod 4 ft"],
        "site": "rod 4 ft",
        "town": "rod 4 ft",
    }

    turned, faults = with_levels(table, "job.toml")

    assert (turned, faults) == (table, [])


def test_every_level_field_of_a_job_may_be_a_reading() -> None:
    assert level_fields(Node) == {"ground": None, "invert": None, "opening": None}
    assert {"level", "gutter", "verge", "walk", "ground", "drain", "outlet"} <= set(
        level_fields(Job)
    )


@pytest.mark.parametrize(
    ("reading", "told_as"),
    [
        (
            "rod 4.70 ft at 3",
            "  found     'rod 4.70 ft at 3'\n  expected  a set-up of the level book: 1",
        ),
        (
            "rod 4.70",
            (
                "  found     'rod 4.70'\n  expected  a rod reading, such as rod 4.70 ft\n"
                "  fix       write the unit, such as 4.70 ft or 4.70 in"
            ),
        ),
        (
            "rod",
            (
                "  found     'rod'\n  expected  a rod reading, such as rod 4.70 ft\n"
                "  fix       write one number with one unit"
            ),
        ),
    ],
)
def test_a_reading_that_cannot_be_read_is_told(reading: str, told_as: str, tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-clean", ("rod 4.70 ft", reading))

    assert told(path) == f"error: job.toml: gutter.flow_line\n{told_as}"


def test_a_reading_without_a_setup_is_told(tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-faulty", ('"99.52 ft"', '"rod 4.70 ft"'))

    assert told(path) == (
        "error: job.toml: gutter.flow_line\n"
        "  found     'rod 4.70 ft'\n"
        "  expected  a level, or a set-up to read it from\n"
        "  fix       add [[level.setup]]"
    )


def test_a_reading_of_one_of_several_setups_is_told(tmp_path: Path) -> None:
    second = '[[level.setup]]\nname = "2"\nbacksight = "5 ft"\n\n# ---- the run'
    readings = ("3.94", "4.20", "4.10", "4.00")
    path = changed(
        tmp_path,
        "millrace-clean",
        ("# ---- the run", second),
        *((f'"rod {rod} ft"', f'"rod {rod} ft at 1"') for rod in readings),
    )

    assert told(path) == (
        "error: job.toml: gutter.flow_line\n"
        "  found     'rod 4.70 ft'\n"
        "  expected  the set-up it was read from: 1, 2\n"
        "  fix       write rod 4.70 ft at 1"
    )


def test_a_faulty_level_book_is_told_once_and_not_at_every_reading(tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-clean", ('backsight = "4.20 ft"', "backsight = 4.20"))

    assert told(path) == (
        "error: job.toml: level.setup[1].backsight\n"
        "  found     4.20\n"
        "  expected  a length with its unit, such as 12 ft or 3 1/2 in\n"
        '  fix       write it in quotes with its unit, such as "4.20 ft"'
    )


@pytest.mark.parametrize(
    ("changes", "place", "found"),
    [
        ({"name": "1"}, "setup[2].name", "'1'"),
        ({"on": "TPX"}, "setup[2].on", "'TPX'"),
        ({"closing_on": "bench"}, "setup[2].closing_on", "'bench'"),
        ({"closing": None}, "setup[2].closing", "nothing"),
        ({"turning_point": "TP", "foresight": "1 ft"}, "setup[2].turning_point", "'TP'"),
        ({"turning_point": "TP2"}, "setup[2].foresight", "nothing"),
        ({"foresight": "1 ft"}, "setup[2].turning_point", "nothing"),
    ],
)
def test_a_setup_that_hangs_on_nothing_is_told(
    changes: dict[str, object], place: str, found: str
) -> None:
    first, second = TWO_SETUPS["setup"]
    merged = {key: value for key, value in ({**second, **changes}).items() if value is not None}
    table = {"level": TWO_SETUPS | {"setup": [first, merged]}}

    _, faults = with_levels(table, "job.toml")

    assert [(fault.where, fault.found) for fault in faults] == [(f"job.toml: level.{place}", found)]


def test_a_near_point_is_offered() -> None:
    first, second = TWO_SETUPS["setup"]
    table = {"level": TWO_SETUPS | {"setup": [first, {**second, "on": "benchmrk"}]}}

    _, faults = with_levels(table, "job.toml")

    assert faults[0].fix == "did you mean benchmark?"
