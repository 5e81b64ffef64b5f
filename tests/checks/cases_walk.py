"""Cases of the checks of the walk, of access, of traffic and of restoration."""

from __future__ import annotations

from datetime import date

from builder import EMITTER, FAULTY, GONE, NOTCH, case, limits, rule

from permitkit.model.verdict import Outcome

MEETS, FAILS, ADVICE, IDLE = Outcome.MEETS, Outcome.FAILS, Outcome.ADVICE, Outcome.PASSES_OVER
ASK = Outcome.ASK

OVER_PIPE = {"of": "pipe outside", "from_": "walk surface"}
BORED = {"cut.crossing": "bored"}
RAISED = {
    "walk.level_curb_side": "100.50 ft",
    "walk.level_house_side": "100.50 ft",
    "ground.1.level": "100.50 ft",
    "ground.2.level": "100.50 ft",
}
OPEN = {"traffic.walk_closed": False, "traffic.walk_closed_days": 0, "traffic.way_round": GONE}
UNDER_TREE = {"feature.2.near": "16 ft", "feature.2.drip_line": "5 ft"}
FILED = date(2026, 4, 6)
SPLIT = {"traffic.hours_from": "09:00", "traffic.hours_to": "15:30"}
SPLIT_HOURS = rule("traffic.hours", hours=["09:00-11:00", "13:00-15:30"])


def week(thursday: str) -> str:
    """Return hours of work that are others on a Thursday."""
    parts = (
        f'{{ days = "Mon-Wed", hours = "07:00-19:00" }}, {{ days = "Thu", hours = "{thursday}" }}'
    )
    return f'traffic.hours = {{ week = [{parts}], cite = "book 1" }}\n'


OURS = {"key": "authority", "value": {"is": "town"}, "who": "A", "how": "told", "on": FILED}
PART = 'between = ["Heron Street", "Mill Lane", "Weir Street"], '


def listed(street: str, part: str, *, holds: str = "false") -> str:
    """Return a list of one street, or a part of it, that is the county's."""
    whose = f'{{ authority = "Tarn County", {part}holds = {holds} }}'
    return f'[sheet.listed_streets]\n"{street}" = {whose}\n'


IN_PART = listed("Tern Lane", PART)

WALK = [
    case("panel-left-part", MEETS),
    case("panel-left-part", FAILS, base=FAULTY),
    case("panel-left-part", MEETS, {"cut.removal": "part panel"}),
    case("panel-left-part", MEETS, base=NOTCH),
    case("panel-left-part", IDLE, base=EMITTER),
    *limits(
        "piece-left-too-short",
        "walk.piece_left",
        "at_least",
        base=NOTCH,
        meets=["42 in", "1066.8 mm"],
        fails=["42 1/8 in", "1.07 m"],
    ),
    case("piece-left-too-short", IDLE),
    *limits(
        "slab-too-thin",
        "walk.thickness",
        "at_least",
        meets=["4 in", "101.6 mm"],
        fails=["4 1/8 in", "102 mm"],
    ),
    case("slab-too-thin", ADVICE, {"walk.thickness": "5 in"}, item="old slab"),
    case("slab-too-thin", MEETS, item="old slab"),
    case(
        "slab-too-thin",
        FAILS,
        {"walk.thickness": "5 in"},
        rule("walk.as_removed", yes=True),
        item="old slab",
    ),
    case(
        "slab-too-thin",
        ADVICE,
        {"walk.thickness": "5 in"},
        rule("walk.as_removed", yes=False),
        item="old slab",
    ),
    *limits(
        "walk-too-narrow",
        "walk.width",
        "at_least",
        meets=["5 ft", "1524 mm"],
        fails=["5 ft 1/8 in", "1525 mm"],
    ),
    case("slab-too-thin", IDLE, {"restoration.thickness": GONE}),
    *limits(
        "base-too-thin",
        "walk.base",
        "at_least",
        meets=["4 in", "101.6 mm"],
        fails=["4 1/8 in", "102 mm"],
    ),
    *limits(
        "concrete-too-weak",
        "walk.strength",
        "at_least",
        meets=["3,500 psi", "24.131 MPa"],
        fails=["3,501 psi", "24.14 MPa"],
    ),
    case("concrete-too-weak", MEETS, rules=rule("walk.strength_age", span="4 weeks")),
    case("concrete-too-weak", FAILS, rules=rule("walk.strength_age", span="27 days")),
    case("concrete-too-weak", MEETS, {"restoration.strength_days": GONE}),
    *limits(
        "saw-cut-too-shallow",
        "walk.saw_depth",
        "at_least",
        meets=["4 in", "101.6 mm"],
        fails=["4 1/16 in", "102 mm"],
    ),
    case("pipe-in-slab", MEETS),
    case("pipe-in-slab", FAILS, rules=rule("walk.pipe_in_slab", stance="barred")),
    case("pipe-in-slab", IDLE, RAISED),
    *limits(
        "concrete-over-pipe-thin",
        "walk.over_pipe",
        "at_least",
        meets=["2.38 in", "60 mm"],
        fails=["2.40 in", "61 mm"],
        **OVER_PIPE,
    ),
    case("bore-would-break-slab", IDLE),
    case("bore-would-break-slab", FAILS, BORED),
    case(
        "bore-would-break-slab",
        MEETS,
        BORED | RAISED,
    ),
    case("tunnel-barred", MEETS),
    case("tunnel-barred", FAILS, BORED),
    case("tunnel-barred", IDLE, base=EMITTER),
]

ACCESS = [
    case("cross-slope-too-steep", MEETS),
    case("cross-slope-too-steep", MEETS, {"restoration.cross_slope": "1:48"}),
    case("cross-slope-too-steep", FAILS, {"restoration.cross_slope": "1:47"}),
    case("cross-slope-too-steep", FAILS, {"restoration.cross_slope": "2.09 %"}),
    case("cross-slope-too-steep", MEETS, {"restoration.cross_slope": "-1/4 in/ft"}),
    case("cross-slope-too-steep", FAILS, {"restoration.cross_slope": "-3 %"}),
    case("cross-slope-too-steep", MEETS, {"restoration.cross_slope": GONE}),
    *limits(
        "cross-slope-too-steep",
        "access.cross_slope",
        "at_most",
        meets=["1/4 in/ft", "1:48"],
        fails=["2 %", "1:50"],
    ),
    case("running-slope-too-steep", MEETS),
    case("running-slope-too-steep", MEETS, {"restoration.running_slope": "5 %"}),
    case("running-slope-too-steep", FAILS, {"restoration.running_slope": "5.01 %"}),
    case("running-slope-too-steep", FAILS, {"restoration.running_slope": "1:19"}),
    case(
        "running-slope-too-steep",
        MEETS,
        {"restoration.running_slope": "7 %", "street.grade": "7 %"},
    ),
    case(
        "running-slope-too-steep",
        FAILS,
        {"restoration.running_slope": "7 %", "street.grade": "6.9 %"},
    ),
    case(
        "running-slope-too-steep",
        IDLE,
        {"restoration.running_slope": GONE, "walk.running_slope": GONE},
    ),
    case("panel-cannot-meet-both", MEETS),
    case(
        "panel-cannot-meet-both",
        FAILS,
        {"walk.cross_slope_left": "3.5 %", "walk.cross_slope_right": "3.5 %"},
    ),
    case(
        "panel-cannot-meet-both",
        IDLE,
        {"walk.cross_slope_left": GONE, "walk.cross_slope_right": GONE},
    ),
    case("lip-too-high", MEETS, {"restoration.lip": "1/4 in"}),
    case("lip-too-high", FAILS, {"restoration.lip": "5/16 in"}),
    case("lip-too-high", MEETS, {"restoration.lip": "6.35 mm"}),
    case("lip-too-high", FAILS, {"restoration.lip": "7 mm"}),
    case("lip-too-high", MEETS, {"restoration.lip": "1/2 in", "restoration.lip_bevelled": True}),
    case("lip-too-high", FAILS, {"restoration.lip": "9/16 in", "restoration.lip_bevelled": True}),
    case("lip-too-high", IDLE, {"restoration.lip": GONE}),
    case("opening-too-wide", MEETS, {"outlet.plate_gap": "1/2 in"}, base=NOTCH),
    case("opening-too-wide", FAILS, {"outlet.plate_gap": "9/16 in"}, base=NOTCH),
    case("opening-too-wide", FAILS, {"outlet.plate_gap": "13 mm"}, base=NOTCH),
    case("opening-too-wide", IDLE),
    case("cut-touches-ramp", IDLE),
    case("cut-touches-ramp", ASK, {"cut.touches_ramp": True}),
    case(
        "cut-touches-ramp",
        FAILS,
        {"cut.touches_ramp": True},
        rule("access.ramp_cut", stance="barred"),
    ),
    case(
        "cut-touches-ramp",
        MEETS,
        {"cut.touches_ramp": True},
        rule("access.ramp_cut", stance="allowed"),
    ),
    case("way-round-too-narrow", MEETS, {"traffic.way_round.width": "48 in"}),
    case("way-round-too-narrow", FAILS, {"traffic.way_round.width": "47 7/8 in"}),
    case("way-round-too-narrow", MEETS, {"traffic.way_round.width": "1219.2 mm"}),
    case("way-round-too-narrow", FAILS, {"traffic.way_round.width": "1219 mm"}),
    case("way-round-too-narrow", IDLE, OPEN),
    case("walk-closed-no-way-round", MEETS),
    case("walk-closed-no-way-round", FAILS, {"traffic.way_round.detectable": False}),
    case("walk-closed-no-way-round", FAILS, {"traffic.way_round": GONE}),
    case("walk-closed-no-way-round", IDLE, OPEN),
]

TRAFFIC = [
    case("street-of-another", IDLE),
    case("street-of-another", FAILS, rules=listed("Tern Ln", "")),
    case("street-of-another", MEETS, rules=listed("Tarn Road", "")),
    case("street-of-another", IDLE, rules=listed("Tern Lane", "", holds="true")),
    case("street-of-another", ASK, rules=listed("Tern Lane", 'part = "the upper end", ')),
    case("street-of-another", ASK, rules=listed("Tern Lane", PART)),
    case("street-of-another", FAILS, {"street.between": ["Weir St.", "Mill Lane"]}, IN_PART),
    case("street-of-another", MEETS, {"street.between": ["Mill Lane", "Quay"]}, IN_PART),
    case("street-of-another", FAILS, {"street.authority": "Tarn County"}, IN_PART),
    case("street-of-another", MEETS, {"street.authority": "Port of Tarn"}, IN_PART),
    case("street-of-another", MEETS, {"answer+": OURS}, listed("Tern Lane", "")),
    case("layout-missing", MEETS),
    case("layout-missing", FAILS, {"traffic.layout": "TA-10"}),
    case("layout-missing", FAILS, {"traffic.layout": GONE}),
    case("layout-missing", IDLE, base=EMITTER),
    case("lane-left-too-narrow", MEETS, {"traffic.lane_left": "10 ft"}),
    case("lane-left-too-narrow", FAILS, {"traffic.lane_left": "9 ft 11 in"}),
    case("lane-left-too-narrow", MEETS, {"traffic.lane_left": "3048 mm"}),
    case("lane-left-too-narrow", FAILS, {"traffic.lane_left": "3.04 m"}),
    case("lane-left-too-narrow", MEETS, {"traffic.lane_left": GONE}),
    case("lane-left-too-narrow", IDLE, base=EMITTER),
    case("taper-too-short", MEETS, {"traffic.taper": "27.78 ft"}),
    case("taper-too-short", FAILS, {"traffic.taper": "27.77 ft"}),
    case("taper-too-short", MEETS, {"traffic.taper": "8.47 m"}),
    case("taper-too-short", FAILS, {"traffic.taper": "8.46 m"}),
    case("taper-too-short", IDLE, {"traffic.taper": GONE}),
    case("taper-too-short", ASK, rules=rule("traffic.taper", ask="police")),
    case("work-outside-hours", MEETS),
    case("work-outside-hours", MEETS, {"traffic.hours_from": "07:00", "traffic.hours_to": "19:00"}),
    case("work-outside-hours", FAILS, {"traffic.hours_from": "06:59"}),
    case("work-outside-hours", FAILS, {"traffic.hours_to": "19:01"}),
    case(
        "work-outside-hours",
        FAILS,
        rules=rule("traffic.hours", hours=["07:00-19:00"], days="Tue-Fri"),
    ),
    case("work-outside-hours", IDLE, {"traffic.hours_from": GONE}),
    case("work-outside-hours", IDLE, base=NOTCH),
    case("work-outside-hours", MEETS, SPLIT | {"traffic.pause": "11:00-13:00"}, SPLIT_HOURS),
    case("work-outside-hours", FAILS, SPLIT | {"traffic.pause": "11:01-13:00"}, SPLIT_HOURS),
    case("work-outside-hours", FAILS, SPLIT, SPLIT_HOURS),
    case("work-outside-hours", MEETS, rules=week("07:00-16:30")),
    case("work-outside-hours", FAILS, rules=week("07:00-16:29")),
    case("work-outside-hours", FAILS, {"dates.finish": date(2026, 5, 2)}, week("07:00-19:00")),
    case("drive-blocked", IDLE),
    case("drive-blocked", MEETS, {"traffic.drive_blocked": "yes"}),
    case(
        "drive-blocked", FAILS, {"traffic.drive_blocked": "yes", "traffic.neighbours_told": False}
    ),
    case(
        "drive-blocked", FAILS, {"traffic.bus_stop_in_zone": True, "traffic.neighbours_told": False}
    ),
]

RESTORATION = [
    case("restored-by-others", IDLE),
    case("restored-by-others", MEETS, rules=rule("restore.by", one_of=["applicant"])),
    case("restored-by-others", FAILS, rules=rule("restore.by", one_of=["town"])),
    case(
        "restored-by-others",
        MEETS,
        {"restoration.by": "town"},
        rule("restore.by", one_of=["town"]),
    ),
    case("restored-by-others", ASK, rules=rule("restore.by", ask="engineer")),
    case("asphalt-strip-too-narrow", IDLE),
    *limits(
        "asphalt-strip-too-narrow",
        "restore.asphalt_strip",
        "at_least",
        changes={"cut.pavement_cut": "24 in"},
        meets=["24 in", "609.6 mm"],
        fails=["24 1/8 in", "610 mm"],
    ),
    *limits(
        "joints-too-far-apart",
        "walk.joint_spacing",
        "at_most",
        meets=["5 ft", "1524 mm"],
        fails=["4 ft 11 in", "1.523 m"],
    ),
    case("joints-too-far-apart", IDLE),
    case("joints-too-far-apart", IDLE, BORED, rule("walk.joint_spacing", at_most="1 ft")),
    case("restoration-does-not-match", MEETS),
    case("restoration-does-not-match", FAILS, {"restoration.matches": False}),
    case("restoration-not-stated", MEETS),
    case("restoration-not-stated", FAILS, {"restoration.seed": GONE}, item="seed"),
    case(
        "restoration-not-stated", FAILS, {"restoration.score_pattern": GONE}, item="score pattern"
    ),
    case("restoration-not-stated", IDLE, rules=rule("restore.state", no_rule=True), alone=True),
    case("curb-piece-too-short", IDLE),
    case("curb-piece-too-short", MEETS, {"cut.curb_removed": "10 ft"}),
    case("curb-piece-too-short", FAILS, {"cut.curb_removed": "9 ft 11 in"}),
    case("curb-piece-too-short", MEETS, {"cut.curb_removed": "3048 mm"}),
    case("curb-piece-too-short", FAILS, {"cut.curb_removed": "3 m"}),
    case("curb-piece-too-short", MEETS, {"cut.curb_removed": "3 ft", "restoration.dowels": True}),
    case("curb-piece-too-short", FAILS, {"cut.curb_removed": "35 in", "restoration.dowels": True}),
    case("grout-wrong-kind", MEETS),
    case("grout-wrong-kind", FAILS, {"restoration.grout": "mortar"}),
    case("grout-wrong-kind", IDLE, {"restoration.grout": GONE}),
    case("grout-wrong-kind", IDLE, base=NOTCH),
    case("grout-wrong-kind", MEETS, base=EMITTER),
    case("lift-too-thick", MEETS, {"restoration.lift": "6 in"}),
    case("lift-too-thick", FAILS, {"restoration.lift": "6 1/8 in"}),
    case("lift-too-thick", MEETS, {"restoration.lift": "152.4 mm"}),
    case("lift-too-thick", FAILS, {"restoration.lift": "153 mm"}),
    case("backfill-too-loose", MEETS, {"restoration.density": "95 %"}),
    case("backfill-too-loose", FAILS, {"restoration.density": "94.9 %"}),
    case("backfill-too-loose", MEETS, {"restoration.density": "0.95"}),
    case("backfill-too-loose", FAILS, {"restoration.density": "0.94"}),
    case("open-too-early", MEETS),
    case("open-too-early", FAILS, {"restoration.hours_to_feet": 23}, item="feet"),
    case("open-too-early", FAILS, {"restoration.days_to_wheels": 6}, item="wheels"),
    case("open-too-early", MEETS, rules=rule("restore.to_feet", span="1 day"), item="feet"),
    case("open-too-early", FAILS, rules=rule("restore.to_feet", span="2 days"), item="feet"),
    case("open-too-early", MEETS, rules=rule("restore.to_wheels", span="1 week"), item="wheels"),
    case("open-too-early", FAILS, rules=rule("restore.to_feet", span="no end"), item="feet"),
    case("open-too-early", IDLE, {"restoration.hours_to_feet": GONE}, item="feet"),
    case("tree-roots-cut", IDLE),
    case("tree-roots-cut", FAILS, UNDER_TREE),
    case("tree-roots-cut", MEETS, UNDER_TREE | {"papers.tree_statement": True}),
    case("tree-roots-cut", IDLE, {"feature.2.near": "17 ft", "feature.2.drip_line": "5 ft"}),
]

CASES = [*WALK, *ACCESS, *TRAFFIC, *RESTORATION]
