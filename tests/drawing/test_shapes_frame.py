"""The frame shows what a reviewer ticks off, in its place, and clips nothing."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from sheet_marks import collisions

from permitkit.drawing.frame import TitleBlock, continuation, drawing_room, framed
from permitkit.drawing.frame.legend import LEGEND_WORDS, legend_entries
from permitkit.drawing.scale import (
    A3,
    A4,
    LETTER,
    TABLOID,
    Kind,
    Paper,
    ProfileScale,
    System,
    scales,
)
from permitkit.drawing.shapes import (
    Circle,
    Hatch,
    Label,
    Line,
    Pattern,
    Polygon,
    Role,
    Shape,
)
from permitkit.drawing.sheet import outside
from permitkit.drawing.symbols import UTILITY_LETTERS, lettered_line

if TYPE_CHECKING:
    from permitkit.drawing.sheet import Sheet

PAPERS = [way for paper in (LETTER, TABLOID, A4, A3) for way in (paper.landscape, paper.portrait)]
TEN = scales(Kind.PLAN, System.US)[1]
EIGHTH = scales(Kind.DETAIL, System.US)[2]
FULL = TitleBlock(
    address="14 Tern Lane, Millrace",
    town="Town of Millrace",
    title="Site sketch",
    parcel="12-034-07",
    applicant="Example Drainage, Inc.",
    prepared_by="R. Sample, 555-0134",
    date="2026-04-06",
    revision="B",
    number=4,
    of=9,
    datum="assumed 100.00 ft, curb top at the hole",
    detail="M-7 rev C, which governs",
    disclaimer="Not a survey.",
)
LONG = "A Very Long Name Of A Very Old Firm And All Its Many Partners " * 4


def named(paper: Paper) -> str:
    return f"{paper.name} {'landscape' if paper.lies else 'portrait'}"


def everything(paper: Paper) -> list[Shape]:
    """Return one mark of every role and every hatch, inside the room."""
    room = drawing_room(paper)
    shapes: list[Shape] = []
    for row, role in enumerate(Role):
        y = room.bottom + 4 + 5 * row
        ends = ((room.left + 5, y), (room.left + 60, y))
        shapes += lettered_line(ends, role) if role in UTILITY_LETTERS else [Line(*ends, role)]
    for row, pattern in enumerate(Pattern):
        x, y = room.left + 80, room.bottom + 5 + 12 * row
        shapes.append(Hatch(((x, y), (x + 30, y), (x + 30, y + 9), (x, y + 9)), pattern))
    return shapes


def words_of(sheet: Sheet) -> str:
    return " ".join(label.text.replace("\n", " ") for label in sheet.labels)


@pytest.mark.parametrize("paper", PAPERS, ids=named)
def test_every_item_of_a_title_block_is_on_the_sheet(paper: Paper) -> None:
    sheet = framed(paper, FULL, (), scales=(TEN,), north_deg=80.0)

    words = words_of(sheet)
    for item in (
        "14 Tern Lane, Millrace",
        "12-034-07",
        "Town of Millrace",
        "Example Drainage, Inc.",
        "R. Sample, 555-0134",
        "2026-04-06, revision B",
        "4 of 9",
        "assumed 100.00 ft, curb top at the hole",
        "M-7 rev C, which governs",
        "Not a survey.",
        "1 in = 10 ft",
        "Permit no.",
        "Town's stamp",
        "Site sketch",
        "N",
    ):
        assert item in words
    assert (sheet.title, sheet.number, sheet.scale_text) == (
        "Site sketch",
        "4 of 9",
        "1 in = 10 ft",
    )


@pytest.mark.parametrize("paper", PAPERS, ids=named)
def test_nothing_of_a_full_frame_collides_or_leaves_the_paper(paper: Paper) -> None:
    notes = ("Call before you dig.",) * 12
    key = tuple(f"thing number {number} of the key" for number in range(9))

    sheet = framed(
        paper, FULL, everything(paper), scales=(TEN, EIGHTH), north_deg=123.0, notes=notes, key=key
    )

    assert collisions(sheet) == []
    assert outside(sheet.shapes, paper.box.grown(-6.0)) == ()


@pytest.mark.parametrize("paper", PAPERS, ids=named)
def test_what_finds_no_room_is_handed_back_whole_and_the_sheet_says_so(paper: Paper) -> None:
    notes = tuple(f"{number}: {LONG}" for number in range(20))

    sheet = framed(paper, FULL, everything(paper), notes=notes)
    more = continuation((sheet,), paper, replace(FULL, title="Notes", number=5))

    assert "Continued on the notes sheet." in words_of(sheet)
    printed = " ".join([words_of(sheet), *(words_of(page) for page in more)])
    assert "".join(printed.split()).count("".join(LONG.split())) == 20
    for word in LEGEND_WORDS.values():
        assert word in printed
    for page in more:
        assert collisions(page) == []
        assert outside(page.shapes, paper.box.grown(-6.0)) == ()


def test_a_sheet_with_room_for_all_is_not_continued() -> None:
    sheet = framed(TABLOID.landscape, FULL, (), notes=("One note.",))

    assert sheet.left_over == ()
    assert "Continued" not in words_of(sheet)
    assert continuation((sheet,), TABLOID.landscape, FULL) == ()


@pytest.mark.parametrize("paper", PAPERS, ids=named)
def test_names_of_two_hundred_letters_leave_the_sheet_whole(paper: Paper) -> None:
    title = replace(FULL, address=LONG, applicant=LONG, datum=LONG, disclaimer=LONG, title=LONG)

    sheet = framed(paper, title, (), scales=(TEN,))

    told = "".join("".join([words_of(sheet), *sheet.left_over]).split())
    assert collisions(sheet) == []
    assert outside(sheet.shapes, paper.box.grown(-6.0)) == ()
    assert told.count("".join(LONG.split())) == 5


def test_the_legend_has_what_is_used_and_nothing_else() -> None:
    drawn: list[Shape] = [
        Line((50, 50), (90, 50), Role.PIPE),
        *lettered_line([(50, 60), (90, 60)], Role.UTILITY_GAS),
        Hatch(((50, 70), (90, 70), (90, 90)), Pattern.CONCRETE),
        Label("right-of-way", (50, 100), role=Role.RIGHT_OF_WAY),
        Circle((120, 120), 2, Role.DIMENSION),
    ]

    entries = legend_entries(drawn)

    assert [entry.key for entry in entries] == [Role.PIPE, Role.UTILITY_GAS, Pattern.CONCRETE]


def test_a_view_may_word_the_legend_and_leave_entries_out() -> None:
    drawn = [Line((0, 0), (9, 0), Role.PIPE), Line((0, 0), (9, 0), Role.GROUND)]

    entries = legend_entries(drawn, {Role.PIPE: "3 in Sch 40", Role.GROUND: ""})

    assert [entry.words for entry in entries] == ["3 in Sch 40"]


def test_water_on_a_line_and_water_as_a_hatch_are_two_entries() -> None:
    drawn: list[Shape] = [
        Line((0, 0), (9, 0), Role.WATER),
        Hatch(((0, 0), (9, 0), (9, 9)), Pattern.WATER),
    ]

    assert [entry.words for entry in legend_entries(drawn)] == ["water", "standing water"]


def test_the_sample_of_a_utility_carries_its_letter() -> None:
    (entry,) = legend_entries(lettered_line([(0, 0), (40, 0)], Role.UTILITY_SEWER))

    letters = [mark.text for mark in entry.sample((0.0, 0.0)) if isinstance(mark, Label)]

    assert letters == ["S"]


def test_an_asterisk_on_the_drawing_is_explained() -> None:
    starred = framed(LETTER.landscape, FULL, [Label("right-of-way line*", (60, 60))])
    plain = framed(LETTER.landscape, FULL, [Label("right-of-way line", (60, 60))])

    assert "* assumed, not measured" in words_of(starred)
    assert "* assumed" not in words_of(plain)


def test_a_drawing_without_scale_says_so_twice() -> None:
    words = words_of(framed(LETTER.landscape, FULL, ()))

    assert "Not to scale" in words
    assert "not to scale" in words


def test_several_scales_are_each_shown_with_a_bar() -> None:
    sheet = framed(LETTER.landscape, FULL, (), scales=(TEN, EIGHTH))

    words = words_of(sheet)
    assert sheet.scale_text == "as shown"
    assert "1 in = 10 ft" in words
    assert "1 1/2 in = 1 ft" in words


def test_a_profile_states_its_exaggeration_beside_its_bar() -> None:
    both = ProfileScale(TEN, scales(Kind.DETAIL, System.US)[3])

    words = words_of(framed(LETTER.landscape, FULL, (), scales=(both,)))

    assert "vertical exaggeration 10" in words


def test_a_section_says_which_way_it_looks_in_place_of_north() -> None:
    sheet = framed(LETTER.landscape, FULL, (), looking="looking east", scales=(EIGHTH,))

    assert "Looking east" in words_of(sheet)
    assert "N" not in [label.text for label in sheet.labels]


@pytest.mark.parametrize("paper", PAPERS, ids=named)
def test_the_stamp_space_is_clear(paper: Paper) -> None:
    sheet = framed(paper, FULL, everything(paper), north_deg=90.0)

    (caption,) = [label for label in sheet.labels if label.text == "Town's stamp"]
    left, top = caption.box.left, caption.box.bottom
    stamp = caption.box._replace(left=left, bottom=top - 12.0, right=left + 55.0, top=top)
    assert not any(box.touches(stamp) for _, box in sheet.label_boxes)


@pytest.mark.parametrize("paper", PAPERS, ids=named)
def test_the_drawing_room_is_most_of_the_sheet_and_clear_of_the_frame(paper: Paper) -> None:
    room = drawing_room(paper)

    frame = framed(paper, FULL, (), scales=(TEN,), north_deg=90.0)
    assert room.width * room.height > 0.5 * paper.width_mm * paper.height_mm
    assert not any(room.touches(box) for _, box in frame.label_boxes)
    marks = [mark for mark in frame.primitives if isinstance(mark, Line)]
    assert not any(
        room.left < x < room.right and room.bottom < y < room.top
        for mark in marks
        for x, y in (mark.start, mark.end)
    )


def test_the_foot_of_a_sheet_is_left_for_the_page_number() -> None:
    sheet = framed(LETTER.landscape, FULL, ())

    (border,) = [mark for mark in sheet.primitives if isinstance(mark, Polygon)][:1]
    assert min(y for _, y in border.points) >= 12.0


def test_the_pointer_to_the_notes_stands_under_the_last_note_and_over_no_title_block() -> None:
    full = replace(FULL, address=LONG, applicant=LONG, datum=LONG, disclaimer=LONG, title=LONG)
    notes = tuple(f"Note {number} of many that do not all fit." for number in range(60))

    for paper in (LETTER.portrait, A4.portrait, LETTER.landscape, TABLOID.landscape):
        sheet = framed(paper, full, (), scales=(TEN,), notes=notes)

        assert sheet.left_over
        assert collisions(sheet) == []
        pointers = [one for one in sheet.labels if one.text.startswith("Continued")]
        told = [one.box for one in sheet.labels if one.text.startswith("Note ")]
        for pointer in pointers:
            over = [box for box in told if abs(box.left - pointer.box.left) < 0.5]
            assert all(box.bottom >= pointer.box.top - 0.1 for box in over)
            assert not any(drawing_room(paper).touches(box) for box in (*told, pointer.box))


def test_what_several_sheets_leave_over_is_gathered_and_said_once() -> None:
    notes = tuple(f"Note {number} of many that do not all fit." for number in range(60))
    sheets = [
        framed(LETTER.landscape, replace(FULL, number=number), (), notes=(*notes, own))
        for number, own in ((3, "Only here."), (4, "Only there."))
    ]

    (more,) = continuation(sheets, LETTER.landscape, replace(FULL, title="Notes", number=5))

    words = words_of(more)
    assert words.count("Note 59 of many") == 1
    assert "continued from sheet 3 and 4" in words
    assert "Only here." in words
    assert "Only there." in words
