"""Text pages lose no word, break between rows, and print names as they are written."""

from __future__ import annotations

import io
import re
from itertools import pairwise
from typing import TYPE_CHECKING

import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from permitkit.drawing.lettering import missing_glyphs
from permitkit.drawing.scale import A4, LETTER, Paper
from permitkit.drawing.shapes import Hatch, Label, Line, Pattern, Role
from permitkit.render.flow import (
    Block,
    Bullets,
    CheckList,
    Drawing,
    Heading,
    KeyValues,
    NumberedList,
    PageBreak,
    Paragraph,
    SignatureLine,
    Spacer,
    Table,
    bold,
    column_widths,
    escape,
    render_flow,
)
from permitkit.render.pdf import POINTS_PER_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

SENTENCE = "The walk is put back in whole panels to the town's detail, level with its neighbours. "
ROWS = tuple((f"12.{row}", SENTENCE, "1 5/8 in", "at least 1 1/2 in") for row in range(60))
EVERY: tuple[Block, ...] = (
    Heading("Application"),
    KeyValues((("Address", "14 Tern Lane"), ("Hole", "4 in")), title="What is measured"),
    KeyValues((("Town", "Millrace"),)),
    Heading("Scope", 2),
    Paragraph(SENTENCE),
    Bullets(("first thing", "second thing")),
    NumberedList(("third thing", "fourth thing"), start=3),
    CheckList(("insurance certificate",)),
    Heading("Rules", 3),
    Table(("Section", "Rule", "Proposed", "Limit"), ROWS, (1, 8, 2, 2)),
    Spacer(5),
    SignatureLine("owner"),
    PageBreak(),
    Drawing((Line((0, 0), (50, 20), Role.PIPE), Label("run", (10, 10))), 60, 25, "The run"),
)


def pages(blocks: Sequence[Block], paper: Paper = LETTER) -> list[str]:
    pdf = render_flow(blocks, paper, "14 Tern Lane, Millrace", "Application")
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("paper", [LETTER, A4, LETTER.landscape], ids=str)
def test_every_word_of_every_block_is_printed(paper: Paper) -> None:
    told = squeezed(" ".join(pages(EVERY, paper)))

    for word in (
        "Application",
        "What is measured",
        "14 Tern Lane",
        "second thing",
        "fourth thing",
        "☐insurance certificate",
        "12.59",
        "Sign here: owner",
        "Date",
        "The run",
    ):
        assert squeezed(word) in told
    assert told.count(squeezed(SENTENCE)) == 61


def test_the_numbers_of_a_list_go_on_from_where_it_starts() -> None:
    (text,) = pages([NumberedList(("a", "b"), start=3)])

    assert re.search(r"3\.\s*a\s*4\.\s*b", text)


def test_a_table_repeats_its_header_on_every_page_it_runs_over() -> None:
    texts = pages([Table(("Section", "Rule", "Proposed", "Limit"), ROWS, (1, 8, 2, 2))])

    assert len(texts) > 2
    assert all(text.count("Proposed") == 1 for text in texts)
    sections = [found for text in texts for found in re.findall(r"12\.\d+", text)]
    assert sections == [row[0] for row in ROWS]


def test_a_cell_higher_than_a_page_runs_on() -> None:
    texts = pages([Table(("Note",), ((SENTENCE * 90,),))])

    assert len(texts) > 1
    assert " ".join(texts).count("neighbours.") == 90


def test_a_box_of_facts_higher_than_a_page_runs_on() -> None:
    texts = pages([KeyValues((("Note", SENTENCE * 90),), title="Facts")])

    assert " ".join(texts).count("neighbours.") == 90


def test_header_and_title_stand_on_every_page() -> None:
    texts = pages([Paragraph(SENTENCE * 100)])

    assert len(texts) > 1
    assert all("14 Tern Lane, Millrace" in text and "Application" in text for text in texts)


def test_a_header_too_long_for_the_page_is_cut_and_does_not_run_into_the_title() -> None:
    pdf = render_flow([Spacer(1)], LETTER, "A Very Long Name " * 20, "Walk cut and restoration")

    text = PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
    assert "…" in text
    assert "Walk cut and restoration" in text


@given(
    st.text(st.characters(max_codepoint=0x17F, exclude_categories=["Cc", "Cs", "Zs"]), min_size=1)
    .filter(lambda text: not missing_glyphs(text))
    .filter(lambda text: "\xad" not in text)
)
@settings(max_examples=40)
def test_whatever_comes_through_the_door_is_printed_as_it_is(text: str) -> None:
    (page,) = pages([Paragraph(escape(text))])

    assert squeezed(text) in squeezed(page)


@pytest.mark.parametrize(
    "text", ["B&B <b>", "a < b > c", "&amp;", "<para>", "<br/>", "50 % & more"]
)
def test_what_looks_like_markup_is_printed_in_every_kind_of_block(text: str) -> None:
    said = escape(text)

    (page,) = pages(
        [
            Heading(said),
            Paragraph(bold(said)),
            Bullets((said,)),
            NumberedList((said,)),
            CheckList((said,)),
            Table((said,), ((said,),)),
            KeyValues(((said, said),), title=said),
            SignatureLine(said),
        ]
    )

    assert squeezed(page).count(squeezed(text)) == 11


def test_a_line_feed_breaks_the_line_and_other_controls_do_not() -> None:
    assert escape("one\ntwo\tthree\x0b") == "one<br/>two three "


def test_a_word_longer_than_the_line_is_broken_and_not_clipped() -> None:
    pdf = render_flow(
        [Paragraph("x" * 400), Table(("a", "b"), (("y" * 300, "z"),))], LETTER, "h", "t"
    )

    right = LETTER.width_mm * POINTS_PER_MM - 17 * POINTS_PER_MM
    ends: list[float] = []
    reader = PdfReader(io.BytesIO(pdf))
    reader.pages[0].extract_text(
        visitor_text=lambda text, _cm, tm, _font, _size: ends.append(tm[4] if text.strip() else 0)
    )
    told = squeezed(reader.pages[0].extract_text())
    assert told.count("x") == 400
    assert told.count("y") == 300
    assert max(ends) < right


def test_a_column_takes_the_room_its_longest_word_needs() -> None:
    table = Table(("Section", "Rule"), (("12.4", SENTENCE * 3),), (1, 30))

    narrow, wide = column_widths(table, 500.0)

    assert narrow > 500 / 31
    assert narrow + wide == pytest.approx(500.0)
    assert "Section" in pages([table])[0].split()


@given(
    st.integers(1, 6).flatmap(
        lambda count: st.tuples(
            st.lists(st.text("abcdefgh ", max_size=60), min_size=count, max_size=count),
            st.lists(st.floats(0.5, 20), min_size=count, max_size=count),
        )
    )
)
def test_columns_fill_the_page_whatever_is_in_them(drawn: tuple[list[str], list[float]]) -> None:
    words, shares = drawn

    widths = column_widths(Table(tuple(words), (), tuple(shares)), 480.0)

    assert sum(widths) == pytest.approx(480.0)
    assert min(widths) > 0


def test_columns_with_room_keep_their_shares() -> None:
    assert column_widths(Table(("a", "b"), (), (1, 3)), 400.0) == pytest.approx([100.0, 300.0])


def test_a_signature_line_is_empty() -> None:
    pdf = render_flow([SignatureLine("owner")], LETTER, "h", "t")

    page = PdfReader(io.BytesIO(pdf)).pages[0]
    assert list(page.images) == []
    assert page.annotations is None
    assert page.extract_text().split() == ["h", "t", "Sign", "here:", "owner", "Date"]


def test_a_drawing_keeps_its_scale_in_the_run_of_text() -> None:
    line = Line((0, 5), (100, 5), Role.PIPE)
    hatch = Hatch(((0, 8), (50, 8), (50, 20), (0, 20)), Pattern.CONCRETE)

    pdf = render_flow([Paragraph("before"), Drawing((line, hatch), 120, 25)], LETTER, "h", "t")

    with pikepdf.open(io.BytesIO(pdf)) as document:
        steps = list(pikepdf.parse_content_stream(document.pages[0]))
    drawn = [
        float(second.operands[0]) - float(first.operands[0])
        for first, second in pairwise(steps)
        if (str(first.operator), str(second.operator)) == ("m", "l")
    ]
    assert 100.0 in drawn
    scaled = [step.operands[0] for step in steps if str(step.operator) == "cm"]
    assert pytest.approx(POINTS_PER_MM, abs=1e-4) in [float(value) for value in scaled]


def test_a_drawing_too_wide_for_the_page_is_refused_and_not_shrunk() -> None:
    with pytest.raises(ValueError, match=r"200 mm wide does not fit 181\.9 mm"):
        render_flow([Drawing((), 200, 20)], LETTER, "h", "t")


def test_a_heading_does_not_stand_alone_at_the_foot_of_a_page() -> None:
    for lines in range(40, 60):
        blocks: list[Block] = [*[Spacer(4)] * lines, Heading("Rules", 2), Paragraph(SENTENCE)]

        for text in pages(blocks):
            assert ("Rules" in text) == ("put back" in text)


@pytest.mark.parametrize("before", range(30, 46, 3))
def test_a_short_table_stays_whole_and_with_its_heading(before: int) -> None:
    rows = tuple((f"row {n}",) for n in range(4))

    laid = pages([Paragraph("line")] * before + [Heading("Photographs"), Table(("Shows",), rows)])

    assert len({n for n, page in enumerate(laid) for word in ("Photo", "row") if word in page}) == 1


def test_a_page_break_ends_the_page() -> None:
    assert len(pages([Paragraph("one"), PageBreak(), Paragraph("two")])) == 2


def test_the_same_blocks_give_the_same_bytes_with_every_font_embedded() -> None:
    first = render_flow(EVERY, LETTER, "14 Tern Lane", "Application", author="Example, Inc.")
    again = render_flow(EVERY, LETTER, "14 Tern Lane", "Application", author="Example, Inc.")

    assert first == again
    with pikepdf.open(io.BytesIO(first)) as document:
        fonts = [font for page in document.pages for font in page.Resources.Font.values()]
        assert all("/FontFile2" in font.FontDescriptor for font in fonts)
        assert document.check_pdf_syntax() == []
        assert str(document.Root.Lang) == "en-US"
        assert str(document.docinfo.Title) == "Application"
        assert str(document.docinfo.Author) == "Example, Inc."


def test_the_foot_of_every_page_is_left_clear() -> None:
    pdf = render_flow([Paragraph(SENTENCE * 200)], LETTER, "h", "t")

    lows: list[float] = []
    for page in PdfReader(io.BytesIO(pdf)).pages:
        page.extract_text(
            visitor_text=lambda text, cm, tm, _f, _s: (
                lows.append(cm[5] + tm[5]) if text.strip() else None
            )
        )
    assert min(lows) > 15 * POINTS_PER_MM


def test_nothing_to_set_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing to set"):
        render_flow([], LETTER, "h", "t")


def test_what_is_not_a_block_is_refused() -> None:
    with pytest.raises(TypeError, match="not a block"):
        render_flow(["text"], LETTER, "h", "t")  # type: ignore[list-item]


def test_an_empty_box_of_facts_sets_nothing() -> None:
    (page,) = pages([KeyValues(()), Paragraph("after")])

    assert "after" in page
