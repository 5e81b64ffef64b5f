"""Cases of the checks of the pipe run and of the water."""

from __future__ import annotations

from builder import EMITTER, FAULTY, GONE, NOTCH, case, limits, rule

from permitkit.model.verdict import Outcome

MEETS, FAILS, ADVICE, IDLE = Outcome.MEETS, Outcome.FAILS, Outcome.ADVICE, Outcome.PASSES_OVER
ASK = Outcome.ASK

UPPER = "N2 to N1"
NEAR_THE_HOUSE = """[[edition]]
key = "pipe.kind"
[[edition.case]]
when = { house_distance = { up_to = "10 ft" } }
one_of = ["steel tube"]
cite = "book 1"
[[edition.case]]
one_of = ["3 in Sch 40 PVC"]
cite = "book 1"
"""


def near(distance: str) -> dict[str, object]:
    """Return how near the house the upper reach comes."""
    return {"drain.reach.0.house_distance": distance}


DRIVE = {"drain.reach.0.surface": "drive"}
CLEANOUT_AT_WALK = {
    "drain.node.1.cleanout": True,
    "drain.node.1.sealed": True,
    "drain.node.1.opening": GONE,
    "drain.node.1.opening_kind": GONE,
}
FOUR_UP = {"drain.reach.0.pipe": "4 in Sch 40 PVC"}
PUMP = "drain.inflow.2.pump"
FOOTING = {"rate": "5 gpm", "lift": "8 ft", "air_gap": "yes", "check_valve": "yes"}
PUMP_ALONE = {
    "drain.inflow": [{"name": "footing", "node": "N1", "kind": "footing", "pump": FOOTING}]
}

RUN = [
    *limits(
        "run-too-flat",
        "pipe.slope",
        "at_least",
        item=UPPER,
        meets=["1.04 %", "10.4 mm/m"],
        fails=["1.041 %", "1/8 in/ft"],
    ),
    case("run-too-flat", FAILS, base=FAULTY),
    case("run-too-flat", ASK, rules=rule("pipe.slope", ask="town engineer")),
    case("run-falls-backward", MEETS),
    case("run-falls-backward", MEETS, {"drain.node.0.invert": "100.00 ft"}, item=UPPER),
    case("run-falls-backward", FAILS, {"drain.node.0.invert": "99.99 ft"}, item=UPPER),
    case("run-falls-backward", FAILS, {"drain.node.0.invert": "30.477 m"}, item=UPPER),
    case("run-falls-backward", FAILS, base=FAULTY),
    case("fall-and-slope-disagree", IDLE),
    case("fall-and-slope-disagree", MEETS, {"drain.reach.0.slope_stated": "1.04 %"}),
    case("fall-and-slope-disagree", MEETS, {"drain.reach.0.slope_stated": "1/8 in/ft"}),
    case("fall-and-slope-disagree", FAILS, {"drain.reach.0.slope_stated": "1/4 in/ft"}),
    case("fall-and-slope-disagree", FAILS, {"drain.reach.0.slope_stated": "1:80"}),
    case("level-does-not-close", MEETS),
    case("level-does-not-close", MEETS, {"level.setup.0.closing": "4 ft 2.525 in"}),
    case("level-does-not-close", FAILS, {"level.setup.0.closing": "4.22 ft"}),
    case("level-does-not-close", FAILS, {"level.setup.0.closing": "1.276 m"}),
    case("level-does-not-close", IDLE, {"level.setup.0.closing": GONE}),
    case("level-does-not-close", IDLE, base=NOTCH),
    *limits(
        "cleanout-missing",
        "pipe.cleanout_spacing",
        "at_most",
        item="longest",
        meets=["66 ft 6 in", "20269.2 mm"],
        fails=["66 ft", "20269 mm"],
    ),
    case(
        "cleanout-missing",
        MEETS,
        CLEANOUT_AT_WALK,
        rule("pipe.cleanout_spacing", at_most="41 ft 6 in"),
        item="longest",
    ),
    case("cleanout-missing", MEETS, rules=rule("pipe.cleanout_at_walk", yes=True)),
    case(
        "cleanout-missing",
        FAILS,
        {"drain.node.0.cleanout": False},
        rule("pipe.cleanout_at_walk", yes=True),
    ),
    case("pipe-kind-barred", MEETS),
    case("pipe-kind-barred", ASK, rules=NEAR_THE_HOUSE, item=UPPER),
    case("pipe-kind-barred", MEETS, near("10 ft 1 in"), NEAR_THE_HOUSE, item=UPPER),
    case("pipe-kind-barred", FAILS, near("10 ft"), NEAR_THE_HOUSE, item=UPPER),
    case("pipe-kind-barred", FAILS, base=FAULTY),
    case("pipe-kind-barred", MEETS, {"drain.reach.0.pipe": "4 in SDR 35 PVC"}, item=UPPER),
    case("pipe-kind-barred", MEETS, base=NOTCH),
    case("pipe-kind-barred", FAILS, rules=rule("pipe.kind", one_of=["steel tube"]), base=NOTCH),
    case("pipe-kind-barred", MEETS, rules=rule("pipe.kind", one_of=["3 in Sch 40 PVC"])),
    *limits(
        "pipe-too-small",
        "pipe.size",
        "at_least",
        meets=["3 in", "76.2 mm"],
        fails=["3 1/2 in", "77 mm"],
    ),
    case("pipe-too-small", FAILS, rules=rule("pipe.size", exactly="4 in")),
    case("pipe-too-small", MEETS, rules=rule("pipe.size", at_least="3 in"), base=NOTCH),
    case("bore-shrinks", IDLE),
    case("bore-shrinks", FAILS, FOUR_UP),
    case("bore-shrinks", MEETS, FOUR_UP, rule("pipe.shrinks", stance="allowed")),
    *limits(
        "cover-too-thin",
        "pipe.cover",
        "at_least",
        item="lawn, private",
        meets=["5.609 in", "142.4686 mm"],
        fails=["5.61 in", "143 mm"],
    ),
    case("cover-too-thin", IDLE, item="lawn, private"),
    case("thin-pipe-under-drive", IDLE),
    case("thin-pipe-under-drive", MEETS, DRIVE),
    case("thin-pipe-under-drive", FAILS, DRIVE | {"drain.reach.0.pipe": "4 in SDR 35 PVC"}),
    case("utility-in-the-way", MEETS),
    case("utility-in-the-way", ADVICE, {"utility.0.depth": "20 in"}, item="communication"),
    case("utility-in-the-way", FAILS, {"utility.0.depth": "4 in"}, item="communication"),
    case("utility-in-the-way", ASK, {"utility.0.depth": GONE}, item="communication"),
    case("utility-in-the-way", IDLE, {"utility": []}),
    case("utility-in-the-way", IDLE, base=EMITTER),
    case("utility-in-the-way", MEETS, {"utility.0.at": "38 ft"}, base=EMITTER, item="gas"),
    case("utility-in-the-way", MEETS, {"utility.0.at": "66 ft 6 in"}, item="communication"),
    *limits(
        "utility-in-the-way",
        "utility.tolerance",
        "at_least",
        item="gas",
        bad=ADVICE,
        meets=["29 in", "736 mm"],
        fails=["30 in", "762 mm"],
    ),
]

WATER = [
    case("water-kind-barred", MEETS),
    case("water-kind-barred", FAILS, {"drain.inflow.0.kind": "pool"}, item="pool"),
    case("water-kind-barred", MEETS, base=NOTCH),
    case("water-kind-barred", ASK, {"answer": []}, base=NOTCH, item="sump"),
    case("sump-in-closed-months", MEETS),
    case("sump-in-closed-months", FAILS, {f"{PUMP}.winter_route": GONE}),
    case(
        "sump-in-closed-months",
        MEETS,
        {f"{PUMP}.winter_route": GONE, f"{PUMP}.months": [4, 5, 6, 7, 8, 9, 10]},
    ),
    case(
        "sump-in-closed-months",
        FAILS,
        {f"{PUMP}.winter_route": GONE, f"{PUMP}.months": [10, 11]},
    ),
    case(
        "sump-in-closed-months",
        FAILS,
        {f"{PUMP}.winter_route": GONE, f"{PUMP}.months": [7]},
        rule("water.sump_season", closed="07-10 to 07-20"),
    ),
    case("sump-in-closed-months", IDLE, base=EMITTER),
    case("sump-in-closed-months", IDLE, rules=rule("water.sump_season", no_rule=True)),
    case("rain-basis-missing", MEETS),
    case("rain-basis-missing", ASK, rules=rule("water.rain", ask="town engineer")),
    case("rain-basis-missing", ASK, rules=rule("water.rain", no_rule=True)),
    case(
        "rain-basis-missing",
        FAILS,
        {"rain.intensity": "4 in/hr"},
        rules=rule("water.rain", ask="town engineer"),
    ),
    case(
        "rain-basis-missing",
        MEETS,
        {
            "rain.intensity": "4 in/hr",
            "rain.period": "10-year",
            "rain.duration": "5 min",
            "rain.source": "a printed table",
        },
        rules=rule("water.rain", ask="town engineer"),
    ),
    case("rain-basis-missing", IDLE, PUMP_ALONE),
    case("run-overloaded", MEETS),
    case("run-overloaded", FAILS, base=FAULTY),
    case("run-overloaded", FAILS, {"drain.inflow.0.area": "1200 sq ft"}, item=UPPER),
    case("run-overloaded", FAILS, {"drain.inflow.0.area": "112 m2"}, item=UPPER),
    *limits(
        "velocity-low",
        "water.velocity",
        "at_least",
        bad=ADVICE,
        meets=["2 ft/s", "0.66 m/s"],
        fails=["2.2 ft/s", "0.67 m/s"],
    ),
    case("line-holds-water", MEETS),
    case("line-holds-water", FAILS, base=FAULTY),
    case("line-holds-water", IDLE, base=EMITTER),
    case("pump-without-air-gap", MEETS),
    case("pump-without-air-gap", FAILS, base=FAULTY),
    case("pump-without-air-gap", FAILS, {f"{PUMP}.check_valve": "no"}, item="check valve"),
    case("pump-without-air-gap", ASK, {f"{PUMP}.air_gap": "unknown"}, item="air gap"),
    *limits(
        "water-rises-above-opening",
        "water.freeboard",
        "at_least",
        meets=["10 in", "250 mm"],
        fails=["11 in", "280 mm"],
    ),
    case("water-rises-above-opening", FAILS, base=FAULTY),
    case("water-rises-above-opening", MEETS, rules=rule("water.freeboard", no_rule=True)),
    case("water-rises-above-opening", ASK, rules=rule("water.freeboard", ask="town engineer")),
    case(
        "water-rises-above-opening",
        FAILS,
        rules=rule("water.freeboard", ask="town engineer"),
        base=FAULTY,
    ),
    case("street-runs-back", MEETS),
    case("street-runs-back", MEETS, {"drain.node.1.opening": "100.00 ft"}),
    case("street-runs-back", FAILS, {"drain.node.1.opening": "99.99 ft"}),
    case("street-runs-back", FAILS, {"drain.node.1.opening": "30.47 m"}),
    case("gutter-covers-outlet", MEETS),
    case("gutter-covers-outlet", ADVICE, {"gutter.depth_running": "4 in"}),
    case("gutter-covers-outlet", MEETS, {"gutter.depth_running": "98.9 mm"}),
    case("gutter-covers-outlet", ADVICE, {"gutter.depth_running": "99 mm"}),
    case("gutter-covers-outlet", IDLE, base=EMITTER),
    *limits(
        "gutter-too-flat",
        "gutter.slope",
        "at_least",
        meets=["0.6 %", "6 mm/m"],
        fails=["0.61 %", "1:160"],
    ),
    case("gutter-too-flat", IDLE, {"street.grade": GONE}, rule("gutter.slope", at_least="1 %")),
    case("gutter-too-flat", IDLE, base=EMITTER),
]

CASES = [*RUN, *WATER]
