from __future__ import annotations

import pytest
from town import edition, rules, sheet, state

from permitkit.model.keys import KEYS
from permitkit.model.rules import Stacks, ValueKind
from permitkit.model.values import Ask


def rule(key: str, text: str) -> str:
    return f"[rule]\n{key} = {{ {text} }}\n"


# ---- nearest


def test_the_nearest_sheet_that_speaks_holds() -> None:
    town = rule("core.bit", "at_most = '4 in', cite = 'code 1'")
    below = state(rule("core.bit", "at_most = '3 in', cite = 'code 2'"))

    assert rules(town, below)["core.bit"].text == "at most 4 in"
    assert rules("", below)["core.bit"].text == "at most 3 in"
    assert rules("", below)["core.bit"].source == "Yonder Code, section 2"


@pytest.mark.parametrize("word", ["no_rule = true", "ask = 'director'", "by_reference = 'ord. 4'"])
def test_an_honest_answer_of_the_town_stops_the_search(word: str) -> None:
    below = state(rule("core.bit", "at_most = '3 in', cite = 'code 2'"))
    found = rules(rule("core.bit", word), below)["core.bit"]

    assert not found.known
    assert found.sheet is not None
    assert found.sheet.title == "Ford"


def test_silence_passes_up() -> None:
    ended = edition("core.bit", since="2020-01-01")
    fits_not = edition("core.bit", "when = { curb = 'rolled' }\nat_most = '2 in'\ncite = 'code 1'")
    below = state(rule("core.bit", "at_most = '3 in', cite = 'code 2'"))

    assert rules(ended, below)["core.bit"].text == "at most 3 in"
    assert rules(fits_not, below)["core.bit"].text == "at most 3 in"


def test_a_case_that_might_fit_stops_the_search() -> None:
    town = edition("core.bit", "when = { soil = 'clay' }\nat_most = '2 in'\ncite = 'code 1'")
    below = state(rule("core.bit", "at_most = '3 in', cite = 'code 2'"))

    assert rules(town, below)["core.bit"].open


# ---- strictest


def test_a_town_cannot_relax_a_greatest() -> None:
    town = rule("access.cross_slope", "at_most = '3 %', cite = 'code 1'")
    below = state(rule("access.cross_slope", "at_most = '1:48', cite = 'code 2'"))
    found = rules(town, below)["access.cross_slope"]

    assert (found.text, found.source) == ("at most 1:48", "Yonder Code, section 2")
    assert [each.text for each in found.all] == ["at most 3 %", "at most 1:48"]


def test_a_town_may_be_stricter() -> None:
    town = rule("access.cross_slope", "at_most = '2 %', cite = 'code 1'")
    below = state(rule("access.cross_slope", "at_most = '1:48', cite = 'code 2'"))
    found = rules(town, below)["access.cross_slope"]

    assert (found.text, found.source) == ("at most 2 %", "Ford Code, section 1")


def test_of_equal_limits_the_nearest_is_cited() -> None:
    town = rule("access.cross_slope", "at_most = '1/4 in/ft', cite = 'code 1'")
    below = state(rule("access.cross_slope", "at_most = '1:48', cite = 'code 2'"))

    assert rules(town, below)["access.cross_slope"].source == "Ford Code, section 1"


def test_a_least_takes_the_greatest_of_the_layers() -> None:
    town = rule("access.width", "at_least = '36 in', cite = 'code 1'")
    below = state(rule("access.width", "at_least = '48 in', cite = 'code 2'"))
    found = rules(town, below)["access.width"]

    assert (found.text, found.source) == ("at least 48 in", "Yonder Code, section 2")


def test_each_end_is_taken_from_the_layer_that_is_tightest_there() -> None:
    town = rule("access.cross_slope", "at_least = '1 %', at_most = '3 %', cite = 'code 1'")
    below = state(rule("access.cross_slope", "at_most = '2 %', cite = 'code 2'"))
    found = rules(town, below)["access.cross_slope"]

    assert (found.text, found.source) == ("1 % to 2 %", "Yonder Code, section 2")


@pytest.mark.parametrize("word", ["no_rule = true", "ask = 'director'"])
def test_an_honest_answer_leaves_the_layers_limit_in_force(word: str) -> None:
    below = state(rule("access.cross_slope", "at_most = '1:48', cite = 'code 2'"))

    assert rules(rule("access.cross_slope", word), below)["access.cross_slope"].text == (
        "at most 1:48"
    )


def test_honest_answers_alone_give_the_nearest() -> None:
    below = state(rule("access.cross_slope", "ask = 'state'"))
    found = rules(rule("access.cross_slope", "no_rule = true"), below)["access.cross_slope"]

    assert found.no_rule


def test_layers_that_measure_another_part_cannot_be_compared() -> None:
    town = rule("core.strip", "at_least = '2 in', of = 'hole top', cite = 'code 1'")
    below = state(rule("core.strip", "at_least = '1 in', of = 'pipe outside', cite = 'code 2'"))
    found = rules(town, below)["core.strip"]

    assert isinstance(found.value, Ask)
    assert found.why == (
        "the layers measure differently: at least 2 in, hole top from curb top, "
        "and at least 1 in, pipe outside from curb top by Yonder Code, section 2"
    )
    assert len(found.all) == 2


def test_sizes_are_those_that_all_layers_take() -> None:
    both = "sizes = ['10 ft', '11 ft', '12 ft'], cite = 'code 1'"
    town = rule("traffic.lane", both)
    below = state(rule("traffic.lane", "sizes = ['11 ft', '12 ft', '13 ft'], cite = 'code 2'"))
    plain = state(rule("traffic.lane", "at_least = '11 ft', cite = 'code 2'"))

    assert rules(town, below)["traffic.lane"].text == "11 ft or 12 ft"
    assert rules(town, plain)["traffic.lane"].limit.sizes
    assert rules(town)["traffic.lane"].text == "10 ft, 11 ft or 12 ft"


def test_only_limits_are_taken_at_their_strictest() -> None:
    strict = [key for key in KEYS.values() if key.stacks is Stacks.STRICTEST]

    assert {key.kind for key in strict} == {ValueKind.LIMIT}


# ---- all


def test_documents_of_all_layers_add_up_each_once() -> None:
    town = rule("docs.required", "items = ['sketch', 'bond'], cite = 'code 1'")
    below = state(rule("docs.required", "items = ['bond', 'traffic plan'], cite = 'code 2'"))
    found = rules(town, below)["docs.required"]

    assert [item.name for item in found.items] == ["sketch", "bond", "traffic plan"]
    assert [each.source for each in found.all] == ["Ford Code, section 1", "Yonder Code, section 2"]


def test_every_case_that_fits_counts_where_answers_add_up() -> None:
    town = edition(
        "docs.required",
        "items = ['sketch']\ncite = 'code 1'",
        "when = { walk_closed = true }\nitems = ['traffic plan']\ncite = 'code 2'",
        "when = { pavement_cut = true }\nitems = ['compaction test']\ncite = 'code 3'",
        "when = { zone = 'R-1' }\nitems = ['zoning letter']\ncite = 'code 4'",
    )
    found = rules(town)["docs.required"]

    assert [item.name for item in found.items] == ["sketch", "traffic plan"]
    assert [each.open for each in found.all] == [False, False, True]


def test_sentences_add_up_too() -> None:
    town = rule("say.conditions", "say = ['a', 'b'], cite = 'code 1'")
    below = state(rule("say.conditions", "say = ['b', 'c'], cite = 'code 2'"))

    assert rules(town, below)["say.conditions"].sentences == ("a", "b", "c")


def test_what_is_open_does_not_hide_what_is_known() -> None:
    below = state(rule("docs.required", "items = ['bond'], cite = 'code 2'"))
    found = rules(rule("docs.required", "ask = 'counter'"), below)["docs.required"]

    assert [item.name for item in found.items] == ["bond"]
    assert [each.known for each in found.all] == [False, True]


def test_an_open_question_stands_before_no_rule_where_nothing_is_known() -> None:
    below = state(rule("docs.required", "ask = 'state desk'"))
    asked = rules(rule("docs.required", "no_rule = true"), below)["docs.required"]
    none = rules(rule("docs.required", "no_rule = true"))["docs.required"]

    assert asked.ask_of == "state desk"
    assert none.no_rule


def test_only_lists_of_items_and_sentences_add_up() -> None:
    stacked = {key.kind for key in KEYS.values() if key.stacks is Stacks.ALL}

    assert stacked == {ValueKind.ITEMS, ValueKind.SENTENCES}


def test_an_explanation_of_a_stacked_key_tells_every_layer() -> None:
    town = sheet(rule("docs.required", "items = ['sketch'], cite = 'code 1'"))
    below = state(rule("docs.required", "items = ['bond'], cite = 'code 2'"))
    told = rules(town, below).explain("docs.required")

    assert [(step.sheet, step.spoke) for step in told.tried] == [("Ford", True), ("Yonder", True)]
