"""What the packet tells of the papers: permits that are not needed, what is wanted only at times."""

from __future__ import annotations

from functools import cache

from builder import CLEAN, job_of, sheets
from cases_permits import exempt

from permitkit.checks.judge import Judged, judge
from permitkit.packet.front import transmittal
from permitkit.render.blocks import Block


@cache
def judged(rules: str) -> Judged:
    job = job_of(CLEAN, {})
    return judge(job, sheets(job, rules))


def texts(block: Block) -> str:
    return str(block)


def test_a_permit_that_is_not_needed_is_named_with_the_reason() -> None:
    told = "".join(texts(block) for block in transmittal(judged(exempt()), ()).blocks)

    why = "Grading permit: no permit is needed for this work by Bench Book, section 1"
    assert f"{why}; sent for the record" in told


def test_a_permit_that_is_needed_is_named_alone() -> None:
    told = "".join(texts(block) for block in transmittal(judged(""), ()).blocks)

    assert "Street opening permit" in told
    assert "for the record" not in told
