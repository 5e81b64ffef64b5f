"""What a rule with conditions leaves out is told; what it covers to the last job is not."""

from __future__ import annotations

from datetime import date

import pytest
from sheet_text import HEAD, sheet

from permitkit.model.keys import KEYS
from permitkit.study.keeping.said import left_open, said
from permitkit.study.keeping.side_by_side import side_by_side

DAY = date(2026, 4, 6)


def rest(key: str, *whens: str, head: str = HEAD) -> str:
    """Return what is said of the jobs that none of some conditions fits."""
    cases = "".join(
        f"[[edition.case]]\n{f'when = {when}' if when else ''}\nno_rule = true\n" for when in whens
    )
    town = sheet(f"[[edition]]\nkey = '{key}'\n{cases}", head)
    return left_open(KEYS[key], said(KEYS[key], (town,), DAY))


@pytest.mark.parametrize(
    "whens",
    [
        ["{ soil = 'clay' }"],
        ["{ begun = true }"],
        ["{ walk_use = ['plain', 'ramp'] }"],
        ["{ begun = true }", "{ begun = false, dowels = true }"],
        ["{ lanes = { up_to = 2 } }", "{ lanes = { over = 3 } }"],
        ["{ walk_width = { under = '5 ft' } }", "{ walk_width = { over = '5 ft' } }"],
        ["{ season = '04-01 to 10-31' }"],
        ["{ built = { before = 2020-01-01 } }"],
    ],
)
def test_what_no_condition_fits_is_told(whens: list[str]) -> None:
    assert rest("walk.base", *whens) == "otherwise: not said, ask"


@pytest.mark.parametrize(
    "whens",
    [
        ["{ soil = 'clay' }", ""],
        ["{ begun = true }", "{ begun = false }"],
        ["{ walk_use = ['plain', 'ramp'] }", "{ walk_use = 'driveway' }"],
        ["[{ begun = true }, { dowels = true }]", "{ begun = false, dowels = false }"],
        ["{ lanes = { up_to = 2 } }", "{ lanes = { over = 2 } }"],
        ["{ walk_width = { under = '5 ft' } }", "{ walk_width = { at_least = '5 ft' } }"],
        ["{ season = '04-01 to 10-31' }", "{ season = '11-01 to 03-31' }"],
        ["{ built = { before = 2020-01-01 } }", "{ built = { from = 2020-01-01 } }"],
    ],
)
def test_conditions_that_leave_no_job_out_are_told_as_they_are(whens: list[str]) -> None:
    assert rest("walk.base", *whens) == ""


def test_more_facts_than_can_be_tried_are_told_as_open() -> None:
    facts = "street_class = 'local', curb = 'rolled', water = 'roof', outlet = 'core', soil = 'a'"

    whens = [f"{{ {facts}, building_use = 'house', walk_use = 'plain' }}"]
    assert rest("walk.base", *whens) == "otherwise: not said, ask"


def test_the_streets_of_others_that_are_listed_are_all_there_are() -> None:
    listed = HEAD.replace(
        "[source.code]", "[sheet.listed_streets]\n'Mill Road' = 'Tarn County'\n[source.code]"
    )

    whens = ["{ authority = 'town' }", "{ authority = 'Tarn County' }"]
    assert rest("walk.base", *whens) != ""
    assert rest("walk.base", *whens, head=listed) == ""
    assert rest("walk.base", whens[0], head=listed) != ""


def test_a_question_many_towns_never_answer_is_told_open_without_asking() -> None:
    assert rest("walk.width", "{ begun = true }") == "otherwise: not said"


def test_papers_of_a_condition_leave_nothing_open() -> None:
    assert rest("docs.required", "{ begun = true }") == ""


def test_towns_side_by_side_tell_what_is_left_open() -> None:
    half = sheet(
        "[[edition]]\nkey = 'walk.base'\n[[edition.case]]\nwhen = { begun = true }\nask = 'a'\n"
    )

    (row,) = side_by_side([[half], [half]], DAY)
    assert row.told[0] == (
        "where work began before the permit: ask a",
        "otherwise: not said, ask",
    )
