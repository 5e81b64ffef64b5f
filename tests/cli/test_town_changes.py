"""What changed in a town's rules, and which jobs that touches."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from called import called, too_wide

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "demo" / "jobs"
SHEET = ROOT / "jurisdictions" / "millrace" / "rules.toml"


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    """Return a folder with the demo jobs in folders of it, and the firm's file beside them."""
    shutil.copytree(JOBS, tmp_path / "work" / "2026")
    shutil.copy(ROOT / "demo" / "firm.toml", tmp_path / "work" / "firm.toml")
    return tmp_path / "work"


def new_sheet(folder: Path, old: str, new: str) -> Path:
    """Write the demo town's sheet with a text changed; return its file."""
    text = SHEET.read_text(encoding="utf-8")
    assert old in text
    path = folder / "new" / "millrace" / "rules.toml"
    path.parent.mkdir(parents=True)
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return path


def test_changes_are_told_in_words_line_by_line() -> None:
    done = called("town", "changes", "millrace", "--from", "2025-12-31", "--to", "2026-01-01")

    assert done.code == 0
    assert "What are the fees?  fees.lines" in done.out
    assert "how     edition of 2026-01-01, in place of the edition of 2023-07-01" in done.out
    assert "was     permit: $70.00" in done.out
    assert "now     walk: $1.75 per sq ft of walk, least $50.00" in done.out
    assert done.out.endswith("2 rules changed\n")
    assert too_wide(done.out) == []


def test_what_stays_in_a_new_edition_is_counted(tmp_path: Path) -> None:
    sheet = new_sheet(tmp_path, "sum = 70", "sum = 85")

    done = called("town", "changes", sheet, "--from", "2025-12-31", "--to", "2026-01-01")

    assert "same    1 more as before" in done.out
    assert "was     permit" not in done.out


def test_nothing_changes_between_a_day_and_itself() -> None:
    done = called("town", "changes", "millrace", "--from", "2026-01-01", "--to", "2026-01-01")

    assert done.out.endswith("0 rules changed\n")


def test_a_due_day_that_has_come_by_then_is_told() -> None:
    early = called("town", "changes", "millrace", "--from", "2026-02-01", "--to", "2027-06-29")
    late = called("town", "changes", "millrace", "--from", "2026-02-01", "--to", "2027-06-30")

    assert "another look" not in early.out
    assert late.out.endswith("the sheet falls due for another look on 2027-06-30\n")


@pytest.mark.parametrize(
    ("days", "where", "found"),
    [
        (("--from", "2026-01-02", "--to", "2026-01-01"), "--to", "2026-01-01"),
        (("--from", "2026-01-02"), "--to", "nothing"),
        (("--to", "2026-01-02"), "--from", "nothing"),
        (("--from", "2026-02-30", "--to", "2026-03-01"), "--from", "'2026-02-30'"),
        (("--from", "20260101", "--to", "2026-03-01"), "--from", "'20260101'"),
        (("--from", "1/2/26", "--to", "2026-03-01"), "--from", "'1/2/26'"),
        (("--from", "", "--to", "2026-03-01"), "--from", "''"),
    ],
)
def test_a_day_that_is_none_is_told_with_exit_two(
    days: tuple[str, ...], where: str, found: str
) -> None:
    for command in (("changes", "millrace"), ("affected", JOBS)):
        done = called("town", *command, *days)

        assert done.code == 2
        assert done.err.startswith(f"error: {where}\n  found     {found}\n  expected  a day ")


def test_jobs_that_cost_another_sum_or_get_another_verdict_are_named(jobs: Path) -> None:
    done = called("town", "affected", jobs, "--from", "2025-12-31", "--to", "2026-01-01")

    assert done.code == 0
    assert str(jobs / "2026" / "millrace-clean" / "job.toml") in done.out.splitlines()
    assert "was   $210.00\n        now   $250.00" in done.out
    assert "fee-does-not-add-up" in done.out
    assert "sorrel-flats-notch" not in done.out
    assert ", 3 affected\n" in done.out


def test_no_job_is_affected_where_no_rule_changed(jobs: Path) -> None:
    done = called("town", "affected", jobs, "--from", "2026-01-01", "--to", "2026-12-31")

    assert done.out.endswith(" jobs, 0 affected\n")


def test_the_jobs_dates_stay_their_own(jobs: Path) -> None:
    done = called("town", "affected", jobs, "--from", "2020-01-01", "--to", "2026-01-01")

    assert "work-in-closed-season" not in done.out
    assert "permit-runs-out" not in done.out


def test_a_new_sheet_is_held_against_the_one_in_use(jobs: Path, tmp_path: Path) -> None:
    sheet = new_sheet(tmp_path, 'core.bit = { at_most = "4 in"', 'core.bit = { at_most = "3 in"')

    done = called("town", "affected", jobs, "--sheet", sheet)

    assert done.code == 0
    assert "core-too-wide" in done.out
    assert "was   nothing against it" in done.out
    assert "limit at most 3 in" in done.out
    assert "was   ready\n        now   not ready" in done.out


def test_a_new_sheet_may_be_held_against_an_older_day(jobs: Path, tmp_path: Path) -> None:
    sheet = new_sheet(tmp_path, "sum = 85", "sum = 90")
    days = ("--from", "2026-01-01", "--to", "2026-01-01")

    done = called("town", "affected", jobs, *days, "--sheet", sheet)

    assert "was   $250.00\n        now   $255.00" in done.out


def test_one_job_alone_may_be_asked_about() -> None:
    job = JOBS / "millrace-clean" / "job.toml"

    done = called("town", "affected", job, "--from", "2025-12-31", "--to", "2026-01-01")

    assert done.out.endswith("1 jobs, 1 affected\n")


def test_a_job_that_cannot_be_read_is_told_after_the_others(jobs: Path) -> None:
    (jobs / "broken.toml").write_text('town = "millrace\n', encoding="utf-8")
    (jobs / "half.toml").write_text('town = "millrace"\n', encoding="utf-8")
    (jobs / "notes.toml").write_text('say = "no job"\n', encoding="utf-8")

    done = called("town", "affected", jobs, "--from", "2025-12-31", "--to", "2026-01-01")

    assert done.code == 3
    assert ", 3 affected" in done.out
    assert "broken.toml: line 1" in done.err
    assert "half.toml: filing" in done.err
    assert "notes.toml" not in done.err


def test_a_new_sheet_with_faults_is_told_first(jobs: Path, tmp_path: Path) -> None:
    sheet = new_sheet(tmp_path, "schema = 1", "schema = 2")

    done = called("town", "affected", jobs, "--sheet", sheet)

    assert done.code == 3
    assert "expected  schema = 1" in done.err


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    days = ("--from", "2025-12-31", "--to", "2026-01-01")

    done = called("town", "affected", tmp_path / "none", *days)

    assert done.code == 3
    assert "found     no folder" in done.err
