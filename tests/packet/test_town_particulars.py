"""What a town's page tells of the town itself, before any rule."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from permitkit.cli.plain import plain_text
from permitkit.load.rule_sheet import read_sheet
from permitkit.packet.town.page import town_page

SHEET = """
schema = 1
[sheet]
place = "ford"
title = "Town of Ford"
kind = "town"
checked = 2026-03-02
due = 2027-03-01
[sheet.listed_streets]
"Mill Road" = "Tarn County"
[sheet.paved]
"Weir Street" = 2025-09-30
"""


def page(rules: str = "") -> str:
    """Return a small town's page with some rules, on one line."""
    town = read_sheet((SHEET + rules).encode(), Path("jurisdictions/ford/rules.toml"))
    return " ".join(plain_text(town_page([town], date(2026, 4, 6))).split())


def test_the_streets_of_others_and_those_lately_paved_are_listed() -> None:
    shown = page()

    assert "Streets of another authority Mill Road (Tarn County)" in shown
    assert "Streets with the day they were paved Weir Street 2025-09-30" in shown


def test_who_may_waive_is_told_with_what_each_needs_to_see() -> None:
    waived = """[source.code]
title = "Code"
read = 2026-03-02
[rule]
core.bit = { at_most = "4 in", cite = "code 1", waivable_by = { any_of = ["a", "b"], needs = "c" } }
"""

    assert "at most 4 in; may be waived by a or b (given c)" in page(waived)


def test_a_rule_that_leaves_some_jobs_out_says_so() -> None:
    half = """[[edition]]
key = "walk.base"
[[edition.case]]
when = { begun = true }
ask = "town engineer"
"""

    assert "ask town engineer otherwise: not said, ask" in page(half)
