"""What a town's rules ask of a job on a day: facts they turn on, keys they answer."""

from __future__ import annotations

from datetime import date

import pytest
from sheet_text import edition, sheet

from permitkit.study.keeping.asked import asked_of_jobs

DAY = date(2026, 4, 6)


def asked(text: str, day: date = DAY) -> dict[str, tuple[str, ...]]:
    return asked_of_jobs((sheet(text),), day)


def test_a_silent_sheet_asks_for_nothing() -> None:
    assert asked("") == {}


def test_a_key_that_is_answered_or_left_to_somebody_asks_for_itself() -> None:
    assert asked('[rule]\nwalk.base = { at_least = "4 in", cite = "code 1" }\n') == {
        "walk.base": ("walk.base",)
    }
    assert asked('[rule]\nwalk.base = { ask = "engineer" }\n') == {"walk.base": ("walk.base",)}


def test_what_there_is_no_rule_on_is_not_asked_for() -> None:
    assert asked("[rule]\nwalk.base = { no_rule = true }\n") == {}


def test_a_fact_is_asked_for_by_each_rule_that_turns_on_it() -> None:
    found = asked(
        edition("walk.base", 'at_least = "4 in"\nwhen = { soil = "clay" }\ncite = "code 1"')
        + edition(
            "pipe.cover",
            'at_least = "8 in"\nwhen = [{ soil = "sand" }, { lanes = { over = 2 } }]\n'
            'cite = "code 2"',
        )
    )

    assert found["soil"] == ("pipe.cover", "walk.base")
    assert found["lanes"] == ("pipe.cover",)


@pytest.mark.parametrize(
    ("line", "fact"),
    [
        ('{ name = "a", rate = 2, per = "sq ft of walk" }', "walk_area"),
        ('{ name = "a", percent = 5, of = "cost" }', "cost"),
        ('{ name = "a", sum = 5, when = { applicant = "owner" } }', "applicant"),
        (
            '{ name = "a", by = "street_class", rows = { local = { sum = 5 } } }',
            "street_class",
        ),
        (
            '{ name = "a", greater_of = [{ sum = 5 }, { rate = 1, per = "ft of trench" }] }',
            "trench",
        ),
    ],
)
def test_money_asks_for_what_it_is_counted_by(line: str, fact: str) -> None:
    found = asked(f'[rule]\nfees.lines = {{ line = [{line}], cite = "code 1" }}\n')

    assert found == {"fees.lines": ("fees.lines",), fact: ("fees.lines",)}


def test_money_for_each_permit_or_of_another_line_asks_for_no_fact() -> None:
    lines = '{ name = "a", rate = 2, per = "permit" }, { name = "b", percent = 5, of = "fees" }'

    found = asked(f'[rule]\nfees.lines = {{ line = [{lines}], cite = "code 1" }}\n')

    assert set(found) == {"fees.lines"}


def test_things_listed_are_told_and_each_is_asked_for() -> None:
    found = asked(
        '[rule]\nrestore.state = { items = ["base material", "seed"], cite = "code 1" }\n'
        'docs.details = { items = [{ name = "core", number = "M-4", revision = "B" }], '
        'cite = "code 2" }\n'
    )

    assert found["restore.state"] == ("restore.state: base material, seed",)
    assert found["restore.state:base_material"] == ("restore.state",)
    assert found["docs.details"] == ("docs.details: M-4 rev B",)


def test_a_permit_asks_for_what_its_condition_turns_on() -> None:
    found = asked(
        '[[permit]]\nid = "walk"\ntitle = "Walk permit"\nissuer = "Ford"\n'
        "when = { walk_closed = true }\n"
    )

    assert found == {"walk_closed": ("Walk permit",)}


def test_the_edition_of_the_day_is_read() -> None:
    case = 'at_least = "4 in"\nwhen = { soil = "clay" }\ncite = "code 1"'
    text = edition("walk.base", case, since="2026-05-01")

    assert asked(text) == {}
    assert asked(text, date(2026, 5, 1))["soil"] == ("walk.base",)
