from __future__ import annotations

import pytest
from sheet_text import FORD, RULE, fault, faults


def edition(key: str, body: str) -> str:
    return f'[[edition]]\nkey = "{key}"\n[[edition.case]]\n{body}\n'


SHORT = [
    ('core.bit = { at_most = "4 in" }', "rule core.bit", "no `cite`", ""),
    ('core.bit = { cite = "code 1" }', "rule core.bit", "no value", "or ask"),
    ('core.bit = { stance = "barred", cite = "code 1" }', "rule core.bit", "stance", "or ask"),
    (
        'core.bit = { at_most = "4 in", ask = "x", cite = "code 1" }',
        "rule core.bit",
        "at_most and ask",
        "its own case",
    ),
    ('core.bit = { at_most = "4 psi", cite = "code 1" }', "rule core.bit.at_most", "'4 psi'", ""),
    (
        'core.bit = { at_most = 4, cite = "code 1" }',
        "rule core.bit.at_most",
        "4",
        "write it in quotes",
    ),
    (
        'core.bit = { at_most = "4 in", at_leest = "3 in", cite = "code 1" }',
        "rule core.bit.at_leest",
        "a field 'at_leest'",
        "did you mean at_least",
    ),
    (
        'core.bit = { at_least = "5 in", at_most = "4 in", cite = "code 1" }',
        "rule core.bit.at_least",
        "a least of 5 in",
        "",
    ),
    ('core.bit = { sizes = ["3 in", "4"], cite = "code 1" }', "rule core.bit.sizes", "'4'", ""),
    (
        'core.bit = { at_most = "4 in", of = "invert", cite = "code 1" }',
        "rule core.bit.of",
        "a datum",
        "leave it out",
    ),
    (
        'core.height = { at_least = "1 in", from = "flow line", cite = "code 1" }',
        "rule core.height",
        "no `of`",
        "",
    ),
    (
        'core.height = { at_least = "1 in", of = "invert", cite = "code 1" }',
        "rule core.height",
        "no `from`",
        "",
    ),
    (
        'core.height = { at_least = "1 in", of = "inverts", from = "flow line", cite = "code 1" }',
        "rule core.height.of",
        "'inverts'",
        "did you mean invert?",
    ),
    ('outlet.count = { at_most = "2", cite = "code 1" }', "rule outlet.count.at_most", "'2'", ""),
    ('outlet.count = { at_most = true, cite = "code 1" }', "rule outlet.count.at_most", "true", ""),
    ('outlet.count = { sizes = [1, 2], cite = "code 1" }', "rule outlet.count.sizes", "sizes", ""),
    (
        'access.cross_slope = { at_least = "2 %", cite = "code 1" }',
        "rule access.cross_slope.at_least",
        "only at_least",
        "",
    ),
    ('core.bars = { yes = "yes", cite = "code 1" }', "rule core.bars.yes", "'yes'", ""),
    (
        'outlet.allowed = { stance = "forbidden", cite = "code 1" }',
        "rule outlet.allowed.stance",
        "'forbidden'",
        "",
    ),
    ('outlet.allowed = { stance = 3, cite = "code 1" }', "rule outlet.allowed.stance", "3", ""),
    (
        'core.curbs = { one_of = ["vertical", "half-ruond"], cite = "code 1" }',
        "rule core.curbs.one_of",
        "'half-ruond'",
        "did you mean half-round?",
    ),
    ('core.curbs = { one_of = [], cite = "code 1" }', "rule core.curbs.one_of", "a list of 0", ""),
    (
        'outlet.order = { order = ["core", "core"], cite = "code 1" }',
        "rule outlet.order.order",
        "a list of 2",
        "",
    ),
    (
        'say.conditions = { say = [1], cite = "code 1" }',
        "rule say.conditions.say",
        "a list of 1",
        "",
    ),
    ('docs.required = { items = [1], cite = "code 1" }', "rule docs.required.items", "1", ""),
    (
        'docs.required = { items = [{ number = "M-7" }], cite = "code 1" }',
        "rule docs.required.items[1].name",
        "nothing",
        "",
    ),
    (
        'docs.required = { items = [{ name = "x", rev = "C" }], cite = "code 1" }',
        "rule docs.required.items[1].rev",
        "a field 'rev'",
        "",
    ),
    (
        'docs.required = { items = [{ name = "x", notice = "soon" }], cite = "code 1" }',
        "rule docs.required.items[1].notice",
        "'soon'",
        "",
    ),
    (
        'dates.review = { span = "10 fortnights", cite = "code 1" }',
        "rule dates.review.span",
        "'10 fortnights'",
        "write it as",
    ),
    (
        'dates.review = { span = "96 business hours", cite = "code 1" }',
        "rule dates.review.span",
        "'96 business hours'",
        "such as 2 working days for 48 such hours",
    ),
    (
        'dates.review = { span = "10 days", clock = "filling", cite = "code 1" }',
        "rule dates.review.clock",
        "'filling'",
        "did you mean filing?",
    ),
    (
        'dates.concrete_season = { closed = "11-31 to 03-31", cite = "code 1" }',
        "rule dates.concrete_season.closed",
        "'11-31 to 03-31'",
        "",
    ),
    (
        'dates.concrete_season = { closed = "winter", cite = "code 1" }',
        "rule dates.concrete_season.closed",
        "'winter'",
        "",
    ),
    (
        'traffic.hours = { hours = ["7-19"], cite = "code 1" }',
        "rule traffic.hours.hours",
        "'7-19'",
        "",
    ),
    (
        'traffic.hours = { hours = ["19:00-07:00"], cite = "code 1" }',
        "rule traffic.hours.hours",
        "'19:00-07:00'",
        "",
    ),
    (
        'traffic.hours = { hours = ["07:00-25:00"], cite = "code 1" }',
        "rule traffic.hours.hours",
        "'07:00-25:00'",
        "",
    ),
    (
        'traffic.hours = { hours = ["07:00-19:00"], days = "weekdays", cite = "code 1" }',
        "rule traffic.hours.days",
        "'weekdays'",
        "",
    ),
    (
        'traffic.hours = { hours = ["07:00-19:00"], days = "Fri-Mon", cite = "code 1" }',
        "rule traffic.hours.days",
        "'Fri-Mon'",
        "",
    ),
    (
        'water.rain = { rain = "4 in/hr", duration = "15 min", cite = "code 1" }',
        "rule water.rain.period",
        "nothing",
        "",
    ),
    (
        'water.rain = { rain = "4 in/hr", period = "25-year", cite = "code 1" }',
        "rule water.rain.duration",
        "nothing",
        "",
    ),
    (
        'water.rain = { rain = "4 in", period = "a", duration = "b", cite = "code 1" }',
        "rule water.rain.rain",
        "'4 in'",
        "",
    ),
    (
        'docs.insurance = { covers = [{ kind = "auto" }], cite = "code 1" }',
        "rule docs.insurance.covers[1]",
        "no limit",
        "",
    ),
    (
        'docs.insurance = { covers = [{ each = 1 }], cite = "code 1" }',
        "rule docs.insurance.covers[1].kind",
        "nothing",
        "",
    ),
    (
        'docs.insurance = { covers = [{ kind = "auto", each = "much" }], cite = "code 1" }',
        "rule docs.insurance.covers[1].each",
        "'much'",
        "",
    ),
    ('docs.insurance = { covers = 1, cite = "code 1" }', "rule docs.insurance.covers", "1", ""),
    ("core.bit = { ask = true }", "rule core.bit.ask", "true", ""),
    ("core.bit = { no_rule = false }", "rule core.bit.no_rule", "false", "leave it out"),
    ('core.bit = { by_reference = "" }', "rule core.bit.by_reference", "''", ""),
    (
        'core.bit = { at_most = "4 in", cite = "cod 4" }',
        "rule core.bit.cite",
        "'cod'",
        "did you mean code?",
    ),
    ('core.bit = { at_most = "4 in", cite = 4 }', "rule core.bit.cite", "4", ""),
    (
        'core.bit = { at_most = "4 in", cite = { section = "4" } }',
        "rule core.bit.cite.source",
        "nothing",
        "",
    ),
    (
        'core.bit = { at_most = "4 in", cite = "code 4", waivable_by = 3 }',
        "rule core.bit.waivable_by",
        "3",
        "",
    ),
    (
        'core.bit = { at_most = "4 in", cite = "code 4", waivable_by = [{ needs = "x" }] }',
        "rule core.bit.waivable_by[1]",
        "nobody",
        "",
    ),
    (
        'core.bit = { at_most = "4 in", cite = "code 4", note = ["a"] }',
        "rule core.bit.note",
        "a list of 1",
        "",
    ),
]


@pytest.mark.parametrize(("text", "where", "found", "fix"), SHORT)
def test_a_wrong_value_is_told(text: str, where: str, found: str, fix: str) -> None:
    told = faults(RULE + text)

    assert f"{FORD}: {where}" in [each.where for each in told]
    each = next(one for one in told if one.where == f"{FORD}: {where}")
    assert found in each.found
    assert fix in each.fix


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("dates.review = { span = 3, cite = 'code 1' }", "dates.review.span"),
        ("dates.concrete_season = { closed = 3, cite = 'code 1' }", "dates.concrete_season.closed"),
        ("traffic.hours = { hours = 3, cite = 'code 1' }", "traffic.hours.hours"),
        (
            "traffic.hours = { hours = '07:00-19:00', days = 3, cite = 'code 1' }",
            "traffic.hours.days",
        ),
        ("core.bit = { sizes = 3, cite = 'code 1' }", "core.bit.sizes"),
        ("say.conditions = { say = [], cite = 'code 1' }", "say.conditions.say"),
        ("docs.required = { items = [], cite = 'code 1' }", "docs.required.items"),
    ],
)
def test_a_value_that_is_no_text_is_told_once(text: str, where: str) -> None:
    assert fault(RULE + text).where == f"{FORD}: rule {where}"


CONDITIONS = [
    ('when = { crub = "rolled" }', "when.crub", "a fact 'crub'", "did you mean curb?"),
    ('when = { curb = "roled" }', "when.curb", "'roled'", "did you mean rolled?"),
    ("when = { curb = 3 }", "when.curb", "3", ""),
    ("when = {}", "when", "an empty condition", ""),
    ("when = [{}]", "when[1]", "an empty condition", ""),
    ("when = 3", "when", "3", ""),
    ('when = { begun = "yes" }', "when.begun", "'yes'", ""),
    ("when = { begun = [] }", "when.begun", "a list of 0", ""),
    ('when = { season = "always" }', "when.season", "'always'", ""),
    ('when = { speed = "25 mph" }', "when.speed", "'25 mph'", ""),
    ("when = { speed = {} }", "when.speed", "an empty table", ""),
    ('when = { speed = { over = "25 ft" } }', "when.speed.over", "'25 ft'", ""),
    ('when = { speed = { above = "25 mph" } }', "when.speed.above", "a field 'above'", ""),
    (
        'when = { speed = { over = "30 mph", up_to = "25 mph" } }',
        "when.speed",
        "ends that leave",
        "",
    ),
    (
        'when = { speed = { over = "30 mph", up_to = "30 mph" } }',
        "when.speed",
        "ends that leave",
        "",
    ),
    ("when = { lanes = { over = 2.5 } }", "when.lanes.over", "2.5", ""),
    ('when = { built = { before = "1990" } }', "when.built.before", "'1990'", ""),
    ("when = { built = { over = 1990-01-01 } }", "when.built.over", "a field 'over'", ""),
    ("when = { cost = { under = -5 } }", "when.cost.under", "'-5'", ""),
    ('when = { soil = "" }', "when.soil", "''", ""),
    (
        'when = { walk_area = { over = "20 sq ft" } }',
        "when.walk_area",
        "walk_area, which is computed",
        "leave this fact out",
    ),
]


@pytest.mark.parametrize(("when", "where", "found", "fix"), CONDITIONS)
def test_a_wrong_condition_is_told(when: str, where: str, found: str, fix: str) -> None:
    told = faults(edition("core.bit", f'{when}\nat_most = "4 in"\ncite = "code 4"'))

    places = {
        each.where.removeprefix(f"{FORD}: edition 1, core.bit: case 1."): each for each in told
    }
    assert where in places
    assert found in places[where].found
    assert fix in places[where].fix


def test_a_size_fact_goes_with_a_key_that_may_ask_for_sizes() -> None:
    body = 'when = { walk_area = { over = "20 sq ft" } }\nyes = true\ncite = "code 1"'

    assert faults(edition("core.bars", body))
    with pytest.raises(AssertionError):
        fault(edition("core.bars", "yes = true\ncite = 'code 1'\nwhen = { area = {}, curb = 1 }"))


def test_a_word_beside_a_value_of_another_kind_is_no_fault_of_its_own() -> None:
    told = fault(
        RULE + 'dates.apply_ahead = { at_least = "5 days", clock = "filing", cite = "code 1" }'
    )

    assert (told.where, told.found) == (f"{FORD}: rule dates.apply_ahead", "at_least")


def test_a_word_beside_an_honest_answer_is_told_as_out_of_place() -> None:
    told = fault(RULE + 'dates.review = { ask = "clerk", clock = "filing" }')

    assert told.found == "a field 'clock', which does not go with the rest"
    assert "clock" not in told.expected
    assert told.fix == ""


def test_the_fields_of_an_item_are_all_listed() -> None:
    told = fault(
        RULE
        + 'dates.inspections = { items = [{ name = "final", notise = "1 day" }], cite = "code 1" }'
    )

    assert (
        told.expected
        == "one of after, clock, cutoff, earliest, name, note, notice, number, only_if, revision"
    )
    assert told.fix == "did you mean notice or note?"


def test_a_short_word_is_not_taken_for_one_that_only_sounds_like_it() -> None:
    told = fault(
        RULE + 'pipe.cover = { at_least = "9 in", when = { applicant = "town" }, cite = "code 1" }'
    )

    assert told.fix == ""
