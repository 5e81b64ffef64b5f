"""A check explained: what it asks, why, what it reads, and how it came to its answer."""

from __future__ import annotations

import pytest
from builder import BARRED, CLEAN, FAULTY, NOTCH, job_of, sheets

from permitkit.checks.catalogue import CHECKS
from permitkit.checks.judge import Judged, judge
from permitkit.checks.why import explain_check
from permitkit.errors import Exit, UsageError
from permitkit.model.keys import KEYS


def judged(base: str) -> Judged:
    job = job_of(base, {})
    return judge(job, sheets(job))


def test_a_check_is_explained_without_a_job() -> None:
    assert explain_check("strip-too-thin").lines() == (
        "strip-too-thin: The strip over the hole is too thin",
        "  why: a thin strip breaks out under the first wheel, and the curb is lost.",
        f"  reads core.strip: {KEYS['core.strip'].question}",
    )


def test_a_check_that_reads_no_rule_says_what_it_stands_on() -> None:
    assert explain_check("core-below-gutter").lines()[-1] == (
        "  stands on: statics: water runs downhill"
    )


def test_for_a_job_each_rule_is_explained_as_it_was_read_for_each_item() -> None:
    lines = explain_check("run-too-flat", judged(FAULTY)).lines()

    assert lines.count("  fact place: right-of-way") == 1
    assert lines.count("  fact place: private") == 1
    assert "  fails: R to outlet, right-of-way" in lines
    assert any(line.split() == ["waivable", "by", "town", "engineer"] for line in lines)


def test_a_rule_that_tells_no_items_apart_is_explained_once_for_all_of_them() -> None:
    apart = explain_check("water-kind-barred", judged(FAULTY))
    alike = explain_check("cover-too-thin", judged(NOTCH))

    assert len(alike.verdicts) > 1
    assert [explanation.key.name for explanation in alike.explanations] == ["pipe.cover"]
    assert len(apart.explanations) == 2


def test_what_a_check_read_of_other_ways_is_explained_too() -> None:
    keys = [
        one.key.name for one in explain_check("curb-outlet-barred", judged(BARRED)).explanations
    ]

    assert keys[0] == "outlet.allowed"
    assert set(keys) <= {"outlet.allowed", "outlet.order"}


def test_the_advice_on_margins_is_explained_as_well() -> None:
    lines = explain_check("margin-thin", judged(FAULTY)).lines()

    assert "  advice: concrete over pipe thin, curb side edge of the walk" in lines


def test_every_check_can_be_explained_for_a_job() -> None:
    job = judged(CLEAN)

    whys = [explain_check(check.slug, job) for check in CHECKS]

    assert all(why.verdicts and why.lines() for why in whys)


def test_a_misspelt_check_is_told_with_the_nearest_names() -> None:
    with pytest.raises(UsageError) as raised:
        explain_check("strip-to-thin")

    assert raised.value.exit_code is Exit.USAGE
    assert "did you mean strip-too-thin" in str(raised.value)


def test_a_name_like_no_check_sends_the_reader_to_the_list() -> None:
    with pytest.raises(UsageError, match="list them"):
        explain_check("zzz")
