"""What the commands for a hole and for a slope print, and what they say of bad input."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from called import called, too_wide

from permitkit.load.find_sheet import list_places

if TYPE_CHECKING:
    from pathlib import Path

SHEET = """
schema = 1
[sheet]
place = "ford"
title = "Ford"
kind = "town"
checked = 2026-03-02
due = 2027-03-01
[source.code]
title = "Ford Code"
read = 2026-03-02
[rule]
core.strip = { ask = "town engineer" }
core.bit = { at_most = "4 in", cite = "code 1" }
"""
FIT = ("fit", "--town", "millrace", "--reveal", "6 in", "--pipe", "3-sch40")


class TestFit:
    """Which hole fits."""

    def test_the_hole_that_fits_is_told_with_what_to_mark(self) -> None:
        done = called(*FIT)

        assert done.code == 0
        assert done.out == (
            "3 in Sch 40 PVC in a 6 in vertical curb\n"
            "town          Town of Millrace, rules of 2026-03-02\n"
            "pipe          3 1/2 in outside\n"
            "\n"
            "bit           4 in (grout gap 1/4 in)\n"
            "hole bottom   1/16 in to 1/2 in above the flow line\n"
            "  not below   0.021 in: invert over the flow line (Millrace Public Works\n"
            "              Standards, 2025 edition, section 4.3)\n"
            "  not above   1/2 in: the strip over the hole top (Millrace Public Works\n"
            "              Standards, 2025 edition, section 4.3)\n"
            "bit center    3 1/2 in to 3 15/16 in below the curb top\n"
        )

    def test_an_empty_window_says_which_two_limits_cross_and_by_how_much(self) -> None:
        done = called(*FIT[:4], "5 1/4 in", *FIT[5:])

        assert done.code == 1
        assert "none: two limits cross by 0.271 in" in done.out
        assert "-1/4 in: the strip over the hole top" in done.out

    @pytest.mark.parametrize(
        ("words", "says"),
        [
            (("--bit", "3 in"), "the pipe is wider than the bit"),
            (("--bit", "4 1/2 in"), "none keeps the hole at most 4 in"),
            (("--curb", "none"), "cored are vertical"),
        ],
    )
    def test_what_stands_against_a_hole_is_told(self, words: tuple[str, str], says: str) -> None:
        done = called(*FIT, *words)

        assert done.code == 1
        assert says in " ".join(done.out.split())

    @pytest.mark.parametrize(
        ("town", "curb", "says"),
        [
            ("harrow-heights", "vertical", "the town lets no roof water go through a core"),
            ("sorrel-flats", "rolled", "cored are vertical curbs only"),
            ("us", "rolled", "a core would break out of a rolled curb: saw a notch"),
            ("us", "none", "there is no curb"),
        ],
    )
    def test_a_curb_that_is_not_to_be_cored_says_why(self, town: str, curb: str, says: str) -> None:
        done = called("fit", "--town", town, *FIT[3:], "--curb", curb)

        assert done.code == 1
        assert says in " ".join(done.out.split())

    def test_a_bit_that_leaves_no_gap_as_wanted_is_told(self) -> None:
        done = called(
            "fit", "--town", "millrace", "--reveal", "8 in", "--pipe", "2-sch40", "--bit", "4 in"
        )

        assert "none keeps the grout gap" in " ".join(done.out.split())

    def test_a_limit_that_hangs_on_what_is_not_known_at_the_curb_is_told(
        self, tmp_path: Path
    ) -> None:
        sheet = tmp_path / "ford" / "rules.toml"
        sheet.parent.mkdir()
        sheet.write_text(SHEET, encoding="utf-8")

        done = called("fit", "--town", sheet, *FIT[3:])

        assert "not settled" in done.out

    @pytest.mark.parametrize("town", list_places())
    def test_every_town_there_is_can_be_asked(self, town: str) -> None:
        done = called("fit", "--town", town, *FIT[3:])

        assert done.code in {0, 1}
        assert done.err == ""
        assert too_wide(done.out) == []

    def test_all_that_was_typed_wrong_is_told_at_once(self) -> None:
        done = called(
            "fit",
            "--town",
            "millrace",
            "--reveal",
            "6",
            "--pipe",
            "9-x",
            "--bit",
            "4",
            "--curb",
            "round",
        )

        assert done.code == 2
        places = [line for line in done.err.splitlines() if line.startswith("error:")]
        assert places == ["error: --reveal", "error: --bit", "error: --pipe", "error: --curb"]

    def test_a_town_that_is_not_known_is_told(self) -> None:
        done = called("fit", "--town", "atlantis", *FIT[3:])

        assert done.code == 2
        assert "atlantis" in done.err


FALL = ("fall", "--from", "100.26 ft", "--to", "99.57 ft", "--length", "66 ft 6 in")


class TestFall:
    """What two levels give."""

    def test_fall_slope_and_what_the_pipe_carries(self) -> None:
        done = called(*FALL, "--pipe", "3-sch40")

        assert done.code == 0
        assert done.out == (
            "fall          8 1/4 in over 66 ft 6 in\n"
            "slope         1.04 %, about 1/8 in/ft\n"
            "carries       49.5 gpm running full at 2.19 ft/s (3 in Sch 40 PVC)\n"
        )

    def test_what_is_spare_of_the_slope_it_needs(self) -> None:
        done = called(*FALL, "--least", "1 %")

        assert done.code == 0
        assert "needs         8 in at 1 % (as asked)" in done.out
        assert "spare         5/16 in" in done.out

    def test_a_run_that_is_short_says_by_how_much_and_how_long_it_may_be(self) -> None:
        done = called(*FALL, "--least", "1/4 in/ft")

        assert done.code == 1
        assert "SHORT by      8 3/8 in" in done.out
        assert "longest       33 ft" in done.out

    def test_the_steepest_of_the_towns_slopes_counts(self) -> None:
        done = called(*FALL, "--town", "millrace")

        assert "8 in at 1 % (Millrace Public Works Standards" in done.out

    def test_a_town_without_a_slope_says_so(self) -> None:
        done = called(*FALL, "--town", "us")

        assert done.code == 0
        assert "sets no least slope that is known here" in " ".join(done.out.split())

    def test_a_run_that_rises_is_told(self) -> None:
        done = called(
            "fall", "--from", "99 ft", "--to", "100 ft", "--length", "10 ft", "--pipe", "3-sch40"
        )

        assert done.code == 1
        assert done.out.startswith("RISES         12 in over 10 ft")
        assert "carries" not in done.out

    def test_bare_numbers_are_refused_all_at_once(self) -> None:
        done = called("fall", "--from", "100.26", "--to", "99.57", "--length", "66", "--least", "1")

        assert done.code == 2
        places = [line for line in done.err.splitlines() if line.startswith("error:")]
        assert places == ["error: --from", "error: --to", "error: --length", "error: --least"]

    def test_no_length_gives_no_slope(self) -> None:
        done = called(*FALL[:5], "--length", "0 ft")

        assert done.code == 2
        assert "more than nothing" in done.err

    def test_metres_are_as_good_as_feet(self) -> None:
        feet = called(*FALL)
        metres = called(
            "fall", "--from", "30.559248 m", "--to", "30.348936 m", "--length", "20.2692 m"
        )

        assert feet.out.splitlines()[1] == metres.out.splitlines()[1]
