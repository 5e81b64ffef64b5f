"""What a sheet says on a day: how far each question is answered, what is open, what changed."""

from __future__ import annotations

import itertools
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sheet_text import HEAD, edition, sheet

from permitkit.load.find_sheet import SheetPlaces, list_places
from permitkit.load.rule_sheet import load_layers, read_sheet
from permitkit.load.sheet.glance import glance_layers
from permitkit.model.keys import KEYS
from permitkit.model.keys.subjects import SUBJECTS, by_subject
from permitkit.study.keeping.changes import changes
from permitkit.study.keeping.questions import OpenQuestion, open_questions
from permitkit.study.keeping.said import said, sheet_state, state_of, told
from permitkit.study.keeping.side_by_side import side_by_side
from permitkit.study.keeping.state import State, state_in_layers

if TYPE_CHECKING:
    from permitkit.model.rules import Sheet

TOWNS = Path(__file__).parent / "towns"
DAY = date(2026, 4, 6)
BIT, STRIP = KEYS["core.bit"], KEYS["core.strip"]


def layer(text: str, place: str = "dale") -> Sheet:
    """Return a sheet that others may follow."""
    head = HEAD.replace('"ford"', f'"{place}"').replace("Town of Ford", f"County of {place}")
    return read_sheet((head + text).encode(), Path(f"jurisdictions/{place}/rules.toml"))


def state(key: str, *layers: Sheet, day: date = DAY) -> State:
    return state_of(KEYS[key], said(KEYS[key], layers, day))


def question(key: str, *layers: Sheet, needed: dict[str, str] | None = None) -> OpenQuestion:
    (found,) = [one for one in open_questions(layers, DAY, needed) if one.key.name == key]
    return found


# ---- states


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ('at_most = "4 in", cite = "code 1"', State.ANSWERED),
        ('ask = "engineer"', State.ASK),
        ('by_reference = "detail 4"', State.BY_REFERENCE),
        ("no_rule = true", State.NO_RULE),
    ],
)
def test_a_question_stands_in_one_of_five_states(text: str, found: State) -> None:
    assert state("core.bit", sheet(f"[rule]\ncore.bit = {{ {text} }}\n")) is found
    assert state("core.strip", sheet(f"[rule]\ncore.bit = {{ {text} }}\n")) is State.SILENT


def test_what_one_case_leaves_open_the_whole_leaves_open() -> None:
    cases = ('when = { curb = "rolled" }\nask = "engineer"', 'at_most = "4 in"\ncite = "code 1"')

    assert state("core.bit", sheet(edition("core.bit", *cases))) is State.ASK


@pytest.mark.parametrize(
    ("term", "found"),
    [
        ("sum = 85", State.ANSWERED),
        ('ask = "clerk"', State.ASK),
        ('by_reference = "resolution 12"', State.BY_REFERENCE),
        ('greater_of = [{ sum = 1 }, { ask = "clerk" }]', State.ASK),
        ('sum_of = [{ sum = 1 }, { by_reference = "resolution 12" }]', State.BY_REFERENCE),
        (
            'by = "applicant", rows = { owner = { sum = 1 } }, otherwise = { ask = "clerk" }',
            State.ASK,
        ),
        (
            'by = "lanes", rows = { "up to 2" = { sum = 1 }, "over 2" = { ask = "clerk" } }',
            State.ASK,
        ),
    ],
)
def test_a_sum_that_is_open_leaves_the_fees_open(term: str, found: State) -> None:
    text = f'[rule]\nfees.lines = {{ line = [{{ name = "a", {term} }}], cite = "code 1" }}\n'

    assert state("fees.lines", sheet(text)) is found


def test_a_layer_below_answers_where_the_town_is_silent_and_not_where_it_asks() -> None:
    county = layer('[rule]\ncore.bit = { at_most = "4 in", cite = "code 1" }\n')

    assert state("core.bit", sheet(""), county) is State.ANSWERED
    assert state("core.bit", sheet("[rule]\ncore.bit = { ask = 'a' }\n"), county) is State.ASK
    assert state("core.bit", sheet("[rule]\ncore.bit = { no_rule = true }\n"), county) is (
        State.NO_RULE
    )


def test_a_layer_below_counts_for_the_jobs_the_town_does_not_speak_of() -> None:
    county = layer("[rule]\ncore.bit = { ask = 'county' }\n")
    some = edition("core.bit", 'when = { curb = "rolled" }\nat_most = "4 in"\ncite = "code 1"')

    assert [word.sheet.place for word in said(BIT, (sheet(some), county), DAY)] == ["ford", "dale"]
    assert state("core.bit", sheet(some), county) is State.ASK


def test_a_limit_on_access_is_answered_by_any_layer() -> None:
    country = layer('[rule]\naccess.lip = { at_most = "1/4 in", cite = "code 1" }\n')
    town = sheet("[rule]\naccess.lip = { ask = 'a' }\n")

    assert state("access.lip", town, country) is State.ANSWERED


def test_sentences_of_every_layer_count() -> None:
    county = layer("[rule]\nsay.conditions = { say = 'b', cite = 'code 1' }\n")
    town = sheet("[rule]\nsay.conditions = { say = 'a', cite = 'code 1' }\n")

    key = KEYS["say.conditions"]
    assert [word.text for word in said(key, (town, county), DAY)] == ["a", "b"]


def test_the_edition_of_the_day_counts_from_its_first_day() -> None:
    text = edition("core.bit", 'at_most = "4 in"\ncite = "code 1"', since="2026-01-01")
    ended = text + edition("core.bit", since="2027-01-01")

    assert state("core.bit", sheet(ended), day=date(2025, 12, 31)) is State.SILENT
    assert state("core.bit", sheet(ended), day=date(2026, 1, 1)) is State.ANSWERED
    assert state("core.bit", sheet(ended), day=date(2026, 12, 31)) is State.ANSWERED
    assert state("core.bit", sheet(ended), day=date(2027, 1, 1)) is State.SILENT


def test_what_is_left_after_conditions_is_told_as_the_rest() -> None:
    cases = ('when = { curb = "rolled" }\nask = "engineer"', 'at_most = "4 in"\ncite = "code 1"')
    words = said(BIT, (sheet(edition("core.bit", *cases)),), DAY)

    assert told(BIT, words) == (
        "where the curb is rolled: ask engineer",
        "otherwise: at most 4 in",
    )
    assert words[1].source == "Ford Code, section 1"
    assert words[0].source == "Town of Ford"


def test_a_case_that_counts_beside_the_others_is_not_told_as_the_rest() -> None:
    key = KEYS["say.conditions"]
    cases = ('when = { curb = "rolled" }\nsay = "a"\ncite = "code 1"', 'say = "b"\ncite = "code 1"')

    assert told(key, said(key, (sheet(edition(key.name, *cases)),), DAY))[1] == "b"


# ---- how old and how complete


@pytest.mark.parametrize(
    ("day", "age", "overdue"),
    [
        (date(2026, 3, 1), "not yet", False),
        (date(2026, 3, 2), "0 days", False),
        (date(2026, 3, 3), "1 day", False),
        (date(2026, 5, 1), "60 days", False),
        (date(2027, 3, 1), "12 months", False),
        (date(2027, 3, 2), "12 months", True),
    ],
)
def test_age_and_due_day_are_counted_by_the_day_given(
    day: date, age: str, *, overdue: bool
) -> None:
    found = sheet_state((sheet(""),), day)

    assert (found.age, found.overdue) == (age, overdue)


def test_every_key_is_counted_once() -> None:
    assert sum(sheet_state((sheet(""),), DAY).counts.values()) == len(KEYS)
    assert sheet_state((sheet(""),), DAY).counts[State.SILENT] == len(KEYS)


def test_every_family_of_keys_has_a_subject() -> None:
    assert {key.family for key in KEYS.values()} == set(SUBJECTS)
    assert sum(len(keys) for _, keys in by_subject()) == len(KEYS)


@pytest.mark.parametrize("place", [*list_places(), *sorted(p.stem for p in TOWNS.glob("*.toml"))])
def test_a_glance_counts_what_a_reading_counts(place: str) -> None:
    places = SheetPlaces(job=TOWNS)
    glances, layers = glance_layers(place, places), load_layers(place, places)

    for day in (date(2020, 1, 1), DAY, date(2027, 12, 31)):
        for key in KEYS.values():
            glanced = [glance.on(key.name, day) for glance in glances]
            assert state_in_layers(key, glanced) is state(key.name, *layers, day=day), key.name
    assert [one.place for one in glances] == [one.place for one in layers]
    assert (glances[0].checked, glances[0].due) == (layers[0].checked, layers[0].due)
    assert (glances[0].kind, glances[0].standing) == (layers[0].kind, layers[0].standing)


# ---- questions


def test_exactly_what_is_open_is_asked() -> None:
    town = sheet(
        """
        [rule]
        core.bit = { at_most = "4 in", cite = "code 1" }
        core.strip = { ask = "engineer", note = "at review" }
        core.height = { by_reference = "detail 4" }
        core.gap = { no_rule = true }
        """
    )
    found = {one.key.name: one for one in open_questions((town,), DAY)}

    assert set(found) == set(KEYS) - {"core.bit", "core.gap"}
    assert found["core.strip"].points == ("ask engineer (at review)",)
    assert found["core.height"].points == ("set by detail 4",)
    assert found["core.to_joint"].points == ()


def test_an_open_sum_is_asked_by_its_line() -> None:
    lines = (
        '[{ name = "permit", sum = 85 }, { name = "walk", ask = "clerk", note = "by area" }, '
        '{ name = "tree", by_reference = "resolution 12" }]'
    )
    town = sheet(f'[rule]\nfees.lines = {{ line = {lines}, cite = "code 1" }}\n')

    assert question("fees.lines", town).points == (
        "walk: ask clerk (by area)",
        "tree: set by resolution 12",
    )


def test_what_is_known_beside_an_open_point_is_confirmed() -> None:
    cases = ('when = { curb = "rolled" }\nask = "engineer"', 'at_most = "4 in"\ncite = "code 1"')
    found = question("core.bit", sheet(edition("core.bit", *cases)))

    assert found.points == ("where the curb is rolled: ask engineer",)
    assert found.known == ("otherwise: at most 4 in",)


def test_questions_stand_by_weight_what_a_job_needs_first() -> None:
    found = open_questions((sheet(""),), DAY, {"walk.joint_spacing": "joints"})
    ranks = [one.rank for one in found]

    assert ranks == sorted(ranks)
    assert (found[0].key.name, found[0].job_needs) == ("walk.joint_spacing", "joints")
    assert {one.key.blocking for one in found if one.rank == 1} == {True}
    assert {one.key.plain for one in found if one.rank == 3} == {True}


def test_a_plain_question_that_is_asked_outright_is_no_seldom_one() -> None:
    assert question("docs.copies", sheet("")).seldom
    assert not question("docs.copies", sheet("[rule]\ndocs.copies = { ask = 'a' }\n")).seldom
    assert not question("docs.copies", sheet(""), needed={"docs.copies": "two"}).seldom


def test_a_job_may_need_what_the_sheet_answers_for_others() -> None:
    text = edition("core.bit", 'when = { curb = "rolled" }\nat_most = "4 in"\ncite = "code 1"')
    found = question("core.bit", sheet(text), needed={"core.bit": "hole"})

    assert found.state is State.ANSWERED
    assert found.known == ("where the curb is rolled: at most 4 in",)


def test_nothing_but_a_name_is_not_known() -> None:
    (found,) = [
        one
        for one in open_questions((sheet('[rule]\ncore.bit = { ask = "engineer" }\n'),), DAY)
        if one.key is BIT
    ]

    assert found.points == ("ask engineer",)


# ---- changes


TWO = edition("core.bit", 'at_most = "4 in"\ncite = "code 1"') + edition(
    "core.bit", 'at_most = "3 in"\ncite = "code 1"', since="2026-01-01"
)


def test_a_change_tells_what_was_and_what_is() -> None:
    (found,) = changes((sheet(TWO),), date(2025, 12, 31), date(2026, 1, 1))

    assert (found.was, found.now, found.kept) == (("at most 4 in",), ("at most 3 in",), 0)
    assert found.how == "edition of 2026-01-01, in place of the edition before it"
    assert found.since == date(2026, 1, 1)


@pytest.mark.parametrize(
    ("first", "last"),
    [(date(2025, 1, 1), date(2025, 12, 31)), (date(2026, 1, 1), date(2030, 1, 1))],
)
def test_nothing_changed_within_an_edition(first: date, last: date) -> None:
    assert changes((sheet(TWO),), first, last) == ()


def test_a_rule_may_begin_end_and_begin_again() -> None:
    body = 'at_most = "4 in"\ncite = "code 1"'
    begin, again = (edition("core.bit", body, since=f"{year}-01-01") for year in (2026, 2028))
    town = sheet(begin + edition("core.bit", since="2027-01-01") + again)
    years = [date(year, 1, 1) for year in (2025, 2026, 2027, 2028)]

    begun, ended, back = (
        changes((town,), first, last)[0] for first, last in itertools.pairwise(years)
    )
    assert (begun.how, begun.was) == ("first said on 2026-01-01", ())
    assert (ended.how, ended.now) == ("ended on 2027-01-01; what the sheet follows stands", ())
    assert (back.how, back.now) == ("first said on 2028-01-01", ("at most 4 in",))


def test_money_changes_line_by_line() -> None:
    def fees(since: str, *lines: str) -> str:
        body = "".join(f"[[edition.case.line]]\n{line}\n" for line in lines)
        return edition("fees.lines", f'cite = "code 1"\n{body}', since=since)

    old = fees("", 'name = "permit"\nsum = 70', 'name = "tree"\nsum = 5')
    new = fees("2026-01-01", 'name = "permit"\nsum = 85', 'name = "tree"\nsum = 5')
    (found,) = changes((sheet(old + new),), date(2025, 1, 1), date(2026, 1, 1))

    assert (found.was, found.now, found.kept) == (("permit: $70.00",), ("permit: $85.00",), 1)


def test_money_under_a_condition_is_told_with_it() -> None:
    text = edition(
        "fees.lines",
        'when = { applicant = "owner" }\ncite = "code 1"\n'
        '[[edition.case.line]]\nname = "permit"\nsum = 70',
    )
    (word,) = said(KEYS["fees.lines"], (sheet(text),), DAY)

    assert word.statements == ("where the owner applies: permit: $70.00",)


def test_a_change_of_a_layer_is_told_with_its_sheet() -> None:
    (found,) = changes((sheet(""), layer(TWO)), date(2025, 1, 1), date(2026, 1, 1))

    assert found.sheet.title == "County of dale"


# ---- side by side


def test_what_differs_stands_first_and_what_nobody_says_is_left_out() -> None:
    one = sheet(
        '[rule]\ncore.bit = { at_most = "4 in", cite = "code 1" }\n'
        "core.strip = { ask = 'engineer' }\n"
    )
    other = layer('[rule]\ncore.bit = { at_most = "4 in", cite = "code 9" }\n')
    rows = side_by_side(((one,), (other,)), DAY)

    assert [(row.key.name, row.differs) for row in rows] == [
        ("core.strip", True),
        ("core.bit", False),
    ]
    assert rows[0].told[1] == ("nothing said",)


def test_one_height_in_two_units_is_the_same() -> None:
    one = sheet('[rule]\ncore.bit = { at_most = "4 in", cite = "code 1" }\n')
    other = layer('[rule]\ncore.bit = { at_most = "101.6 mm", cite = "code 1" }\n')

    (row,) = side_by_side(((one,), (other,)), DAY)
    assert not row.differs
    assert row.told == (("at most 4 in",), ("at most 101.6 mm",))
