"""The odd rules that break a plain form, each held by a small sheet of its own."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from sheet_text import case, cases, edition, sheet

from permitkit.model.rules import Threshold
from permitkit.model.telling import value_text
from permitkit.model.values import (
    Ask,
    Fees,
    Hours,
    Items,
    Limit,
    NoRule,
    Sentences,
    Span,
    Stance,
    Words,
    YesNo,
)
from permitkit.units import Kind, Measure, read_measure


def length(text: str) -> Measure:
    return read_measure(text, Kind.LENGTH)


def area(text: str) -> Measure:
    return read_measure(text, Kind.AREA)


def test_a_pipe_that_is_there_may_not_even_be_renewed() -> None:
    assert case("outlet.renewal", 'stance = "barred"').value == Stance("barred")


def test_a_walk_repair_may_require_a_drain() -> None:
    (only,) = cases(
        "outlet.allowed",
        edition(
            "outlet.allowed",
            'when = { walk_closed = true, new_outlet = true }\nstance = "required"\ncite = '
            '"code 1"',
        ),
    )

    assert only.value == Stance("required")


def test_a_job_may_be_exempt_by_name() -> None:
    (only,) = cases(
        "docs.permit_needed",
        edition(
            "docs.permit_needed",
            'when = { water = "roof", outlet = "core" }\nstance = "exempt"\ncite = "code 1"',
        ),
    )

    assert only.value == Stance("exempt")


def test_the_town_may_cut_the_curb_itself_and_choose_the_number_of_outlets() -> None:
    assert case("outlet.who_cuts", 'one_of = "town"').value == Words(("town",))
    assert case("outlet.count", 'ask = "street commissioner"').value == Ask("street commissioner")


def test_a_count_may_be_a_least_with_one_more_beside_each_apron() -> None:
    assert case("outlet.count", "at_least = 2").value == Limit(2, None)
    assert case("outlet.beside_drive", "yes = true").value == YesNo(yes=True)


def test_a_distance_may_have_both_ends_by_the_fall_of_the_ground() -> None:
    to_street, other = cases(
        "emitter.to_house",
        edition(
            "emitter.to_house",
            'when = { falls_to = "street" }\nat_least = "10 ft"\nat_most = "30 ft"\ncite = '
            '"code 1"',
            'at_least = "5 ft"\nat_most = "10 ft"\ncite = "code 1"',
        ),
    )

    assert value_text(to_street.value) == "10 ft to 30 ft, emitter from building"
    assert value_text(other.value) == "5 ft to 10 ft, emitter from building"


def test_a_position_set_by_geometry_is_held_in_words() -> None:
    text = 'say = "midway between the edge of the structure and the side lot line"'

    assert isinstance(case("outlet.position", text).value, Sentences)


def test_a_rule_may_bite_only_if_harm_happens() -> None:
    (only,) = cases(
        "emitter.to_row",
        edition("emitter.to_row", 'when = { harm = true }\nat_least = "35 ft"\ncite = "code 1"'),
    )

    assert only.when is not None
    assert only.when.alternatives == ({"harm": ("yes",)},)


def test_grandfathering_may_hang_on_two_dates_and_a_cost() -> None:
    (only,) = cases(
        "outlet.allowed",
        edition(
            "outlet.allowed",
            "when = { built = { from = 1963-01-15, before = 1984-07-01 }, cost = { under = 50 } }\n"
            'stance = "allowed"\ncite = "code 1"',
        ),
    )

    assert only.when is not None
    (alternative,) = only.when.alternatives
    assert alternative["built"] == Threshold(at_least=date(1963, 1, 15), under=date(1984, 7, 1))
    assert alternative["cost"] == Threshold(under=Decimal(50))


def test_a_waiver_may_be_a_ladder_with_what_each_step_needs() -> None:
    ladder = (
        'waivable_by = [{ who = "county engineer", needs = "a letter" }, '
        '{ who = "director", needs = "a hardship statement" }, "board of appeals"]'
    )
    held = case("outlet.allowed", f'stance = "barred", {ladder}')

    assert held.waivable_by == ("county engineer", "director", "board of appeals")
    assert held.waiver_needs == ("a letter", "a hardship statement", "")


def test_a_step_of_a_waiver_may_be_any_one_of_several_or_all_of_them() -> None:
    anyone, together = (
        case("core.bit", f'at_most = "4 in", waivable_by = {who}')
        for who in (
            '{ any_of = ["planning board", "engineer", "site review"], needs = "a plan" }',
            '["engineer", { all_of = ["council", "mayor"] }]',
        )
    )

    assert anyone.waivable_by == ("planning board, engineer or site review",)
    assert anyone.waiver_needs == ("a plan",)
    assert together.waivable_by == ("engineer", "council and mayor")


def test_another_office_may_have_to_approve_first() -> None:
    text = 'items = [{ name = "certificate of the sanitation bureau" }]'

    assert isinstance(case("docs.prior_approval", text).value, Items)


def test_one_cut_may_have_two_lengths_one_with_dowels() -> None:
    doweled, plain = cases(
        "restore.curb_piece",
        edition(
            "restore.curb_piece",
            'when = { dowels = true }\nat_least = "3 ft"\ncite = "code 1"\n'
            'note = "#4 bar 6 in long, each end"',
            'at_least = "10 ft"\ncite = "code 1"',
        ),
    )

    assert (doweled.value, plain.value) == (Limit(length("3 ft")), Limit(length("10 ft")))


def test_thickness_may_give_way_to_strength() -> None:
    strong, drive, plain = cases(
        "walk.thickness",
        edition(
            "walk.thickness",
            'when = { walk_use = "driveway", strength = { at_least = "4500 psi" } }\n'
            'at_least = "4 in"\ncite = "code 1"',
            'when = { walk_use = "driveway" }\nat_least = "6 in"\ncite = "code 1"',
            'at_least = "4 in"\ncite = "code 1"',
        ),
    )

    assert strong.value == plain.value
    assert drive.value == Limit(length("6 in"))


def test_new_walk_may_have_to_match_what_was_removed_above_a_floor() -> None:
    assert case("walk.as_removed", "yes = true").value == YesNo(yes=True)
    assert case("walk.thickness", 'at_least = "4 in"').value == Limit(length("4 in"))


def test_removal_may_go_to_the_score_line_the_piece_left_to_the_joint_or_all_across() -> None:
    along, across = cases(
        "walk.removal_width",
        edition(
            "walk.removal_width",
            'when = { trench_runs = "along the walk" }\none_of = "the full width"\ncite = "code 1"',
            'one_of = "to the score line"\ncite = "code 1"\nwaivable_by = "director"',
        ),
    )

    assert (along.value, across.value) == (
        Words(("the full width",)),
        Words(("to the score line",)),
    )
    assert case("walk.piece_left", 'at_least = "3 ft"').value == Limit(length("3 ft"))


def test_concrete_and_asphalt_walks_may_have_their_own_rules() -> None:
    concrete, _ = cases(
        "walk.removal",
        edition(
            "walk.removal",
            'when = { walk_surface = "concrete" }\none_of = "whole panels"\ncite = "code 1"',
            'when = { walk_surface = "asphalt" }\none_of = "part panel"\ncite = "code 1"',
        ),
    )

    assert concrete.value == Words(("whole panels",))


def test_the_base_may_hang_on_the_soil() -> None:
    clay, other = cases(
        "walk.base",
        edition(
            "walk.base",
            'when = { soil = "clay" }\nat_least = "4 in"\ncite = "code 1"',
            'no_rule = true\ncite = "code 1"',
        ),
    )

    assert (clay.value, other.value) == (Limit(length("4 in")), NoRule())


def test_tunnelling_may_be_allowed_up_to_a_width_of_walk() -> None:
    narrow, _ = cases(
        "walk.crossing",
        edition(
            "walk.crossing",
            'when = { walk_width = { up_to = "64 in" } }\none_of = ["cut", "bored"]\ncite = '
            '"code 1"',
            'one_of = "cut"\ncite = "code 1"',
        ),
    )

    assert narrow.value == Words(("cut", "bored"))
    assert case("core.earth_under", 'at_least = "3 ft"').value == Limit(length("3 ft"))


def test_the_finer_marks_of_a_mix_are_held() -> None:
    assert value_text(case("walk.slump", 'at_most = "3 in"').value) == "at most 3 in"
    assert value_text(case("walk.air", 'at_least = "4 %", at_most = "7 %"').value) == "4 % to 7 %"
    told = value_text(case("walk.temperature", 'at_least = "35 deg F"').value)
    assert told == "at least 35 deg F"
    assert value_text(case("restore.asphalt_strip", 'at_least = "24 in"').value) == "at least 24 in"


def test_roof_leader_area_is_roof_for_each_square_inch_with_a_floor() -> None:
    assert case("pipe.roof_per_square_inch", 'at_most = "150 sq ft"').value == Limit(
        None, area("150 sq ft")
    )
    assert case("pipe.size", 'at_least = "3 in"').value == Limit(length("3 in"))


def test_security_may_be_one_of_three_kinds_and_the_figure_a_cap() -> None:
    bond = case("fees.bond", 'line = [{ name = "bond", sum = 500, cap = true }]').value
    kinds = case("docs.security", 'one_of = ["cash", "surety bond", "letter of credit"]').value

    assert isinstance(bond, Fees)
    assert bond.lines[0].cap
    assert kinds == Words(("cash", "surety bond", "letter of credit"))


def test_only_the_contractor_may_apply_and_anyone_paid_is_one() -> None:
    held = case("docs.who_applies", 'one_of = "contractor", note = "anyone paid is a contractor"')

    assert (held.value, held.note) == (Words(("contractor",)), "anyone paid is a contractor")


def test_the_town_may_take_the_pipe_over() -> None:
    assert case("outlet.who_maintains", 'one_of = "town"').value == Words(("town",))


def test_the_curb_may_have_to_be_put_back_when_the_use_ends() -> None:
    assert case("restore.curb_back", "yes = true").value == YesNo(yes=True)
    assert case("restore.curb_back_within", 'span = "60 days", clock = "end of use"').value == Span(
        60, "days", "end of use"
    )


def test_a_sketch_may_be_needed_only_above_a_size() -> None:
    above, other = cases(
        "packet.sketch",
        edition(
            "packet.sketch",
            'when = [{ area = { over = "20 sq ft" } }, { trench = { over = "30 ft" } }]\n'
            'yes = true\ncite = "code 1"',
            'yes = false\ncite = "code 1"',
        ),
    )

    assert above.when is not None
    assert len(above.when.alternatives) == 2
    assert other.value == YesNo(yes=False)


def test_the_stricter_of_text_and_drawing_may_govern() -> None:
    assert case("docs.governs", 'one_of = "the stricter"').value == Words(("the stricter",))


def test_an_opening_may_overrun_what_was_permitted() -> None:
    assert value_text(case("walk.overrun", 'at_most = "50 %"').value) == "at most 50 %"


def test_notice_may_go_to_the_police() -> None:
    assert case("dates.notice_to", 'one_of = "police"').value == Words(("police",))


def test_a_moratorium_has_a_street_list_with_dates_and_a_span() -> None:
    found = sheet(
        """
        [rule]
        dates.pavement_age = { span = "5 years", clock = "paving", cite = "code 1" }
        [sheet.paved]
        "Heron Street" = 2023-06-01
        """.replace("[rule]", "[[permit]]\nid='a'\ntitle='A'\nissuer='F'\n[rule]", 1)
    )

    assert found.paved["Heron Street"] == date(2023, 6, 1)


def test_hours_may_hang_on_a_named_street_and_be_split() -> None:
    boulevard, _ = cases(
        "traffic.hours",
        edition(
            "traffic.hours",
            'when = { street = "Grand Boulevard" }\nhours = ["08:30-11:30", "13:30-15:30"]\n'
            'cite = "code 1"',
            'when = { street_class = ["arterial", "collector"] }\nhours = ["08:30-15:30"]\n'
            'cite = "code 1"',
        ),
    )

    assert isinstance(boulevard.value, Hours)
    assert len(boulevard.value.on(0)) == 2


def test_a_validity_may_hang_on_the_permit() -> None:
    county, _ = cases(
        "dates.validity",
        edition(
            "dates.validity",
            'when = { permit = "county" }\nspan = "30 days"\nclock = "issue"\ncite = "code 1"',
            'span = "60 days"\nclock = "issue"\ncite = "code 1"',
        ),
    )

    assert county.value == Span(30, "days", "issue")
