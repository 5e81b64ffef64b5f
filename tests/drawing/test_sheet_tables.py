from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from permitkit.drawing.placing import overlaps
from permitkit.drawing.shapes import Box
from permitkit.drawing.sheet import extent, labels_of
from permitkit.drawing.sheet_parts.spread import spread
from permitkit.drawing.sheet_parts.table import (
    Column,
    fitted_columns,
    paired_pages,
    paired_tables,
    rows_that_fit,
    ruled_table,
)
from permitkit.drawing.sheet_parts.text import shortened

HEADS = ("Node", "Lowest opening")
ROWS = [("N1", "101.20 ft leaf screen"), ("N2", "sealed"), ("N3", "a patio grate " * 6)]
ROOM = Box(10.0, 10.0, 190.0, 120.0)


@given(
    st.lists(st.floats(-50.0, 250.0), min_size=1, max_size=12),
    st.lists(st.floats(1.0, 20.0), min_size=12, max_size=12),
)
def test_tags_stand_in_order_side_by_side_between_their_ends(
    wanted: list[float], widths: list[float]
) -> None:
    places, sizes = sorted(wanted), widths[: len(wanted)]

    middles = spread(places, sizes, 0.0, 250.0)

    assert middles is not None
    edges = [(m - w / 2, m + w / 2) for m, w in zip(middles, sizes, strict=True)]
    assert edges[0][0] >= -1e-6
    assert edges[-1][1] <= 250.0 + 1e-6
    assert all(a[1] <= b[0] + 1e-6 for a, b in pairwise(edges))


def test_tags_with_room_stand_where_they_want_to() -> None:
    assert spread([10.0, 40.0, 90.0], [10.0, 10.0, 10.0], 0.0, 100.0) == (10.0, 40.0, 90.0)


def test_tags_without_room_are_told_as_such() -> None:
    assert spread([1.0, 2.0, 3.0], [10.0, 10.0, 10.0], 0.0, 29.0) is None


def test_a_table_is_as_wide_as_its_texts_and_no_wider_than_its_room() -> None:
    narrow = fitted_columns(HEADS, ROWS, 60.0)
    wide = fitted_columns(HEADS, ROWS, 500.0)

    assert sum(column.width_mm for column in narrow) <= 60.0 + 1e-6
    assert sum(column.width_mm for column in wide) < 200.0


def test_no_cell_of_a_table_runs_into_another() -> None:
    table = ruled_table(fitted_columns(HEADS, ROWS, 50.0), ROWS, (10.0, 100.0))

    boxes = [label.box for label in labels_of(table.shapes)]

    assert overlaps(boxes) == []
    assert extent(table.shapes).height == pytest.approx(table.height_mm)


def test_rows_are_counted_until_the_height_is_used_up() -> None:
    columns = (Column("Node", 20.0), Column("Lowest opening", 40.0))
    whole = ruled_table(columns, ROWS, (0.0, 0.0)).height_mm

    assert rows_that_fit(columns, ROWS, whole) == 3
    assert rows_that_fit(columns, ROWS, whole - 1.0) == 2
    assert rows_that_fit(columns, ROWS, 3.0) == 0


def test_two_tables_side_by_side_share_their_rows_fairly() -> None:
    rows = [(f"part {index}", "as proposed, in one line") for index in range(8)]

    pair = paired_tables(("Part", "As proposed"), rows, (20.0, ROOM))

    one = ruled_table((Column("Part", 20.0), Column("As proposed", 68.5)), rows[:4], (0.0, 0.0))
    assert pair.height_mm == pytest.approx(one.height_mm)


def test_rows_without_room_go_to_another_page_and_a_row_that_never_fits_is_cut() -> None:
    rows = [("short", "one line"), ("long", "many words " * 2000), ("last", "one line")]

    pages = paired_pages(("Part", "As proposed"), rows, (20.0, ROOM))

    assert all(page.height_mm <= ROOM.height + 1e-6 for page in pages)
    words = [label.text for page in pages for label in labels_of(page.shapes)]
    assert "short" in words
    assert "last" in words
    assert any(text.endswith("\N{HORIZONTAL ELLIPSIS}") for text in words)


def test_a_text_is_cut_to_its_room_and_says_so() -> None:
    cut = shortened("Lower Pemberton-Whitlow Embankment Road", 30.0)

    assert cut.endswith("\N{HORIZONTAL ELLIPSIS}")
    assert "Lower Pemberton-Whitlow Embankment Road".startswith(cut[:-1])
