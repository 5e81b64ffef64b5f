from __future__ import annotations

import pytest
from sheet_text import HEAD, sheet

from permitkit.load.find_sheet import list_places
from permitkit.load.rule_lint import lint, notes
from permitkit.load.rule_lint.overlap import is_within
from permitkit.load.rule_sheet import load_layers
from permitkit.model.rules import When

FORD = "jurisdictions/ford/rules.toml"


def edition(*bodies: str, key: str = "walk.base", since: str = "") -> str:
    text = f'[[edition]]\nkey = "{key}"\n{since}'
    return text + "".join(f"[[edition.case]]\n{body}\ncite = 'code 1'\n" for body in bodies)


def base(when: str, inches: int) -> str:
    return f"{when}\nat_least = '{inches} in'"


def told(text: str) -> list[tuple[str, str]]:
    return [(each.where.removeprefix(f"{FORD}: "), each.found) for each in lint(sheet(text))]


def test_a_sheet_in_order_has_no_faults() -> None:
    assert told(edition(base("when = { soil = 'clay' }", 4), base("", 2))) == []


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("", "when = { soil = 'clay' }"),
        ("", ""),
        ("when = { soil = ['clay', 'silt'] }", "when = { soil = 'Clay' }"),
        ("when = { soil = 'clay' }", "when = { soil = 'clay', begun = true }"),
        (
            "when = [{ soil = 'clay' }, { begun = true }]",
            "when = [{ begun = true, lanes = { over = 2 } }]",
        ),
        ("when = { lanes = { over = 2 } }", "when = { lanes = { over = 3 } }"),
        ("when = { lanes = { at_least = 2 } }", "when = { lanes = { over = 2, up_to = 4 } }"),
        ("when = { lanes = { up_to = 4 } }", "when = { lanes = { under = 4 } }"),
        ("when = { season = '11-01 to 04-15' }", "when = { season = '11-15 to 04-01' }"),
    ],
)
def test_a_case_never_reached_is_told(first: str, second: str) -> None:
    found = told(edition(base(first, 4), base(second, 6)))

    assert [where for where, _ in found] == ["walk.base: case 2"]
    assert found[0][1].startswith("a case never reached: case 1 fits first")


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("when = { lanes = { over = 3 } }", "when = { lanes = { over = 2 } }"),
        ("when = { lanes = { over = 2 } }", "when = { lanes = { at_least = 2 } }"),
        ("when = { lanes = { under = 4 } }", "when = { lanes = { up_to = 4 } }"),
        ("when = { soil = 'clay', begun = true }", "when = { soil = 'clay' }"),
        ("when = { season = '11-15 to 04-01' }", "when = { season = '11-01 to 04-15' }"),
        ("when = { soil = 'clay' }", "when = { soil = 'sand' }"),
        ("when = { lanes = { up_to = 2 } }", "when = { lanes = { over = 2 } }"),
        ("when = { lanes = { under = 2 } }", "when = { lanes = { at_least = 2 } }"),
        ("when = { season = '11-15 to 04-01' }", "when = { season = '05-01 to 06-01' }"),
    ],
)
def test_a_narrower_case_in_front_and_cases_apart_are_in_order(first: str, second: str) -> None:
    assert told(edition(base(first, 4), base(second, 6))) == []


BOTH = [
    (
        "when = { soil = 'clay' }",
        "when = { begun = true }",
        "when = { soil = 'clay', begun = true }",
    ),
    (
        "when = { lanes = { over = 1, up_to = 3 } }",
        "when = { lanes = { over = 2 } }",
        "when = { lanes = { over = 2, up_to = 3 } }",
    ),
    (
        "when = { soil = ['clay', 'silt'] }",
        "when = { soil = ['silt', 'sand'] }",
        "when = { soil = 'silt' }",
    ),
    (
        "when = { season = '11-15 to 04-01' }",
        "when = { season = '03-01 to 06-01' }",
        "when = { season = '03-01 to 04-01' }",
    ),
    (
        "when = { season = '10-01 to 03-31' }",
        "when = { season = '03-01 to 11-30' }",
        "when = [{ season = '03-01 to 03-31' }, { season = '10-01 to 11-30' }]",
    ),
    (
        "when = { street_paved = { within = '5 years' } }",
        "when = { lanes = { over = 2 } }",
        "when = { street_paved = { within = '5 years' }, lanes = { over = 2 } }",
    ),
]


@pytest.mark.parametrize(("first", "second", "_both"), BOTH)
def test_two_cases_that_can_both_be_first_are_told(first: str, second: str, _both: str) -> None:
    found = told(edition(base(first, 4), base(second, 6)))

    assert [where for where, _ in found] == ["walk.base: cases 1 and 2"]
    assert "gives at least 4 in" in found[0][1]


@pytest.mark.parametrize(("first", "second", "both"), BOTH)
def test_a_case_in_front_for_the_jobs_that_fit_both_settles_it(
    first: str, second: str, both: str
) -> None:
    assert told(edition(base(both, 8), base(first, 4), base(second, 6))) == []


def test_a_case_in_front_for_a_part_of_those_jobs_does_not() -> None:
    first, second = BOTH[0][:2]
    part = "when = { soil = 'clay', begun = true, lanes = { over = 2 } }"

    found = told(edition(base(part, 8), base(first, 4), base(second, 6)))

    assert [where for where, _ in found] == ["walk.base: cases 2 and 3"]


def test_two_cases_with_one_value_do_not_clash() -> None:
    first, second = "when = { soil = 'clay' }", "when = { begun = true }"

    assert told(edition(base(first, 4), base(second, 4))) == []


def test_one_condition_twice_is_told_whatever_the_values() -> None:
    twice = ["when = { soil = 'clay', begun = true }", "when = { begun = true, soil = 'clay' }"]

    found = told(edition(base(twice[0], 4), base(twice[1], 6)))
    assert [where for where, _ in found] == ["walk.base: case 2"]


def test_cases_that_count_together_may_overlap() -> None:
    text = edition(
        "when = { begun = true }\nitems = ['a']",
        "items = ['b']",
        "items = ['c']",
        key="docs.required",
    )

    assert told(text) == []


def test_a_new_outlet_that_is_an_existing_hole_can_never_fit() -> None:
    found = told(edition(base("when = { new_outlet = true, outlet = 'existing hole' }", 4)))

    assert found == [("walk.base: case 1, when", "a new outlet that is an existing hole")]


def test_a_condition_on_a_permit_nobody_lists_can_never_fit() -> None:
    text = edition(base("when = { permit = ['street', 'strete'] }", 4))
    permit = "[[permit]]\nid = 'street'\ntitle = 'S'\nissuer = 'F'\n"

    assert told(text + permit) == [("walk.base: case 1, when.permit", "'strete'")]
    assert told(text)[0][1] == "'street' and 'strete'"


def test_the_day_an_edition_begins_is_part_of_the_place() -> None:
    found = told(edition(base("", 4), base("", 6), since="since = 2026-01-01\n"))

    assert found[0][0] == "walk.base since 2026-01-01: case 2"


def fees(line: str, key: str = "fees.lines") -> str:
    return f"[rule]\n{key} = {{ line = [{{ name = 'a', {line} }}], cite = 'code 1' }}\n"


@pytest.mark.parametrize(
    ("line", "lacking"),
    [
        ("by = 'begun', rows = { yes = { sum = 1 } }", "no"),
        ("by = 'restored_by', rows = { town = { sum = 1 } }", "applicant"),
        ("by = 'street', rows = { 'Heron Street' = { sum = 1 } }", "any other name"),
        ("sum_of = [{ sum = 1 }, { by = 'begun', rows = { no = { sum = 1 } } }]", "yes"),
        (
            (
                "by = 'begun', rows = { yes = { sum = 1 }, no = { by = 'hurry', rows = { no = { "
                "sum = 1 } } } }"
            ),
            "yes",
        ),
        (
            (
                "by = 'begun', rows = { yes = { sum = 1 } }, otherwise = { by = 'hurry', rows = { "
                "no = { sum = 1 } } }"
            ),
            "yes",
        ),
        ("by = 'lanes', rows = { 'over 2' = { sum = 1 } }", "less than over 2"),
        ("by = 'lanes', rows = { 'up to 2' = { sum = 1 } }", "more than up to 2"),
        (
            "by = 'lanes', rows = { 'up to 2' = { sum = 1 }, 'over 3' = { sum = 1 } }",
            "what lies between up to 2 and over 3",
        ),
        (
            "by = 'trench', rows = { 'under 2 ft' = { sum = 1 }, 'over 2 ft' = { sum = 1 } }",
            "what lies between under 2 ft and over 2 ft",
        ),
        ("by = 'cost', rows = { 'from 10' = { sum = 1 } }", "less than at least $10.00"),
    ],
)
def test_a_table_with_a_hole_is_told(line: str, lacking: str) -> None:
    found = told(fees(line))

    assert found[0][0] == "fees.lines: line 'a'"
    assert found[0][1].endswith(f"without a row for {lacking}")


@pytest.mark.parametrize(
    "line",
    [
        "by = 'begun', rows = { yes = { sum = 1 }, no = { sum = 2 } }",
        "by = 'street', rows = { 'Heron Street' = { sum = 1 } }, otherwise = { sum = 2 }",
        "by = 'lanes', rows = { 'up to 2' = { sum = 1 }, 'from 3' = { sum = 1 } }",
        "by = 'lanes', rows = { 'under 3' = { sum = 1 }, 'over 2' = { sum = 1 } }",
        "by = 'trench', rows = { 'under 2 ft' = { sum = 1 }, 'from 2 ft' = { sum = 1 } }",
        "by = 'trench', rows = { 'from 0 ft up to 2 ft' = { sum = 1 }, 'over 2 ft' = { sum = 1 } }",
    ],
)
def test_a_table_with_a_row_for_every_job_is_in_order(line: str) -> None:
    assert told(fees(line)) == []


def test_a_line_for_a_permit_nobody_lists_is_told() -> None:
    found = told(fees("sum = 1, permit = 'strete'"))

    assert found == [("fees.lines: line 'a', permit", "'strete'")]


def test_a_permit_of_a_layer_below_may_be_named() -> None:
    county = sheet(
        "[[permit]]\nid = 'road'\ntitle = 'R'\nissuer = 'C'\n",
    )
    town = sheet(fees("sum = 1, permit = 'road'"))

    assert lint(town, (county,)) == ()


def test_a_share_of_a_line_nobody_has_is_told_and_of_the_towns_own_sum_noted() -> None:
    found = told(fees("percent = 5, of = 'feess'", key="fees.deposit"))
    (own,) = notes(sheet(fees("percent = 120, of = 'the cost of testing'", key="fees.deposit")))

    assert found == [("fees.deposit: line 'a', of", "'feess'")]
    assert (own.found, own.fix) == (
        "'the cost of testing'",
        "for the cost of the work, write of = cost",
    )
    assert told(fees("percent = 5, of = 'construction cost'")) == []
    assert told(fees("percent = 5, of = 'cost'")) == []


def test_a_limit_looser_than_a_layers_is_noted_and_is_no_fault() -> None:
    state = sheet(
        "[rule]\naccess.cross_slope = { at_most = '1:48', cite = 'code 1' }\n"
        "access.width = { at_least = '48 in', cite = 'code 1' }\n"
        "traffic.lane = { ask = 'them' }"
    )
    town = sheet(
        "[rule]\naccess.cross_slope = { at_most = '3 %', cite = 'code 1' }\n"
        "access.width = { at_least = '60 in', cite = 'code 1' }\n"
        "access.lip = { at_most = '1/4 in', cite = 'code 1' }\n"
        "core.bars = { yes = true, cite = 'code 1' }\n"
        "traffic.lane = { at_least = '10 ft', cite = 'code 1' }"
    )

    assert lint(town, (state,)) == ()
    (note,) = notes(town, (state,))
    assert note.where == f"{FORD}: access.cross_slope"
    assert note.found == "at most 3 %, looser than at most 1:48 of Town of Ford"


def test_a_lower_end_below_a_layers_is_noted_too() -> None:
    state = sheet("[rule]\naccess.width = { at_least = '48 in', cite = 'code 1' }")
    town = sheet("[rule]\naccess.width = { at_least = '36 in', cite = 'code 1' }")

    assert [note.where for note in notes(town, (state,))] == [f"{FORD}: access.width"]


def test_a_source_nobody_cites_is_noted() -> None:
    (note,) = notes(
        sheet(
            "[source.old]\ntitle = 'Old'\nread = 2026-01-01\n[rule]\ncore.bars = { yes = "
            "true, cite = 'code 1' }"
        )
    )

    assert note.where == f"{FORD}: source.old"


def test_a_source_a_permit_cites_is_not_noted() -> None:
    permit = "[[permit]]\nid = 'a'\ntitle = 'A'\nissuer = 'F'\ncite = 'code 1'\n"

    assert notes(sheet(permit)) == ()


def test_rules_that_hold_on_another_authoritys_streets_are_noted() -> None:
    head = HEAD.replace(
        "[source", "[sheet.listed_streets]\n'Tarn Road' = 'Tarn County'\n[source", 1
    )
    bars = edition(
        "when = { authority = 'town' }\nyes = true", "ask = 'its owner'", key="core.bars"
    )
    (note,) = notes(sheet(edition(base("", 4)) + bars, head))

    assert note.where == f"{FORD}: sheet.listed_streets"
    assert note.found == "rules that hold there too, 1 in all: walk.base"
    assert notes(sheet(bars, head)) == ()


def test_an_authoritys_own_list_of_its_streets_is_not_noted() -> None:
    head = HEAD.replace("[source", "[sheet.listed_streets]\n'Main' = 'Town of Ford'\n[source", 1)

    assert notes(sheet(edition(base("", 4)), head)) == ()


def test_conditions_lie_within_one_that_always_fits() -> None:
    assert is_within(None, None)
    assert not is_within(None, When(({"soil": ("clay",)},)))


def test_a_share_is_offered_every_line_but_its_own() -> None:
    two = "line = [{ name = 'a', sum = 1 }, { name = 'b', percent = 5, of = 'coost' }]"
    (found,) = lint(sheet(f"[rule]\nfees.lines = {{ {two}, cite = 'code 1' }}\n"))
    (alone,) = lint(sheet(fees("percent = 5, of = 'coost'")))

    assert found.expected == "cost, fees or another line: a"
    assert alone.expected == "cost, fees"


@pytest.mark.parametrize("place", list_places())
def test_every_shipped_sheet_is_free_of_lint(place: str) -> None:
    sheets = load_layers(place)

    assert lint(sheets[0], sheets[1:]) == ()


def test_the_head_used_here_is_a_whole_sheet() -> None:
    assert sheet("", HEAD).rules == {}
