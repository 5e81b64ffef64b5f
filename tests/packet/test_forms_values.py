"""The values that a form may be told: each declared name is given, in words a counter accepts."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from itertools import pairwise

import pytest
from packets import FAILING, READY, judged

from permitkit.drawing.lettering import missing_glyphs
from permitkit.model.forms.form import DAYS
from permitkit.model.forms.values import FORM_VALUES, ValueSort
from permitkit.packet.forms.layout import Cell, in_cell
from permitkit.packet.forms.told import form_values
from permitkit.packet.forms.told.known import NONE, Known, of_day, of_length, of_money
from permitkit.units import Kind

EVERY = (*READY, *FAILING)


@pytest.mark.parametrize("name", EVERY)
def test_every_value_declared_is_given_and_no_other(name: str) -> None:
    assert list(dict.fromkeys(form_values(judged(name)))) != []
    assert set(form_values(judged(name))) == set(FORM_VALUES)


@pytest.mark.parametrize("name", EVERY)
def test_a_value_is_of_the_sort_it_is_declared_to_be(name: str) -> None:
    for key, known in form_values(judged(name)).items():
        told = FORM_VALUES[key]
        if not known.text or known.nothing:
            continue
        assert (known.day is not None) is (told.sort is ValueSort.DAY), key
        assert (known.money is not None) is (told.sort is ValueSort.MONEY), key
        assert known.kind is told.quantity, key
        assert bool(known.words) is (told.sort is ValueSort.WORDS), key
        assert not told.words or set(known.words) <= set(told.words), key
        assert told.sort is not ValueSort.NUMBER or known.text.isdigit(), key


@pytest.mark.parametrize("name", EVERY)
def test_every_value_can_be_printed(name: str) -> None:
    for key, known in form_values(judged(name)).items():
        assert missing_glyphs(known.text) == (), key
        assert "None" not in known.text


def test_what_a_demo_job_measures_stands_in_its_values() -> None:
    told = {key: known.text for key, known in form_values(judged("millrace-clean")).items()}

    assert told["hole size"] == "4 in"
    assert told["trench length"] == "11 ft"
    assert told["walk area"] == "25 sq ft"
    assert told["pipe"] == "3 in Sch 40 PVC"
    assert told["water"] == "roof and sump"
    assert told["licence number"] == "M-0217"
    assert told["fee"] == "$250.00"
    assert told["bond"] == "none"


def test_a_value_stands_bare_in_the_unit_of_the_form() -> None:
    assert of_length(2.8956, Kind.LENGTH, "9 ft 6 in").written("ft") == "9.5"
    assert of_length(2.8956, Kind.LENGTH, "9 ft 6 in").written() == "9 ft 6 in"
    assert of_length(0.0889, Kind.LENGTH).written("in") == "3 1/2"
    assert of_money(Decimal("1250.5")).written("$") == "1,250.50"
    assert of_money(Decimal("1250.5")).written() == "$1,250.50"
    assert NONE.written("ft") == "0"
    assert NONE.written() == "none"
    assert Known().written("ft") == ""


@pytest.mark.parametrize("way", DAYS)
def test_a_day_is_written_the_way_that_its_pattern_shows(way: str) -> None:
    assert of_day(date(2026, 4, 6)).written(days=way) == way


# ---- how a text stands in a field


def test_a_text_is_made_no_smaller_than_two_millimetres() -> None:
    sizes = []
    for width in range(60, 4, -1):
        lines = in_cell("Bram Okonjo", Cell(float(width), 6.0, 3.0))
        if lines:
            sizes.append(lines[0].capitals)

    assert max(sizes) == 3.0
    assert min(sizes) == pytest.approx(2.0, abs=0.1)
    assert min(sizes) >= 2.0
    assert sizes == sorted(sizes, reverse=True)
    assert in_cell("Bram Okonjo", Cell(5.0, 6.0, 3.0)) == ()


def test_letters_that_the_form_has_smaller_keep_their_size() -> None:
    (line,) = in_cell("Bram", Cell(30.0, 6.0, 1.6))

    assert line.capitals == 1.6


def test_a_field_too_low_for_any_letter_takes_none() -> None:
    assert in_cell("Bram", Cell(30.0, 1.9)) == ()


def test_a_comb_gives_each_letter_its_own_part() -> None:
    lines = in_cell("0408", Cell(40.0, 6.0, 2.5, most=8, comb=True))

    assert [line.text for line in lines] == list("0408")
    steps = [b.x - a.x for a, b in pairwise(lines)]
    assert steps == pytest.approx([5.0, 5.0, 5.0], abs=0.01)


def test_a_text_set_right_ends_at_the_right() -> None:
    (left,), (middle,), (right,) = (
        in_cell("105.00", Cell(40.0, 6.0, 2.5, set_at=at)) for at in (0, 1, 2)
    )

    assert left.x < middle.x < right.x
    assert middle.x - left.x == pytest.approx(right.x - middle.x)


def test_a_word_is_never_broken_to_make_it_fit() -> None:
    cell = Cell(14.0, 40.0, 2.5, lines=True)

    assert in_cell("Featherstonehaugh", cell) == ()
    assert len(in_cell("an old hole is plugged", cell)) > 1
