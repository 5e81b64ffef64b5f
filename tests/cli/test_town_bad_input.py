"""What the office sees when a rule sheet is wrong: the whole message, and the exit code."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from called import called

if TYPE_CHECKING:
    from pathlib import Path

HEAD = """schema = 1
[sheet]
place = "ford"
title = "Town of Ford"
kind = "town"
checked = 2026-03-02
due = 2027-03-01
standing = "invented"
[source.code]
title = "Ford Code"
read = 2026-03-02
"""
TWICE = """
[[edition]]
key = "core.bit"
[[edition.case]]
when = { curb = "rolled" }
at_most = "3 in"
cite = "code 1"
[[edition.case]]
when = { curb = "rolled" }
at_most = "4 in"
cite = "code 1"
"""
NEVER_REACHED = """
[[edition]]
key = "core.bit"
[[edition.case]]
at_most = "3 in"
cite = "code 1"
[[edition.case]]
when = { curb = "rolled" }
at_most = "4 in"
cite = "code 1"
"""
NEVER_FITS = """
[[edition]]
key = "core.bit"
[[edition.case]]
when = { outlet = "existing hole", new_outlet = true }
at_most = "3 in"
cite = "code 1"
"""
EMPTY_RANGE = """
[[edition]]
key = "core.bit"
[[edition.case]]
when = { tree_near = { over = "10 ft", up_to = "5 ft" } }
at_most = "3 in"
cite = "code 1"
"""
OUT_OF_ORDER = """
[[edition]]
key = "core.bit"
since = 2026-01-01
[[edition.case]]
at_most = "3 in"
cite = "code 1"
[[edition]]
key = "core.bit"
since = 2025-01-01
[[edition.case]]
at_most = "4 in"
cite = "code 1"
"""

RULES = "jurisdictions/ford/rules.toml"
BIT = "[rule]\ncore.bit = {{ {} }}\n"


def fault(where: str, found: str, expected: str, fix: str = "") -> str:
    """Return a fault as it is printed."""
    lines = [f"error: {where}", f"  found     {found}", f"  expected  {expected}"]
    return "\n".join([*lines, f"  fix       {fix}"] if fix else lines) + "\n"


def written(folder: Path, text: str, place: str = "ford") -> Path:
    """Write a sheet into a folder of sheets; return its file."""
    path = folder / "jurisdictions" / place / "rules.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


TOO_DEEP = fault(RULES, "tables nested too deep", "at most 12 within one another")
WRONG = {
    "one condition twice": (
        HEAD + TWICE,
        fault(
            f"{RULES}: core.bit: case 2",
            "a case never reached: case 1 fits first (the curb is rolled)",
            "one case for one condition",
            "leave out the one or the other",
        ),
    ),
    "a case that another always takes first": (
        HEAD + NEVER_REACHED,
        fault(
            f"{RULES}: core.bit: case 2",
            "a case never reached: case 1 fits first (in every case)",
            "the narrower case first, a case without `when` last",
            "put case 2 before case 1, or leave it out",
        ),
    ),
    "a condition that can never fit": (
        HEAD + NEVER_FITS,
        fault(
            f"{RULES}: core.bit: case 1, when",
            "a new outlet that is an existing hole",
            "facts that can hold together",
        ),
    ),
    "a condition with nothing between its ends": (
        HEAD + EMPTY_RANGE,
        fault(
            f"{RULES}: edition 1, core.bit: case 1.when.tree_near",
            "ends that leave nothing between them",
            "a lower end below the upper end",
        ),
    ),
    "a cite to no source": (
        HEAD + BIT.format('at_most = "4 in", cite = "coed 1"'),
        fault(f"{RULES}: rule core.bit.cite", "'coed'", "one of code", "did you mean code?"),
    ),
    "editions out of order": (
        HEAD + OUT_OF_ORDER,
        fault(
            f"{RULES}: edition 2, core.bit since 2025-01-01.since",
            "2025-01-01 below 2026-01-01",
            "editions oldest first, each on a later day",
        ),
    ),
    "a sheet due before it was checked": (
        HEAD.replace("2027-03-01", "2025-03-01"),
        fault(f"{RULES}: sheet.due", "2025-03-01", "a day after it was checked, 2026-03-02"),
    ),
    "a flow where a length belongs": (
        HEAD + BIT.format('at_most = "4 gpm", cite = "code 1"'),
        fault(
            f"{RULES}: rule core.bit.at_most",
            "'4 gpm'",
            "a length with its unit, such as 12 ft or 3 1/2 in",
            "gpm measures a flow",
        ),
    ),
    "a slope where a length belongs": (
        HEAD + BIT.format('at_most = "4 %", cite = "code 1"'),
        fault(
            f"{RULES}: rule core.bit.at_most",
            "'4 %'",
            "a length with its unit, such as 12 ft or 3 1/2 in",
            "% measures a slope or a ratio",
        ),
    ),
    "a key of another family": (
        HEAD + '[rule]\nnotch.bit = { at_most = "4 in", cite = "code 1" }\n',
        fault(
            f"{RULES}: rule notch.bit",
            "a rule 'notch.bit'",
            "a rule of the family notch: notch.curbs, notch.width, notch.floor, notch.slope, "
            "notch.at_drive",
            "did you mean core.bit or notch.width?",
        ),
    ),
    "a layer that is not there": (
        HEAD.replace("checked", 'follows = ["us-xz"]\nchecked'),
        fault(
            f"{RULES}: sheet.follows",
            "'us-xz'",
            "a place that has a sheet",
            "did you mean us-xx or us-tx?",
        ),
    ),
    "a file of ten megabytes": (
        HEAD + "# " + "x" * 10_000_000,
        fault(RULES, "more than 1 MB", "a text file of at most 1 MB"),
    ),
    "lists nested six hundred deep": (HEAD + "a = " + "[" * 600 + "]" * 600 + "\n", TOO_DEEP),
    "tables nested twenty deep": (HEAD + "a = " + "{ a = " * 20 + "1" + " }" * 20, TOO_DEEP),
    "a name of six hundred parts": (HEAD + "a" + ".a" * 600 + " = 1\n", TOO_DEEP),
    "a quote left open": (
        HEAD + BIT.format('at_most = "4 in, cite = "code 1"'),
        fault(
            f"{RULES}: line 13",
            """'core.bit = { at_most = "4 in, cite = "code 1" }'""",
            "a list or table closed where it ends",
            "add the missing ] or }",
        ),
    ),
    "the marks for feet and inches": (
        HEAD + BIT.format("""at_most = "5'-6"", cite = "code 1\""""),
        fault(
            f"{RULES}: line 13",
            """'core.bit = { at_most = "5\\'-6"", cite = "code 1" }'""",
            "a list or table closed where it ends",
            'write feet and inches as "5 ft 6 in" or "5-6", inches as "4 in"',
        ),
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_wrong_is_told_whole_with_exit_three(name: str, tmp_path: Path) -> None:
    text, told = WRONG[name]

    done = called("town", "check", written(tmp_path, text))

    assert done.err == told
    assert done.code == 3


@pytest.mark.parametrize(
    ("data", "where", "found"),
    [
        (HEAD.encode() + b"# caf\xe9\n", f"{RULES}: line 12", "the byte 0xe9"),
        (HEAD.encode("utf-16"), RULES, "UTF-16 text"),
    ],
)
def test_a_file_that_is_not_utf_8_is_told(
    tmp_path: Path, data: bytes, where: str, found: str
) -> None:
    path = written(tmp_path, "")
    path.write_bytes(data)

    done = called("town", "check", path)

    assert done.err == fault(where, found, "UTF-8 text", "save the file as UTF-8")
    assert done.code == 3


def test_layers_that_follow_each_other_are_told(tmp_path: Path) -> None:
    dale = HEAD.replace('"ford"', '"dale"').replace("checked", 'follows = ["ford"]\nchecked')
    written(tmp_path, dale, "dale")
    path = written(tmp_path, HEAD.replace("checked", 'follows = ["dale"]\nchecked'))
    told = fault(
        "jurisdictions/dale/rules.toml: sheet.follows",
        "ford follows dale follows ford",
        "layers without a loop",
    )

    assert called("town", "check", path).err == told
    assert called("town", "show", path, "--on", "2026-04-06").code == 3


def test_layers_that_follow_each_other_do_not_stop_the_list(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path, HEAD.replace("checked", 'follows = ["dale"]\nchecked'))
    dale = HEAD.replace('"ford"', '"dale"').replace("checked", 'follows = ["ford"]\nchecked')
    written(tmp_path, dale, "dale")
    written(
        tmp_path, HEAD.replace('"ford"', '"glen"').replace("kind", 'follows = "x"\nkind'), "glen"
    )
    monkeypatch.chdir(tmp_path)

    done = called("town", "list", "--on", "2026-04-06")

    assert done.code == 3
    assert done.err.splitlines() == [
        f"{name}: 1 fault; see: permitkit town check {name}" for name in ("dale", "ford", "glen")
    ]


@pytest.mark.parametrize("broken", ["", "schema = 1\nsheet = 1\n", HEAD.replace("due =", "dew =")])
def test_a_head_that_cannot_be_read_does_not_stop_the_list(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    written(tmp_path, broken)
    monkeypatch.chdir(tmp_path)

    done = called("town", "list", "--on", "2026-04-06")

    assert done.code == 3
    assert "ford: 1 fault" in done.err
    assert "millrace" in done.out


def test_every_fault_of_every_sheet_comes_at_once(tmp_path: Path) -> None:
    ford = written(tmp_path, HEAD + BIT.format('at_most = "4 gpm", cite = "coed 1"'))
    dale = written(tmp_path, HEAD.replace('"ford"', '"dale"') + NEVER_FITS, "dale")

    done = called("town", "check", ford, dale, "millrace")

    assert done.code == 3
    assert done.err.count("error: ") == 3
    assert "Town of Millrace" in done.out


def test_a_sheet_of_another_authority_that_is_not_there_is_told(tmp_path: Path) -> None:
    street = '\n[sheet.listed_streets]\n"Quay" = { authority = "the port", sheet = "tarn-count" }\n'
    path = written(tmp_path, HEAD + street)

    done = called("town", "check", path)

    assert done.code == 3
    assert "sheet.listed_streets.Quay.sheet" in done.err
    assert "did you mean tarn-county?" in done.err


def test_a_sheet_past_its_day_is_no_error_but_a_question_of_its_jobs(tmp_path: Path) -> None:
    path = written(tmp_path, HEAD)

    assert called("town", "check", path).code == 0
    assert called("town", "show", path, "--on", "2030-01-01").code == 0


@pytest.mark.parametrize("command", [("show",), ("ask",), ("compare", "millrace")])
def test_a_sheet_that_is_not_there_is_told(command: tuple[str, ...], tmp_path: Path) -> None:
    missing = called("town", *command, tmp_path / "ford.toml")
    unknown = called("town", *command, "fort")

    assert missing.code == 3
    assert "found     no file" in missing.err
    assert unknown.code == 2
    assert unknown.err.startswith("error: town 'fort'\n")


def test_one_town_alone_cannot_be_compared() -> None:
    done = called("town", "compare", "millrace")

    assert done.code == 2
    assert done.err == fault("permitkit town compare", "millrace", "two towns or more")


def test_a_page_that_cannot_be_written_gives_exit_four(tmp_path: Path) -> None:
    done = called("town", "show", "us", "--on", "2026-12-01", "--pdf", tmp_path / "no" / "p.pdf")

    assert done.code == 4
    assert "expected  a folder that exists and can be written" in done.err
