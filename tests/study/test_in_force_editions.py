"""Which edition of a rule holds: the newest begun on the day of its own clock."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from town import base, edition, rules

TWO_EDITIONS = edition("walk.base", base("", 4), since="2023-07-01") + edition(
    "walk.base", base("", 6), since="2026-01-01"
)


@pytest.mark.parametrize(
    ("filing", "text"),
    [
        (date(2023, 7, 1), "at least 4 in"),
        (date(2025, 12, 31), "at least 4 in"),
        (date(2026, 1, 1), "at least 6 in"),
        (date(2030, 1, 1), "at least 6 in"),
    ],
)
def test_the_newest_edition_begun_is_used(filing: date, text: str) -> None:
    assert rules(TWO_EDITIONS, filing=filing)["walk.base"].text == text


def test_a_day_before_the_first_edition_is_told_with_what_to_add() -> None:
    found = rules(TWO_EDITIONS, filing=date(2023, 6, 30))["walk.base"]

    assert found.silent
    assert found.why == (
        "Ford first says walk.base for 2023-07-01 on; "
        "for 2023-06-30 add the edition before that one to its sheet"
    )


def test_a_new_edition_is_used_whole_so_a_case_left_out_is_gone() -> None:
    town = edition("walk.base", base("when = { curb = 'vertical' }", 8), base("", 4)) + edition(
        "walk.base", base("", 6), since="2026-01-01"
    )

    assert rules(town)["walk.base"].text == "at least 6 in"


def test_an_empty_edition_ends_a_rule() -> None:
    town = edition("walk.base", base("", 4)) + edition("walk.base", since="2026-01-01")

    assert rules(town)["walk.base"].silent
    assert rules(town)["walk.base"].why == "Ford ended its rule walk.base on 2026-01-01"
    assert rules(town, filing=date(2025, 12, 31))["walk.base"].text == "at least 4 in"
    assert rules(edition("walk.base"))["walk.base"].why == "Ford ended its rule walk.base"


@pytest.mark.parametrize(
    ("key", "day"),
    [("walk.base", "filing"), ("dates.validity", "issue"), ("dates.close_by", "work")],
)
def test_each_key_takes_its_edition_by_its_own_clock(key: str, day: str) -> None:
    body = {
        "walk.base": "at_least = '{} in'",
        "dates.validity": "span = '{} days'",
        "dates.close_by": "span = '{} days'",
    }[key]
    town = edition(key, body.format(4) + "\ncite = 'code 1'") + edition(
        key, body.format(6) + "\ncite = 'code 1'", since="2026-05-01"
    )
    late = date(2026, 5, 1)
    moved: dict[str, dict[str, Any]] = {
        "filing": {"filing": late, "dates": {"issue_expected": date(2026, 4, 20)}},
        "issue": {"dates": {"issue_expected": late}},
        "work": {"dates": {"start": late, "finish": late}},
    }

    assert "4" in rules(town)[key].text
    for name, tables in moved.items():
        assert ("6" if name == day else "4") in rules(town, **tables)[key].text


def test_the_day_of_issue_is_the_filing_day_where_none_is_expected() -> None:
    town = edition("dates.validity", "span = '30 days'\ncite = 'code 1'", since="2026-04-06")

    assert rules(town)["dates.validity"].known
