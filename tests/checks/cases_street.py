"""Cases of the checks of the street's gutter, and of the leaders."""

from __future__ import annotations

from builder import CLEAN, EMITTER, GONE, case, limits, rule

from permitkit.model.verdict import Outcome

MEETS, FAILS, IDLE = Outcome.MEETS, Outcome.FAILS, Outcome.PASSES_OVER
VERGE = "sorrel-flats-verge"

FLOW = {"gutter.flow": "0.6 cfs", "gutter.cross_slope": "2 %"}
ROUND = {"drain.inflow.0.leader": "2 in"}
FLAT = {"drain.inflow.0.leader": "2 in", "drain.inflow.0.leader_depth": "3 in"}

STREET = [
    case("gutter-spread-too-wide", IDLE, rules=rule("gutter.spread", at_most="6 ft")),
    case("gutter-spread-too-wide", IDLE, FLOW),
    *limits(
        "gutter-spread-too-wide",
        "gutter.spread",
        "at_most",
        changes=FLOW,
        meets=["6 ft 6 in", "2 m"],
        fails=["6 ft 5 in", "1950 mm"],
    ),
    case("gutter-deeper-than-taken", IDLE),
    case("gutter-deeper-than-taken", MEETS, FLOW),
    case("gutter-deeper-than-taken", MEETS, FLOW | {"gutter.depth_running": GONE}),
    case("gutter-deeper-than-taken", FAILS, FLOW | {"gutter.depth_running": "1 in"}),
    case("gutter-deeper-than-taken", FAILS, FLOW | {"gutter.depth_running": "25 mm"}),
    case(
        "gutter-deeper-than-taken",
        FAILS,
        FLOW,
        rule("gutter.depth", at_most="1 in"),
    ),
    case("gutter-deeper-than-taken", MEETS, FLOW, base=EMITTER),
]

LEADERS = [
    case("leader-too-small", IDLE),
    case("leader-too-small", MEETS, base=VERGE),
    case("leader-too-small", MEETS, ROUND, item="rear downspout"),
    case("leader-too-small", FAILS, ROUND | {"drain.inflow.0.leader": "1 in"}),
    case("leader-too-small", FAILS, ROUND | {"drain.inflow.0.leader": "25 mm"}),
    case("leader-too-small", MEETS, FLAT),
    case("leader-too-small", FAILS, FLAT | {"drain.inflow.0.area": "3000 sq ft"}),
    case(
        "leader-too-small",
        MEETS,
        FLAT | {"drain.inflow.0.area": "3000 sq ft", "drain.inflow.0.leaders": 3},
    ),
    *limits(
        "leader-too-small",
        "pipe.roof_per_square_inch",
        "at_most",
        base=CLEAN,
        changes=FLAT,
        item="a square inch",
        meets=["64 sq ft", "6 m2"],
        fails=["63 sq ft", "5.8 m2"],
    ),
]

CASES = [*STREET, *LEADERS]
