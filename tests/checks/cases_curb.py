"""The hole and the notch in the curb, their window, and what stands near them."""

from __future__ import annotations

from builder import EMITTER, GONE, NOTCH, case, limits, rule

from permitkit.model.verdict import Outcome

MEETS, FAILS, ADVICE, IDLE = Outcome.MEETS, Outcome.FAILS, Outcome.ADVICE, Outcome.PASSES_OVER

STRIP = {"of": "hole top", "from_": "curb top"}
TWO = {"outlet.count": 2, "outlet.spacing": "16 in"}
PLUMBER = rule("outlet.who_cuts", one_of=["licensed plumber"])

CASES = [
    *limits(
        "core-too-wide",
        "core.bit",
        "at_most",
        meets=["4 in", "101.6 mm"],
        fails=["3 15/16 in", "101.5 mm"],
    ),
    case("core-too-wide", MEETS, rules=rule("core.bit", sizes=["3 in", "101.6 mm"])),
    case("core-too-wide", FAILS, rules=rule("core.bit", sizes=["3 in", "5 in"])),
    case("no-bit-fits", MEETS),
    case("no-bit-fits", FAILS, {"curb.reveal": "4 3/4 in"}),
    *limits(
        "strip-too-thin",
        "core.strip",
        "at_least",
        meets=["1 5/8 in", "41.275 mm"],
        fails=["1 11/16 in", "41.3 mm"],
        **STRIP,
    ),
    case(
        "strip-too-thin",
        MEETS,
        rules=rule("core.strip", at_least="1.875 in", of="pipe outside", from_="curb top"),
        alone=True,
    ),
    case("core-below-gutter", MEETS, {"outlet.hole_bottom": "0 in"}),
    case("core-below-gutter", FAILS, {"outlet.hole_bottom": GONE, "outlet.invert": "0.4 in"}),
    *limits(
        "grout-gap-wrong",
        "core.gap",
        "at_least",
        meets=["1/4 in", "6.35 mm"],
        fails=["5/16 in", "6.4 mm"],
    ),
    *limits(
        "grout-gap-wrong",
        "core.gap",
        "at_most",
        meets=["1/4 in"],
        fails=["3/16 in"],
    ),
    case("curb-cut-by-others", IDLE),
    case("curb-cut-by-others", IDLE, rules=PLUMBER, base=EMITTER),
    case("curb-cut-by-others", FAILS, rules=PLUMBER),
    case("curb-cut-by-others", MEETS, {"cut.curb_by": "licensed plumber"}, PLUMBER),
    case("curb-cut-by-others", FAILS, rules=rule("outlet.who_cuts", one_of=["town"])),
    case("curb-cut-by-others", MEETS, rules=rule("outlet.who_cuts", one_of=["contractor"])),
    case("curb-cut-by-others", MEETS, rules=rule("outlet.who_cuts", one_of=["permit holder"])),
    *limits(
        "core-near-joint",
        "core.to_joint",
        "at_least",
        meets=["24 in", "609.6 mm"],
        fails=["24 1/8 in", "609.7 mm"],
        of="hole edge",
        from_="joint",
    ),
    case(
        "core-near-joint",
        MEETS,
        rules=rule("core.to_joint", at_least="26 in", of="hole centre", from_="joint"),
    ),
    case("core-near-joint", IDLE, {"curb.joint_left": GONE, "curb.joint_right": GONE}),
    case("cores-too-close", IDLE),
    *limits(
        "cores-too-close",
        "core.apart",
        "at_least",
        changes=TWO,
        meets=["12 in", "304.8 mm"],
        fails=["12 1/8 in", "304.9 mm"],
    ),
    case("bars-not-looked-for", MEETS),
    case("bars-not-looked-for", FAILS, {"curb.bars_looked_for": "no"}),
    case("bars-not-looked-for", Outcome.ASK, {"curb.bars_looked_for": "unknown"}),
    case(
        "bars-not-looked-for",
        ADVICE,
        {"curb.bars_looked_for": "no"},
        rule("core.bars", no_rule=True),
    ),
    case("bars-not-looked-for", MEETS, rules=rule("core.bars", no_rule=True)),
    case("barrel-hits-pan", IDLE),
    case("barrel-hits-pan", MEETS, {"outlet.drill_from": "street", "outlet.barrel_out": "6 in"}),
    case("barrel-hits-pan", ADVICE, {"outlet.drill_from": "street", "outlet.barrel_out": "14 in"}),
    *limits(
        "curb-wrong-height",
        "core.curb_exposure",
        "exactly",
        meets=["6 in", "152.4 mm"],
        fails=["5 15/16 in", "6 1/16 in", "152 mm"],
    ),
    *limits(
        "notch-too-wide",
        "notch.width",
        "at_most",
        base=NOTCH,
        meets=["5 in", "127 mm"],
        fails=["4 15/16 in", "126 mm"],
    ),
    case("notch-too-wide", FAILS, {"outlet.width": "6 in"}, base=NOTCH),
    case("notch-floor-below-gutter", MEETS, {"outlet.floor_toe": "0 in"}, base=NOTCH),
    case("notch-floor-below-gutter", MEETS, {"gutter.overlay_lip": "12.7 mm"}, base=NOTCH),
    case("notch-floor-below-gutter", FAILS, {"gutter.overlay_lip": "13 mm"}, base=NOTCH),
    *limits(
        "notch-floor-too-flat",
        "notch.slope",
        "at_least",
        base=NOTCH,
        meets=["2 %", "1:50", "20 mm/m"],
        fails=["2.01 %", "1:49"],
    ),
    case("notch-at-drive", IDLE, base=NOTCH),
    case("notch-at-drive", FAILS, {"outlet.at_drive": True}, base=NOTCH),
    case(
        "notch-at-drive",
        MEETS,
        {"outlet.at_drive": True},
        rule("notch.at_drive", stance="allowed"),
        base=NOTCH,
    ),
]
