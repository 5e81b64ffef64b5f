"""The words of verdicts: limits, quantities in the unit of town and author, cures with numbers."""

from __future__ import annotations

from datetime import date

import pytest
from builder import CLEAN, EMITTER, FAULTY, GONE, NOTCH, fitted, rule

from permitkit.checks.scale import rounded_up
from permitkit.units import Kind

INCH = 0.0254


@pytest.mark.parametrize(
    ("slug", "base", "changes", "rules", "limit"),
    [
        ("core-too-wide", CLEAN, {}, rule("core.bit", exactly="4 in"), "exactly 4 in"),
        ("core-too-wide", CLEAN, {}, rule("core.bit", sizes=["3 in", "4 in"]), "one of 3 in, 4 in"),
        (
            "grout-gap-wrong",
            FAULTY,
            {},
            "",
            "1/4 in to 1/2 in (pipe outside from hole)",
        ),
        ("outlet-count-wrong", CLEAN, {}, rule("outlet.count", at_least=1, at_most=2), "1 to 2"),
        ("outlet-count-wrong", CLEAN, {}, rule("outlet.count", exactly=1), "exactly 1"),
        (
            "cross-slope-too-steep",
            CLEAN,
            {"restoration.cross_slope": "2.0834 %"},
            "",
            "at most 1:48",
        ),
    ],
)
def test_a_limit_is_told_as_it_was_set(
    slug: str, base: str, changes: dict[str, object], rules: str, limit: str
) -> None:
    assert fitted(base, changes, rules).worst(slug).limit == limit


@pytest.mark.parametrize(
    ("slug", "base", "changes", "proposed"),
    [
        ("notch-too-wide", NOTCH, {"outlet.width": "6 in"}, "152.4 mm (6 in)"),
        ("notch-too-wide", NOTCH, {"outlet.width": "153 mm"}, "153 mm"),
        ("cross-slope-too-steep", CLEAN, {"restoration.cross_slope": "1:48"}, "1:48"),
        ("cross-slope-too-steep", CLEAN, {}, "1:48 (1/4 in/ft)"),
        ("outlet-too-low", FAULTY, {}, "33/64 in"),
        ("sump-in-closed-months", FAULTY, {}, "runs every month"),
        (
            "sump-in-closed-months",
            FAULTY,
            {"drain.inflow.2.pump.months": [12, 1]},
            "runs Jan, Dec",
        ),
        (
            "rain-basis-missing",
            CLEAN,
            {},
            "25-year, 15 min, Millrace Public Works Standards, 2025 edition, section 6.1",
        ),
        ("no-bit-fits", CLEAN, {}, "a bit of 4 in fits"),
        ("no-bit-fits", FAULTY, {}, "no bit that is sold fits"),
        ("insurance-too-low", CLEAN, {"firm.policy": []}, "none held"),
        ("running-slope-too-steep", CLEAN, {}, "0.6 %"),
        ("pipe-in-slab", CLEAN, {}, "1 5/8 in into the slab"),
        ("line-holds-water", FAULTY, {}, "1 5/16 in deep, 4 gal in all"),
        (
            "line-holds-water",
            FAULTY,
            {"units": "metric"},
            "34 mm deep, 15.2 L in all",
        ),
        (
            "emitter-without-weep",
            EMITTER,
            {"outlet.emitter.pit_depth": GONE},
            "a pit that takes the 12.9 gal the line holds: no",
        ),
        (
            "bars-not-looked-for",
            CLEAN,
            {"curb.bars_looked_for": "unknown"},
            "curb scanned for bars: not known",
        ),
    ],
)
def test_what_is_proposed_is_told_in_the_towns_unit_and_in_its_own(
    slug: str, base: str, changes: dict[str, object], proposed: str
) -> None:
    assert fitted(base, changes).worst(slug).proposed == proposed


@pytest.mark.parametrize(
    ("slug", "base", "changes", "cure"),
    [
        ("core-near-joint", FAULTY, {}, "move the hole 7 in away from the joint"),
        ("run-too-flat", FAULTY, {}, "raise R by 13/16 in, or shorten the reach to 4 ft 8 1/2 in"),
        ("run-falls-backward", FAULTY, {}, "raise N1 by 1 3/8 in, or lower R"),
        (
            "run-overloaded",
            FAULTY,
            {},
            "take 26.7 gpm elsewhere, lay a larger pipe or a second one, or more fall",
        ),
        (
            "panel-left-part",
            FAULTY,
            {},
            "take out whole panels, joint to joint: 50 sq ft in all",
        ),
        (
            "outlet-too-high",
            CLEAN,
            {"outlet.hole_bottom": "1 in"},
            "hole bottom between 1/16 and 1/2 in above the flow line",
        ),
        (
            "outlet-too-high",
            CLEAN,
            {"outlet.hole_bottom": "1 in", "units": "metric"},
            "hole bottom between 1 and 12 mm above the flow line",
        ),
        (
            "strip-too-thin",
            CLEAN,
            {
                "outlet.bit": "2 1/2 in",
                "outlet.pipe": "2 in Sch 40 PVC",
                "curb.reveal": "3 in",
            },
            "no 2 1/2 in hole fits a 3 in curb, nor does any other",
        ),
        ("outlet-too-high", NOTCH, {"outlet.floor_toe": "30 mm"}, "lower the floor by 5 mm"),
        (
            "line-holds-water",
            FAULTY,
            {},
            "raise N1 by 1 3/8 in, or lower what lies below it",
        ),
        (
            "emitter-without-weep",
            EMITTER,
            {"outlet.emitter.pit_depth": GONE},
            "dig the pit large enough that its voids take 12.9 gal",
        ),
        (
            "deposit-too-small",
            FAULTY,
            {},
            (
                "pay $600.00: deposit $600.00 (greater of $500.00 and "
                "(50 sq ft x $12.00 + 0 ft x $25.00 = $600.00): $600.00)"
            ),
        ),
        (
            "locate-called-too-late",
            CLEAN,
            {"locate.called": date(2026, 4, 24)},
            "call by Wed Apr 22, 2026",
        ),
        (
            "cross-slope-too-steep",
            CLEAN,
            {"restoration.cross_slope": "3 %"},
            "lay it 0.92 % flatter",
        ),
        (
            "outlet-count-wrong",
            CLEAN,
            {"outlet.count": 3, "outlet.spacing": "18 in"},
            "plug an old hole, or let the water go through fewer",
        ),
        (
            "grout-gap-wrong",
            FAULTY,
            {},
            "the gap is half of bit less pipe, 4.215 in: change the one or the other",
        ),
        (
            "insurance-too-low",
            CLEAN,
            {"firm.policy": []},
            "carry general liability, at least $1,000,000.00 each, $2,000,000.00 in all",
        ),
        ("photo-missing", CLEAN, {"papers.photo": []}, "take it: curb face with tape"),
    ],
)
def test_a_cure_gives_its_number(
    slug: str, base: str, changes: dict[str, object], cure: str
) -> None:
    assert fitted(base, changes).worst(slug).cure == cure


@pytest.mark.parametrize(
    ("metres", "unit", "text"),
    [
        (INCH, "in", "1 in"),
        (1.001 * INCH, "in", "1 1/16 in"),
        (1.0625 * INCH + 1e-13, "in", "1 1/16 in"),
        (0.0101, "mm", "11 mm"),
        (0.0, "in", "0 in"),
    ],
)
def test_what_is_missing_is_rounded_up(metres: float, unit: str, text: str) -> None:
    assert rounded_up(metres, Kind.LENGTH, unit) == text


def test_a_count_that_is_missing_is_whole() -> None:
    assert rounded_up(0.4, None, "") == "1"


@pytest.mark.parametrize(
    ("changes", "rules", "cure"),
    [
        ({"outlet.bit": "4 1/8 in"}, "", "drill with a bit of 4 in"),
        ({}, rule("core.bit", exactly="3 in"), "the town takes no 4 in hole; largest is 3 in"),
    ],
)
def test_a_bit_of_the_wrong_width_is_told_which_would_do(
    changes: dict[str, object], rules: str, cure: str
) -> None:
    assert fitted(CLEAN, changes, rules).worst("core-too-wide").cure == cure


def test_too_few_outlets_are_told_how_many_there_must_be() -> None:
    two = rule("outlet.count", at_least=2)

    assert fitted(CLEAN, {}, two).worst("outlet-count-wrong").cure == "let the water go through 2"


def test_a_permit_without_a_form_is_to_be_applied_for_all_the_same() -> None:
    plain = """[[permit]]
id = "grading"
title = "Grading permit"
issuer = "Town of Bench"
cite = "book 1"
"""

    assert fitted(CLEAN, {}, plain).worst("permit-missing").cure == "apply to Town of Bench as well"


def test_a_pipe_in_the_slab_is_to_come_out_of_it() -> None:
    barred = fitted(rules=rule("walk.pipe_in_slab", stance="barred")).worst("pipe-in-slab")

    assert barred.cure == "lower the pipe by 1 5/8 in, or use a flatter one"


def test_no_bit_that_fits_is_held_against_the_pipe_and_the_curb() -> None:
    verdict = fitted(FAULTY).worst("no-bit-fits")

    assert verdict.limit == "a bit for a pipe 4.215 in outside in a 5 3/4 in curb"
    assert verdict.cure == (
        "no 4 1/2 in hole fits a 5 3/4 in curb; largest is 4 in; use a smaller pipe, or two of them"
    )


def test_a_question_to_the_applicant_says_what_the_job_leaves_out() -> None:
    asked = fitted(CLEAN, {"curb.bars_looked_for": "unknown"}).worst("bars-not-looked-for")

    assert (asked.ask_of, asked.why) == (
        "the applicant",
        "the job does not say: curb scanned for bars",
    )


def test_a_limit_for_each_person_is_told_too() -> None:
    rules = """docs.insurance = { covers = [
    { kind = "general liability", each = 1_000_000, person = 500_000 },
    { kind = "workers compensation", by_law = true },
], cite = "book 1" }"""
    first, second = fitted(CLEAN, {}, rules).verdicts("insurance-too-low")

    assert first.limit == "at least $1,000,000.00 each, $500,000.00 each person"
    assert second.limit == "as the law sets it"


def test_where_only_this_pipe_leaves_no_height_both_ends_are_told() -> None:
    height = rule("core.height", exactly="1 in", of="invert", from_="flow line")

    assert fitted(CLEAN, {}, height).worst("outlet-too-low").cure == (
        "no height suits this pipe: the hole bottom at least 0.521 in for invert over the "
        "flow line, at most 0.5 in for the strip over the hole top"
    )


@pytest.mark.parametrize(
    ("exactly", "cure"),
    [
        ("0.7 in", "hole bottom at 0.221 in above the flow line"),
        ("17.78 mm", "hole bottom at 0.221 in above the flow line"),
        ("0.60416666 in", "hole bottom at 0.125 in above the flow line"),
    ],
)
def test_a_window_of_one_height_is_told_as_that_height(exactly: str, cure: str) -> None:
    height = rule("core.height", exactly=exactly, of="invert", from_="flow line")

    assert (
        fitted(CLEAN, {"outlet.hole_bottom": "0 in"}, height).worst("outlet-too-low").cure == cure
    )
