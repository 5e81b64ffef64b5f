"""Every line of the table of kinds in the contributors' guide is a rule that loads."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from sheet_text import HEAD, sheet

from permitkit.load.rule_lint import lint
from permitkit.model.facts import FACTS
from permitkit.model.keys import KEYS
from permitkit.model.reading.fees import LINE_WORDS
from permitkit.model.reading.terms import TERM_WORDS
from permitkit.model.rules import ValueKind

PARTS = tomllib.loads((Path(__file__).parent / "kinds.toml").read_text(encoding="utf-8"))["part"]
WRITTEN = [
    (f"{kind}: {line}", line) for part in PARTS for kind, *lines in part["kind"] for line in lines
]


def as_sheet(line: str) -> str:
    """Return a whole sheet with one line of the table in it."""
    name, _, value = line.partition(" = ")
    if name.startswith("sheet."):
        return HEAD.replace("standing", f"{name.removeprefix('sheet.')} = {value}\nstanding")
    if name == "permit":
        return f"permit = [{value}]\n{HEAD}"
    open_answer = any(word in value for word in ("ask = ", "by_reference = ", "no_rule = "))
    cited = value if open_answer else f'{value[:-2]}, cite = "code 1" }}'
    permit = 'permit = [{ id = "walk", title = "Walk permit", issuer = "Ford" }]\n'
    return f"{permit}{HEAD}[rule]\n{name} = {cited}\n"


@pytest.mark.parametrize("line", [line for _, line in WRITTEN], ids=[name for name, _ in WRITTEN])
def test_each_way_of_writing_loads_and_is_free_of_lint(line: str) -> None:
    found = sheet("", as_sheet(line))
    name, _, value = line.partition(" = ")

    assert lint(found) == ()
    if name in KEYS:
        (case,) = found.rules[name].editions[0].cases
        assert (case.when is not None) is ("when" in tomllib.loads(f"case = {value}")["case"])


def test_every_kind_of_value_every_fact_and_every_field_of_money_stand_in_the_table() -> None:
    lines = "\n".join(line for _, line in WRITTEN)
    named = {line.partition(" = ")[0] for _, line in WRITTEN}
    money = {*TERM_WORDS, *LINE_WORDS} - {"note", "cite", "whole", "count", "whole_units"}

    assert {KEYS[name].kind for name in named if name in KEYS} == set(ValueKind)
    assert {name for name in FACTS if not mentions(lines, name)} == set()
    assert {name for name in money if not mentions(lines, name)} == set()


def mentions(lines: str, name: str) -> bool:
    """Return whether a field or a fact is written somewhere in the table."""
    return re.search(rf'\b{name} = |by = "{name}"', lines) is not None


def test_a_line_that_does_not_load_would_be_told() -> None:
    with pytest.raises(Exception, match="a length with its unit"):
        sheet("", as_sheet('core.bit = { at_most = "4 gpm" }'))
