"""Short, sharp cases of real towns, each from its own page; the sheets lie in `towns`."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from town_rules import SHORT, in_all, layers, lines, paid, rules_of, sized

from permitkit.load.rule_lint import lint
from permitkit.model.values import Ask, Span
from permitkit.units import Kind, read_measure


@pytest.mark.parametrize("town", SHORT)
def test_every_town_names_its_source_with_address_and_day_and_lints_clean(town: str) -> None:
    (sheet,) = layers(town)

    assert sheet.standing == "not verified with the town"
    assert all(source.address and source.read for source in sheet.sources.values())
    assert lint(sheet) == ()


# ---- Saratoga, California


@pytest.mark.parametrize("outlet", ["core", "notch", "existing hole"])
def test_saratoga_bars_every_pipe_through_the_curb_and_nobody_may_waive_it(outlet: str) -> None:
    rule = rules_of("saratoga-ca", outlet=outlet)["outlet.allowed"]

    assert (rule.stance, rule.waivable_by) == ("barred", ())


def test_saratoga_lets_no_old_curb_pipe_be_renewed_in_kind() -> None:
    assert rules_of("saratoga-ca")["outlet.renewal"].stance == "barred"


def test_saratoga_wants_a_bubble_up_box_behind_the_line_and_5_ft_from_the_curb() -> None:
    rules = rules_of("saratoga-ca", outlet="emitter")

    assert rules["outlet.allowed"].stance == "allowed"
    assert rules["emitter.to_curb"].text == "at least 5 ft, emitter from curb"
    assert rules["outlet.position"].sentences == (
        "A bubble-up box stands just behind the property line.",
    )


# ---- Summit, New Jersey


def test_summit_charges_nothing_for_curb_and_walk_but_wants_the_permit() -> None:
    rules = sized(rules_of("summit-nj", pavement_cut=False))

    assert in_all(paid(rules).fees) == "0.00"
    assert in_all(paid(rules).deposit) == "0.00"
    assert [needed.permit.id for needed in rules.permits()] == ["walk"]


@pytest.mark.parametrize(
    ("opened", "deposit"),
    [("1 sq yd", "500.00"), ("5 sq yd", "500.00"), ("5.01 sq yd", "501.00"), ("8 sq yd", "800.00")],
)
def test_summit_holds_the_greater_of_a_rate_and_500_for_a_road_opening(
    opened: str, deposit: str
) -> None:
    money = paid(sized(rules_of("summit-nj", pavement_cut=True), pavement_area=opened))

    assert in_all(money.fees) == "105.00"
    assert lines(money.fees) == {
        "curb, walk, apron": "0.00",
        "road opening": "30.00",
        "road inspection": "75.00",
    }
    assert in_all(money.deposit) == deposit


# ---- Woodland, California


def test_woodland_saws_an_inch_and_a_half_deep() -> None:
    assert rules_of("woodland-ca")["walk.saw_depth"].text == "at least 1 1/2 in"


def test_woodland_goes_to_the_nearest_score_line_unless_the_director_lets_otherwise() -> None:
    rule = rules_of("woodland-ca", trench_runs="across the walk")["walk.removal_width"]

    assert rule.words == ("to the score line",)
    assert rule.waivable_by == ("director",)


def test_woodland_leaves_three_feet_or_goes_to_the_joint() -> None:
    rule = rules_of("woodland-ca")["walk.piece_left"]

    assert rule.limit.at_least == read_measure("3 ft", Kind.LENGTH)
    assert rule.note == "else the cut goes to the joint"


def test_woodland_takes_the_full_width_for_a_trench_along_the_walk() -> None:
    rule = rules_of("woodland-ca", trench_runs="along the walk")["walk.removal_width"]

    assert rule.words == ("the full width",)


def test_woodland_asks_which_way_the_trench_runs_where_the_job_does_not_say() -> None:
    rule = rules_of("woodland-ca")["walk.removal_width"]

    assert isinstance(rule.value, Ask)
    assert rule.value.facts == ("trench_runs",)


# ---- Deer Park, Harrison and Cuyahoga Heights, Ohio


@pytest.mark.parametrize(
    ("opened", "curb", "deposit"),
    [
        ("1 sq yd", "0 ft", "30.00"),
        ("0 sq yd", "1 ft", "10.00"),
        ("2 sq yd", "6 ft", "120.00"),
        ("25 sq ft", "3 ft", "113.33"),
    ],
)
def test_deer_park_adds_an_area_and_a_length_of_curb(opened: str, curb: str, deposit: str) -> None:
    money = paid(sized(rules_of("deer-park-oh"), area=opened, curb_length=curb))

    assert (in_all(money.fees), in_all(money.deposit)) == ("10.00", deposit)


@pytest.mark.parametrize(
    ("applicant", "fee"), [("utility", "15.00"), ("owner", "60.00"), ("contractor", "60.00")]
)
def test_harrison_charges_a_utility_less(applicant: str, fee: str) -> None:
    assert in_all(paid(sized(rules_of("harrison-oh", applicant=applicant))).fees) == fee


@pytest.mark.parametrize(
    ("opened", "deposit"),
    [("4 sq ft", "1000.00"), ("10 sq ft", "1000.00"), ("25 sq ft", "2500.00")],
)
def test_harrison_holds_the_greater_of_a_rate_and_1000_a_cut(opened: str, deposit: str) -> None:
    assert in_all(paid(sized(rules_of("harrison-oh"), area=opened)).deposit) == deposit


@pytest.mark.parametrize(("opened", "deposit"), [("0 sq ft", "100.00"), ("25 sq ft", "350.00")])
def test_cuyahoga_heights_holds_a_sum_and_a_rate(opened: str, deposit: str) -> None:
    money = paid(sized(rules_of("cuyahoga-heights-oh"), area=opened))

    assert (in_all(money.fees), in_all(money.deposit)) == ("100.00", deposit)


# ---- Darien, Illinois


def test_darien_holds_200_for_verge_alone_and_gives_175_back() -> None:
    rules = rules_of("darien-il", crossing="bored", pavement_cut=False)

    (row,) = paid(sized(rules, area="9 sq ft")).deposit.rows

    assert (row.name, row.amount, row.kept) == ("verge", Decimal(200), Decimal(25))
    assert row.refundable
    assert (row.amount or 0) - (row.kept or 0) == Decimal(175)


def test_darien_holds_15_a_square_foot_of_walk_and_keeps_50() -> None:
    rules = rules_of("darien-il", crossing="cut", pavement_cut=False)

    (row,) = paid(sized(rules, area="25 sq ft")).deposit.rows

    assert (row.name, row.amount, row.kept) == ("street or walk", Decimal("375.00"), Decimal(50))


# ---- Delafield, Wisconsin


@pytest.mark.parametrize(
    ("opened", "trench", "sketch"),
    [
        ("20 sq ft", "30 ft", False),
        ("20.1 sq ft", "30 ft", True),
        ("20 sq ft", "30 ft 1 in", True),
        ("4 sq ft", "40 ft", True),
    ],
)
def test_delafield_wants_a_sketch_over_20_square_feet_or_30_feet(
    opened: str, trench: str, *, sketch: bool
) -> None:
    rules = sized(rules_of("delafield-wi"), area=opened, trench=trench)

    assert rules["packet.sketch"].yes is sketch


def test_delafield_charges_75_at_the_least_and_leaves_the_rest_open() -> None:
    fees = paid(sized(rules_of("delafield-wi"))).fees

    assert (fees.total, fees.most, fees.shown) == (Decimal(75), None, "at least $75.00")
    assert [row.shown for row in fees.rows] == ["$75.00 or more"]
    assert fees.open == ("permit",)


def test_delafield_gives_60_days_a_year_of_guarantee_and_a_yearly_deposit() -> None:
    rules = rules_of("delafield-wi")

    assert rules["dates.validity"].text == "60 days, counted from the issue"
    assert rules["dates.guarantee"].text == "1 year, counted from the finish"
    assert in_all(paid(sized(rules)).deposit) == "10000.00"


# ---- Barberton, Ohio


@pytest.mark.parametrize(
    ("key", "span"),
    [
        ("dates.apply_ahead", Span(48, "hours", "start")),
        ("dates.start_by", Span(10, "days", "issue")),
        ("dates.close_by", Span(5, "days", "opening")),
        ("dates.guarantee", Span(0, "years", "finish", endless=True)),
    ],
)
def test_barberton_has_deadlines_each_with_its_clock(key: str, span: Span) -> None:
    assert rules_of("barberton-oh")[key].span == span


def test_barberton_excepts_an_emergency_from_applying_ahead() -> None:
    assert rules_of("barberton-oh", emergency=True)["dates.apply_ahead"].open


def test_barberton_charges_cost_and_15_percent_where_it_restores() -> None:
    fees = paid(sized(rules_of("barberton-oh", restored_by="town", cost="1234.56"))).fees

    assert lines(fees)["restoration by the city"] == "1419.74"


def test_barberton_guarantees_without_end_only_where_the_permit_holder_backfills() -> None:
    assert rules_of("barberton-oh", restored_by="town")["dates.guarantee"].open


# ---- North Olmsted, Ohio


@pytest.mark.parametrize(("begun", "fee"), [(False, "50.00"), (True, "150.00")])
def test_north_olmsted_charges_three_times_where_work_began_first(*, begun: bool, fee: str) -> None:
    assert in_all(paid(sized(rules_of("north-olmsted-oh", begun=begun))).fees) == fee


@pytest.mark.parametrize(
    ("street", "deposit"),
    [
        ("one of four main roads", "3000.00"),
        ("One of  Five Roads", "2500.00"),
        ("one of some fourteen roads", "2000.00"),
        ("any other concrete street", "1500.00"),
    ],
)
def test_north_olmsted_holds_a_deposit_by_named_road(street: str, deposit: str) -> None:
    assert in_all(paid(sized(rules_of("north-olmsted-oh", street=street))).deposit) == deposit


# ---- University City, Missouri


@pytest.mark.parametrize(
    ("opened", "sheets", "fee"),
    [("0 sq ft", 5, "50.00"), ("25 sq ft", 5, "87.50"), ("25 sq ft", 7, "89.50")],
)
def test_university_city_charges_by_area_and_by_sheets_over_five(
    opened: str, sheets: int, fee: str
) -> None:
    rules = sized(rules_of("university-city-mo"), area=opened)

    assert in_all(paid(rules, {"sheet": sheets}).fees) == fee


@pytest.mark.parametrize(
    ("asked", "fee"), [("none", "50.00"), ("in time", "75.00"), ("late", "100.00")]
)
def test_university_city_charges_more_time_by_when_it_is_asked(asked: str, fee: str) -> None:
    assert in_all(paid(sized(rules_of("university-city-mo", extension=asked))).fees) == fee


def test_university_city_charges_hurry_by_the_hour() -> None:
    rules = sized(rules_of("university-city-mo", hurry=True))

    assert in_all(paid(rules, {"hour of review": 3}).fees) == "170.00"


def test_university_city_reviews_in_30_days_and_its_permit_is_good_for_30() -> None:
    rules = rules_of("university-city-mo")

    assert rules["dates.review"].span == Span(30, "days", "filing")
    assert rules["dates.validity"].span == Span(30, "days", "issue")


# ---- Greenwood Village, Colorado


@pytest.mark.parametrize(
    ("review", "inspection", "fee"),
    [(2, 5, "371.00"), (1, 1, "371.00"), (0, 0, "371.00"), (3, 10, "684.00")],
)
def test_greenwood_village_charges_hours_with_a_least_of_each(
    review: int, inspection: int, fee: str
) -> None:
    rules = sized(rules_of("greenwood-village-co"))

    money = paid(rules, {"hour of review": review, "hour of inspection": inspection})

    assert in_all(money.fees) == fee


@pytest.mark.parametrize(
    ("asphalt", "fee"),
    [("10 sq yd", "2025.00"), ("40 sq yd", "3000.00"), ("60 sq yd", "4035.00")],
)
def test_greenwood_village_charges_asphalt_at_a_rate_that_falls(asphalt: str, fee: str) -> None:
    rules = sized(rules_of("greenwood-village-co", restored_by="town"), pavement_area=asphalt)

    money = paid(rules, {"hour of review": 2, "hour of inspection": 5})

    assert lines(money.fees)["asphalt"] == fee


def test_greenwood_village_says_nothing_before_its_edition_of_2017() -> None:
    before = rules_of("greenwood-village-co", filing=date(2016, 12, 31))["fees.lines"]
    first = rules_of("greenwood-village-co", filing=date(2017, 1, 1))["fees.lines"]

    assert before.silent
    assert first.known


# ---- North Plainfield, New Jersey, and Sunbury, Pennsylvania


def test_north_plainfield_exempts_a_roof_leader_laid_to_the_curb_by_name() -> None:
    rules = rules_of("north-plainfield-nj")

    assert rules.at("docs.permit_needed", water="roof").stance == "exempt"
    assert rules.at("docs.permit_needed", water="sump").stance == "required"


def test_north_plainfield_exempts_nothing_on_a_county_road() -> None:
    rules = rules_of("north-plainfield-nj", authority="the county")

    assert rules.at("docs.permit_needed", water="roof").stance == "required"


def test_sunbury_requires_a_drain_where_the_walk_is_repaired() -> None:
    cut = rules_of("sunbury-pa", crossing="cut")["outlet.allowed"]
    bored = rules_of("sunbury-pa", crossing="bored")["outlet.allowed"]

    assert (cut.stance, cut.waivable_by) == ("required", ("city engineer",))
    assert bored.open


def test_sunbury_lays_sdr_35_under_the_walk_and_keeps_10_ft_to_the_line() -> None:
    rules = rules_of("sunbury-pa")

    assert rules.at("pipe.kind", place="right-of-way").words == ("SDR 35 PVC",)
    assert rules["emitter.to_line"].text == "at least 10 ft, emitter from side line"
