"""The comparators: each tells both answers, and each honest answer of a sheet."""

from __future__ import annotations

from datetime import date, time
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from builder import fitted, rule

from permitkit.checks import compare
from permitkit.checks.scale import Yardstick
from permitkit.model.keys import KEYS
from permitkit.model.verdict import Outcome
from permitkit.model.vocabulary.pipes import pipe_fits
from permitkit.study.results import MoneyTotal
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.checks.finding import Finding
    from permitkit.study.in_force import InForce

DAY = date(2026, 4, 27)
NOTHING_DUE = MoneyTotal((), Decimal(0))
HONEST = {
    "ask": ({"ask": "town engineer", "note": "case by case"}, Outcome.ASK, "case by case"),
    "reference": ({"by_reference": "detail M-7"}, Outcome.ASK, "set by detail M-7"),
    "no rule": ({"no_rule": True}, Outcome.PASSES_OVER, "the town was asked and has no rule"),
}
PLAIN_SILENCE = "the sheet is silent; good practice only"

SPELLS = ((time(8), time(16)),)
COMPARATORS: dict[str, tuple[str, Callable[[InForce], Finding]]] = {
    "at_least": ("walk.base", lambda r: compare.at_least(r, 1.0)),
    "at_most": ("core.bit", lambda r: compare.at_most(r, 1.0)),
    "within": ("core.gap", lambda r: compare.within(r, 1.0)),
    "one_of": ("pipe.kind", lambda r: compare.one_of(r, "steel")),
    "far_enough": ("walk.removal_width", lambda r: compare.far_enough(r, "the cut")),
    "stance": ("water.allowed", lambda r: compare.stance(r, "sump")),
    "present": ("docs.consent", lambda r: compare.present(r, there=True, what="it")),
    "listed": (
        "docs.required",
        lambda r: next(iter(compare.listed(r, lambda _: True, cure=str))),
    ),
    "planned": (
        "dates.inspections",
        lambda r: next(iter(compare.planned(r, ["final"]))),
    ),
    "in_order": ("outlet.order", lambda r: next(iter(compare.in_order(r, "core", ())))),
    "on_or_after": ("dates.review", lambda r: compare.on_or_after(r, DAY, DAY)),
    "on_or_before": ("dates.validity", lambda r: compare.on_or_before(r, DAY, DAY)),
    "past": ("dates.pavement_age", lambda r: compare.past(r, DAY, DAY)),
    "in_time": ("dates.start_by", lambda r: compare.in_time(r, DAY, DAY)),
    "not_sooner": ("dates.apply_ahead", lambda r: compare.not_sooner(r, DAY, DAY)),
    "in_season": ("dates.concrete_season", lambda r: compare.in_season(r, [DAY])),
    "in_months": ("water.sump_season", lambda r: compare.in_months(r, [4], 2026)),
    "lasts": ("restore.to_feet", lambda r: compare.lasts(r, 24, "hours")),
    "in_hours": ("traffic.hours", lambda r: compare.in_hours(r, SPELLS, [DAY])),
    "covered": ("docs.insurance", lambda r: next(iter(compare.covered(r, ())))),
    "adds_up": ("fees.lines", lambda r: compare.adds_up(r, Decimal(1), NOTHING_DUE)),
    "names_line": ("fees.lines", lambda r: compare.names_line([r], "permit", item="fee")),
    "pays": ("fees.deposit", lambda r: compare.pays(r, Decimal(1), NOTHING_DUE)),
}


def in_force(rules: str, key: str) -> InForce:
    return fitted(rules=rules, alone=True).rules[key]


def test_every_comparator_is_held_against_the_honest_answers() -> None:
    others = {
        "Yardstick",
        "asked",
        "held_for",
        "holds",
        "honest",
        "longest",
        "measured_from",
        "named",
        "open_sums",
        "part_measured",
        "passes_over",
        "rounded_up",
    }

    assert set(compare.__all__) - others == set(COMPARATORS)


@pytest.mark.parametrize("honest", HONEST)
@pytest.mark.parametrize("name", COMPARATORS)
def test_a_comparator_passes_on_an_honest_answer(name: str, honest: str) -> None:
    key, held = COMPARATORS[name]
    words, outcome, why = HONEST[honest]

    finding = held(in_force(rule(key, **words), key))

    assert finding.outcome is outcome
    assert str(finding.why).endswith(why)
    assert finding.blocking is (outcome is Outcome.ASK and KEYS[key].blocking)


@pytest.mark.parametrize("name", COMPARATORS)
def test_silence_is_a_question_save_where_many_towns_never_write_it_down(name: str) -> None:
    key, held = COMPARATORS[name]
    plain = KEYS[key].plain

    finding = held(in_force(rule("packet.stamp", yes=False), key))

    assert finding.outcome is (Outcome.PASSES_OVER if plain else Outcome.ASK)
    assert (finding.why == PLAIN_SILENCE) is plain


def test_an_ask_names_who_can_answer() -> None:
    asked = in_force(rule("core.bit", ask="town engineer"), "core.bit")
    silent = in_force(rule("packet.stamp", yes=False), "core.bit")

    assert compare.at_most(asked, 1.0).ask_of == "town engineer"
    assert compare.at_most(silent, 1.0).ask_of == "the town"


@pytest.mark.parametrize(
    ("value", "outcome"),
    [
        (0.1016, Outcome.MEETS),
        (0.1016 + 1e-14, Outcome.MEETS),
        (0.10161, Outcome.FAILS),
        (read_measure("4 in", Kind.LENGTH), Outcome.MEETS),
        (read_measure("4 1/64 in", Kind.LENGTH), Outcome.FAILS),
        (None, Outcome.PASSES_OVER),
    ],
)
def test_equality_meets_a_limit_and_noise_does_not_break_it(
    value: float | None, outcome: Outcome
) -> None:
    bit = in_force(rule("core.bit", at_most="4 in"), "core.bit")

    assert compare.at_most(bit, value).outcome is outcome


def test_an_end_that_is_not_set_is_not_judged() -> None:
    bit = in_force(rule("core.bit", at_most="4 in"), "core.bit")
    gap = in_force(rule("core.gap", at_least="1/4 in"), "core.gap")

    assert compare.at_least(bit, 0.0).why == "no least is set"
    assert compare.at_most(gap, 9.0).why == "no greatest is set"
    assert compare.within(gap, 9.0).outcome is Outcome.MEETS


def test_what_is_not_known_does_not_apply_for_the_reason_given() -> None:
    stick = Yardstick(Kind.LENGTH, "in", least=1.0)

    assert compare.at_least(stick, None).why == "not measured"
    assert compare.at_least(stick, None, missing="nobody was there").why == "nobody was there"


def test_advice_never_fails() -> None:
    stick = Yardstick(Kind.LENGTH, "in", least=1.0)

    assert compare.at_least(stick, 0.5).outcome is Outcome.FAILS
    assert compare.at_least(stick, 0.5, advice=True).outcome is Outcome.ADVICE
    assert compare.at_least(stick, 1.5, advice=True).outcome is Outcome.MEETS


def test_what_is_spare_is_a_height() -> None:
    stick = Yardstick(Kind.SLOPE, "%", least=0.01)

    assert compare.at_least(stick, 0.0125, levelled=10.0).spare_m == pytest.approx(0.025)
    assert compare.at_least(stick, 0.0125).spare_m == float("inf")
    assert compare.at_least(stick, 0.005, levelled=10.0).spare_m == float("inf")


def test_physics_is_not_left_open_by_a_sheet() -> None:
    floor = Yardstick(Kind.LENGTH, "in", least=0.0, name="above the water")
    asked = in_force(rule("water.freeboard", ask="engineer"), "water.freeboard")
    none = in_force(rule("water.freeboard", no_rule=True), "water.freeboard")

    assert compare.at_least(asked, -1.0, floor=floor).outcome is Outcome.FAILS
    assert compare.at_least(asked, 1.0, floor=floor).outcome is Outcome.ASK
    assert compare.at_least(none, 1.0, floor=floor).outcome is Outcome.MEETS
    assert compare.at_least(asked, None, floor=floor).outcome is Outcome.PASSES_OVER


def test_a_word_left_out_fails_unless_it_may_be() -> None:
    grout = in_force(rule("restore.grout", one_of=["non-shrink grout"]), "restore.grout")

    assert compare.one_of(grout, None).outcome is Outcome.FAILS
    assert compare.one_of(grout, None, missing="the town's own").outcome is Outcome.PASSES_OVER
    assert compare.one_of(grout, "mortar", cure="use grout").cure == "use grout"


def test_a_kind_of_pipe_fits_by_what_it_says() -> None:
    pipe = in_force(rule("pipe.kind", one_of=["Sch 40 PVC"]), "pipe.kind")

    assert compare.one_of(pipe, "3 in sch 40 PVC").outcome is Outcome.FAILS
    assert compare.one_of(pipe, "3 in sch 40 PVC", fits=pipe_fits).outcome is Outcome.MEETS
    assert compare.one_of(pipe, "4 in SDR 35 PVC", fits=pipe_fits).outcome is Outcome.FAILS


def test_a_list_is_asked_for_once_however_many_layers_name_it() -> None:
    twice = """[[edition]]
key = "docs.photos"
[[edition.case]]
when = { outlet = "core" }
items = ["curb face", { name = "detail", number = "M-2", revision = "D" }]
cite = "book 1"
[[edition.case]]
items = ["curb face", "street"]
cite = "book 2"
"""
    found = list(
        compare.listed(in_force(twice, "docs.photos"), lambda one: one.name == "street", cure=str)
    )

    assert [(one.item, one.outcome) for one in found] == [
        ("curb face", Outcome.FAILS),
        ("detail M-2 rev D", Outcome.FAILS),
        ("street", Outcome.MEETS),
    ]


def test_a_number_without_a_revision_is_named_so() -> None:
    numbered = in_force(
        'docs.details = { items = [{ name = "plug", number = "H-2" }], cite = "book 1" }',
        "docs.details",
    )

    assert [compare.named(item) for item in numbered.items] == ["plug H-2"]


def test_a_day_that_cannot_be_reckoned_is_not_judged() -> None:
    review = in_force(rule("dates.review", span="5 days", clock="filing"), "dates.review")

    assert compare.on_or_after(review, DAY, None).outcome is Outcome.PASSES_OVER
    assert compare.on_or_before(review, None, DAY).outcome is Outcome.PASSES_OVER


def test_no_day_at_all_lies_in_the_closed_season() -> None:
    season = in_force(
        rule("dates.concrete_season", closed="11-15 to 03-31"), "dates.concrete_season"
    )

    finding = compare.in_season(season, [])

    assert finding.outcome is Outcome.MEETS
    assert finding.proposed_text() == "no day"


def test_a_closed_day_may_be_excused() -> None:
    season = in_force(
        rule("dates.concrete_season", closed="04-01 to 04-30"), "dates.concrete_season"
    )

    finding = compare.in_season(season, [DAY], excused="heated tent")

    assert finding.outcome is Outcome.MEETS
    assert finding.proposed_text() == "Mon Apr 27, 2026 is in the closed season; heated tent"


def test_a_season_that_ends_on_a_leap_day_is_read_in_any_year() -> None:
    season = in_force(rule("water.sump_season", open="03-01 to 02-29"), "water.sump_season")

    assert compare.in_months(season, range(1, 13), 2026).outcome is Outcome.MEETS
