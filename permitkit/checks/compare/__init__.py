"""The comparators: what a job proposes held against what is in force.

They alone know the honest answers, waivers, margins and print, so that checks need not.
"""

from __future__ import annotations

from permitkit.checks.compare.answers import asked, holds, honest, passes_over
from permitkit.checks.compare.days import (
    in_hours,
    in_months,
    in_season,
    in_time,
    lasts,
    not_sooner,
    on_or_after,
    on_or_before,
    past,
)
from permitkit.checks.compare.inspections import planned
from permitkit.checks.compare.limits import (
    at_least,
    at_most,
    measured_from,
    part_measured,
    within,
)
from permitkit.checks.compare.sums import (
    adds_up,
    covered,
    held_for,
    longest,
    names_line,
    open_sums,
    pays,
)
from permitkit.checks.compare.words import (
    far_enough,
    in_order,
    listed,
    named,
    one_of,
    present,
    stance,
)
from permitkit.checks.scale import Yardstick, rounded_up

__all__ = [
    "Yardstick",
    "adds_up",
    "asked",
    "at_least",
    "at_most",
    "covered",
    "far_enough",
    "held_for",
    "holds",
    "honest",
    "in_hours",
    "in_months",
    "in_order",
    "in_season",
    "in_time",
    "lasts",
    "listed",
    "longest",
    "measured_from",
    "named",
    "names_line",
    "not_sooner",
    "on_or_after",
    "on_or_before",
    "one_of",
    "open_sums",
    "part_measured",
    "passes_over",
    "past",
    "pays",
    "planned",
    "present",
    "rounded_up",
    "stance",
    "within",
]
