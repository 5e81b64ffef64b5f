"""Bad forms and bad maps: each told with its place, what was found, what was expected, the fix."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Literal

import pikepdf
import pytest
from pypdf.generic import DictionaryObject, NameObject, TextStringObject
from town_forms import (
    FIELDS,
    TOWN,
    changed,
    fields_pdf,
    flat_pdf,
    judged_in,
    mapped,
    spot,
    with_field,
)
from town_forms import town as laid

from permitkit.errors import Exit, Fault, InputError
from permitkit.load.find_sheet import SheetPlaces
from permitkit.load.rule_sheet import load_layers
from permitkit.packet.forms.asked import faults_of_forms, filled_forms

if TYPE_CHECKING:
    from pathlib import Path

    from pypdf import PdfWriter


def faults_of(folder: Path, pdf: bytes, text: str) -> list[Fault]:
    """Return what is wrong with a form in a town."""
    laid(folder, **{"HH-20": (pdf, text)})
    return list(faults_of_forms(load_layers(TOWN, SheetPlaces(job=folder))))


def only(folder: Path, pdf: bytes, text: str) -> Fault:
    (fault,) = faults_of(folder, pdf, text)
    return fault


def test_a_sound_form_has_no_fault(tmp_path: Path) -> None:
    assert faults_of(tmp_path, fields_pdf(), mapped(*FIELDS)) == []


@pytest.mark.parametrize(
    ("line", "found", "told"),
    [
        ('name = "Nam"; write = "owner name"', "a field 'Nam'", "Name"),
        (
            'name = "Name"; tick = "outlet"; is = ["core"]',
            "tick, in a field that is a text",
            "write",
        ),
        (
            'name = "Name"; choose = "outlet"; options = { core = "a" }',
            "choose, in a field",
            "write",
        ),
    ],
)
def test_a_field_that_does_not_agree_is_named(
    tmp_path: Path, line: str, found: str, told: str
) -> None:
    fields = tuple(line if one.startswith('name = "Name"') else one for one in FIELDS)

    fault = only(tmp_path, fields_pdf(), mapped(*fields))

    assert fault.where.startswith(f"jurisdictions/{TOWN}/forms/HH-20.toml: field 1")
    assert found in fault.found
    assert told in fault.expected + fault.fix


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ('name = "TickCore"; write = "outlet"', "write, in a field that is a tick box"),
        ('name = "Class"; tick = "outlet"; is = ["core"]', "tick, in a field that is a list"),
        ('name = "Class"; choose = "outlet"; options = { core = "Lokal" }', "'Lokal'"),
        ('name = "TickCore"; tick = "permits"; is = ["gradin"]', "'gradin'"),
        ('name = "Short"; say = "a sentence too long"', "19 letters"),
        ('name = "Name"; say = "\u6c34"', "'\u6c34' with \u6c34 (U+6C34)"),
    ],
)
def test_what_a_field_cannot_take_is_told(tmp_path: Path, line: str, found: str) -> None:
    assert only(tmp_path, fields_pdf(), mapped(*with_field(line))).found == found


@pytest.mark.parametrize(
    ("line", "where", "found", "expected"),
    [
        (
            'page = 3; across = "1 in"; down = "1 in"; width = "1 in"; write = "fee"',
            ".page",
            "3",
            "1 page",
        ),
        (
            'page = 1; across = "8 in"; down = "1 in"; width = "2 in"; write = "fee"',
            "",
            "254 mm",
            "216 mm",
        ),
        (
            'page = 1; across = "1 in"; down = "12 in"; width = "2 in"; write = "fee"',
            "",
            "305 mm",
            "279 mm",
        ),
        (
            'page = 1; across = "1 in"; down = "1 mm"; width = "2 in"; write = "fee"',
            "",
            "1 mm down",
            "279",
        ),
        (
            'page = 1; across = "1 in"; down = "0 in"; width = "0 in"; write = "fee"',
            "",
            "25 mm",
            "216",
        ),
    ],
)
def test_a_place_off_the_paper_is_told(
    tmp_path: Path, line: str, where: str, found: str, expected: str
) -> None:
    fault = faults_of(tmp_path, flat_pdf(), mapped(line))[0]

    assert fault.where.endswith(f"field 1{where}")
    assert found in fault.found
    assert expected in fault.expected


def test_a_form_without_fields_says_so(tmp_path: Path) -> None:
    fault = only(tmp_path, flat_pdf(), mapped('name = "Name"; write = "owner name"'))

    assert fault.expected == "a form with fields: this PDF has none"


@pytest.mark.parametrize("strength", [3, 4, 6])
def test_a_pdf_locked_by_a_password_is_told(tmp_path: Path, strength: Literal[3, 4, 6]) -> None:
    target = io.BytesIO()
    with pikepdf.open(io.BytesIO(flat_pdf())) as pdf:
        keys = pikepdf.Encryption(
            owner="owner", user="", R=strength, aes=strength > 3, metadata=strength > 3
        )
        pdf.save(target, encryption=keys)

    fault = only(tmp_path, target.getvalue(), mapped())

    assert fault.where == f"jurisdictions/{TOWN}/forms/HH-20.pdf"
    assert fault.found == "a PDF locked by a password"
    assert "ask the town for one without" in fault.fix


def xfa(writer: PdfWriter) -> None:
    writer.root_object["/AcroForm"][NameObject("/XFA")] = TextStringObject("x")  # type: ignore[index]


def test_an_xfa_form_is_told(tmp_path: Path) -> None:
    fault = only(tmp_path, changed(fields_pdf(), xfa), mapped())

    assert fault.found.startswith("an XFA form")
    assert "print it to PDF" in fault.fix


@pytest.mark.parametrize(
    ("content", "found"),
    [
        (b"PK\x03\x04 a text file", "a file that is no PDF"),
        (b"%PDF-1.4\nbroken", "a PDF that cannot be read"),
        (b"", "a file that is no PDF"),
    ],
)
def test_a_file_that_is_no_pdf_is_told(tmp_path: Path, content: bytes, found: str) -> None:
    assert only(tmp_path, content, mapped()).found.startswith(found)


def test_a_form_whose_pdf_is_missing_is_told(tmp_path: Path) -> None:
    place = laid(tmp_path, **{"HH-20": (b"", mapped())})
    (place / "forms" / "HH-20.pdf").unlink()

    (fault,) = faults_of_forms(load_layers(TOWN, SheetPlaces(job=tmp_path)))

    assert fault.found == "no file"


def test_a_pdf_that_is_another_than_the_map_was_made_for_is_told(tmp_path: Path) -> None:
    head = mapped(*FIELDS).replace("declares = true", 'declares = true\ndigest = "0123456789ab"')

    assert only(tmp_path, fields_pdf(), head).found == "'0123456789ab'"


def test_a_form_that_no_permit_names_is_told_with_the_nearest(tmp_path: Path) -> None:
    fault = only(tmp_path, fields_pdf(), mapped(*FIELDS).replace("HH-20", "HH-2O"))

    assert fault.found == "'HH-2O'"
    assert "HH-20" in fault.fix


def test_an_edition_that_does_not_lie_there_is_told(tmp_path: Path) -> None:
    fault = only(tmp_path, fields_pdf(), mapped(*FIELDS).replace("2025-01", "2023-01"))

    assert fault.found == "edition 2025-01, of which no form lies in forms"
    assert "2023-01" in fault.expected
    with pytest.raises(InputError, match="edition 2025-01"):
        filled_forms(judged_in(tmp_path))


def test_two_maps_of_one_edition_and_a_pdf_without_a_map_are_told(tmp_path: Path) -> None:
    place = laid(
        tmp_path,
        one=(fields_pdf(), mapped(*FIELDS)),
        two=(fields_pdf(), mapped(*FIELDS)),
    )
    (place / "forms" / "three.pdf").write_bytes(flat_pdf())

    told = [fault.found for fault in faults_of_forms(load_layers(TOWN, SheetPlaces(job=tmp_path)))]

    assert told == [
        f"HH-20 of 2025-01, as in jurisdictions/{TOWN}/forms/one.toml",
        "no map",
    ]


def test_a_packet_is_not_written_with_a_faulty_form(tmp_path: Path) -> None:
    laid(tmp_path, **{"HH-20": (fields_pdf(), mapped('name = "Nam"; write = "fee"'))})

    with pytest.raises(InputError) as caught:
        filled_forms(judged_in(tmp_path))

    assert caught.value.exit_code is Exit.INPUT
    assert caught.value.faults[0].found == "a field 'Nam'"


def test_a_place_on_paper_may_stand_in_a_form_with_fields(tmp_path: Path) -> None:
    fields = (*FIELDS, spot("200 mm", 'write = "fee"'))

    assert faults_of(tmp_path, fields_pdf(), mapped(*fields)) == []


def test_a_form_without_an_acroform_is_flat(tmp_path: Path) -> None:
    def bare(writer: PdfWriter) -> None:
        writer.root_object[NameObject("/AcroForm")] = DictionaryObject()

    assert (
        faults_of(tmp_path, changed(flat_pdf(), bare), mapped(spot("60 mm", 'write = "fee"'))) == []
    )
