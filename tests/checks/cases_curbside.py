"""Cases of the checks of the way the water is let go, at the curb and in the lawn."""

from __future__ import annotations

from builder import BARRED, CLEAN, EMITTER, GONE, NOTCH, case, limits, rule

from permitkit.model.verdict import Outcome

MEETS, FAILS, ADVICE, IDLE = Outcome.MEETS, Outcome.FAILS, Outcome.ADVICE, Outcome.PASSES_OVER

EDGE = {"of": "hole edge", "from_": "side line extended"}
DRIVE = {"of": "hole edge", "from_": "flare"}
INVERT = {"of": "invert", "from_": "flow line"}
RAMP = {"kind": "ramp", "near": "18 ft", "far": "23 ft"}
INLET = {"kind": "inlet", "near": "16 ft"}
TWO = {"outlet.count": 2, "outlet.spacing": "16 in"}
AGAIN = {"existing.0.plan": "reuse"}
NO_FLOW = {"feature+": RAMP, "street.gutter_flows": GONE}

OUTLET = [
    case("curb-outlet-barred", MEETS),
    case("curb-outlet-barred", FAILS, base=BARRED),
    case("curb-outlet-barred", FAILS, rules=rule("outlet.allowed", stance="barred")),
    case("curb-outlet-barred", MEETS, rules=rule("outlet.allowed", stance="exempt")),
    case("curb-outlet-barred", Outcome.ASK, rules=rule("outlet.allowed", ask="council")),
    case("better-outlet-not-tried", MEETS, base=EMITTER),
    case("better-outlet-not-tried", FAILS, {"outlet.passed_over.1": GONE}, base=EMITTER),
    case("better-outlet-not-tried", MEETS, rules=rule("outlet.order", order=["core", "emitter"])),
    case("better-outlet-not-tried", FAILS, rules=rule("outlet.order", order=["emitter", "notch"])),
    case(
        "better-outlet-not-tried",
        MEETS,
        rules=rule("outlet.order", order=["notch", "core"], reason_needed=False),
    ),
    case("outlet-wrong-for-curb", MEETS),
    case("outlet-wrong-for-curb", FAILS, {"curb.shape": "granite"}),
    case("outlet-wrong-for-curb", MEETS, base=NOTCH),
    case("outlet-wrong-for-curb", FAILS, {"curb.shape": "vertical"}, base=NOTCH),
    case("outlet-wrong-for-curb", IDLE, base=EMITTER),
    *limits(
        "outlet-too-low",
        "core.height",
        "at_least",
        meets=["0.854 in", "21.6916 mm"],
        fails=["0.855 in", "21.692 mm"],
        **INVERT,
    ),
    *limits(
        "outlet-too-high",
        "core.height",
        "at_most",
        meets=["0.854 in", "21.6916 mm"],
        fails=["0.853 in", "21.691 mm"],
        **INVERT,
    ),
    *(
        case("outlet-too-low", outcome, rules=rule("core.height", at_least=least, of=of, from_=at))
        for of, at, least, outcome in (
            ("hole bottom", "flow line", "3/8 in", MEETS),
            ("hole bottom", "flow line", "7/16 in", FAILS),
            ("hole centre", "flow line", "2 3/8 in", MEETS),
            ("hole centre", "flow line", "2 7/16 in", FAILS),
            ("hole top", "flow line", "4 3/8 in", MEETS),
            ("hole top", "flow line", "4 7/16 in", FAILS),
            ("pipe outside", "flow line", "5/8 in", MEETS),
            ("pipe outside", "flow line", "11/16 in", FAILS),
            ("hole bottom", "pavement", "3/8 in", MEETS),
        )
    ),
    case(
        "outlet-too-low",
        FAILS,
        {"gutter.overlay_lip": "1/4 in"},
        rule("core.height", at_least="1/4 in", of="hole bottom", from_="pavement"),
    ),
    *(
        case(slug, outcome, rules=rule("core.height", of="hole bottom", from_="curb top", **end))
        for slug, end, outcome in (
            ("outlet-too-low", {"at_most": "5 5/8 in"}, MEETS),
            ("outlet-too-low", {"at_most": "5 1/2 in"}, FAILS),
            ("outlet-too-high", {"at_least": "5 5/8 in"}, MEETS),
            ("outlet-too-high", {"at_least": "5 3/4 in"}, FAILS),
        )
    ),
    *(
        case(slug, outcome, rules=rule("notch.floor", **end), base=NOTCH)
        for slug, end, outcome in (
            ("outlet-too-low", {"at_least": "12.7 mm"}, MEETS),
            ("outlet-too-low", {"at_least": "13 mm"}, FAILS),
            ("outlet-too-high", {"at_most": "1/2 in"}, MEETS),
            ("outlet-too-high", {"at_most": "12.6 mm"}, FAILS),
        )
    ),
    *(
        case(slug, outcome, changes, rule("outlet.height", **end), base=base, item="leaves")
        for slug, end, changes, base, outcome in (
            ("outlet-too-high", {"at_most": "0.854 in"}, {}, CLEAN, MEETS),
            ("outlet-too-high", {"at_most": "0.853 in"}, {}, CLEAN, FAILS),
            ("outlet-too-low", {"at_least": "21.69 mm"}, {}, CLEAN, MEETS),
            (
                "outlet-too-low",
                {"at_least": "0.6 in"},
                {"gutter.overlay_lip": "1/4 in"},
                CLEAN,
                MEETS,
            ),
            (
                "outlet-too-low",
                {"at_least": "0.61 in"},
                {"gutter.overlay_lip": "1/4 in"},
                CLEAN,
                FAILS,
            ),
            ("outlet-too-high", {"at_most": "1/2 in"}, {}, NOTCH, MEETS),
            ("outlet-too-high", {"at_most": "12 mm"}, {}, NOTCH, FAILS),
        )
    ),
    case("outlet-count-wrong", MEETS, rules=rule("outlet.count", at_most=1)),
    case("outlet-count-wrong", FAILS, TWO, rule("outlet.count", at_most=1)),
    case("outlet-count-wrong", FAILS, rules=rule("outlet.count", at_least=2)),
    case(
        "outlet-count-wrong",
        FAILS,
        {"existing+": {"station": "40 ft", "size": "3 in", "plan": "keep"}},
        rule("outlet.count", at_most=1),
    ),
    *limits(
        "outlet-near-line",
        "outlet.to_line",
        "at_least",
        meets=["11 ft 10 in", "3606.8 mm"],
        fails=["11 ft 10 1/8 in", "3606.9 mm"],
        **EDGE,
    ),
    case(
        "outlet-near-line",
        MEETS,
        rules=rule("outlet.to_line", at_least="12 ft", **EDGE | {"of": "hole centre"}),
    ),
    case(
        "outlet-near-line",
        FAILS,
        rules=rule("outlet.to_line", at_least="12.01 ft", **EDGE | {"of": "hole centre"}),
    ),
    case(
        "outlet-near-line",
        MEETS,
        rules=rule("outlet.to_line", at_least="20 ft", **EDGE | {"of": "hole centre"}),
        base=NOTCH,
    ),
    *limits(
        "outlet-near-drive",
        "outlet.to_drive",
        "at_least",
        meets=["9 ft", "2743.2 mm"],
        fails=["9 ft 1/8 in", "2743.3 mm"],
        **DRIVE,
    ),
    case("outlet-near-ramp", IDLE),
    *limits(
        "outlet-near-ramp",
        "outlet.to_ramp",
        "at_least",
        changes={"feature+": RAMP},
        meets=["5 ft 10 in", "1778 mm"],
        fails=["5 ft 10 1/8 in", "1778.1 mm"],
        of="hole edge",
        from_="ramp flare",
    ),
    case("water-passes-ramp", ADVICE, {"feature+": RAMP}),
    case("water-passes-ramp", IDLE, NO_FLOW),
    case("water-passes-ramp", IDLE, {"feature+": RAMP, "street.gutter_flows": "left"}),
    case("water-passes-ramp", MEETS, {"feature": [RAMP, INLET]}),
    *limits(
        "outlet-near-inlet",
        "outlet.to_inlet",
        "at_most",
        changes={"feature+": INLET},
        meets=["3 ft 10 in", "1168.4 mm"],
        fails=["3 ft 9 7/8 in", "1168.3 mm"],
        of="hole edge",
        from_="inlet",
    ),
    *limits(
        "outlet-near-tree",
        "outlet.to_tree",
        "at_least",
        meets=["21 ft 5 1/2 in", "6540.5 mm"],
        fails=["21 ft 5 5/8 in", "6540.6 mm"],
        of="hole edge",
        from_="trunk",
    ),
    case("old-pipe-renewed", IDLE, base=EMITTER),
    case("old-pipe-renewed", IDLE, AGAIN, base=EMITTER),
    case("old-pipe-renewed", FAILS, AGAIN, rule("outlet.renewal", stance="barred"), base=EMITTER),
    case("old-pipe-renewed", MEETS, AGAIN, rule("outlet.renewal", stance="allowed"), base=EMITTER),
    case("old-hole-left-open", MEETS, base=EMITTER),
    case("old-hole-left-open", FAILS, {"existing.0.plan": "keep"}, base=EMITTER),
    case("old-hole-left-open", IDLE, {"existing.0": GONE}, base=EMITTER),
    case(
        "old-hole-left-open",
        IDLE,
        {"existing.0.plan": "keep", "existing.0.in_use": True},
        base=EMITTER,
    ),
    case(
        "old-hole-left-open",
        IDLE,
        {"existing.0.plan": "keep"},
        rule("outlet.plug_old", yes=False),
        base=EMITTER,
    ),
]

LAWN = [
    *limits(
        "emitter-near-street",
        "emitter.to_row",
        "at_least",
        base=EMITTER,
        item="right-of-way",
        meets=["12 ft", "3657.6 mm"],
        fails=["12 ft 1/8 in", "3657.7 mm"],
    ),
    *limits(
        "emitter-near-street",
        "emitter.to_walk",
        "at_least",
        base=EMITTER,
        item="the walk",
        meets=["13 ft"],
        fails=["13.01 ft"],
    ),
    *limits(
        "emitter-near-street",
        "emitter.to_curb",
        "at_least",
        base=EMITTER,
        changes={"site.row_line_offset": "1 ft"},
        item="the curb",
        meets=["24 ft 6 in", "7467.6 mm"],
        fails=["24 ft 7 in", "7.5 m"],
    ),
    *limits(
        "emitter-near-line",
        "emitter.to_line",
        "at_least",
        base=EMITTER,
        meets=["8 ft", "2438.4 mm"],
        fails=["8.01 ft", "2438.5 mm"],
    ),
    *limits(
        "emitter-near-house",
        "emitter.to_house",
        "at_least",
        base=EMITTER,
        meets=["20 ft", "6096 mm"],
        fails=["20.01 ft", "6097 mm"],
    ),
    *limits(
        "emitter-near-house",
        "emitter.to_house",
        "at_most",
        base=EMITTER,
        meets=["20 ft"],
        fails=["19.99 ft"],
    ),
    case("water-crosses-walk", IDLE, base=EMITTER),
    case("water-crosses-walk", FAILS, {"outlet.emitter.crosses_walk": True}, base=EMITTER),
    case(
        "water-crosses-walk",
        MEETS,
        {"outlet.emitter.crosses_walk": True},
        rule("emitter.over_walk", stance="allowed"),
        base=EMITTER,
    ),
    case("emitter-without-weep", MEETS, base=EMITTER),
    case("emitter-without-weep", FAILS, {"outlet.emitter.weep": GONE}, base=EMITTER, item="weep"),
    case("emitter-without-weep", FAILS, {"outlet.emitter.pit_depth": GONE}, base=EMITTER),
    case("emitter-without-weep", FAILS, {"outlet.emitter.pit_depth": "1 ft"}, base=EMITTER),
    case("emitter-without-weep", IDLE, base=CLEAN),
]

CASES = [*OUTLET, *LAWN]
