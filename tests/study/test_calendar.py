"""Days counted on and back, and the dates of the demo jobs."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import CLEAN, EMITTER, FAULTY, NOTCH, demo, rules_saying, study_of, study_with

from permitkit.errors import InputError
from permitkit.load.rule_sheet import load_layers
from permitkit.model.values import Span
from permitkit.study.calendar import study_calendar
from permitkit.study.days import WorkCalendar, told, years_of

if TYPE_CHECKING:
    from permitkit.study.results import CalendarStudy, DatedStep, Study

TABLE = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "calendar.toml").read_text(encoding="utf-8")
)
US = WorkCalendar()
DAYS = st.dates(date(2024, 1, 1), date(2030, 12, 31))
SPANS = st.builds(
    Span,
    st.integers(1, 40),
    st.sampled_from(["days", "working days", "hours", "weeks"]),
    st.just(""),
    st.booleans(),
)


def step(study: Study, key: str) -> DatedStep:
    return next(found for found in study.calendar.steps if found.key == key)


def calendar_with(rules: str, name: str = CLEAN, **changes: Any) -> CalendarStudy:  # noqa: ANN401
    job = demo(name)
    dates = job.dates.model_copy(update=changes)
    return study_calendar(job.model_copy(update={"dates": dates}), rules_saying(rules), US)


class TestDays:
    """Working days and spans."""

    @pytest.mark.parametrize("row", TABLE["holidays"], ids=lambda row: str(row["year"]))
    def test_public_holidays_are_those_of_the_law_with_the_days_they_are_kept(
        self, row: dict[str, Any]
    ) -> None:
        first, last = date(row["year"], 1, 1), date(row["year"], 12, 31)

        assert [day for day, _ in US.shut_between(first, last)] == row["days"]

    @pytest.mark.parametrize("row", TABLE["counting"], ids=lambda row: row["source"])
    def test_days_are_counted_as_the_rule_says(self, row: dict[str, Any]) -> None:
        span = Span(row["count"], row["unit"], full_days=row["full_days"])

        assert US.ready(span, row["event"]) == row["ready"]

    @pytest.mark.parametrize(
        ("span", "last"),
        [
            (Span(10, "working days"), date(2026, 4, 20)),
            (Span(1, "working day"), date(2026, 4, 7)),
            (Span(0, "working days"), date(2026, 4, 6)),
            (Span(60, "days"), date(2026, 6, 5)),
            (Span(2, "weeks"), date(2026, 4, 20)),
            (Span(48, "hours"), date(2026, 4, 8)),
            (Span(30, "hours"), date(2026, 4, 8)),
            (Span(3, "months"), date(2026, 7, 6)),
            (Span(2, "years"), date(2028, 4, 6)),
        ],
    )
    def test_a_span_ends_so_long_after_its_event(self, span: Span, last: date) -> None:
        assert US.last_day(span, date(2026, 4, 6)) == last

    def test_a_month_that_is_shorter_ends_with_its_last_day(self) -> None:
        assert US.last_day(Span(1, "month"), date(2027, 1, 31)) == date(2027, 2, 28)
        assert US.last_day(Span(1, "year"), date(2028, 2, 29)) == date(2029, 2, 28)

    def test_a_unit_nobody_knows_is_refused(self) -> None:
        with pytest.raises(ValueError, match="no such span of time: 'fortnights'"):
            US.last_day(Span(1, "fortnights"), date(2026, 4, 6))

    def test_a_towns_own_closing_is_no_working_day(self) -> None:
        friday = date(2026, 11, 27)
        town = WorkCalendar("US", {friday: "day after Thanksgiving"})

        assert US.works(friday)
        assert not town.works(friday)
        assert town.closed(friday) == "day after Thanksgiving"
        assert town.shut_between(friday, friday) == ((friday, "day after Thanksgiving"),)
        assert town.on_or_after(friday) == date(2026, 11, 30)

    def test_a_part_of_a_country_has_holidays_of_its_own(self) -> None:
        friday = date(2026, 11, 27)

        assert friday in years_of("US-PA", 2026)
        assert friday not in years_of("US", 2026)

    def test_a_place_nobody_knows_is_told_in_the_designed_form(self) -> None:
        with pytest.raises(InputError) as told_of:
            years_of("QQ", 2026)

        assert str(told_of.value) == (
            "error: sheet.holidays\n"
            "  found     'QQ'\n"
            "  expected  a place whose public holidays are known\n"
            "  fix       write a country code such as US, or a country and a part of it such as "
            "US-PA"
        )

    def test_a_date_is_told_with_its_weekday(self) -> None:
        assert told(date(2026, 4, 6)) == "Mon Apr 6, 2026"

    @given(DAYS, SPANS)
    def test_the_latest_day_to_begin_a_wait_is_the_latest(self, deadline: date, span: Span) -> None:
        latest = US.latest_before(span, deadline)
        later = (latest + timedelta(days=n) for n in range(1, (deadline - latest).days + 1))

        assert US.works(latest)
        assert US.ready(span, latest) <= deadline
        assert all(US.ready(span, day) > deadline for day in later if US.works(day))

    @given(DAYS, DAYS)
    def test_working_and_shut_days_are_all_the_weekdays(self, one: date, other: date) -> None:
        first, last = sorted((one, min(other, one + timedelta(days=400))))
        working = set(US.working_between(first, last))
        shut = {day for day, _ in US.shut_between(first, last)}
        weekdays = {
            day
            for n in range((last - first).days + 1)
            if (day := first + timedelta(days=n)).weekday() < 5
        }

        assert working | shut == weekdays
        assert not working & shut

    def test_a_town_keeps_the_holidays_and_closings_of_what_it_follows(self) -> None:
        state, *country = load_layers("us-pa")
        town = replace(state, holidays="", closings={date(2026, 11, 9): "move of the office"})

        working = WorkCalendar.of((town, state, *country))

        assert working.place == "US-PA"
        assert working.closed(date(2026, 11, 9)) == "move of the office"
        assert working.closed(date(2026, 11, 27)) == state.closings[date(2026, 11, 27)]

    def test_the_nearest_sheet_that_names_holidays_is_heard(self) -> None:
        state = load_layers("us-pa")[0]
        town = replace(state, holidays="US-FL")

        assert WorkCalendar.of((town, state)).place == "US-FL"
        assert WorkCalendar.of(()).place == "US"


class TestDemo:
    """The dates worked out by hand."""

    def test_the_clean_job(self) -> None:
        calendar = study_of(CLEAN).calendar

        assert calendar.earliest_issue == date(2026, 4, 20)
        assert calendar.locate_from == date(2026, 4, 24)
        assert calendar.locate_until == date(2026, 5, 12)
        assert calendar.locate_call_by == date(2026, 4, 22)
        assert calendar.earliest_start == date(2026, 4, 24)
        assert calendar.permit_until == date(2026, 6, 19)
        assert calendar.guarantee_until == date(2028, 4, 30)
        assert calendar.insurance_needed_until == date(2026, 4, 30)
        assert calendar.work_days == tuple(date(2026, 4, day) for day in (27, 28, 29, 30))
        assert calendar.holidays_used == ()

    def test_the_faulty_job(self) -> None:
        calendar = study_of(FAULTY).calendar

        assert calendar.locate_until == date(2026, 11, 3)
        assert date(2026, 11, 11) not in calendar.work_days
        assert [day for day, _ in calendar.holidays_used] == [date(2026, 11, 11)]
        assert step(study_of(FAULTY), "closed-season").day == date(2026, 11, 15)
        assert calendar.insurance_needed_until == date(2026, 11, 18)

    def test_a_review_of_calendar_days_and_insurance_to_the_guarantees_end(self) -> None:
        calendar = study_of(NOTCH).calendar

        assert calendar.earliest_issue == date(2026, 5, 18)
        assert calendar.insurance_needed_until == calendar.guarantee_until == date(2027, 6, 3)

    def test_every_step_says_how_it_was_reached_and_they_stand_in_order(self) -> None:
        for name in (CLEAN, FAULTY, NOTCH, EMITTER):
            steps = study_of(name).calendar.steps
            known = [found.day for found in steps if found.day]

            assert all(found.what and found.how for found in steps)
            assert known == sorted(known)

    def test_the_words_name_span_event_and_day(self) -> None:
        assert step(study_of(CLEAN), "dig-from").how == (
            "2 full working days after the locate call on Tue Apr 21, 2026, which is not counted"
        )
        assert step(study_of(CLEAN), "issue").how == (
            "as expected; by the review alone Mon Apr 20, 2026"
        )

    def test_each_inspection_is_booked_ahead_of_what_it_looks_at(self) -> None:
        booked = {
            found.what: found.day
            for found in study_of(CLEAN).calendar.steps
            if found.key == "inspection"
        }

        assert booked == {
            "last day to book: form and base before the pour": date(2026, 4, 27),
            "last day to book: final": date(2026, 4, 28),
        }

    def test_the_walk_opens_after_the_longer_of_the_towns_wait_and_the_jobs(self) -> None:
        longer = study_with(CLEAN, ("hours_to_feet = 24", "hours_to_feet = 72"))

        assert step(study_of(CLEAN), "walk-open").day == date(2026, 4, 29)
        assert step(longer, "walk-open").day == date(2026, 5, 1)


class TestRules:
    """What a sheet may say of time, and what it may leave out."""

    def test_a_silent_sheet_gives_no_dates_but_the_jobs_own(self) -> None:
        calendar = calendar_with("", issue_expected=None)

        assert (calendar.earliest_issue, calendar.earliest_start) == (None, None)
        assert (calendar.permit_until, calendar.locate_from) == (None, None)
        assert {found.how for found in calendar.steps if found.day is None} == {"not known"}
        assert [found.day for found in calendar.steps if found.key == "start"] == [
            date(2026, 4, 27)
        ]

    @pytest.mark.parametrize(
        ("value", "how"),
        [
            ("no_rule = true", "the town has no rule"),
            ('by_reference = "the permit itself"', "set by the permit itself"),
            ('ask = "permit clerk"', "ask the permit clerk"),
            ('span = "no end", cite = "pw 1"', "no end"),
        ],
    )
    def test_an_honest_answer_is_told_as_the_reason(self, value: str, how: str) -> None:
        calendar = calendar_with(f"dates.validity = {{ {value} }}")

        assert calendar.permit_until is None
        assert [found.how for found in calendar.steps if found.key == "permit-until"] == [how]

    def test_a_review_that_ends_on_a_day_off_moves_to_the_next_working_day(self) -> None:
        calendar = calendar_with(
            'dates.review = { span = "5 days", cite = "pw 1" }', issue_expected=None
        )
        (issue,) = [found for found in calendar.steps if found.key == "issue"]

        assert calendar.earliest_issue == date(2026, 4, 13)
        assert issue.how.endswith("next working day Mon Apr 13, 2026")

    def test_a_span_may_run_from_an_event_of_its_own(self) -> None:
        validity = 'dates.validity = { span = "30 days", clock = "start", cite = "pw 1" }'

        assert calendar_with(validity).permit_until == date(2026, 5, 27)

    def test_an_event_without_a_day_is_named(self) -> None:
        calendar = calendar_with(
            'dates.validity = { span = "60 days", cite = "pw 1" }', issue_expected=None
        )

        assert [found.how for found in calendar.steps if found.key == "permit-until"] == [
            "60 days after issue"
        ]

    @pytest.mark.parametrize(
        ("clock", "start"), [("filing", date(2026, 4, 20)), ("issue", date(2026, 5, 4))]
    )
    def test_notice_is_counted_from_filing_only_where_the_sheet_says_so(
        self, clock: str, start: date
    ) -> None:
        lead = f'dates.lead = {{ span = "14 days", clock = "{clock}", cite = "pw 1" }}'

        assert calendar_with(lead, start=date(2026, 5, 11)).earliest_start == start

    @pytest.mark.parametrize(
        ("season", "start", "shut"),
        [
            ('closed = "11-15 to 03-31"', date(2026, 12, 1), date(2026, 12, 1)),
            ('closed = "11-15 to 03-31"', date(2026, 4, 1), date(2026, 11, 15)),
            ('closed = "02-01 to 03-31"', date(2026, 4, 1), date(2027, 2, 1)),
            ('open = "04-01 to 11-14"', date(2026, 4, 27), date(2026, 11, 15)),
            ('open = "11-01 to 02-28"', date(2026, 12, 27), date(2027, 3, 1)),
            ('open = "04-01 to 11-14"', date(2026, 3, 31), date(2026, 3, 31)),
        ],
    )
    def test_the_season_closes_on_its_first_day_or_is_closed(
        self, season: str, start: date, shut: date
    ) -> None:
        rule = f'dates.concrete_season = {{ {season}, cite = "pw 1" }}'
        calendar = calendar_with(rule, start=start, finish=start + timedelta(days=2))

        assert [found.day for found in calendar.steps if found.key == "closed-season"] == [shut]

    def test_an_inspection_may_name_the_event_it_goes_with(self) -> None:
        item = '{ name = "stakes", notice = "2 working days", clock = "start" }'
        calendar = calendar_with(f'dates.inspections = {{ items = [{item}], cite = "pw 1" }}')

        assert [found.day for found in calendar.steps if found.key == "inspection"] == [
            date(2026, 4, 23)
        ]

    def test_an_inspection_without_a_notice_has_the_one_that_holds_for_any(self) -> None:
        general = 'dates.inspection_notice = { span = "2 working days", cite = "pw 1" }\n'
        named = 'dates.inspections = { items = ["stakes before work"], cite = "pw 1" }\n'
        none = "dates.inspections = { no_rule = true }\n"
        both, alone = (calendar_with(general + text) for text in (named, none))

        (booked,) = (found for found in both.steps if found.key == "inspection")
        assert booked.what == "last day to book: stakes before work"
        assert booked.how == "2 working days before the concrete on Tue Apr 28, 2026"
        assert [s.what for s in alone.steps if s.key == "inspection"] == [
            "last day to book: form and base before the pour",
            "last day to book: final",
        ]

    def test_an_inspection_owed_later_has_its_day_in_the_calendar(self) -> None:
        item = '{ name = "second look", after = "6 months", clock = "acceptance" }'
        calendar = calendar_with(f'dates.inspections = {{ items = [{item}], cite = "pw 1" }}')

        (due,) = (found for found in calendar.steps if found.key == "inspection")
        assert (due.what, due.day) == ("due: second look", date(2026, 10, 30))

    def test_insurance_to_several_ends_runs_to_the_last(self) -> None:
        rules = (
            'docs.insurance_until = { one_of = ["finish", "permit end"], cite = "pw 1" }\n'
            'dates.validity = { span = "60 days", cite = "pw 1" }'
        )

        assert calendar_with(rules).insurance_needed_until == date(2026, 6, 19)

    def test_work_on_a_weekend_day_the_job_names_is_a_work_day(self) -> None:
        calendar = calendar_with("", start=date(2026, 4, 25), finish=date(2026, 4, 28))

        assert calendar.work_days == (
            date(2026, 4, 25),
            date(2026, 4, 27),
            date(2026, 4, 28),
        )


TWO_PERMITS = """
[[permit]]
id = "street"
title = "Street permit"
issuer = "the town"
[[permit]]
id = "walk"
title = "Walk permit"
issuer = "the county"
[[edition]]
key = "dates.review"
[[edition.case]]
when = { permit = "street" }
span = "5 working days"
cite = "pw 1"
[[edition.case]]
when = { permit = "walk" }
span = "10 working days"
cite = "pw 1"
[[edition]]
key = "dates.validity"
[[edition.case]]
when = { permit = "street" }
span = "90 days"
cite = "pw 1"
[[edition.case]]
when = { permit = "walk" }
span = "60 days"
cite = "pw 1"
"""


def test_each_permit_has_its_dates_and_the_slowest_and_shortest_count() -> None:
    calendar = calendar_with(TWO_PERMITS, issue_expected=None)
    issues = {found.what: found.day for found in calendar.steps if found.key == "issue"}

    assert issues == {
        "permit issued at the earliest, Street permit": date(2026, 4, 13),
        "permit issued at the earliest, Walk permit": date(2026, 4, 20),
    }
    assert calendar.earliest_issue == date(2026, 4, 20)
    assert calendar.permit_until == date(2026, 6, 19)
