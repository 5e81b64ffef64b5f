"""Rules in the short form: one case on a line, or a list of cases in order."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sheet_text import FORD, HEAD, RULE, cases, fault

from permitkit.load.sheet.glance import CaseGlance, glance

if TYPE_CHECKING:
    from pathlib import Path

SEVERAL = """[rule]
core.bit = [
    { at_most = "3 in", when = { curb = "sloping" }, cite = "code 1" },
    { ask = "town engineer" },
]
"""


def test_a_rule_with_a_condition_may_stand_on_one_line() -> None:
    (only,) = cases("core.bit", RULE + 'core.bit = { ask = "a", when = { curb = "rolled" } }\n')

    assert only.when is not None


def test_a_list_of_cases_is_a_rule_with_the_cases_in_order() -> None:
    first, second = cases("core.bit", SEVERAL)

    assert (first.when is None, second.when is None) == (False, True)


def test_a_fault_in_a_list_of_cases_tells_which_one() -> None:
    text = 'core.bit = [{ ask = "a", when = { soil = "clay" } }, { at_most = 4, cite = "code 1" }]'

    assert fault(RULE + text).where == f"{FORD}: rule core.bit[2].at_most"
    assert fault(RULE + "core.bit = [3]\n").found == "a list of 1"


def test_a_glance_sees_every_case_of_a_list(tmp_path: Path) -> None:
    path = tmp_path / "rules.toml"
    path.write_text(HEAD + SEVERAL, encoding="utf-8")

    assert glance(path).on("core.bit", date(2026, 4, 6)) == (
        CaseGlance("answered", conditional=True),
        CaseGlance("ask", conditional=False),
    )
