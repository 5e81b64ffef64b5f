"""Each kind of rule that towns were found to have, held by a small sheet of its own."""

from __future__ import annotations

from datetime import time
from decimal import Decimal

import pytest
from sheet_text import case, cases, edition, sheet

from permitkit.model.keys import KEYS
from permitkit.model.rules import Threshold, ValueKind
from permitkit.model.telling import value_text
from permitkit.model.values import (
    Ask,
    ByReference,
    Cover,
    DayHours,
    Hours,
    Insurance,
    Item,
    Items,
    Limit,
    NoRule,
    Order,
    RainRule,
    Season,
    Seasons,
    Sentences,
    Span,
    Stance,
    Words,
    YesNo,
)
from permitkit.units import Kind, Measure, read_measure


def length(text: str) -> Measure:
    return read_measure(text, Kind.LENGTH)


def area(text: str) -> Measure:
    return read_measure(text, Kind.AREA)


VALUES = [
    ("core.bit", 'at_most = "4 in"', Limit(None, length("4 in"))),
    (
        "emitter.to_house",
        'at_least = "5 ft", at_most = "10 ft"',
        Limit(length("5 ft"), length("10 ft"), "emitter", "building"),
    ),
    ("core.bit", 'exactly = "3 in"', Limit(length("3 in"), length("3 in"))),
    ("core.bit", 'sizes = ["4 in", "3 in"]', Limit(sizes=(length("3 in"), length("4 in")))),
    ("outlet.count", "at_least = 2", Limit(2, None)),
    (
        "core.height",
        'at_most = "18 in", of = "invert", from = "pavement"',
        Limit(None, length("18 in"), "invert", "pavement"),
    ),
    ("core.bars", "yes = false", YesNo(yes=False)),
    ("outlet.allowed", 'stance = "required"', Stance("required")),
    ("outlet.allowed", 'stance = "exempt"', Stance("exempt")),
    ("outlet.allowed", 'stance = "barred"', Stance("barred")),
    ("pipe.kind", 'one_of = ["Sch 40 PVC", "SDR 35"]', Words(("Sch 40 PVC", "SDR 35"))),
    ("pipe.kind", 'one_of = "Sch 40 PVC"', Words(("Sch 40 PVC",))),
    (
        "outlet.order",
        'order = ["storm sewer", "gutter", "back yard"]',
        Order(("storm sewer", "gutter", "back yard")),
    ),
    (
        "outlet.order",
        'order = ["core", "notch"], reason_needed = false',
        Order(("core", "notch"), reason_needed=False),
    ),
    ("say.conditions", 'say = "Keep the walk open."', Sentences(("Keep the walk open.",))),
    (
        "docs.details",
        'items = [{ name = "Drain", number = "M-7", revision = "C" }, "Walk"]',
        Items((Item("Drain", "M-7", "C"), Item("Walk"))),
    ),
    (
        "dates.inspections",
        'items = [{ name = "forms", notice = "48 hours", clock = "inspection" }]',
        Items((Item("forms", notice=Span(48, "hours", "inspection"), clock="inspection"),)),
    ),
    (
        "dates.inspections",
        'items = [{ name = "forms", clock = "concrete" }]',
        Items((Item("forms", clock="concrete"),)),
    ),
    (
        "dates.review",
        'span = "10 working days", clock = "filing"',
        Span(10, "working days", "filing"),
    ),
    (
        "dates.locate_wait",
        'span = "2 full working days", clock = "call"',
        Span(2, "working days", "call", full_days=True),
    ),
    ("dates.close_by", 'span = "1 day", clock = "opening"', Span(1, "days", "opening")),
    ("dates.guarantee", 'span = "no end"', Span(0, "years", endless=True)),
    ("dates.emergency", 'span = "72 hours", clock = "emergency"', Span(72, "hours", "emergency")),
    (
        "dates.concrete_season",
        'closed = "11-15 to 04-01", soft_end = true',
        Seasons((Season((11, 15), (4, 1), soft_end=True),)),
    ),
    (
        "water.sump_season",
        'open = "04-01 to 11-14"',
        Seasons((Season((4, 1), (11, 14), closed=False),)),
    ),
    (
        "traffic.hours",
        'hours = ["08:30-11:30", "13:30-15:30"], days = ["Mon-Wed", "Sat"]',
        Hours(
            (DayHours(((time(8, 30), time(11, 30)), (time(13, 30), time(15, 30))), (0, 1, 2, 5)),)
        ),
    ),
    (
        "water.rain",
        'rain = "4.0 in/hr", period = "25-year", duration = "15 min"',
        RainRule(read_measure("4 in/hr", Kind.INTENSITY), "25-year", "15 min"),
    ),
    (
        "docs.insurance",
        (
            'covers = [{ kind = "auto", each = 50_000, person = 25_000, aggregate = "$100,000", '
            'note = "a" }, { kind = "workers compensation", by_law = true }]'
        ),
        Insurance(
            (
                Cover("automobile", Decimal(50000), Decimal(100000), Decimal(25000), note="a"),
                Cover("workers compensation", by_law=True),
            )
        ),
    ),
    ("core.bit", 'ask = "director", note = "at review"', Ask("director", "at review")),
    ("fees.deposit", 'by_reference = "resolution 12"', ByReference("resolution 12")),
    ("pipe.cover", "no_rule = true", NoRule()),
]


@pytest.mark.parametrize(("key", "text", "value"), VALUES)
def test_a_value_of_each_kind_is_held(key: str, text: str, value: object) -> None:
    assert case(key, text).value == value


def test_every_kind_of_value_is_among_those_tried() -> None:
    assert {KEYS[key].kind for key, _, _ in VALUES} == set(ValueKind)


def test_strength_at_two_ages_is_two_pairs() -> None:
    rules = sheet(
        """
        [rule]
        walk.strength = { at_least = "3500 psi", cite = "code 1" }
        walk.strength_age = { span = "28 days", clock = "concrete", cite = "code 1" }
        walk.strength_early = { at_least = "2500 psi", cite = "code 1" }
        walk.strength_early_age = { span = "7 days", clock = "concrete", cite = "code 1" }
        """
    ).rules

    assert [value_text(rule.editions[0].cases[0].value) for rule in rules.values()] == [
        "at least 3,500 psi",
        "28 days, counted from the concrete",
        "at least 2,500 psi",
        "7 days, counted from the concrete",
    ]


def test_a_set_may_hang_on_the_distance_from_the_house() -> None:
    near, far = cases(
        "pipe.kind",
        edition(
            "pipe.kind",
            'when = { house_distance = { up_to = "10 ft" } }\none_of = "Sch 40 PVC"\ncite = '
            '"code 1"',
            'one_of = ["Sch 40 PVC", "SDR 35"]\ncite = "code 1"',
        ),
    )

    assert near.when is not None
    assert near.when.alternatives == ({"house_distance": Threshold(up_to=length("10 ft"))},)
    assert far.value == Words(("Sch 40 PVC", "SDR 35"))


def test_a_source_says_whether_it_was_seen_in_full_and_how_old_it_is() -> None:
    source = sheet(
        "[source.old]\ntitle = 'Old'\nread = 2026-01-01\ndated = '1996-02-20; am. 2000'\n"
        "note = 'cut off after section 5'"
    ).sources["old"]

    assert (source.dated, source.note) == ("1996-02-20; am. 2000", "cut off after section 5")
