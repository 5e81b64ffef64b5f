"""Which case of a rule holds: by the facts of a job."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from town import base, edition, job, rules, sheet, state

from permitkit.model.facts import FACTS, Stage
from permitkit.model.values import Ask
from permitkit.study.in_force import NONE_NEAR, UNKNOWN, facts_of
from permitkit.units import Kind, measure, read_measure


def test_the_first_case_that_fits_holds() -> None:
    town = edition(
        "walk.base",
        base("when = { curb = 'rolled' }", 8),
        base("when = { curb = ['vertical', 'sloping'], outlet = 'core' }", 6),
        base("", 4),
    )

    assert rules(town)["walk.base"].text == "at least 6 in"
    assert rules(town, curb={"shape": "rolled"})["walk.base"].text == "at least 8 in"
    assert rules(town, curb={"shape": "granite"})["walk.base"].text == "at least 4 in"


def test_an_unknown_fact_that_might_fit_is_asked_for_never_passed_over() -> None:
    town = edition("walk.base", base("when = { soil = ['clay', 'silt'] }", 6), base("", 4))
    found = rules(town)["walk.base"]

    assert isinstance(found.value, Ask)
    assert found.value.facts == ("soil",)
    assert found.why == (
        "depends on the soil (soil), which is not known: clay or silt, or something else"
    )
    assert rules(town, site={"soil": "Clay"})["walk.base"].text == "at least 6 in"
    assert rules(town, site={"soil": "sand"})["walk.base"].text == "at least 4 in"


def test_water_of_two_kinds_is_told_as_what_it_is_and_not_as_unknown() -> None:
    town = edition("walk.base", base("when = { water = 'roof' }", 6), base("", 4))
    pump = {"rate": "30 gpm", "lift": "8 ft"}
    both = [
        {"name": "roof", "node": "N1", "kind": "roof", "area": "400 sq ft"},
        {"name": "sump", "node": "N1", "kind": "sump", "pump": pump},
    ]

    found = rules(town, drain={"inflow": both})["walk.base"]
    assert found.why == (
        "the kind of water (water) is roof and sump together, and the rule speaks of roof"
    )


def test_work_across_a_turn_of_the_season_is_told_so() -> None:
    town = edition("walk.base", base("when = { season = '04-07 to 10-31' }", 6), base("", 4))

    dates = {"start": date(2026, 4, 6), "finish": date(2026, 4, 8)}
    assert rules(town, dates=dates)["walk.base"].why == (
        "the work lies partly within and partly without: Apr 7 to Oct 31"
    )


def test_an_unknown_fact_that_another_fact_settles_is_not_asked_for() -> None:
    town = edition("walk.base", base("when = { soil = 'clay', curb = 'rolled' }", 6), base("", 4))

    assert rules(town)["walk.base"].text == "at least 4 in"


def test_an_unknown_fact_behind_a_case_that_fits_is_not_asked_for() -> None:
    town = edition(
        "walk.base",
        base("when = { curb = 'vertical' }", 5),
        base("when = { soil = 'clay' }", 6),
        base("", 4),
    )

    assert rules(town)["walk.base"].text == "at least 5 in"


def test_any_alternative_will_do_and_one_that_might_keeps_it_open() -> None:
    either = edition(
        "walk.base", base("when = [{ soil = 'clay' }, { curb = 'vertical' }]", 6), base("", 4)
    )
    neither = edition(
        "walk.base",
        base("when = [{ soil = 'clay' }, { zone = 'R-1' }, { curb = 'rolled' }]", 6),
        base("", 4),
    )

    assert rules(either)["walk.base"].text == "at least 6 in"
    value = rules(neither)["walk.base"].value
    assert isinstance(value, Ask)
    assert value.facts == ("soil", "zone")


def test_where_no_case_fits_the_sheet_is_silent_and_says_so() -> None:
    found = rules(edition("walk.base", base("when = { curb = 'rolled' }", 6)))["walk.base"]

    assert found.silent
    assert found.why == "no case of Ford fits this job"


@pytest.mark.parametrize(
    ("when", "fits"),
    [
        ("speed = { over = '25 mph' }", False),
        ("speed = { at_least = '25 mph' }", True),
        ("speed = { up_to = '25 mph' }", True),
        ("speed = { under = '25 mph' }", False),
        ("speed = { over = '40 km/h' }", True),
        ("lanes = { over = 1, under = 3 }", True),
        ("lanes = { over = 2 }", False),
        ("cost = { up_to = 5000 }", True),
        ("cost = { under = 5000 }", False),
        ("street_paved = { before = 2020-06-01 }", False),
        ("street_paved = { from = 2020-06-01 }", True),
        ("walk_closed = true", True),
        ("begun = true", False),
        ("begun = false", True),
        ("street = 'mill lane'", True),
        ("street = 'Mill Road'", False),
        ("street = 'Mill Ln.'", True),
        ("authority = 'Town'", True),
        ("tree_near = { up_to = '10 ft' }", False),
        ("tree_near = { under = '10 ft' }", False),
        ("tree_near = { over = '10 ft' }", True),
        ("season = '04-01 to 11-14'", True),
        ("season = '11-15 to 03-31'", False),
        ("water = ['roof', 'sump']", True),
        ("water = 'sump'", False),
    ],
)
def test_each_kind_of_fact_is_held_against_its_condition(when: str, fits: bool) -> None:  # noqa: FBT001
    town = edition("walk.base", base(f"when = {{ {when} }}", 6), base("", 4))
    found = rules(town, street={"last_paved": date(2020, 6, 1)}, cut={"cost": 5000})["walk.base"]

    assert found.text == ("at least 6 in" if fits else "at least 4 in")


def test_work_across_the_edge_of_a_season_is_asked_about() -> None:
    town = edition("walk.base", base("when = { season = '04-01 to 04-28' }", 6), base("", 4))

    assert rules(town)["walk.base"].open
    assert rules(town).at("walk.base", season=date(2026, 4, 28)).text == "at least 6 in"
    assert rules(town).at("walk.base", season=date(2026, 4, 29)).text == "at least 4 in"
    assert rules(town).at("walk.base", season="soon").open


def test_water_of_several_kinds_is_asked_about_unless_the_kind_is_given() -> None:
    both = [
        {"name": "roof", "node": "N1", "kind": "roof"},
        {"name": "sump", "node": "N1", "kind": "sump"},
    ]
    town = edition(
        "water.allowed",
        "when = { water = 'roof' }\nstance = 'allowed'\ncite = 'code 1'",
        "stance = 'barred'\ncite = 'code 1'",
    )
    found = rules(town, drain={"inflow": both})

    assert found["water.allowed"].open
    assert found.at("water.allowed", water="roof").stance == "allowed"
    assert found.at("water.allowed", water="sump").stance == "barred"
    assert found.at("water.allowed", water="sump") is found.at("water.allowed", water="sump")


def test_the_facts_of_a_job_are_told_by_name() -> None:
    facts = facts_of(
        job(
            feature=[
                {"kind": "tree", "near": "20 ft", "far": "22 ft"},
                {"kind": "tree", "near": "2 ft", "owner": "lot"},
                {"kind": "pole", "near": "12 ft"},
            ],
            existing=[{"station": "5 ft", "size": "3 in", "plan": "keep"}],
            cut={"pavement_cut": "2 ft", "cost": "1,200"},
        )
    )

    assert facts["tree_near"] == read_measure("8 ft", Kind.LENGTH)
    assert (facts["existing_in_use"], facts["new_outlet"]) == (True, True)
    assert (facts["pavement_cut"], facts["cost"]) == (True, Decimal(1200))
    assert facts["season"] == (date(2026, 4, 27), date(2026, 4, 30))
    assert (facts["falls_to"], facts["soil"]) == (UNKNOWN, UNKNOWN)


def test_a_tree_at_the_outlet_is_no_distance_away_and_no_tree_beyond_any() -> None:
    at = facts_of(job(feature=[{"kind": "tree", "near": "11 ft", "far": "13 ft"}]))
    left = facts_of(job(feature=[{"kind": "tree", "near": "4 ft"}]))

    assert at["tree_near"] == measure(0, "ft", Kind.LENGTH)
    assert left["tree_near"] == read_measure("8 ft", Kind.LENGTH)
    assert facts_of(job())["tree_near"] is NONE_NEAR


def test_an_emitter_tells_which_way_the_ground_falls() -> None:
    emitter = {
        "rim": "100 ft",
        "to_row": "12 ft",
        "to_side_line": "8 ft",
        "to_walk": "13 ft",
        "to_house": "20 ft",
        "falls_to": "rear",
    }
    facts = facts_of(job(outlet={"kind": "emitter", "emitter": emitter}))

    assert facts["falls_to"] == "rear"


LAWN = {"rim": "100 ft", "to_row": "12 ft", "to_side_line": "8 ft"}
LAWN |= {"to_walk": "13 ft", "to_house": "20 ft"}
STATED = [
    ("other_outlet", {"outlet": {"other_way": True}}, True),
    ("harm", {"outlet": {"harm": False}}, False),
    ("yard", {"outlet": {"kind": "emitter", "emitter": LAWN | {"yard": "side"}}}, "side"),
    ("zone", {"site": {"zone": "R-1"}}, "R-1"),
    ("building_use", {"site": {"building_use": "house"}}, "house"),
    ("building_use", {"site": {"building_use": "detached garage"}}, "detached garage"),
    ("paved_area", {"site": {"paved_area": "900 sq ft"}}, read_measure("900 sq ft", Kind.AREA)),
    ("pavement_surface", {"street": {"pavement_surface": "brick"}}, "brick"),
    ("pavement_rating", {"street": {"pavement_rating": 55}}, 55),
    ("trench_runs", {"cut": {"trench_runs": "along the walk"}}, "along the walk"),
    ("owner_occupier", {"papers": {"owner_occupier": True}}, True),
    ("storm_main", {"site": {"storm_main_distance": "30 ft"}}, read_measure("30 ft", Kind.LENGTH)),
    ("soil", {"site": {"soil": "clay"}}, "clay"),
    ("built", {"outlet": {"built_before": date(1984, 7, 1)}}, date(1984, 7, 1)),
    (
        "strength",
        {"restoration": {"strength": "4500 psi"}},
        read_measure("4500 psi", Kind.STRENGTH),
    ),
    ("cost", {"cut": {"cost": "900"}}, Decimal(900)),
    ("street_paved", {"street": {"last_paved": date(2021, 1, 1)}}, date(2021, 1, 1)),
]


@pytest.mark.parametrize(("name", "tables", "value"), STATED, ids=[row[0] for row in STATED])
def test_a_fact_the_job_may_leave_out_is_not_known_until_it_says(
    name: str, tables: dict[str, Any], value: object
) -> None:
    assert facts_of(job())[name] is UNKNOWN
    assert facts_of(job(**tables))[name] == value


SET = [
    ("restored_by", {"restoration": {"by": "town"}}, "applicant", "town"),
    ("emergency", {"dates": {"emergency": date(2026, 4, 26)}}, False, True),
    ("extension", {"papers": {"more_time": "late"}}, "none", "late"),
    ("hurry", {"papers": {"hurry": True}}, False, True),
    ("begun", {"cut": {"begun": True}}, False, True),
]


@pytest.mark.parametrize(("name", "tables", "plain", "told"), SET, ids=[row[0] for row in SET])
def test_a_fact_that_has_a_plain_value_may_be_said_otherwise(
    name: str, tables: dict[str, Any], plain: object, told: object
) -> None:
    assert facts_of(job())[name] == plain
    assert facts_of(job(**tables))[name] == told


def test_every_fact_a_condition_may_ask_for_is_read_from_the_job_or_computed() -> None:
    of_items = {name for name, fact in FACTS.items() if fact.local} - {"water"}
    computed = {name for name, fact in FACTS.items() if fact.stage is Stage.SIZE}

    assert set(facts_of(job())) == set(FACTS) - of_items - computed


def test_a_sheets_own_list_of_streets_tells_whose_and_how_old_it_is() -> None:
    lists = (
        "[sheet.listed_streets]\n'MILL LANE' = 'Tarn County'\n'Other Road' = 'State'\n"
        "[sheet.paved]\n'Mill Lane' = 2024-08-01\n'Other Road' = 2020-01-01"
    )
    town = sheet("", head=lists)

    assert rules(town).facts["authority"] == "Tarn County"
    assert rules(town).facts["street_paved"] == date(2024, 8, 1)
    told = rules(town, street={"authority": "State", "last_paved": date(2021, 1, 1)})
    assert told.facts["authority"] == "State"
    assert told.facts["street_paved"] == date(2021, 1, 1)
    elsewhere = rules(town, street={"name": "Quiet Street"})
    assert elsewhere.facts["authority"] == "town"
    assert elsewhere.facts["street_paved"] is UNKNOWN


PARTS = (
    "[sheet.listed_streets]\n'Mill Lane' = [\n"
    "{ authority = 'Tarn County', between = ['A Street', 'B Street', 'C St'], holds = false },\n"
    "{ authority = 'State', between = ['D Street', 'E Street'], sheet = 'us-xx' }]\n"
)


@pytest.mark.parametrize(
    ("block", "authority", "away"),
    [
        (["B St", "C St"], "Tarn County", True),
        (["D Street", "E Street"], "State", None),
        (["C Street", "D Street"], UNKNOWN, None),
        ([], UNKNOWN, False),
    ],
)
def test_a_part_of_a_street_is_told_by_the_job_s_block(
    block: list[str], authority: object, *, away: bool | None
) -> None:
    town = sheet(edition("walk.base", base("", 4)), head=PARTS)

    found = rules(town, street={"between": block})

    assert found.facts["authority"] == authority
    assert [each.certain for each in found.elsewhere] == ([] if away is None else [away])
    assert found["walk.base"].silent is (away is True)


def test_what_does_not_hold_here_leaves_the_layers_below_in_force() -> None:
    head = "[sheet.listed_streets]\n'Mill Lane' = { authority = 'Tarn County', holds = false }"
    town = sheet(edition("walk.base", base("", 4)), head=head)
    below = state(edition("walk.base", base("", 6)))

    found = rules(town, below)

    assert found["walk.base"].text == "at least 6 in"
    assert found.sheets == (town, below)
    assert rules(town, below, street={"name": "Quay"})["walk.base"].text == "at least 4 in"


def test_of_a_sheet_that_does_not_hold_only_permits_that_ask_whose_street_it_is_count() -> None:
    permits = "".join(
        f"[[permit]]\nid = '{name}'\ntitle = 'P'\nissuer = 'I'\n{when}\n"
        for name, when in (("town", ""), ("theirs", "when = { authority = 'Tarn County' }"))
    )
    head = "[sheet.listed_streets]\n'Mill Lane' = { authority = 'Tarn County', holds = false }"

    assert [n.permit.id for n in rules(sheet(permits, head=head)).permits()] == ["theirs"]
