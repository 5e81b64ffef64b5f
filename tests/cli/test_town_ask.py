"""The command that asks a town what is open: the script of a call, and the letter."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from called import called, too_wide
from town_files import FORD, JOBS, ON, ROOT, pages, written

from permitkit.model.keys import KEYS

if TYPE_CHECKING:
    from pathlib import Path

    import pytest


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
