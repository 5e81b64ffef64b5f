from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from permitkit.errors import Exit, InputError
from permitkit.load.toml_text import LARGEST_BYTES, read_toml, shown_path, toml_table


def told(path: Path) -> str:
    with pytest.raises(InputError) as raised:
        read_toml(path)
    assert raised.value.exit_code is Exit.INPUT
    assert len(raised.value.faults) == 1
    return str(raised.value)


def complaint(text: str | bytes) -> str:
    data = text.encode() if isinstance(text, str) else text
    with pytest.raises(InputError) as raised:
        toml_table(data, "rules.toml")
    return str(raised.value)


def test_numbers_with_a_point_come_as_decimals(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("rate = 1.75\n", encoding="utf-8")

    assert read_toml(path) == {"rate": Decimal("1.75")}


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_bytes(b"\xef\xbb\xbfname = 1\n")

    assert read_toml(path) == {"name": 1}


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    path = tmp_path / "none.toml"

    assert told(path) == (
        f"error: {path}\n"
        "  found     no file\n"
        "  expected  a file that is there\n"
        "  fix       check its name"
    )


def test_a_folder_is_told(tmp_path: Path) -> None:
    assert "found     a folder" in told(tmp_path)


def test_a_file_that_cannot_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_args: object, **_kwargs: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)

    assert "a file that cannot be read: permission denied" in told(tmp_path / "a.toml")


def test_an_error_without_words_is_still_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_args: object, **_kwargs: object) -> None:
        raise OSError

    monkeypatch.setattr(Path, "open", refuse)

    assert "a file that cannot be read: an error" in told(tmp_path / "a.toml")


def test_a_ten_megabyte_file_is_refused_before_it_is_parsed(tmp_path: Path) -> None:
    path = tmp_path / "big.toml"
    path.write_bytes(b"#" * 10_000_000)

    assert "found     more than 1 MB" in told(path)


def test_a_file_of_the_largest_size_is_read(tmp_path: Path) -> None:
    path = tmp_path / "big.toml"
    path.write_bytes(b"#" * LARGEST_BYTES)

    assert read_toml(path) == {}


def test_latin_letters_are_told_with_their_line() -> None:
    assert complaint(b'a = 1\nb = "Caf\xe9"\n') == (
        "error: rules.toml: line 2\n"
        "  found     the byte 0xe9\n"
        "  expected  UTF-8 text\n"
        "  fix       save the file as UTF-8"
    )


def test_sixteen_bit_text_is_told() -> None:
    assert "found     UTF-16 text" in complaint("a = 1".encode("utf-16"))


@pytest.mark.parametrize(
    ("text", "line", "expected"),
    [
        ("a = 1\na = 2\n", 2, "each name once"),
        ("[t]\n[t]\n", 2, "each table once"),
        ("t = {a = 1}\nt.b = 1\n", 2, "each table in one piece"),
        ("[a.b]\n[a]\nb.c = 1\n", 3, "each table in one piece"),
        ("[sheet\n", 1, "a heading closed where it ends, such as [sheet]"),
        ("t = {a = 1, a = 2}\n", 1, "each name once"),
        ("a 1\n", 1, "name = value"),
        ("a = 1 b = 2\n", 1, "one field to a line"),
        ("a = [1 2]\n", 1, "a list or table closed where it ends"),
        ('a = """x\n', 1, "a text closed by the same quote mark"),
        ('a = "x\nb = 1\n', 1, "a text that ends on its own line"),
        ('a = "x', 1, "a text closed by the same quote mark"),
        ('a = "C:\\jobs"\n', 1, "a plain text"),
        ('a = "\\u12"\n', 1, "a plain text"),
        ("a = town\n", 1, "a text in quotes, a number, a date, true or false"),
        ("a = 2026-02-30\n", 1, "a day of the calendar, such as 2026-04-06"),
        ("= 2\n", 1, "name = value, or a heading such as [sheet]"),
    ],
)
def test_broken_toml_is_told_in_plain_words_with_its_line(
    text: str, line: int, expected: str
) -> None:
    found = complaint(text)

    assert f"rules.toml: line {line}\n" in found
    assert f"expected  {expected}" in found


def test_a_complaint_without_a_rewording_is_told_as_it_is() -> None:
    assert "expected  TOML; " in complaint('a = "\\ud800"\n')


def test_a_long_line_is_cut_in_the_complaint() -> None:
    assert "…" in complaint("a = town" + "x" * 200 + "\n")


def test_feet_and_inches_that_break_the_text_are_advised_on() -> None:
    assert "write feet and inches as" in complaint("length = '5'-6\"'\n")
    assert "write feet and inches as" in complaint('length = "5\'-6""\n')


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 5000 + "]" * 5000,
        "a = " + "[" * 20 + "]" * 20,
        "a" + ".b" * 20 + " = 1",
        "[a" + ".b" * 100_000 + "]\n",
        "a = " + "{a = " * 2000 + "1" + "}" * 2000,
    ],
)
def test_tables_nested_too_deep_are_refused_at_once(text: str) -> None:
    assert "found     tables nested too deep" in complaint(text)


def test_a_web_address_is_not_taken_for_a_nested_key() -> None:
    text = 'address = "https://a.b.c.example.org/d.e/f.g/h.i/j.k/l.m/n.o/p.html"\n'

    assert toml_table(text.encode(), "rules.toml")


def test_a_path_is_shown_from_its_jurisdictions_folder_on() -> None:
    assert shown_path(Path("/home/a/jurisdictions/ford/rules.toml")) == (
        "jurisdictions/ford/rules.toml"
    )
    assert shown_path(Path("jobs/job.toml")) == str(Path("jobs/job.toml"))
