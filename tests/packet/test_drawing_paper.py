"""The paper of the drawings: larger where the job asks, while pages of text stay as they are."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from packets import judged
from pypdf import PdfReader

from permitkit.packet.assembly import town_copy
from permitkit.packet.drawn import drawing_paper_of, paper_of

MM = 72 / 25.4


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        ("letter", (279.4, 215.9)),
        ("tabloid", (431.8, 279.4)),
        ("A4", (297.0, 210.0)),
        ("A3", (420.0, 297.0)),
    ],
)
def test_drawings_take_the_paper_that_a_job_asks_for(paper: str, size: tuple[float, float]) -> None:
    given = judged("millrace-clean")
    asked = replace(given, job=given.job.model_copy(update={"paper": paper}))

    pages = PdfReader(io.BytesIO(town_copy(asked, draft=False, folder=Path()).pdf)).pages

    sizes = [(float(page.mediabox.width) / MM, float(page.mediabox.height) / MM) for page in pages]
    drawn = [found for found in sizes if found[0] > found[1]]
    texts = [found for found in sizes if found[0] < found[1]]
    assert len(drawn) >= 5
    assert all(found == pytest.approx(size, abs=0.2) for found in drawn)
    assert all(found == pytest.approx((215.9, 279.4), abs=0.2) for found in texts)


def test_a_job_that_asks_for_no_paper_draws_on_that_of_its_texts() -> None:
    job = judged("millrace-clean").job
    metric = job.model_copy(update={"units": "metric"})

    assert drawing_paper_of(job) == paper_of(job)
    assert drawing_paper_of(metric) == paper_of(metric)
    assert paper_of(metric).name == "A4"
