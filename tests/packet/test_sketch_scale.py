"""A length measured on the printed site sketch, times its scale, is the job's number."""

from __future__ import annotations

import io
import math
import re
from fractions import Fraction
from typing import TYPE_CHECKING

import pikepdf
import pytest
from packets import judged, town
from pypdf import PdfReader

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.units import Measure

MM = 25.4 / 72
NEAR_MM = 0.01
IDENTITY = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def times(one: tuple[float, ...], other: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )


def segments(pdf: bytes, page: int) -> Iterator[tuple[float, float]]:
    """Yield the run and rise of every straight stroke of a page, in mm of paper."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        matrix, kept, at = IDENTITY, [], (0.0, 0.0)
        for operands, operator in pikepdf.parse_content_stream(document.pages[page]):
            name = str(operator)
            if name == "q":
                kept.append(matrix)
            elif name == "Q":
                matrix = kept.pop()
            elif name == "cm":
                matrix = times(tuple(map(float, operands)), matrix)
            elif name in {"m", "l"}:
                x, y = map(float, operands)
                a, b, c, d, e, f = matrix
                to = (a * x + c * y + e, b * x + d * y + f)
                if name == "l":
                    yield (to[0] - at[0]) * MM, (to[1] - at[1]) * MM
                at = to


def sketch_page(name: str) -> tuple[int, float]:
    """Return the page of the site sketch and the metres that one mm of its paper stands for."""
    reader = PdfReader(io.BytesIO(town(name).pdf))
    mark = next(item for item in reader.outline if item.title == "Site sketch")  # type: ignore[union-attr]
    page = reader.get_destination_page_number(mark)  # type: ignore[arg-type]
    assert page is not None
    said = re.search(r"1 in = (\d+) ft", reader.pages[page].extract_text())
    assert said
    return page, float(Fraction(said.group(1)) * 12) / 1000


def is_drawn(name: str, length_m: float) -> bool:
    page, metres = sketch_page(name)
    wanted = length_m / metres
    return any(
        math.isclose(math.hypot(*step), wanted, abs_tol=NEAR_MM)
        for step in segments(town(name).pdf, page)
    )


@pytest.mark.parametrize("name", ["millrace-clean", "sorrel-flats-notch"])
def test_the_frontage_and_both_ties_measure_true(name: str) -> None:
    job = judged(name).job
    lengths: list[Measure | None] = [job.site.frontage, job.outlet.tie_line, job.outlet.tie_object]

    for length in lengths:
        assert length is not None
        assert is_drawn(name, float(length)), length.text


def test_a_length_the_job_does_not_have_is_not_found() -> None:
    assert not is_drawn("millrace-clean", 63 * 0.3048)
