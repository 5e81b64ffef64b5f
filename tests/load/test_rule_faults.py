from __future__ import annotations

import pytest
from sheet_text import FORD, HEAD, RULE, fault, faults

from permitkit.errors import Fault


def test_an_empty_file_misses_its_head_and_its_schema() -> None:
    assert [each.where for each in faults("", head="")] == [f"{FORD}: schema", f"{FORD}: sheet"]


def test_the_whole_text_of_a_fault_reads_as_designed() -> None:
    found = fault(RULE + 'core.bit = { at_most = "4", cite = "code 4" }')

    assert found.lines() == [
        f"error: {FORD}: rule core.bit.at_most",
        "  found     '4'",
        "  expected  a length with its unit, such as 12 ft or 3 1/2 in",
        "  fix       " + found.fix,
    ]
    assert found.fix


def test_all_faults_of_a_file_come_at_once() -> None:
    found = faults(
        RULE
        + """
        core.bitt = { at_most = "4 in", cite = "code 4" }
        pipe.slope = { at_least = "2 ft", cite = "code 5" }
        walk.thickness = { at_least = "4 in", cite = "cod 7" }
        """
    )

    assert [each.where for each in found] == [
        f"{FORD}: rule core.bitt",
        f"{FORD}: rule pipe.slope.at_least",
        f"{FORD}: rule walk.thickness.cite",
    ]


HEADS = [
    ("checked = 2026-03-02", 'checked = "2026-03-02"', "sheet.checked", "without quotes"),
    ("checked = 2026-03-02\n", "", "sheet.checked", ""),
    ("due = 2027-03-01", "due = 2025-03-01", "sheet.due", ""),
    ('kind = "town"', 'kind = "village"', "sheet.kind", ""),
    ('kind = "town"', 'kind = "twon"', "sheet.kind", "did you mean town?"),
    ('title = "Town of Ford"', 'titel = "Town of Ford"', "sheet.title", ""),
    (
        'standing = "invented"',
        'standing = "verified"',
        "sheet.standing",
        "or verified with the town?",
    ),
    ('title = "Ford Code"', "", "source.code.title", ""),
    ("read = 2026-03-02", "", "source.code.read", ""),
    ('title = "Town of Ford"', "title = 2026-01-01", "sheet.title", ""),
    ("schema = 1", "schema = 2", "schema", ""),
    ("schema = 1", "schema = 1\nhello = 1", "hello", ""),
    ("schema = 1", "schema = 1\nrules = 1", "rules", "did you mean rule"),
    ('kind = "town"', 'follows = [""]', "sheet.follows", ""),
    ('kind = "town"', 'follows = "us"\nunits = "imperial"', "sheet.units", ""),
]


@pytest.mark.parametrize(("old", "new", "where", "fix"), HEADS)
def test_a_fault_in_the_head_is_told(old: str, new: str, where: str, fix: str) -> None:
    found = faults("", head=HEAD.replace(old, new, 1))

    assert found[0].where == f"{FORD}: {where}"
    assert fix in found[0].fix


PLACES = [
    ('[sheet.closings]\n"Thanksgiving" = "closed"', "sheet.closings"),
    ('[sheet.closings]\n"2026-11-27" = 1', "sheet.closings.2026-11-27"),
    ('[sheet.paved]\n"Heron Street" = "2024"', "sheet.paved.Heron Street"),
    ('[sheet.listed_streets]\n"Tarn Road" = 1', "sheet.listed_streets.Tarn Road"),
    (
        '[sheet.listed_streets]\n"Tarn Road" = { part = "a" }',
        "sheet.listed_streets.Tarn Road.authority",
    ),
    (
        '[sheet.listed_streets]\n"Tarn Road" = { authority = "A", between = "B" }',
        "sheet.listed_streets.Tarn Road.between",
    ),
    (
        '[sheet.listed_streets]\n"T" = { authority = "A", between = ["B", "C"], part = "D" }',
        "sheet.listed_streets.T.part",
    ),
    (
        '[sheet.listed_streets]\n"T" = { authority = "A", hold = false }',
        "sheet.listed_streets.T.hold",
    ),
    ("[source]\nfees = 1", "source.fees"),
    ("[source.fees]\ntitle = 'F'\nread = 2026-01-01\ndated = true", "source.fees.dated"),
    ("[rule]\ncore = 1", "rule.core"),
    ("[rule]\ncore.bit = 1", "rule core.bit"),
    ("[[edition]]\nsince = 2026-01-01", "edition 1.key"),
    ("[[permit]]\nid = 'a'\ntitle = 'b'\nissuer = 'c'\nfrom = 1", "permit 1.from"),
]


@pytest.mark.parametrize(("text", "where"), PLACES)
def test_a_fault_in_a_table_is_told_by_its_place(text: str, where: str) -> None:
    head = HEAD.replace("[source.code]", f"{text}\n[source.code]")

    assert fault("", head=head).where == f"{FORD}: {where}"


@pytest.mark.parametrize("name", ["rule", "edition", "permit", "source", "sheet"])
def test_a_heading_that_is_no_table_is_told(name: str) -> None:
    found = faults("", head=f"schema = 1\n{name} = 1\n")

    assert f"{FORD}.{name}" in {each.where.replace(": ", ".") for each in found}


EDITIONS = [
    (
        (
            '[[edition]]\nkey = "core.bars"\nsince = 2026-01-01\n[[edition]]\nkey = "core.bars"\n'
            "since = 2025-01-01\n"
        ),
        Fault(
            f"{FORD}: edition 2, core.bars since 2025-01-01.since",
            "2025-01-01 below 2026-01-01",
            "editions oldest first, each on a later day",
        ),
    ),
    (
        (
            '[[edition]]\nkey = "core.bars"\nsince = 2026-01-01\n[[edition]]\nkey = "core.bars"\n'
            "since = 2026-01-01\n"
        ),
        Fault(
            f"{FORD}: edition 2, core.bars since 2026-01-01.since",
            "the same day twice",
            "editions oldest first, each on a later day",
        ),
    ),
    (
        '[[edition]]\nkey = "core.bars"\n[[edition]]\nkey = "core.bars"\n',
        Fault(
            f"{FORD}: edition 2, core.bars.since", "nothing", "the day this later edition begins"
        ),
    ),
    (
        '[rule]\ncore.bars = { yes = true, cite = "code 1" }\n[[edition]]\nkey = "core.bars"\n',
        Fault(
            f"{FORD}: edition 1, core.bars", "core.bars in [rule] as well", "one form for each rule"
        ),
    ),
    (
        (
            '[[permit]]\nid = "a"\ntitle = "A"\nissuer = "F"\n[[permit]]\nid = "a"\ntitle = "B"\n'
            'issuer = "F"\n'
        ),
        Fault(f"{FORD}: permit 2.id", "'a'", "a short name no other permit of this sheet has"),
    ),
]


@pytest.mark.parametrize(("text", "expected"), EDITIONS)
def test_editions_out_of_order_and_doubles_are_told(text: str, expected: Fault) -> None:
    assert fault(text) == expected


def test_a_key_of_another_family_offers_the_nearest() -> None:
    found = fault('[[edition]]\nkey = "walk.bit"\n')

    assert found.found == "a rule 'walk.bit'"
    assert found.expected.startswith("a rule of the family walk: walk.")
    assert "core.bit" in found.fix


def test_a_key_of_no_family_at_all_is_told() -> None:
    assert fault('[[edition]]\nkey = "zebra"\n').expected == "a rule's key"
