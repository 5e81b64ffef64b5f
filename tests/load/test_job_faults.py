from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import pytest
from demo_jobs import Change, changed, told
from pydantic import Field

from permitkit.load.faults import read_model
from permitkit.model.frozen import Frozen

if TYPE_CHECKING:
    from pathlib import Path

A_LENGTH = "a length with its unit, such as 12 ft or 3 1/2 in"
A_DATE = "a date without quotes, such as 2026-04-06"

CASES: tuple[tuple[Change, str, str, str, str], ...] = (
    (
        ('length = "25 ft"', 'length = "12"'),
        "drain.reach[1].length",
        "'12'",
        A_LENGTH,
        "write the unit, such as 12 ft or 12 in",
    ),
    (
        ('length = "25 ft"', "length = 12"),
        "drain.reach[1].length",
        "12",
        A_LENGTH,
        'write it in quotes with its unit, such as "12 ft"',
    ),
    (
        ("filing = 2026-04-06", 'filing = "2026-04-06"'),
        "filing",
        "'2026-04-06'",
        A_DATE,
        "write it without quotes: 2026-04-06",
    ),
    (("filing = 2026-04-06", 'filing = "soon"'), "filing", "'soon'", A_DATE, ""),
    (("filing = 2026-04-06", "filing = true"), "filing", "true", A_DATE, ""),
    (("filing = 2026-04-06", "filing = 20260406"), "filing", "20260406", A_DATE, ""),
    (("filing = 2026-04-06", "filing = 0"), "filing", "0", A_DATE, ""),
    (("filing = 2026-04-06", "filing = 86400.0"), "filing", "86400.0", A_DATE, ""),
    (("schema = 1", "schema = 2"), "schema", "2", "1", ""),
    (
        ('shape = "vertical"', 'shape = "verticle"'),
        "curb.shape",
        "'verticle'",
        "vertical, sloping, rolled, half-round, granite or none",
        "did you mean vertical?",
    ),
    (
        ('parcel = "07-114-22"', "parcel = 711422"),
        "site.parcel",
        "711422",
        "a text in quotes",
        'write it in quotes: "711422"',
    ),
    (
        ('owner = "Ines Calloway"', 'owner = " "'),
        "site.owner",
        "' '",
        "a text that is not empty",
        "",
    ),
    (("lanes = 2", 'lanes = "two"'), "street.lanes", "'two'", "a whole number", ""),
    (("lanes = 2", "lanes = 2.5"), "street.lanes", "2.5", "a whole number", ""),
    (("lanes = 2", "lanes = []"), "street.lanes", "a list of 0", "a whole number", ""),
    (("lanes = 2", "lanes = 0"), "street.lanes", "0", "a number of at least 1", ""),
    (("lanes = 2", "lanes = 9"), "street.lanes", "9", "a number of at most 8", ""),
    (
        ("neighbours_told = true", 'neighbours_told = "maybe"'),
        "traffic.neighbours_told",
        "'maybe'",
        "true or false, without quotes",
        "",
    ),
    (
        ("neighbours_told = true", "neighbours_told = []"),
        "traffic.neighbours_told",
        "a list of 0",
        "true or false, without quotes",
        "",
    ),
    (
        ('[[payment]]\nwhat = "fee"\namount = 250', '[[payment]]\nwhat = "fee"\namount = -1'),
        "payment[1].amount",
        "'-1'",
        "an amount of money, such as $1,250.00",
        "",
    ),
    (
        ('reveal = ["6 in", "6 in", "6 1/8 in"]', 'reveal = ["6 in", "6 in", "6 in", "6 in"]'),
        "curb.reveal",
        "a list of 4",
        "at most 3 of them",
        "",
    ),
    (
        ('reveal = ["6 in", "6 in", "6 1/8 in"]', 'reveal = ["6 in", "six"]'),
        "curb.reveal[2]",
        "'six'",
        A_LENGTH,
        "begin with a number, such as 3 1/2, 0.5 or 1,450",
    ),
    (
        ('reveal = ["6 in", "6 in", "6 1/8 in"]', 'reveal = "six"'),
        "curb.reveal",
        "'six'",
        A_LENGTH,
        "begin with a number, such as 3 1/2, 0.5 or 1,450",
    ),
    (
        ('panel_length = "5 ft"', 'panle_length = "5 ft"\npanel_length = "5 ft"'),
        "walk.panle_length",
        "a field 'panle_length'",
        "a field known here",
        "did you mean panel_length?",
    ),
    (
        ("[verge]", "[vegre]\nx = 1\n\n[verge]"),
        "vegre",
        "a field 'vegre'",
        "a field known here",
        "did you mean verge?",
    ),
    (
        ('opening_kind = "leaf screen"', 'opening_kimd = "leaf screen"'),
        "drain.node[2].opening_kimd",
        "a field 'opening_kimd'",
        "a field known here",
        "did you mean opening_kind or opening?",
    ),
    (('width = "36 ft"\n', ""), "street.width", "nothing", A_LENGTH, "add width"),
    (
        ("walk_closed = true\n", ""),
        "traffic.walk_closed",
        "nothing",
        "true or false, without quotes",
        "add walk_closed",
    ),
    (("filing = 2026-04-06\n", ""), "filing", "nothing", A_DATE, "add filing"),
    (("schema = 1\n", ""), "schema", "nothing", "1", "add schema"),
    (
        ('shape = "vertical"\n', ""),
        "curb.shape",
        "nothing",
        "vertical, sloping, rolled, half-round, granite or none",
        "add shape",
    ),
    (
        ('reveal = ["6 in", "6 in", "6 1/8 in"]', ""),
        "curb.reveal",
        "nothing",
        A_LENGTH,
        "add reveal",
    ),
    (
        ('town = "millrace"', ""),
        "town",
        "nothing",
        "a text in quotes",
        "add town",
    ),
)


@pytest.mark.parametrize(("change", "place", "found", "expected", "fix"), CASES)
def test_a_wrong_field_is_told(
    change: Change, place: str, found: str, expected: str, fix: str, tmp_path: Path
) -> None:
    lines = [f"error: job.toml: {place}", f"  found     {found}", f"  expected  {expected}"]
    if fix:
        lines.append(f"  fix       {fix}")

    path = changed(tmp_path, "millrace-clean", change)

    assert told(path) == "\n".join(lines)


def test_a_missing_table_is_told_by_its_heading(tmp_path: Path) -> None:
    verge = '[verge]\nwidth = "5 ft"\nsurface = "verge"\nlevel_curb_side = "100.00 ft"\n'
    path = changed(tmp_path, "millrace-clean", (verge, ""))

    assert told(path) == (
        "error: job.toml: verge\n  found     nothing\n  expected  a table\n  fix       add [verge]"
    )


def test_a_list_of_tables_wants_two_brackets(tmp_path: Path) -> None:
    path = changed(tmp_path, "sorrel-flats-notch", ("\n[[answer]]", "\n[answer]"))

    assert told(path) == (
        "error: job.toml: answer\n"
        "  found     a table of key, value, who, how, on, note\n"
        "  expected  a list in [ ]\n"
        "  fix       write its heading in two brackets: [[answer]]"
    )


def test_a_text_that_runs_on_is_told(tmp_path: Path) -> None:
    path = changed(
        tmp_path, "millrace-clean", ('"Ines Calloway"\nowner_phone', f'"{"I" * 201}"\nowner_phone')
    )

    assert told(path) == (
        "error: job.toml: site.owner\n"
        f"  found     '{'I' * 59}…\n"
        "  expected  a text of at most 200 characters"
    )


def test_an_answer_that_is_no_table_is_told(tmp_path: Path) -> None:
    path = changed(
        tmp_path,
        "sorrel-flats-notch",
        ('value = { when = { water = "sump" }, stance = "allowed" }', 'value = "allowed"'),
    )

    assert told(path) == (
        "error: job.toml: answer[1].value\n  found     'allowed'\n  expected  a table in { }"
    )


def test_fields_missing_deep_in_a_list_are_told_by_number(tmp_path: Path) -> None:
    path = changed(
        tmp_path,
        "millrace-clean",
        ('rate = "12 gpm"                     # timed in the pit\n', ""),
        ('[[drain.reach]]\nupper = "N1"\n', "[[drain.reach]]\n"),
    )

    assert told(path) == (
        "error: job.toml: drain.reach[2].upper\n"
        "  found     nothing\n"
        "  expected  a text in quotes\n"
        "  fix       add upper\n"
        "error: job.toml: drain.inflow[3].pump.rate\n"
        "  found     nothing\n"
        "  expected  a flow with its unit, such as 35 gpm or 0.8 cfs\n"
        "  fix       add rate"
    )


def test_a_complaint_without_words_of_ours_is_told_plainly() -> None:
    class Odd(Frozen):
        share: Annotated[float, Field(multiple_of=0.5)]

    _, faults = read_model(Odd, {"share": 0.3}, "odd.toml")

    assert faults[0].lines() == [
        "error: odd.toml: share",
        "  found     0.3",
        "  expected  a value of the kind this field holds",
    ]


def test_no_words_of_the_library_reach_the_reader(tmp_path: Path) -> None:
    texts = [told(changed(tmp_path, "millrace-clean", case[0])).lower() for case in CASES]

    for word in (
        "pydantic",
        "input should",
        "validation",
        "value error",
        "field required",
        "extra",
    ):
        assert not any(word in text for text in texts)
