from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from demo_jobs import NAMES, job_path

from permitkit.load.find_sheet import list_places
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers
from permitkit.model.money import Flat
from permitkit.model.values import Ask, NoRule
from permitkit.study.in_force import rules_in_force
from permitkit.units import Kind, Measure, measure, read_measure

if TYPE_CHECKING:
    from permitkit.model.job import Job
    from permitkit.study.in_force import InForce, RulesInForce

INVENTED = ("harrow-heights", "millrace", "sorrel-flats", "tarn-county", "us-xx")


def rules_of(name: str, **changes: object) -> RulesInForce:
    job: Job = read_job(job_path(name)).model_copy(update=changes)
    return rules_in_force(load_layers(job.town), job)


def ends(rule: InForce) -> tuple[str, ...]:
    both = (rule.limit.at_least, rule.limit.at_most)
    return tuple(end.shown() if isinstance(end, Measure) else "" for end in both)


def test_the_sheets_of_the_demo_are_there_and_say_that_they_are_invented() -> None:
    standing = {place: load_layers(place)[0].standing for place in list_places()}

    assert {place for place, said in standing.items() if said == "invented"} >= set(INVENTED)
    assert standing["us"] == "not verified with the town"


@pytest.mark.parametrize(
    ("town", "layers"),
    [
        ("millrace", ("millrace", "us-xx", "us")),
        ("sorrel-flats", ("sorrel-flats", "tarn-county", "us-xx", "us")),
        ("harrow-heights", ("harrow-heights", "us-xx", "us")),
    ],
)
def test_every_demo_town_builds_on_the_invented_state(town: str, layers: tuple[str, ...]) -> None:
    assert tuple(sheet.place for sheet in load_layers(town)) == layers


@pytest.mark.parametrize("name", NAMES)
def test_no_demo_job_is_filed_when_its_sheets_are_overdue(name: str) -> None:
    job = read_job(job_path(name))

    assert all(job.filing <= sheet.due for sheet in load_layers(job.town))


@pytest.mark.parametrize(
    ("key", "least", "most"),
    [
        ("core.bit", "", "4 in"),
        ("core.height", "1/2 in", "1 1/4 in"),
        ("core.strip", "1 1/2 in", ""),
        ("core.gap", "1/4 in", "1/2 in"),
        ("core.to_joint", "12 in", ""),
        ("outlet.to_drive", "3 ft", ""),
        ("outlet.to_line", "5 ft", ""),
        ("walk.over_pipe", "2 in", ""),
        ("walk.thickness", "4 in", ""),
        ("walk.base", "4 in", ""),
        ("walk.strength", "3,500 psi", ""),
        ("water.freeboard", "3 in", ""),
        ("access.cross_slope", "", "1:48"),
        ("access.width", "48 in", ""),
    ],
)
def test_millrace_has_its_limits(key: str, least: str, most: str) -> None:
    assert ends(rules_of("millrace-clean")[key]) == (least, most)


def test_millrace_tells_the_right_of_way_from_the_lot() -> None:
    rules = rules_of("millrace-clean")

    assert ends(rules.at("pipe.slope", place="right-of-way"))[0] == "1 %"
    assert ends(rules.at("pipe.slope", place="private"))[0] == "0.5 %"
    assert rules.at("pipe.kind", place="right-of-way").words == ("Sch 40 PVC",)
    assert isinstance(rules.at("pipe.cover", surface="lawn").value, NoRule)


def test_millrace_measures_the_pipe_at_its_invert_and_the_strip_at_the_hole() -> None:
    rules = rules_of("millrace-clean")

    height, strip = rules["core.height"].limit, rules["core.strip"].limit
    assert (height.of, height.origin) == ("invert", "flow line")
    assert (strip.of, strip.origin) == ("hole top", "curb top")


def test_millrace_leaves_a_hole_by_a_tree_to_the_director() -> None:
    job = read_job(job_path("millrace-clean"))
    near = tuple(
        one.model_copy(update={"near": read_measure("20 ft", Kind.LENGTH)})
        if one.kind == "tree"
        else one
        for one in job.feature
    )

    rule = rules_of("millrace-clean", feature=near)["outlet.to_tree"]

    assert isinstance(rule.value, Ask)
    assert rule.ask_of == "director of public works"


@pytest.mark.parametrize(
    ("filing", "first"), [(date(2025, 12, 31), Decimal(70)), (date(2026, 1, 1), Decimal(85))]
)
def test_millrace_has_two_editions_of_its_fees(filing: date, first: Decimal) -> None:
    rules = rules_of("millrace-clean", filing=filing).with_sizes(
        {
            "walk_area": measure(25, "sq ft", Kind.AREA),
            "curb_length": measure(0, "ft", Kind.LENGTH),
            "holes": 1,
        }
    )

    assert rules["fees.lines"].fees.lines[0].term == Flat(first)


def test_sorrel_flats_asks_its_engineer_about_a_sump_and_the_answer_clears_it() -> None:
    asked = rules_of("sorrel-flats-notch", answer=()).at("water.allowed", water="sump")
    answered = rules_of("sorrel-flats-notch").at("water.allowed", water="sump")

    assert isinstance(asked.value, Ask)
    assert asked.blocking
    assert asked.ask_of == "town engineer"
    assert answered.stance == "allowed"


def test_sorrel_flats_lets_the_county_speak_for_its_road() -> None:
    street = read_job(job_path("sorrel-flats-notch")).street
    on_tarn = street.model_copy(update={"name": "Tarn Road", "authority": "Tarn County"})

    town = rules_of("sorrel-flats-notch")
    county = rules_of("sorrel-flats-notch", street=on_tarn)

    assert ends(town["notch.width"]) == ("50 mm", "150 mm")
    assert ends(county["notch.width"]) == ("", "4 in")
    assert [needed.permit.id for needed in town.permits()] == ["row"]
    assert {needed.permit.id for needed in county.permits()} == {"row", "county-street"}


def test_a_federal_half_inch_governs_over_13_mm() -> None:
    assert ends(rules_of("sorrel-flats-notch")["access.opening"])[1] == "1/2 in"


def test_harrow_heights_bars_a_core_and_nobody_may_waive_it() -> None:
    rule = rules_of("harrow-heights-core")["outlet.allowed"]

    assert rule.stance == "barred"
    assert rule.waivable_by == ()


def test_harrow_heights_sets_both_ends_where_the_ground_falls_to_the_street() -> None:
    rules = rules_of("harrow-heights-emitter")

    assert rules["outlet.order"].order.steps == ("storm lateral", "dry well", "emitter")
    assert ends(rules["emitter.to_house"]) == ("10 ft", "30 ft")
