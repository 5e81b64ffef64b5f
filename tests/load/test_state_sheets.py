"""The states' law on notice before digging, held against the rows it was copied from."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from datetime import date, datetime, time
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from demo_jobs import job_path

from permitkit.load.find_sheet import list_places
from permitkit.load.job_file import read_job
from permitkit.load.rule_lint import lint
from permitkit.load.rule_sheet import load_layers
from permitkit.model.telling import value_text
from permitkit.model.values import Ask, Span
from permitkit.study.calendar import study_calendar
from permitkit.study.days import WorkCalendar
from permitkit.study.in_force import rules_in_force
from permitkit.units import Kind, measure

BOOK = tomllib.loads(
    (Path(__file__).parents[1] / "published" / "locate.toml").read_text(encoding="utf-8")
)
STATES: tuple[dict[str, Any], ...] = tuple(BOOK["state"])
COUNTS: dict[str, dict[str, Any]] = {row["name"]: row for row in BOOK["count"]}
WHOLE_DAYS = ("24 h from the start", "full working days", "0:00-23:59")
"""What a row says of its days, besides its unit, that makes them whole ones."""

AFTER = re.compile(r"(?:requests|notice) after (\d\d:\d\d)")
"""From when on a row counts a call as the next day's."""

each_state = pytest.mark.parametrize("row", STATES, ids=lambda row: row["state"])


def place(state: str) -> str:
    return f"us-{state.lower()}"


def case(state: str, key: str) -> Any:  # noqa: ANN401 - a case of any value
    rule = load_layers(place(state))[0].rules[key]
    (edition,) = rule.editions
    (only,) = edition.cases
    return only


def wait_of(row: dict[str, Any]) -> Span:
    """Return a row's wait in days, the longest notice, and the hour after which a call is late."""
    hour = AFTER.search(row.get("counting", ""))
    cutoff = time.fromisoformat(hour[1]) if hour else None
    return replace(least_of(row), earliest=earliest_of(row), cutoff=cutoff)


def earliest_of(row: dict[str, Any]) -> Span | None:
    """Return how long before digging a row lets notice be given, at the most."""
    unit = row.get("notice_max_unit", "")
    if not row["notice_max"]:
        return None
    days = "days" if unit.startswith("calendar") else "working days"
    return Span(row["notice_max"], days, full_days=unit.endswith("_full"))


def least_of(row: dict[str, Any]) -> Span:
    """Return a row's wait in days: hours that leave weekends out are so many working days."""
    count, unit, counting = row["notice_min"], row["notice_min_unit"], row.get("counting", "")
    days = count // 24
    if unit.startswith("hours_from_7am_next"):
        return Span(days + 1, "working days", "call")
    if unit.startswith("hours_excl_notice_day"):
        return Span(days, "working days", "call", full_days=True)
    if unit.startswith("hours"):
        assert "excl" in unit + counting
        return Span(days, "working days", "call")
    whole = unit.endswith("_full") or any(words in counting for words in WHOLE_DAYS)
    return Span(count, "working days", "call", full_days=whole)


def life_of(row: dict[str, Any]) -> Span | None:
    """Return a row's life of a ticket; nothing where it has none."""
    unit = row.get("ticket_life_unit", "")
    if not row["ticket_life"]:
        return None
    days = "days" if unit.startswith("calendar") else "working days"
    return Span(row["ticket_life"], days, "start" if unit.endswith("_start_date") else "call")


def test_there_are_29_states_and_each_has_a_sheet() -> None:
    places = {place(row["state"]) for row in STATES}

    assert len(places) == 29
    assert places | {"us-xx"} == {name for name in list_places() if name.startswith("us-")}


@each_state
def test_a_state_builds_on_the_country_and_is_not_verified(row: dict[str, Any]) -> None:
    sheet, *followed = load_layers(place(row["state"]))

    assert (sheet.kind, sheet.follows) == ("state", ("us",))
    assert sheet.standing == "not verified with the town"
    assert sheet.holidays == f"US-{row['state']}"
    assert WorkCalendar(sheet.holidays).closed(date(2026, 12, 25))
    assert lint(sheet, tuple(followed)) == ()


@each_state
def test_a_state_names_its_law_where_it_was_read_and_what_is_in_doubt(row: dict[str, Any]) -> None:
    law = load_layers(place(row["state"]))[0].sources["law"]
    cite = case(row["state"], "dates.locate_wait").cite

    assert (law.title, cite.section) == (row["law"], row["section"])
    assert row.get("doubt", "") in law.note
    if row["known"] == "seen":
        assert law.address.removeprefix("https://") in row["place"].replace("https://", "")
    else:
        assert law.note.startswith("nothing read: every figure is from memory")


@each_state
def test_a_state_s_wait_is_its_row_s(row: dict[str, Any]) -> None:
    wait = case(row["state"], "dates.locate_wait")

    assert wait.value == wait_of(row)
    assert row.get("counting", "") in wait.note
    assert ("hours" in row["notice_min_unit"]) <= (f"{row['notice_min']} hours" in wait.note)
    assert ("all" in row["from_memory"]) <= ("from memory" in wait.note)


@each_state
def test_a_state_tells_how_early_notice_may_be_given_at_the_most(row: dict[str, Any]) -> None:
    told = f"at most {row['notice_max']} " if row["notice_max"] else ""
    wait = case(row["state"], "dates.locate_wait")
    shown = value_text(wait.value)
    said = load_layers(place(row["state"]))[0].rules.get("say.conditions")

    assert told in shown
    assert (said is not None) == (row["known"] == "seen")
    assert said is None or told in case(row["state"], "say.conditions").value.texts[0]


@each_state
def test_a_state_s_ticket_lives_as_long_as_its_row_says(row: dict[str, Any]) -> None:
    life = case(row["state"], "dates.locate_life")
    remembered = {"all", "ticket_life", "ticket_life_unit"} & set(row["from_memory"])

    if life_of(row) is None:
        assert isinstance(life.value, Ask)
        assert "not seen" in life.note
    else:
        assert life.value == life_of(row)
    assert bool(remembered) <= ("from memory" in life.note)


@each_state
def test_a_state_s_tolerance_is_its_row_s(row: dict[str, Any]) -> None:
    tolerance = case(row["state"], "utility.tolerance")
    remembered = {"all", "tolerance_in"} & set(row["from_memory"])

    if row["tolerance_in"]:
        assert tolerance.value.at_least == measure(row["tolerance_in"], "in", Kind.LENGTH)
    else:
        assert isinstance(tolerance.value, Ask)
    assert bool(remembered) <= ("from memory" in tolerance.note)


def test_the_country_s_tolerance_stands_where_a_state_s_is_not_known() -> None:
    rules = rules_in_force(load_layers("us-ga"), read_job(job_path("millrace-clean")))

    assert rules["utility.tolerance"].text == "at least 18 in"


def test_a_state_s_wider_tolerance_governs() -> None:
    rules = rules_in_force(load_layers("us-mi"), read_job(job_path("millrace-clean")))

    assert rules["utility.tolerance"].text == "at least 48 in"


# ---- days counted on, as published


@lru_cache(maxsize=32)
def dug(of: str, called: date) -> tuple[date, date]:
    """Return the first working day to dig, and the ticket's last day, by a state's sheet."""
    layers = load_layers(of)
    job = read_job(job_path("millrace-clean"))
    changed = job.model_copy(
        update={
            "locate": job.locate.model_copy(update={"called": called}),
            "dates": job.dates.model_copy(update={"issue_expected": called, "start": called}),
        }
    )
    working = WorkCalendar(layers[0].holidays, layers[0].closings)
    calendar = study_calendar(changed, rules_in_force(layers, changed), working)
    assert calendar.locate_from is not None
    return working.on_or_after(calendar.locate_from), calendar.locate_until or date.max


@pytest.mark.parametrize("name", ["full_days_1", "full_days_2", "full_days_4"])
def test_whole_days_pass_before_digging(name: str) -> None:
    row = COUNTS[name]
    working = WorkCalendar("US")

    ready = working.ready(Span(row["N"], "working days", "call", full_days=True), row["notice"])

    assert working.on_or_after(ready) == row["dig"]


@pytest.mark.parametrize(
    ("name", "state"), [("full_days_1", "SC"), ("pa_thanks", "PA"), ("md_mon", "MD")]
)
def test_a_state_of_whole_days_digs_on_the_day_printed(name: str, state: str) -> None:
    row = COUNTS[name]

    wait = case(state, "dates.locate_wait").value
    assert replace(wait, earliest=None) == Span(row["N"], "working days", "call", full_days=True)
    assert dug(place(state), row["notice"])[0] == row["dig"]


def test_without_the_day_after_thanksgiving_pennsylvania_would_dig_a_day_sooner() -> None:
    row = COUNTS["pa_thanks"]
    federal = WorkCalendar("US")

    ready = federal.ready(Span(row["N"], "working days", "call", full_days=True), row["notice"])

    assert federal.on_or_after(ready) == date(2026, 11, 30)
    assert row["dig"] == date(2026, 12, 1)


@pytest.mark.parametrize(("name", "state"), [("va_tue", "VA"), ("tx_sat", "TX")])
def test_hours_that_skip_weekends_end_on_the_day_printed(name: str, state: str) -> None:
    """The day alone: the hour stands in the rule's note."""
    row = COUNTS[name]
    start: datetime = row["start"]

    assert dug(place(state), row["notice"])[0] == start.date()


def test_texas_waits_a_day_more_where_monday_is_a_holiday() -> None:
    saturday_before_labor_day = date(2026, 9, 5)

    assert dug("us-tx", saturday_before_labor_day)[0] == date(2026, 9, 9)


def test_a_california_ticket_lives_28_days_after_its_issue() -> None:
    row = COUNTS["ca_life"]

    assert dug("us-ca", row["issue"])[1] == row["expires"]


def test_florida_skips_christmas_eve() -> None:
    assert dug("us-fl", date(2026, 12, 22))[0] == date(2026, 12, 29)


def test_every_published_count_is_held_against_something() -> None:
    assert set(COUNTS) == {
        "full_days_1",
        "full_days_2",
        "full_days_4",
        "pa_thanks",
        "va_tue",
        "tx_sat",
        "md_mon",
        "ca_life",
    }
