"""What the packet tells of papers: permits that are not needed, what is wanted only at times."""

from __future__ import annotations

import io
from datetime import date
from functools import cache

import pytest
from builder import CLEAN, job_of, rule, sheets
from cases_permits import exempt
from packets import town
from pypdf import PdfReader

from permitkit.checks.judge import Judged, judge
from permitkit.packet.front import documents_asked, transmittal
from permitkit.packet.office import office_parts


@cache
def judged(rules: str) -> Judged:
    job = job_of(CLEAN, {})
    return judge(job, sheets(job, rules))


def told(rules: str) -> str:
    """Return the blocks of the first sheet as text."""
    return "".join(str(block) for block in transmittal(judged(rules), ()).blocks)


def test_a_permit_that_is_not_needed_is_named_with_the_reason() -> None:
    why = "Grading permit: no permit is needed for this work by Bench Book, section 1"

    assert f"{why}; sent for the record" in told(exempt())


def test_a_permit_that_is_needed_is_named_alone() -> None:
    first = told("")

    assert "Street opening permit" in first
    assert "for the record" not in first


def test_a_paper_wanted_only_at_times_is_listed_with_its_condition() -> None:
    bond = rule("docs.required", items=[{"name": "bond", "only_if": "land is disturbed"}])

    assert "bond: only if land is disturbed" in told(bond)
    assert "bond" not in told(rule("docs.required", items=["sketch"]))


def test_a_paper_known_by_its_title_counts_as_enclosed() -> None:
    asked = judged(rule("docs.required", items=["elevation sheet", "dig plan"]))
    titled = {"kind": "other", "title": "Elevation sheet of the lot"}
    job = job_of(CLEAN, {"papers.attachment+": titled})

    papers = dict(documents_asked(judge(job, asked.rules.sheets)))

    assert (papers["elevation sheet"], papers["dig plan"]) == (True, False)


SENT = {"revision": "A", "sent": date(2026, 3, 2)}


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, "Revision A was sent Mon Mar 2, 2026."),
        (
            {"returned": date(2026, 3, 6), "changed": ["a smaller hole"]},
            "Revision A was sent Mon Mar 2, 2026 and came back Fri Mar 6, 2026; since then:",
        ),
    ],
)
def test_a_packet_that_came_back_says_when_it_was_sent(more: dict[str, object], words: str) -> None:
    job = job_of(CLEAN, {"round+": SENT | more})

    blocks = transmittal(judge(job, judged("").rules.sheets), ()).blocks

    assert words in "".join(map(str, blocks))


def test_the_application_names_the_endorsement_of_a_policy() -> None:
    made = " ".join(PdfReader(io.BytesIO(town(CLEAN).pdf)).pages[1].extract_text().split())

    assert "endorsement HM-END 4, until" in made


def test_the_crew_card_says_what_the_town_asks_of_the_concrete() -> None:
    slump = rule("walk.slump", at_most="3 in")
    card = next(part for part in office_parts(judged(slump)) if part.key == "crew card")
    plain = next(part for part in office_parts(judged("")) if part.key == "crew card")

    assert "How much slump may the concrete have" in str(card.blocks)
    assert "slump" not in str(plain.blocks)
