"""The filled form in the packet: in place of the plain page, listed, bound beside others."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pikepdf
from packets import JOBS, judged, office, town
from pypdf import PdfReader
from town_forms import (
    FIELDS,
    LETTER,
    ROOT,
    fields_pdf,
    filled,
    flat_pdf,
    judged_in,
    mapped,
    texts_of,
)
from town_forms import town as laid

from permitkit.packet.assembly import town_copy
from permitkit.packet.forms.asked import filled_forms

if TYPE_CHECKING:
    from pathlib import Path

# ---- in the packet


def test_the_plain_page_is_left_out_where_the_form_holds_everything(tmp_path: Path) -> None:
    filled(tmp_path, fields_pdf(), *FIELDS)
    text = texts_of(town_copy(judged_in(tmp_path), draft=False, folder=tmp_path).pdf)

    assert not any("Application for a permit" in page for page in text)
    assert "Form HH-20 page 2" in " ".join(text[0].split())


def test_the_plain_page_stays_where_a_declaration_would_be_lost(tmp_path: Path) -> None:
    pdf = fields_pdf()
    text = mapped(*FIELDS).replace("declares = true\n", "")
    laid(tmp_path, **{"HH-20": (pdf, text)})

    printed = " ".join(texts_of(town_copy(judged_in(tmp_path), draft=False, folder=tmp_path).pdf))

    assert "Application for a permit" in printed
    assert "Only roof, footing, sump and yard water enters this line." in printed


def test_a_town_without_a_form_has_the_plain_page() -> None:
    text = " ".join(texts_of(town("millrace-clean").pdf))

    assert "Application for a permit" in text
    assert "Before the forms go in" not in text


def test_what_is_left_to_a_pen_is_listed_on_the_transmittal() -> None:
    text = " ".join(texts_of(town("harrow-heights-emitter").pdf)[0].split())

    assert "Form HH-20, to be filled by hand: Estimated cost" in text
    assert "Form HH-20, to be signed: Signature of applicant" in text


def test_two_forms_may_call_their_fields_alike(tmp_path: Path) -> None:
    other = mapped(*FIELDS[1:], 'name = "Name"; write = "owner name"')
    place = laid(
        tmp_path,
        **{
            "HH-20": (fields_pdf(), mapped(*FIELDS)),
            "HH-21": (fields_pdf(), other.replace("HH-20", "HH-21")),
        },
    )
    sheet = place / "rules.toml"
    listed = 'items = ["application form", '
    text = sheet.read_text(encoding="utf-8")
    assert text.count(listed) == 1
    asked = 'items = [{ name = "drain form", number = "HH-21" }, "application form", '
    sheet.write_text(text.replace(listed, asked), encoding="utf-8")

    made = town_copy(judged_in(tmp_path), draft=True, folder=tmp_path)

    found = PdfReader(io.BytesIO(made.pdf)).get_fields() or {}
    assert found["HH-20.Name"]["/V"] == "Larkspur & Vane Drainage, Inc."
    assert found["HH-21.Name"]["/V"] == "Bram Okonjo"
    with pikepdf.open(io.BytesIO(made.pdf)) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert [str(field.T) for field in pdf.Root.AcroForm.Fields] == ["HH-20", "HH-21"]


def test_a_filled_form_is_sound_and_the_same_each_time(tmp_path: Path) -> None:
    first = filled(tmp_path, fields_pdf(), *FIELDS).pdf
    again = filled(tmp_path, fields_pdf(), *FIELDS).pdf

    assert first == again
    with pikepdf.open(io.BytesIO(first)) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_every_letter_filled_in_is_embedded() -> None:
    with pikepdf.open(io.BytesIO(town("harrow-heights-emitter").pdf)) as pdf:
        drawn = [
            annotation.AP.N
            for annotation in pdf.pages[1].Annots
            if str(annotation.get("/V", "")) and annotation.get("/FT") == "/Tx"
        ]
        faces = [face for one in drawn for face in one.Resources.Font.values()]

        assert len(drawn) > 15
        assert all("/FontFile2" in face.FontDescriptor for face in faces)


def test_the_enclosures_say_that_the_form_is_in_the_packet() -> None:
    text = " ".join(" ".join(texts_of(town("harrow-heights-emitter").pdf)).split())

    assert "Grading and drainage application application form HH-20 in this packet" in text


def test_the_form_of_the_edition_in_force_is_taken(tmp_path: Path) -> None:
    older, newer = mapped(*FIELDS), mapped(*FIELDS).replace("2025-01", "2026-06")
    place = laid(
        tmp_path, older=(fields_pdf(), older), newer=(flat_pdf(), newer.split("[[field]]")[0])
    )
    sheet = place / "rules.toml"
    rule = 'docs.required = { items = ["application form", '
    edition = """
[[edition]]
key = "docs.required"
[[edition.case]]
items = ["application form"]
cite = "code 9.3"
[[edition]]
key = "docs.required"
since = 2026-06-08
[[edition.case]]
items = [{ name = "application form", number = "HH-20", revision = "2026-06" }]
cite = "code 9.3"
"""
    text = sheet.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if line.startswith(rule))
    sheet.write_text(text.replace(line, "") + edition, encoding="utf-8")

    (before,) = filled_forms(judged_in(tmp_path, ("filing = 2026-06-08", "filing = 2026-06-05")))
    (on_the_day,) = filled_forms(judged_in(tmp_path))

    assert before.form.edition == "2025-01"
    assert on_the_day.form.edition == "2026-06"


def test_a_packet_with_forms_is_checked_against_the_right_pages() -> None:
    made = town("harrow-heights-emitter")
    page = PdfReader(io.BytesIO(made.pdf)).pages[1]

    assert (float(page.mediabox.width), float(page.mediabox.height)) == LETTER
    assert judged("harrow-heights-emitter").ready
    assert (
        made.pdf
        == town_copy(
            judged("harrow-heights-emitter"), draft=False, folder=JOBS / "harrow-heights-emitter"
        ).pdf
    )


def test_a_form_that_the_firm_encloses_itself_is_not_filled_in_again(tmp_path: Path) -> None:
    laid(tmp_path, **{"HH-20": (fields_pdf(), mapped(*FIELDS))})
    (tmp_path / "own.pdf").write_bytes(flat_pdf())
    enclosed = ('number = "HH-20"\n', 'number = "HH-20"\nfile = "own.pdf"\n')

    assert filled_forms(judged_in(tmp_path, enclosed)) == ()


def test_the_office_copy_holds_what_the_forms_were_made_of() -> None:
    inside = PdfReader(io.BytesIO(office("harrow-heights-emitter").pdf)).attachments
    path = ROOT / "jurisdictions" / "harrow-heights" / "forms" / "HH-20.toml"

    assert inside["form-harrow-heights-HH-20.toml"] == [path.read_bytes()]
    assert "form-harrow-heights-HH-20.pdf" in inside
