"""What a contractor sees when a file, a town or a folder is wrong: a message, never a trace."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
CLEAN = ROOT / "demo" / "jobs" / "millrace-clean" / "job.toml"
FAULTY = ROOT / "demo" / "jobs" / "millrace-faulty" / "job.toml"


def permitkit(*words: object, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "permitkit", *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80"},
    )


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """Return the clean job copied to an empty folder, with the firm file beside it."""
    shutil.copy(CLEAN, tmp_path / "job.toml")
    shutil.copy(ROOT / "demo" / "firm.toml", tmp_path / "firm.toml")
    return tmp_path / "job.toml"


def changed(job: Path, old: str, new: str) -> Path:
    text = job.read_text(encoding="utf-8")
    assert old in text
    job.write_text(text.replace(old, new, 1), encoding="utf-8")
    return job


def test_a_clean_job_exits_zero_and_says_ready(job: Path) -> None:
    done = permitkit("check", job)

    assert done.returncode == 0
    assert "READY: 0 faults" in done.stdout
    assert done.stderr == ""


def test_no_line_of_the_report_is_over_eighty_columns() -> None:
    done = permitkit("check", FAULTY, "--all")

    assert done.returncode == 1
    assert [line for line in done.stdout.splitlines() if len(line) > 80] == []


def test_the_json_report_has_its_declared_shape() -> None:
    done = permitkit("check", FAULTY, "--json")

    content = json.loads(done.stdout)
    assert list(content) == ["schema", "town", "job", "ready", "counts", "verdicts"]
    assert content["schema"] == 1
    assert content["ready"] is False
    assert {"check", "item", "outcome", "proposed", "limit", "source", "cure"} <= set(
        content["verdicts"][0]
    )
    assert sum(content["counts"].values()) == len(content["verdicts"])


def test_a_missing_file_is_told_with_exit_three(tmp_path: Path) -> None:
    done = permitkit("check", tmp_path / "nothing.toml")

    assert done.returncode == 3
    assert done.stderr.startswith("error: ")
    assert "nothing.toml" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_town_without_a_sheet_offers_the_nearest_names(job: Path) -> None:
    done = permitkit("check", changed(job, 'town = "millrace"', 'town = "milrace"'))

    assert done.returncode == 2
    assert "millrace" in done.stderr


def test_broken_toml_names_the_line(job: Path) -> None:
    job.write_text('schema = 1\ntown = "millrace\n', encoding="utf-8")

    done = permitkit("check", job)

    assert done.returncode == 3
    assert "line 2" in done.stderr


def test_a_misspelt_field_offers_the_nearest_one(job: Path) -> None:
    done = permitkit("check", changed(job, "panel_length", "panel_lenght"))

    assert done.returncode == 3
    assert "panel_length" in done.stderr


def test_a_number_without_its_unit_is_refused_as_found(job: Path) -> None:
    done = permitkit("check", changed(job, 'frontage = "64 ft"', "frontage = 64"))

    assert done.returncode == 3
    assert re.search(r"error: .*site\.frontage", done.stderr)
    assert "found     64" in done.stderr
    assert "expected  a length with its unit" in done.stderr


def test_a_wrong_unit_is_refused(job: Path) -> None:
    done = permitkit("check", changed(job, 'frontage = "64 ft"', 'frontage = "64 gpm"'))

    assert done.returncode == 3
    assert "'64 gpm'" in done.stderr


def test_all_faults_of_a_file_are_told_at_once(job: Path) -> None:
    changed(job, 'frontage = "64 ft"', "frontage = 64")
    changed(job, "panel_length", "panel_lenght")

    done = permitkit("check", job)

    assert done.stderr.count("error: ") >= 2


def test_an_empty_job_names_what_is_missing(job: Path) -> None:
    job.write_text("", encoding="utf-8")

    done = permitkit("check", job)

    assert done.returncode == 3
    assert "Traceback" not in done.stderr


def test_a_hole_larger_than_the_reveal_is_an_input_fault(job: Path) -> None:
    done = permitkit("check", changed(job, 'bit = "4 in"', 'bit = "8 in"'))

    assert done.returncode == 3
    assert "8 in" in done.stderr


def test_an_unwritable_folder_gives_exit_four_and_keeps_the_old_packet(
    job: Path, tmp_path: Path
) -> None:
    done = permitkit("packet", job, "-o", tmp_path / "no" / "such" / "packet.pdf")

    assert done.returncode == 4
    assert "packet.pdf" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_packet_needs_a_place_to_go(job: Path) -> None:
    assert permitkit("packet", job).returncode == 2


def test_a_failing_job_writes_no_packet_and_leaves_the_old_one_whole(tmp_path: Path) -> None:
    old = tmp_path / "packet.pdf"
    old.write_bytes(b"the old packet")

    done = permitkit("packet", FAULTY, "-o", old)

    assert done.returncode == 1
    assert old.read_bytes() == b"the old packet"


def test_an_unknown_check_is_told_with_the_nearest_one() -> None:
    done = permitkit("why", "core-to-wide")

    assert done.returncode == 2
    assert "core-too-wide" in done.stderr


def test_why_shows_the_cases_tried_for_a_job() -> None:
    done = permitkit("why", "core-too-wide", CLEAN)

    assert done.returncode == 0
    assert "core.bit" in done.stdout
    assert "4 in" in done.stdout


def test_every_shipped_sheet_passes_its_own_check() -> None:
    done = permitkit("town", "check")

    assert done.returncode == 0, done.stderr
    assert "nothing wrong" in done.stdout


@pytest.mark.parametrize("words", [["--help"], ["check", "--help"], ["town", "--help"]])
def test_help_fits_eighty_columns(words: list[str]) -> None:
    done = permitkit(*words)

    assert done.returncode == 0
    assert [line for line in done.stdout.splitlines() if len(line) > 80] == []
