"""Times a sheet can hold: an earliest day, an hour that is too late, the shorter of several."""

from __future__ import annotations

from datetime import time

import pytest
from sheet_text import case, fault

from permitkit.model.telling import value_text
from permitkit.model.values import (
    DayHours,
    Hours,
    Item,
    Items,
    PaperEnd,
    Season,
    Seasons,
    Span,
    Spans,
    YearDay,
)

TIMES = [
    (
        "dates.locate_wait",
        'span = "2 full working days", clock = "call", earliest = "14 days", cutoff = "16:00"',
        Span(
            2,
            "working days",
            "call",
            full_days=True,
            earliest=Span(14, "days"),
            cutoff=time(16, 0),
        ),
        (
            "at least 2 full working days and at most 14 days before, counted from the call; what "
            "comes after 16:00 counts from the next working day"
        ),
    ),
    (
        "dates.review",
        'span = "10 working days", cutoff = "9:30"',
        Span(10, "working days", cutoff=time(9, 30)),
        "10 working days; what comes after 09:30 counts from the next working day",
    ),
    (
        "dates.complete_by",
        'lesser_of = ["1 year", { ends_with = "building permit" }], clock = "issue"',
        Spans((Span(1, "years", "issue"), PaperEnd("building permit"))),
        "1 year, counted from the issue; or the end of the building permit; whichever ends first",
    ),
    (
        "dates.restore_by",
        'greater_of = [{ span = "30 days", clock = "opening" }, { before = "11-15" }]',
        Spans((Span(30, "days", "opening"), YearDay(11, 15, before=True)), first=False),
        "30 days, counted from the opening; or before Nov 15; whichever ends last",
    ),
    (
        "dates.lead",
        'greater_of = ["48 hours", { span = "2 working days", cutoff = "15:00" }]',
        Spans((Span(48, "hours"), Span(2, "working days", cutoff=time(15, 0))), first=False),
        (
            "48 hours; or 2 working days; what comes after 15:00 counts from the next working day; "
            "whichever ends last"
        ),
    ),
    ("dates.close_by", 'by = "11-14"', Spans((YearDay(11, 14),)), "by Nov 14"),
    (
        "dates.inspections",
        'items = [{ name = "forms", notice = "24 hours", earliest = "3 days", cutoff = "14:00" }]',
        Items(
            (
                Item(
                    "forms",
                    notice=Span(24, "hours", earliest=Span(3, "days"), cutoff=time(14, 0)),
                ),
            )
        ),
        (
            "forms (24 hours notice, at most 3 days; a call after 14:00 counts from the next "
            "working day)"
        ),
    ),
]


@pytest.mark.parametrize(("key", "text", "value", "told"), TIMES)
def test_a_time_is_held_and_told(key: str, text: str, value: object, told: str) -> None:
    held = case(key, text).value

    assert held == value
    assert value_text(held) == told


FAULTS = [
    ("dates.lead", 'span = "10 days", earliest = "2 days"', "earliest", "shorter than 10 days"),
    ("dates.lead", 'span = "10 working days", earliest = "12 days"', "earliest", "no shorter"),
    ("dates.lead", 'span = "2 days", earliest = "no end"', "earliest", "no shorter than 2 days"),
    ("dates.lead", 'span = "2 days", earliest = "soon"', "earliest", "a number of hours, days"),
    ("dates.validity", 'span = "2 days", earliest = "9 days"', "earliest", "no wait before"),
    ("dates.lead", 'span = "2 days", cutoff = "4 pm"', "cutoff", "an hour of the day"),
    ("dates.lead", 'span = "2 days", cutoff = "25:00"', "cutoff", "an hour of the day"),
    ("dates.lead", 'by = "11-15"', "by", "a length of time"),
    ("dates.lead", 'lesser_of = ["2 days", { ends_with = "permit" }]', "ends_with", "a length"),
    ("dates.close_by", 'before = "11-31"', "before", "a day of the year"),
    ("dates.close_by", 'before = "Nov 15"', "before", "a day of the year"),
    ("dates.close_by", 'ends_with = "season"', "ends_with", "building permit"),
    ("dates.close_by", 'lesser_of = ["2 days"]', "lesser_of", "two times or more"),
    ("dates.close_by", 'lesser_of = [2, "3 days"]', "lesser_of", "times, such as"),
    ("dates.close_by", 'lesser_of = ["2 days", { clock = "issue" }]', "lesser_of[2]", "one of sp"),
    ("dates.close_by", 'lesser_of = ["1 day", { span = "2 days", by = "1-1" }]', "[2]", "one of"),
    ("dates.close_by", 'lesser_of = ["1 day", { span = "2 days", at = "1" }]', "at", "one of"),
    ("dates.lead", 'lesser_of = ["1 day", "2 days"], cutoff = "16:00"', "cutoff", "within one"),
    ("dates.close_by", 'span = "2 days", by = "11-14"', "dates.close_by", "one value"),
]


@pytest.mark.parametrize(("key", "text", "where", "expected"), FAULTS)
def test_a_time_that_makes_no_sense_is_told(key: str, text: str, where: str, expected: str) -> None:
    found = fault(f"[rule]\n{key} = {{ {text}, cite = 'code 1' }}\n")

    assert found.where.endswith(where)
    assert expected in found.expected or expected in found.fix


WEEKS = [
    (
        "traffic.hours",
        (
            'week = [{ days = "Mon-Thu", hours = ["09:00-11:00", "13:00-15:30"] }, '
            '{ days = ["Fri", "Sat"], hours = "09:00-12:00" }]'
        ),
        Hours(
            (
                DayHours(
                    ((time(9), time(11)), (time(13), time(15, 30))),
                    (0, 1, 2, 3),
                ),
                DayHours(((time(9), time(12)),), (4, 5)),
            )
        ),
        "09:00-11:00, 13:00-15:30 on Mon, Tue, Wed, Thu; 09:00-12:00 on Fri, Sat",
    ),
    (
        "dates.concrete_season",
        'closed = [{ season = "11-15 to 04-01", soft_end = true }, "07-01 to 07-05"]',
        Seasons((Season((11, 15), (4, 1), soft_end=True), Season((7, 1), (7, 5)))),
        "closed Nov 15 to Apr 1 and Jul 1 to Jul 5 (the end of Nov 15 to Apr 1 may move)",
    ),
    (
        "water.sump_season",
        'open = ["04-01 to 06-30", "09-01 to 11-14"]',
        Seasons((Season((4, 1), (6, 30), closed=False), Season((9, 1), (11, 14), closed=False))),
        "open Apr 1 to Jun 30 and Sep 1 to Nov 14",
    ),
]


@pytest.mark.parametrize(("key", "text", "value", "told"), WEEKS)
def test_hours_of_a_week_and_parts_of_a_year_are_held_and_told(
    key: str, text: str, value: object, told: str
) -> None:
    held = case(key, text).value

    assert held == value
    assert value_text(held) == told


WEEK_FAULTS = [
    ("traffic.hours", 'week = [{ days = "Mon" }]', "week[1].hours", "hours of the day"),
    (
        "traffic.hours",
        'week = [{ hours = "07:00-12:00" }, { days = "Fri-Sat", hours = "08:00-12:00" }]',
        "week[2].days",
        "each day in one part",
    ),
    ("traffic.hours", 'week = [{ hours = "07:00-12:00", at = 1 }]', "week[1].at", "one of"),
    ("traffic.hours", 'week = [{ hours = "07:00-12:00" }], days = "Mon"', "days", "within each"),
    ("traffic.hours", 'hours = ["09:00-12:00", "11:00-13:00"]', "hours", "in their order"),
    ("dates.concrete_season", 'closed = ["11-15 to 04-01", "11-15 to 04-01"]', "closed", "once"),
    ("dates.concrete_season", "closed = [1]", "closed", "a part of the year"),
    ("dates.concrete_season", 'closed = [{ season = "1 to 2" }]', "[1].season", "month-day"),
    ("dates.concrete_season", 'closed = [{ season = "1-1 to 2-1", on = 1 }]', "[1].on", "one of"),
]


@pytest.mark.parametrize(("key", "text", "where", "expected"), WEEK_FAULTS)
def test_a_week_or_a_season_that_makes_no_sense_is_told(
    key: str, text: str, where: str, expected: str
) -> None:
    found = fault(f"[rule]\n{key} = {{ {text}, cite = 'code 1' }}\n")

    assert found.where.endswith(where)
    assert expected in found.expected
