"""Pages bound in the order wanted, each numbered n of m, those from outside and those drawn."""

from __future__ import annotations

import io
from datetime import date
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest
from pypdf import PdfReader, PdfWriter

from permitkit.drawing.scale import LETTER
from permitkit.drawing.shapes import Line, Role
from permitkit.drawing.sheet import Sheet
from permitkit.render.binding.book import Book
from permitkit.render.binding.foot import Footer, page_footers
from permitkit.render.flow import PageBreak, Paragraph, render_flow
from permitkit.render.pdf import POINTS_PER_MM, render_sheets

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.render.binding.book import Piece

TITLE = "Right-of-way permit packet, 14 Tern Lane"


SHEET = Sheet(431.8, 279.4, "Site sketch", (Line((20, 20), (400, 250), Role.PIPE),))


@pytest.fixture(scope="module")
def packet() -> bytes:
    """Return a packet of two text pages and a sheet."""
    text = render_flow([Paragraph("one"), PageBreak(), Paragraph("two")], LETTER, "h", "t")
    writer = PdfWriter()
    writer.append(io.BytesIO(text))
    writer.append(io.BytesIO(render_sheets([SHEET])))
    target = io.BytesIO()
    writer.write(target)
    return target.getvalue()


def bound(
    book: Book,
    pieces: Sequence[Piece],
    footers: Sequence[Footer],
    marks: Sequence[tuple[str, int]] = (),
    *,
    draft: bool = False,
) -> bytes:
    day = date(2026, 4, 6)
    return book.bound(pieces, footers, marks=marks, title="t", author="a", day=day, draft=draft)


def with_feet(pdf: bytes, footers: Sequence[Footer], *, draft: bool = False) -> bytes:
    book = Book()
    return bound(book, [book.outside(pdf)], footers, draft=draft)


def text_piece(book: Book, *words: str) -> Piece:
    return book.text([[Paragraph(word)] for word in words], LETTER, "head", "title")


def marked_pages(pdf: bytes) -> dict[str, int]:
    reader = PdfReader(io.BytesIO(pdf))
    return {
        str(item.title): reader.get_destination_page_number(item) or 0  # type: ignore[union-attr,arg-type]
        for item in reader.outline
    }


def texts(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def test_every_page_has_its_title_digest_and_number(packet: bytes) -> None:
    stamped = with_feet(packet, page_footers(3, TITLE, "digest 1a2b3c"))

    for number, text in enumerate(texts(stamped), 1):
        assert TITLE in text
        assert "digest 1a2b3c" in text
        assert f"page {number} of 3" in text
        assert "DRAFT" not in text


def test_pages_stand_in_the_order_wanted_and_the_rest_is_left_out() -> None:
    book = Book()
    last, _, first = (text_piece(book, word) for word in ("drawn first", "unwanted", "drawn last"))
    sheet = book.sheets([SHEET])

    made = bound(book, [first, sheet, last], page_footers(3, TITLE), (("Sketch", 1), ("End", 2)))

    said = texts(made)
    assert [
        word in text for word, text in zip(("drawn last", "", "drawn first"), said, strict=True)
    ]
    assert not any("unwanted" in text for text in said)
    assert [f"page {number} of 3" in text for number, text in enumerate(said, 1)] == [True] * 3
    assert marked_pages(made) == {"Sketch": 1, "End": 2}
    with pikepdf.open(io.BytesIO(made)) as document:
        assert document.check_pdf_syntax() == []


def test_pages_from_outside_stand_where_they_belong_and_their_bookmarks_find_them(
    packet: bytes,
) -> None:
    book = Book()
    before, inside = text_piece(book, "before"), book.outside(packet)
    after = text_piece(book, "after")
    marks = (("Before", 0), ("Inside", 1), ("After", 4))

    made = bound(book, [before, inside, after], page_footers(5, TITLE), marks)

    words = ("before", "one", "two", "", "after")
    assert all(word in text for word, text in zip(words, texts(made), strict=True))
    assert marked_pages(made) == dict(marks)
    sizes = [page.mediabox.width for page in PdfReader(io.BytesIO(made)).pages]
    assert sizes == pytest.approx([612, 612, 612, 1224, 612])


def test_runs_that_share_a_page_are_told_by_the_page_they_begin_on() -> None:
    book = Book()
    text_piece(book, "earlier")

    piece = text_piece(book, "short", "words " * 2000, "short again")

    assert piece.first == 1
    assert piece.starts == (0, 0, piece.pages - 1)


def test_books_of_other_words_have_other_names() -> None:
    def name(word: str) -> object:
        book = Book()
        made = bound(book, [text_piece(book, word)], page_footers(1, TITLE))
        return PdfReader(io.BytesIO(made)).trailer["/ID"]

    assert name("one") == name("one")
    assert name("one") != name("two")


def test_a_draft_says_so_on_every_page_at_the_foot_and_across(packet: bytes) -> None:
    stamped = with_feet(packet, page_footers(3, TITLE), draft=True)

    for text in texts(stamped):
        assert text.count("DRAFT") == 2
        assert "DRAFT, not for filing" in text


def test_the_mark_of_a_draft_hides_nothing(packet: bytes) -> None:
    stamped = with_feet(packet, page_footers(3, TITLE), draft=True)

    before = pypdfium2.PdfDocument(packet)[2].render(scale=2).to_pil().convert("L")
    after = pypdfium2.PdfDocument(stamped)[2].render(scale=2).to_pil().convert("L")
    dark = [
        (then, now)
        for then, now in zip(before.tobytes(), after.tobytes(), strict=True)
        if then < 60
    ]
    assert len(dark) > 1000
    assert sum(now < 190 for _, now in dark) > 0.97 * len(dark)


def test_sizes_and_words_stay(packet: bytes) -> None:
    stamped = PdfReader(io.BytesIO(with_feet(packet, page_footers(3, TITLE))))

    before = PdfReader(io.BytesIO(packet))
    assert [page.mediabox for page in stamped.pages] == [page.mediabox for page in before.pages]
    assert "two" in stamped.pages[1].extract_text()


def test_the_same_packet_is_stamped_to_the_same_bytes(packet: bytes) -> None:
    footers = page_footers(3, TITLE, "digest")

    assert with_feet(packet, footers, draft=True) == with_feet(packet, footers, draft=True)


def test_a_stamped_packet_is_sound_and_its_fonts_are_embedded(packet: bytes) -> None:
    stamped = with_feet(packet, page_footers(3, TITLE), draft=True)

    with pikepdf.open(io.BytesIO(stamped)) as document:
        assert document.check_pdf_syntax() == []
        fonts = [font for page in document.pages for font in page.Resources.Font.values()]
        assert all("/FontFile2" in font.FontDescriptor for font in fonts)


def place_of(pdf: bytes, word: str) -> tuple[float, float]:
    """Return where a word stands on the page as it is shown, from its bottom left, in points."""
    page = pypdfium2.PdfDocument(pdf)[0]
    left, bottom, right, top = page.get_cropbox()
    text = page.get_textpage()
    found = text.search(word).get_next()
    assert found is not None
    x0, y0, x1, y1 = text.get_charbox(found[0])
    return {
        0: (x0 - left, y0 - bottom),
        90: (y0 - bottom, right - x1),
        180: (right - x1, top - y1),
        270: (top - y1, x0 - left),
    }[page.get_rotation()]


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_a_turned_page_is_numbered_where_it_is_read(turn: int) -> None:
    writer = PdfWriter()
    page = writer.add_blank_page(612, 792)
    page.rotate(turn)
    target = io.BytesIO()
    writer.write(target)

    stamped = with_feet(target.getvalue(), [Footer(left="page")])

    x, y = place_of(stamped, "page")
    shown = pypdfium2.PdfDocument(stamped)[0].get_size()
    assert shown == ((792, 612) if turn % 180 else (612, 792))
    assert pypdfium2.PdfDocument(stamped)[0].get_rotation() == turn
    assert x == pytest.approx(12 * POINTS_PER_MM, abs=3)
    assert y == pytest.approx(7 * POINTS_PER_MM, abs=4)


def test_a_page_whose_corner_is_not_the_origin_is_numbered_at_its_foot() -> None:
    writer = PdfWriter()
    page = writer.add_blank_page(700, 900)
    page.mediabox.lower_left = (50, 60)
    page.cropbox.lower_left = (50, 60)
    target = io.BytesIO()
    writer.write(target)

    x, y = place_of(with_feet(target.getvalue(), [Footer(left="page")]), "page")

    assert x == pytest.approx(12 * POINTS_PER_MM, abs=3)
    assert y == pytest.approx(7 * POINTS_PER_MM, abs=4)


def test_footers_too_long_for_the_page_are_cut_and_do_not_run_together(packet: bytes) -> None:
    long = Footer("left " * 60, "middle", "right " * 60)

    text = texts(with_feet(packet, [long] * 3))[0]

    assert text.count("…") == 2
    assert "middle" in text


def test_a_title_may_take_the_room_of_a_middle_that_says_nothing(packet: bytes) -> None:
    title = "Right-of-way permit packet: 5 Curlew Way, Harrow Heights, Town of Harrow Heights"

    alone, beside = (
        texts(with_feet(packet, [Footer(title, middle, "page 1 of 3")] * 3))[0]
        for middle in ("", "digest 0123456789ab")
    )

    assert title in alone
    assert title not in beside


@pytest.mark.parametrize("count", [2, 4])
def test_footers_that_do_not_match_the_pages_are_refused(packet: bytes, count: int) -> None:
    with pytest.raises(ValueError, match=f"{count} footers do not fit 3 pages"):
        with_feet(packet, page_footers(count, TITLE))
