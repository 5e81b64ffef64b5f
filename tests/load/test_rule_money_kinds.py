"""Each kind of fee that towns were found to have, held by a small sheet of its own."""

from __future__ import annotations

from decimal import Decimal

import pytest
from sheet_text import case, edition, sheet

from permitkit.model import money
from permitkit.model.rules import Threshold
from permitkit.model.values import Fees
from permitkit.units import Kind, Measure, read_measure


def length(text: str) -> Measure:
    return read_measure(text, Kind.LENGTH)


def area(text: str) -> Measure:
    return read_measure(text, Kind.AREA)


def line(text: str, key: str = "fees.lines") -> money.FeeLine:
    value = case(key, f"line = [{{ {text} }}]").value
    assert isinstance(value, Fees)
    (only,) = value.lines
    return only


HOLE = money.PerUnit(Decimal(40), "hole")
LINES = [
    ("sum = 85", money.Flat(Decimal(85))),
    ("sum = 85, to = 120", money.Flat(Decimal(85), Decimal(120))),
    ('rate = 40, per = "hole"', HOLE),
    (
        'rate = "1.75", per = "sq ft of walk", free = "20 sq ft"',
        money.PerUnit(Decimal("1.75"), "sq ft of walk", area("20 sq ft")),
    ),
    ('rate = "0.0125", per = "sq ft of walk"', money.PerUnit(Decimal("0.0125"), "sq ft of walk")),
    ('rate = 1, per = "sheet", free = 5', money.PerUnit(Decimal(1), "sheet", 5)),
    (
        'rate = 15, per = "sq yd of pavement", whole_units = true',
        money.PerUnit(Decimal(15), "sq yd of pavement", whole_units=True),
    ),
    (
        'rate = 2, per = "sq ft of pavement", pad_length = "4 ft", pad_width = "4 ft"',
        money.PerUnit(
            Decimal(2), "sq ft of pavement", pad_length=length("4 ft"), pad_width=length("4 ft")
        ),
    ),
    (
        'rate = 58, per = "hour of review", least_units = 2',
        money.PerUnit(Decimal(58), "hour of review", least_units=2),
    ),
    ('rate = 75, per = "inspection", count = 2', money.PerUnit(Decimal(75), "inspection", count=2)),
    (
        'per = "ft of trench", first = "5 ft", first_sum = 60, each = "5 ft", each_sum = 20',
        money.Stepped("ft of trench", length("5 ft"), Decimal(60), length("5 ft"), Decimal(20)),
    ),
    (
        (
            'per = "sq yd of pavement", tiers = [{ up_to = "50 sq yd", rate = 75 }, { rate = '
            '"17.25", plus = 3000 }]'
        ),
        money.Tiered(
            "sq yd of pavement",
            (
                money.Tier(area("50 sq yd"), Decimal(75), Decimal(0)),
                money.Tier(None, Decimal("17.25"), Decimal(3000)),
            ),
        ),
    ),
    (
        'per = "hole", whole = false, tiers = [{ up_to = 2, rate = 10 }, { rate = 5 }]',
        money.Tiered(
            "hole",
            (money.Tier(2, Decimal(10), Decimal(0)), money.Tier(None, Decimal(5), Decimal(0))),
            whole=False,
        ),
    ),
    ('percent = 5, of = "cost"', money.Share(Decimal(5), "cost")),
    (
        "greater_of = [{ sum = 500 }, { rate = 40, per = 'hole' }]",
        money.Greater((money.Flat(Decimal(500)), HOLE)),
    ),
    (
        "lesser_of = [{ sum = 500 }, { rate = 40, per = 'hole' }]",
        money.Lesser((money.Flat(Decimal(500)), HOLE)),
    ),
    (
        "sum_of = [{ sum = 500 }, { rate = 40, per = 'hole' }]",
        money.Sum((money.Flat(Decimal(500)), HOLE)),
    ),
    (
        'by = "surface", rows = { walk = { sum = 5 } }, otherwise = { ask = "engineer" }',
        money.Table("surface", {"walk": money.Flat(Decimal(5))}, money.Unknown("engineer")),
    ),
    (
        'by = "street", rows = { "Lorain Road" = { sum = 3000 } }',
        money.Table("street", {"Lorain Road": money.Flat(Decimal(3000))}),
    ),
    (
        'by = "begun", rows = { yes = { sum = 150 }, no = { sum = 50 } }',
        money.Table("begun", {"yes": money.Flat(Decimal(150)), "no": money.Flat(Decimal(50))}),
    ),
    (
        (
            'by = "pavement_rating", rows = { "up to 40" = { sum = 1 }, "over 40 up to 70" = { '
            'sum = 2 }, "over 70" = { sum = 3 } }'
        ),
        money.Table(
            "pavement_rating",
            {},
            None,
            (
                (Threshold(up_to=40), money.Flat(Decimal(1))),
                (Threshold(over=40, up_to=70), money.Flat(Decimal(2))),
                (Threshold(over=70), money.Flat(Decimal(3))),
            ),
        ),
    ),
    (
        'by = "trench", rows = { "under 200 ft" = { sum = 50 }, "from 200 ft" = { sum = 100 } }',
        money.Table(
            "trench",
            {},
            None,
            (
                (Threshold(under=length("200 ft")), money.Flat(Decimal(50))),
                (Threshold(at_least=length("200 ft")), money.Flat(Decimal(100))),
            ),
        ),
    ),
    ('ask = "engineer"', money.Unknown("engineer")),
    ('by_reference = "resolution 4"', money.Unknown("", "resolution 4")),
]


@pytest.mark.parametrize(("text", "term"), LINES)
def test_each_term_of_money_is_held(text: str, term: money.Term) -> None:
    assert line(f'name = "fee", {text}').term == term


def test_a_line_holds_its_bounds_its_condition_and_what_becomes_of_it() -> None:
    held = line(
        'name = "deposit", sum = 200, least = 50, most = 900, begun_times = 2.5, kept = 25, '
        'permit = "street", payee = "Town", refundable = true, returned_when = "after a year", '
        'true_up = true, cite = "code 9", note = "by cheque", when = { walk_area = { over = '
        '"20 sq ft" } }'
    )

    assert (held.least, held.most, held.begun_times) == (Decimal(50), Decimal(900), Decimal("2.5"))
    assert (held.kept, held.refundable, held.true_up) == (Decimal(25), True, True)
    assert (held.permit, held.payee, held.returned_when) == ("street", "Town", "after a year")
    assert (held.cite_text, held.note) == ("Ford Code, section 9", "by cheque")
    assert held.when is not None


def test_a_fee_may_change_its_amount_and_its_unit_with_the_edition() -> None:
    rule = sheet(
        edition(
            "fees.lines",
            "cite = 'code 1'\nline = [{ name = 'core', per = 'ft of curb', first = '30 ft', "
            "first_sum = 135, each = '30 ft', each_sum = 135 }]",
        )
        + edition(
            "fees.lines",
            "cite = 'code 2'\nline = [{ name = 'core', rate = '215.25', per = 'hole' }, "
            "{ name = 'permit', sum = '167.85' }]",
            since="2026-07-01",
        )
    ).rules["fees.lines"]

    assert [len(each.cases[0].value.lines) for each in rule.editions] == [1, 2]  # type: ignore[union-attr]
