"""What the command about a job's water prints, and what it says of bad input."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

import pytest
from called import Done, called, too_wide
from demo_jobs import NAMES, Change, changed, job_path

if TYPE_CHECKING:
    from pathlib import Path


CLEAN, FAULTY = "millrace-clean", "millrace-faulty"
UPPER = 'upper = "N2"\nlower = "N1"\nlength = "25 ft"'
FLOW_LINE = 'flow_line = "rod 4.70 ft"'
LOWER = 'upper = "N1"\nlower = "outlet"\nlength = "41 ft 6 in"'


def water(name: str, *more: str) -> Done:
    return called("water", job_path(name), *more)


def water_of(folder: Path, *changes: Change, name: str = CLEAN) -> Done:
    return called("water", changed(folder, name, *changes))


def finite(value: Any) -> bool:  # noqa: ANN401 - walks whatever the report holds
    if isinstance(value, dict):
        return all(map(finite, value.values()))
    if isinstance(value, list):
        return all(map(finite, value))
    return not isinstance(value, float) or math.isfinite(value)


class TestWater:
    """The water of one job."""

    @pytest.mark.parametrize("name", NAMES)
    def test_every_demo_is_told_within_eighty_columns(self, name: str) -> None:
        done = water(name)

        assert done.code in {0, 1}
        assert done.err == ""
        assert too_wide(done.out) == []

    @pytest.mark.parametrize("name", NAMES)
    def test_every_demo_is_told_to_programs_in_numbers_alone(self, name: str) -> None:
        done = water(name, "--json")
        found = json.loads(done.out)

        assert found["schema"] == 1
        assert finite(found)
        assert {way["proposed"] for way in found["ways"]} == {True, False}
        assert "NaN" not in done.out

    def test_a_line_without_fault_ends_well(self) -> None:
        done = water(CLEAN)

        assert done.code == 0
        assert "CURES" not in done.out
        for line in (
            "  together      39.4 gpm",
            "  spare         3 9/16 in",
            "  so            hole bottom between 1/32 in and 1/2 in above the flow line",
            "  hole cored in the curb (proposed)",
        ):
            assert line in done.out.splitlines()

    def test_the_binding_limits_are_marked(self) -> None:
        told = " ".join(water(CLEAN).out.split())
        cited = "(Millrace Public Works Standards, 2025 edition, section 4.3) BINDS"

        assert f"invert over the flow line {cited}" in told
        assert f"the strip over the hole top {cited}" in told

    def test_a_failing_line_says_which_limits_cross_and_what_comes_nearest(self) -> None:
        done = water(FAULTY)
        told = " ".join(done.out.split())

        assert done.code == 1
        assert (
            "no height: invert over the flow line and the water at the lowest opening cross by "
            "10 5/8 in"
        ) in told
        assert "CURES 1. lay 3 in Sch 40 PVC" in told
        assert "leaves: The street runs back into the line" in told

    def test_a_line_that_a_change_cures_says_that_it_passes(self, tmp_path: Path) -> None:
        high = ('hole_bottom = "3/8 in"', 'hole_bottom = "1 in"')
        done = water_of(tmp_path, high)
        told = " ".join(done.out.split())

        assert "1. set the hole bottom 1/16 in above the flow line passes" in told

    def test_a_line_that_nothing_tried_helps_says_so(self) -> None:
        assert "no change of pipe, height, grade or outlet that was tried helps" in " ".join(
            water("harrow-heights-core").out.split()
        )

    def test_a_verge_is_told_by_its_notches(self) -> None:
        out = water("sorrel-flats-verge").out

        assert "3 pass 101.5 gpm with the hollow brim-full" in out
        assert "2 of them, for 38.7 gpm" in out

    def test_an_emitter_tells_what_its_line_holds_and_when_it_is_empty(self) -> None:
        out = water("harrow-heights-emitter").out

        assert "the line holds  12.9 gal up to the rim" in out
        assert "empties it in 22 min" in out

    def test_an_emitter_without_a_weep_only_holds(self, tmp_path: Path) -> None:
        text = job_path("harrow-heights-emitter").read_text(encoding="utf-8")
        weep = next(line for line in text.splitlines() if line.startswith("weep ="))

        out = water_of(tmp_path, (weep, ""), name="harrow-heights-emitter").out

        assert "the line holds" in out
        assert "empties" not in out

    def test_the_street_is_told_where_its_flow_is_given(self, tmp_path: Path) -> None:
        flow = ('kind = "catch"', 'kind = "catch"\nflow = "0.6 cfs"\ncross_slope = "2 %"')
        told = " ".join(water_of(tmp_path, flow).out.split())

        assert "STREET without it 6 ft 1 in wide" in told
        assert "with it 6 ft 5" in told

    def test_leaders_and_surfaces_are_told(self, tmp_path: Path) -> None:
        roof = 'kind = "roof"\narea = "380 sq ft"'
        yard = 'kind = "yard"\nsurface = "concrete"\narea = "380 sq ft"\nleader = "3 in"'
        told = " ".join(water_of(tmp_path, (roof, yard)).out.split())

        assert "95% of it runs off; its leaders take 66.8 gpm" in told

    def test_a_rain_that_nobody_set_is_told_as_not_stated(self, tmp_path: Path) -> None:
        path = changed(tmp_path, CLEAN, ('town = "millrace"', 'town = "us"'))

        assert "rain          not stated" in called("water", path).out

    def test_a_long_name_of_a_node_stands_on_a_line_of_its_own(self, tmp_path: Path) -> None:
        text = job_path("harrow-heights-core").read_text(encoding="utf-8")
        text = text.replace('"N1"', '"the front corner"')
        path = changed(tmp_path, "harrow-heights-core")
        path.write_text(text, encoding="utf-8")
        done = called("water", path)

        assert "  the front corner\n           " in done.out
        assert too_wide(done.out) == []


class TestBadInput:
    """Runs that cannot be: a verdict or a clear message, never a trace or a number that is none."""

    @pytest.mark.parametrize(
        ("changes", "says"),
        [
            (((UPPER, UPPER.replace('"N1"', '"N3"')),), "'N3'"),
            (((LOWER, LOWER.replace('"outlet"', '"N2"')),), "round"),
            (((LOWER, LOWER.replace('"outlet"', '"N1"')),), "from N1 to itself"),
            (((UPPER, UPPER.replace("25 ft", "0 ft")),), "more than nothing"),
            (((UPPER, UPPER.replace("25 ft", "nan ft")),), "nan ft"),
            (((UPPER, UPPER.replace("25 ft", "25")),), "'25'"),
            ((('ground = "101.00 ft"', 'ground = "99.00 ft"'),), "no lower than the invert"),
        ],
    )
    def test_a_run_that_is_no_run_is_an_input_fault(
        self, tmp_path: Path, changes: tuple[Change, ...], says: str
    ) -> None:
        done = water_of(tmp_path, *changes)

        assert done.code == 3
        assert done.out == ""
        assert says in done.err
        assert "Traceback" not in done.err

    @pytest.mark.parametrize(
        ("changes", "says"),
        [
            ((('invert = "rod 3.94 ft"', 'invert = "99.00 ft"'),), "SHORT by"),
            ((('area = "380 sq ft"', 'area = "380000 sq ft"'),), "overloaded"),
            ((('opening = "101.20 ft"', 'opening = "99.60 ft"'),), "cross by"),
            (((FLOW_LINE, 'flow_line = "103.00 ft"'),), "runs back"),
        ],
    )
    def test_a_run_that_will_not_drain_is_told_in_finite_numbers(
        self, tmp_path: Path, changes: tuple[Change, ...], says: str
    ) -> None:
        path = changed(tmp_path, CLEAN, *changes)

        told, found = called("water", path), called("water", path, "--json")

        assert (told.code, told.err) == (1, "")
        assert says in " ".join(told.out.split())
        assert too_wide(told.out) == []
        assert finite(json.loads(found.out))
        assert "nan" not in told.out.split()

    def test_no_flow_at_all_leaves_the_pipes_empty(self, tmp_path: Path) -> None:
        none = (
            ('area = "380 sq ft"', 'area = "0 sq ft"'),
            ('area = "280 sq ft"', 'area = "0 sq ft"'),
        )
        done = called(
            "water", changed(tmp_path, CLEAN, *none, ('rate = "12 gpm"', 'rate = "0 gpm"'))
        )

        assert done.code == 0
        assert "together      0 gpm" in done.out
        assert "0% full" in done.out

    def test_a_job_that_is_not_there_is_an_input_fault(self, tmp_path: Path) -> None:
        done = called("water", tmp_path / "none.toml")

        assert (done.code, done.out) == (3, "")
