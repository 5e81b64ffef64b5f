"""Which rule holds: a plain rule, sizes and views, pages, explanations."""

from __future__ import annotations

from datetime import date

import pytest
from town import base, edition, rules, sheet

from permitkit.model.keys import KEYS
from permitkit.model.keys.outlet import CORE_BIT, OUTLET_ALLOWED
from permitkit.model.values import Items, Silent
from permitkit.study.in_force import InForce, NotKnownError
from permitkit.units import Kind, read_measure

BIT = "[rule]\ncore.bit = { at_most = '4 in', cite = 'code 4.2' }\n"


# ---- one plain rule


def test_a_plain_rule_holds_with_its_source() -> None:
    found = rules(BIT)[CORE_BIT]

    assert found.known
    assert found.limit.at_most == read_measure("4 in", Kind.LENGTH)
    assert (found.source, found.section) == ("Ford Code, section 4.2", "4.2")
    assert found.text == "at most 4 in"
    assert found.all == (found,)
    assert not found.open
    assert found.why == ""


def test_a_key_may_be_named_in_words() -> None:
    in_force = rules(BIT)

    assert in_force["core.bit"] is in_force[CORE_BIT]
    assert in_force.at("core.bit", water="sump") is in_force[CORE_BIT]


def test_a_key_nobody_declared_is_refused() -> None:
    with pytest.raises(KeyError):
        rules(BIT)["core.bitt"]


def test_silence_is_open_and_blocks_where_the_key_does() -> None:
    silent = rules(BIT)[OUTLET_ALLOWED]

    assert isinstance(silent.value, Silent)
    assert (silent.silent, silent.open, silent.blocking, silent.known) == (True, True, True, False)
    assert silent.why == "the rule sheet does not say"
    assert silent.ask_of == "the town"
    assert silent.source == ""
    assert not rules(BIT)["outlet.count"].blocking


def test_no_sheet_at_all_leaves_everything_open() -> None:
    assert all(rules()[key].silent for key in KEYS)


def test_an_ask_says_whom() -> None:
    found = rules("[rule]\ncore.bit = { ask = 'director', note = 'at review' }")[CORE_BIT]

    assert (found.ask_of, found.why, found.source) == ("director", "at review", "Ford")
    assert found.blocking


def test_an_ask_without_a_note_is_still_told() -> None:
    found = rules("[rule]\ncore.bit = { ask = 'director' }")[CORE_BIT]

    assert found.why == "the rule sheet leaves this to the town"


def test_another_document_may_set_it() -> None:
    town = sheet("[rule]\ncore.bit = { by_reference = 'resolution 4' }", office="Counter")
    found = rules(town)[CORE_BIT]

    assert (found.open, found.known, found.why) == (True, False, "set by resolution 4")
    assert found.ask_of == "Counter"


def test_no_rule_is_neither_known_nor_open() -> None:
    found = rules("[rule]\ncore.bit = { no_rule = true }")[CORE_BIT]

    assert (found.no_rule, found.open, found.known, found.blocking) == (True, False, False, False)


def test_a_value_taken_as_another_kind_is_refused() -> None:
    found = rules(BIT)[CORE_BIT]

    with pytest.raises(NotKnownError, match=r"core\.bit holds no YesNo: at most 4 in"):
        assert found.yes


TYPED = [
    ("core.bars", "yes = true", "yes"),
    ("outlet.allowed", "stance = 'allowed'", "stance"),
    ("pipe.kind", "one_of = ['PVC']", "words"),
    ("outlet.order", "order = ['core', 'notch']", "order"),
    ("say.conditions", "say = 'a'", "sentences"),
    ("docs.required", "items = ['a']", "items"),
    ("dates.review", "span = '2 days'", "span"),
    ("dates.concrete_season", "closed = '11-15 to 03-31'", "season"),
    ("traffic.hours", "hours = '07:00-19:00'", "hours"),
    ("water.rain", "rain = '4 in/hr', period = '25-year', duration = '15 min'", "rain"),
    ("fees.lines", "line = [{ name = 'a', sum = 5 }]", "fees"),
    ("docs.insurance", "covers = [{ kind = 'automobile', each = 5 }]", "covers"),
]


@pytest.mark.parametrize(("key", "text", "name"), TYPED)
def test_each_kind_of_value_is_taken_by_its_name(key: str, text: str, name: str) -> None:
    found = rules(f"[rule]\n{key} = {{ {text}, cite = 'code 1' }}")[key]

    assert getattr(found, name)


# ---- sizes, views, pages


def test_size_facts_are_unknown_until_the_study_gives_them() -> None:
    town = edition(
        "packet.sketch",
        "when = { walk_area = { over = '20 sq ft' } }\nyes = true\ncite = 'code 1'",
        "yes = false\ncite = 'code 1'",
    )
    before = rules(town + BIT)
    kept = before[CORE_BIT]
    assert before["packet.sketch"].open

    after = before.with_sizes({"walk_area": read_measure("25 sq ft", Kind.AREA)})

    assert after["packet.sketch"].yes
    assert before["packet.sketch"].open
    assert after[CORE_BIT] is kept
    smaller = before.with_sizes({"walk_area": read_measure("20 sq ft", Kind.AREA)})
    assert not smaller["packet.sketch"].yes


def test_a_size_nobody_declared_is_refused() -> None:
    with pytest.raises(KeyError, match="no fact girth"):
        rules(BIT).with_sizes({"girth": 1})


def test_a_view_gives_only_the_keys_it_names() -> None:
    view = rules(BIT).only([CORE_BIT])

    assert view[CORE_BIT].known
    with pytest.raises(KeyError, match=r"outlet\.allowed is not among the keys"):
        view[OUTLET_ALLOWED]
    with pytest.raises(KeyError):
        view.at(OUTLET_ALLOWED, water="sump")


def test_a_page_shows_every_case_that_holds_for_some_item() -> None:
    town = edition(
        "pipe.slope",
        "when = { place = 'right-of-way', outlet = 'core' }\nat_least = '1 %'\ncite = 'code 1'",
        "when = { place = 'private', outlet = 'emitter' }\nat_least = '2 %'\ncite = 'code 1'",
        "at_least = '0.5 %'\ncite = 'code 1'",
    )
    shown = rules(town).each("pipe.slope")

    assert [(each.text, each.applies) for each in shown] == [
        ("at least 1 %", "the pipe lies in the right-of-way, and the water is let go by a core"),
        ("at least 0.5 %", ""),
    ]
    assert rules(town).at("pipe.slope", place="private").text == "at least 0.5 %"


def test_a_page_stops_at_a_case_that_hangs_on_a_fact_of_the_whole_job() -> None:
    town = edition(
        "pipe.slope",
        "when = { place = 'private' }\nat_least = '2 %'\ncite = 'code 1'",
        "when = { soil = 'clay' }\nat_least = '3 %'\ncite = 'code 1'",
        "at_least = '0.5 %'\ncite = 'code 1'",
    )
    shown = rules(town).each("pipe.slope")

    assert [each.known for each in shown] == [True, False]


def test_a_rule_that_tells_no_items_apart_is_shown_as_it_holds() -> None:
    in_force = rules(BIT)

    assert in_force.each(CORE_BIT) == (in_force[CORE_BIT],)
    assert in_force.each("outlet.allowed")[0].silent


def test_a_page_passes_over_a_layer_none_of_whose_cases_can_hold() -> None:
    town = edition(
        "pipe.slope",
        "when = { place = 'private', outlet = 'emitter' }\nat_least = '2 %'\ncite = 'code 1'",
        since="2020-01-01",
    )
    ended = edition("pipe.slope", since="2020-01-01")
    other = sheet("[rule]\npipe.slope = { at_least = '1 %', cite = 'code 1' }", "Yonder")

    assert [each.text for each in rules(town, other).each("pipe.slope")] == ["at least 1 %"]
    assert [each.text for each in rules(town, sheet(ended, "Yonder")).each("pipe.slope")] == [
        "nothing said"
    ]
    early = rules(town, other, filing=date(2019, 1, 1))
    assert [each.text for each in early.each("pipe.slope")] == ["at least 1 %"]


def test_permits_are_listed_where_they_are_or_might_be_needed() -> None:
    listed = "".join(
        f"[[permit]]\nid = '{name}'\ntitle = '{name}'\nissuer = 'F'\n{when}\n"
        for name, when in (
            ("street", ""),
            ("zone", "when = { zone = 'R-1' }"),
            ("pavement", "when = { pavement_cut = true }"),
        )
    )
    needed = rules(sheet(listed), sheet("", "Yonder")).permits()

    assert [(each.permit.id, each.certain, each.missing) for each in needed] == [
        ("street", True, ()),
        ("zone", False, ("zone",)),
    ]
    assert needed[0].sheet.title == "Ford"


def test_a_permits_own_dates_are_found_by_its_name() -> None:
    town = edition(
        "dates.validity",
        "when = { permit = 'county' }\nspan = '30 days'\ncite = 'code 1'",
        "span = '60 days'\ncite = 'code 1'",
    )
    in_force = rules(town)

    assert in_force.at("dates.validity", permit="county").text == "30 days"
    assert in_force.at("dates.validity", permit="street").text == "60 days"


# ---- explanations


def test_an_explanation_tells_cases_facts_dates_and_why() -> None:
    town = edition(
        "walk.base",
        base("when = { curb = 'rolled' }", 8),
        base("when = { soil = 'clay' }", 6),
        base("", 4),
    )

    assert rules(town).explain("walk.base").lines() == (
        "walk.base: How deep must the base under the walk be?",
        "  edition by filing: 2026-04-06",
        "  fact curb: vertical",
        "  fact soil: not known",
        "  Ford, edition in force, case 1 (the curb is rolled): does not fit",
        "  Ford, edition in force, case 2 (the soil is clay): might fit: soil not known, so ask",
        "  so: ask: depends on the soil (soil), which is not known: clay, or something else",
        "  by: Ford Code, section 6",
    )


def test_an_explanation_tells_every_layer_up_to_the_one_that_speaks() -> None:
    first = sheet(edition("walk.base", base("", 4), since="2027-01-01"))
    second = sheet(edition("walk.base", base("", 6), since="2025-01-01"), "Yonder")
    silent = sheet("", "Beyond")
    lines = rules(silent, first, second, sheet(BIT, "Never")).explain("walk.base").lines()

    assert lines[2] == "  Beyond: says nothing"
    assert lines[3].startswith("  Ford: Ford first says walk.base for 2027-01-01 on")
    assert (
        lines[4] == "  Yonder, edition of 2025-01-01, case 1 (in every case): fits: at least 6 in"
    )
    assert lines[5:] == ("  so: at least 6 in", "  by: Yonder Code, section 6")


def test_an_explanation_of_silence_names_no_source() -> None:
    assert rules(BIT).explain("walk.base").lines()[-1] == "  so: nothing said"


def test_an_explanation_shows_an_items_own_facts() -> None:
    town = edition(
        "pipe.slope",
        "when = { house_distance = { up_to = '10 ft' }, walk_closed = true, "
        "season = '04-01 to 05-01' }\n"
        "at_least = '2 %'\ncite = 'code 1'",
    )
    distance = read_measure("8 ft", Kind.LENGTH)
    told = rules(town).explain("pipe.slope", house_distance=distance)

    assert told.facts == {
        "house_distance": "8 ft",
        "walk_closed": "yes",
        "season": "2026-04-27 to 2026-04-30",
    }


def test_everything_in_force_is_found_for_a_plain_job() -> None:
    in_force = rules(BIT)

    assert all(isinstance(in_force[key], InForce) for key in KEYS.values())


def test_items_are_held_as_items() -> None:
    found = rules("[rule]\ndocs.required = { items = ['sketch'], cite = 'code 1' }")

    assert isinstance(found["docs.required"].value, Items)
