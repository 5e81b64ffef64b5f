from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from town import edition, rules, sheet

from permitkit.study.fees import work_out
from permitkit.units import Kind, Measure, from_si, measure, read_measure, write_money

if TYPE_CHECKING:
    from permitkit.study.results import FeeRow, FeesStudy

LINES = tomllib.loads(Path(__file__).with_name("fee_lines.toml").read_text(encoding="utf-8"))
PLAIN_KINDS = {"sq ft": Kind.AREA, "sq yd": Kind.AREA, "ft": Kind.LENGTH, "cu yd": Kind.VOLUME}


def quantity(text: str | int) -> Measure | int:
    """Return a count, or a measured quantity by its unit."""
    if isinstance(text, int):
        return text
    unit = text.partition(" ")[2]
    return read_measure(text, PLAIN_KINDS[unit])


def fees(
    lines: str,
    quantities: dict[str, str | int] | None = None,
    sizes: dict[str, str | int] | None = None,
    key: str = "fees.lines",
    **tables: Any,  # noqa: ANN401 - as a file holds
) -> FeesStudy:
    """Return what these lines come to for the small job."""
    town = sheet(edition(key, f"line = [{lines}]\ncite = 'code 1'"))
    sized = rules(town, **tables).with_sizes({n: quantity(v) for n, v in (sizes or {}).items()})
    return work_out(sized, {name: quantity(v) for name, v in (quantities or {}).items()})


def row(line: str, *args: Any, **kwargs: Any) -> FeeRow:  # noqa: ANN401 - as `fees`
    (only,) = fees(f"{{ name = 'a', {line} }}", *args, **kwargs).fees.rows
    return only


WORKED = [
    (row["written"], row.get("measured", {}), row["arithmetic"], row["amount"])
    for row in LINES["line"]
]


@pytest.mark.parametrize(("line", "quantities", "arithmetic", "amount"), WORKED)
def test_each_line_comes_to_its_sum_and_says_how(
    line: str, quantities: dict[str, str | int], arithmetic: str, amount: str
) -> None:
    found = row(line, quantities, cut={"cost": 4000})

    assert found.arithmetic == arithmetic
    assert str(found.amount) == amount
    assert found.amount_to is None
    assert found.source == "Ford Code, section 1"


BEGUN = {"begun": True, "cost": 4000}


@pytest.mark.parametrize(
    ("line", "arithmetic", "amount"),
    [
        ("sum = 30, begun_times = 2", "2 x ($30.00), since work began first = $60.00", "60.00"),
        (
            "sum = 30, least = 50, begun_times = 3",
            "3 x ($30.00, least $50.00), since work began first = $150.00",
            "150.00",
        ),
        (
            "by = 'begun', rows = { yes = { sum = 150 }, no = { sum = 50 } }",
            "work began before the permit: $150.00",
            "150.00",
        ),
    ],
)
def test_work_begun_first_costs_more(line: str, arithmetic: str, amount: str) -> None:
    found = row(line, cut=BEGUN)

    assert (found.arithmetic, str(found.amount)) == (arithmetic, amount)


RANGES = [
    ("sum = 85, to = 120", "$85.00 to $120.00", "85.00", "120.00"),
    ("sum = 85, to = 120, least = 100", "$85.00 to $120.00, least $100.00", "100.00", "120.00"),
    ("sum = 85, to = 120, most = 100", "$85.00 to $120.00, most $100.00", "85.00", "100.00"),
    ("sum = 85, to = 120, most = 80", "$85.00 to $120.00, most $80.00", "80.00", "80.00"),
    (
        "sum_of = [{ sum = 5 }, { sum = 85, to = 120 }]",
        "$5.00 + $85.00 to $120.00 = $90.00",
        "90.00",
        "125.00",
    ),
    (
        "greater_of = [{ sum = 100 }, { sum = 85, to = 120 }]",
        "greater of $100.00 and $85.00 to $120.00: $100.00",
        "100.00",
        "120.00",
    ),
]


@pytest.mark.parametrize(("line", "arithmetic", "low", "high"), RANGES)
def test_a_range_is_kept_as_one(line: str, arithmetic: str, low: str, high: str) -> None:
    found = row(line)

    assert found.arithmetic == arithmetic
    assert (str(found.amount), str(found.amount_to)) == (low, high)


BOUNDS = [
    ("least = 75", "$75.00 or more", "at least $75.00"),
    ("most = 500", "up to $500.00", "at most $500.00"),
    ("least = 100, most = 300", "$100.00 to $300.00", "$100.00 to $300.00"),
    ("sum = 100, to = 300", "$100.00 to $300.00", "$100.00 to $300.00"),
    ("ask = 'clerk', least = 75", "$75.00 or more", "at least $75.00"),
    ("rate = 40, per = 'hour of review', least = 80", "$80.00 or more", "at least $80.00"),
    ("by_reference = 'list', most = 90", "up to $90.00", "at most $90.00"),
    ("sum = 500, cap = true", "up to $500.00", "at most $500.00"),
    ("ask = 'clerk'", "", "to be set"),
    ("sum = 85", "$85.00", "$85.00"),
]


@pytest.mark.parametrize(("line", "shown", "together"), BOUNDS)
def test_what_is_known_of_a_sum_is_shown(line: str, shown: str, together: str) -> None:
    due = fees(f"{{ name = 'a', {line} }}").fees

    assert due.rows[0].shown == shown
    assert due.shown == together
    assert (due.open == ()) is (line == "sum = 85")


TOGETHER = [
    ("least = 75", "$95.00", None, "at least $95.00"),
    ("most = 500", "$20.00", "$520.00", "$20.00 to $520.00"),
    ("sum = 100, to = 300", "$120.00", "$320.00", "$120.00 to $320.00"),
    ("ask = 'clerk'", "$20.00", None, "$20.00 and what is to be set"),
]


@pytest.mark.parametrize(("line", "low", "high", "shown"), TOGETHER)
def test_a_total_is_as_wide_as_its_lines(line: str, low: str, high: str | None, shown: str) -> None:
    due = fees(f"{{ name = 'a', {line} }}, {{ name = 'b', sum = 20 }}").fees

    assert write_money(due.total) == low
    assert (None if due.most is None else write_money(due.most)) == high
    assert due.shown == shown


OPEN_TERMS = [
    ("percent = 10, of = 'a'", "least = 75", "$7.50 or more"),
    ("percent = 10, of = 'fees'", "sum = 100, to = 300", "$10.00 to $30.00"),
    ("percent = 10, of = 'a', most = 20", "least = 75", "$7.50 to $20.00"),
    ("greater_of = [{ sum = 5 }, { percent = 10, of = 'a' }]", "least = 75", "$7.50 or more"),
    ("lesser_of = [{ sum = 50 }, { percent = 10, of = 'a' }]", "least = 75", "$7.50 to $50.00"),
    ("sum_of = [{ sum = 50 }, { percent = 10, of = 'a' }]", "least = 75", "$57.50 or more"),
]


@pytest.mark.parametrize(("line", "first", "shown"), OPEN_TERMS)
def test_a_share_of_what_may_be_more_may_be_more(line: str, first: str, shown: str) -> None:
    rows = fees(f"{{ name = 'a', {first} }}, {{ name = 'b', {line} }}").fees.rows

    assert rows[1].shown == shown


def test_a_least_that_work_begun_first_doubles_may_still_be_more() -> None:
    found = row("least = 75, begun_times = 2", cut=BEGUN)

    assert found.shown == "$150.00 or more"


def test_a_range_is_multiplied_at_both_ends() -> None:
    found = row("sum = 85, to = 120, begun_times = 2", cut=BEGUN)

    assert (str(found.amount), str(found.amount_to)) == ("170.00", "240.00")


OPEN = [(row["written"], row["why"]) for row in LINES["open"]]


@pytest.mark.parametrize(("line", "note"), OPEN)
def test_a_sum_that_cannot_be_known_is_left_open_and_says_why(line: str, note: str) -> None:
    study = fees(f"{{ name = 'a', {line} }}, {{ name = 'b', sum = 10 }}")
    found = study.fees.rows[0]

    assert (found.amount, found.arithmetic) == (None, f"to be set: {note}")
    assert (study.fees.open, study.fees.known) == (("a",), False)
    assert study.fees.total == Decimal("10.00")


FLOORS = [(row["written"], row["arithmetic"], row["shown"]) for row in LINES["floor"]]


@pytest.mark.parametrize(("line", "arithmetic", "shown"), FLOORS)
def test_what_is_known_of_a_sum_that_cannot_be_counted_is_kept(
    line: str, arithmetic: str, shown: str
) -> None:
    found = row(line)

    assert (found.arithmetic, found.shown) == (arithmetic, shown)
    assert not found.settled


def test_a_line_whose_condition_does_not_fit_is_left_out() -> None:
    study = fees(
        "{ name = 'a', sum = 5, when = { curb = 'rolled' } },"
        "{ name = 'a', sum = 7, when = { curb = 'vertical' } }"
    )

    assert [(each.name, each.amount) for each in study.fees.rows] == [("a", Decimal("7.00"))]


def test_sizes_the_study_knows_are_used_as_they_are() -> None:
    sizes: dict[str, str | int] = {
        "walk_area": "25 sq ft",
        "holes": 2,
        "trench": "10 ft",
        "days": 3,
    }
    study = fees(
        "{ name = 'walk', rate = 1, per = 'sq ft of walk' },"
        "{ name = 'holes', rate = 2, per = 'hole' },"
        "{ name = 'trench', rate = 3, per = 'yd of trench' },"
        "{ name = 'days', rate = 4, per = 'day' }",
        sizes=sizes,
    )

    assert [str(each.amount) for each in study.fees.rows] == ["25.00", "4.00", "10.00", "12.00"]


def test_a_computed_ten_feet_is_no_more_than_ten() -> None:
    noisy = from_si(0.3048 * 10 * (1 + 3e-16), Kind.LENGTH, "ft")
    stepped = "per = 'ft of trench', first = '5 ft', first_sum = 60, each = '5 ft', each_sum = 20"
    town = sheet(edition("fees.lines", f"line = [{{ name = 'a', {stepped} }}]\ncite = 'code 1'"))
    tenth = measure(1, "in", Kind.LENGTH)

    ten = work_out(rules(town).with_sizes({"trench": noisy}), {})
    more = work_out(rules(town).with_sizes({"trench": noisy + tenth}), {})

    assert (ten.fees.total, more.fees.total) == (Decimal("80.00"), Decimal("100.00"))


def test_half_a_cent_goes_up_on_each_line() -> None:
    study = fees(
        "{ name = 'a', rate = '0.005', per = 'permit' }, { name = 'b', rate = '0.005', per = "
        "'permit' }"
    )

    assert [str(each.amount) for each in study.fees.rows] == ["0.01", "0.01"]
    assert study.fees.total == Decimal("0.02")


def test_a_line_may_be_a_share_of_the_lines_before_it_or_of_one() -> None:
    study = fees(
        "{ name = 'permit', sum = 100 }, { name = 'holes', sum = 40 },"
        "{ name = 'half', percent = 50, of = 'permit' },"
        "{ name = 'tenth', percent = 10, of = 'fees' }"
    )

    assert [str(each.amount) for each in study.fees.rows] == ["100.00", "40.00", "50.00", "19.00"]


def test_a_deposit_may_be_a_share_of_the_fees() -> None:
    text = edition(
        "fees.lines",
        "line = [{ name = 'permit', sum = 100 }, { name = 'holes', sum = 50 }]\ncite = 'code 1'",
    ) + edition(
        "fees.deposit",
        "line = [{ name = 'small', sum = 10 }, { name = 'deposit', percent = 200, of = 'fees' }]\n"
        "cite = 'code 2'",
    )
    study = work_out(rules(text), {})

    assert study.fees.total == Decimal("150.00")
    assert [str(each.amount) for each in study.deposit.rows] == ["10.00", "300.00"]
    assert study.bond.open == ("bond",)


def test_a_deposit_says_what_is_kept_and_when_the_rest_comes_back() -> None:
    line = (
        "{ name = 'deposit', sum = 200, refundable = true, kept = 25, true_up = true, "
        "returned_when = 'after a year', permit = 'street', note = 'by cheque', cite = 'code 9' }"
    )
    (found,) = fees(line, key="fees.deposit").deposit.rows

    assert (found.refundable, found.kept, found.permit) == (True, Decimal(25), "street")
    assert found.source == "Ford Code, section 9"
    assert found.note == (
        "by cheque; worked out again from what is really cut; returned after a year"
    )


def test_a_bond_that_is_a_cap_is_for_the_town_to_set() -> None:
    study = fees("{ name = 'bond', sum = 500, cap = true }", key="fees.bond")
    (found,) = study.bond.rows

    assert (found.amount, found.amount_to) == (None, Decimal("500.00"))
    assert found.note == "at most $500.00; the town sets the sum"
    assert study.bond.open == ("bond",)


def test_a_sheet_that_is_silent_leaves_all_three_open() -> None:
    study = work_out(rules(""), {})

    for total, name in ((study.fees, "fees"), (study.deposit, "deposit"), (study.bond, "bond")):
        assert (total.total, total.open, total.known) == (Decimal(0), (name,), False)
        assert total.rows[0].note == "the rule sheet does not say"


def test_a_sheet_without_a_deposit_has_nothing_open() -> None:
    study = work_out(rules("[rule]\nfees.deposit = { no_rule = true }"), {})

    assert (study.deposit.rows, study.deposit.open, study.deposit.known) == ((), (), True)


def test_a_deposit_set_at_review_says_by_whom() -> None:
    study = work_out(rules("[rule]\nfees.deposit = { ask = 'engineer', note = 'by scope' }"), {})

    assert study.deposit.rows[0].note == "by engineer: by scope"


def test_a_payee_and_a_permit_may_tell_lines_apart() -> None:
    study = fees("{ name = 'road', sum = 120, permit = 'county', payee = 'County' }")

    assert study.fees.rows[0].permit == "county"
    assert study.fees.rows[0].note == "payable to County"
