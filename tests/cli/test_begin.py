"""The command that begins a job file."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING

import pytest
from begun_text import DAY, begun, taken
from called import called, too_wide
from demo_jobs import ROOT

if TYPE_CHECKING:
    from pathlib import Path

ON = ("--on", DAY.isoformat())


def test_a_begun_job_says_what_it_is_and_what_comes_next(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"

    done = called("begin", "millrace", "-o", path, "--outlet", "core", *ON)

    assert (done.code, done.err) == (0, "")
    assert done.out == (
        f"{path}  begun for Town of Millrace\n"
        f"next: fill in what stands empty, then: permitkit check {path}\n"
    )
    assert path.read_text(encoding="utf-8") == begun("core")
    assert path.read_text(encoding="utf-8").startswith(
        "# A job in Town of Millrace, a core.\n"
        "# Every field a job file may hold, in the order one walks: the house first, the street "
        "last. What\n"
    )


def test_a_begun_job_is_checked_field_by_field_until_it_is_filled_in(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    (tmp_path / "firm.toml").write_bytes((ROOT / "demo" / "firm.toml").read_bytes())
    called("begin", "millrace", "-o", path, "--outlet", "core", *ON)

    empty = called("check", path)
    path.write_text(taken(path.read_text(encoding="utf-8")), encoding="utf-8")
    filled = called("check", path)

    assert empty.code == 3
    assert (
        f"error: {path}: curb.shape\n  found     ''\n"
        "  expected  vertical, sloping, rolled, half-round, granite or none\n"
    ) in empty.err
    assert filled.code == 1
    assert {
        line.split()[-1] for line in filled.out.splitlines() if line.startswith("    check")
    } == {"document-missing", "sketch-missing", "photo-missing", "detail-not-cited"}


def test_the_kind_of_outlet_may_be_left_open_and_has_several_words(tmp_path: Path) -> None:
    plain, well = tmp_path / "plain.toml", tmp_path / "well.toml"

    called("begin", "millrace", "-o", plain, *ON)
    called("begin", "millrace", "-o", well, "--outlet", "dry well", *ON)

    assert tomllib.loads(plain.read_text(encoding="utf-8"))["outlet"]["kind"] == ""
    assert tomllib.loads(well.read_text(encoding="utf-8"))["outlet"]["kind"] == "dry well"


def test_a_metric_job_is_begun_in_metres(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"

    called("begin", "millrace", "-o", path, "--metric", *ON)

    assert path.read_text(encoding="utf-8") == begun(None, "metric")
    assert tomllib.loads(path.read_text(encoding="utf-8"))["units"] == "metric"


def test_a_job_is_begun_under_the_sheet_that_lies_beside_it(tmp_path: Path) -> None:
    sheet = (ROOT / "jurisdictions" / "millrace" / "rules.toml").read_text(encoding="utf-8")
    own = sheet.replace('place = "millrace"', 'place = "ford"').replace("Town of Millrace", "Ford")
    (tmp_path / "ford.toml").write_text(own, encoding="utf-8")

    done = called("begin", "ford", "-o", tmp_path / "job.toml", *ON)

    assert done.out.startswith(f"{tmp_path / 'job.toml'}  begun for Ford\n")
    assert 'town = "ford"\n' in (tmp_path / "job.toml").read_text(encoding="utf-8")


def test_the_folder_of_a_new_job_is_made(tmp_path: Path) -> None:
    path = tmp_path / "jobs" / "14-tern" / "job.toml"

    assert called("begin", "millrace", "-o", path, *ON).code == 0
    assert path.is_file()


def test_a_job_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("schema = 1\n", encoding="utf-8")

    done = called("begin", "millrace", "-o", path, *ON)

    assert done.code == 4
    assert done.err == (
        f"error: {path}\n"
        "  found     a file that is there already\n"
        "  expected  a new file\n"
        "  fix       name another file, or move this one away\n"
    )
    assert path.read_text(encoding="utf-8") == "schema = 1\n"


def test_a_town_without_a_sheet_is_told_with_the_nearest(tmp_path: Path) -> None:
    done = called("begin", "milrace", "-o", tmp_path / "job.toml", *ON)

    assert done.code == 2
    assert done.err.startswith("error: town 'milrace'\n  found     no sheet of that name\n")
    assert done.err.endswith("  fix       did you mean millrace?\n")
    assert list(tmp_path.iterdir()) == []


def test_a_town_like_no_other_is_told_how_its_sheet_is_begun(tmp_path: Path) -> None:
    done = called("begin", "quartz-hollow", "-o", tmp_path / "job.toml", *ON)

    assert done.code == 2
    assert done.err.endswith("  fix       begin a sheet for it with `permitkit town new`\n")


def test_a_kind_of_outlet_that_is_none_is_told_with_the_nearest(tmp_path: Path) -> None:
    done = called("begin", "millrace", "-o", tmp_path / "job.toml", "--outlet", "nocth", *ON)

    assert done.code == 2
    assert done.err == (
        "error: --outlet\n"
        "  found     'nocth'\n"
        "  expected  one of core, existing hole, notch, culvert under walk, emitter, dry well, "
        "storm lateral\n"
        "  fix       did you mean notch?\n"
    )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("day", ["2026-02-30", "tomorrow"])
def test_a_day_that_is_none_is_told(tmp_path: Path, day: str) -> None:
    done = called("begin", "millrace", "-o", tmp_path / "job.toml", "--on", day)

    assert done.code == 2
    assert done.err.startswith(f"error: --on\n  found     '{day}'\n")


def test_the_help_fits_a_terminal() -> None:
    assert too_wide(called("begin", "--help").out) == []
