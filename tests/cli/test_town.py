"""The commands that begin a town's sheet and check it, and how a sheet is named."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from called import called, too_wide
from town_files import FORD, ON, ROOT, written

if TYPE_CHECKING:
    from pathlib import Path


def test_a_new_sheet_loads_and_passes_its_check(tmp_path: Path) -> None:
    path = tmp_path / "jurisdictions" / "ford" / "rules.toml"

    made = called("town", "new", "us-xx", "Town of Ford", "-o", path, *ON)
    checked = called("town", "check", path)

    assert made.code == 0
    assert "begun from State of Xenia (invented)" in made.out
    assert checked.code == 0
    assert checked.out.endswith("1 sheet, nothing wrong\n")


def test_a_check_notes_a_word_of_the_towns_own_and_finds_nothing_wrong(tmp_path: Path) -> None:
    path = written(tmp_path)
    order = '\n[rule.outlet.order]\norder = ["the quarry", "gutter"]\ncite = "code 1"\n'
    path.write_text(FORD + order, encoding="utf-8")

    done = called("town", "check", path)
    assert (done.code, done.err) == (0, "")
    assert "outlet.order: case 1\n  found     'the quarry', a word of the sheet's own\n" in done.out
    assert done.out.endswith("1 sheet, nothing wrong\n")


def test_a_new_sheet_never_overwrites_an_old_one(tmp_path: Path) -> None:
    path = written(tmp_path)

    done = called("town", "new", "us-xx", "Town of Ford", "-o", path, *ON)

    assert done.code == 4
    assert "found     a file that is there already" in done.err
    assert path.read_text(encoding="utf-8") == FORD


def test_a_new_sheet_falls_due_in_a_year_also_from_a_leap_day(tmp_path: Path) -> None:
    plain, leap = tmp_path / "plain.toml", tmp_path / "leap.toml"

    called("town", "new", "us-xx", "Plain", "-o", plain, *ON)
    called("town", "new", "us-xx", "Leap", "-o", leap, "--on", "2028-02-29")

    assert "due = 2027-04-06" in plain.read_text(encoding="utf-8")
    assert "due = 2029-02-28" in leap.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "where"),
    [
        (("millrace", "Town of Ford", "-o", "ford.toml"), "STATE"),
        (("us-xx", "  ", "-o", "ford.toml"), "NAME"),
        (("us-xx", "Town of Ford", "-o", "my town.toml"), "--out"),
        (("us-xx", "Town of Ford", "-o", "ford.txt"), "--out"),
        (("us-zz", "Town of Ford", "-o", "ford.toml"), "town 'us-zz'"),
    ],
)
def test_a_new_sheet_called_wrongly_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], where: str
) -> None:
    monkeypatch.chdir(tmp_path)

    done = called("town", "new", *words, *ON)

    assert done.code == 2
    assert done.err.startswith(f"error: {where}\n")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_made_gives_exit_four(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")

    done = called(
        "town", "new", "us-xx", "Ford", "-o", tmp_path / "file" / "ford" / "rules.toml", *ON
    )

    assert done.code == 4
    assert "expected  a folder that can be made" in done.err


@pytest.mark.parametrize("named", ["ford", "jurisdictions/ford", "jurisdictions/ford/rules.toml"])
def test_a_sheet_is_named_by_its_place_its_folder_or_its_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, named: str
) -> None:
    written(tmp_path)
    monkeypatch.chdir(tmp_path)

    done = called("town", "check", named)

    assert done.code == 0
    assert done.out.startswith("Town of Ford: jurisdictions/ford/rules.toml (")


def test_a_file_alone_is_a_sheet_and_finds_the_layers_beside_it(tmp_path: Path) -> None:
    (tmp_path / "ford.toml").write_text(FORD.replace("us-xx", "dale"), encoding="utf-8")
    dale = FORD.replace('"ford"', '"dale"').replace('follows = ["us-xx"]\n', "")
    (tmp_path / "dale.toml").write_text(dale, encoding="utf-8")

    assert called("town", "check", tmp_path / "ford.toml").code == 0


def test_check_names_every_stranger_and_checks_the_others() -> None:
    done = called("town", "check", "milrace", "sorel-flats", "millrace")

    assert done.code == 2
    assert done.err.count("no sheet of that name") == 2
    assert "fix       did you mean millrace" in done.err.replace("'", "").replace("?", "")
    assert "Town of Millrace" in done.out


def test_a_fault_of_a_layer_is_told_once_for_all_the_towns_on_it(tmp_path: Path) -> None:
    layer = tmp_path / "dale.toml"
    layer.write_text(
        FORD.replace('"ford"', '"dale"').replace('follows = ["us-xx"]\n', 'kinds = "a"\n'),
        encoding="utf-8",
    )
    for name in ("ford", "glen"):
        text = FORD.replace('"ford"', f'"{name}"').replace("us-xx", "dale")
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")

    done = called("town", "check", tmp_path / "ford.toml", tmp_path / "glen.toml")

    assert done.code == 3
    assert done.err.count("error: ") == 1


def test_a_broken_sheet_keeps_its_faults_when_shown(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "jurisdictions" / "us-xx", tmp_path / "jurisdictions" / "us-xx")
    path = written(tmp_path, FORD + '[rule]\ncore.bit = { at_most = "4 gpm", cite = "code 1" }\n')

    done = called("town", "show", path, *ON)

    assert done.code == 3
    assert "4 gpm" in done.err


@pytest.mark.parametrize(
    "command", ["list", "show", "check", "compare", "ask", "new", "changes", "affected"]
)
def test_each_commands_help_fits_eighty_columns(
    command: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")

    done = called("town", command, "--help")

    assert done.code == 0
    assert too_wide(done.out) == []
