"""Notes set on a drawing collide with nothing and none is lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheet_marks import collisions

from permitkit.drawing.callouts import Note, annotate, bubble
from permitkit.drawing.dimensions import Dimension, Leader
from permitkit.drawing.placing import BUBBLE_MM, Side
from permitkit.drawing.shapes import Anchor, Box, Circle, Fill, Label, Line, Polygon, Role, Shape
from permitkit.drawing.sheet import Sheet, flatten, labels_of, outside

ROOM = Box(12.0, 14.0, 195.0, 200.0)
SAYINGS = (
    "downspout, 380 ft² of roof",
    "core 4 in, hole bottom 3/8 in over the flow line, invert 99.57",
    "joint",
    "x" * 200,
    "town maple, 14 in, drip line as shown",
)
notes = st.lists(
    st.builds(
        Note,
        st.sampled_from(SAYINGS),
        st.tuples(st.floats(12, 195), st.floats(14, 200)),
        bold=st.booleans(),
        dot=st.booleans(),
        priority=st.integers(0, 1),
    ),
    max_size=25,
)


def a_drawing() -> list[Shape]:
    """Return a house, a street, dimensions and a slanted text."""
    return [
        Polygon(((40, 120), (120, 120), (120, 180), (40, 180)), Role.EXISTING, Fill.TONE),
        Line((12, 60), (195, 60), Role.EXISTING),
        Line((12, 75), (195, 75), Role.RIGHT_OF_WAY),
        Line((70, 60), (70, 120), Role.PIPE),
        Dimension((12, 60), (70, 60), -20, "19 ft", 5.8),
        Dimension((70, 60), (73, 60), -20, "1 ft", 0.3),
        Label("66 ft 6 in of 3 in Sch 40", (80, 80), angle_deg=40.0),
        Circle((150, 100), 1.0, Role.PLANT, Fill.SOLID),
    ]


@given(notes)
def test_notes_collide_with_no_text_and_stay_in_the_room(asked: list[Note]) -> None:
    drawn = a_drawing()

    done = annotate(asked, ROOM, drawn)

    sheet = Sheet(215.9, 279.4, "plan", (*drawn, *done.shapes))
    assert collisions(sheet) == []
    assert outside(labels_of(done.shapes), ROOM) == ()


@given(notes)
def test_every_note_is_on_the_drawing_or_in_the_key(asked: list[Note]) -> None:
    done = annotate(asked, ROOM, a_drawing())

    shown = [label.text.replace("\n", "").replace(" ", "") for label in labels_of(done.shapes)]
    told = [*shown, *(text.replace(" ", "") for text in done.key)]
    for note in asked:
        told.remove(note.text.replace(" ", ""))


def test_the_key_goes_on_from_another_view() -> None:
    wide = [Note("x" * 60, (100.0 + i, 100.0), wrap_mm=500.0) for i in range(2)]

    done = annotate(wide, Box(95, 80, 130, 120), (), first_number=4)

    assert [label.text for label in labels_of(done.shapes)] == ["4", "5"]
    assert done.key == ("x" * 60,) * 2


def test_a_note_prefers_the_side_it_asks_for() -> None:
    (label,) = labels_of(annotate([Note("curb", (100, 100), prefer=(Side.W,))], ROOM, ()).shapes)

    assert label.box.right < 100


def test_a_note_in_a_tight_place_is_led_to_its_point() -> None:
    lines = [Line((60, 80 + 2.5 * i), (140, 80 + 2.5 * i), Role.EXISTING) for i in range(16)]

    done = annotate([Note("joint", (100.0, 90.0))], ROOM, lines)

    (leader,) = done.shapes
    assert isinstance(leader, Leader)
    assert leader.points[0] == (100.0, 90.0)


def test_a_solid_dot_is_never_covered() -> None:
    dots = [Circle((103.0 + 4 * i, 100.0), 1.0, Role.PLANT, Fill.SOLID) for i in range(6)]

    (label,) = labels_of(annotate([Note("town maple", (100.0, 100.0))], ROOM, dots).shapes)

    for dot in dots:
        assert not label.box.touches(Box(*dot.centre, *dot.centre).grown(1.0))


def test_a_long_note_is_broken_into_lines() -> None:
    (label,) = labels_of(annotate([Note(SAYINGS[1], (100, 100), wrap_mm=40)], ROOM, ()).shapes)

    assert len(label.lines) >= 2
    assert label.width_mm <= 40


@pytest.mark.parametrize("number", [1, 9, 10, 88])
def test_a_number_fits_its_bubble(number: int) -> None:
    ring, figure = flatten(bubble((50.0, 50.0), number))

    assert isinstance(ring, Circle)
    assert isinstance(figure, Label)
    assert figure.anchor is Anchor.C
    assert ring.radius_mm == BUBBLE_MM / 2
    assert figure.width_mm < 2 * ring.radius_mm
