"""Waits with an earliest day, calls after the hour, the shorter and the longer of several times."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import demo, rules_saying

from permitkit.model.values import Span
from permitkit.study.calendar import study_calendar
from permitkit.study.days import WorkCalendar, next_on

if TYPE_CHECKING:
    from permitkit.study.results import CalendarStudy, DatedStep

US = WorkCalendar()
CALL = 'dates.locate_wait = {{ {}, clock = "call", cite = "pw 1" }}'


def calendar_with(rules: str, **changes: Any) -> CalendarStudy:  # noqa: ANN401 - fields differ
    job = demo("millrace-clean")
    locate = {name: changes.pop(name) for name in ("called", "called_at") if name in changes}
    top = {name: changes.pop(name) for name in ("filing", "filed_at") if name in changes}
    parts = {
        "dates": job.dates.model_copy(update=changes),
        "locate": job.locate.model_copy(update=locate),
    }
    return study_calendar(job.model_copy(update=parts | top), rules_saying(rules), US)


def step(calendar: CalendarStudy, key: str) -> DatedStep:
    return next(found for found in calendar.steps if found.key == key)


@pytest.mark.parametrize(
    ("earliest", "day"),
    [
        ("6 days", date(2026, 4, 21)),
        ("14 days", date(2026, 4, 13)),
        ("2 weeks", date(2026, 4, 13)),
        ("4 working days", date(2026, 4, 21)),
        ("4 full working days", date(2026, 4, 20)),
    ],
)
def test_the_first_day_to_call_stands_in_the_calendar(earliest: str, day: date) -> None:
    calendar = calendar_with(CALL.format(f'span = "2 days", earliest = "{earliest}"'))

    assert calendar.locate_call_from == day
    assert step(calendar, "locate-call-from").day == day
    assert step(calendar, "locate-call-from").how.startswith(f"at most {earliest} before")


def test_without_an_earliest_day_there_is_none() -> None:
    calendar = calendar_with(CALL.format('span = "2 days"'))

    assert calendar.locate_call_from is None
    assert "locate-call-from" not in {found.key for found in calendar.steps}


@given(
    st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    st.builds(Span, st.integers(1, 30), st.sampled_from(["days", "working days", "weeks"])),
)
def test_a_day_sooner_than_the_earliest_lies_too_far_before(deadline: date, span: Span) -> None:
    first = US.earliest_before(span, deadline)

    assert US.ready(span, first) >= deadline
    assert US.ready(span, first - timedelta(days=1)) < deadline


@pytest.mark.parametrize(
    ("hour", "dig", "late"),
    [
        ("16:00", date(2026, 4, 23), None),
        ("16:01", date(2026, 4, 24), None),
        (None, date(2026, 4, 23), date(2026, 4, 24)),
    ],
)
def test_a_call_after_the_hour_counts_from_the_next_working_day(
    hour: str | None, dig: date, late: date | None
) -> None:
    rule = CALL.format('span = "2 working days", cutoff = "16:00"')
    calendar = calendar_with(rule, called=date(2026, 4, 21), called_at=hour)

    assert (calendar.locate_from, calendar.late.get("dig-from")) == (dig, late)


def test_a_call_late_on_friday_counts_from_monday() -> None:
    rule = CALL.format('span = "1 full working day", cutoff = "16:00"')
    calendar = calendar_with(rule, called=date(2026, 4, 17), called_at="17:00")

    assert calendar.locate_from == date(2026, 4, 22)
    assert (
        "since the locate call on Fri Apr 17, 2026 came at 17:00" in step(calendar, "dig-from").how
    )


def test_an_application_after_the_hour_is_reviewed_a_day_later() -> None:
    rule = 'dates.review = { span = "2 working days", cutoff = "15:00", cite = "pw 1" }'

    early = calendar_with(rule, filed_at="09:00", issue_expected=None).earliest_issue
    late = calendar_with(rule, filed_at="15:30", issue_expected=None).earliest_issue

    assert early is not None
    assert late == US.on_or_after(early + timedelta(days=1))


LESSER = 'dates.complete_by = {{ {}_of = [{}], clock = "start", cite = "pw 1" }}'


@pytest.mark.parametrize(
    ("which", "parts", "day"),
    [
        ("lesser", '"30 days", { before = "05-15" }', date(2026, 5, 14)),
        ("lesser", '"10 days", { before = "05-15" }', date(2026, 5, 7)),
        ("greater", '"30 days", { by = "05-15" }', date(2026, 5, 27)),
        ("greater", '"10 days", { by = "05-15" }', date(2026, 5, 15)),
        ("lesser", '"1 year", { before = "04-27" }', date(2027, 4, 26)),
        ("lesser", '"1 year", { by = "04-27" }', date(2026, 4, 27)),
        ("lesser", '"no end", "10 days"', date(2026, 5, 7)),
        ("greater", '"no end", "10 days"', None),
        ("lesser", '"10 days", { ends_with = "building permit" }', None),
    ],
)
def test_of_several_times_the_one_that_ends_first_or_last_holds(
    which: str, parts: str, day: date | None
) -> None:
    calendar = calendar_with(LESSER.format(which, parts))

    assert calendar.due["dates.complete_by"] == day
    assert step(calendar, "finish-by").day == day


def test_the_building_permit_s_end_is_the_job_s_to_tell() -> None:
    rule = LESSER.format("lesser", '"1 year", { ends_with = "building permit" }')
    calendar = calendar_with(rule, building_permit_until=date(2026, 8, 1))

    assert calendar.due["dates.complete_by"] == date(2026, 8, 1)
    assert step(calendar, "finish-by").how == (
        "whichever is first: Tue Apr 27, 2027 (1 year after the start on Mon Apr 27, 2026, which "
        "is not counted); Sat Aug 1, 2026 (the end of the building permit)"
    )


def test_work_may_have_to_end_with_its_own_permit() -> None:
    rules = (
        'dates.validity = { span = "60 days", clock = "start", cite = "pw 1" }\n'
        'dates.restore_by = { lesser_of = ["90 days", { ends_with = "permit" }], '
        'clock = "start", cite = "pw 1" }'
    )

    assert calendar_with(rules).due["dates.restore_by"] == date(2026, 6, 26)


@pytest.mark.parametrize(
    ("which", "day"), [("greater", date(2026, 4, 22)), ("lesser", date(2026, 4, 24))]
)
def test_the_longer_of_two_waits_begins_sooner(which: str, day: date) -> None:
    rule = f'dates.lead = {{ {which}_of = ["72 hours", "3 working days"], cite = "pw 1" }}'

    assert step(calendar_with(rule), "notice").day == day


def test_the_next_such_day_may_be_the_day_itself_or_next_year_s() -> None:
    assert next_on(11, 15, date(2026, 11, 15)) == date(2026, 11, 15)
    assert next_on(11, 15, date(2026, 11, 16)) == date(2027, 11, 15)
    assert next_on(2, 29, date(2027, 1, 1)) == date(2027, 2, 28)


def test_the_paving_day_of_the_sheet_s_own_list_closes_a_street() -> None:
    job = demo("millrace-clean")
    street = job.street.name
    rules = rules_saying(
        'dates.pavement_age = { span = "5 years", clock = "paving", cite = "pw 1" }'
    )
    paved = {"street_paved": date(2024, 8, 1)}

    calendar = study_calendar(job, rules.with_sizes(paved), US)

    assert street
    assert calendar.due["dates.pavement_age"] == date(2029, 8, 1)


def test_the_notice_says_whom_it_goes_to_and_the_permit_how_far_it_can_be_extended() -> None:
    rules = (
        'dates.lead = { span = "48 hours", cite = "pw 1" }\n'
        'dates.notice_to = { one_of = ["police", "street department"], cite = "pw 1" }\n'
        'dates.validity = { span = "60 days", clock = "start", cite = "pw 1" }\n'
        'dates.extension = { span = "30 days", cite = "pw 1" }'
    )
    calendar = calendar_with(rules)

    assert step(calendar, "notice").what == "last day to tell the police or the street department"
    assert calendar.permit_until == date(2026, 6, 26)
    assert step(calendar, "permit-extended").day == date(2026, 7, 26)


def test_a_deadline_no_sheet_sets_is_no_step() -> None:
    keys = {found.key for found in calendar_with("").steps}

    assert keys.isdisjoint({"close-by", "start-by", "finish-by", "restore-by", "permit-extended"})


def test_a_deadline_stands_in_the_calendar_with_how_it_was_reached() -> None:
    rule = 'dates.close_by = { span = "5 days", clock = "opening", cite = "pw 1" }'
    found = step(calendar_with(rule), "close-by")

    assert (found.what, found.day) == ("opening must be closed by", date(2026, 5, 2))
    assert found.how.startswith("5 days after opening on Mon Apr 27, 2026")


def test_insurance_may_have_to_run_so_long_after_the_finish() -> None:
    rule = 'docs.insurance_until = { span = "90 days", cite = "pw 1" }'
    calendar = calendar_with(rule, finish=date(2026, 4, 30))

    assert calendar.insurance_needed_until == date(2026, 7, 29)
