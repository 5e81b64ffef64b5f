"""Forms and templates at the command line: fields shown, a map begun, every fault at once."""

from __future__ import annotations

import importlib.util
import shutil
from pathlib import Path

import pytest
from called import called
from pypdf import PdfReader

from permitkit.load.forms.form_map import read_form_map
from permitkit.packet.forms.opened import open_form

ROOT = Path(__file__).resolve().parents[2]
TOWN = "harrow-heights"
FORM = ROOT / "jurisdictions" / TOWN / "forms" / "HH-20.pdf"
JOB = ROOT / "demo" / "jobs" / "harrow-heights-emitter" / "job.toml"


def laid(folder: Path) -> Path:
    """Lay a copy of the demo town and its form into a folder, with a job and a firm beside it."""
    place = folder / "jurisdictions" / TOWN
    shutil.copytree(ROOT / "jurisdictions" / TOWN, place)
    shutil.copy(JOB, folder)
    shutil.copy(ROOT / "demo" / "firm.toml", folder)
    return place


def test_the_fields_of_a_form_are_shown_with_page_kind_and_size() -> None:
    done = called("town", "fields", FORM)

    assert done.code == 0
    assert done.out.startswith("page 1: 216 x 279 mm\n")
    row = next(line for line in done.out.splitlines() if line.startswith("Parcel "))
    assert row.split(maxsplit=1)[1] == (
        "page 1; text; 68 x 6 mm at 129 across, 84 down; at most 12 letters, a cell for each;"
        ' "Parcel no."'
    )
    assert "round buttons" in done.out
    assert "choices -, Local street, Collector, Arterial" in done.out


def test_a_map_is_begun_that_can_be_used_at_once(tmp_path: Path) -> None:
    path = tmp_path / "HH-20.toml"
    done = called("town", "fields", FORM, "-o", path, "--on", "2026-04-06")
    form, faults = read_form_map(path)
    again = called("town", "fields", FORM, "-o", path)

    assert done.code == 0
    assert faults == []
    assert form is not None
    assert form.number == "HH-20"
    assert form.read.isoformat() == "2026-04-06"
    assert len(form.fields) == 41
    assert again.code == 4


def test_a_form_that_cannot_be_opened_is_an_input_fault(tmp_path: Path) -> None:
    path = tmp_path / "form.pdf"
    path.write_text("a text", encoding="utf-8")

    done = called("town", "fields", path)

    assert done.code == 3
    assert done.err == (
        f"error: {path}\n"
        "  found     a file that is no PDF\n"
        "  expected  a PDF\n"
        "  fix       print the form to PDF\n"
    )


def test_the_check_of_a_town_tells_every_fault_of_its_forms_and_templates(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = laid(tmp_path)
    path = place / "forms" / "HH-20.toml"
    text = path.read_text(encoding="utf-8")
    text = text.replace('name = "Phone"', 'name = "Fone"').replace('"owner phone"', '"owner fone"')
    path.write_text(text, encoding="utf-8")
    (place / "templates").mkdir()
    (place / "templates" / "scope.txt").write_text("{{ site.adress }}", encoding="utf-8")
    (place / "templates" / "need.txt").write_text("{% if %}", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    done = called("town", "check", TOWN)

    assert done.code == 3
    told = [line for line in done.err.splitlines() if line.startswith("error: ")]
    beside = f"error: jurisdictions/{TOWN}/"
    assert told == [
        f"{beside}forms/HH-20.toml: field 13, 'OwnerPhone'.write",
        f"{beside}templates/need.txt: line 1",
        f"{beside}templates/scope.txt: line 1",
    ]


def test_the_check_of_a_town_tells_what_its_map_and_its_pdf_disagree_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = laid(tmp_path) / "forms" / "HH-20.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('name = "Phone"', 'name = "Phones"'), encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    done = called("town", "check", TOWN)

    assert done.code == 3
    assert done.err == (
        f"error: jurisdictions/{TOWN}/forms/HH-20.toml: field 3, 'Phones'\n"
        "  found     a field 'Phones'\n"
        "  expected  a field of the PDF, by its whole name\n"
        "  fix       did you mean Phone or OwnerPhone?\n"
    )


@pytest.mark.parametrize(
    ("name", "text"), [("forms/HH-20.toml", "x"), ("templates/need.txt", "{{ x }}")]
)
def test_a_packet_stops_at_a_faulty_form_or_template(tmp_path: Path, name: str, text: str) -> None:
    path = laid(tmp_path) / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")

    done = called("packet", tmp_path / "job.toml", "-o", tmp_path / "town.pdf")

    assert done.code == 3
    assert done.err.startswith(f"error: jurisdictions/{TOWN}/{name}: line 1\n")
    assert not (tmp_path / "town.pdf").exists()


def test_both_copies_are_built_away_from_the_checkout_with_the_firms_own_wording(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    laid(tmp_path)
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "need.txt").write_text("The firm's own words.", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    done = called("packet", "job.toml", "-o", "town.pdf", "--office", "office.pdf")

    assert done.code == 0, done.err
    pages = PdfReader(tmp_path / "town.pdf").pages
    assert any("The firm's own words." in page.extract_text() for page in pages)
    assert (tmp_path / "office.pdf").is_file()


def test_what_the_town_commands_print_is_in_the_towns_own_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = laid(tmp_path)
    (place / "templates").mkdir()
    (place / "templates" / "town-page.txt").write_text("Harrow's page.", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    done = called("town", "show", TOWN, "--on", "2026-04-06")

    assert done.out.startswith("Harrow's page.")


def test_the_demo_form_is_what_its_script_draws(tmp_path: Path) -> None:
    path = ROOT / "demo" / "town_form.py"
    spec = importlib.util.spec_from_file_location("town_form", path)
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    drawn = tmp_path / "drawn.pdf"
    drawn.write_bytes(script.drawn())

    assert open_form(drawn).fields == open_form(FORM).fields
    assert PdfReader(drawn).pages[0].extract_text() == PdfReader(FORM).pages[0].extract_text()
