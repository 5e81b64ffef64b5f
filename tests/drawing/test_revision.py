"""The bars of a round: beside what changed, and beside nothing else."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheet_marks import INFO, collisions, demo

from permitkit.drawing.dimensions import Dimension
from permitkit.drawing.frame import TitleBlock, drawing_room, framed
from permitkit.drawing.revision import changed_boxes, revised, revised_sheets
from permitkit.drawing.scale import LETTER, Paper
from permitkit.drawing.shapes import (
    Box,
    Circle,
    Fill,
    Hatch,
    Label,
    Line,
    Pattern,
    Polygon,
    Polyline,
    Role,
)
from permitkit.drawing.sheet import extent
from permitkit.drawing.sheet_parts.prose import NO_LEGEND
from permitkit.drawing.site_sketch import site_sketch

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Shape
    from permitkit.drawing.sheet import Sheet

PAPER = LETTER.landscape
ROOM = drawing_room(PAPER)
SQUARE = ((100.0, 100.0), (120.0, 100.0), (120.0, 120.0), (100.0, 120.0))
DRAWN: tuple[Shape, ...] = (
    Line((30.0, 60.0), (150.0, 60.0), Role.EXISTING),
    Polyline(((60.0, 60.0), (60.0, 130.0), (90.0, 150.0)), Role.PIPE),
    Hatch(SQUARE, Pattern.CONCRETE),
    Circle((70.0, 90.0), 4.0, Role.PLANT),
    Dimension((30.0, 60.0), (60.0, 60.0), -12.0, "9 ft 10 in", 3.0),
    Label("house", (80.0, 160.0)),
)


def sheet(
    *shapes: Shape, notes: tuple[str, ...] = (), paper: Paper = PAPER, **title: object
) -> Sheet:
    block = TitleBlock("14 Tern Lane", "Millrace", "Site sketch", **title)  # type: ignore[arg-type]
    return framed(paper, block, shapes, notes=notes, words=NO_LEGEND)


def bars(marked: Sheet, plain: Sheet) -> list[Box]:
    """Return the bars added to a sheet."""
    added = marked.shapes[len(plain.shapes) :]
    solid = (s for s in added if isinstance(s, Polygon) and s.fill is Fill.SOLID)
    return [Box.around(bar.points) for bar in solid]


def letters(marked: Sheet, plain: Sheet) -> list[Label]:
    return [s for s in marked.shapes[len(plain.shapes) :] if isinstance(s, Label)]


def moved(shape: Shape, dx: float, dy: float) -> Shape:
    """Return a shape of the drawing in another place."""

    def there(point: tuple[float, float]) -> tuple[float, float]:
        return point[0] + dx, point[1] + dy

    match shape:
        case Line() | Dimension():
            return replace(shape, start=there(shape.start), end=there(shape.end))
        case Polyline():
            return replace(shape, points=tuple(map(there, shape.points)))
        case Hatch():
            return replace(shape, region=tuple(map(there, shape.region)))
        case Circle():
            return replace(shape, centre=there(shape.centre))
        case Label():
            return replace(shape, at=there(shape.at))
    raise TypeError(shape)


def test_a_sheet_that_did_not_change_has_no_bar() -> None:
    now = sheet(*DRAWN)

    assert changed_boxes(sheet(*DRAWN), now) == ()
    assert revised(now, (), "B") is now


def test_the_date_the_letter_and_the_number_of_the_sheet_are_no_change() -> None:
    former = sheet(*DRAWN, date="Apr 6, 2026", revision="A", number=2, of=7)
    now = sheet(*DRAWN, date="May 1, 2026", revision="B", number=3, of=8)

    assert changed_boxes(former, now) == ()


def test_another_address_is_a_change() -> None:
    assert changed_boxes(sheet(*DRAWN, parcel="07-1"), sheet(*DRAWN, parcel="07-2"))


@pytest.mark.parametrize("index", range(len(DRAWN)))
def test_what_is_moved_counts_where_it_was_and_where_it_is(index: int) -> None:
    now = list(DRAWN)
    now[index] = moved(DRAWN[index], 0.5, 7.0)
    boxes = changed_boxes(sheet(*DRAWN), sheet(*now))

    assert boxes
    assert sorted(changed_boxes(sheet(*now), sheet(*DRAWN))) == sorted(boxes)
    one, other = (extent(shapes) for shapes in ([DRAWN[index]], [now[index]]))
    assert Box.around(point for box in boxes for point in box.corners) == (
        pytest.approx(Box.around((*one.corners, *other.corners)))
    )


@pytest.mark.parametrize("index", range(len(DRAWN)))
def test_what_is_added_and_what_is_taken_away_counts(index: int) -> None:
    less = (*DRAWN[:index], *DRAWN[index + 1 :])

    added = changed_boxes(sheet(*less), sheet(*DRAWN))
    assert added
    assert sorted(changed_boxes(sheet(*DRAWN), sheet(*less))) == sorted(added)


@pytest.mark.parametrize(
    "altered",
    [
        replace(DRAWN[0], role=Role.REMOVED),  # type: ignore[type-var]
        replace(DRAWN[5], text="barn"),  # type: ignore[type-var]
        replace(DRAWN[3], radius_mm=4.01),  # type: ignore[type-var]
        replace(DRAWN[2], pattern=Pattern.ASPHALT),  # type: ignore[type-var]
    ],
)
def test_what_is_altered_in_its_place_counts(altered: Shape) -> None:
    now = [altered if type(shape) is type(altered) else shape for shape in DRAWN]

    boxes = changed_boxes(sheet(*DRAWN), sheet(*now))
    assert len(boxes) == 2


def test_two_of_one_mark_are_not_one() -> None:
    twice = (*DRAWN, DRAWN[0])

    assert len(changed_boxes(sheet(*DRAWN), sheet(*twice))) == 1


@settings(max_examples=40)
@given(st.floats(-9.0, 9.0), st.floats(-9.0, 9.0), st.integers(0, 2))
def test_a_view_that_lies_elsewhere_on_the_paper_has_not_changed(
    dx: float, dy: float, more: int
) -> None:
    now = [moved(shape, dx, dy) for shape in DRAWN]
    new = [Label(f"new {rank}", (40.0, 30.0 + 9 * rank)) for rank in range(more)]

    assert len(changed_boxes(sheet(*DRAWN), sheet(*now, *new))) == more


def test_a_note_that_was_only_pushed_down_has_not_changed() -> None:
    former = sheet(*DRAWN, notes=("Right-of-way line from the plat.",))
    now = sheet(*DRAWN, notes=("Dig by hand.", "Right-of-way line from the plat."))
    (box,) = changed_boxes(former, now)

    (label,) = (label for label in now.labels if label.text == "Dig by hand.")
    assert box == label.box


def test_a_bar_stands_in_the_margin_beside_what_changed_with_its_letter() -> None:
    plain = sheet(*DRAWN)
    marked = revised(plain, [Box(80.0, 100.0, 120.0, 130.0)], "B")
    ((bar,), (letter,)) = bars(marked, plain), letters(marked, plain)
    (triangle,) = (
        s for s in marked.shapes[len(plain.shapes) :] if isinstance(s, Polygon) and s.outlined
    )

    assert (bar.bottom, bar.top) == pytest.approx((99.0, 131.0))
    assert bar.right < ROOM.left
    assert letter.text == "B"
    assert letter.box.centre[1] == pytest.approx(115.0, abs=1.5)
    assert Box.around(triangle.points).holds(letter.box._replace(bottom=letter.at[1] + 0.9))
    assert Box.around(triangle.points).left > 4.0
    assert marked.shapes[: len(plain.shapes)] == plain.shapes


def test_bars_that_would_run_into_one_another_are_one() -> None:
    plain = sheet(*DRAWN)
    boxes = [Box(0, 100, 9, 110), Box(0, 105, 9, 125), Box(0, 128, 9, 130), Box(0, 150, 9, 150)]
    marked = revised(plain, boxes, "C")

    spans = [(bar.bottom, bar.top) for bar in bars(marked, plain)]
    assert spans == [pytest.approx((99.0, 131.0)), pytest.approx((148.0, 152.0))]


BOXES = st.builds(
    lambda x, y, width, height: Box(x, y, x + width, y + height),
    st.floats(0.0, 250.0),
    st.floats(0.0, 215.0),
    st.floats(0.0, 60.0),
    st.floats(0.0, 80.0),
)


@settings(max_examples=60)
@given(st.lists(BOXES, max_size=12))
def test_bars_stay_inside_the_border_and_no_letter_covers_another(boxes: list[Box]) -> None:
    plain = sheet(*DRAWN)
    marked = revised(plain, boxes, "D")
    drawn = bars(marked, plain)

    assert bool(drawn) == bool(boxes)
    assert collisions(marked) == []
    assert all(ROOM.bottom - 3 <= bar.bottom < bar.top <= ROOM.top + 3 for bar in drawn)
    assert all(bar.height > 3.99 for bar in drawn)
    for box in boxes:
        middle = min(max(box.centre[1], ROOM.bottom), ROOM.top)
        assert any(bar.bottom <= middle <= bar.top for bar in drawn)


def test_sheets_are_held_against_those_of_their_title_and_place() -> None:
    plain = sheet(*DRAWN)
    other = replace(sheet(*DRAWN[1:]), title="Walk cut")
    moved_on = revised_sheets((other, plain, plain), (plain, sheet(*DRAWN[:-1]), other), "B")

    assert moved_on[0] is plain
    assert len(letters(moved_on[1], sheet(*DRAWN[:-1]))) == 1
    assert moved_on[2] is other


def test_a_sheet_without_its_like_is_new_from_top_to_bottom() -> None:
    plain = sheet(*DRAWN)
    (marked,) = revised_sheets((), (plain,), "B")
    (bar,) = bars(marked, plain)

    assert bar.height > ROOM.height


def test_a_tree_moved_on_the_site_is_marked_on_the_sketch_and_nowhere_else() -> None:
    job, study = demo("millrace-cured")
    tree = next(feature for feature in job.feature if feature.kind == "tree")
    further = tree.model_copy(update={"near": job.site.frontage})
    features = tuple(further if feature is tree else feature for feature in job.feature)
    info = replace(INFO, revision="C", date="2027-05-01")
    former = site_sketch(job, study, INFO)
    now = site_sketch(job.model_copy(update={"feature": features}), study, info)
    marked = revised_sheets(former, now, "C")

    (bar,) = bars(marked[0], now[0])
    rings = (s for s in now[0].primitives if isinstance(s, Circle) and s.role is Role.PLANT)
    for ring in rings:
        assert bar.bottom <= ring.centre[1] <= bar.top
    assert bar.height < ROOM.height / 2
    assert collisions(marked[0]) == []
    assert revised_sheets(former, former, "C") == former
