from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from demo_jobs import NAMES, VARIANTS, changed, faults_of, job_path, told, variant

from permitkit.errors import Exit, InputError
from permitkit.load.job_file import read_job
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize("name", NAMES)
def test_every_demo_job_is_sound_and_knows_its_firm(name: str) -> None:
    job = read_job(job_path(name))

    assert job.firm is not None
    assert job.firm.name == "Larkspur & Vane Drainage, Inc."
    assert job.papers.photo


def test_the_seven_demo_jobs_are_there() -> None:
    assert NAMES == (
        "harrow-heights-core",
        "harrow-heights-emitter",
        "millrace-clean",
        "millrace-cured",
        "millrace-faulty",
        "sorrel-flats-notch",
        "sorrel-flats-verge",
    )


@pytest.mark.parametrize("name", sorted(VARIANTS))
def test_every_variant_is_sound(name: str, tmp_path: Path) -> None:
    job = read_job(variant(tmp_path, name))

    assert job.town == "sorrel-flats"


def test_the_six_inch_notch_is_2_4_mm_over_150_mm(tmp_path: Path) -> None:
    job = read_job(variant(tmp_path, "notch-6-in"))

    assert job.outlet.width is not None
    over = job.outlet.width - read_measure("150 mm", Kind.LENGTH)
    assert over == read_measure("2.4 mm", Kind.LENGTH)


def test_a_job_read_twice_is_the_same() -> None:
    path = job_path("millrace-clean")

    assert read_job(path) == read_job(path)


def test_amounts_are_exact() -> None:
    job = read_job(job_path("millrace-cured"))

    assert job.payment[0].amount == Decimal("327.50")


def test_a_job_without_a_firm_file_has_no_firm(tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-clean")
    (tmp_path / "firm.toml").unlink()

    job = read_job(path)

    assert job.firm is None


def test_a_firm_file_that_is_named_comes_first(tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-clean")
    other = tmp_path / "other.toml"
    text = (tmp_path / "firm.toml").read_text()
    other.write_text(text.replace('signer = "Odile Vane"', 'signer = "Piet Larkspur"'))

    job = read_job(path, other)

    assert job.firm is not None
    assert job.firm.signer == "Piet Larkspur"


def test_the_faults_of_job_and_firm_are_told_together(tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-clean", ('frontage = "64 ft"', 'frontage = "64"'))
    firm = tmp_path / "firm.toml"
    firm.write_text(firm.read_text().replace("schema = 1", "schema = 2"))

    assert [fault.where.removeprefix(f"{tmp_path}/") for fault in faults_of(path)] == [
        "job.toml: site.frontage",
        "firm.toml: schema",
    ]


def test_a_named_firm_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    path = changed(tmp_path, "millrace-clean")

    assert told(path, tmp_path / "none.toml") == (
        "error: none.toml\n"
        "  found     no file\n"
        "  expected  a file that is there\n"
        "  fix       check its name"
    )


def test_a_missing_job_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        read_job(tmp_path / "job.toml")

    assert caught.value.exit_code is Exit.INPUT
    assert caught.value.faults[0].found == "no file"


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "\ufeff"])
def test_an_empty_file_is_told(text: str, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")

    assert told(path) == (
        "error: job.toml\n"
        "  found     an empty file\n"
        "  expected  a job\n"
        "  fix       begin with schema = 1"
    )


def test_what_a_job_file_must_not_state_is_told(tmp_path: Path) -> None:
    text = '\n[firm]\nname = "Larkspur"\n\n[[assumed]]\nfield = "walk.thickness"\n'
    path = changed(tmp_path, "millrace-clean")
    path.write_text(path.read_text() + text)

    assert told(path) == (
        "error: job.toml: firm\n"
        "  found     a field 'firm'\n"
        "  expected  the firm's particulars in firm.toml, beside the job or in a folder above it\n"
        "error: job.toml: assumed\n"
        "  found     a field 'assumed'\n"
        "  expected  nothing: what is assumed is worked out, never written"
    )


def test_every_fault_of_a_file_is_told_at_once(tmp_path: Path) -> None:
    path = changed(
        tmp_path,
        "millrace-clean",
        ("filing = 2026-04-06", 'filing = "2026-04-06"'),
        ('invert = "rod 3.94 ft"', 'invert = "rod 3.94 ft at 2"'),
        ('length = "25 ft"', "length = 25"),
        ('bit = "4 in"', 'bit = "7 in"'),
        ('panel_length = "5 ft"', 'panle_length = "5 ft"'),
        ("finish = 2026-04-30", "finish = 2026-04-20"),
        ('node = "N2"', 'node = "N3"'),
    )

    assert {fault.where.removeprefix(f"{path}: ") for fault in faults_of(path)} == {
        "filing",
        "drain.node[1].invert",
        "drain.reach[1].length",
        "outlet.bit",
        "walk.panel_length",
        "walk.panle_length",
        "dates.finish",
        "drain.inflow[1].node",
    }


def test_no_file_of_rubbish_is_taken_for_a_fault_of_ours(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text('drain = 3\noutlet = ["x"]\nlevel = "rod 4 ft"\nwalk = []\nfeature = 1.5\n')

    found = {fault.where.removeprefix(f"{path}: ") for fault in faults_of(path)}

    assert {"drain", "outlet", "level", "walk", "feature", "schema", "site"} <= found


def test_dates_are_dates() -> None:
    job = read_job(job_path("millrace-clean"))

    assert (job.filing, job.dates.start) == (date(2026, 4, 6), date(2026, 4, 27))
