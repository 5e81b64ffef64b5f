"""The town commands: list, show, compare, ask, new, and check."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from called import called, too_wide
from pypdf import PdfReader

from permitkit.model.keys import KEYS

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "demo" / "jobs"
ON = ("--on", "2026-04-06")
FORD = """schema = 1
[sheet]
place = "ford"
title = "Town of Ford"
kind = "town"
follows = ["us-xx"]
checked = 2026-03-02
due = 2026-12-31
standing = "not verified with the town"
office = "Public Works counter"
office_phone = "(555) 555-0199"
[source.code]
title = "Ford Code"
read = 2026-03-02
"""


def written(folder: Path, text: str = FORD) -> Path:
    """Write a sheet into a folder of sheets; return its file."""
    path = folder / "jurisdictions" / "ford" / "rules.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def row(out: str, place: str) -> str:
    (found,) = [line for line in out.splitlines() if line.startswith(f"{place} ")]
    return found


def pages(path: Path) -> list[str]:
    return [page.extract_text() for page in PdfReader(path).pages]


# ---- list


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


# ---- show


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


# ---- compare


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


# ---- ask


def test_a_call_script_asks_what_is_open_with_room_for_name_and_day() -> None:
    done = called("town", "ask", "millrace", *ON)

    assert done.code == 0
    assert "Spoken with: ____" in done.out
    assert "Date: ____" in done.out
    assert "Open: where it lies under pavement: set by detail M-9" in done.out
    assert "How wide may the hole be?" not in done.out
    assert too_wide(done.out) == []


def test_questions_are_counted_on_from_the_first_to_the_last() -> None:
    done = called("town", "ask", "millrace", *ON)

    numbers = [int(found) for found in re.findall(r"^(\d+)\. ", done.out, re.MULTILINE)]
    assert numbers == list(range(1, len(numbers) + 1))


def test_what_many_towns_never_write_down_comes_last_and_may_be_left_out() -> None:
    whole, short = (
        called("town", "ask", "millrace", *ON, *more).out for more in ((), ("--short",))
    )

    assert "How many copies must go in?" in whole.split("If there is time")[1]
    assert "How many copies must go in?" not in short


def test_what_a_job_waits_for_comes_first(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    text = (JOBS / "sorrel-flats-notch" / "job.toml").read_text(encoding="utf-8")
    job.write_text(re.sub(r"\[\[answer\]\]\n(?:.+\n)+", "", text), encoding="utf-8")

    done = called("town", "ask", "sorrel-flats", "--job", job)

    first = done.out.split("First: what 8 Plover Court, Sorrel Flats waits for")[1]
    assert first.lstrip().startswith("1. May this kind of water go to the street?")
    assert "Needed for: sump" in first


def test_an_answered_job_waits_for_nothing() -> None:
    done = called("town", "ask", "sorrel-flats", "--job", JOBS / "sorrel-flats-notch" / "job.toml")

    assert done.code == 0
    assert "First: what" not in done.out


def test_what_the_job_itself_has_to_say_is_not_asked_of_the_town(tmp_path: Path) -> None:
    sheet = tmp_path / "millrace" / "rules.toml"
    sheet.parent.mkdir()
    text = (ROOT / "jurisdictions" / "millrace" / "rules.toml").read_text(encoding="utf-8")
    (line,) = re.findall(r"^core\.bit = .*\n", text, re.MULTILINE)
    cases = "".join(
        f'[[edition.case]]\nat_most = "{size} in"\ncite = "pw 4.2"\n{when}'
        for size, when in ((3, 'when = { soil = "clay" }\n'), (4, ""))
    )
    sheet.write_text(text.replace(line, "") + f'\n[[edition]]\nkey = "core.bit"\n{cases}')
    job = tmp_path / "job.toml"
    clean = (JOBS / "millrace-clean" / "job.toml").read_text(encoding="utf-8")
    job.write_text(re.sub(r"^soil = .*\n", "", clean, flags=re.MULTILINE), encoding="utf-8")

    done = called("town", "ask", sheet, "--job", job)

    assert done.code == 0
    assert "How wide may the hole be?" not in done.out


def test_a_letter_has_the_firm_the_town_every_question_and_room_to_sign(tmp_path: Path) -> None:
    job = JOBS / "millrace-clean" / "job.toml"
    done = called("town", "ask", "millrace", "--job", job, "--letter", tmp_path / "l.pdf")

    text = " ".join(" ".join(pages(tmp_path / "l.pdf")).split())
    assert done.code == 0
    assert "Larkspur & Vane Drainage" in text
    assert "1 Weir Street" in text
    assert "Sign here: answered for Town of Millrace" in text
    assert "set by detail M-9" in text


def test_a_letter_without_a_job_leaves_room_for_the_sender(tmp_path: Path) -> None:
    called("town", "ask", "millrace", *ON, "--letter", tmp_path / "l.pdf")

    assert "From: ____" in pages(tmp_path / "l.pdf")[0]


def test_a_job_of_another_town_is_refused() -> None:
    done = called("town", "ask", "millrace", "--job", JOBS / "sorrel-flats-notch" / "job.toml")

    assert done.code == 2
    assert "expected  a job in millrace" in done.err


def test_a_town_that_leaves_nothing_open_is_told_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    families: dict[str, list[str]] = {}
    for name in KEYS:
        family, _, key = name.partition(".")
        families.setdefault(family, []).append(f"{key} = {{ no_rule = true }}")
    rules = "".join(
        f"[rule.{family}]\n" + "\n".join(keys) + "\n" for family, keys in families.items()
    )
    path = written(tmp_path, FORD.replace('follows = ["us-xx"]\n', "") + rules)
    monkeypatch.chdir(tmp_path)

    done = called("town", "ask", path, *ON)

    assert done.out == "Town of Ford leaves nothing open on 2026-04-06\n"


# ---- new


def test_a_new_sheet_loads_and_passes_its_check(tmp_path: Path) -> None:
    path = tmp_path / "jurisdictions" / "ford" / "rules.toml"

    made = called("town", "new", "us-xx", "Town of Ford", "-o", path, *ON)
    checked = called("town", "check", path)

    assert made.code == 0
    assert "begun from State of Xenia (invented)" in made.out
    assert checked.code == 0
    assert checked.out.endswith("1 sheet, nothing wrong\n")


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


# ---- check, and how a sheet is named


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
