"""Widths are those of the embedded fonts, read by two independent readers."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase import pdfmetrics

from permitkit.drawing.lettering import (
    CAP_HEIGHT,
    face,
    font_size_mm,
    ink_span_mm,
    missing_glyphs,
    text_width_mm,
    wrapped,
)
from permitkit.render.fonts import font_name, register

NEEDED = "¼½¾⅛⅜⅝⅞⅓⅔⁄≥≤×·°′″–²³ØΔ±√☐ß Åé ñ"  # noqa: RUF001 -- the letters under test
sentences = st.text(st.characters(min_codepoint=32, max_codepoint=0x24F), max_size=60).filter(
    lambda text: not missing_glyphs(text)
)


@given(sentences, st.booleans())
def test_a_text_is_as_wide_as_the_pdf_library_draws_it(text: str, bold: bool) -> None:  # noqa: FBT001
    register()

    ours = text_width_mm(text, 2.5, bold=bold)

    theirs = pdfmetrics.stringWidth(text, font_name(bold=bold), font_size_mm(2.5))
    assert ours == pytest.approx(theirs, rel=1e-3, abs=1e-3)


@pytest.mark.parametrize("bold", [False, True])
def test_the_height_of_capitals_is_the_fonts_own(bold: bool) -> None:  # noqa: FBT001
    assert face(bold=bold).ink("H") == pytest.approx((0.0, CAP_HEIGHT))


def test_the_faces_have_every_letter_a_drawing_needs() -> None:
    assert missing_glyphs(NEEDED) == ()


def test_letters_outside_the_faces_are_named_once_in_order() -> None:
    assert missing_glyphs("水a\n龍水") == ("水", "龍")


def test_a_missing_letter_has_a_width_all_the_same() -> None:
    assert text_width_mm("水", 2.5) > 0
    assert not face().has("水")


def test_the_widest_line_counts() -> None:
    assert text_width_mm("curb\nright-of-way line", 2.5) == text_width_mm("right-of-way line", 2.5)


@given(sentences, st.floats(8, 90))
def test_wrapped_lines_fit_and_lose_no_letter(text: str, width_mm: float) -> None:
    lines = wrapped(text, width_mm, 2.5)

    assert all(text_width_mm(line, 2.5) <= width_mm + 1e-9 for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_mixed_number_stays_on_one_line() -> None:
    text = "hole bottom 3 1/2 in over the flow line"

    for width in range(22, 60):
        assert not any(line.endswith(" 3") for line in wrapped(text, width, 2.5))


def test_a_name_of_two_hundred_letters_is_broken_between_letters() -> None:
    lines = wrapped("x" * 200, 40.0, 2.5)

    assert "".join(lines) == "x" * 200
    assert len(lines) > 5


def test_an_empty_text_has_no_lines_and_no_width() -> None:
    assert wrapped("", 40.0, 2.5) == ()
    assert text_width_mm("", 2.5) == 0


def test_a_line_keeps_room_for_descenders_and_more_for_accents() -> None:
    plain, accented = ink_span_mm("run", 2.5), ink_span_mm("Å", 2.5)

    assert plain[0] < ink_span_mm("", 2.5)[0] + 1e-9 < 0
    assert accented[1] > plain[1]


def test_the_metrics_are_read_from_the_files_that_are_embedded() -> None:
    folder = Path(__file__).parents[2] / "permitkit" / "render" / "fonts"

    faces = sorted(path.name for path in folder.glob("*.ttf"))

    assert faces == [f"{font_name(bold=True)}.ttf", f"{font_name(bold=False)}.ttf"]
