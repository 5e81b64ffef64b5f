"""The town's copy: whole, the same twice, readable by others, and in words a reviewer accepts."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest
from packets import FAILING, JOBS, READY, judged, office, town
from pypdf import PdfReader

from permitkit.drawing.lettering import missing_glyphs
from permitkit.errors import InputError
from permitkit.model.papers import Attachment
from permitkit.packet.assembly import town_copy

if TYPE_CHECKING:
    from pathlib import Path

MACHINE_WORDS = re.compile(r"\bNone\b|\b[a-z]+_[a-z_]+\b|\d\.\d{4,}|Fraction\(|\bnan\b|<[a-z]+>")


every_demo = pytest.mark.parametrize("any_name", READY + FAILING)


def texts_of(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def outline_titles(pdf: bytes) -> list[str]:
    return [str(item.title) for item in PdfReader(io.BytesIO(pdf)).outline]  # type: ignore[union-attr]


def test_the_clean_packet_has_eight_to_twelve_pages_before_enclosures() -> None:
    reader = PdfReader(io.BytesIO(town("millrace-clean").pdf))
    first_enclosure = next(
        reader.get_destination_page_number(item)  # type: ignore[arg-type]
        for item in reader.outline
        if item.title == "Enclosures"  # type: ignore[union-attr]
    )

    assert 8 <= first_enclosure <= 12


@every_demo
def test_building_twice_gives_the_same_bytes(any_name: str) -> None:
    again = town_copy(judged(any_name), draft=any_name in FAILING, folder=JOBS / any_name)

    assert again.pdf == town(any_name).pdf


@every_demo
def test_qpdf_finds_nothing_wrong(any_name: str) -> None:
    for made in (town(any_name), office(any_name)):
        with pikepdf.open(io.BytesIO(made.pdf)) as pdf:
            assert pdf.check_pdf_syntax() == []
            assert len(pdf.pages) == made.pages


@every_demo
def test_pdfium_opens_and_draws_every_page(any_name: str) -> None:
    document = pypdfium2.PdfDocument(town(any_name).pdf)

    for page in document:
        assert min(page.render(scale=0.3).to_numpy().min() for _ in (0,)) < 128


@every_demo
def test_every_page_is_numbered_and_every_part_has_a_bookmark(any_name: str) -> None:
    made = town(any_name)
    texts = texts_of(made.pdf)

    for number, text in enumerate(texts, 1):
        assert f"page {number} of {made.pages}" in text
    assert outline_titles(made.pdf)[0] == "Transmittal"


@every_demo
def test_title_and_language_are_set(any_name: str) -> None:
    reader = PdfReader(io.BytesIO(town(any_name).pdf))

    assert reader.metadata is not None
    assert judged(any_name).job.site.address in str(reader.metadata.title)
    assert reader.trailer["/Root"]["/Lang"] == "en-US"


@every_demo
def test_all_fonts_are_embedded(any_name: str) -> None:
    for page in PdfReader(io.BytesIO(town(any_name).pdf)).pages:
        for font in page["/Resources"].get("/Font", {}).values():
            descendants = font.get_object().get("/DescendantFonts")
            holder = descendants[0].get_object() if descendants else font.get_object()
            assert "/FontFile2" in holder["/FontDescriptor"].get_object()


@every_demo
def test_no_machine_words_stand_in_the_text(any_name: str) -> None:
    found = {
        (page, match.group())
        for page, text in enumerate(texts_of(town(any_name).pdf), 1)
        for match in MACHINE_WORDS.finditer(text)
    }

    assert found == set()


def test_the_search_for_machine_words_finds_planted_ones() -> None:
    for planted in ("strip None", "core_bit", "0.854000 in", "<b>"):
        assert MACHINE_WORDS.search(planted)


def test_every_page_of_a_draft_says_so_and_none_of_a_clean_packet() -> None:
    assert all("DRAFT" in text for text in texts_of(town("millrace-faulty").pdf))
    assert not any("DRAFT" in text for text in texts_of(town("millrace-clean").pdf))


@pytest.mark.parametrize("name", READY + FAILING)
def test_the_crew_card_stands_on_a_page_of_its_own(name: str) -> None:
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(office(name).pdf)).pages]

    (card,) = (text for text in pages if "Crew card" in text)
    assert "Call these inspections" in card
    assert "Local code and licensed practice decide" in " ".join(card.split())
    assert not any(title in card for title in ("Stated or paid", "Everything that was checked"))
    assert all(len(text.split()) > 30 for text in pages)


def test_only_the_office_copy_holds_files() -> None:
    inside = PdfReader(io.BytesIO(office("millrace-clean").pdf)).attachments

    assert {"verdicts.json", "rules-millrace.toml", "job.toml"} <= set(inside)
    assert inside["job.toml"][0] == (JOBS / "millrace-clean" / "job.toml").read_bytes()
    assert not PdfReader(io.BytesIO(town("millrace-clean").pdf)).attachments


def test_markup_in_a_name_is_printed_as_written() -> None:
    known = judged("millrace-clean")
    site = known.job.site.model_copy(update={"owner": "B&B <b>Holdings {{ x }}"})
    named = replace(known, job=known.job.model_copy(update={"site": site}))

    texts = " ".join(texts_of(town_copy(named, draft=False, folder=JOBS).pdf))

    assert "B&B <b>Holdings {{ x }}" in " ".join(texts.split())


def test_an_open_question_is_printed_as_a_request_never_as_a_pass() -> None:
    text = texts_of(town("sorrel-flats-notch").pdf)[0]

    asks = [v for v in judged("sorrel-flats-notch").verdicts if v.outcome == "ask"]
    assert ("Please set or confirm" in text) is bool(asks)


@pytest.mark.parametrize("ready_name", READY)
def test_the_index_names_the_page_each_part_begins_on(ready_name: str) -> None:
    made = town(ready_name)
    reader = PdfReader(io.BytesIO(made.pdf))
    first = " ".join(texts_of(made.pdf)[0].split())

    for item in reader.outline[1:]:
        page = reader.get_destination_page_number(item)  # type: ignore[arg-type]
        assert f"{item.title} page {page + 1}" in first  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["millrace-clean", "sorrel-flats-notch"])
def test_every_letter_used_has_a_glyph(name: str) -> None:
    for text in texts_of(town(name).pdf):
        assert missing_glyphs(text.replace("\n", " ")) == ()


def test_no_signature_is_drawn_only_places_to_sign() -> None:
    text = " ".join(texts_of(town("millrace-clean").pdf))

    assert "Sign here: Odile Vane" in text


def test_a_missing_enclosure_is_told(tmp_path: Path) -> None:
    known = judged("millrace-clean")
    paper = Attachment(kind="other", title="Lost paper", file="lost.pdf")
    papers = known.job.papers.model_copy(update={"attachment": (paper,)})
    lost = replace(known, job=known.job.model_copy(update={"papers": papers}))

    with pytest.raises(InputError, match=r"lost\.pdf"):
        town_copy(lost, draft=False, folder=tmp_path)


def test_the_inflows_are_added_up_apart_in_rain_and_pumped() -> None:
    pages = "\n".join(texts_of(town("millrace-clean").pdf))

    lines = [" ".join(line.split()) for line in pages.splitlines()]
    at = lines.index("together 39.4 gpm")

    assert lines[at + 1 : at + 3] == ["27.4 gpm", "12 gpm"]
