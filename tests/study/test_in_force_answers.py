from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from town import edition, rules, sheet, state

from permitkit.errors import Exit, InputError
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from permitkit.study.in_force import RulesInForce

ASKED = edition("core.bit", "ask = 'director'")
BY_WATER = edition(
    "water.allowed",
    "when = { water = 'roof' }\nstance = 'allowed'\ncite = 'code 1'",
    "when = { water = 'sump' }\nask = 'town engineer'",
    "stance = 'barred'\ncite = 'code 1'",
)


def answer(key: str, on: date = date(2026, 5, 4), **value: Any) -> dict[str, Any]:  # noqa: ANN401
    return {"key": key, "value": value, "who": "A. Name", "how": "by telephone", "on": on}


def told_fact(fact: str, value: object, **more: object) -> dict[str, Any]:
    return answer(fact) | {"value": {"is": value, **more}}


def answered(text: str, *answers: dict[str, Any], **tables: Any) -> RulesInForce:  # noqa: ANN401
    return rules(text, answer=list(answers), **tables)


def test_an_answer_stands_in_front_of_the_sheet() -> None:
    found = answered(ASKED, answer("core.bit", at_most="4 in"))["core.bit"]

    assert (found.text, found.known) == ("at most 4 in", True)
    assert found.source == "answer by telephone, A. Name, 2026-05-04"
    assert found.sheet is not None


def test_an_answer_may_clear_silence_and_replace_a_known_value() -> None:
    plain = edition("core.bit", "at_most = '3 in'\ncite = 'code 1'")

    assert answered("", answer("core.bit", at_most="4 in"))["core.bit"].text == "at most 4 in"
    assert answered(plain, answer("core.bit", at_most="4 in"))["core.bit"].text == "at most 4 in"


def test_the_last_answer_counts() -> None:
    found = answered(ASKED, answer("core.bit", at_most="4 in"), answer("core.bit", at_most="3 in"))[
        "core.bit"
    ]

    assert found.text == "at most 3 in"


def test_an_answer_holds_for_the_items_its_condition_names() -> None:
    told = answer("water.allowed", when={"water": "sump"}, stance="allowed", note="to 15 gpm")
    found = answered(BY_WATER, told)

    assert found.at("water.allowed", water="sump").stance == "allowed"
    assert found.at("water.allowed", water="sump").note == "to 15 gpm"
    assert found.at("water.allowed", water="pool").stance == "barred"


def test_an_answer_without_a_condition_clears_only_what_is_open_among_items() -> None:
    found = answered(BY_WATER, answer("water.allowed", stance="allowed"))

    assert found.at("water.allowed", water="sump").answer is not None
    assert found.at("water.allowed", water="pool").stance == "barred"
    assert found.at("water.allowed", water="roof").answer is None


def test_an_answer_whose_condition_does_not_fit_leaves_the_sheet_in_force() -> None:
    told = answer("core.bit", when={"curb": "rolled"}, at_most="4 in")

    assert answered(ASKED, told)["core.bit"].open


@pytest.mark.parametrize(("begins", "stands"), [("2026-05-04", True), ("2026-05-05", False)])
def test_an_answer_lapses_when_a_newer_edition_begins_after_it(begins: str, stands: bool) -> None:  # noqa: FBT001
    town = ASKED + edition("core.bit", "at_most = '3 in'\ncite = 'code 2'", since=begins)
    found = answered(town, answer("core.bit", at_most="4 in"), filing=date(2026, 6, 1))["core.bit"]

    assert found.text == ("at most 4 in" if stands else "at most 3 in")
    assert found.note == (
        ""
        if stands
        else "the answer by telephone, A. Name, 2026-05-04 no longer stands: "
        "a newer edition began on 2026-05-05"
    )


def test_a_newer_edition_not_yet_begun_leaves_the_answer_standing() -> None:
    town = ASKED + edition("core.bit", "at_most = '3 in'\ncite = 'code 2'", since="2026-06-01")

    assert answered(town, answer("core.bit", at_most="4 in"))["core.bit"].text == "at most 4 in"


def test_a_newer_edition_of_a_layer_that_is_not_reached_leaves_it_standing() -> None:
    below = state(edition("core.bit", "at_most = '3 in'\ncite = 'code 2'", since="2026-05-05"))
    found = rules(
        ASKED, below, filing=date(2026, 6, 1), answer=[answer("core.bit", at_most="4 in")]
    )

    assert found["core.bit"].text == "at most 4 in"


def test_an_answer_cannot_relax_a_limit_of_a_layer_below() -> None:
    below = state("[rule]\naccess.cross_slope = { at_most = '1:48', cite = 'code 2' }")
    told = [answer("access.cross_slope", at_most="3 %")]
    stricter = [answer("access.cross_slope", at_most="1 %")]

    assert rules("", below, answer=told)["access.cross_slope"].text == "at most 1:48"
    assert rules("", below, answer=stricter)["access.cross_slope"].text == "at most 1 %"


def test_an_answer_stands_in_place_of_the_towns_own_limit() -> None:
    town = "[rule]\naccess.cross_slope = { at_most = '1 %', cite = 'code 1' }"

    found = answered(town, answer("access.cross_slope", at_most="2 %"))["access.cross_slope"]

    assert found.text == "at most 2 %"


def test_an_answer_adds_to_what_adds_up() -> None:
    town = "[rule]\ndocs.required = { items = ['sketch'], cite = 'code 1' }"
    found = answered(town, answer("docs.required", items=["bond"]))["docs.required"]

    assert [item.name for item in found.items] == ["bond", "sketch"]
    assert found.all[0].answer is not None


def test_an_answer_is_explained() -> None:
    lines = answered(ASKED, answer("core.bit", at_most="4 in")).explain("core.bit").lines()

    assert lines[2] == (
        "  answer by telephone, A. Name, 2026-05-04: stands in front of the sheets for this job"
    )
    assert lines[-1] == "  by: answer by telephone, A. Name, 2026-05-04"


def test_a_page_shows_the_answer_alone() -> None:
    found = answered(BY_WATER, answer("water.allowed", when={"water": "roof"}, stance="barred"))

    assert [each.text for each in found.each("water.allowed")] == ["barred"]


def test_answers_leave_other_keys_as_they_were() -> None:
    town = sheet("[rule]\ncore.bars = { yes = true, cite = 'code 1' }\ncore.bit = { ask = 'x' }")
    first = rules(town)
    assert first["core.bars"].yes
    assert first["core.bit"].open

    second = rules(town, answer=[answer("core.bit", at_most="4 in")])

    assert second["core.bars"] is first["core.bars"]
    assert second["core.bit"].known
    assert rules(town)["core.bit"].open


FACTS = [
    ("soil", "clay", "clay"),
    ("pavement_rating", 62, 62),
    ("falls_to", "rear", "rear"),
    ("harm", True, True),
    ("built", date(1960, 1, 1), date(1960, 1, 1)),
    ("storm_main", "140 ft", read_measure("140 ft", Kind.LENGTH)),
    ("cost", "450", 450),
]


@pytest.mark.parametrize(("fact", "told", "value"), FACTS)
def test_an_answer_may_tell_a_fact(fact: str, told: object, value: object) -> None:
    assert answered("", told_fact(fact, told)).facts[fact] == value


WRONG = [
    (answer("core.bitt", at_most="4 in"), "answer[1].key", "did you mean core.bit"),
    (answer("core.bit", at_most="4"), "answer[1].value.at_most", ""),
    (answer("core.bit"), "answer[1].value", ""),
    (answer("soil"), "answer[1].value", ""),
    (told_fact("soil", 4), "answer[1].value.is", ""),
    (told_fact("soil", "clay", depth=4), "answer[1].value.depth", ""),
    (told_fact("falls_to", "streeet"), "answer[1].value.is", "did you mean street"),
]


@pytest.mark.parametrize(("wrong", "where", "fix"), WRONG)
def test_an_answer_that_cannot_be_read_is_told(wrong: dict[str, Any], where: str, fix: str) -> None:
    with pytest.raises(InputError) as raised:
        answered("", wrong)

    assert raised.value.exit_code is Exit.INPUT
    assert where in [fault.where for fault in raised.value.faults]
    assert fix in raised.value.faults[0].fix


def test_an_answer_with_no_sheet_at_all_still_stands() -> None:
    assert rules(answer=[answer("core.bit", at_most="4 in")])["core.bit"].known
