"""Words of a sheet that are matched to a job's: known ones are read, others are faults."""

from __future__ import annotations

from decimal import Decimal

import pytest
from sheet_text import RULE, faults, sheet

from permitkit.hydraulics.materials import PIPES
from permitkit.load.rule_lint import notes
from permitkit.model.facts import FACTS
from permitkit.model.keys import KEYS
from permitkit.model.telling import value_text
from permitkit.model.values import Cover, Insurance, Order, Words
from permitkit.model.vocabulary.conditions import CALLED
from permitkit.model.vocabulary.outlets import WAYS, way_fits
from permitkit.model.vocabulary.papers import document_kind, policy_kind
from permitkit.model.vocabulary.pipes import PIPE_WORDS, marks, pipe_fits
from permitkit.model.vocabulary.trade import stands_for
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


def test_a_misspelt_word_of_an_order_is_a_fault_with_the_near_word() -> None:
    (found,) = faults(RULE + "outlet.order = { order = ['gutters', 'core']" + CITED)

    assert found.where.endswith("rule outlet.order.order")
    assert (found.found, found.fix) == ("'gutters'", "did you mean gutter?")


def test_a_way_of_the_towns_own_is_held_as_written_and_noted() -> None:
    own = sheet(RULE + "outlet.order = { order = ['the quarry', 'swale', 'Gutter']" + CITED)

    (told,) = notes(own)
    assert value_text(own.rules["outlet.order"].editions[0].cases[0].value) == (
        "the quarry, then swale, then gutter; a reason is due for each passed over"
    )
    assert told.found == "'the quarry', a word of the sheet's own"
    assert "the town is asked" in told.expected


@pytest.mark.parametrize("way", ["natural ditch", "yard inlet", "swale", "watercourse", "pond"])
def test_a_way_that_is_none_of_a_jobs_outlets_is_known(way: str) -> None:
    assert notes(sheet(RULE + f"outlet.order = {{ order = ['{way}', 'core']" + CITED)) == ()
    assert not any(way_fits(way, kind, None) for kind in choices(OutletKind))


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
def test_a_misspelt_pipe_is_a_fault_and_a_word_of_the_towns_own_a_note(key: str) -> None:
    (found,) = faults(RULE + f"{key} = {{ one_of = ['PVC', 'Sch 40 PCV']" + CITED)
    (told,) = notes(sheet(RULE + f"{key} = {{ one_of = ['PVC', 'as the engineer likes']" + CITED))

    assert (found.found, found.fix) == ("'Sch 40 PCV'", "did you mean Sch 40 PVC?")
    assert "the town is asked" in told.expected


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


def test_a_misspelt_cover_is_a_fault_and_one_of_the_towns_own_a_note() -> None:
    line = RULE + "docs.insurance = {{ covers = [{{ kind = '{}', each = 5 }}], cite = 'code 1' }}"

    (found,) = faults(line.format("umbrela"))
    (told,) = notes(sheet(line.format("railroad protective")))
    assert (found.where[-14:], found.fix) == ("covers[1].kind", "did you mean umbrella?")
    assert "which policy holds it" in told.expected


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


# ---- who, what curb, which security: words of the trade, and a town's own


@pytest.mark.parametrize(
    ("key", "word", "proposed", "fits"),
    [
        ("restore.by", "city", "town", True),
        ("outlet.who_cuts", "bonded contractor", "contractor", True),
        ("outlet.who_cuts", "county", "town", False),
        ("outlet.who_cuts", "the harbor master", "town", None),
        ("docs.security", "certified check", "certified cheque", True),
        ("core.curbs", "mountable", "rolled", True),
        ("core.curbs", "mountable", "vertical", False),
        ("walk.crossing", "jack and bore", "bored", True),
    ],
)
def test_a_word_of_the_trade_stands_for_a_word_of_a_job(
    key: str, word: str, proposed: str, *, fits: bool | None
) -> None:
    written = value_of(key, f"one_of = ['{word}']")

    assert written == Words((word,))
    assert stands_for(KEYS[key], word, proposed) is fits


# ---- what money and time are counted by


def test_a_unit_of_money_may_be_written_as_towns_do_or_be_the_towns_own() -> None:
    line = "line = [{{ name = 'a', rate = 2, per = '{}' }}]"
    written = sheet(RULE + f"fees.lines = {{ {line.format('truck')}" + CITED)

    (told,) = notes(written)
    assert value_text(value_of("fees.lines", line.format("square foot of sidewalk"))) == (
        "a: $2.00 per sq ft of walk"
    )
    assert told.found == "'truck', a word of the sheet's own"
    assert "[[counts.other]]" in told.expected


def test_a_time_may_be_counted_from_an_event_of_the_towns_own() -> None:
    text = "span = '10 days', clock = '{}'"
    own = sheet(RULE + f"dates.restore_by = {{ {text.format('leaf fall')}" + CITED)

    (told,) = notes(own)
    assert "no day is reckoned" in told.expected
    assert value_of("dates.restore_by", text.format("completion")) == value_of(
        "dates.restore_by", text.format("finish")
    )


# ---- facts by other names


@pytest.mark.parametrize(
    ("asked", "means"),
    [
        ("street_class = 'residential'", {"street_class": ("local",)}),
        (
            "pavement_surface = ['chip seal', 'slurry seal']",
            {"pavement_surface": ("surface treated",)},
        ),
        ("restored_by = 'city'", {"restored_by": ("town",)}),
        ("building_use = 'residential'", {"building_use": ("house", "multi-family")}),
        ("surface = 'tree lawn'", {"surface": ("verge",)}),
        ("water = 'downspout'", {"water": ("roof",)}),
        ("curb = 'mountable'", {"curb": ("sloping", "rolled")}),
    ],
)
def test_a_condition_takes_other_names_for_the_words_of_a_job(
    asked: str, means: dict[str, tuple[str, ...]]
) -> None:
    text = f"outlet.allowed = {{ stance = 'allowed', when = {{ {asked} }}"
    (case,) = sheet(RULE + text + CITED).rules["outlet.allowed"].editions[0].cases

    assert case.when is not None
    assert case.when.alternatives == (means,)


def test_a_table_of_money_takes_other_names_and_days_for_its_rows() -> None:
    named = "by = 'street_class', rows = { residential = { sum = 5 } }, otherwise = { sum = 9 }"
    dated = (
        "by = 'street_paved', rows = { 'before 2016-01-01' = { sum = 0 }, "
        "'from 2016-01-01' = { sum = 14 } }"
    )

    told = [
        value_text(value_of("fees.lines", f"line = [{{ name = 'a', {by} }}]"))
        for by in (named, dated)
    ]
    assert told == [
        "a: by the class of street: local $5.00, otherwise $9.00",
        (
            "a: by the day the street was last paved: before 2016-01-01 $0.00, "
            "on or after 2016-01-01 $14.00"
        ),
    ]


def test_every_other_name_of_a_fact_stands_for_words_of_that_fact() -> None:
    for name, called in CALLED.items():
        assert {one for words in called.values() for one in words} <= set(FACTS[name].words)
