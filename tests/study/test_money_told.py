"""What goes with a sum of money is printed wherever the sum is: notes, returns, needs."""

from __future__ import annotations

from datetime import date

from test_fees import fees
from town import edition, sheet

from permitkit.packet.sums import money_table
from permitkit.packet.town.page import town_page
from permitkit.render.blocks import Table
from permitkit.study.keeping.questions import open_questions

DAY = date(2026, 4, 6)


def page(text: str) -> str:
    """Return the cells of a town's page in one text."""
    tables = [block for block in town_page((sheet(text),), DAY) if isinstance(block, Table)]
    return "\n".join(cell for each in tables for row in each.rows for cell in row)


DEPOSIT = (
    "{ name = 'deposit', sum = 200, returned_when = 'after a year', permit = 'street', "
    "refundable = true, kept = 25, note = 'by cheque', cite = 'code 9' }"
)


def test_the_towns_page_prints_what_goes_with_a_sum() -> None:
    told = page(edition("fees.deposit", f"line = [{DEPOSIT}]\ncite = 'code 1'"))

    assert (
        "deposit: $200.00, refundable, $25.00 kept, returned after a year, for the permit street "
        "(by cheque; Ford Code, section 9)"
    ) in told


def test_a_ceiling_is_not_told_as_the_sum() -> None:
    line = "{ name = 'bond', sum = 500, cap = true }"
    told = page(edition("fees.bond", f"line = [{line}]\ncite = 'code 1'"))

    assert "bond: $500.00, at the most: the town sets the sum" in told


def test_the_fee_table_prints_what_goes_with_a_sum() -> None:
    printed = money_table(fees(DEPOSIT, key="fees.deposit"), ())
    rows = {row[0]: row for row in printed.rows}

    assert rows["deposit"][1] == (
        "$200.00<br/>for the permit street; refundable; "
        "$25.00 kept; by cheque; returned after a year"
    )
    assert rows["deposit"][2:] == ("Ford Code, section 9", "$200.00")


def test_who_may_waive_a_rule_is_told_with_what_that_office_needs() -> None:
    ladder = 'waivable_by = [{ who = "engineer", needs = "a letter" }, "board"]'
    told = page(edition("walk.base", f"at_least = '4 in'\n{ladder}\ncite = 'code 1'"))

    assert "may be waived by engineer (given a letter), then board" in told


def test_a_call_confirms_the_known_lines_beside_an_open_one() -> None:
    lines = "{ name = 'permit', sum = 50, note = 'by cheque' }, { name = 'look', ask = 'clerk' }"
    town = sheet(edition("fees.lines", f"line = [{lines}]\ncite = 'code 1'"))
    (found,) = (each for each in open_questions((town,), DAY) if each.key.name == "fees.lines")

    assert found.points == ("look: ask clerk",)
    assert found.known == ("permit: $50.00 (by cheque)",)
