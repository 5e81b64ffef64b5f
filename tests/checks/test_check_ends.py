"""A limit that is exact, or a range, is judged at both ends, each with its own cure."""

from __future__ import annotations

import pytest
from builder import CLEAN, EMITTER, fitted, rule

from permitkit.checks.catalogue import CHECKS
from permitkit.model.verdict import Outcome

EDGE = {"of": "hole edge", "from_": "side line extended"}
STRIP = {"of": "hole top", "from_": "curb top"}
TITLES = {check.slug: (check.title, check.beyond) for check in CHECKS}

EXACT = {
    "outlet-near-line": (CLEAN, "outlet.to_line", EDGE, "away from", "nearer to"),
    "emitter-near-line": (EMITTER, "emitter.to_line", {}, "away from", "nearer to"),
    "emitter-near-house": (EMITTER, "emitter.to_house", {}, "farther from", "nearer to"),
    "slab-too-thin": (CLEAN, "walk.thickness", {}, "thicker", "thinner"),
    "saw-cut-too-shallow": (CLEAN, "walk.saw_depth", {}, "deeper", "less deep"),
    "run-too-flat": (CLEAN, "pipe.slope", {}, "raise", "flatter"),
    "cross-slope-too-steep": (CLEAN, "access.cross_slope", {}, "steeper", "flatter"),
}
AT_AND_ROUND = ("11 ft 9 in", "11 ft 10 in", "11 ft 11 in")
SLOPES = {"run-too-flat", "cross-slope-too-steep"}


def verdict(slug: str, **ends: str) -> tuple[Outcome, str, str, str]:
    base, key, datum, *_ = EXACT[slug]
    found = fitted(base, rules=rule(key, **ends, **datum), alone=True).verdicts(slug)[0]
    return found.outcome, found.title, found.limit, found.cure


@pytest.mark.parametrize("slug", EXACT)
def test_what_falls_short_of_an_exact_limit_is_cured_upward(slug: str) -> None:
    far = "90 %" if slug in SLOPES else "900 ft"

    outcome, title, limit, cure = verdict(slug, exactly=far)

    own, beyond = TITLES[slug]
    turned = slug == "cross-slope-too-steep"
    assert (outcome, title) == (Outcome.FAILS, beyond if turned and beyond else own)
    assert limit.startswith("exactly ")
    assert EXACT[slug][3] in cure


@pytest.mark.parametrize("slug", EXACT)
def test_what_goes_beyond_an_exact_limit_is_cured_downward(slug: str) -> None:
    near = "0.01 %" if slug in SLOPES else "1/8 in"

    outcome, title, limit, cure = verdict(slug, exactly=near)

    own, beyond = TITLES[slug]
    turned = slug != "cross-slope-too-steep"
    assert (outcome, title) == (Outcome.FAILS, beyond if turned and beyond else own)
    assert limit.startswith("exactly ")
    assert EXACT[slug][4] in cure


def test_an_exact_limit_is_met_by_equality_alone() -> None:
    found = [
        fitted(rules=rule("outlet.to_line", exactly=exact, **EDGE)).worst("outlet-near-line")
        for exact in AT_AND_ROUND
    ]

    assert [v.outcome for v in found] == [Outcome.FAILS, Outcome.MEETS, Outcome.FAILS]
    assert found[0].cure != found[2].cure


def test_a_range_is_judged_at_the_end_its_check_is_not_named_for() -> None:
    rules = rule("walk.thickness", at_least="2 in", at_most="3 in")

    found = fitted(rules=rules).worst("slab-too-thin")

    assert (found.outcome, found.title) == (Outcome.FAILS, "The new slab is too thick")
    assert found.limit == "2 in to 3 in"
    assert found.cure.endswith("thinner")


def test_a_strip_of_an_exact_height_names_the_window() -> None:
    found = fitted(rules=rule("core.strip", exactly="1/4 in", **STRIP)).worst("strip-too-thin")

    assert found.title == "The strip over the hole is too thick"
    assert "hole bottom" in found.cure


@pytest.mark.parametrize(
    ("rules", "cure"),
    [
        (rule("core.bit", exactly="3 in"), "the town takes no 4 in hole"),
        (rule("core.strip", at_least="5 in", **STRIP), "no 4 in hole fits a"),
    ],
)
def test_the_cure_for_a_hole_blames_the_town_or_the_curb(rules: str, cure: str) -> None:
    found = fitted(rules=rules).worst("no-bit-fits")

    assert found.cure.startswith(cure)
