"""Every rule key is read: by a check, a fee, the study or a page of the packet."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from key_uses import PRINTERS, RECKONERS, by_a_check, key_uses, used_in
from town import edition, rules, state

from permitkit.load.guide.key_table import sample_value
from permitkit.model.keys import KEYS
from permitkit.packet.rules_page import noted
from permitkit.render.blocks import Table

if TYPE_CHECKING:
    from permitkit.model.rules import RuleKey

READERS = (*RECKONERS, *PRINTERS)


def in_the_source(key: RuleKey) -> bool:
    return used_in(READERS, key)


def on_the_rules_page(key: RuleKey) -> bool:
    told = noted(rules(saying(key)))
    return any(key.question in row for each in told if isinstance(each, Table) for row in each.rows)


def saying(key: RuleKey) -> str:
    """Return a sheet that answers one question."""
    value = sample_value(key).replace('"…', '"2').replace("= …", "= 2")
    return f'[rule]\n{key.name} = {{ {value}, cite = "code 7" }}\n'


@pytest.mark.parametrize("name", KEYS)
def test_every_key_is_read_by_a_check_the_study_or_a_page(name: str) -> None:
    key = KEYS[name]

    assert by_a_check(key) or in_the_source(key) or on_the_rules_page(key)


def test_a_key_that_nothing_reads_is_found() -> None:
    key = replace(KEYS["walk.slump"], name="walk.colour")

    assert not by_a_check(key)
    assert not in_the_source(key)


def test_what_becomes_of_a_key_is_told_and_only_what_is_noted_stands_on_that_page_alone() -> None:
    uses = key_uses()

    assert uses["core.bit"] == "judged"
    assert uses["docs.permit_needed"] == "judged"
    assert uses["dates.guarantee"] == "reckoned with"
    assert uses["say.cautions"] == "printed"
    assert uses["walk.overrun"] == "noted"
    assert all(on_the_rules_page(KEYS[name]) for name, use in uses.items() if use == "noted")


def test_what_a_check_reads_or_a_page_prints_whole_is_not_noted_once_more() -> None:
    assert noted(rules(saying(KEYS["core.bit"]), saying(KEYS["say.conditions"]))) == []


def test_rules_are_noted_in_the_towns_own_order_the_case_that_holds_alone() -> None:
    back = (
        "when = { curb = 'rolled' }\nyes = true\ncite = 'code 3'",
        "yes = true\ncite = 'code 12'",
    )

    told = noted(rules(saying(KEYS["walk.slump"]) + edition("restore.curb_back", *back)))

    (table,) = (each for each in told if isinstance(each, Table))
    assert table.rows == (
        ("7", KEYS["walk.slump"].question, "at least 2 in"),
        ("12", KEYS["restore.curb_back"].question, "yes"),
    )


def test_what_a_wider_sheet_says_is_not_the_towns_to_note() -> None:
    assert noted(rules("", state(saying(KEYS["walk.slump"])))) == []


def test_a_rule_that_tells_items_apart_is_noted_with_what_each_holds_under() -> None:
    key = KEYS["docs.governs"]
    cases = (
        f"when = {{ place = 'private' }}\none_of = '{key.words[0]}'\ncite = 'code 7'",
        f"one_of = '{key.words[1]}'\ncite = 'code 7'",
    )

    told = noted(rules(edition(key.name, *cases)))

    (table,) = (each for each in told if isinstance(each, Table))
    assert [row[2] for row in table.rows] == [
        f"{key.words[0]} (the pipe lies on private ground)",
        key.words[1],
    ]
