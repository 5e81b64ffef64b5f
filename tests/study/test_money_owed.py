"""Lines of money that are owed for one permit alone, and a fee sheet with no line for the work."""

from __future__ import annotations

from decimal import Decimal

import pytest
from town import edition, rules, sheet

from permitkit.study.fees import work_out

LINES = edition(
    "fees.lines",
    "line = [{ name = 'street', sum = 85 }, { name = 'walk', sum = 40, permit = 'walk' }]\n"
    "cite = 'code 1'",
)


def walk_permit(when: str = "", exempt: str = "") -> str:
    """Return a permit for the walk, under a condition, and what is exempt from it."""
    told = f"when = {{ {when} }}\n" if when else ""
    permit = f'[[permit]]\nid = "walk"\ntitle = "Walk permit"\nissuer = "Town of Ford"\n{told}'
    freed = edition("docs.permit_needed", f"{exempt}\nstance = 'exempt'\ncite = 'code 9'")
    return permit + (freed if exempt else "")


OWED = [
    (walk_permit(), "125"),
    (walk_permit("outlet = 'core'"), "125"),
    (walk_permit("outlet = 'notch'"), "85"),
    (walk_permit(exempt="when = { water = 'roof' }"), "85"),
    (walk_permit(exempt="when = { water = 'sump' }"), "125"),
]


@pytest.mark.parametrize(("permit", "total"), OWED)
def test_a_line_of_a_permit_is_owed_where_that_permit_is_needed(permit: str, total: str) -> None:
    study = work_out(rules(sheet(permit + LINES)), {})

    assert (study.fees.total, study.fees.known) == (Decimal(total), True)


@pytest.mark.parametrize(
    "permit",
    [walk_permit("soil = 'clay'"), walk_permit(exempt="when = { soil = 'clay' }")],
)
def test_a_line_of_a_permit_that_might_be_needed_is_asked(permit: str) -> None:
    study = work_out(rules(sheet(permit + LINES)), {})

    row = study.fees.rows[1]
    assert (row.amount, study.fees.known) == (None, False)
    assert row.arithmetic == "to be set: depends on whether the Walk permit is needed"


def test_a_fee_sheet_without_a_line_for_the_work_leaves_the_fee_to_be_asked() -> None:
    lines = "line = [{ name = 'notch', sum = 40, when = { outlet = 'notch' } }]\ncite = 'code 1'"

    study = work_out(rules(sheet(edition("fees.lines", lines))), {})

    (row,) = study.fees.rows
    assert (row.name, row.amount, study.fees.known) == ("fees", None, False)
    assert row.note == "no line of the sheet is for this work: is it free of charge?"


def test_a_deposit_of_which_no_line_fits_is_not_held() -> None:
    lines = "line = [{ name = 'owner', sum = 40, when = { outlet = 'notch' } }]\ncite = 'code 1'"

    study = work_out(rules(sheet(edition("fees.deposit", lines))), {})

    assert (study.deposit.rows, study.deposit.known) == ((), True)
