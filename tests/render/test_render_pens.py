"""Pens follow the drafting standards and survive a black copier."""

from __future__ import annotations

import colorsys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from permitkit.drawing.dimensions import HEAD_LENGTH_TO_WIDTH
from permitkit.drawing.frame.legend import SAMPLE_MM
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Pattern, Role
from permitkit.drawing.symbols import UTILITY_LETTERS
from permitkit.render.hatching import tile
from permitkit.render.pens import PENS, TONE, Pen

PUBLISHED: dict[str, list[dict[str, Any]]] = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "drafting.toml").read_text(encoding="utf-8")
)
LISTS = {row["name"]: row["values"] for row in PUBLISHED["list"]}
HUES = {
    "red": (345, 15),
    "orange": (18, 40),
    "yellow": (40, 62),
    "green": (90, 160),
    "blue": (200, 250),
    "purple": (270, 305),
    "pink": (305, 345),
}


def contrast(pen: Pen) -> float:
    """Return the contrast of a pen on white paper, as for reading on a screen. [-]."""
    parts = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in pen.colour]
    luminance = 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]
    return 1.05 / (luminance + 0.05)


def test_every_role_has_a_pen() -> None:
    assert set(PENS) == set(Role)


def test_roles_are_told_apart_without_colour() -> None:
    looks: dict[tuple[object, ...], Role] = {}
    for role, pen in PENS.items():
        look = (pen.width_mm, pen.dashes_mm, UTILITY_LETTERS.get(role))
        assert look not in looks, f"{role} looks like {looks.get(look)}"
        looks[look] = role


def test_proposed_is_thick_and_existing_thin_as_the_standard_has_it() -> None:
    thick, thin = LISTS["line widths, thick and thin"]

    assert PENS[Role.PROPOSED].width_mm == thick
    assert PENS[Role.EXISTING].width_mm == thin
    assert PENS[Role.PIPE].width_mm >= thick


def test_dimensions_and_hatches_are_thinner_than_what_they_belong_to() -> None:
    for role in (Role.DIMENSION, Role.HATCH, Role.NOTE):
        assert PENS[role].width_mm < PENS[Role.EXISTING].width_mm


def test_no_line_is_too_thin_to_copy() -> None:
    assert min(pen.width_mm for pen in PENS.values()) >= 0.13


@pytest.mark.parametrize("role", Role)
def test_a_colour_shows_on_white_paper_and_on_a_copy(role: Role) -> None:
    assert contrast(PENS[role]) >= 3.0


@pytest.mark.parametrize("role", Role)
def test_a_colour_comes_out_black_on_a_copier_of_one_bit(role: Role) -> None:
    red, green, blue = PENS[role].colour

    assert 0.299 * red + 0.587 * green + 0.114 * blue < 0.42


@pytest.mark.parametrize("row", PUBLISHED["colour"], ids=lambda row: row["utility"])
def test_a_utility_has_its_published_colour(row: dict[str, Any]) -> None:
    hue, _, _ = colorsys.rgb_to_hsv(*PENS[Role(row["utility"])].colour)

    low, high = HUES[row["name"]]
    turned = hue * 360
    assert low <= turned <= high or (low > high and (turned >= low or turned <= high))


def test_everything_but_water_utilities_and_survey_marks_is_black() -> None:
    coloured = {role for role, pen in PENS.items() if pen.colour != (0, 0, 0)}

    assert coloured == {*UTILITY_LETTERS, Role.WATER, Role.GRADE_LINE, Role.SURVEY}


def test_the_sample_of_a_legend_shows_a_whole_cycle_of_dashes() -> None:
    assert all(sum(pen.dashes_mm) <= SAMPLE_MM for pen in PENS.values())


def test_the_grey_is_light_enough_to_write_on() -> None:
    assert min(TONE) > 0.8


def test_lettering_and_arrowheads_follow_their_standards() -> None:
    assert LISTS["least plotted lettering"][0] * 25.4 < LEAST_LETTERING_MM
    assert LISTS["arrowhead length to width"] == [HEAD_LENGTH_TO_WIDTH]


@pytest.mark.parametrize("pattern", Pattern)
@pytest.mark.parametrize("density", [0.8, 1.0, 2.0])
def test_a_tile_of_a_pattern_keeps_within_its_reach(pattern: Pattern, density: float) -> None:
    marks = tile(pattern, density)

    points = [point for stroke in marks.strokes for point in stroke] + list(marks.dots)
    low, high = -marks.reach_mm, marks.size_mm + marks.reach_mm
    assert all(low <= x <= high and low <= y <= high for x, y in points)
    assert points


@pytest.mark.parametrize(
    "pattern", [Pattern.CONCRETE, Pattern.SAND, Pattern.GROUT, Pattern.ASPHALT]
)
def test_dots_stand_apart_across_the_seams_of_a_tile_too(pattern: Pattern) -> None:
    marks = tile(pattern)
    size = marks.size_mm

    around = [(x + i * size, y + j * size) for x, y in marks.dots for i in (0, 1) for j in (0, 1)]
    nearest = min(
        (ax - bx) ** 2 + (ay - by) ** 2
        for rank, (ax, ay) in enumerate(around)
        for bx, by in around[:rank]
    )
    assert nearest**0.5 > 2 * marks.dot_radius_mm


def test_a_tile_is_made_the_same_way_every_time() -> None:
    first = tile(Pattern.CONCRETE)
    tile.cache_clear()

    assert tile(Pattern.CONCRETE) == first


@pytest.mark.parametrize("density", [0.0, -1.0])
def test_a_hatch_without_density_is_refused(density: float) -> None:
    with pytest.raises(ValueError, match="times as dense"):
        tile(Pattern.SAND, density)
