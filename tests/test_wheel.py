"""Installed as a wheel, away from the checkout: rule sheets and templates travel inside."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from pypdf import PdfReader

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel from a clean copy and unpack it into a folder of its own."""
    source = tmp_path_factory.mktemp("source")
    wheels = tmp_path_factory.mktemp("wheels")
    target = tmp_path_factory.mktemp("installed")
    for name in ("permitkit", "jurisdictions", "templates"):
        ignored = shutil.ignore_patterns("__pycache__")
        shutil.copytree(ROOT / name, source / name, ignore=ignored)
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(ROOT / name, source / name)
    words = ["wheel", "--no-deps", "--no-build-isolation", "--quiet", "-w", str(wheels), "."]
    subprocess.run([sys.executable, "-m", "pip", *words], check=True, cwd=source)
    with zipfile.ZipFile(next(wheels.glob("*.whl"))) as wheel:
        wheel.extractall(target)
    return target


def run(installed: Path, folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "permitkit", *words],
        check=False,
        capture_output=True,
        text=True,
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(installed)},
    )


def test_a_packet_is_built_from_a_copied_job_in_an_empty_folder(
    installed: Path, tmp_path: Path
) -> None:
    shutil.copy(ROOT / "demo" / "jobs" / "millrace-clean" / "job.toml", tmp_path)
    shutil.copy(ROOT / "demo" / "firm.toml", tmp_path)

    done = run(installed, tmp_path, "packet", "job.toml", "-o", "packet.pdf")

    assert done.returncode == 0, done.stderr
    assert (tmp_path / "packet.pdf").read_bytes().startswith(b"%PDF")


def test_a_towns_form_travels_and_is_filled_there(installed: Path, tmp_path: Path) -> None:
    shutil.copy(ROOT / "demo" / "jobs" / "harrow-heights-emitter" / "job.toml", tmp_path)
    shutil.copy(ROOT / "demo" / "firm.toml", tmp_path)

    done = run(
        installed, tmp_path, "packet", "job.toml", "-o", "town.pdf", "--office", "office.pdf"
    )

    assert done.returncode == 0, done.stderr
    fields = PdfReader(tmp_path / "town.pdf").get_fields() or {}
    assert fields["HH-20.Owner"]["/V"] == "Bram Okonjo"


def test_the_sheets_that_ship_pass_their_check_there(installed: Path, tmp_path: Path) -> None:
    done = run(installed, tmp_path, "town", "check")

    assert done.returncode == 0, done.stderr
    assert "millrace" in done.stdout
    assert str(ROOT) not in done.stdout


def test_the_sheet_used_is_told_and_one_beside_the_job_stands_in_front(
    installed: Path, tmp_path: Path
) -> None:
    shutil.copy(ROOT / "demo" / "jobs" / "millrace-clean" / "job.toml", tmp_path)
    shutil.copy(ROOT / "demo" / "firm.toml", tmp_path)
    own = tmp_path / "jurisdictions" / "millrace"
    shutil.copytree(ROOT / "jurisdictions" / "millrace", own)

    shipped = run(installed, ROOT / "demo" / "jobs" / "millrace-clean", "check", "job.toml")
    beside = run(installed, tmp_path, "check", "job.toml")

    assert "shipped" in shipped.stdout
    assert "shipped" not in beside.stdout
    assert "rules.toml" in beside.stdout


def test_both_copies_are_built_away_from_the_checkout(installed: Path, tmp_path: Path) -> None:
    job = ROOT / "demo" / "jobs" / "sorrel-flats-notch" / "job.toml"

    done = run(installed, tmp_path, "packet", str(job), "-o", "town.pdf", "--office", "office.pdf")

    assert done.returncode == 0, done.stderr
    attached = PdfReader(tmp_path / "office.pdf").attachments
    for place in ("sorrel-flats", "us-xx", "us"):
        text = (ROOT / "jurisdictions" / place / "rules.toml").read_bytes()
        assert attached[f"rules-{place}.toml"] == [text]
