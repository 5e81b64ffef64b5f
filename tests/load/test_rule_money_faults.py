from __future__ import annotations

import pytest
from sheet_text import FORD, RULE, fault, faults

MONEY = [
    ('name = "a"', "line[1]", "no sum", ""),
    ("sum = 5", "line[1].name", "nothing", ""),
    ('name = "a", sum = 5, rate = 1', "line[1]", "sum and rate", ""),
    ('name = "a", sum = "five"', "line[1].sum", "'five'", ""),
    ('name = "a", sum = 1.005', "line[1].sum", "'1.005'", ""),
    ('name = "a", sum = 5, to = 4', "line[1].to", "4", ""),
    ('name = "a", rate = 5, to = 4, per = "hole"', "line[1].to", "4", ""),
    ('name = "a", ask = "clerk", per = "walk"', "line[1].per", "'walk'", "say of what: "),
    ('name = "a", rate = 5, per = "walk"', "line[1].per", "'walk'", "say of what: "),
    (
        'name = "a", rate = 5, per = "sq ft of wlk"',
        "line[1].per",
        "'sq ft of wlk'",
        "did you mean sq ft of walk",
    ),
    ('name = "a", rate = "x", per = "hole"', "line[1].rate", "'x'", ""),
    ('name = "a", rate = true, per = "hole"', "line[1].rate", "'True'", ""),
    ('name = "a", rate = 5', "line[1].per", "nothing", ""),
    ('name = "a", rate = 5, per = "hole", free = "5 ft"', "line[1].free", "'5 ft'", ""),
    (
        'name = "a", rate = 5, per = "hole", pad_length = "4 ft"',
        "line[1].pad_length",
        "padded sides",
        "",
    ),
    (
        'name = "a", rate = 5, per = "sq ft of walk", pad_length = "4 sq ft"',
        "line[1].pad_length",
        "'4 sq ft'",
        "",
    ),
    (
        'name = "a", per = "ft of trench", first_sum = 60',
        "line[1]",
        "no first and no each and no each_sum",
        "",
    ),
    (
        (
            'name = "a", per = "ft of trench", first = "5 ft", first_sum = 60, each = "0 ft", '
            "each_sum = 20"
        ),
        "line[1].each",
        "a step of nothing",
        "",
    ),
    ('name = "a", per = "hole", tiers = []', "line[1].tiers", "0 tiers", ""),
    ('name = "a", per = "hole", tiers = [{ up_to = 5, rate = 1 }]', "line[1].tiers", "1 tiers", ""),
    (
        (
            'name = "a", per = "hole", tiers = [{ up_to = 5, rate = 1 }, { up_to = 4, rate = 1 }, '
            "{ rate = 1 }]"
        ),
        "line[1].tiers",
        "ends out of order",
        "",
    ),
    (
        'name = "a", per = "hole", tiers = [{ up_to = 5 }, { rate = 1 }]',
        "line[1].tiers[1]",
        "neither rate nor plus",
        "",
    ),
    ('name = "a", percent = "5", of = "cost"', "line[1].percent", "'5'", ""),
    ('name = "a", percent = 5', "line[1].of", "nothing", ""),
    ('name = "a", greater_of = []', "line[1].greater_of", "no terms", ""),
    ('name = "a", greater_of = [{ summ = 5 }]', "line[1].greater_of[1]", "no sum", ""),
    ('name = "a", by = "surfaces", rows = {}', "line[1].by", "'surfaces'", "did you mean surface"),
    ('name = "a", by = "surface"', "line[1].rows", "nothing", ""),
    (
        'name = "a", by = "surface", rows = { walks = { sum = 5 } }',
        "line[1].rows",
        "'walks'",
        "did you mean walk",
    ),
    ('name = "a", by = "surface", rows = { walk = 5 }', "line[1].rows.walk", "5", ""),
    ('name = "a", by = "lanes", rows = { two = { sum = 5 } }', "line[1].rows", "'two'", ""),
    (
        'name = "a", by = "trench", rows = { "up to 5 psi" = { sum = 5 } }',
        "line[1].rows 'up to 5 psi'.trench.up_to",
        "'5 psi'",
        "",
    ),
    ('name = "a", ask = 3', "line[1].ask", "3", ""),
    ('name = "a", sum = 5, least = 9, most = 8', "line[1].least", "a least of 9", ""),
    ('name = "a", sum = 5, begun_times = "2"', "line[1].begun_times", "'2'", ""),
    ('name = "a", sum = 5, cite = "cod 1"', "line[1].cite", "'cod'", "did you mean code"),
    (
        'name = "a", sum = 5, when = { curbs = "x" }',
        "line[1].when.curbs",
        "a fact 'curbs'",
        "did you mean curb",
    ),
    (
        'name = "a", sum = 5, refundible = true',
        "line[1].refundible",
        "a field 'refundible'",
        "did you mean refundable",
    ),
    ('name = "cost", sum = 5', "line[1].name", "'cost'", ""),
]


@pytest.mark.parametrize(("line", "where", "found", "fix"), MONEY)
def test_a_wrong_line_of_money_is_told(line: str, where: str, found: str, fix: str) -> None:
    told = faults(f"{RULE}fees.lines = {{ line = [{{ {line} }}], cite = 'code 1' }}")

    places = {each.where.removeprefix(f"{FORD}: rule fees.lines."): each for each in told}
    assert where in places, list(places)
    assert found in places[where].found
    assert fix in places[where].fix


def test_two_lines_of_one_name_need_conditions() -> None:
    lines = '{ name = "a", sum = 1 }, { name = "a", sum = 2 }'

    assert fault(f"{RULE}fees.lines = {{ line = [{lines}], cite = 'code 1' }}").found == "'a'"


@pytest.mark.parametrize(
    ("line", "where", "found", "fix"),
    [
        (
            'name = "a", sum = 5, per = "hole"',
            "line[1].per",
            "a field 'per', which does not go with the rest",
            "",
        ),
        ('name = "a", sum = 5, permt = "x"', "line[1].permt", "a field 'permt'", "mean permit"),
        (
            'name = "a", rate = 5, per = "inspeciton"',
            "line[1].per",
            "'inspeciton'",
            "mean inspection",
        ),
    ],
)
def test_a_field_that_is_refused_is_not_offered(
    line: str, where: str, found: str, fix: str
) -> None:
    told = fault(RULE + f'fees.lines = {{ line = [{{ {line} }}], cite = "code 1" }}')

    assert told.where.endswith(where)
    assert told.found == found
    assert fix in told.fix
    assert bool(fix) == bool(told.fix)
    assert where.rpartition(".")[2] not in told.expected.removeprefix("one of ").split(", ")
