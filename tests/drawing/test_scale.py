"""Scales are the trade's, exact, and chosen to fit."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.drawing.scale import (
    A3,
    A4,
    LETTER,
    TABLOID,
    Kind,
    Paper,
    ProfileScale,
    Scale,
    System,
    View,
    choose_profile_scale,
    choose_scale,
    scale_bar_steps,
    scales,
    windows,
)

PUBLISHED: dict[str, list[dict[str, Any]]] = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "drafting.toml").read_text(encoding="utf-8")
)
EVERY = [
    (kind, system, scale) for kind in Kind for system in System for scale in scales(kind, system)
]
BY_TEXT = {scale.text: scale for _, _, scale in EVERY}
LISTS = {row["name"]: row["values"] for row in PUBLISHED["list"]}
FOOT_M, INCH_MM = 0.3048, 25.4


@pytest.mark.parametrize("row", PUBLISHED["plotted"], ids=lambda row: row["name"])
def test_a_length_is_plotted_as_published(row: dict[str, Any]) -> None:
    drawn_mm = BY_TEXT[row["scale"]].paper_mm(row["real_ft"] * FOOT_M)

    half_a_digit = 0.5 * 10 ** -len(row["inches"].partition(".")[2])
    assert drawn_mm / INCH_MM == pytest.approx(float(row["inches"]), abs=half_a_digit)


@pytest.mark.parametrize("row", [row for rows in PUBLISHED.values() for row in rows], ids=str)
def test_every_published_row_says_where_it_stands(row: dict[str, Any]) -> None:
    assert row["known"] in {"seen", "memory"}
    assert all(row[key] for key in ("source", "edition", "place"))


@pytest.mark.parametrize("kind", [Kind.PLAN, Kind.PROFILE])
def test_plans_and_profiles_have_every_engineers_scale(kind: Kind) -> None:
    feet = {1 / (12 * scale.ratio) for scale in scales(kind, System.US)}

    assert feet >= set(LISTS["engineer's scales"])


def test_details_have_every_architects_scale() -> None:
    inches = {float(12 * scale.ratio) for scale in scales(Kind.DETAIL, System.US)}

    assert inches >= set(LISTS["architect's scales"])


@pytest.mark.parametrize(("kind", "system", "scale"), EVERY, ids=str)
def test_a_scale_is_exact_and_says_its_own_ratio(kind: Kind, system: System, scale: Scale) -> None:
    del kind

    assert scale.system is system
    assert ratio_said(scale.text) == scale.ratio


def ratio_said(text: str) -> Fraction:
    """Return the ratio that a scale's text states."""
    if ":" in text:
        paper, real = text.split(":")
        return Fraction(paper) / Fraction(real)
    paper, real = text.split(" = ")
    inches = sum(Fraction(part) for part in paper.removesuffix(" in").split())
    return inches / (12 * Fraction(real.removesuffix(" ft")))


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize("system", System)
def test_scales_run_from_fine_to_coarse(kind: Kind, system: System) -> None:
    ratios = [scale.ratio for scale in scales(kind, system)]

    assert ratios == sorted(ratios, reverse=True)
    assert len(set(ratios)) == len(ratios)


@given(
    width_m=st.floats(0.05, 150),
    height_m=st.floats(0.05, 150),
    kind=st.sampled_from(Kind),
    system=st.sampled_from(System),
)
def test_the_chosen_scale_is_the_finest_that_fits(
    width_m: float, height_m: float, kind: Kind, system: System
) -> None:
    room = (183.4, 185.9)

    chosen = choose_scale(width_m, height_m, *room, kind, system)

    for scale in scales(kind, system):
        fits = scale.paper_mm(width_m) <= room[0] and scale.paper_mm(height_m) <= room[1]
        if scale is chosen:
            assert fits
            break
        assert not fits


def test_an_extent_as_long_as_the_room_fits_and_a_hair_more_does_not() -> None:
    ten = BY_TEXT["1 in = 10 ft"]
    exactly, more = 70 * FOOT_M, 70.001 * FOOT_M

    at_limit = choose_scale(exactly, 1, 7 * INCH_MM, 100, Kind.PLAN, System.US)
    beyond = choose_scale(more, 1, 7 * INCH_MM, 100, Kind.PLAN, System.US)

    assert at_limit == ten
    assert beyond == BY_TEXT["1 in = 20 ft"]


def test_a_short_frontage_is_drawn_finer_than_ten_feet_to_the_inch() -> None:
    chosen = choose_scale(5 * FOOT_M, 30 * FOOT_M, 183, 186, Kind.PLAN, System.US)

    assert chosen == BY_TEXT["1 in = 5 ft"]


def test_what_fits_at_no_scale_gets_none() -> None:
    assert choose_scale(900 * FOOT_M, 10, 183, 186, Kind.PLAN, System.US) is None


@given(length_m=st.floats(60, 900), overlap_m=st.floats(0, 20))
def test_windows_cover_a_long_frontage_and_share_their_overlap(
    length_m: float, overlap_m: float
) -> None:
    sixty = BY_TEXT["1 in = 60 ft"]

    stretches = windows(length_m, 180.0, sixty, overlap_m)

    assert stretches[0][0] == 0
    assert stretches[-1][1] == pytest.approx(length_m)
    for (_, before), (after, _) in pairwise(stretches):
        assert before - after >= overlap_m - 1e-6
    assert all(sixty.paper_mm(end - start) <= 180.0 + 1e-6 for start, end in stretches)


def test_windows_that_would_show_nothing_new_are_refused() -> None:
    with pytest.raises(ValueError, match="leaves nothing"):
        windows(200.0, 100.0, BY_TEXT["1:50"], 5.0)


@given(width_m=st.floats(1, 90), height_m=st.floats(0.05, 6), system=st.sampled_from(System))
def test_a_profile_fits_and_states_its_exaggeration(
    width_m: float, height_m: float, system: System
) -> None:
    chosen = choose_profile_scale(width_m, height_m, 183.4, 90.0, system)

    assert chosen is not None
    assert chosen.horizontal.paper_mm(width_m) <= 183.4 + 1e-6
    assert chosen.vertical.paper_mm(height_m) <= 90.0 + 1e-6
    assert chosen.exaggeration.denominator == 1
    assert chosen.horizontal.text in chosen.text
    assert chosen.vertical.text in chosen.text
    assert ratio_said(chosen.vertical.text) == chosen.vertical.ratio


def test_a_profile_that_is_not_exaggerated_says_so() -> None:
    ten = BY_TEXT["1 in = 10 ft"]

    assert ProfileScale(ten, ten).text.endswith("not exaggerated")


def test_a_profile_too_long_for_any_scale_gets_none() -> None:
    assert choose_profile_scale(900 * FOOT_M, 1, 183, 90, System.US) is None


@pytest.mark.parametrize(("kind", "system", "scale"), EVERY, ids=str)
def test_a_scale_bar_is_as_long_as_it_says_and_fits(
    kind: Kind, system: System, scale: Scale
) -> None:
    del kind, system
    unit_m = {"ft": FOOT_M, "in": FOOT_M / 12, "m": 1.0, "mm": 0.001}

    bar = scale_bar_steps(scale, 40.0)

    assert bar.step_mm == pytest.approx(scale.paper_mm(bar.step * unit_m[bar.unit]))
    assert bar.step_mm * bar.count <= 40.0
    assert bar.count >= 2


def test_a_room_too_short_for_a_scale_bar_is_refused() -> None:
    with pytest.raises(ValueError, match="no scale bar"):
        scale_bar_steps(BY_TEXT["1 in = 10 ft"], 1.0)


@given(x=st.floats(-50, 50), y=st.floats(-50, 50))
def test_a_view_keeps_lengths_at_scale_whichever_way_it_is_turned(x: float, y: float) -> None:
    ten = BY_TEXT["1 in = 10 ft"]
    view = View(ten, (3.0, 4.0), (100.0, 90.0), turn_deg=33.0)

    px, py = view.at(x, y)

    drawn = ((px - 100.0) ** 2 + (py - 90.0) ** 2) ** 0.5
    assert drawn == pytest.approx(ten.paper_mm(((x - 3.0) ** 2 + (y - 4.0) ** 2) ** 0.5), abs=1e-6)


def test_a_profile_view_draws_heights_at_their_own_scale() -> None:
    ten, one = BY_TEXT["1 in = 10 ft"], Scale(Fraction(1, 12), "1 in = 1 ft", System.US)
    view = View(ten, (0.0, 100.0), (20.0, 30.0), vertical=one)

    assert view.at(10 * FOOT_M, 100 + FOOT_M) == pytest.approx((20 + INCH_MM, 30 + INCH_MM))


@pytest.mark.parametrize("paper", [LETTER, TABLOID, A4, A3], ids=lambda paper: paper.name)
def test_a_sheet_lies_and_stands_without_changing_its_size(paper: Paper) -> None:
    lying, standing = paper.landscape, paper.portrait

    assert lying.lies
    assert not standing.lies
    assert (lying.width_mm, lying.height_mm) == (standing.height_mm, standing.width_mm)
    assert lying.box.width == lying.width_mm


def test_letter_and_tabloid_are_their_size_in_inches() -> None:
    assert (LETTER.width_mm / INCH_MM, LETTER.height_mm / INCH_MM) == (8.5, 11)
    assert (TABLOID.width_mm / INCH_MM, TABLOID.height_mm / INCH_MM) == pytest.approx((11, 17))
