"""Lines of which the applicant chooses one, rates between two ends, rates that others set."""

from __future__ import annotations

from decimal import Decimal

import pytest
from sheet_text import HEAD
from sheet_text import sheet as plain
from test_fees import fees, row
from town import edition, job, rules, sheet

from permitkit.load.rule_lint import lint
from permitkit.study.fees import work_out

CHOICE = (
    edition("fees.lines", "line = [{ name = 'permit', sum = 10 }]\ncite = 'code 1'")
    + edition(
        "fees.deposit",
        "line = [{ name = 'cash', sum = 50 }, "
        "{ name = 'yearly deposit', sum = 2000, in_place_of = 'cash' }]\ncite = 'code 2'",
    )
    + edition(
        "fees.bond",
        "line = [{ name = 'surety bond', sum = 5000, refundable = true, "
        "in_place_of = 'cash' }]\ncite = 'code 3'",
    )
)
PAID = [
    ([], "50.00", "0"),
    (["cash"], "50.00", "0"),
    (["yearly deposit"], "2000.00", "0"),
    (["surety bond"], "0", "5000.00"),
]


@pytest.mark.parametrize(("paid", "deposit", "bond"), PAID)
def test_of_several_securities_the_one_that_was_paid_is_held(
    paid: list[str], deposit: str, bond: str
) -> None:
    study = work_out(rules(sheet(CHOICE)), {}, paid)

    assert (study.deposit.total, study.bond.total) == (Decimal(deposit), Decimal(bond))
    assert (study.deposit.known, study.bond.known) == (True, True)


def test_what_may_be_paid_in_its_place_stands_beside_a_line_until_it_is() -> None:
    town = rules(sheet(CHOICE))
    (open_row,) = work_out(town, {}).deposit.rows
    (paid_row,) = work_out(town, {}, ["surety bond"]).deposit.rows

    assert open_row.note == (
        "or in its place yearly deposit: $2,000.00; or in its place surety bond: $5,000.00, "
        "refundable"
    )
    assert (paid_row.arithmetic, paid_row.note) == ("surety bond in its place", "")


def test_a_payment_names_the_line_it_pays() -> None:
    paid = {"what": "bond", "amount": 5000, "line": "surety bond"}

    assert job(payment=[paid]).payment[0].line == "surety bond"


def test_a_line_in_place_of_none_is_lint() -> None:
    line = "{ name = 'a', sum = 5, in_place_of = 'b' }"
    text = (
        f"{HEAD}[[edition]]\nkey = 'fees.bond'\ncase = [{{ line = [{line}], cite = 'code 1' }}]\n"
    )
    (found,) = lint(plain("", text))

    assert found.where.endswith("fees.bond: line 'a', in_place_of")
    assert (found.found, found.expected) == ("'b'", "another line: there is none")


RATES = [
    ("rate = 50, to = 750, per = 'day'", "3 days x $50.00 to $750.00", "$150.00 to $2,250.00"),
    (
        "rate = 50, to = 750, per = 'day', most = 1000",
        "3 days x $50.00 to $750.00, most $1,000.00",
        "$150.00 to $1,000.00",
    ),
    ("sum = 500, floor = true", "$500.00", "$500.00 or more"),
    ("sum = 500, floor = true, note = 'x'", "$500.00", "$500.00 or more"),
    (
        "by_reference = 'resolution 4', per = 'hole'",
        "to be set: set by resolution 4, per hole; 2 holes here",
        "",
    ),
    ("ask = 'clerk', per = 'sheet'", "to be set: by clerk, per sheet", ""),
]


@pytest.mark.parametrize(("line", "arithmetic", "shown"), RATES)
def test_a_rate_of_which_the_ends_or_the_unit_are_known(
    line: str, arithmetic: str, shown: str
) -> None:
    found = row(line, {}, {"days": 3, "holes": 2})

    assert (found.arithmetic, found.shown) == (arithmetic, shown)
    assert not found.settled


def test_a_sum_that_is_a_least_is_for_the_town_to_confirm() -> None:
    study = fees("{ name = 'bond', sum = 500, floor = true }", key="fees.bond")

    assert (study.bond.total, study.bond.open) == (Decimal("500.00"), ("bond",))
    assert study.bond.rows[0].note == "at the least; the town may set more"
