"""What is asked of the numbers that a town counts its money by."""

from __future__ import annotations

from permitkit.load.job_form.question import EVERY, Part, Question

__all__ = ["PARTS"]

_UNKNOWN = "not known; a sum counted by it becomes a question"

_COUNTS = (
    Question(
        "counts",
        "What the town counts its money by and nothing else here tells.",
        reads=("fees.lines", "fees.deposit", "fees.bond"),
    ),
    Question(
        "counts.blocks",
        "The blocks of street that the work touches.",
        "1",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.locations",
        "The places of work.",
        "1",
        "one",
        aside=EVERY,
    ),
    Question(
        "counts.openings",
        "The openings dug or cut.",
        "1",
        "one where anything is opened, else none",
        aside=EVERY,
    ),
    Question(
        "counts.surfaces_opened",
        "The kinds of surface opened: walk, verge, curb, pavement.",
        "3",
        "told from the cut",
        aside=EVERY,
    ),
    Question(
        "counts.street_crossings",
        "How often the work crosses the street.",
        "0",
        "one where the pavement is cut from curb to curb, else none",
        aside=EVERY,
    ),
    Question(
        "counts.sheets",
        "The sheets of drawings that are reviewed.",
        "4",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.copies",
        "The copies that are made or handed in.",
        "2",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.weeks",
        "The weeks that the street or the walk is taken.",
        "1",
        "from the start to the finish, a part as a whole one",
        aside=EVERY,
    ),
    Question(
        "counts.months",
        "The months that it is taken.",
        "1",
        "from the start to the finish, a part as a whole one",
        aside=EVERY,
    ),
    Question(
        "counts.hours",
        "The hours that the town charges for, where it says no more.",
        "2",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.hours_of_review",
        "The hours of review, once the town has told them.",
        "2",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.hours_of_inspection",
        "The hours of inspection, once the town has told them.",
        "2",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.hours_of_work",
        "The hours of the town's own work, once it has told them.",
        "2",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.length_of_pavement",
        "The length of the cut in the pavement.",
        '"4 ft"',
        "the longer side of the pavement cut",
        aside=EVERY,
    ),
    Question(
        "counts.length_of_opening",
        "The length of all openings in the right-of-way.",
        '"12 ft"',
        "the length of the trench",
        aside=EVERY,
    ),
    Question(
        "counts.area_of_street",
        "The area of street opened.",
        '"8 sq ft"',
        "the area of pavement cut",
        aside=EVERY,
    ),
    Question(
        "counts.other",
        "What the town counts by in words of its own; one table for each.",
        "",
        _UNKNOWN,
        aside=EVERY,
    ),
    Question(
        "counts.other.per",
        "The word after `per`, as its sheet has it.",
        '"truck"',
        aside=EVERY,
    ),
    Question(
        "counts.other.number",
        "How many of them.",
        "2",
        aside=EVERY,
    ),
)

PARTS = (Part("what money is counted by", _COUNTS),)
