"""Words of a sheet that are matched to a job's: known ones are read, others are faults."""

from __future__ import annotations

from decimal import Decimal

import pytest
from sheet_text import RULE, faults, sheet

from permitkit.hydraulics.materials import PIPES
from permitkit.load.rule_lint import notes
from permitkit.model.telling import value_text
from permitkit.model.values import Cover, Insurance, Order
from permitkit.model.vocabulary.outlets import WAYS
from permitkit.model.vocabulary.papers import document_kind, policy_kind
from permitkit.model.vocabulary.pipes import PIPE_WORDS, marks, pipe_fits
from permitkit.model.words import STATED, OutletKind, choices
from permitkit.model.work import Restoration

CITED = ", cite = 'code 1' }"
SOLD = [pipe.name for pipe in PIPES.values()]


def value_of(key: str, text: str) -> object:
    """Return the value that a sheet's line states for a key."""
    return sheet(RULE + f"{key} = {{ {text}" + CITED).rules[key].editions[0].cases[0].value


def fitting(words: str) -> set[str]:
    """Return the keys of the pipes that words fit."""
    return {key for key, pipe in PIPES.items() if pipe_fits(words, pipe.name)}


# ---- the order of outlets


def test_an_order_takes_kinds_of_outlet_and_words_of_the_trade() -> None:
    steps = ["storm sewer", "curb", "back yard", "front or side yard", "dry well"]

    assert value_of("outlet.order", f"order = {steps}") == Order(tuple(steps))
    assert set(choices(OutletKind)) <= set(WAYS)


def test_a_word_of_an_order_that_is_none_of_them_is_a_fault_with_the_near_words() -> None:
    (found,) = faults(RULE + "outlet.order = { order = ['gutters', 'core']" + CITED)

    assert found.where.endswith("rule outlet.order.order")
    assert (found.found, found.fix) == ("'gutters'", "did you mean gutter or street gutter?")


def test_an_order_of_sheets_takes_the_parts_of_a_packet_alone() -> None:
    (found,) = faults(RULE + "packet.order = { order = ['scope', 'photos']" + CITED)

    assert found.found == "'photos'"


# ---- pipe


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        ("PVC ASTM D3034 SDR 35", {"4-sdr35", "6-sdr35"}),
        ("SDR-35", {"4-sdr35", "6-sdr35"}),
        ("PVC (ASTM D-3034)", {"4-sdr35", "6-sdr35"}),
        ("Schedule 40 PVC pipe", {"2-sch40", "3-sch40", "4-sch40", "6-sch40"}),
        ("4 in PVC", {"4-sch40", "4-sdr35", "4-d2729"}),
        ("corrugated polyethylene, single wall", {"3-hdpe", "4-hdpe", "6-hdpe"}),
        ("smooth-lined HDPE", {"4-hdpe-dual", "6-hdpe-dual"}),
        ("galvanized iron", {"tube-4x2", "tube-5x2", "tube-6x2"}),
        ("5 x 2 steel tube", {"tube-5x2"}),
        ("PVC C900", set()),
        ("smooth wall ABS", set()),
    ],
)
def test_words_for_pipe_fit_what_they_say(words: str, keys: set[str]) -> None:
    assert marks(words)
    assert fitting(words) == keys


def test_smooth_wall_pvc_is_every_pvc_pipe_and_no_corrugated_one() -> None:
    assert {PIPES[key].name for key in fitting("smooth wall PVC")} == {
        name for name in SOLD if "PVC" in name
    }


def test_every_pipe_that_is_sold_says_what_it_is_and_fits_its_own_name() -> None:
    assert all(pipe_fits(name, name) for name in SOLD)
    assert all(marks(word) for word in PIPE_WORDS)


@pytest.mark.parametrize("key", ["pipe.kind", "pipe.under_drive"])
def test_a_word_that_names_no_pipe_is_a_fault(key: str) -> None:
    (found,) = faults(RULE + f"{key} = {{ one_of = ['PVC', 'banana']" + CITED)

    assert found.found == "'banana'"
    assert "Sch 40 PVC" in found.expected


def test_two_kinds_joined_by_or_are_to_be_written_apart() -> None:
    (found,) = faults(RULE + "pipe.kind = { one_of = ['PVC or ABS']" + CITED)

    assert found.found == "'PVC or ABS'"


def test_pipe_that_no_job_can_name_is_noted_where_nothing_else_will_do() -> None:
    clay, either = (
        notes(sheet(RULE + f"pipe.kind = {{ one_of = ['clay', '{other}']" + CITED))
        for other in ("cast iron", "PVC")
    )

    assert [told.found for told in clay] == ["clay or cast iron: no pipe that a job can name"]
    assert either == ()


# ---- insurance


def test_a_cover_is_known_by_the_names_insurers_use() -> None:
    names = ["commercial general liability", "Worker's Compensation insurance", "auto liability"]

    assert [policy_kind(name) for name in names] == [
        "general liability",
        "workers compensation",
        "automobile",
    ]


def test_a_cover_that_no_job_can_hold_is_a_fault() -> None:
    (found,) = faults(RULE + "docs.insurance = { covers = [{ kind = 'banana', each = 5 }]" + CITED)

    assert found.where.endswith("covers[1].kind")


def test_a_cover_may_set_a_sum_in_all_or_for_the_project_and_none_for_each() -> None:
    text = "covers = [{ kind = 'general liability', aggregate = 2_000_000, project = 1_000_000 }]"

    found = value_of("docs.insurance", text)

    assert found == Insurance(
        (Cover("general liability", aggregate=Decimal(2_000_000), project=Decimal(1_000_000)),)
    )
    assert value_text(found) == (
        "general liability $2,000,000.00 in all or $1,000,000.00 for the project"
    )


def test_a_cover_without_any_sum_is_a_fault() -> None:
    (found,) = faults(RULE + "docs.insurance = { covers = [{ kind = 'umbrella' }]" + CITED)

    assert found.found == "no limit"


# ---- papers and the restoration


def test_a_paper_is_known_by_the_names_counters_use() -> None:
    names = ["signed application", "proof of insurance", "Owner's consent", "fee worksheet"]

    assert [document_kind(name) for name in names] == [
        "application form",
        "certificate of insurance",
        "owner consent",
        "",
    ]


def test_what_must_be_stated_of_the_restoration_is_what_a_job_may_leave_out() -> None:
    left_out = [name for name, it in Restoration.model_fields.items() if it.default is None]
    (found,) = faults(RULE + "restore.state = { items = ['paint']" + CITED)

    assert sorted(STATED) == sorted(name.replace("_", " ") for name in left_out)
    assert found.found == "'paint'"
