"""Conditions on an age, counted back from the job's day of the rule's own clock."""

from __future__ import annotations

from datetime import date

import pytest
from town import base, edition, rules


@pytest.mark.parametrize(
    ("paved", "found"),
    [
        (date(2021, 4, 6), "at least 6 in"),
        (date(2021, 4, 5), "at least 4 in"),
        (date(2026, 4, 1), "at least 6 in"),
    ],
)
def test_an_age_is_counted_back_from_the_day_of_the_rules_own_clock(
    paved: date, found: str
) -> None:
    when = "when = { street_paved = { within = '5 years' } }"
    town = edition("walk.base", base(when, 6), base("", 4))

    assert (
        rules(town, filing=date(2026, 4, 6), street={"last_paved": paved})["walk.base"].text
        == found
    )
    assert not rules(town)["walk.base"].known


@pytest.mark.parametrize(
    ("paved", "found"),
    [
        (date(2021, 4, 6), "at least 4 in"),
        (date(2021, 4, 5), "at least 6 in"),
        (date(2016, 4, 6), "at least 6 in"),
        (date(2016, 4, 5), "at least 4 in"),
    ],
)
def test_what_is_older_than_an_age_and_within_another_lies_between(paved: date, found: str) -> None:
    when = "when = { street_paved = { older_than = '5 years', within = '10 years' } }"
    town = edition("walk.base", base(when, 6), base("", 4))
    job = rules(town, filing=date(2026, 4, 6), street={"last_paved": paved})

    assert job["walk.base"].text == found
