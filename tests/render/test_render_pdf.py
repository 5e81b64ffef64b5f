"""What is drawn is what stands in the PDF: to a hundredth of a millimetre, in every reader."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, NamedTuple

import pikepdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL.Image import Image
from pypdf import PdfReader

from permitkit.drawing.dimensions import Dimension
from permitkit.drawing.frame import TitleBlock, drawing_room, framed
from permitkit.drawing.scale import LETTER, Kind, System, View, scales
from permitkit.drawing.shapes import (
    Anchor,
    Arc,
    Circle,
    Fill,
    Hatch,
    Label,
    Line,
    Pattern,
    Polygon,
    Polyline,
    Role,
    circle_points,
)
from permitkit.drawing.sheet import Sheet
from permitkit.render.pdf import POINTS_PER_MM, render_sheets
from permitkit.render.pens import PENS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.drawing.shapes import Shape

Matrix = tuple[float, float, float, float, float, float]
ALL_LETTERS = "AZaz09 ¼½¾⅛⅜⅝⅞ 3 1/2 ≥ ≤ × · ° ′ ″ – ² ☐ Åß"  # noqa: RUF001 -- the letters under test
UNIT: Matrix = (1, 0, 0, 1, 0, 0)


class Stroke(NamedTuple):
    """One stroked path as a reader sees it, in mm from the bottom left of the sheet."""

    points: tuple[tuple[float, float], ...]
    width_mm: float
    dashes: tuple[float, ...]


def times(first: Matrix, second: Matrix) -> Matrix:
    a, b, c, d, e, f = first
    p, q, r, s, t, u = second
    return (
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    )


def at(point: tuple[float, float], matrix: Matrix) -> tuple[float, float]:
    x, y = point
    a, b, c, d, e, f = matrix
    return (x * a + y * c + e) / POINTS_PER_MM, (x * b + y * d + f) / POINTS_PER_MM


def strokes_of(pdf: bytes, page: int = 0) -> list[Stroke]:
    """Return the strokes of a page, forms left out, read by another library."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        steps = list(pikepdf.parse_content_stream(document.pages[page]))
    strokes: list[Stroke] = []
    matrix, stack = UNIT, []
    path: list[tuple[float, float]] = []
    width = 1.0
    dashes: tuple[float, ...] = ()
    for operands, operator in ((step.operands, str(step.operator)) for step in steps):
        if operator == "q":
            stack.append((matrix, width, dashes))
        elif operator == "Q":
            matrix, width, dashes = stack.pop()
        elif operator == "cm":
            matrix = times(tuple(map(float, operands)), matrix)  # type: ignore[arg-type]
        elif operator == "w":
            width = float(operands[0])
        elif operator == "d":
            dashes = tuple(float(dash) for dash in operands[0])
        elif operator in "ml":
            path.append(at((float(operands[0]), float(operands[1])), matrix))
        elif operator in {"S", "s", "n", "f", "f*", "b", "B", "b*", "B*"}:
            if operator not in {"n", "f", "f*"}:
                strokes.append(Stroke(tuple(path), width, dashes))
            path = []
    return strokes


def sheet_of(*shapes: Shape) -> Sheet:
    return Sheet(279.4, 215.9, "Test sheet", shapes)


def every_mark() -> tuple[Shape, ...]:
    """Return one of every primitive, role, hatch, fill and letter."""
    lines: Iterable[Shape] = (
        Line((20, 20 + 5 * row), (90, 20 + 5 * row), role) for row, role in enumerate(Role)
    )
    hatches: Iterable[Shape] = (
        Hatch(
            circle_points((120 + 25 * (row % 3), 40 + 25 * (row // 3)), 11),
            pattern,
            holes=(circle_points((120 + 25 * (row % 3), 40 + 25 * (row // 3)), 4),),
            density=1.0 + row / 5,
        )
        for row, pattern in enumerate(Pattern)
    )
    fills: Iterable[Shape] = (
        Polygon(((200 + 12 * row, 30), (210 + 12 * row, 30), (205 + 12 * row, 40)), Role.PIPE, fill)
        for row, fill in enumerate(Fill)
    )
    return (
        *lines,
        *hatches,
        *fills,
        Arc((150, 150), 10, 20, 200, Role.EXISTING),
        Circle((180, 150), 6, Role.PLANT, Fill.WHITE, outlined=False),
        Polyline(((200, 100), (210, 120), (220, 100)), Role.PIPE, closed=True),
        Label(f"{ALL_LETTERS}\nsecond line", (110, 190), bold=True),
        Label(ALL_LETTERS, (110, 175), Anchor.NW, 3.5, 15.0, backing=True),
    )


coordinate = st.floats(0, 200).map(lambda value: round(value, 4))
point = st.tuples(coordinate, coordinate)


@given(point, point, st.sampled_from(Role))
@settings(max_examples=30)
def test_a_line_is_read_back_from_the_pdf_to_a_hundredth_of_a_millimetre(
    start: tuple[float, float], end: tuple[float, float], role: Role
) -> None:
    pdf = render_sheets([sheet_of(Line(start, end, role))])

    (stroke,) = strokes_of(pdf)
    assert stroke.points[0] == pytest.approx(start, abs=0.01)
    assert stroke.points[1] == pytest.approx(end, abs=0.01)
    assert stroke.width_mm == pytest.approx(PENS[role].width_mm)
    assert stroke.dashes == pytest.approx(PENS[role].dashes_mm)


def test_a_printed_length_times_the_scale_is_the_real_one() -> None:
    ten = scales(Kind.PLAN, System.US)[1]
    room = drawing_room(LETTER.landscape)
    view = View(ten, (0.0, 0.0), (room.left + 5, room.bottom + 5))
    run_m = 12.65
    run = Line(view.at(0, 3), view.at(run_m, 3), Role.PIPE)
    sheet = framed(
        LETTER.landscape, TitleBlock("14 Tern Lane", "Millrace", "Plan"), [run], scales=(ten,)
    )

    strokes = [
        s for s in strokes_of(render_sheets([sheet])) if s.width_mm == PENS[Role.PIPE].width_mm
    ]

    (drawn, sample) = sorted(strokes, key=lambda s: s.points[0][0])
    length_mm = drawn.points[1][0] - drawn.points[0][0]
    assert ten.real_m(length_mm) == pytest.approx(run_m, abs=ten.real_m(0.01))
    assert sample.points[0][0] > room.right


def test_a_dimension_is_printed_as_long_as_its_number() -> None:
    eighth = scales(Kind.DETAIL, System.US)[2]
    reveal_m = 6 * 0.0254
    start = (50.0, 50.0)
    end = (50.0, 50.0 + eighth.paper_mm(reveal_m))

    pdf = render_sheets([sheet_of(Dimension(start, end, 8.0, "6 in", reveal_m))])

    thin = [s.points for s in strokes_of(pdf)]
    upright = [points for points in thin if points[0][0] == pytest.approx(points[1][0], abs=1e-6)]
    lengths = [abs(points[1][1] - points[0][1]) for points in upright]
    assert eighth.real_m(min(lengths)) == pytest.approx(reveal_m, abs=eighth.real_m(0.01))
    assert "6 in" in PdfReader(io.BytesIO(pdf)).pages[0].extract_text()


def test_the_same_shapes_give_the_same_bytes() -> None:
    sheets = [sheet_of(*every_mark()), sheet_of(Label("second", (50, 50)))]

    assert render_sheets(sheets) == render_sheets(sheets)


def test_every_font_is_embedded_and_every_letter_is_found_again() -> None:
    pdf = render_sheets([sheet_of(*every_mark())])

    with pikepdf.open(io.BytesIO(pdf)) as document:
        fonts = list(document.pages[0].Resources.Font.values())
        assert all("/FontFile2" in font.FontDescriptor for font in fonts)
        names = {str(font.BaseFont).partition("+")[2] for font in fonts}
    assert names == {"DejaVuSansCondensed", "DejaVuSansCondensed-Bold"}
    text = PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
    assert set(ALL_LETTERS) <= set(text)
    assert "second line" in text


def test_a_sheet_of_every_mark_opens_in_three_readers_and_has_no_faults() -> None:
    pdf = render_sheets([sheet_of(*every_mark())], title="Every mark", author="Example, Inc.")

    with pikepdf.open(io.BytesIO(pdf)) as document:
        assert document.check_pdf_syntax() == []
        assert str(document.Root.Lang) == "en-US"
        assert bool(document.Root.ViewerPreferences.DisplayDocTitle)
    reader = PdfReader(io.BytesIO(pdf))
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Every mark", "Example, Inc.")
    picture = pypdfium2.PdfDocument(pdf)[0].render(scale=1).to_pil().convert("L")
    assert picture.size == (792, 612)
    assert picture.getextrema() == (0, 255)


SHARP = 3
DARK = 160


def seen(*shapes: Shape) -> Image:
    """Return a sheet of shapes as PDFium shows it, in grey."""
    pdf = render_sheets([sheet_of(*shapes)])
    picture = pypdfium2.PdfDocument(pdf)[0].render(scale=SHARP).to_pil().convert("L")
    assert isinstance(picture, Image)
    return picture


def ink_in(picture: Image, box: tuple[float, float, float, float]) -> float:
    """Return how much of a box of a picture is dark, the box in mm."""
    dots = SHARP * POINTS_PER_MM
    left, bottom, right, top = (edge * dots for edge in box)
    part = picture.crop(
        (round(left), round(picture.height - top), round(right), round(picture.height - bottom))
    )
    return sum(count for level, count in enumerate(part.histogram()) if level < DARK) / (
        part.width * part.height
    )


@pytest.mark.parametrize("pattern", Pattern)
def test_a_hatch_covers_its_region_evenly_and_nothing_else(pattern: Pattern) -> None:
    notched = ((20, 20), (120, 20), (120, 80), (70, 45), (20, 80))
    hole = ((30, 25), (45, 25), (45, 40), (30, 40))

    picture = seen(Hatch(notched, pattern, holes=(hole,)))

    parts = [ink_in(picture, (50 + 20 * i, 21, 69 + 20 * i, 40)) for i in range(3)]
    assert min(parts) > 0.01
    assert max(parts) < 3 * min(parts)
    assert ink_in(picture, (31, 26, 44, 39)) == 0
    assert ink_in(picture, (60, 60, 80, 79)) == 0
    assert ink_in(picture, (5, 5, 130, 19.5)) == 0
    assert ink_in(picture, (120.5, 19, 140, 80)) == 0


def test_a_denser_hatch_has_more_ink() -> None:
    square = ((20, 20), (80, 20), (80, 80), (20, 80))
    once = seen(Hatch(square, Pattern.CONCRETE))
    twice = seen(Hatch(square, Pattern.CONCRETE, density=2.0))

    box = (20, 20, 80, 80)
    assert ink_in(twice, box) > 1.5 * ink_in(once, box)


def test_one_pattern_on_many_regions_is_written_once() -> None:
    squares = [((x, 20), (x + 9, 20), (x + 9, 29), (x, 29)) for x in range(20, 220, 10)]
    one = render_sheets([sheet_of(Hatch(squares[0], Pattern.GRAVEL))])
    many = render_sheets([sheet_of(*(Hatch(square, Pattern.GRAVEL) for square in squares))])

    assert len(many) < 1.2 * len(one)


def test_a_later_shape_covers_an_earlier_one() -> None:
    square = ((20, 20), (80, 20), (80, 80), (20, 80))
    white = Polygon(square, Role.PIPE, Fill.WHITE, outlined=False)

    picture = seen(Hatch(square, Pattern.STEEL), white)

    assert ink_in(picture, (21, 21, 79, 79)) == 0


def test_white_behind_a_label_hides_the_lines_it_lies_on() -> None:
    line, label = Line((20, 50), (120, 50), Role.PIPE), Label(" ", (40, 48), size_mm=4.0)
    backed = Label(" ", (40, 48), size_mm=4.0, backing=True)

    box = (40.1, 49, 41, 51)
    assert ink_in(seen(line, label), box) > 0.3
    assert ink_in(seen(line, backed), box) == 0


@pytest.mark.parametrize("angle", [0.0, 90.0, 30.0, -45.0])
@pytest.mark.parametrize("anchor", [Anchor.SW, Anchor.C, Anchor.NE])
def test_the_ink_of_a_label_lies_inside_its_box(angle: float, anchor: Anchor) -> None:
    label = Label("Ågjy(½)\nQ|_", (100, 100), anchor, 3.5, angle, bold=True)
    whole = seen(label)

    inked = whole.point([255 if level < DARK else 0 for level in range(256)]).getbbox()
    assert inked is not None
    left, top, right, bottom = inked
    dots = SHARP * POINTS_PER_MM
    box = label.box.grown(0.15)
    assert box.left <= left / dots
    assert right / dots <= box.right
    assert box.bottom <= (whole.height - bottom) / dots
    assert (whole.height - top) / dots <= box.top


def test_sheets_of_several_sizes_keep_their_sizes() -> None:
    sheets = [sheet_of(), Sheet(215.9, 279.4, "b", (Line((5, 5), (9, 9), Role.PIPE),))]

    pages = PdfReader(io.BytesIO(render_sheets(sheets))).pages

    assert [float(page.mediabox.width) for page in pages] == pytest.approx([792, 612])


def test_no_sheets_are_refused() -> None:
    with pytest.raises(ValueError, match="no sheet"):
        render_sheets([])


def test_a_hatch_is_drawn_alike_whatever_dashes_were_drawn_before_it() -> None:
    box = ((20.0, 20.0), (60.0, 20.0), (60.0, 60.0), (20.0, 60.0))
    hatch = Hatch(box, Pattern.REMOVED, density=1.4)
    dashed = Line((100.0, 100.0), (150.0, 100.0), Role.HIDDEN)

    before, alone = seen(dashed, hatch), seen(hatch)

    inside = (20.0, 20.0, 60.0, 60.0)
    assert PENS[Role.HIDDEN].dashes_mm
    assert ink_in(before, inside) == pytest.approx(ink_in(alone, inside))


def test_a_stroke_drawn_after_a_label_does_not_run_through_it() -> None:
    label = Label("12 ft", (40.0, 40.0), Anchor.C, backing=True)
    stroke = Line((10.0, 40.0), (70.0, 40.0), Role.PROPOSED)

    assert seen(label, stroke).tobytes() == seen(stroke, label).tobytes()
