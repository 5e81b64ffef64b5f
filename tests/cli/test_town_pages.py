"""The commands that show what towns say: list, show and compare."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from called import called, too_wide
from pypdf import PdfReader
from town_files import FORD, ON, ROOT, pages, written

if TYPE_CHECKING:
    from pathlib import Path

    import pytest


def row(out: str, place: str) -> str:
    (found,) = [line for line in out.splitlines() if line.startswith(f"{place} ")]
    return found


def test_the_list_tells_how_complete_how_old_and_when_due() -> None:
    done = called("town", "list", *ON)

    assert done.code == 0
    assert row(done.out, "millrace").split()[-4:] == ["35", "days", "2027-06-30", "invented"]
    assert row(done.out, "silverton-or").endswith("unverified")
    assert too_wide(done.out) == []


def test_the_five_counts_of_a_town_are_all_the_questions_there_are() -> None:
    done = called("town", "list", *ON)

    counts = [int(word) for word in row(done.out, "millrace").split()[1:6]]
    assert f"sheets of {sum(counts)} questions on 2026-04-06" in done.out


def test_a_sheet_past_its_day_is_listed_as_overdue(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path)
    monkeypatch.chdir(tmp_path)

    on_the_day = called("town", "list", "--on", "2026-12-31")
    day_after = called("town", "list", "--on", "2027-01-01")

    assert "OVERDUE" not in on_the_day.out
    assert "OVERDUE" in row(day_after.out, "ford")
    assert "1 due for another look" in day_after.out


def test_a_sheet_that_cannot_be_read_is_named_and_the_others_are_listed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path, "schema = 1\n[sheet\n")
    monkeypatch.chdir(tmp_path)

    done = called("town", "list", *ON)

    assert done.code == 3
    assert "ford: 1 fault; see: permitkit town check ford" in done.err
    assert row(done.out, "millrace")


def test_a_place_with_a_long_name_has_a_line_to_itself(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = "the-great-village-of-ford"
    text = FORD.replace('place = "ford"', f'place = "{name}"')
    path = tmp_path / "jurisdictions" / f"{name}.toml"
    path.parent.mkdir()
    path.write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    done = called("town", "list", *ON)

    assert name in done.out.splitlines()
    assert too_wide(done.out) == []


def test_without_a_day_the_list_is_of_today() -> None:
    assert re.search(r"questions on \d{4}-\d{2}-\d{2}", called("town", "list").out)


def test_a_page_shows_standing_due_day_and_where_each_rule_stands() -> None:
    done = called("town", "show", "millrace", *ON)

    assert done.code == 0
    assert "These rules are invented" in done.out
    assert "Another look is due on 2027-06-30." in done.out
    assert "How wide may the hole be?" in done.out
    assert "at most 4 in; may be waived by town engineer" in done.out
    assert "Millrace Public Works Standards" in done.out
    assert "Street opening permit, Town of Millrace" in done.out
    assert too_wide(done.out) == []


def test_a_page_shows_the_editions_of_its_day() -> None:
    old = called("town", "show", "millrace", "--on", "2025-12-31").out
    new = called("town", "show", "millrace", "--on", "2026-01-01").out

    assert "permit: $70.00" in old
    assert "permit: $85.00" in new


def test_a_town_that_was_read_and_not_asked_is_marked_on_every_page(tmp_path: Path) -> None:
    done = called("town", "show", "silverton-or", *ON, "--pdf", tmp_path / "wall.pdf")

    shown = pages(tmp_path / "wall.pdf")
    assert done.out.endswith(f"{len(shown)} pages\n")
    assert all("not verified with the town" in page for page in shown)
    assert f"page 1 of {len(shown)}" in shown[0]
    assert "These rules are not verified with the town" in " ".join(shown[0].split())


def test_an_overdue_sheet_says_so_on_its_page(tmp_path: Path) -> None:
    path = written(tmp_path)

    assert "OVERDUE" in called("town", "show", path, "--on", "2027-01-01").out
    assert "has not been taken" in called("town", "show", path, "--on", "2027-01-01").out
    assert "OVERDUE" not in called("town", "show", path, "--on", "2026-12-31").out


def test_a_page_lists_the_questions_nobody_has_looked_at(tmp_path: Path) -> None:
    done = called("town", "show", written(tmp_path), *ON)

    silent = done.out.split("Nothing is known yet: ask\n")[1]
    assert "- How wide may the hole be?" in silent
    assert "Nothing is known, and many towns never write it down" in done.out


def test_a_page_without_sources_or_silence_says_so(tmp_path: Path) -> None:
    path = written(tmp_path, FORD.partition("[source")[0].replace('follows = ["us-xx"]\n', ""))

    assert called("town", "show", path, *ON).out.endswith("Sources\n\nNone is named yet.\n")


def test_the_same_page_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one.pdf", "two.pdf"):
        called("town", "show", "tarn-county", *ON, "--pdf", tmp_path / name)

    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_a_metric_town_is_printed_on_a4(tmp_path: Path) -> None:
    path = written(tmp_path, FORD.replace("due =", 'units = "metric"\ndue ='))

    called("town", "show", path, *ON, "--pdf", tmp_path / "wall.pdf")

    assert round(float(PdfReader(tmp_path / "wall.pdf").pages[0].mediabox.width)) == 595


def test_the_firms_own_wording_takes_the_place_of_what_ships(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "town-page.txt").write_text("# Ours: {{ town.title }}\n")
    monkeypatch.chdir(tmp_path)

    assert called("town", "show", "millrace", *ON).out.startswith("OURS: TOWN OF MILLRACE\n")


def test_what_differs_between_towns_comes_first() -> None:
    done = called("town", "compare", "millrace", "sorrel-flats", *ON)

    differ, alike = done.out.split("THEY SAY THE SAME")
    assert done.code == 0
    assert "    millrace      at least 3 in\n    sorrel-flats  at least 75 mm\n" in differ
    assert "access.cross_slope" in alike
    assert "Town of Millrace (invented), checked 2026-03-02" in done.out
    assert too_wide(done.out) == []


def test_a_town_differs_from_itself_in_nothing() -> None:
    done = called("town", "compare", "millrace", ROOT / "jurisdictions" / "millrace", *ON)

    assert "THEY DIFFER (0)" in done.out


def test_three_towns_stand_side_by_side() -> None:
    done = called("town", "compare", "millrace", "sorrel-flats", "harrow-heights", *ON)

    assert "    harrow-heights  at least 2 in" in done.out
