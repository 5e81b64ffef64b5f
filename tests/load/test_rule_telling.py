"""Conditions, values and money in words."""

from __future__ import annotations

import pytest
from sheet_text import case, cases, edition

from permitkit.model.facts import FACTS, FactKind
from permitkit.model.keys import KEYS
from permitkit.model.telling import condition_text, term_text, value_text, when_text
from permitkit.model.telling.phrases import EITHER, WORDED
from permitkit.model.values import Fees, Limit, Silent, Words

TOLD = [
    ("core.bit", 'at_most = "4 in"', "at most 4 in"),
    ("outlet.count", "at_least = 2", "at least 2"),
    ("outlet.count", "at_least = 1, at_most = 2", "1 to 2"),
    ("core.bit", 'exactly = "3 in"', "exactly 3 in"),
    ("core.bit", 'sizes = ["3 in", "4 in"]', "3 in or 4 in"),
    (
        "core.height",
        'at_least = "1/2 in", at_most = "1 1/4 in", of = "invert", from = "flow line"',
        "1/2 in to 1 1/4 in, invert from flow line",
    ),
    ("core.bars", "yes = true", "yes"),
    ("core.bars", "yes = false", "no"),
    ("outlet.allowed", 'stance = "barred"', "barred"),
    ("pipe.kind", 'one_of = ["ABS", "PVC", "clay"]', "ABS, PVC or clay"),
    (
        "outlet.order",
        'order = ["core", "notch"]',
        "core, then notch; a reason is due for each passed over",
    ),
    ("outlet.order", 'order = ["core", "notch"], reason_needed = false', "core, then notch"),
    ("say.conditions", 'say = ["One.", "Two."]', "One. Two."),
    (
        "docs.details",
        'items = ["x", { name = "Walk", number = "M-7", revision = "C", note = "governs" }]',
        "x; Walk M-7 rev C (governs)",
    ),
    (
        "dates.inspections",
        'items = [{ name = "forms", notice = "1 working day", note = "by telephone" }]',
        "forms (1 working day notice, by telephone)",
    ),
    ("dates.review", 'span = "10 working days"', "10 working days"),
    ("dates.review", 'span = "1 full day", clock = "call"', "1 full day, counted from the call"),
    ("dates.guarantee", 'span = "no end"', "without end"),
    ("dates.concrete_season", 'closed = "11-15 to 03-31"', "closed Nov 15 to Mar 31"),
    (
        "dates.concrete_season",
        'open = "04-01 to 11-14", soft_end = true',
        "open Apr 1 to Nov 14 (the end may move)",
    ),
    (
        "traffic.hours",
        'hours = ["08:30-11:30", "13:30-15:30"], days = "Mon, Wed"',
        "08:30-11:30, 13:30-15:30 on Mon, Wed",
    ),
    (
        "water.rain",
        'rain = "4 in/hr", period = "25-year", duration = "15 min"',
        "4 in/hr (25-year, 15 min)",
    ),
    (
        "docs.insurance",
        (
            'covers = [{ kind = "auto", each = 5, person = 3, aggregate = 9 }, '
            '{ kind = "workers compensation", by_law = true, note = "by state law" }]'
        ),
        (
            "automobile $5.00 each, $9.00 in all, $3.00 each person; "
            "workers compensation as the law asks (by state law)"
        ),
    ),
    ("core.bit", 'ask = "director"', "ask director"),
    ("core.bit", 'ask = "director", note = "at review"', "ask director: at review"),
    ("core.bit", 'by_reference = "ord. 4"', "set by ord. 4"),
    ("core.bit", "no_rule = true", "no rule"),
]


@pytest.mark.parametrize(("key", "text", "words"), TOLD)
def test_a_value_is_told_in_words(key: str, text: str, words: str) -> None:
    assert value_text(case(key, text).value) == words


def test_what_is_empty_is_told_too() -> None:
    assert value_text(Silent()) == "nothing said"
    assert value_text(Limit()) == "no limit"
    assert value_text(Words(())) == "none"


CONDITIONS = [
    ("curb = ['rolled', 'sloping']", "the curb is rolled or sloping"),
    ("begun = true", "work began before the permit"),
    ("season = '11-15 to 03-31'", "the work lies within Nov 15 to Mar 31"),
    (
        "speed = { over = '25 mph', up_to = '40 mph' }",
        "the posted speed is over 25 mph and up to 40 mph",
    ),
    (
        "built = { from = 1963-01-15, before = 1984-07-01 }",
        (
            "the building or outlet was built or altered "
            "on or after 1963-01-15 and before 1984-07-01"
        ),
    ),
    ("cost = { under = 50 }", "the cost of the work is under $50.00"),
    (
        "curb = 'rolled', lanes = { over = 2 }",
        "the curb is rolled, and the number of lanes is over 2",
    ),
]


@pytest.mark.parametrize(("when", "words"), CONDITIONS)
def test_a_condition_is_told_in_words(when: str, words: str) -> None:
    (only,) = cases(
        "core.bars", edition("core.bars", f"when = {{ {when} }}\nyes = true\ncite = 'code 1'")
    )

    assert when_text(only.when) == words


def test_alternatives_are_told_one_after_another() -> None:
    both = "when = [{ curb = 'rolled' }, { begun = false }]\nyes = true\ncite = 'code 1'"
    (only,) = cases("core.bars", edition("core.bars", both))

    assert when_text(only.when) == ("the curb is rolled; or work did not begin before the permit")
    assert when_text(None) == "in every case"


TERMS = [
    ("sum = 85", "$85.00"),
    ("sum = 85, to = 120", "$85.00 to $120.00"),
    ("rate = '0.0125', per = 'sq ft of walk'", "$0.0125 per sq ft of walk"),
    (
        "rate = 1, per = 'sheet', free = 5, whole_units = true",
        "$1.00 per sheet or part of one, the first 5 sheets free",
    ),
    (
        "rate = 2, per = 'sq ft of walk', pad_length = '4 ft', pad_width = '2 ft'",
        "$2.00 per sq ft of walk, 4 ft added to the length, 2 ft added to the width",
    ),
    (
        "rate = 58, per = 'hour of review', least_units = 2",
        "$58.00 per hour of review, at least 2 hours of review",
    ),
    ("rate = 75, per = 'inspection', count = 2", "$75.00 per inspection, 2 of them"),
    (
        "per = 'ft of trench', first = '5 ft', first_sum = 60, each = '5 ft', each_sum = 20",
        "$60.00 for the first 5 ft (length of trench), then $20.00 per 5 ft or part of it",
    ),
    (
        "per = 'sheet', first = 1, first_sum = 6, each = 2, each_sum = 2",
        "$6.00 for the first 1 sheet, then $2.00 per 2 sheets or part of it",
    ),
    (
        (
            "per = 'sq yd of walk', tiers = [{ up_to = '50 sq yd', rate = 75 }, "
            "{ rate = 17, plus = 3000 }]"
        ),
        (
            "up to 50 sq yd $75.00 per sq yd of walk; "
            "above that $17.00 per sq yd of walk plus $3,000.00"
        ),
    ),
    (
        "per = 'hole', whole = false, tiers = [{ up_to = 2, plus = 0 }, { rate = 5 }]",
        "up to 2 holes $0.00; above that $5.00 per hole; each part at its own rate",
    ),
    ("percent = 5, of = 'cost'", "5 % of cost"),
    (
        "greater_of = [{ sum = 5 }, { percent = 5, of = 'cost' }]",
        "greater of $5.00 and 5 % of cost",
    ),
    ("lesser_of = [{ sum = 5 }, { sum = 6 }]", "lesser of $5.00 and $6.00"),
    ("sum_of = [{ sum = 5 }, { sum = 6 }]", "sum of $5.00 and $6.00"),
    (
        "by = 'surface', rows = { walk = { sum = 5 } }, otherwise = { ask = 'engineer' }",
        "by the surface above: walk $5.00, otherwise to be set by engineer",
    ),
    (
        "by = 'lanes', rows = { 'up to 2' = { sum = 5 } }",
        "by the number of lanes: up to 2 $5.00",
    ),
    ("by_reference = 'ord. 4'", "set by ord. 4"),
    ("by_reference = 'ord. 4', per = 'hole'", "set by ord. 4, per hole"),
    ("rate = 50, to = 750, per = 'day'", "$50.00 to $750.00 per day"),
    (
        "by = 'surface', once = 'greatest', rows = { walk = { sum = 5 } }, otherwise = { sum = 6 }",
        "by the surface above: walk $5.00, otherwise $6.00; of several the greatest alone",
    ),
]


@pytest.mark.parametrize(("text", "words"), TERMS)
def test_a_term_of_money_is_told_in_words(text: str, words: str) -> None:
    value = case("fees.lines", f"line = [{{ name = 'a', {text} }}]").value

    assert isinstance(value, Fees)
    assert term_text(value.lines[0].term) == words


def test_a_line_of_money_is_told_with_all_that_goes_with_it() -> None:
    text = (
        "name = 'deposit', sum = 200, least = 50, most = 900, begun_times = 2, kept = 25, "
        "refundable = true, true_up = true, payee = 'County', when = { begun = false }"
    )

    assert value_text(case("fees.deposit", f"line = [{{ {text} }}]").value) == (
        "deposit: $200.00, least $50.00, most $900.00, times 2 if work began first, refundable, "
        "$25.00 kept, set again by what was really cut, payable to County, "
        "where work did not begin before the permit"
    )


@pytest.mark.parametrize(
    ("key", "text", "told"),
    [
        ("dates.lead", 'span = "48 hours", clock = "start"', "48 hours before the start"),
        ("dates.lead", 'span = "2 working days"', "2 working days before the start"),
        ("dates.lead", 'span = "2 days", clock = "issue"', "2 days, counted from the issue"),
        ("dates.validity", 'span = "90 days", clock = "start"', "90 days, counted from the start"),
        ("pipe.slope", 'at_least = "1 in per 15 ft"', "at least 1 in per 15 ft"),
        ("pipe.slope", 'at_least = "1/8 in/ft"', "at least 1/8 in/ft"),
    ],
)
def test_a_value_is_told_by_the_question_it_answers(key: str, text: str, told: str) -> None:
    found = case(key, text)

    assert value_text(found.value, KEYS[key]) == told


def test_every_fact_that_is_so_or_not_is_told_as_a_sentence() -> None:
    either = {name for name, fact in FACTS.items() if fact.kind is FactKind.YES_NO}

    assert set(EITHER) <= either
    assert not any(": " in condition_text(name, ("yes",)) for name in EITHER)


def test_no_fact_is_told_with_two_words_of_asking_in_a_row() -> None:
    asking = ("where ", "how ", "what ", "which ", "who ", "whether ", "whose ")
    worded = [fact for fact in FACTS.values() if fact.kind in {FactKind.WORD, FactKind.NAME}]

    told = [condition_text(fact.name, fact.words or ("x",)) for fact in worded]
    assert [text for text in told if text.startswith(asking)] == []
    assert not any(set(words) - {*FACTS[name].words, "town"} for name, (_, words) in WORDED.items())
