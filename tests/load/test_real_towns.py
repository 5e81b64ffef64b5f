"""Five real towns, as far as their pages were seen; what was not seen is asked, never made up."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from town_rules import REAL, in_all, layers, lines, paid, rules_of, sized

from permitkit.load.rule_lint import lint
from permitkit.model.values import Ask, NoRule, Span

OLD, NEW = date(2023, 2, 27), date(2023, 2, 28)


@pytest.mark.parametrize("town", REAL)
def test_every_real_town_says_it_is_not_verified_and_lints_clean(town: str) -> None:
    sheet, *followed = layers(town)

    assert sheet.standing == "not verified with the town"
    assert not sheet.verified
    assert all(source.address.startswith("http") for source in sheet.sources.values())
    assert lint(sheet, tuple(followed)) == ()


@pytest.mark.parametrize("town", REAL)
def test_no_real_town_is_said_to_have_no_rule(town: str) -> None:
    sheet = layers(town)[0]
    values = [
        case.value
        for rule in sheet.rules.values()
        for edition in rule.editions
        for case in edition.cases
    ]

    assert not any(isinstance(value, NoRule) for value in values)
    assert all(value.by for value in values if isinstance(value, Ask))


@pytest.mark.parametrize(
    ("town", "follows"),
    [
        ("silverton-or", ("us-or", "us")),
        ("eugene-or", ("us-or", "us")),
        ("rolling-meadows-il", ("us-il", "us")),
        ("lakeside-park-ky", ("us",)),
        ("clinton-ia", ("us",)),
    ],
)
def test_a_town_builds_on_its_state_where_the_state_has_a_sheet(
    town: str, follows: tuple[str, ...]
) -> None:
    assert tuple(sheet.place for sheet in layers(town)[1:]) == follows


@pytest.mark.parametrize(
    ("town", "key"),
    [
        ("silverton-or", "fees.lines"),
        ("silverton-or", "dates.start_by"),
        ("silverton-or", "restore.pavement_extra"),
        ("lakeside-park-ky", "pipe.kind"),
        ("lakeside-park-ky", "fees.lines"),
        ("lakeside-park-ky", "fees.bond"),
        ("lakeside-park-ky", "docs.insurance"),
        ("lakeside-park-ky", "dates.validity"),
        ("lakeside-park-ky", "dates.locate_wait"),
        ("clinton-ia", "dates.locate_wait"),
        ("rolling-meadows-il", "dates.validity"),
        ("rolling-meadows-il", "dates.inspections"),
        ("rolling-meadows-il", "restore.tree"),
        ("rolling-meadows-il", "docs.licence"),
        ("eugene-or", "fees.lines"),
    ],
)
def test_what_was_not_seen_is_to_be_asked_and_says_so(town: str, key: str) -> None:
    rule = rules_of(town)[key]

    assert isinstance(rule.value, Ask)
    assert rule.value.by
    assert any(words in rule.why for words in ("not seen", "in no sheet"))


# ---- Silverton, Oregon


def test_silverton_counts_two_holes_as_a_least() -> None:
    rule = rules_of("silverton-or")["outlet.count"]

    assert rule.text == "at least 2"
    assert rule.limit.at_most is None
    assert rule.waiver_needs[0].startswith("hardship from topography, right-of-way or geology")


def test_silverton_wants_a_3_in_hole_and_a_reducer_behind_the_walk() -> None:
    rules = rules_of("silverton-or")

    assert rules["core.bit"].text == "exactly 3 in"
    assert rules["pipe.shrinks"].stance == "allowed"
    assert [item.name for item in rules["pipe.fittings"].items] == [
        "eccentric reducer, 3 in x 4 in"
    ]
    assert rules["outlet.beside_drive"].yes


@pytest.mark.parametrize(
    ("facts", "thickness"),
    [
        ({"walk_use": "plain"}, "at least 4 in"),
        ({"walk_use": "ramp"}, "at least 6 in"),
        ({"walk_use": "driveway", "building_use": "house"}, "at least 6 in"),
        ({"walk_use": "driveway", "building_use": "industrial"}, "at least 8 in"),
        ({"walk_use": "driveway", "street_class": "alley"}, "at least 8 in"),
    ],
)
def test_silverton_sets_the_walk_by_its_use(facts: dict[str, Any], thickness: str) -> None:
    assert rules_of("silverton-or", **facts)["walk.thickness"].text == thickness


def test_silverton_asks_about_a_driveway_of_several_dwellings() -> None:
    rules = rules_of("silverton-or", walk_use="driveway", building_use="multi-family")

    assert rules["walk.thickness"].open


@pytest.mark.parametrize(
    ("facts", "width"),
    [
        ({"building_use": "house", "zone": "flat"}, "at least 5 ft"),
        ({"building_use": "house", "zone": "hillside"}, "at least 6 ft"),
        ({"building_use": "house", "street_class": "arterial"}, "at least 5 ft"),
        ({"building_use": "commercial"}, "at least 6 ft"),
    ],
)
def test_silverton_sets_the_walk_s_width_by_class(facts: dict[str, Any], width: str) -> None:
    assert rules_of("silverton-or", **facts)["walk.width"].text == width


def test_silverton_lets_the_stricter_of_text_and_drawing_govern() -> None:
    assert rules_of("silverton-or")["docs.governs"].words == ("the stricter",)


def test_silverton_bars_water_over_the_walk() -> None:
    assert rules_of("silverton-or")["emitter.over_walk"].stance == "barred"


# ---- Lakeside Park, Kentucky


def test_lakeside_park_has_an_order_of_four_and_wants_reasons() -> None:
    rule = rules_of("lakeside-park-ky")["outlet.order"]

    assert rule.order.steps == ("storm sewer", "gutter", "back yard", "front or side yard")
    assert rule.order.reason_needed


def test_lakeside_park_wants_one_of_its_drawings_at_the_curb() -> None:
    (detail,) = rules_of("lakeside-park-ky", outlet="core")["docs.details"].items

    assert (detail.name, detail.number) == ("Roof drain at the curb", "Exhibit A")
    assert "anti-seep" in detail.note


def test_lakeside_park_gives_distances_behind_and_a_place_in_words_in_front() -> None:
    behind = rules_of("lakeside-park-ky", outlet="emitter", yard="rear")
    front = rules_of("lakeside-park-ky", outlet="emitter", yard="front")

    assert behind["emitter.to_house"].text == "at least 10 ft, emitter from building"
    assert behind["emitter.to_line"].text == "at least 5 ft, emitter from side line"
    assert behind["emitter.to_row"].text == "at least 10 ft, emitter from right-of-way line"
    assert front["emitter.to_house"].open
    assert front["outlet.position"].sentences == (
        "Set the outlet about midway between the edge of the structure and the side lot line.",
    )


def test_lakeside_park_wants_two_permits_for_a_hole_and_a_cut_walk() -> None:
    rules = rules_of("lakeside-park-ky", outlet="core", crossing="cut", pavement_cut=False)

    assert [needed.permit.id for needed in rules.permits()] == ["curb-opening", "street-opening"]


# ---- Clinton, Iowa


def test_clinton_charged_500_for_a_curb_cut_before_its_code_of_2023() -> None:
    money = paid(sized(rules_of("clinton-ia", filing=OLD, outlet="notch")))

    assert (in_all(money.fees), in_all(money.deposit)) == ("150.00", "350.00")
    assert money.deposit.rows[0].refundable


@pytest.mark.parametrize(
    ("curb", "line", "fee"),
    [("10 ft", "curb and gutter removal", "200.00"), ("0 ft", "curb cut by sawing", "100.00")],
)
def test_clinton_charges_curb_taken_out_or_sawn_since_2023(curb: str, line: str, fee: str) -> None:
    rules = rules_of("clinton-ia", filing=NEW, outlet="notch", crossing="none", closed_part="none")
    money = paid(sized(rules, curb_length=curb))

    told = lines(money.fees)
    assert told[line] == fee
    assert len([name for name in told if name.startswith("curb")]) == 1
    assert in_all(money.deposit) == "0.00"


def test_clinton_leaves_a_drilled_hole_to_be_asked() -> None:
    told = lines(paid(sized(rules_of("clinton-ia", outlet="core", crossing="none"))).fees)

    assert told["hole drilled in the curb"] is None


@pytest.mark.parametrize(
    ("length", "fee"), [("5 ft", "10.00"), ("15 ft", "10.00"), ("30 ft", "20.00")]
)
def test_clinton_charges_10_for_every_15_ft_of_walk(length: str, fee: str) -> None:
    rules = sized(rules_of("clinton-ia", crossing="cut"))

    assert lines(paid(rules, {"length of walk": length}).fees)["sidewalk"] == fee


def test_clinton_adds_blocks_crossings_and_openings_for_trenchless_work() -> None:
    rules = sized(rules_of("clinton-ia", crossing="bored"))

    told = lines(
        paid(rules, {"block": 2, "street crossing": 1, "surface opened": 3}).fees,
    )

    assert told["trenchless"] == "1000.00"


@pytest.mark.parametrize(
    ("pavement_cut", "verge", "roadway", "unimproved"),
    [(True, "0 sq ft", "200.00", "0.00"), (False, "6 sq ft", None, "100.00")],
)
def test_clinton_tells_the_roadway_from_the_unimproved_part(
    *, pavement_cut: bool, verge: str, roadway: str | None, unimproved: str
) -> None:
    rules = sized(rules_of("clinton-ia", pavement_cut=pavement_cut))
    told = lines(paid(rules, {"area of verge": verge}).fees)

    assert told.get("opening in the travelled roadway") == roadway
    assert told["opening in unimproved right-of-way"] == unimproved


def test_clinton_knows_only_a_range_for_a_lasting_obstruction() -> None:
    rows = paid(sized(rules_of("clinton-ia"))).fees.rows

    (lasting,) = (row for row in rows if row.name == "lasting obstruction")
    assert (lasting.amount, lasting.amount_to) == (Decimal(0), Decimal(50))


def test_clinton_lets_only_a_contractor_touch_a_curb_or_concrete() -> None:
    curb = rules_of("clinton-ia", outlet="core")["docs.who_applies"]
    lawn = rules_of("clinton-ia", outlet="emitter", crossing="none")["docs.who_applies"]

    assert curb.words == ("contractor",)
    assert lawn.words == ("owner", "contractor")


def test_clinton_inspects_before_and_after_the_pour_and_30_days_later() -> None:
    items = rules_of("clinton-ia")["dates.inspections"].items

    assert [item.name for item in items][:3] == [
        "formed, before the pour",
        "after the pour",
        "final",
    ]
    assert items[2].note == "30 days later, weather permitting"


def test_clinton_registers_and_bonds_the_contractor() -> None:
    rules = rules_of("clinton-ia")

    assert "$100.00 (for a year, as excavator" in rules["fees.registration"].text
    assert in_all(paid(sized(rules)).bond) == "10000.00"
    assert rules["docs.insurance"].covers[0].each == 1_000_000


# ---- Rolling Meadows, Illinois


@pytest.mark.parametrize(
    ("day", "shut"),
    [
        (date(2026, 11, 14), False),
        (date(2026, 11, 15), True),
        (date(2027, 1, 1), True),
        (date(2027, 4, 1), True),
        (date(2027, 4, 2), False),
    ],
)
def test_rolling_meadows_opens_nothing_from_november_15_to_april_1(
    day: date, *, shut: bool
) -> None:
    rule = rules_of("rolling-meadows-il")["dates.concrete_season"]

    assert rule.season.shut(day) is shut
    assert rule.season.parts[0].soft_end
    assert rule.waiver_needs == ("the special condition, explained in writing",)


def test_rolling_meadows_lets_an_emergency_be_dug_first() -> None:
    rules = rules_of("rolling-meadows-il", emergency=True)

    assert rules["dates.concrete_season"].open
    assert "dig first" in rules["dates.concrete_season"].why
    assert rules["dates.emergency"].span == Span(1, "days", "emergency")


@pytest.mark.parametrize("street", ["Algonquin Road", "GOLF RD", "Plum Grove Road"])
def test_rolling_meadows_does_not_speak_for_the_listed_streets(street: str) -> None:
    rules = rules_of("rolling-meadows-il", street=street)
    (away,) = rules.elsewhere

    assert (away.street.authority, away.certain) == ("state or county", True)
    assert rules["dates.concrete_season"].silent
    assert rules["dates.guarantee"].silent
    assert not rules["dates.locate_wait"].silent
    assert [needed.permit.id for needed in rules.permits()] == ["listed-street"]


def test_rolling_meadows_speaks_for_a_part_of_a_listed_street_that_is_its_own() -> None:
    rules = rules_of("rolling-meadows-il", street="Golf Road", authority="town")

    assert rules.elsewhere == ()
    assert rules["dates.guarantee"].known


def test_rolling_meadows_has_six_covers_and_names_the_form() -> None:
    rules = rules_of("rolling-meadows-il")

    covers = {cover.kind: cover for cover in rules["docs.insurance"].covers}
    assert {
        kind: cover.each for kind, cover in covers.items() if not cover.by_law
    } == dict.fromkeys(
        (
            "general liability",
            "personal injury",
            "owners and contractors protective",
            "automobile",
            "employers liability",
        ),
        1_000_000,
    )
    assert covers["general liability"].aggregate == 2_000_000
    assert covers["workers compensation"].by_law
    assert "CG 20 12" in {item.number for item in rules["docs.required"].items}


def test_rolling_meadows_sets_its_surety_with_the_approval_and_holds_it_two_years() -> None:
    rules = rules_of("rolling-meadows-il")

    bond = paid(sized(rules)).bond
    assert bond.open == ("restoration surety",)
    assert rules["dates.guarantee"].span == Span(2, "years", "acceptance")


# ---- Eugene, Oregon


@pytest.mark.parametrize(("dowels", "length"), [(True, "at least 3 ft"), (False, "at least 10 ft")])
def test_eugene_has_two_lengths_of_curb_by_dowels(*, dowels: bool, length: str) -> None:
    assert rules_of("eugene-or", dowels=dowels)["restore.curb_piece"].text == length


def test_eugene_works_from_7_to_19_and_may_be_asked_for_other_hours() -> None:
    rule = rules_of("eugene-or")["traffic.hours"]

    ((start, end),) = rule.hours.on(0)
    assert (start.hour, end.hour) == (7, 19)
    assert rule.waivable_by == ("city engineer",)


@pytest.mark.parametrize(
    ("use", "thickness"), [("plain", "at least 4 in"), ("driveway", "at least 5 in")]
)
def test_eugene_makes_the_walk_thicker_at_a_driveway(use: str, thickness: str) -> None:
    assert rules_of("eugene-or", walk_use=use)["walk.thickness"].text == thickness


def test_eugene_inspects_before_material_is_placed_and_wants_plans_with_ties() -> None:
    rules = rules_of("eugene-or")

    assert [item.name for item in rules["dates.inspections"].items] == ["before material is placed"]
    assert [item.name for item in rules["docs.sketch_shows"].items] == [
        "direction of north",
        "scale",
        "ties to known points",
        "species of street tree",
    ]
    assert rules["restore.asphalt_strip"].text == "at least 24 in"


def test_eugene_ends_with_the_building_permit_or_after_a_year() -> None:
    assert rules_of("eugene-or")["dates.complete_by"].text == (
        "1 year; or the end of the building permit; whichever ends first"
    )
