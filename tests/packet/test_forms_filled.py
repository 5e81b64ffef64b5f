"""The town's own form: values in its fields, read back by three readers, and never a signature."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject, FloatObject, NameObject, NumberObject
from town_forms import (
    FIELDS,
    LONG,
    OWNER,
    bare_widget,
    changed,
    fields_pdf,
    filled,
    flat_pdf,
    inked,
    judged_in,
    spot,
    texts_of,
    values,
    with_field,
)

from permitkit.errors import InputError
from permitkit.packet.assembly import town_copy
from permitkit.packet.forms.filled import NOTES

if TYPE_CHECKING:
    from pathlib import Path

    from pypdf import PdfWriter


def by_poppler(pdf: bytes, folder: Path) -> str:
    """Return the text of a PDF as poppler draws it."""
    program = shutil.which("pdftotext")
    if program is None:
        pytest.skip("poppler is not installed here")
    path = folder / "read.pdf"
    path.write_bytes(pdf)
    done = subprocess.run(
        [program, "-layout", path, "-"], check=True, capture_output=True, text=True
    )
    return done.stdout


# ---- fields


def test_values_stand_in_their_fields_and_every_reader_shows_them(tmp_path: Path) -> None:
    pdf = filled(tmp_path, fields_pdf(), *FIELDS).pdf

    held = values(pdf)
    assert held["Name"] == "Larkspur & Vane Drainage, Inc."
    assert held["Narrow"] == "Bram Okonjo"
    for shown in (inked(pdf), by_poppler(pdf, tmp_path)):
        assert "Larkspur & Vane Drainage, Inc." in shown
        assert "Bram Okonjo" in shown
        assert "08:00 to 16:00" in shown
        assert "".join(re.findall(r"\d", shown)).startswith("06222026")


def test_no_reader_is_asked_to_draw_the_values_anew(tmp_path: Path) -> None:
    pdf = filled(tmp_path, changed(fields_pdf(), asks_to_be_drawn), *FIELDS).pdf

    assert "/NeedAppearances" not in PdfReader(io.BytesIO(pdf)).trailer["/Root"]["/AcroForm"]


def asks_to_be_drawn(writer: PdfWriter) -> None:
    writer.set_need_appearances_writer(state=True)


def test_a_box_is_ticked_in_the_forms_own_way_and_the_others_are_not(tmp_path: Path) -> None:
    reader = PdfReader(io.BytesIO(filled(tmp_path, fields_pdf(), *FIELDS).pdf))

    shown = {
        str(held.get_object().get("/T")): held.get_object().get("/AS")
        for held in reader.pages[0]["/Annots"]
        if "/AS" in held.get_object()
    }
    assert shown["TickEmitter"] == "/Yes"
    assert shown["TickCore"] == "/Off"


def test_one_round_button_and_one_choice_of_a_list_are_taken(tmp_path: Path) -> None:
    pdf = filled(tmp_path, fields_pdf(), *FIELDS).pdf

    held = values(pdf)
    assert held["Who"] == "/firm"
    assert held["Class"] == "Local"
    assert "Local" in inked(pdf)


def test_a_signature_and_its_date_stay_as_they_were(tmp_path: Path) -> None:
    made = filled(tmp_path, fields_pdf(), *FIELDS)

    held = values(made.pdf)
    assert held["Signature"] == held["DateSigned"] == ""
    assert made.to_sign == ("the Signature", "the DateSigned")


def test_the_fields_may_still_be_changed_by_hand(tmp_path: Path) -> None:
    reader = PdfReader(io.BytesIO(filled(tmp_path, fields_pdf(), *FIELDS).pdf))

    found = reader.get_fields() or {}
    assert {str(held.get("/FT")) for held in found.values()} >= {"/Tx", "/Btn", "/Ch"}
    assert not any(int(held.get("/Ff", 0)) & 1 for held in found.values())


def heights(pdf: bytes, word: str) -> float:
    """Return how high a word's first letter stands in print, in points."""
    document = pypdfium2.PdfDocument(pdf)
    document.init_forms()
    document[0].flatten()
    page = document[0].get_textpage()
    found = page.search(word).get_next()
    assert found is not None
    box = page.get_charbox(found[0])
    return box[3] - box[1]


def test_letters_grow_smaller_before_a_text_is_turned_away(tmp_path: Path) -> None:
    easy = filled(tmp_path, fields_pdf(), *FIELDS).pdf
    tight = filled(
        tmp_path, fields_pdf(), *FIELDS, change=('owner = "Bram Okonjo"', 'owner = "Bram Okonjoes"')
    )

    assert tight.too_long == ()
    assert values(tight.pdf)["Narrow"] == "Bram Okonjoes"
    assert heights(tight.pdf, "Bram") < heights(easy, "Bram")
    assert heights(tight.pdf, "Bram") >= 2.0 * 72 / 25.4 - 0.1


def test_a_text_without_room_goes_whole_to_the_application_page(tmp_path: Path) -> None:
    made = filled(tmp_path, fields_pdf(), *FIELDS, change=OWNER)
    text = " ".join(
        texts_of(town_copy(judged_in(tmp_path, OWNER), draft=False, folder=tmp_path).pdf)
    )

    assert [entry.text for entry in made.too_long] == [LONG]
    assert values(made.pdf)["Narrow"] in NOTES
    assert values(made.pdf)["Narrow"] in inked(made.pdf)
    assert "Continued from the forms" in text
    assert f"the Narrow {LONG}" in text.replace("\n", " ")


def test_a_text_longer_than_the_field_takes_is_no_text_cut_short(tmp_path: Path) -> None:
    fields = with_field('name = "Short"; write = "parcel"')
    made = filled(tmp_path, fields_pdf(), *fields)

    assert [entry.text for entry in made.too_long] == ["31-002-05"]
    assert values(made.pdf)["Short"] == "*"


def test_several_lines_are_broken_at_words(tmp_path: Path) -> None:
    fields = with_field('name = "Lines"; write = ["site address", "owner name", "hours of work"]')

    text = inked(filled(tmp_path, fields_pdf(), *fields).pdf)

    lines = [line.strip() for line in text.splitlines()]
    assert any(line.startswith("5 Curlew Way, Harrow Heights, Bram") for line in lines)
    assert any(line.endswith("16:00") and "Curlew" not in line for line in lines)


def test_letters_that_cannot_be_printed_are_named(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        filled(
            tmp_path,
            fields_pdf(),
            *FIELDS,
            change=('owner = "Bram Okonjo"', 'owner = "Bram \u6c34"'),
        )

    (fault,) = caught.value.faults
    assert "the Narrow" in fault.where
    assert "\u6c34 (U+6C34)" in fault.found


def turned(writer: PdfWriter) -> None:
    writer.pages[0].rotate(90)


def test_a_page_keeps_its_size_and_its_turn(tmp_path: Path) -> None:
    size = (500.0, 900.0)
    filled(tmp_path, changed(fields_pdf(size=size), turned), *FIELDS)

    reader = PdfReader(io.BytesIO(town_copy(judged_in(tmp_path), draft=True, folder=tmp_path).pdf))

    page = reader.pages[1]
    assert (float(page.mediabox.width), float(page.mediabox.height)) == size
    assert page.rotation == 90
    assert "page 2 of" in page.extract_text()
    assert "DRAFT, not for filing" in page.extract_text()


def bare(writer: PdfWriter) -> None:
    """Add fields that draw nothing of themselves: a box, an upright text, a signature."""
    frame = DictionaryObject(
        {NameObject("/R"): NumberObject(90), NameObject("/BC"): ArrayObject([FloatObject(0)])}
    )
    bare_widget(writer, 0, T="Box", FT="/Btn", Rect=(300, 500, 312, 512))
    bare_widget(writer, 0, T="Up", FT="/Tx", Rect=(400, 300, 418, 500), DA="/F 9 Tf 0 g", MK=frame)
    bare_widget(writer, 0, T="Sig", FT="/Sig", Rect=(100, 100, 300, 130))
    bare_widget(writer, 0, T="Right", FT="/Tx", Rect=(100, 200, 300, 218), Q=2)


def test_fields_that_draw_nothing_of_themselves_are_drawn(tmp_path: Path) -> None:
    made = filled(
        tmp_path,
        changed(flat_pdf(), bare),
        'name = "Box"; tick = "outlet"; is = ["emitter"]',
        'name = "Up"; write = "owner name"',
        'name = "Right"; write = "fee"; unit = "$"',
    )

    page = PdfReader(io.BytesIO(made.pdf)).pages[0]
    shown = {str(held.get_object()["/T"]): held.get_object() for held in page["/Annots"]}
    assert shown["Box"]["/AS"] == "/Yes"
    assert "/Yes" in shown["Box"]["/AP"]["/N"]
    assert list(shown["Up"]["/AP"]["/N"]["/Matrix"])[:4] == [0, 1, -1, 0]
    assert "/AP" not in shown["Sig"]
    assert made.to_sign == ("Sig",)
    text = inked(made.pdf)
    assert "Bram Okonjo" in text
    assert "105.00" in text


def test_a_field_the_map_does_not_name_is_left_to_a_pen(tmp_path: Path) -> None:
    made = filled(tmp_path, fields_pdf(), *FIELDS[1:])

    assert made.by_hand == ("the Name",)


def test_what_the_job_does_not_say_is_left_to_a_pen(tmp_path: Path) -> None:
    fields = with_field('name = "Short"; label = "Cost"; write = "cost"; unit = "$"')

    assert filled(tmp_path, fields_pdf(), *fields).by_hand == ("Cost",)


def test_a_part_that_is_not_known_is_named(tmp_path: Path) -> None:
    fields = with_field('name = "Name"; label = "Owner and cost"; write = ["owner name", "cost"]')
    made = filled(tmp_path, fields_pdf(), *fields)

    assert made.by_hand == ("Owner and cost (cost)",)
    assert values(made.pdf)["Name"] == "Bram Okonjo"


def test_a_choice_that_the_map_does_not_know_is_left_to_a_pen(tmp_path: Path) -> None:
    fields = with_field('name = "Class"; choose = "street class"; options = { arterial = "Local" }')
    made = filled(tmp_path, fields_pdf(), *fields)

    assert made.by_hand == ("Class",)
    assert values(made.pdf)["Class"] == "-"


def hidden(writer: PdfWriter) -> None:
    bare_widget(writer, 0, T="Hidden", FT="/Tx", Rect=(100, 20, 200, 30), F=2)


def test_a_field_that_nobody_sees_is_not_asked_for(tmp_path: Path) -> None:
    assert filled(tmp_path, changed(fields_pdf(), hidden), *FIELDS).by_hand == ()


# ---- forms without fields


def place_of(pdf: bytes, word: str) -> tuple[float, float]:
    """Return where a word begins, in mm across and down the page as it is read."""
    page = pypdfium2.PdfDocument(pdf)[0]
    width, height = page.get_size()
    text = page.get_textpage()
    found = text.search(word).get_next()
    assert found is not None
    left, bottom, right, top = text.get_charbox(found[0])
    corner = {
        0: (left, height - bottom),
        90: (bottom, right),
        180: (width - right, top),
    }[page.get_rotation()]
    return corner[0] / 72 * 25.4, corner[1] / 72 * 25.4


@pytest.mark.parametrize("turn", [0, 90, 180])
def test_a_text_stands_at_its_place_on_paper_however_the_page_lies(
    tmp_path: Path, turn: int
) -> None:
    pdf = filled(tmp_path, flat_pdf(turn=turn), spot("60 mm", 'write = "owner name"')).pdf

    across, down = place_of(pdf, "Bram")
    assert across == pytest.approx(20, abs=0.6)
    assert down == pytest.approx(60, abs=1.0)


def test_a_box_on_paper_gets_a_cross(tmp_path: Path) -> None:
    tick = 'page = 1; across = "100 mm"; down = "80 mm"; width = "5 mm"; tick = "outlet"; is = '
    on = filled(tmp_path, flat_pdf(), tick + '["emitter"]').pdf
    off = filled(tmp_path, flat_pdf(), tick + '["core"]').pdf

    def dark(pdf: bytes) -> bool:
        page = pypdfium2.PdfDocument(pdf)[0].render(scale=4, may_draw_forms=False).to_numpy()
        row, column = (int(mm / 25.4 * 72 * 4) for mm in (77.5, 102.5))
        return bool(page[row - 2 : row + 3, column - 2 : column + 3].min() < 100)

    assert dark(on)
    assert not dark(off)


def test_a_text_on_ruled_lines_keeps_to_them_or_goes_to_the_application_page(
    tmp_path: Path,
) -> None:
    lines = 'lines = 2; pitch = "8 mm"; label = "Work"; write = '
    fits = filled(tmp_path, flat_pdf(), spot("60 mm", lines + '["site address", "fee", "permits"]'))
    not_so = filled(tmp_path, flat_pdf(), spot("60 mm", lines + '"description of work"'))

    first, second = place_of(fits.pdf, "5 Curlew"), place_of(fits.pdf, "drainage")
    assert fits.too_long == ()
    assert second[1] - first[1] == pytest.approx(8, abs=0.3)
    assert [entry.label for entry in not_so.too_long] == ["Work"]
    assert "see application page" in inked(not_so.pdf)


def test_a_sentence_is_written_as_it_stands(tmp_path: Path) -> None:
    said = filled(tmp_path, flat_pdf(), spot("60 mm", 'say = "No street is opened."'))

    assert "No street is opened." in inked(said.pdf)
